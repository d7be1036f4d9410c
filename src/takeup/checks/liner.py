"""Liners: needed at this velocity, room round them, the way they stand, their drain.     (checks/liner.py)

What: the velocity of the flow through a joint against that above which a liner is called for; the room all round a
fitted liner against the joint's lateral and angular movement in every state; its drain where gas or steam flows upward.
Why: flow that is fast or stirred shakes convolutions until they crack; a liner that touches them wears them through.
Source: EJMA, 8th and 9th edition, C-3 (from memory); room: geometry; drain: common practice. Limits: the flow is taken
along the route, from its start to its end; of joints of which neither velocity nor liner is said no row stands here,
and the papers say so. Passes: water at 2 m/s in DN 100, 2 m beyond a bend. Fails: the same at 3 m/s without a liner.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.errors import OutOfRange
from takeup.joints import KINDS
from takeup.joints.sizing import drain_needed, liner_clearance, velocity_without_liner
from takeup.joints.sizing.liner import Flow
from takeup.line import LIQUIDS, SAME_STATION, Line, Study, TakeUp, route_of
from takeup.line.fitting import Liner
from takeup.study import JointMovement, LineAnswer, joint_spans
from takeup.study.records import Floats
from takeup.units import to_deg, to_mm

RULE = Rule(
    name="liner",
    title="liners of joints",
    what=(
        "the velocity through a joint against that above which it needs a liner; the room round a fitted one against "
        "the joint's lateral and angular movement; its drain where gas or steam flows upward"
    ),
    why="fast or stirred flow shakes a bellows until it cracks; a liner that touches it wears it through",
    source="EJMA, 8th and 9th edition, C-3 (from memory); room: geometry; drain: common practice, no source",
    limits=(
        "the flow runs from the start of the route to its end; half the velocity within ten bores of what stirs it; "
        "where neither velocity nor liner is said nothing is looked at, and the papers say so"
    ),
)
NO_VELOCITY = "not looked at: no velocity is given"
_STIRRING_STARTS = {
    "branch": "the tee at its start",
    "equipment": "the equipment at its start",
    "closed valve": "the valve at its start",
    "continues": "its start, beyond which the line is not in the file",
}
_HOSE = "a hose takes no liner: what velocity it stands is for its maker to say"
_HOUSED = "its bellows stands in a housing round its inner pipe, out of the flow: no liner is called for"


@dataclass(frozen=True, kw_only=True, slots=True)
class Stirred:
    """What stirs the flow upstream of a joint: how far from its first face [m], and what."""

    distance: float
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Flowing:
    """The flow through a joint: what flows, the velocity above which it needs a liner [m/s], what stirs it.

    `rise` is the sine of its way above the level.
    """

    flow: Flow
    limit: float
    near: Stirred | None
    rise: float


def bellows_in_flow(takeup: TakeUp) -> str:
    """Return why a joint's bellows is not asked for a liner; nothing where it is."""
    if takeup.kind == "braided hose loop":
        return _HOSE
    return _HOUSED if KINDS[takeup.kind].sleeved else ""


def flowing(study: Study, line: Line, takeup: TakeUp) -> Flowing:
    """Return what the velocity through a joint is held against."""
    pipe = line.section_at(takeup.position.station).pipe
    flow: Flow = "liquid" if line.medium in LIQUIDS else "gas"
    near = stirred(study, line, takeup)
    bore = pipe.size.outside_diameter - 2.0 * pipe.wall
    rise = float(route_of(line).direction(takeup.position.station)[2])
    return Flowing(
        flow=flow,
        limit=velocity_without_liner(bore, flow, None if near is None else near.distance),
        near=near,
        rise=min(max(rise, -1.0), 1.0),  # rounding of a unit vector
    )


def stirred(study: Study, line: Line, takeup: TakeUp) -> Stirred | None:
    """Return the nearest thing upstream of a joint that stirs the flow: bend, valve, reducer, branch; None: nothing."""
    first = joint_spans(takeup).start
    places = [(station, words) for station, words in _stirring(study, line) if station <= first]
    if not places:
        return None
    station, words = max(places)
    return Stirred(distance=first - station, words=words)


def _stirring(study: Study, line: Line) -> Iterator[tuple[float, str]]:
    """Yield where each thing that stirs the flow ends [m], and what it is."""
    if line.start.kind in _STIRRING_STARTS:
        yield 0.0, _STIRRING_STARTS[line.start.kind]
    for turn in route_of(line).turns:
        yield turn.finish, f"the bend at {turn.name}"
    for item in line.items:
        if item.kind != "flange":
            yield item.end, item.name
    for before, after in pairwise(line.sections):
        if abs(before.pipe.size.outside_diameter - after.pipe.size.outside_diameter) > SAME_STATION:
            yield after.start, f"the change of size at {after.start:.2f} m"
    for other in study.lines:
        if other.branch is not None and other.branch.of == line.name:
            yield other.branch.position.station, f"the branch to {other.name}"


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return of each joint of which a velocity or a liner is said what is to be said of its liner."""
    takeups = {item.name: item for item in answer.line.takeups}
    return [
        row
        for joint in answer.joints
        if takeups[joint.name].fitting.velocity is not None or takeups[joint.name].fitting.liner is not None
        for row in _of_joint(answer, joint, takeups[joint.name])
    ]


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> Iterator[CheckResult]:
    why = bellows_in_flow(takeup)
    if why:
        yield _open(RULE.result(takeup.name, "all states", "not covered" if why == _HOSE else "passes", why))
        return
    through = flowing(answer.study, answer.line, takeup)
    yield _need(takeup, through, direction_words(answer.line))
    liner = takeup.fitting.liner
    if liner is not None and liner.fitted:
        yield _room(answer, joint, takeup, liner)
        if drain_needed(through.flow, through.rise):
            yield _drain(takeup, liner)


def direction_words(line: Line) -> str:
    """Return which way the flow is taken to run, and what that says of a liner."""
    return (
        f"the flow is taken to run with the route, from {line.start.name} to {line.end.name}: its fixed end stands "
        "upstream"
    )


def need_words(through: Flowing) -> str:
    """Return the velocity above which a liner is called for, and why that one."""
    near = through.near
    where = "" if near is None else f", {near.words} being {near.distance:.2f} m upstream"
    return f"{through.flow} needs a liner above {through.limit:.2f} m/s here{where}"


def _need(takeup: TakeUp, through: Flowing, direction: str) -> CheckResult:
    velocity, liner, where = takeup.fitting.velocity, takeup.fitting.liner, takeup.name
    if velocity is None:
        fitted = "a liner is fitted" if liner is not None and liner.fitted else "no liner is fitted"
        return _open(RULE.result(where, "all states", "not covered", f"{NO_VELOCITY}; {fitted}"))
    words, status = f"{need_words(through)}; it flows with {velocity:g} m/s", "from memory"
    if liner is not None and liner.fitted:
        return RULE.result(where, "all states", "passes", f"{words}; a liner is fitted; {direction}", status=status)
    if liner is None and velocity > through.limit:
        words += "; a liner is needed, and whether one is fitted is not said"
        return RULE.result(where, "all states", "not covered", words, status=status)
    words += "; no liner is fitted" if liner is not None else "; whether a liner is fitted is not said"
    return RULE.judge(where, "all states", velocity, through.limit, "m/s", because=words, status=status)


def room_needed(joint: JointMovement, takeup: TakeUp, length: float) -> Floats:
    """Return the room that a liner needs all round in each state, (states,) [m].

    Each of two bellows turns by the offset of the ends over the distance of their middles, and by their angle.

    Args:
        joint: its movements.
        takeup: the joint.
        length: of the liner beyond its fixed end [m].

    Raises:
        OutOfRange: An angle is no angle that a joint turns by.
    """
    aside = np.linalg.norm(joint.lateral, axis=1) + takeup.misalignment[0]
    askew = np.linalg.norm(joint.angular, axis=1) + takeup.misalignment[1]
    if takeup.data.centres is not None:
        aside, askew = np.zeros_like(aside), askew + np.arctan(aside / takeup.data.centres)
    return np.array([liner_clearance(float(y), float(turn), length) for y, turn in zip(aside, askew, strict=True)])


def _room(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, liner: Liner) -> CheckResult:
    where = f"{takeup.name}, room round its liner"
    if liner.length is None or liner.clearance is None:
        missing = " and ".join(key for key in ("clearance", "length") if getattr(liner, key) is None)
        return _open(RULE.result(where, "all states", "not covered", f"not looked at: its {missing} is not given"))
    try:
        needed = room_needed(joint, takeup, liner.length)
    except OutOfRange as why:
        return RULE.result(where, "all states", "not covered", str(why))
    number = governing(needed)
    aside, askew = math.hypot(*joint.lateral[number]), math.hypot(*joint.angular[number])
    words = (
        f"lateral {to_mm(aside):.2f} mm and angular {to_deg(askew):.3f} deg, misalignment on top, over a liner of "
        f"{to_mm(liner.length):.5g} mm; {liner.source}"
    )
    demand, room = to_mm(float(needed[number])), to_mm(liner.clearance)
    return RULE.judge(where, answer.states[number].name, demand, room, "mm", because=words, status="user's data")


def _drain(takeup: TakeUp, liner: Liner) -> CheckResult:
    where, why = f"{takeup.name}, drain of its liner", "what condenses stays between liner and bellows, the flow rising"
    if liner.drained is None:
        words = f"not looked at: whether it has holes by its fixed end is not said; {why}"
        return _open(RULE.result(where, "all states", "not covered", words))
    words = f"{why}: it {'has' if liner.drained else 'needs'} holes by its fixed end"
    return RULE.result(where, "all states", "passes" if liner.drained else "close", words)


def _open(row: CheckResult) -> CheckResult:
    """Return a row that stands in no study's way: nobody gave what it asks for."""
    return replace(row, mandatory=False)
