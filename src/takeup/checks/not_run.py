"""What a study needs and this version does not compute, said as checks.     (checks/not_run.py)

What: friction walked in order. Why: a study without it is not proved. Source: the project's own rule. Limits: the
friction bound stands beside it. Passes: never in this version.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule
from takeup.study import LineAnswer

FRICTION = Rule(
    name="friction_walk",
    title="friction, walked through the states in order",
    what="the friction locked into every hold as the states follow one another",
    why="its sign and share depend on what came first, pressure or heat",
    source="not computed in this version",
    limits="the bound sum(mu N) is added to each anchor instead, in the worst sense",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the checks that did not run and were needed."""
    name = answer.line.name
    results = []
    if any(hold.friction is not None for hold in answer.line.holds):
        words = "friction is not walked by this version; its bound is added to each anchor"
        results.append(FRICTION.result(name, "all states", "not covered", words))
    return results
