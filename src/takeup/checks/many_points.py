"""All points of a stretch at once: which of them can govern.     (checks/many_points.py)

A stretch of a kilometre has a thousand points, and one row speaks for all. What a rule asks of every point is worked
out here in arrays, and the rule's own words and numbers then for those alone that come within `NEAR` of the greatest:
whichever of them governs is found as if all had been looked at one by one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from takeup.basis import Moments, expansion_stress, sustained_stress
from takeup.checks.outcome import CheckResult, governing_row
from takeup.checks.stress_points import MOVING, STAYING, Floats, Point
from takeup.line import bore_area
from takeup.study import CAUSES, LineAnswer

NEAR = 1e-5  # of the greatest: beyond rounding, and beyond what states count as alike that bend a point alike
_PAIRS = 2_000_000  # numbers at once: so many pairs of states of points are looked at together

Integers = NDArray[np.int64]


def moments_at_all(answer: LineAnswer, points: Sequence[Point], causes: Sequence[str]) -> Floats:
    """Return torsion, in-plane and out-of-plane moment at points from some causes, (points, states, 3) [N m]."""
    chosen = [CAUSES.index(cause) for cause in causes]
    place, end = (np.array([getattr(point, name) for point in points]) for name in ("place", "end"))
    moment = answer.end_moments[:, chosen].sum(axis=1)[:, place, end]
    return np.asarray(np.einsum("spj,pij->psi", moment, np.array([point.axes for point in points])))


def wall_forces_at_all(answer: LineAnswer, points: Sequence[Point], causes: Sequence[str]) -> Floats:
    """Return the axial force in the wall at points from some causes, tension above zero, (points, states) [N]."""
    chosen = [CAUSES.index(cause) for cause in causes]
    place = np.array([point.place for point in points])
    force = answer.effective_forces[:, chosen].sum(axis=1)[:, place].T
    if "pressure" in causes:
        areas = {id(point.pipe): bore_area(point.pipe) for point in points}
        force = force + np.array([areas[id(point.pipe)] for point in points])[:, None] * answer.pressures[:, place].T
    return np.asarray(force)


def alike(answer: LineAnswer, points: Sequence[Point]) -> Iterator[tuple[Integers, Point]]:
    """Yield the numbers of points with one pipe, one fitting's factors and one zone, with the first of them.

    Args:
        answer: of their line.
        points: of a stretch.
    """
    found: dict[object, list[int]] = {}
    for number, point in enumerate(points):
        key = id(point.pipe), point.spot.factors, point.spot.section_modulus, answer.model.pieces[point.place].zone
        found.setdefault(key, []).append(number)
    for numbers in found.values():
        yield np.array(numbers), points[numbers[0]]


def sustained_at_all(answer: LineAnswer, points: Sequence[Point]) -> Floats:
    """Return the sustained stress at points in every state, zero in the test, (points, states) [Pa]."""
    moments, forces = (make(answer, points, STAYING) for make in (moments_at_all, wall_forces_at_all))
    pressures = np.maximum(answer.pressures[:, [point.place for point in points]].T, 0.0)
    stress = np.empty(forces.shape)
    for own, first in alike(answer, points):
        stress[own] = sustained_stress(
            answer.study.basis.code,
            factors=first.factors,
            moments=_as_moments(moments[own]),
            pressure=pressures[own],
            axial_force=forces[own],
            outside_diameter=first.pipe.size.outside_diameter,
            wall=first.pipe.wall,
            allowance=first.pipe.corrosion_allowance,
            modulus_of_section=first.spot.section_modulus,
        )
    return np.where([state.kind == "test" for state in answer.states], 0.0, stress)


def ranges_at_all(answer: LineAnswer, points: Sequence[Point]) -> Floats:
    """Return the greatest stress range of growth at points between any two states, (points,) [Pa]."""
    moments, forces = (make(answer, points, MOVING) for make in (moments_at_all, wall_forces_at_all))
    first, second = np.triu_indices(forces.shape[1], 1)
    found = np.zeros(len(points))
    if len(first) == 0:
        return found
    for own, one in alike(answer, points):
        for some in np.array_split(own, 1 + len(own) * len(first) // _PAIRS):
            stress = expansion_stress(
                answer.study.basis.code,
                factors=one.factors,
                moments=_as_moments(moments[some][:, second] - moments[some][:, first]),
                axial_force=forces[some][:, second] - forces[some][:, first],
                outside_diameter=one.pipe.size.outside_diameter,
                wall=one.pipe.wall,
                modulus_of_section=one.spot.section_modulus,
            )
            found[some] = stress.max(axis=1)
    return found


def _as_moments(rows: Floats) -> Moments:
    """Return torsion, in-plane and out-of-plane moments, (..., 3), as the basis takes them."""
    return Moments(in_plane=rows[..., 1], out_of_plane=rows[..., 2], torsion=rows[..., 0])


def governing_of(
    demands: Floats, least: Sequence[float | None], most: Sequence[float | None], row: Callable[[int], CheckResult]
) -> CheckResult:
    """Return the row that speaks for all points, made for those alone that may be it.

    Args:
        demands: at each point, (points,).
        least: the limit at each is not below this; None where there is none.
        most: nor above this.
        row: of a point by its number.
    """
    free = np.array([limit is None for limit in least])
    if free.any():
        high = low = np.where(free, demands, -1.0)
    else:
        high, low = (_uses(demands, np.array(limits, dtype=float)) for limits in (least, most))
    greatest = float(low.max())
    reach = greatest if np.isinf(greatest) else greatest - NEAR * abs(greatest) - NEAR**2
    near = np.flatnonzero(high >= reach)
    return governing_row([row(int(number)) for number in near])


def _uses(demands: Floats, limits: Floats) -> Floats:
    """Return demands over limits; infinite where something is asked of nothing."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(demands <= 0.0, 0.0, np.where(limits > 0.0, demands / limits, np.inf))


__all__ = ["NEAR", "alike", "governing_of", "moments_at_all", "ranges_at_all", "sustained_at_all", "wall_forces_at_all"]
