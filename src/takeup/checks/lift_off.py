"""Rests push and cannot pull.     (checks/lift_off.py)

What: the vertical load of every rest in every state, all causes. Why: the model holds a rest both ways; where the line
wants to rise off it, the rest carries nothing and its neighbours and anchors carry more. Source: first principles.
Limits: lift-off itself is not computed; a rest that would pull, such as one beside a riser that grows, leaves it "not
covered". Passes: rests on a level run.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule
from takeup.study import LineAnswer

RULE = Rule(
    name="lift_off",
    title="rests stay under load",
    what="the vertical load of every rest in every state: a rest can push the line up, never pull it down",
    why="where the line would rise off a rest, its neighbours carry more than in the model, which holds both ways",
    source="first principles",
    limits="lift-off is not computed: such a line is not proved; slide guides are taken to hold down as well",
)
_NOTHING = 1.0  # N: rounding and a feather's weight


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the greatest pull of every rest that would pull, or that none does."""
    rests = [hold for hold in answer.holds if hold.kind == "rest"]
    results = []
    for hold in rests:
        upward = hold.total[:, 2]
        number = int(upward.argmax())
        if upward[number] > _NOTHING:
            pull = f"{upward[number] / 1e3:.1f} kN"
            words = f"the line would lift off: the model pulls it down with {pull}, which a rest cannot"
            results.append(RULE.result(hold.name, answer.states[number].name, "not covered", words))
    if rests and not results:
        words = f"{len(rests)} rests, each pressed down in every state"
        results.append(RULE.result(answer.line.name, "all states", "passes", words))
    return results
