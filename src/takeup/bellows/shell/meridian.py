"""The meridian of the shell, in segments each of one curvature.     (bellows/shell/meridian.py)

A segment starts at a radius and a height along the axis, at an angle psi from the axis, and turns evenly. The tangent
points along the segment, t = (sin psi, cos psi) in (radius, axis); the normal n = (cos psi, -sin psi) points away from
the fluid inside. A depth zeta counts along n from the middle surface. There

    length along the meridian  ds (1 + zeta k_1),  k_1 = -psi'
    length round the axis      r dtheta (1 + zeta k_2),  k_2 = cos(psi)/r.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array, Bellows, root_middle_radius, stack_thickness, thinned_thickness, wall


@dataclass(frozen=True, kw_only=True, slots=True)
class Segments:
    """Segments of constant curvature and thickness; all fields have one shape, (e,) or any other.

    Args:
        radius: r where the segment starts [m].
        axial: z where it starts [m].
        angle: psi where it starts [rad].
        turn: psi' [rad/m].
        length: [m].
        thickness: of one ply [m].
        plies: how many, each bending by itself.
    """

    radius: Array
    axial: Array
    angle: Array
    turn: Array
    length: Array
    thickness: Array
    plies: Array

    def reshaped(self, *shape: int) -> Segments:
        """Return the same segments in another shape."""
        return Segments(**{name: getattr(self, name).reshape(shape) for name in Segments.__dataclass_fields__})


@dataclass(frozen=True, kw_only=True, slots=True)
class Places:
    """Places on segments, shape (e, g) each: radius and axial place [m], sine and cosine of psi, k_2 [1/m]."""

    radius: Array
    axial: Array
    sine: Array
    cosine: Array
    hoop_curvature: Array


def half_convolution(shape: Bellows) -> Segments:
    """Return root arc, wall and crest arc of each bellows, from the plane of the root (z = 0) to that of the crest.

    Returns:
        Segments of shape (n, 3). A wall of no length stays, with length 0.
    """
    straight = wall(shape)
    start = root_middle_radius(shape)
    sine, cosine = np.sin(straight.angle), np.cos(straight.angle)
    nothing = np.zeros(len(shape))
    foot = start + shape.root_radius * (1.0 - cosine)
    radius = np.stack((start, foot, foot + straight.length * sine), axis=1)
    aside = shape.root_radius * sine
    axial = np.stack((nothing, aside, aside + straight.length * cosine), axis=1)
    angle = np.stack((nothing, straight.angle, straight.angle), axis=1)
    turn = np.stack((1.0 / shape.root_radius, nothing, -1.0 / shape.crest_radius), axis=1)
    length = np.stack(
        (straight.angle * shape.root_radius, straight.length, straight.angle * shape.crest_radius), axis=1
    )
    thickness = np.repeat(thinned_thickness(shape)[:, None], 3, axis=1)
    plies = np.repeat(shape.plies[:, None], 3, axis=1)
    return Segments(radius=radius, axial=axial, angle=angle, turn=turn, length=length, thickness=thickness, plies=plies)


def tangent(shape: Bellows) -> Segments:
    """Return the cylinder at one end of each bellows, its plies together one wall, ending at z = 0; shape (n, 1).

    Its wall is as thick as the plies as bought, n t: a tangent is not thinned by forming.
    """
    one = (len(shape), 1)
    return Segments(
        radius=root_middle_radius(shape).reshape(one),
        axial=-shape.tangent_length.reshape(one),
        angle=np.zeros(one),
        turn=np.zeros(one),
        length=shape.tangent_length.reshape(one),
        thickness=stack_thickness(shape).reshape(one),
        plies=np.ones(one),
    )


def halves(segments: Segments, parts: int) -> Segments:
    """Return each segment of shape (n, m) cut into `parts` of equal length, shape (n, m * parts)."""
    count, segment = segments.radius.shape
    share = np.arange(parts) / parts * 2.0 - 1.0
    at = places(segments.reshaped(-1), share)
    wide = (count, segment * parts)

    def spread(field: Array) -> Array:
        return np.repeat(field, parts, axis=1)

    along = (np.arange(parts) / parts)[None, None, :] * segments.length[:, :, None]
    return Segments(
        radius=at.radius.reshape(wide),
        axial=at.axial.reshape(wide),
        angle=(segments.angle[:, :, None] + segments.turn[:, :, None] * along).reshape(wide),
        turn=spread(segments.turn),
        length=spread(segments.length) / parts,
        thickness=spread(segments.thickness),
        plies=spread(segments.plies),
    )


def places(segments: Segments, share: Array) -> Places:
    """Return where places lie on segments.

    The chord from the start to a place s along an arc has the length s sinc(psi' s/2) and the direction half way,
    which holds for a straight segment too.

    Args:
        segments: shape (e,).
        share: along each segment, from -1 at its start to 1 at its end, shape (g,).

    Returns:
        Places of shape (e, g).
    """
    along = segments.length[:, None] * ((share + 1.0) / 2.0)
    half = segments.turn[:, None] * along / 2.0
    chord = along * np.sinc(half / np.pi)
    direction = segments.angle[:, None] + half
    radius = segments.radius[:, None] + chord * np.sin(direction)
    axial = segments.axial[:, None] + chord * np.cos(direction)
    psi = direction + half
    cosine = np.cos(psi)
    return Places(radius=radius, axial=axial, sine=np.sin(psi), cosine=cosine, hoop_curvature=cosine / radius)


__all__ = ["Places", "Segments", "half_convolution", "halves", "places", "tangent"]
