"""Rods of joints: what they pull, what they would, and where they let go under pressure.     (checks/rods.py)

What: the tension of the most loaded rod, and the share of each in the whole thrust at the highest pressure, test
included, against what each can carry; the states under pressure in which no rod of a tied joint pulls; the gap of limit
rods against the extension left to the bellows; limit rods that bear in service. Why: a rod that tears, or a nut that
has left its lug, leaves the whole thrust to the anchors; limit rods are there for the day when an anchor lets go, and
then have all of it at once. Source: first principles: a load set on at once pulls twice; energy bounds what a run adds.
Limits: lugs, rings and welds are not looked at; nuts bear on the outside only. Rods with a gap must bear 2 P A_e/n;
where they bear less than P A_e (1 + sqrt(1 + 2 k h/(P A_e)))/n, at most which a run by the gap h can reach, they are
"close". Passes: a tied joint in an offset. Fails: an overloaded rod; limit rods of 3 kN on a joint of 21 kN; a gap of
300 mm on a joint that may be drawn out by 20 mm; a gap that is used up on the coldest day. A tied joint in line between
anchors is "close" once the line warms: its anchors must be sized for the whole thrust, which the other rules then ask
for.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.restrained import slack_states
from takeup.checks.rods_gap import gap_rows
from takeup.checks.whole_thrust import ANCHOR_LOST, carried_words, whole_thrust
from takeup.joints import KINDS, Rods
from takeup.joints.sizing import SET_ON_AT_ONCE, caught_share, rod_force, rod_sections, stopping_force
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.units import to_mm

RULE = Rule(
    name="rods",
    title="rods of joints",
    what=(
        "the tension of the most loaded rod, and its share of the whole thrust should an anchor let go, against what "
        "each can carry; where no rod of a tied joint pulls; the gap of limit rods against the extension left to the "
        "bellows; limit rods that bear in service"
    ),
    why="where rods tear or their nuts leave the lugs, the whole thrust arrives on the anchors; where those let go, on "
    "the rods",
    source="first principles",
    limits=(
        "lugs, rings and welds are not looked at; nuts bear on the outside only; rods are straight and pinned; rods "
        "with a gap must bear twice their share, as of a load set on at once; what the run through the gap adds is "
        "bounded, not computed; growth of hot rods and their stretch are not added to the gap"
    ),
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the most loaded rod of every joint that has some, its share of the whole thrust, where all are slack.

    Slack are those of a tied joint alone; limit rods are so as a rule, and a row says where they are not.
    """
    takeups = {item.name: item for item in answer.line.takeups}
    results = []
    for joint in answer.joints:
        rods = takeups[joint.name].rods
        if rods is not None and joint.rods.shape[1]:
            results += _of_joint(answer, joint, takeups[joint.name], rods)
    return results


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, rods: Rods) -> list[CheckResult]:
    most = joint.rods.max(axis=1)
    number = governing(most)
    name = _rod_words(int(np.argmax(joint.rods[number])), joint.rods.shape[1], rods)
    words = f"{name} pulls with {most[number] / 1e3:.1f} kN; {_capacity_words(rods)}"
    status = "" if rods.can_carry is None else "user's data"
    state = answer.states[number].name
    rows = [RULE.judge(joint.name, state, float(most[number]), rods.can_carry, "N", because=words, status=status)]
    rows += _anchor_lost(answer, joint, takeup, rods)
    rows += gap_rows(RULE, answer, joint, takeup)
    slack = slack_states(answer, takeup) if KINDS[takeup.kind].restrained else []
    if slack:
        said = f"the rods are slack in {len(slack)} of the states under pressure: the whole thrust is on the anchors"
        rows.append(RULE.result(f"{joint.name}, slack", slack[0], "close", said))
    return rows


def _anchor_lost(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, rods: Rods) -> list[CheckResult]:
    thrust = whole_thrust(answer, joint, takeup)
    if thrust.force <= 0.0:
        return []
    at_rest, share = rod_force(thrust.force, rods.count), caught_share(thrust.force, rods.count, rods.gap)
    sets = joint.rods.shape[1] // rods.count
    across = "" if sets == 1 else " across each bellows"
    given = "" if rods.can_carry is not None else "what each can carry is not given; "
    words = (
        f"the whole thrust of {thrust.force / 1e3:.1f} kN on {rods.count} rods{across} is {at_rest / 1e3:.1f} kN in "
        f"each{_caught_words(rods, thrust.force, share)}; {given}{rods.source}"
    )
    where, status = f"{joint.name}, {ANCHOR_LOST}", "" if rods.can_carry is None else "user's data"
    row = RULE.judge(where, thrust.state, share, rods.can_carry, "N", because=words, status=status)
    return [row if rods.gap <= 0.0 else _within_bound(row, at_most(rods, thrust.force))]


def at_most(rods: Rods, thrust: float) -> float:
    """Return the most that each rod can reach when it catches a joint that has run out by the gap.

        F = P A_e (1 + sqrt(1 + 2 k h/(P A_e)))/n,    k = n E A/L                (first principles: energy)

    Args:
        rods: h, n, E, A, L of them.
        thrust: P A_e [N].

    Returns:
        F [N].
    """
    stiffness = rods.count * rods.modulus * math.pi / 4.0 * rods.diameter**2 / rods.length
    return stopping_force(thrust, rods.gap, stiffness) / rods.count


def _within_bound(row: CheckResult, bound: float) -> CheckResult:
    """Return the row of rods that bear twice their share, "close" unless they bear the most that a run can reach."""
    if row.capacity is None or row.outcome == "fails":
        return row
    return replace(row, outcome="close" if row.capacity < bound else "passes")


def _caught_words(rods: Rods, thrust: float, share: float) -> str:
    """Return what each rod gets when it catches a joint that has run out by the gap; nothing of tie rods."""
    if rods.gap <= 0.0:
        return ""
    return (
        f" at rest; caught after a gap of {to_mm(rods.gap):.4g} mm it is set on at once: at least {SET_ON_AT_ONCE:.0f} "
        f"P A_e/n, {share / 1e3:.1f} kN in each, and at most P A_e (1 + sqrt(1 + 2 k h/(P A_e)))/n, "
        f"{at_most(rods, thrust) / 1e3:.1f} kN, in which nothing slows the run"
    )


def _capacity_words(rods: Rods) -> str:
    if rods.can_carry is None:
        return f"what each can carry is not given; {rods.source}"
    if rods.yield_strength is not None:
        return rods.source
    words = carried_words(rods.can_carry, rod_sections(rods.diameter))
    return f"each is said to carry {rods.can_carry / 1e3:.1f} kN: {words}; {rods.source}"


def _rod_words(index: int, together: int, rods: Rods) -> str:
    """Return a rod by its number: of all, or of those of its bellows where each bellows has a set of its own."""
    if together == rods.count:
        return f"rod {index + 1} of {rods.count}"
    return f"rod {index % rods.count + 1} of bellows {index // rods.count + 1}"
