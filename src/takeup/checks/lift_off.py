"""Rests push up, hangers pull up, stops push one way: none of them does the other.     (checks/lift_off.py)

What: the load of every rest, hanger and stop in every state, all causes. Why: the model holds each both ways; where the
line wants to rise off a rest, to stand on a hanger or to leave a stop, the hold carries nothing and its neighbours and
anchors carry more. Source: first principles. Limits: lift-off itself is not computed; a hold that would have to work
the other way, such as a rest beside a riser that grows, leaves it "not covered". Passes: rests on a level run.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.checks.outcome import CheckResult, Rule
from takeup.study import HoldLoads, LineAnswer

RULE = Rule(
    name="lift_off",
    title="one-sided holds stay under load",
    what="the load of every rest, hanger and stop in every state: each works one way, and cannot work the other",
    why="where the line would leave such a hold, its neighbours carry more than in the model, which holds both ways",
    source="first principles",
    limits="lift-off is not computed: such a line is not proved; slide guides are taken to hold down as well",
)
_NOTHING = 1.0  # N: rounding and a feather's weight
_ONE_SIDED = ("rest", "hanger", "stop")


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the greatest wrong load of every hold that would have to work the other way, or that none has."""
    holds = [hold for hold in answer.holds if hold.kind in _ONE_SIDED]
    senses = {hold.name: hold.sense for hold in answer.line.holds}
    results = []
    for hold in holds:
        wrong = _wrong(hold, senses[hold.name])
        number = int(wrong.argmax())
        if wrong[number] > _NOTHING:
            words = _words(hold.kind, f"{wrong[number] / 1e3:.1f} kN")
            results.append(RULE.result(hold.name, answer.states[number].name, "not covered", words))
    if holds and not results:
        results.append(RULE.result(answer.line.name, "all states", "passes", _all_is_well(holds)))
    return results


def _wrong(hold: HoldLoads, sense: int) -> NDArray[np.float64]:
    """Return the load on the structure in the sense that the hold cannot take, (states,) [N].

    A rest is pressed down by the line and a hanger is drawn down by it: an upward load is wrong on both.
    """
    if hold.kind == "stop":
        return np.asarray(-sense * hold.local(hold.total)[:, 0])
    return np.asarray(hold.total[:, 2])


def _words(kind: str, force: str) -> str:
    if kind == "rest":
        return f"the line would lift off: the model pulls it down with {force}, which a rest cannot"
    if kind == "hanger":
        return f"the hanger would go slack: the model pushes the line down with {force}, which a hanger cannot"
    return f"the line would leave the stop: the model pulls it back with {force}, which a stop cannot"


def _all_is_well(holds: list[HoldLoads]) -> str:
    counts = {kind: sum(hold.kind == kind for hold in holds) for kind in _ONE_SIDED}
    if counts["rest"] == len(holds):
        return f"{len(holds)} rests, each pressed down in every state"
    said = ", ".join(f"{count} {kind}{'' if count == 1 else 's'}" for kind, count in counts.items() if count)
    return f"{said}: each under load its own way in every state"
