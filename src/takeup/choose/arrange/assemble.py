"""From a path of plans to complete lines: anchors, joints by name, rules resolved.     (choose/arrange/assemble.py)"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.loop import NAME
from takeup.choose.arrange.places import anchor_of
from takeup.choose.arrange.records import Added, Arranged, Plan
from takeup.choose.rules import resolve_rules
from takeup.line import Hold, Line, Study, TakeUp
from takeup.line.looped import LoopPlan, looped, moved_station
from takeup.line.parts import Position, station_words


def arranged(ground: Ground, plans: Sequence[Plan]) -> Arranged:
    """Return the plans of a path with their joints named, and what it adds to each line.

    Args:
        ground: of the search.
        plans: from the first place to the last, line by line.
    """
    names = _free_names(ground)
    numbers = iter(range(1, 1 + sum(len(plan.loops) for plan in plans)))
    named: list[Plan] = []
    lines: dict[str, Added] = {}
    for course in ground.courses:
        own = plans_on(ground, plans, course)
        looping = [
            replace(plan, loops=tuple(replace(loop, name=f"{NAME} {next(numbers)}") for loop in plan.loops))
            for plan in own
        ]
        loops = tuple(loop for plan in looping for loop in plan.loops)
        joined = [
            replace(plan, takeups=tuple(_moved_joint(replace(item, name=next(names)), loops) for item in plan.takeups))
            for plan in looping
        ]
        named += joined
        lines[course.line.name] = _added(ground, joined, loops)
    return Arranged(plans=tuple(named), lines=lines)


def plans_on(ground: Ground, plans: Iterable[Plan], course: Course) -> list[Plan]:
    """Return the plans of a path that lie on one line.

    Args:
        ground: of the search.
        plans: of the path.
        course: the line.
    """
    return [plan for plan in plans if ground.places[plan.near].line == course.line.name]


def _added(ground: Ground, plans: Sequence[Plan], loops: tuple[LoopPlan, ...]) -> Added:
    """Return what the plans of one line add to it."""
    inner = [ground.places[plan.far] for plan in plans[:-1]]
    anchors = (anchor_of(place) for place in inner if not place.fixed)
    guides = (hold for plan in plans for hold in plan.holds)
    return Added(
        anchors=tuple(replace(anchor, position=_moved(anchor.position, loops)) for anchor in anchors),
        guides=tuple(_named_by_place(replace(hold, position=_moved(hold.position, loops))) for hold in guides),
        takeups=tuple(item for plan in plans for item in plan.takeups),
        loops=loops,
    )


def _named_by_place(hold: Hold) -> Hold:
    return replace(hold, name=f"{hold.kind} at {hold.position.words}")


def _moved(position: Position, loops: Sequence[LoopPlan]) -> Position:
    """Return a place of the bare line where it is once the loops are in."""
    station = moved_station(position.station, loops)
    return position if station == position.station else Position(words=station_words(station), station=station)


def _moved_joint(takeup: TakeUp, loops: Sequence[LoopPlan]) -> TakeUp:
    return replace(takeup, position=_moved(takeup.position, loops))


def _free_names(ground: Ground) -> Iterator[str]:
    """Yield J1, J2 and so on, those left out that the file has."""
    taken = {hold.name for line in ground.study.lines for hold in line.holds}
    taken |= {item.name for line in ground.study.lines for item in line.takeups}
    taken |= {leg.to.name for line in ground.study.lines for leg in line.legs if leg.to.name}
    number = 0
    while True:
        number += 1
        if f"J{number}" not in taken:
            yield f"J{number}"


def study_with(ground: Ground, whole: Arranged) -> Study:
    """Return the study with an arrangement in its lines, the rules not resolved yet.

    Args:
        ground: of the search.
        whole: the arrangement.
    """
    study = ground.study
    for name, added in whole.lines.items():
        study = looped(study, name, added.loops) if added.loops else study
        line = line_with(study.line(name), (*added.anchors, *added.guides), added.takeups)
        study = replace(study, lines=tuple(line if one.name == name else one for one in study.lines))
    return study


def resolved_with(ground: Ground, whole: Arranged) -> Study:
    """Return the same, guides and rests placed."""
    return resolve_rules(study_with(ground, whole))


def line_with(line: Line, holds: Sequence[Hold], takeups: Sequence[TakeUp]) -> Line:
    """Return a line with more holds and joints, in the order of their stations."""
    return replace(
        line,
        holds=tuple(sorted((*line.holds, *holds), key=lambda hold: hold.position.station)),
        takeups=tuple(sorted((*line.takeups, *takeups), key=lambda item: item.position.station)),
    )


__all__ = ["arranged", "line_with", "plans_on", "resolved_with", "study_with"]
