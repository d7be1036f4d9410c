"""Rods of joints: what they pull, what they would, and where they let go under pressure.     (checks/rods.py)

What: the tension of the most loaded rod, and the share of each in the whole thrust at the highest pressure, test
included, against what each can carry; the states under pressure in which no rod of a tied joint pulls. Why: a rod that
tears, or a nut that has left its lug, leaves the whole thrust to the anchors; limit rods are there for the day when an
anchor lets go, and then have all of it. Source: first principles. Limits: lugs, rings and welds are not looked at; nuts
bear on the outside only; the share is that at rest: a joint that runs out by its gap is caught with more, which the
row says and does not judge. Passes: a tied joint in an offset. Fails: an overloaded rod; limit rods of 3 kN on a joint
of 21 kN. A tied joint in line between anchors is "close" once the line warms: its anchors must be sized for the whole
thrust, which the other rules then ask for.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.restrained import slack_states
from takeup.checks.whole_thrust import ANCHOR_LOST, carried_words, whole_thrust
from takeup.joints import KINDS, Rods
from takeup.joints.sizing import rod_force, rod_sections, stopping_force
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.units import to_mm

RULE = Rule(
    name="rods",
    title="rods of joints",
    what=(
        "the tension of the most loaded rod, and its share of the whole thrust should an anchor let go, against what "
        "each can carry; where no rod of a tied joint pulls"
    ),
    why="where rods tear or their nuts leave the lugs, the whole thrust arrives on the anchors; where those let go, on "
    "the rods",
    source="first principles",
    limits=(
        "lugs, rings and welds are not looked at; nuts bear on the outside only; rods are straight and pinned; the "
        "blow of a joint that is caught after its gap is told and not judged"
    ),
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the most loaded rod of every joint that has some, its share of the whole thrust, and where all are slack.

    Slack are those of a tied joint alone; limit rods are so as a rule.
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
    slack = slack_states(answer, takeup) if KINDS[takeup.kind].restrained else []
    if slack:
        said = f"the rods are slack in {len(slack)} of the states under pressure: the whole thrust is on the anchors"
        rows.append(RULE.result(f"{joint.name}, slack", slack[0], "close", said))
    return rows


def _anchor_lost(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, rods: Rods) -> list[CheckResult]:
    thrust = whole_thrust(answer, joint, takeup)
    if thrust.force <= 0.0:
        return []
    share = rod_force(thrust.force, rods.count)
    sets = joint.rods.shape[1] // rods.count
    across = "" if sets == 1 else " across each bellows"
    given = "" if rods.can_carry is not None else "what each can carry is not given; "
    words = (
        f"the whole thrust of {thrust.force / 1e3:.1f} kN on {rods.count} rods{across} is {share / 1e3:.1f} kN in each"
        f"{_caught_words(rods, thrust.force)}; {given}{rods.source}"
    )
    where, status = f"{joint.name}, {ANCHOR_LOST}", "" if rods.can_carry is None else "user's data"
    return [RULE.judge(where, thrust.state, share, rods.can_carry, "N", because=words, status=status)]


def _caught_words(rods: Rods, thrust: float) -> str:
    """Return what each rod may reach when it catches a joint that has run out by the gap; nothing of tie rods."""
    if rods.gap <= 0.0:
        return ""
    stiffness = rods.count * rods.modulus * math.pi / 4.0 * rods.diameter**2 / rods.length
    caught = stopping_force(thrust, rods.gap, stiffness) / rods.count
    return (
        f" at rest; catching a joint that runs out by {to_mm(rods.gap):.4g} mm each can reach {caught / 1e3:.1f} kN at "
        "most, P A_e (1 + sqrt(1 + 2 k h/(P A_e)))/n, which is not judged here"
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
