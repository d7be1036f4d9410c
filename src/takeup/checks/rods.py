"""Rods of joints: what they pull, and where they let go under pressure.     (checks/rods.py)

What: the tension of the most loaded rod against what each can carry; the states under pressure in which no rod of a
tied joint pulls. Why: a rod that tears, or a nut that has left its lug, leaves the whole thrust to the anchors. Source:
first principles. Limits: lugs, rings and welds are not looked at; nuts bear on the outside only. Passes: a tied joint
in an offset. Fails: an overloaded rod. A tied joint in line between anchors is "close" once the line warms: its anchors
must be sized for the whole thrust, which the other rules then ask for.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.restrained import slack_states
from takeup.joints import KINDS
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer

RULE = Rule(
    name="rods",
    title="rods of joints",
    what="the tension of the most loaded rod against what each can carry; where no rod of a tied joint pulls",
    why="where rods tear or their nuts leave the lugs, the whole thrust arrives on the anchors",
    source="first principles",
    limits="lugs, rings and welds are not looked at; nuts bear on the outside only; rods are straight and pinned",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the most loaded rod of every joint that has some, and where those of a tied joint are slack."""
    takeups = {item.name: item for item in answer.line.takeups}
    results = []
    for joint in answer.joints:
        if joint.rods.shape[1]:
            results += _of_joint(answer, joint, takeups[joint.name])
    return results


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> list[CheckResult]:
    assert takeup.rods is not None, "only joints with rods are asked"
    most = joint.rods.max(axis=1)
    number = governing(most)
    rod = int(np.argmax(joint.rods[number])) + 1
    words = f"rod {rod} of {takeup.rods.count} pulls with {most[number] / 1e3:.1f} kN; {takeup.rods.source}"
    status = "" if takeup.rods.can_carry is None else "user's data"
    state = answer.states[number].name
    rows = [
        RULE.judge(joint.name, state, float(most[number]), takeup.rods.can_carry, "N", because=words, status=status)
    ]
    slack = slack_states(answer, takeup) if KINDS[takeup.kind].restrained else []
    if slack:
        said = f"the rods are slack in {len(slack)} of the states under pressure: the whole thrust is on the anchors"
        rows.append(RULE.result(f"{joint.name}, slack", slack[0], "close", said))
    return rows
