"""Where the line leaves a rest, a hanger or a stop.     (checks/lift_off.py)

What: the states in which nothing presses a rest, draws on a hanger or bears on a stop. Why: what such a hold leaves,
its neighbours and anchors carry; the walk has it so, and the engineer should know. Source: first principles. Limits:
elastic; a line that comes down on a rest at speed is not looked at. Passes: always, and says where and how far.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.outcome import CheckResult, Rule
from takeup.study import HoldLoads, LineAnswer

RULE = Rule(
    name="lift_off",
    title="where the line leaves its one-sided holds",
    what="the states in which the line is off a rest, a hanger is slack, or nothing bears on a stop",
    why="what such a hold leaves is carried by its neighbours and anchors: the loads listed have it so",
    source="first principles",
    limits="for information: lift-off is computed, and every other check sees the line as it then lies",
    mandatory=False,
)
ONE_REST = "1 rest, pressed down in every state"
_ONE_SIDED = ("rest", "hanger", "stop")
_WORDS = {"rest": "the line lifts off", "hanger": "the hanger is slack", "stop": "the stop is not reached"}


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return every hold that the line leaves, with the state in which it is furthest off, or that it leaves none."""
    holds = [hold for hold in answer.holds if hold.kind in _ONE_SIDED]
    results = [_off(answer, hold) for hold in holds if (hold.open_by > 0.0).any()]
    if holds and not results:
        results.append(RULE.result(answer.line.name, "all states", "passes", _all_is_well(holds)))
    return results


def _off(answer: LineAnswer, hold: HoldLoads) -> CheckResult:
    number = int(np.argmax(hold.open_by))
    count = int((hold.open_by > 0.0).sum())
    words = (
        f"{_WORDS[hold.kind]} in {count} of {len(answer.states)} states, by {hold.open_by[number] * 1e3:.2f} mm here"
    )
    return RULE.result(hold.name, answer.states[number].name, "passes", words)


def _all_is_well(holds: list[HoldLoads]) -> str:
    counts = {kind: sum(hold.kind == kind for hold in holds) for kind in _ONE_SIDED}
    if counts["rest"] == len(holds):
        return f"{len(holds)} rests, each pressed down in every state" if len(holds) > 1 else ONE_REST
    said = ", ".join(f"{count} {kind}{'' if count == 1 else 's'}" for kind, count in counts.items() if count)
    return f"{said}: each under load its own way in every state"
