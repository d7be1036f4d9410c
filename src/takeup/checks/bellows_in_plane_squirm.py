"""Pressure inside a bellows against the published limit for tilting.     (checks/bellows_in_plane_squirm.py)

What: the pressure inside each bellows of known geometry, every state, test included, against the design pressure for
in-plane squirm with the yield strength of that state. Why: convolutions that yield tilt, and stay so. Source: ASME
VIII-1 App. 26 and EJMA; from memory. Limits: needs the yield strength; inside the charts only. Passes: two plies of
1 mm under 18 bar of 26. Fails: two plies of 0.8 mm, of 17.5.
"""

from __future__ import annotations

from takeup.checks.bellows_states import judged
from takeup.checks.outcome import CheckResult, Rule
from takeup.study import LineAnswer

RULE = Rule(
    name="bellows_in_plane_squirm",
    title="in-plane squirm of bellows",
    what="the pressure inside a bellows of known geometry against the design pressure at which convolutions may tilt",
    why="convolutions that yield under pressure tilt against each other, and stay so",
    source="ASME VIII-1 App. 26, EJMA (from memory)",
    limits="yield strength of the state; inside the charts of the published form only",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of each bellows of known geometry."""
    return judged(RULE, answer, "in-plane squirm")
