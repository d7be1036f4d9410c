"""Longitudinal stress while an occasional load acts, against the greater limit.     (checks/occasional_stress.py)

What: the sustained stress plus that of wind, earthquake, relief or another load that comes and goes, in every state in
which the user lets one act. Why: what acts seldom may use more of the material, but not all of it. Source: ASME B31.1
104.8.2, ASME B31.3 302.3.6, EN 13480-3 12.3.3, from memory. Limits: the strictest factor of each code, because how long
a load acts is not asked. Passes: a short span in a breeze. Fails: a long unguided leg in a storm.
"""

from __future__ import annotations

import numpy as np

from takeup.basis import OCCASIONS, occasional_limit, occasional_stress
from takeup.checks.outcome import CheckResult, Rule, governing_row
from takeup.checks.stress_points import (
    Point,
    StretchPoints,
    allowables_of,
    as_moments,
    moments_at,
    stretches_with_points,
    wall_forces,
)
from takeup.checks.sustained_stress import sustained_at
from takeup.line import Stretch
from takeup.study import LineAnswer

RULE = Rule(
    name="occasional_stress",
    title="stress with an occasional load",
    what="sustained stress plus that of the user's occasional loads, in the states in which they act, against k S_h",
    why="wind, earthquake and relief come on top of pressure and weight",
    source="ASME B31.1 104.8.2, ASME B31.3 302.3.6, EN 13480-3 12.3.3 (from memory)",
    limits="static forces as typed in; the strictest k above one of the code; nothing to do where no such load acts",
)
_CAUSE = ("occasional loads",)


def occasion_of(answer: LineAnswer) -> str:
    """Return the occasion with the strictest factor above one that the code knows."""
    known = OCCASIONS[answer.study.basis.code]
    return min((words for words in known if known[words] > 1.0), key=lambda words: known[words])


def check(answer: LineAnswer, places: StretchPoints | None = None) -> list[CheckResult]:
    """Return the governing point of every stretch in which an occasional load acts."""
    occasional = {load.name for load in answer.study.loads if load.duration == "occasional"}
    acting = [number for number, state in enumerate(answer.states) if occasional & set(state.loads)]
    if not acting:
        return []
    return [
        _of_stretch(answer, stretch, known, acting)
        for stretch, points in stretches_with_points(answer, places)
        if (known := [point for point in points if point.spot.factors is not None])
    ]


def _of_stretch(answer: LineAnswer, stretch: Stretch, points: list[Point], acting: list[int]) -> CheckResult:
    code, occasion = answer.study.basis.code, occasion_of(answer)
    rows = []
    for point in points:
        sustained = sustained_at(answer, point)
        moments, force = moments_at(answer, point, _CAUSE), wall_forces(answer, point, _CAUSE)
        stresses = occasional_stress(
            code,
            sustained=sustained[acting],
            factors=point.factors,
            moments=as_moments(moments[acting]),
            axial_force=force[acting],
            outside_diameter=point.pipe.size.outside_diameter,
            wall=point.pipe.wall,
            allowance=point.pipe.corrosion_allowance,
            modulus_of_section=point.spot.section_modulus,
        )
        worst_one = int(np.argmax(stresses))
        limit = allowables_of(answer, point.pipe).hot
        words = point.words()
        words += (
            "; no hot allowable stress is stated"
            if limit is None
            else f"; limit: k S_h (the load acts {occasion}), S_h: {limit.source}"
        )
        rows.append(
            RULE.judge(
                stretch.name,
                answer.states[acting[worst_one]].name,
                float(stresses[worst_one]) / 1e6,
                None if limit is None else occasional_limit(code, limit.value, occasion) / 1e6,
                "MPa",
                because=words,
                status="from memory",
            )
        )
    return governing_row(rows)
