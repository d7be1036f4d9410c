"""Longitudinal stress from loads that stay, against the hot allowable.     (checks/sustained_stress.py)

What: the sustained stress of the code at every end of every piece, in every state but the test. Why: weight and
pressure do not relax as growth does; a pipe that cannot carry them falls. Source: ASME B31.1 104.8.1, ASME B31.3
320.2, EN 13480-3 12.3.2, from memory. Limits: nominal wall in B31.1 and EN, less the allowance in B31.3; what
touches in the state holds. Passes: a level pipe on close rests. Fails: the same pipe with every second rest left out.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.basis import sustained_stress
from takeup.checks.many_points import governing_of, sustained_at_all
from takeup.checks.outcome import CheckResult, Rule
from takeup.checks.stress_points import (
    STAYING,
    Point,
    StretchPoints,
    allowables_of,
    as_moments,
    moments_at,
    pressures_at,
    stretches_with_points,
    wall_forces,
)
from takeup.line import Stretch
from takeup.study import LineAnswer

RULE = Rule(
    name="sustained_stress",
    title="sustained stress",
    what="longitudinal stress from pressure, weight and loads that stay, with the code's factors, against S_h",
    why="pressure and weight do not relax: a pipe that cannot carry them gives way",
    source="ASME B31.1 104.8.1, ASME B31.3 320.2, EN 13480-3 12.3.2 (from memory)",
    limits="the allowable is the user's; the pressure test is judged by the wall stress",
)
_MEMORY = "from memory"


def check(answer: LineAnswer, places: StretchPoints | None = None) -> list[CheckResult]:
    """Return the governing point and state of every stretch, and the fittings that the code's tables do not reach."""
    results = []
    for stretch, points in stretches_with_points(answer, places):
        known = [point for point in points if point.spot.factors is not None]
        results += not_reached(RULE, points)
        if known:
            results.append(_of_stretch(answer, stretch, known))
    return results


def not_reached(rule: Rule, points: list[Point]) -> list[CheckResult]:
    """Return one result for each fitting whose factors are not covered."""
    missing = {point.spot.words: point.spot.because for point in points if point.spot.factors is None}
    return [rule.result(words, "all states", "not covered", because) for words, because in missing.items()]


def _of_stretch(answer: LineAnswer, stretch: Stretch, points: list[Point]) -> CheckResult:
    stated = [allowables_of(answer, point.pipe).hot for point in points]
    limits = [None if limit is None else limit.value for limit in stated]
    stresses = sustained_at_all(answer, points).max(axis=1)
    return governing_of(stresses, limits, limits, lambda number: _at(answer, stretch, points[number]))


def _at(answer: LineAnswer, stretch: Stretch, point: Point) -> CheckResult:
    stresses = sustained_at(answer, point)
    number = int(np.argmax(stresses))
    limit = allowables_of(answer, point.pipe).hot
    words = f"{point.words()}, {stresses[number] / 1e6:.1f} MPa"
    words += "; no hot allowable stress is stated" if limit is None else f"; limit: S_h, {limit.source}"
    return RULE.judge(
        stretch.name,
        answer.states[number].name,
        float(stresses[number]) / 1e6,
        None if limit is None else limit.value / 1e6,
        "MPa",
        because=words,
        status=_MEMORY,
    )


def sustained_at(answer: LineAnswer, point: Point) -> NDArray[np.float64]:
    """Return the sustained stress at a point in every state, zero in the test, (states,) [Pa]."""
    moments, force = moments_at(answer, point, STAYING), wall_forces(answer, point, STAYING)
    pressures = pressures_at(answer, point)
    stress = sustained_stress(
        answer.study.basis.code,
        factors=point.factors,
        moments=as_moments(moments),
        pressure=np.maximum(pressures, 0.0),
        axial_force=force,
        outside_diameter=point.pipe.size.outside_diameter,
        wall=point.pipe.wall,
        allowance=point.pipe.corrosion_allowance,
        modulus_of_section=point.spot.section_modulus,
    )
    return np.where([state.kind == "test" for state in answer.states], 0.0, stress)
