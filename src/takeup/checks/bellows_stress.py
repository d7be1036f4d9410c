"""Stresses of pressure in a bellows against the allowable stress.     (checks/bellows_stress.py)

What: S1, S2 and S3 + S4 of each bellows of known geometry, every state in service, against the allowable stress at its
temperature, K_m times that for S3 + S4. Why: beyond it the bellows yields and bulges. Source: ASME VIII-1 App. 26 and
EN 13445-3 cl. 14.5.2; from memory. Limits: sound welds; the test is not in it; a stress of pressure from outside counts
by its magnitude. Passes: 12 bar on two plies of 1 mm. Fails: the same on one ply of 0.8 mm.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.bellows_states import STATUS, PressedBellows, on_each, unless_unknown, with_geometry
from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.units import to_mpa

RULE = Rule(
    name="bellows_stress",
    title="stresses of bellows",
    what="hoop and meridional stresses of pressure in a bellows of known geometry against the allowable stress",
    why="beyond it the convolutions yield and bulge, or burst",
    source="S1, S2, S3 + S4 of ASME VIII-1 App. 26 and EN 13445-3 cl. 14.5.2 (from memory)",
    limits="sound welds; states in service; pressure from outside by magnitude; inside the charts for S4",
)
_OF_STRESS = "S"


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing stress and state of each bellows of known geometry."""

    def ask(_joint: JointMovement, _takeup: TakeUp, bellows: PressedBellows) -> CheckResult:
        return _of_bellows(answer, bellows)

    return on_each(RULE, answer, with_geometry(answer), ask)


def _of_bellows(answer: LineAnswer, bellows: PressedBellows) -> CheckResult:
    service = np.array([state.kind != "test" for state in answer.states])
    limits = [limit for limit in bellows.limits if limit.name.startswith(_OF_STRESS)]
    known = [limit for limit in limits if not np.isnan(limit.use).all()]
    if np.isnan(bellows.metal.allowable).all():
        hoop = np.where(service, np.abs(bellows.forms.s2), 0.0)
        number = governing(hoop)
        words = "S2 in an inner convolution; no allowable stress is stated: type it in, or name its table"
        return RULE.judge(
            bellows.name, answer.states[number].name, to_mpa(float(hoop[number])), None, "MPa", because=words
        )
    if np.isnan(bellows.forms.s4).all():
        words = "outside the charts of the published form there is no S4"
        return RULE.result(bellows.name, "all states", "not covered", words, status=STATUS)
    limit = max(known, key=lambda one: round(float(np.nanmax(np.where(service, one.use, 0.0))), 9))
    number = governing(np.nan_to_num(np.where(service, limit.use, 0.0)))
    words = f"{limit.name}, at {bellows.duty.temperature[number]:.0f} °C, by {limit.source}"
    demand, capacity = (to_mpa(float(values[number])) for values in (limit.demand, limit.capacity))
    state = answer.states[number].name
    result = RULE.judge(bellows.name, state, demand, capacity, "MPa", because=words, status=STATUS)
    unknown = service & np.isnan(bellows.metal.allowable)
    return unless_unknown(RULE, answer, result, np.where(unknown, np.abs(bellows.forms.s2), np.nan))
