"""An intermediate anchor sees no net thrust.     (checks/anchor_claim.py)

What: the pressure part of an intermediate anchor's load along the pipe, in every state, against a twentieth of the
greater thrust beside it. Why: "intermediate" is a claim; an anchor built for spring and friction alone lets go under
thrust. Source: EJMA, anchor loads (from memory); the twentieth is common practice. Limits: linear, nominal effective
areas. Passes: equal joints either side, one pressure. Fails: one side without pressure.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.line import SAME_STATION, stretches_of
from takeup.study import CAUSES, HoldLoads, JointMovement, LineAnswer

RULE = Rule(
    name="anchor_claim",
    title="intermediate anchor sees no net thrust",
    what="the pressure part of the load along the pipe, against 5 % of the greater thrust of the joints beside it",
    why="an anchor called intermediate is built for spring and friction only; net thrust would let it go",
    source="EJMA, main and intermediate anchors (from memory); 5 %: common practice, no source",
    limits="nominal effective areas; a state that cannot happen may be dropped with a reason",
)
SHARE = 0.05
BASE = " base"  # of a double, as its reader calls it


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return every state that contradicts the name, or the governing one."""
    results = []
    for hold in answer.holds:
        if hold.kind == "intermediate anchor":
            rows = _of_anchor(answer, hold)
            failing = [row for row in rows if row.outcome == "fails"]
            unlimited = [row for row in rows if row.outcome == "no limit given"]
            results += failing or [max(unlimited, key=lambda row: row.demand or 0.0) if unlimited else worst(rows)]
    return results


def _from_head(
    answer: LineAnswer, hold: HoldLoads, joints: list[JointMovement], areas: dict[str, float]
) -> NDArray[np.float64]:
    """Return what the head between an anchor and its joints adds to the thrusts along the flow, (states,) [N].

    On a rise full of liquid the joint below stands under more pressure than the joint above: that difference is the
    weight of the content, which any anchor of the rise carries, and no thrust.
    """
    elevation = float(answer.model.route.point(hold.station)[2])
    total = np.zeros(len(answer.states))
    for joint in joints:
        here = np.array([state.at(answer.line.name, joint.station).pressure_at(elevation) for state in answer.states])
        sense = 1.0 if joint.station < hold.station else -1.0
        total += sense * areas[joint.name] * (joint.pressure - here)
    return total


def _of_anchor(answer: LineAnswer, hold: HoldLoads) -> list[CheckResult]:
    areas = {item.name: item.data.effective_area for item in answer.line.takeups}
    beside = [
        item
        for item in stretches_of(answer.line)
        if min(abs(item.start - hold.station), abs(item.end - hold.station)) < SAME_STATION
    ]
    joints = [joint for joint in answer.joints if any(item.start < joint.station < item.end for item in beside)]
    along = hold.local(hold.parts[:, CAUSES.index("pressure")])[:, 0]
    net = np.abs(along - _from_head(answer, hold, joints, areas))
    if not joints:
        return [
            RULE.judge(
                hold.name,
                state.name,
                float(net[number]),
                None,
                "N",
                because="no joint beside it gives a thrust to compare",
            )
            if net[number] > 1.0
            else RULE.result(hold.name, state.name, "passes", "no joint beside it, no thrust")
            for number, state in enumerate(answer.states)
        ]
    greatest = max(float(np.abs(joint.pressure).max() * areas[joint.name]) for joint in joints)
    limit = SHARE * greatest
    return [
        RULE.judge(
            hold.name,
            state.name,
            float(net[number]),
            limit,
            "N",
            because=_words(answer, hold, (float(net[number]), limit, greatest), state.name),
            status="from memory",
        )
        for number, state in enumerate(answer.states)
    ]


def _words(answer: LineAnswer, hold: HoldLoads, forces: tuple[float, float, float], state: str) -> str:
    """Return net thrust and limit in words; where it is over the limit, what would make it right.

    Args:
        answer: of the line.
        hold: the anchor.
        forces: the net thrust, its limit, and the greatest thrust of the joints beside it [N].
        state: its name.
    """
    net, limit, greatest = forces
    said = f"net thrust along the pipe, head apart; the limit is {SHARE:.0%} of {greatest / 1e3:.1f} kN"
    if net <= limit:
        return said
    said = f"a net thrust of {net / 1e3:.1f} kN along the pipe, head apart, in “{state}”; {said.partition('; ')[2]}"
    halves = {f"{hold.name.removesuffix(BASE)}, {which}" for which in ("first", "second")}
    if hold.name.endswith(BASE) and halves <= {item.name for item in answer.line.takeups}:
        return (
            f"{said}: the halves of the double are then at different pressures, which a base for equal ones does not "
            "hold; 'base: kind: main anchor' says that it is built for the whole thrust"
        )
    return f"{said}: an anchor that has to hold it is a main anchor"
