"""Stress range from growth and movement, against the allowable range.     (checks/expansion_stress.py)

What: the range between any two states of the stress from growth, preset and moving supports, with the code's factors,
at every end of every piece. Why: repeated bending from growth cracks bends and welds. Source: ASME B31.1 104.8.3, ASME
B31.3 319.4.4, EN 13480-3 12.3.4, from memory. Limits: the allowable range is the user's, or S_A from the user's cold
and hot allowables with what the sustained stress leaves. Passes: a long L. Fails: a short one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.basis import allowable_range, expansion_stress
from takeup.checks.many_points import alike, governing_of, ranges_at_all, sustained_at_all
from takeup.checks.outcome import CheckResult, Rule
from takeup.checks.stress_points import (
    MOVING,
    Point,
    StretchPoints,
    allowables_of,
    as_moments,
    moments_at,
    stretches_with_points,
    wall_forces,
)
from takeup.checks.sustained_stress import not_reached, sustained_at
from takeup.errors import OutOfRange
from takeup.line import Stretch
from takeup.study import LineAnswer

RULE = Rule(
    name="expansion_stress",
    title="expansion stress range",
    what="stress range from growth, preset and moving supports between any two states, with the code's factors",
    why="repeated bending from growth cracks bends and welds",
    source="ASME B31.1 104.8.3, ASME B31.3 319.4.4, EN 13480-3 12.3.4 (from memory)",
    limits="the allowable range is the user's, or follows from the user's cold and hot allowable stresses",
)
NOTHING = 0.5  # MPa: a stress that no allowable range could fail
_MEMORY = "from memory"
_ALIKE = 1e-6  # of the greatest moment: two states with the same growth


@dataclass(frozen=True, kw_only=True, slots=True)
class Range:
    """The greatest range at a point [Pa], and the two states between which it lies."""

    stress: float
    first: int
    second: int


def check(answer: LineAnswer, places: StretchPoints | None = None) -> list[CheckResult]:
    """Return the governing point of every stretch, and the fittings that the code's tables do not reach."""
    results = []
    for stretch, points in stretches_with_points(answer, places):
        known = [point for point in points if point.spot.factors is not None]
        results += not_reached(RULE, points)
        if known:
            results.append(_of_stretch(answer, stretch, known))
    return results


def range_at(answer: LineAnswer, point: Point) -> Range:
    """Return the greatest stress range at a point between any two states."""
    loads = np.column_stack([moments_at(answer, point, MOVING), wall_forces(answer, point, MOVING)])
    kept = _different(loads)
    first, second = np.triu_indices(len(kept), 1)
    if len(first) == 0:
        return Range(stress=0.0, first=0, second=0)
    change = loads[kept][second] - loads[kept][first]
    stress = expansion_stress(
        answer.study.basis.code,
        factors=point.factors,
        moments=as_moments(change[:, :3]),
        axial_force=change[:, 3],
        outside_diameter=point.pipe.size.outside_diameter,
        wall=point.pipe.wall,
        modulus_of_section=point.spot.section_modulus,
    )
    best = int(np.argmax(stress))
    if not stress[best] > 0.0:
        return Range(stress=0.0, first=0, second=0)
    return Range(stress=float(stress[best]), first=int(kept[first[best]]), second=int(kept[second[best]]))


def _different(rows: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return the first of each set of states that bend a point alike."""
    scale = float(np.abs(rows).max(initial=0.0))
    alike = np.abs(rows[:, None] - rows).max(axis=2) <= _ALIKE * scale
    kept, known = [], np.zeros(len(rows), dtype=bool)
    for number, others in enumerate(alike):
        if not known[number]:
            kept.append(number)
            known |= others
    return np.array(kept)


def _of_stretch(answer: LineAnswer, stretch: Stretch, points: list[Point]) -> CheckResult:
    ranges, sustained = ranges_at_all(answer, points), sustained_at_all(answer, points).max(axis=1)
    greatest = points[int(ranges.argmax())]
    if range_at(answer, greatest).stress / 1e6 < NOTHING:
        return RULE.result(stretch.name, "all states", "passes", "growth bends nothing here", unit="MPa")
    least, most = (list[float | None]([None] * len(points)) for _ in range(2))
    for own, _ in alike(answer, points):  # the more sustained stress, the less is left for growth
        order = own[np.argsort(sustained[own])]
        for limits, number in ((least, order[-1]), (most, order[0])):
            limit, _ = _limit(answer, points[number])
            for place in own.tolist():
                limits[place] = limit
    return governing_of(ranges / 1e6, least, most, lambda number: _at(answer, stretch, points[number]))


def _at(answer: LineAnswer, stretch: Stretch, point: Point) -> CheckResult:
    found = range_at(answer, point)
    states = f"{answer.states[found.first].name} - {answer.states[found.second].name}"
    words = f"{point.words()}, i = {max(point.factors.in_plane, point.factors.out_of_plane):.2f}"
    limit, source = _limit(answer, point)
    words += f"; {source}" if limit is None else f"; limit: {source}"
    return RULE.judge(stretch.name, states, found.stress / 1e6, limit, "MPa", because=words, status=_MEMORY)


def _limit(answer: LineAnswer, point: Point) -> tuple[float | None, str]:
    """Return the allowable range [MPa] and where it comes from, or why there is none."""
    stated = allowables_of(answer, point.pipe)
    if stated.expansion_stress_range is not None:
        return stated.expansion_stress_range.value / 1e6, stated.expansion_stress_range.source
    if stated.cold is None or stated.hot is None:
        return None, "no allowable range is stated, nor cold and hot allowable stresses to make one from"
    study, modulus = answer.study, point.pipe.material.modulus
    temperatures = [state.at(answer.line.name, point.station).temperature for state in answer.states]
    try:
        limit = allowable_range(
            study.basis.code,
            cold_allowable=stated.cold.value,
            hot_allowable=stated.hot.value,
            cycles=float(sum(cycle.count for cycle in study.cycles)),
            sustained=float(sustained_at(answer, point).max()),
            cold_modulus=modulus.at(study.site.installation),
            hot_modulus=modulus.at(max(temperatures)),
        )
    except OutOfRange as reason:
        return None, str(reason)
    return limit / 1e6, f"S_A from S_c: {stated.cold.source}; S_h: {stated.hot.source}"
