"""One joint that gives along the pipe between neighbouring anchors.     (checks/one_joint_per_span.py)

What: how many joints that hold nothing along the pipe stand between neighbouring anchors: unrestrained ones, and
pressure balanced ones, which take the thrust off the anchors and leave the pipe as free. Why: a floating pipe between
two shares the movement by the scatter of rates and friction, up to all or nothing. Source: EJMA (from memory). Limits:
a balanced joint at an elbow counts where another joint stands on its own leg: round a bend the pipe between is not
left to float. Passes: an anchor between two joints. Fails: two joints and no anchor between.
"""

from __future__ import annotations

from dataclasses import replace

from takeup.checks.outcome import CheckResult, Rule
from takeup.checks.restrained import is_restrained
from takeup.joints import KINDS
from takeup.line import Stretch, TakeUp, stretches_of
from takeup.study import LineAnswer

RULE = Rule(
    name="one_joint_per_span",
    title="one free joint per span",
    what=(
        "the number of joints between neighbouring anchors that hold nothing along the pipe: unrestrained ones and "
        "pressure balanced ones"
    ),
    why="the pipe between two such joints floats: one may take all the movement",
    source="EJMA, anchors and guides (from memory)",
    limits=(
        "joints whose rods pull in every state under pressure, or whose plates or bars hold them, are not counted; "
        "one balanced at an elbow counts beside another joint on its own leg"
    ),
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each span with a joint."""
    results = []
    for stretch in stretches_of(answer.line):
        names = [item.name for item in _counted(answer, stretch)]
        if names:
            words = f"{', '.join(names)} between neighbouring anchors"
            results.append(
                RULE.judge(
                    stretch.name, "all states", float(len(names)), 1.0, "joints", because=words, status="from memory"
                )
            )
    return [_full_is_fine(item) for item in results]


def _counted(answer: LineAnswer, stretch: Stretch) -> list[TakeUp]:
    """Return the joints of a span that leave the pipe free along itself, along the flow."""
    within = [item for item in answer.line.takeups if stretch.start < item.position.station < stretch.end]
    free = [item for item in within if KINDS[item.kind].balanced or not is_restrained(answer, item)]
    return [
        item
        for item in free
        if item.kind != "elbow pressure balanced"
        or any(other is not item and _on_one_leg(answer, item, other) for other in free)
    ]


def _on_one_leg(answer: LineAnswer, one: TakeUp, other: TakeUp) -> bool:
    """Whether no bend lies between two joints."""
    low, high = sorted((one.position.station, other.position.station))
    return not any(low < turn.station < high for turn in answer.model.route.turns)


def _full_is_fine(result: CheckResult) -> CheckResult:
    """One joint is the whole capacity and no cause for concern."""
    return replace(result, outcome="passes") if result.outcome == "close" else result
