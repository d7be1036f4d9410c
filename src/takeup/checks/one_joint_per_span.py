"""One unrestrained axial joint between neighbouring anchors.     (checks/one_joint_per_span.py)

What: how many unrestrained joints stand between neighbouring anchors. Why: a floating pipe between two shares the
movement by the scatter of rates and friction, up to all or nothing. Source: EJMA (from memory). Limits: none. Passes:
an anchor between two joints. Fails: two joints and no anchor between.
"""

from __future__ import annotations

from dataclasses import replace

from takeup.checks.outcome import CheckResult, Rule
from takeup.checks.restrained import is_restrained
from takeup.line import stretches_of
from takeup.study import LineAnswer

RULE = Rule(
    name="one_joint_per_span",
    title="one unrestrained joint per span",
    what="the number of unrestrained joints between neighbouring anchors",
    why="the pipe between two such joints floats: one may take all the movement",
    source="EJMA, anchors and guides (from memory)",
    limits="joints whose rods pull in every state under pressure are not counted",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each span with a joint."""
    results = []
    for stretch in stretches_of(answer.line):
        names = [
            item.name
            for item in answer.line.takeups
            if stretch.start < item.position.station < stretch.end and not is_restrained(answer, item)
        ]
        if names:
            words = f"{', '.join(names)} between neighbouring anchors"
            results.append(
                RULE.judge(
                    stretch.name, "all states", float(len(names)), 1.0, "joints", because=words, status="from memory"
                )
            )
    return [_full_is_fine(item) for item in results]


def _full_is_fine(result: CheckResult) -> CheckResult:
    """One joint is the whole capacity and no cause for concern."""
    return replace(result, outcome="passes") if result.outcome == "close" else result
