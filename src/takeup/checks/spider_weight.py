"""Spider guides carry no weight.     (checks/spider_weight.py)

What: the weight that the model leaves on a spider guide, against what it may carry. Why: its fins are made to guide,
and the insulation inside is crushed. Source: common practice. Limits: a spider guide without clearance takes the share
of a hold at the same level; one with clearance carries once the pipe has come down on it. Passes: a spider guide on a
riser. Fails: 2 kN on one.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.study import CAUSES, LineAnswer

RULE = Rule(
    name="spider_weight",
    title="weight on spider guides",
    what="the upward part of a spider guide's load from weight, against its stated capacity, none if not stated",
    why="a spider guide is made to guide; weight crushes what is inside it",
    source="common practice, no source",
    limits="a guide without clearance takes the share of a hold at the same level",
)
_NEGLIGIBLE = (
    0.02  # of the heaviest load on any hold: below that the weight lies elsewhere (common practice, no source)
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the heaviest state of every spider guide."""
    weight = CAUSES.index("weight")
    heaviest = max((float(abs(hold.parts[:, weight, 2]).max()) for hold in answer.holds), default=0.0)
    capacity = {hold.name: hold.can_carry for hold in answer.line.holds}
    results = []
    for hold in answer.holds:
        if hold.kind != "spider guide":
            continue
        loads = abs(hold.parts[:, weight, 2])
        number = governing(loads)
        load, state = float(loads[number]), answer.states[number].name
        stated = capacity.get(hold.name)
        if stated is not None:
            results.append(
                RULE.judge(hold.name, state, load, stated, "N", because="stated capacity", status="user's data")
            )
        elif load <= _NEGLIGIBLE * heaviest:
            results.append(RULE.result(hold.name, state, "passes", f"{load:.0f} N: the weight lies on other holds"))
        else:
            because = (
                f"{load:.0f} N of weight rests on it: carry the line on rests or slide guides, or state its capacity"
            )
            results.append(RULE.judge(hold.name, state, load, 0.0, "N", because=because))
    return results
