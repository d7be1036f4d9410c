"""Pressure inside a bellows against the published limit for bowing as a column.     (checks/bellows_column_squirm.py)

What: the pressure inside each bellows of known geometry, every state, test included, against the design pressure for
column squirm at the modulus of that state. Why: a bellows under pressure is a strut that pushes itself. Source: ASME
VIII-1 App. 26 and EN 13445-3 cl. 14.5.2, EJMA; from memory. Limits: ends held; a spool free to move aside is looked at
by the rule on stability; outside the charts the shell's stiffness goes into the same limit. Passes: six
convolutions under 18 bar of 21. Fails: twelve of them, of 5.2.
"""

from __future__ import annotations

import numpy as np

from takeup.bellows.forms import Limit
from takeup.bellows.forms.squirm import column_squirm
from takeup.bellows.shell.convolution import QUICK, convolutions
from takeup.checks.bellows_states import PressedBellows, judge_pressure, on_each, with_geometry
from takeup.checks.outcome import CheckResult, Rule
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer

RULE = Rule(
    name="bellows_column_squirm",
    title="column squirm of bellows",
    what="the pressure inside a bellows of known geometry against the design pressure at which it may bow as a column",
    why="a bellows under pressure is a strut that pushes itself: it bows out and tears",
    source="ASME VIII-1 App. 26, EN 13445-3 cl. 14.5.2, EJMA (from memory)",
    limits="ends held, modulus of the state; free spools by the rule on stability; outside the charts shell stiffness",
)
_NAME = "column squirm"


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of each bellows of known geometry."""

    def ask(_joint: JointMovement, _takeup: TakeUp, bellows: PressedBellows) -> CheckResult:
        limits = [limit for limit in bellows.limits if limit.name == _NAME]
        in_charts = any(not np.isnan(limit.capacity).all() for limit in limits)
        return judge_pressure(RULE, answer, bellows, limits if in_charts else [_by_shell(bellows, limits[0])])

    return on_each(RULE, answer, with_geometry(answer), ask)


def _by_shell(bellows: PressedBellows, published: Limit) -> Limit:
    """Return the published limit with the stiffness of the shell, which knows shapes outside the charts."""
    shape, metal = bellows.shape, bellows.metal
    stiffness = convolutions(shape, metal.modulus, metal.poisson, order=QUICK).axial_stiffness
    return Limit(
        name=published.name,
        unit=published.unit,
        demand=np.where(bellows.duty.pressure > 0.0, bellows.duty.pressure, np.nan),
        capacity=column_squirm(shape, stiffness),
        source="the form of ASME VIII-1 App. 26 with the shell's stiffness: outside the charts",
    )
