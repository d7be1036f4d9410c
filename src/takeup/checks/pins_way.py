"""Pins that lie the wrong way: the line wants to turn where the joint is rigid.     (checks/pins_way.py)

What: of each hinged and swing joint, in the state in which growth does most to it, the movement that its pins leave
free beside the movement the other way, which plates or bars hold, and the work of growth in both. Why: pins at right
angles to what the line wants make a joint as stiff as pipe; its loads are honest, and it takes up nothing. Source:
first principles. Limits: growth alone, told from a cold state of the same content; a gimbal turns both ways and is not
asked; nor is a joint in line between two anchors, which turns neither way. Passes: a pair of hinges with upright pins
in a level Z. Says: "close" of the same pair with its pins level.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.joints import KINDS, Pins
from takeup.line import State, TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.study.records import Floats

RULE = Rule(
    name="pins_way",
    title="pins about the axis that the line turns about",
    what=(
        "the movement by growth that the pins of a hinged or swing joint leave free, beside the movement the other "
        "way, which its plates or bars hold"
    ),
    why="a joint whose pins lie at right angles to what the line wants is as stiff as pipe and takes up nothing",
    source="first principles; a hundredth of the rated movement: common practice, no source",
    limits="growth from a cold state of the same content; a gimbal turns both ways and is not asked; never fails",
)
_LITTLE = 0.01  # of the rated movement: less takes up nothing to speak of (common practice, no source)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Ways:
    """What growth does to one joint, its cold state of the same content taken off, each (states,).

    Args:
        free: turn about the pins, or movement across them [rad], [m].
        held: turn or movement the other way [rad], [m].
        hold: couple or force in the plates or bars that holds it [N m], [N].
        rate: of the bellows, in the way of `free` [N m/rad], [N/m].
        rated: for how much of it [rad], [m].
    """

    free: Floats
    held: Floats
    hold: Floats
    rate: float
    rated: float

    @property
    def work_free(self) -> Floats:
        """Twice what the bellows stores, k theta^2 [J]."""
        return self.rate * self.free**2

    @property
    def work_held(self) -> Floats:
        """Twice what plates or bars store, M theta [J]."""
        return np.abs(self.hold * self.held)

    def wrong(self, number: int) -> bool:
        """Whether growth works against the hardware in a state, while next to nothing moves as the pins let it.

        Work alone would tell a joint that turns well in a line that also presses it from the side; movement alone would
        miss one whose plates are stiff. What its plates hold must be more than would bend its bellows, free to turn
        that way, as far as they are rated: else nothing wanted to move either way.
        """
        little = max(abs(float(self.held[number])), _LITTLE * self.rated)
        return bool(
            self.work_held[number] > self.work_free[number]
            and abs(self.free[number]) <= little
            and abs(self.hold[number]) > self.rate * self.rated
        )


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return of every hinged and swing joint whether its pins lie in the way that growth wants to move it."""
    takeups = {item.name: item for item in answer.line.takeups}
    cold = [_cold_like(answer.states, state) for state in answer.states]
    found = [_of_joint(answer, joint, takeups[joint.name], cold) for joint in answer.joints]
    return [row for row in found if row is not None]


def _cold_like(states: tuple[State, ...], state: State) -> int | None:
    """Return the number of the first state with the same content at the temperatures of installation."""
    installed = [zone.temperature for zone in states[0].zones]
    contents = [zone.content for zone in state.zones]
    for number, other in enumerate(states):
        if [zone.content for zone in other.zones] == contents and [
            zone.temperature for zone in other.zones
        ] == installed:
            return number
    return None


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, cold: list[int | None]) -> CheckResult | None:
    pins = takeup.pins
    if pins is None or joint.plates is None or KINDS[takeup.kind].pins == "gimbal":
        return None
    asked = [number for number, first in enumerate(cold) if first is not None]
    before = [first for first in cold if first is not None]
    ways = _ways(answer, joint, takeup, pins, (asked, before))
    number = governing(ways.work_free + ways.work_held)
    state = answer.states[asked[number]].name
    words = _words(takeup, pins, ways, number)
    if not ways.wrong(number):
        return RULE.result(joint.name, state, "passes", words)
    does = "turn" if KINDS[takeup.kind].pins == "hinge" else "move"
    advice = (
        f"{words}: the line wants to {does} the other way, and the joint takes up nothing; set its pins at right angles"
    )
    return RULE.result(joint.name, state, "close", advice)


def _ways(
    answer: LineAnswer, joint: JointMovement, takeup: TakeUp, pins: Pins, pairs: tuple[list[int], list[int]]
) -> _Ways:
    """Return what growth does to a joint between pairs of states: those asked, and those before they are hot."""
    assert joint.plates is not None, "only joints with plates are asked"
    along, aside = np.array(pins.along), np.array([-pins.along[1], pins.along[0]])
    angular, data = answer.model.rates[joint.name].angular, takeup.data
    rate: float
    if KINDS[takeup.kind].pins == "swing":
        assert data.centres is not None, "a swing joint has two bellows"
        free, held, hold = joint.lateral @ aside, joint.lateral @ along, joint.plates[:, :, 2].sum(axis=1)
        rate = 6.0 * angular / (data.live_length**2 + 3.0 * data.centres**2)
        rated = data.lateral
    else:
        free, held = joint.angular @ along, joint.angular @ aside
        hold = (joint.plates[:, 0, 0] - joint.plates[:, 1, 0]) * pins.spread / 2.0
        rate, rated = angular, data.angular
    asked, before = pairs
    return _Ways(
        free=free[asked] - free[before],
        held=held[asked] - held[before],
        hold=hold[asked] - hold[before],
        rate=rate,
        rated=rated or 0.0,
    )


def _words(takeup: TakeUp, pins: Pins, ways: _Ways, number: int) -> str:
    """Return what growth does to the joint, in words."""
    free, hold = abs(float(ways.free[number])), abs(float(ways.hold[number])) / 1e3
    if KINDS[takeup.kind].pins == "swing":
        return (
            f"its pins lie {pins.way}: by growth it moves {free * 1e3:.2f} mm across them, and its bars hold "
            f"{hold:.2f} kN along them"
        )
    return (
        f"its pins lie {pins.way}: by growth it turns {np.degrees(free):.3f} deg about them, and its plates hold "
        f"{hold:.2f} kN·m the other way"
    )
