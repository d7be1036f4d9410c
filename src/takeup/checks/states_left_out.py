"""States that every line goes through and that the user left out.     (checks/states_left_out.py)

What: whether the test, the cold line at design pressure, operation and the design condition were all computed. Why: the
greatest load of an anchor or a joint is found in one of them, and a study that skips them has proved nothing. Source:
the project's own rule. Limits: the reason given for leaving a state out is printed, not judged. Passes: a one-sided
state left out because no valve stands there. Fails: never; such a study is not proved.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule
from takeup.study import Solved

RULE = Rule(
    name="states_left_out",
    title="states that every line goes through",
    what="whether test, cold at design pressure, operation and design condition were computed",
    why="the greatest load of an anchor, a joint or a guide is found in one of them",
    source="the project's own rule",
    limits="the reason for leaving a state out is printed, not judged",
)
NEEDED = ("under hydrostatic test", "cold at design pressure", "operating", "design pressure and temperature")


def check(solved: Solved) -> list[CheckResult]:
    """Return one result for each state that is needed and was left out."""
    where = "all lines" if len(solved.lines) > 1 else solved.lines[0].line.name
    reasons = {item.state: item.because for item in solved.study.dropped}
    missing = [name for name in NEEDED if name in reasons]
    if not missing:
        return [
            RULE.result(where, "all states", "passes", "test, cold at pressure, operation and design were computed")
        ]
    return [
        RULE.result(where, name, "not covered", f"left out by the user, because {reasons[name]}") for name in missing
    ]
