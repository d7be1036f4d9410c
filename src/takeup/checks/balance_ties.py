"""Ties of balancing bellows: what they pull, and where they would be pushed.     (checks/balance_ties.py)

What: the pull in the ties of a pressure balanced joint, P A_b and the spring of its balancing bellows, against what
they can carry; their pull should an anchor let go, where that is more; the states in which they would be pushed. Why:
ties that tear let the whole thrust loose; ties that only pull hang slack under vacuum, when the line's bellows draws
its two sides together and nothing balances it. Source: first principles. Limits: all ties together, evenly; lugs, rings
and welds are not looked at. Without vacuum a push is no danger: where ties go slack only a spring force is lost, so
that the loads shown are at most too high. Passes: 83 kN of pull on ties of 150 kN. Fails: the same on ties of 60 kN.
Not covered: vacuum on ties that only pull.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.whole_thrust import ANCHOR_LOST, whole_thrust
from takeup.joints import Balance
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer

RULE = Rule(
    name="balance_ties",
    title="ties of balanced joints",
    what=(
        "the pull in the ties of a balancing bellows, and their pull should an anchor let go, against what they can "
        "carry; where they would be pushed"
    ),
    why="where ties tear or hang slack, nothing balances the thrust, and the anchors get it",
    source="first principles",
    limits="all ties together, evenly; lugs, rings and welds are not looked at",
)
_NOTHING = 1.0  # N, Pa


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the pull of the ties of every balanced joint, and the push where there is one under vacuum."""
    takeups = {item.name: item for item in answer.line.takeups}
    return [row for joint in answer.joints for row in _of_joint(answer, joint, takeups[joint.name])]


def pull_of_free_ties(balance: Balance, *, pressure: float, area: float, rate: float) -> float:
    """Return the pull in all ties of a balanced joint that nothing holds at its ends.

        T = P A_b + k_b z,    z = P (A_e - A_b)/(k + k_b)                  (first principles)

    What A_b leaves of the thrust draws both bellows out until their springs hold it, by z from where neither pulls.

    Args:
        balance: k_b, A_b.
        pressure: P [Pa].
        area: A_e of the line's bellows [m2].
        rate: k of the line's bellows [N/m].

    Returns:
        T [N].
    """
    left = pressure * (area - balance.effective_area)
    return pressure * balance.effective_area + balance.axial_rate * left / (rate + balance.axial_rate)


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> list[CheckResult]:
    if takeup.balance is None or joint.ties is None:
        return []
    balance, number = takeup.balance, governing(joint.ties)
    pull = max(float(joint.ties[number]), 0.0)
    words = f"its ties pull with {pull / 1e3:.1f} kN together; {balance.source}"
    state, status = answer.states[number].name, "" if balance.can_carry is None else "user's data"
    rows = [RULE.judge(joint.name, state, pull, balance.can_carry, "N", because=words, status=status)]
    rows += _anchor_lost(answer, joint, takeup, rows[0])
    pushed = np.where(joint.pressure < -_NOTHING, -joint.ties, 0.0)
    number = governing(pushed)
    if pushed[number] < _NOTHING:
        return rows
    where, state, push = f"{joint.name}, pushed", answer.states[number].name, float(pushed[number])
    if balance.can_be_pushed is None:
        words = (
            f"under vacuum its ties would be pushed with {push / 1e3:.1f} kN, and they are not said to take any: slack "
            "they leave the whole thrust of the vacuum to the anchors, which is not computed"
        )
        return [*rows, RULE.result(where, state, "not covered", words)]
    words = f"under vacuum its ties are pushed with {push / 1e3:.1f} kN together; {balance.source}"
    return [*rows, RULE.judge(where, state, push, balance.can_be_pushed, "N", because=words, status="user's data")]


def _anchor_lost(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, held: CheckResult) -> list[CheckResult]:
    """Return the pull with an anchor gone, where the model has less in every state."""
    balance, thrust = takeup.balance, whole_thrust(answer, joint, takeup)
    if balance is None:
        return []
    area, rate = takeup.data.effective_area, takeup.data.axial_rate
    pull = pull_of_free_ties(balance, pressure=thrust.pressure, area=area, rate=rate)
    if pull <= (held.demand or 0.0):
        return []
    words = f"with nothing held at its ends its ties pull with {pull / 1e3:.1f} kN together; {balance.source}"
    where, state = f"{joint.name}, {ANCHOR_LOST}", thrust.state
    return [RULE.judge(where, state, pull, balance.can_carry, "N", because=words, status=held.status)]
