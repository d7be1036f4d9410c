"""From a path of plans to a complete line: anchors, joints by name, rules resolved.     (choose/arrange/assemble.py)"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from takeup.choose.arrange.ground import Ground, anchor_of
from takeup.choose.arrange.loop import NAME
from takeup.choose.arrange.records import Arranged, Plan
from takeup.choose.rules import resolve_rules
from takeup.line import Hold, Line, Study, TakeUp
from takeup.line.looped import LoopPlan, looped, moved_station
from takeup.line.parts import Position, station_words


def arranged(ground: Ground, plans: Sequence[Plan]) -> Arranged:
    """Return the plans of a path with their joints named, and the anchors that it adds.

    Args:
        ground: of the search.
        plans: from the first place to the last.
    """
    names = _free_names(ground)
    every = [replace(loop, name=f"{NAME} {number}") for number, loop in enumerate(_loops(plans), start=1)]
    numbered = iter(every)
    named = []
    for plan in plans:
        joints = tuple(_moved_joint(replace(item, name=next(names)), every) for item in plan.takeups)
        named.append(replace(plan, takeups=joints, loops=tuple(next(numbered) for _ in plan.loops)))
    inner = [ground.places[plan.far] for plan in plans[:-1]]
    anchors = tuple(_moved_anchor(anchor_of(place), every) for place in inner if not place.fixed)
    guides = [hold for plan in plans for hold in plan.holds]
    return Arranged(
        plans=tuple(named),
        anchors=anchors,
        guides=tuple(_named_by_place(replace(hold, position=_moved(hold.position, every))) for hold in guides),
        loops=tuple(every),
    )


def _named_by_place(hold: Hold) -> Hold:
    return replace(hold, name=f"{hold.kind} at {hold.position.words}")


def _loops(plans: Sequence[Plan]) -> list[LoopPlan]:
    return [loop for plan in plans for loop in plan.loops]


def _moved(position: Position, loops: Sequence[LoopPlan]) -> Position:
    """Return a place of the bare line where it is once the loops are in."""
    station = moved_station(position.station, loops)
    return position if station == position.station else Position(words=station_words(station), station=station)


def _moved_joint(takeup: TakeUp, loops: Sequence[LoopPlan]) -> TakeUp:
    return replace(takeup, position=_moved(takeup.position, loops))


def _moved_anchor(anchor: Hold, loops: Sequence[LoopPlan]) -> Hold:
    return replace(anchor, position=_moved(anchor.position, loops))


def _free_names(ground: Ground) -> Iterator[str]:
    """Yield J1, J2 and so on, those left out that the file has."""
    taken = {hold.name for line in ground.study.lines for hold in line.holds}
    taken |= {item.name for line in ground.study.lines for item in line.takeups}
    taken |= {leg.to.name for leg in ground.line.legs if leg.to.name}
    number = 0
    while True:
        number += 1
        if f"J{number}" not in taken:
            yield f"J{number}"


def study_with(ground: Ground, whole: Arranged) -> Study:
    """Return the study with an arrangement in its line, the rules not resolved yet.

    Args:
        ground: of the search.
        whole: the arrangement.
    """
    study = looped(ground.study, ground.line.name, whole.loops) if whole.loops else ground.study
    bare = study.line(ground.line.name)
    line = line_with(bare, (*whole.anchors, *whole.guides), [item for plan in whole.plans for item in plan.takeups])
    return replace(study, lines=tuple(line if one.name == line.name else one for one in study.lines))


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


__all__ = ["arranged", "line_with", "resolved_with", "study_with"]
