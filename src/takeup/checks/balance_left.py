"""What a balancing bellows leaves of the thrust.     (checks/balance_left.py)

What: how far the effective area of a balancing bellows is from that of the bellows it balances, and the thrust that is
left. Why: "pressure balanced" is read as "no thrust"; what is left goes to the anchors, drawing them together where the
balance is the larger. Source: first principles; a twentieth of the thrust: common practice, no source. Limits: nominal
areas; the loads on holds have what is left in them already. Passes: 142 cm2 balanced by 142 cm2. Says: "close" of 142
cm2 balanced by 110 cm2, which leaves 23 %.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer

RULE = Rule(
    name="balance_left",
    title="thrust that a balance leaves",
    what="the share of a joint's pressure thrust that its balancing bellows leaves, or has too much, against 5 %",
    why="a joint called pressure balanced is read as one without thrust; what is left goes to the anchors",
    source="first principles; 5 %: common practice, no source",
    limits="nominal effective areas; the loads on holds have what is left in them; never fails",
)
SHARE = 0.05


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each balanced joint."""
    takeups = {item.name: item for item in answer.line.takeups}
    return [row for joint in answer.joints for row in _of_joint(answer, joint, takeups[joint.name])]


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> list[CheckResult]:
    if takeup.balance is None:
        return []
    number = governing(abs(joint.pressure))
    area, balanced = takeup.data.effective_area, takeup.balance.effective_area
    left = abs(float(joint.pressure[number])) * abs(area - balanced)
    share = abs(1.0 - balanced / area)
    way = "too small: it leaves" if balanced < area else "too large: it draws together with"
    words = f"its balance is as large as the joint's own area within {SHARE:.0%}"
    if share > SHARE:
        kept = f"{share:.0%} of the thrust, {left / 1e3:.1f} kN"
        words = f"its balance is {way} {kept}, which is in the loads on the holds"
    return [RULE.result(joint.name, answer.states[number].name, "close" if share > SHARE else "passes", words)]
