"""A hold for every thrust.     (checks/thrust_held.py)

What: from each unrestrained joint outward, a hold that takes thrust stands before any bend, dead end or free end; what
else the fluid pushes on the way to it (reducer, change of size, valve that can close, branch) is named with its push.
Why: each of these is pushed by the pressure with nothing to push back. Source: first principles. Limits: a branch's own
thrust is looked at from the joint in the branch: a hold must stand where it leaves. Passes: joint, reducer, anchor.
Fails: joint, bend, anchor; joint and free end; joint, reducer and the next joint with no anchor between.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.restrained import is_restrained
from takeup.line import ANCHORED_ENDS, SAME_STATION, Hold, Line, TakeUp, bore_area, is_anchor, route_of
from takeup.line.holding import ANCHORS
from takeup.study import HoldLoads, JointMovement, LineAnswer

RULE = Rule(
    name="thrust_held",
    title="a hold for every thrust",
    what=(
        "whether a hold that takes thrust stands between an unrestrained joint and the next bend, dead end or free "
        "end, each side; and what pushes on the way to it: reducer, change of size, valve, branch"
    ),
    why="pressure times area pushes each of these away from the joint, in test too",
    source="first principles",
    limits="a stop takes thrust one way only and does not count; nor does a hold that is there in some states only",
)

ALONG = 0.999  # cosine of less than three degrees: the hold stands along the pipe

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Place:
    """Something on the way outward from a joint: how far, what, and whether it holds, ends the way, or is passed.

    `area` is what the fluid pushes on there [m2].
    """

    distance: float
    words: str
    part: str  # "holds", "stands in the way", "pushes", "joint"
    area: float = 0.0


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each side of each unrestrained joint."""
    takeups = {item.name: item for item in answer.line.takeups}
    return [
        _side(answer, joint, takeups[joint.name], sense)
        for joint in answer.joints
        if not is_restrained(answer, takeups[joint.name])
        for sense in (-1.0, 1.0)
    ]


def holds_thrust(answer: LineAnswer, hold: HoldLoads, joint: JointMovement) -> bool:
    """Whether a hold takes a thrust along the pipe, both ways and always: an anchor, or a directional one that way."""
    if any(item.name == hold.name and item.only_in is not None for item in answer.line.holds):
        return False
    if hold.kind in (*ANCHORED_ENDS, *ANCHORS):
        return True
    if hold.kind != "directional anchor":
        return False
    return abs(float(hold.axes[0] @ answer.model.route.direction(joint.station))) > ALONG


def _side(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, sense: float) -> CheckResult:
    number = governing(joint.pressure)
    pressure, state = float(joint.pressure[number]), answer.states[number].name
    thrust = f"{pressure * takeup.data.effective_area / 1e3:.1f} kN"
    side = "before it" if sense < 0 else "beyond it"
    ahead, passed = _ahead(answer, joint, sense)
    named = ", ".join(f"{place.words} ({abs(pressure) * place.area / 1e3:.1f} kN)" for place in passed)
    if ahead.part == "holds":
        words = f"{side}: {ahead.words} takes {thrust}" + (f"; on the way push {named}" if named else "")
        return RULE.result(joint.name, state, "passes", words)
    if ahead.part == "joint":
        words = f"{side}: {named} is pushed, and no hold takes it as far as {ahead.words}"
        return RULE.result(joint.name, state, "fails", words)
    words = f"{side}: {ahead.words} takes {thrust} with no anchor before it"
    return RULE.result(joint.name, state, "fails", words + (f"; so do {named} on the way" if named else ""))


def _ahead(answer: LineAnswer, joint: JointMovement, sense: float) -> tuple[_Place, list[_Place]]:
    """Return what ends the way outward from a joint, and what is passed before it.

    Another joint ends the way only where something between the two is pushed: else the two push on each other, and on
    the anchors beyond them.
    """
    places = [*_holds(answer, joint, sense), *_pushed(answer, joint, sense), *_joints(answer, joint, sense)]
    order = ("pushes", "holds", "stands in the way", "joint")
    passed: list[_Place] = []
    for place in sorted(places, key=lambda item: (item.distance, order.index(item.part))):
        if place.distance <= 0.0 or (place.part == "joint" and not passed):
            continue
        if place.part != "pushes":
            return place, passed
        passed.append(place)
    return _Place(distance=0.0, words="nothing", part="stands in the way"), passed


def _holds(answer: LineAnswer, joint: JointMovement, sense: float) -> Iterator[_Place]:
    """Yield what takes the thrust, or is what it pushes away, on a side of a joint."""
    line, route = answer.line, answer.model.route
    for hold in answer.holds:
        if holds_thrust(answer, hold, joint):
            yield _Place(distance=sense * (hold.station - joint.station), words=hold.name, part="holds")
    for turn in route.turns:
        distance = sense * (turn.station - joint.station)
        yield _Place(distance=distance, words=f"the bend at {turn.name}", part="stands in the way")
    for end, station in ((line.start, 0.0), (line.end, route.length)):
        distance = sense * (station - joint.station)
        keeper = _keeper_at_main(answer) if end.kind == "branch" else None
        if keeper is not None:
            yield _Place(distance=distance, words=keeper, part="holds")
        elif end.kind not in ANCHORED_ENDS:
            yield _Place(distance=distance, words=f"the {end.kind} end {end.name}", part="stands in the way")


def _keeper_at_main(answer: LineAnswer) -> str | None:
    """Return the hold on the main that takes the thrust of this branch, where it leaves; None where none does."""
    line = answer.line
    assert line.branch is not None, "a line that begins as a branch leaves another"
    main, station = answer.study.line(line.branch.of), line.branch.position.station
    way = answer.model.route.direction(0.0)
    for hold in main.holds:
        if abs(hold.position.station - station) < SAME_STATION and _takes(main, hold, way):
            return f"{hold.name} on {main.name}"
    return None


def _takes(main: Line, hold: Hold, way: Floats) -> bool:
    """Whether a hold takes a thrust along a direction, both ways."""
    if is_anchor(hold):
        return True
    if hold.kind != "directional anchor" or hold.only_in is not None:
        return False
    along = route_of(main).direction(hold.position.station) if hold.along is None else np.array(hold.along)
    return abs(float(along @ way)) > ALONG


def _joints(answer: LineAnswer, joint: JointMovement, sense: float) -> Iterator[_Place]:
    for other in answer.joints:
        yield _Place(distance=sense * (other.station - joint.station), words=other.name, part="joint")


def _pushed(answer: LineAnswer, joint: JointMovement, sense: float) -> Iterator[_Place]:
    """Yield what the fluid pushes on along the pipe, or across it at a branch, with the area that it pushes on."""
    line = answer.line
    places = list(_sizes(line))
    places += [
        ((item.start + item.end) / 2.0, f"valve {item.name} when closed", bore_area(line.section_at(item.start).pipe))
        for item in line.items
        if item.can_close
    ]
    for branch in answer.branches:
        if branch.line.branch is not None:
            station, area = branch.line.branch.position.station, bore_area(branch.line.pipe)
            places.append((station, f"the branch to {branch.line.name}", area))
    for station, words, area in places:
        yield _Place(distance=sense * (station - joint.station), words=words, part="pushes", area=area)


def _sizes(line: Line) -> Iterator[tuple[float, str, float]]:
    """Yield station, words and difference of the bores [m2] of every change of size."""
    for before, after in pairwise(line.sections):
        if abs(before.pipe.size.outside_diameter - after.pipe.size.outside_diameter) < SAME_STATION:
            continue
        item = next((item for item in line.items if item.start <= before.end <= item.end), None)
        words = f"reducer {item.name}" if item is not None else f"the change of size at {before.end:.2f} m"
        yield before.end, words, abs(bore_area(before.pipe) - bore_area(after.pipe))
