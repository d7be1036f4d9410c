"""The shape of a bellows: what is stated, what follows from it, and which shapes cannot be.     (bellows/geometry.py)

A `Bellows` holds any number of bellows at once: every field is an array of shape (n,). The meridian of one convolution
is an arc at the root, a straight wall and an arc at the crest, each arc with a mean radius of its own. Where the radii
fill half the pitch the walls are parallel; where they are smaller the walls are splayed, where larger re-entrant. All
plies together are the stack; radii, height and pitch are those of its middle surface.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Array: TypeAlias = npt.NDArray[np.float64]
_TOUCH = 1e-9  # of the pitch: radii that fill half the pitch to rounding leave a wall of no length, which may be


@dataclass(frozen=True, kw_only=True, slots=True)
class Bellows:
    """U-shaped bellows, n of them: every field has shape (n,).

    Args:
        inside_diameter: D_b, of the tangents and of the roots [m].
        height: w, from the middle surface at the root to that at the crest [m].
        pitch: q, from crest to crest [m].
        convolutions: N, whole numbers from 1.
        plies: n, whole numbers from 1.
        ply_thickness: t, of one ply as bought [m].
        crest_radius: mean radius of the arc at the crest [m].
        root_radius: mean radius of the arc at the root [m].
        tangent_length: L_t, of the cylinder at each end, 0 where there is none [m].
        collar_thickness: t_c, of a collar round each tangent, 0 where there is none [m].
        collar_length: L_c [m].
    """

    inside_diameter: Array
    height: Array
    pitch: Array
    convolutions: Array
    plies: Array
    ply_thickness: Array
    crest_radius: Array
    root_radius: Array
    tangent_length: Array
    collar_thickness: Array
    collar_length: Array

    def __len__(self) -> int:
        return int(self.inside_diameter.shape[0])


def bellows(
    *,
    inside_diameter: npt.ArrayLike,
    height: npt.ArrayLike,
    pitch: npt.ArrayLike,
    convolutions: npt.ArrayLike = 1.0,
    plies: npt.ArrayLike = 1.0,
    ply_thickness: npt.ArrayLike,
    crest_radius: npt.ArrayLike | None = None,
    root_radius: npt.ArrayLike | None = None,
    tangent_length: npt.ArrayLike = 0.0,
    collar_thickness: npt.ArrayLike = 0.0,
    collar_length: npt.ArrayLike = 0.0,
) -> Bellows:
    """Return bellows from numbers or arrays that fit one another; a radius left out is a quarter of the pitch."""
    quarter = np.asarray(pitch, dtype=float) / 4.0
    fields = (
        inside_diameter,
        height,
        pitch,
        convolutions,
        plies,
        ply_thickness,
        quarter if crest_radius is None else crest_radius,
        quarter if root_radius is None else root_radius,
        tangent_length,
        collar_thickness,
        collar_length,
    )
    arrays = np.broadcast_arrays(*(np.atleast_1d(np.asarray(field, dtype=float)) for field in fields))
    return Bellows(
        **dict(zip(Bellows.__dataclass_fields__, (np.ascontiguousarray(one) for one in arrays), strict=True))
    )


def chosen(shape: Bellows, rows: npt.NDArray[np.intp] | npt.NDArray[np.bool_] | slice) -> Bellows:
    """Return some of the bellows, by number, mask or slice."""
    return Bellows(**{name: getattr(shape, name)[rows] for name in Bellows.__dataclass_fields__})


def stack_thickness(shape: Bellows) -> Array:
    """Return n t, of all plies as bought [m], shape (n,)."""
    return shape.plies * shape.ply_thickness


def mean_diameter(shape: Bellows) -> Array:
    """Return the mean diameter of the convolutions.

        D_m = D_b + w + n t                                                (EJMA form, from memory)

    Returns:
        D_m [m], shape (n,).
    """
    return shape.inside_diameter + shape.height + stack_thickness(shape)


def thinned_thickness(shape: Bellows) -> Array:
    """Return the thickness of one ply after forming has thinned it.

        t_p = t sqrt(D_b / D_m)                                            (EJMA form, from memory)

    Returns:
        t_p [m], shape (n,).
    """
    return shape.ply_thickness * np.sqrt(shape.inside_diameter / mean_diameter(shape))


def root_middle_radius(shape: Bellows) -> Array:
    """Return the distance from the axis to the stack's middle surface at the root, (D_b + n t)/2 [m], shape (n,)."""
    return (shape.inside_diameter + stack_thickness(shape)) / 2.0


def live_length(shape: Bellows) -> Array:
    """Return the length of all convolutions, N q [m], shape (n,)."""
    return shape.convolutions * shape.pitch


@dataclass(frozen=True, kw_only=True, slots=True)
class Wall:
    """The straight part of the meridian between root and crest, shape (n,) each.

    Args:
        angle: phi, through which each arc turns [rad]: a right angle for parallel walls, less where they are splayed,
            more where they are re-entrant.
        length: of the wall [m].
    """

    angle: Array
    length: Array


def wall(shape: Bellows) -> Wall:
    """Return the common tangent of the two arcs of half a convolution.

        L^2 = (q/2)^2 + (w - r)^2 - r^2,  r = r_crest + r_root
        q/2 = L cos(phi) + r sin(phi),  w - r = L sin(phi) - r cos(phi)    (first principles)

    Returns:
        The wall; its length is nan where the arcs overlap and have no such tangent.
    """
    both, half = shape.crest_radius + shape.root_radius, shape.pitch / 2.0
    above = shape.height - both
    square = half**2 + above**2 - both**2
    square = np.where(np.abs(square) <= _TOUCH * half**2, 0.0, square)
    with np.errstate(invalid="ignore"):
        length = np.sqrt(square)
    angle = np.arctan2(both * half + length * above, length * half - both * above)
    return Wall(angle=angle, length=length)


def metal_length(shape: Bellows) -> Array:
    """Return the true length of the meridian of one convolution [m], shape (n,)."""
    straight = wall(shape)
    return 2.0 * (straight.length + straight.angle * (shape.crest_radius + shape.root_radius))


__all__ = [
    "Array",
    "Bellows",
    "Wall",
    "bellows",
    "chosen",
    "live_length",
    "mean_diameter",
    "metal_length",
    "root_middle_radius",
    "stack_thickness",
    "thinned_thickness",
    "wall",
]
