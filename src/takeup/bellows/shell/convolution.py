"""What one convolution is worth, for thousands of shapes in one call.     (bellows/shell/convolution.py)

The numbers that everything above stands on, of an inner convolution of a long bellows: stiffness, effective area, peaks
of stress per metre and per pascal.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array, Bellows, chosen, root_middle_radius, wall
from takeup.bellows.shell.axisymmetric import MOVEMENT, PRESSURE, HalfConvolution, solve_half
from takeup.bellows.shell.element import face_depth
from takeup.bellows.shell.reference import Reference, reference
from takeup.bellows.shell.stresses import Peak, Stresses, peak, stresses
from takeup.bellows.shell.whole import half_meridian, has_wall

FINE, QUICK = 10, 6  # orders of the elements: the peaks of all but the thinnest within 0.1 %, and within 1 %
_MERIDIONAL = ("bending", "inner", "outer")  # the stresses whose peaks are wanted
_FEW = 256  # shapes solved together: their matrices stay near the processor


@dataclass(frozen=True, kw_only=True, slots=True)
class Convolution:
    """One inner convolution of a long bellows, all plies, n shapes; shape (n,) each.

    Args:
        axial_stiffness: f [N/m].
        effective_area: thrust on held ends per pressure [m2].
        bending_per_movement: greatest absolute meridional bending stress per movement of one convolution [Pa/m].
        surface_per_movement: greatest absolute meridional surface stress, curved wall [Pa/m].
        bending_per_pressure: the same per pressure [Pa/Pa].
        surface_per_pressure: the same per pressure [Pa/Pa].
        hoop_mean_per_pressure: mean hoop stress over the metal area [Pa/Pa].
        free_extension_per_pressure: how far one convolution lengthens where its closed ends are free, A_e/f [m/Pa]; it
            shortens as far under a pressure from outside.
        bending_free_per_pressure: greatest absolute bending stress then, of pressure and movement [Pa/Pa].
        surface_free_per_pressure: greatest absolute surface stress then [Pa/Pa].
        bending_movement_place: where on the half meridian the greatest is, 0 at the root, 1 at the crest.
        surface_movement_place: the same. bending_pressure_place: the same. surface_pressure_place: the same.
    """

    axial_stiffness: Array
    effective_area: Array
    bending_per_movement: Array
    surface_per_movement: Array
    bending_per_pressure: Array
    surface_per_pressure: Array
    hoop_mean_per_pressure: Array
    free_extension_per_pressure: Array
    bending_free_per_pressure: Array
    surface_free_per_pressure: Array
    bending_movement_place: Array
    surface_movement_place: Array
    bending_pressure_place: Array
    surface_pressure_place: Array


def convolutions(
    shape: Bellows, modulus: Array, poisson: Array, *, order: int = FINE, outside: bool = False
) -> Convolution:
    """Return what one convolution of each shape is worth.

    Args:
        shape: n bellows; only their convolution counts.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        order: of the elements, from 4: `FINE` for one bellows, `QUICK` for many.
        outside: whether the unit pressure is outside.

    Returns:
        n answers; nan where the arcs overlap, which is no shape (`impossible`).
    """
    of = reference(order)
    walled, there = has_wall(shape), ~np.isnan(wall(shape).length)
    if len(shape) <= _FEW and bool(walled.all()):  # one bellows, or a few alike: nothing to sort
        return Convolution(**_some(shape, modulus, poisson, of, outside=outside))
    answer = {name: np.full(len(shape), np.nan) for name in Convolution.__dataclass_fields__}
    for group in (np.flatnonzero(walled & there), np.flatnonzero(~walled & there)):
        for start in range(0, len(group), _FEW):
            rows = group[start : start + _FEW]
            some = _some(chosen(shape, rows), modulus[rows], poisson[rows], of, outside=outside)
            for name, values in some.items():
                answer[name][rows] = values
    return Convolution(**answer)


def solved(
    shape: Bellows, modulus: Array, poisson: Array, of: Reference, *, outside: bool
) -> tuple[HalfConvolution, Stresses]:
    """Return half convolutions and their stresses; all shapes have a wall, or none has."""
    half = solve_half(half_meridian(shape), modulus, poisson, of, outside=outside)
    return half, stresses(half, modulus, poisson, of)


def _some(shape: Bellows, modulus: Array, poisson: Array, of: Reference, *, outside: bool) -> dict[str, Array]:
    half, stress = solved(shape, modulus, poisson, of, outside=outside)
    length = half.segments.length.sum(axis=1)
    crest = root_middle_radius(shape) + shape.height
    face = face_depth(half.segments, outside=outside)[:, -1]
    thrust = half.held_thrust if not outside else -half.held_thrust
    area = np.pi * (crest + face) ** 2 + thrust
    free = area / half.axial_stiffness
    answer = {
        "axial_stiffness": half.axial_stiffness,
        "effective_area": area,
        "hoop_mean_per_pressure": _mean(half, stress, of),
        "free_extension_per_pressure": free,
    }
    free_movement = -free if outside else free
    for cause, (bending, surface) in _peaks(stress, free_movement).items():
        for name, top in (("bending", bending), ("surface", surface)):
            if cause == "free":
                answer[f"{name}_free_per_pressure"] = top.value
            else:
                answer[f"{name}_per_{cause}"] = top.value
                answer[f"{name}_{cause}_place"] = top.along / length
    return answer


def _peaks(stress: Stresses, free_movement: Array) -> dict[str, tuple[Peak, Peak]]:
    """Return the peaks of bending and of surface stress, by movement, by pressure and with the ends free."""
    three = np.stack([getattr(stress, name) for name in _MERIDIONAL])
    moved, pressed = three[..., MOVEMENT], three[..., PRESSURE]
    found = peak(stress.along, np.stack((moved, pressed, pressed + free_movement[:, None, None] * moved)))
    answer = {}
    for number, cause in enumerate(("movement", "pressure", "free")):
        bending, inner, outer = (
            Peak(value=value, along=along)
            for value, along in zip(found.value[number], found.along[number], strict=True)
        )
        answer[cause] = (bending, _greater(inner, outer))
    return answer


def _greater(one: Peak, other: Peak) -> Peak:
    first = one.value >= other.value
    return Peak(value=np.where(first, one.value, other.value), along=np.where(first, one.along, other.along))


def _mean(half: HalfConvolution, stress: Stresses, of: Reference) -> Array:
    """Return the mean hoop stress of the pressure case over the metal area, shape (n,)."""
    length = half.segments.length
    by_element = (stress.hoop[..., PRESSURE] @ of.sample_weights) * length / 2.0
    return np.asarray(by_element.sum(axis=1) / length.sum(axis=1))


__all__ = ["FINE", "QUICK", "Convolution", "convolutions", "solved"]
