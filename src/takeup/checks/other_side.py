"""An end that continues carries this side only.     (checks/other_side.py)

What: every end that is said to continue, with the greatest force this side brings. Why: the line beyond it brings its
own; only both together say what the hold carries. Source: first principles. Limits: the far side is not in the file.
Passes: never where an end continues. Says: 62 kN from this side, other side to be added.
"""

from __future__ import annotations

from dataclasses import replace

from takeup.checks.hold_capacity import design_forces
from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.study import LineAnswer, friction_bounds

RULE = Rule(
    name="other_side",
    title="the other side of an end that continues",
    what="every end that continues, with the greatest force from this side, friction bound included",
    why="the line beyond it pushes or pulls as well; one side alone proves nothing about the hold",
    source="first principles",
    limits="the far side is not in the file: such an end never passes",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each end that continues."""
    bounds = friction_bounds(answer)
    results = []
    for hold in answer.holds:
        if hold.kind != "continues":
            continue
        forces = design_forces(hold, bounds[hold.name])
        number = governing(forces)
        words = f"carries this side only, {forces[number] / 1e3:.1f} kN with friction (bound): other side to be added"
        row = RULE.judge(hold.name, answer.states[number].name, float(forces[number]), None, "N", because=words)
        results.append(replace(row, outcome="not covered"))
    return results
