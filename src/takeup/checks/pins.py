"""Plates, swing bars and their pins: what they pull or push, against what they can carry.     (checks/pins.py)

What: the force in the more loaded of both plates or bars of a joint, along it, across it and along its pins together,
taken twice, against what both can carry, and the whole thrust at the highest pressure where that is more; a bar or
plate that is pushed against a third of its Euler load. Why: they hold the whole thrust, and all that the line does to
them; where an anchor lets go, nothing takes a part of the thrust off them. Source: first principles; a third: common
practice. Limits: lugs, rings and welds are the maker's; pins, holes and plates by their sizes: rule hardware_stress.
Passes: a hinge in an offset leg, which carries the thrust. Fails: the same hinge in line between two anchors: it holds
the growth of the line like pipe.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.whole_thrust import ANCHOR_LOST, carried_words, whole_thrust
from takeup.joints import KINDS, Pins
from takeup.joints.sizing import pin_sections, plate_pull
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.study.records import Floats

RULE = Rule(
    name="pins",
    title="plates, bars and pins of joints",
    what=(
        "twice the force in the more loaded of both plates or bars, and the whole thrust should an anchor let go, "
        "against what both can carry; one that is pushed, against a third of its Euler load"
    ),
    why="plates and pins hold the whole thrust; where they tear or buckle, it arrives on the anchors",
    source="first principles; a third of the Euler load: common practice, no source",
    limits="lugs, rings and welds are the maker's; shear of pins, bearing and plates: by the rule hardware_stress",
)
SAFE = 3.0  # of the Euler load (common practice, no source)
_LIKE_PIPE = 1.5  # of the thrust: beyond, the pins hold more of the line than its pressure
_NOTHING = 1.0  # N


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return what plates and bars of every joint that has some carry, and how they are pushed."""
    takeups = {item.name: item for item in answer.line.takeups}
    results = []
    for joint in answer.joints:
        pins = takeups[joint.name].pins
        if pins is not None and joint.plates is not None:
            carried = _carried(answer, joint, takeups[joint.name], pins)
            results += [carried, *_anchor_lost(answer, joint, takeups[joint.name], carried)]
            results += _pushed(answer, joint, pins, _what(takeups[joint.name]))
    return results


def euler_load(pins: Pins) -> float:
    """Return the load at which one plate or bar, pinned at its ends, bows out.

        F = pi^2 E I/L^2,    I = b t^3/12  b, t: width and thickness, the greater first       (Euler, any book)

    Args:
        pins: the plates.

    Returns:
        F [N].
    """
    wide, thin = max(pins.width, pins.thickness), min(pins.width, pins.thickness)
    return math.pi**2 * pins.modulus * wide * thin**3 / 12.0 / pins.length**2


def _what(takeup: TakeUp) -> str:
    return "bar" if KINDS[takeup.kind].pins == "swing" else "plate"


def _carried(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, pins: Pins) -> CheckResult:
    plates = _plates(joint)
    each = np.linalg.norm(plates, axis=2)
    demand = 2.0 * each.max(axis=1)
    number = governing(demand)
    what, thrust = _what(takeup), float(joint.pressure[number]) * takeup.data.effective_area
    along, (first, second) = float(plates[number, :, 0].sum()), each[number]
    beyond = _like_pipe(along, thrust)
    words = (
        f"its {what}s carry {first / 1e3:.1f} kN and {second / 1e3:.1f} kN, together {along / 1e3:+.1f} kN along the "
        f"joint, where the pressure thrust is {thrust / 1e3:+.1f} kN{beyond}; {_capacity_words(pins)}"
    )
    status = "" if pins.can_carry is None else "user's data"
    state = answer.states[number].name
    return RULE.judge(joint.name, state, float(demand[number]), pins.can_carry, "N", because=words, status=status)


def _anchor_lost(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, carried: CheckResult) -> list[CheckResult]:
    """Return the whole thrust against what both can carry, where the model has less in them in every state."""
    thrust, pins = whole_thrust(answer, joint, takeup), takeup.pins
    if pins is None or thrust.force <= (carried.demand or 0.0):
        return []
    given = "" if pins.can_carry is not None else "what both can carry is not given; "
    words = f"the whole thrust on both {_what(takeup)}s, of which the line takes a part off them; {given}{pins.source}"
    where, status = f"{joint.name}, {ANCHOR_LOST}", carried.status
    return [RULE.judge(where, thrust.state, thrust.force, pins.can_carry, "N", because=words, status=status)]


def _capacity_words(pins: Pins) -> str:
    if pins.can_carry is None:
        return f"what both can carry is not given; {pins.source}"
    if pins.yield_strength is not None:
        return pins.source
    sections = pin_sections(pins.diameter, pins.width, pins.thickness)
    words = carried_words(plate_pull(pins.can_carry), sections)
    return f"both are said to carry {pins.can_carry / 1e3:.1f} kN: {words}; {pins.source}"


def _like_pipe(along: float, thrust: float) -> str:
    """Return that the pins hold more of the line than its pressure, in words; nothing where they do not."""
    if abs(along - thrust) <= max((_LIKE_PIPE - 1.0) * abs(thrust), _NOTHING):
        return ""
    return ": the rest is the line's own growth or weight, which its pins hold like pipe and do not take up"


def _pushed(answer: LineAnswer, joint: JointMovement, pins: Pins, what: str) -> list[CheckResult]:
    push = -_plates(joint)[:, :, 0].min(axis=1)
    number = governing(push)
    if push[number] <= _NOTHING:
        return []
    load = euler_load(pins)
    words = f"a {what} is pushed; pinned at its ends it bows out at {load / 1e3:.1f} kN, of which a third is allowed"
    where, state = f"{joint.name}, pushed", answer.states[number].name
    return [RULE.judge(where, state, float(push[number]), load / SAFE, "N", because=words, status="from memory")]


def _plates(joint: JointMovement) -> Floats:
    assert joint.plates is not None, "only joints with plates are asked"
    return joint.plates
