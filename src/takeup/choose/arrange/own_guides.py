"""Guides that a joint brings along where no rule of the line gives it any.     (choose/arrange/own_guides.py)

The spacing rule is for joints that only anchors hold together. One that is restrained pushes the line with its spring
alone, and still wants its sides kept in line: two guides, and more where that spring would bow the pipe beyond them, of
the kind that the line's rule has; none where it has none.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit
from takeup.choose.arrange.course import Course
from takeup.choose.rests import APART
from takeup.line import Hold, TakeUp, second_moment
from takeup.line.holding import HoldRule
from takeup.line.parts import Position, station_words

_STEP = 0.05  # in which places are set out [m]
_BEYOND = 1.0  # of a stretch, past the second guide, beyond which its length changes nothing [m]


@dataclass(frozen=True, kw_only=True, slots=True)
class Side:
    """A stretch of pipe beside a joint that wants guides.

    Args:
        face: where it begins, at the joint or at a bend beside it [m].
        sense: 1 with the stations, -1 against them.
        stop: where it ends, at an anchor or a bend [m].
        free: distance of the first guide from the face [m].
        longest: distance between guides that what pushes the pipe allows [m].
    """

    face: float
    sense: float
    stop: float
    free: float
    longest: float = math.inf


def guide_rule(course: Course) -> HoldRule | None:
    """Return the rule that says which guides a line has; None where it has none."""
    return next((rule for rule in course.line.rules if rule.by == "spacing rule"), None)


def first_distance(course: Course, station: float) -> float:
    """Return the distance of a first guide from the face of a joint, 4 D [m]  (EJMA, from memory)."""
    return first_guide_limit(course.line.section_at(station).pipe.size.outside_diameter)


def own_guides(course: Course, sides: Iterable[Side]) -> tuple[Hold, ...]:
    """Return guides on each side, as far as there is pipe: the second within 14 D of the first (EJMA, from memory).

    Beyond that at equal steps of at most what is stated, where anything is.

    Args:
        course: the line.
        sides: of a joint or of several.
    """
    rule = guide_rule(course)
    if rule is None:
        return ()
    wanting = tuple(_near(course, side) for side in sides)
    if wanting not in course.own_guides:
        course.own_guides[wanting] = _placed(course, rule, wanting)
    return course.own_guides[wanting]


def guides_beside_spring(
    course: Course, takeup: TakeUp, stations: tuple[float, float], push: float, *, beside: float = 0.0
) -> tuple[Hold, ...]:
    """Return the guides that a joint of a straight span brings along on each side that is not next to an anchor.

    Args:
        course: the line.
        takeup: the joint.
        stations: of both anchors [m].
        push: greatest force of its springs, and of what is left of its thrust [N].
        beside: from its face, how near an anchor guides it [m]; as far as the first guide where that is more.
    """
    middle, half = takeup.position.station, takeup.data.length / 2.0
    pipe = course.line.section_at(middle).pipe
    modulus = pipe.material.modulus.at(course.hottest_at(middle))
    longest = intermediate_guide_spacing(modulus, second_moment(pipe), push) if push > 0.0 else math.inf
    sides = []
    for sense, stop in ((-1.0, stations[0]), (1.0, stations[1])):
        face = middle + sense * half
        free = first_distance(course, face)
        if sense * (stop - face) > max(free, beside):
            sides.append(Side(face=face, sense=sense, stop=stop, free=free, longest=longest))
    return own_guides(course, sides)


def own_rest(course: Course, side: Side) -> tuple[Hold, ...]:
    """Return a rest where the first guide would stand, of the kind that the line's rule of support spans has.

    Args:
        course: the line.
        side: of a joint that carries no weight and must move across; none where there is no room or no such rule.
    """
    rule = next((rule for rule in course.line.rules if rule.by == "support spans" and rule.kind == "rest"), None)
    if rule is None:
        return ()
    station = round(side.face + side.sense * _down(side.free), 6)
    held = (hold.position.station for hold in course.line.holds)
    if side.sense * (side.stop - station) < APART or any(abs(station - other) <= APART for other in held):
        return ()
    return (_guide(rule, station),) if course.line.allowed.is_clear(station) else ()


def _near(course: Course, side: Side) -> Side:
    """Return a side no longer than its guides could use where nothing asks for more than two: many spans share it."""
    reach = side.free + second_guide_limit(_diameter(course, side)) + _BEYOND
    if side.longest < math.inf or side.sense * (side.stop - side.face) <= reach:
        return side
    return replace(side, stop=side.face + side.sense * reach)


def _placed(course: Course, rule: HoldRule, sides: Iterable[Side]) -> tuple[Hold, ...]:
    held = [hold.position.station for hold in course.line.holds]
    stations = list[float]()
    for side in sides:
        length = side.sense * (side.stop - side.face)
        for away in _distances(course, side, length):
            station = round(side.face + side.sense * _down(away), 6)
            apart = all(abs(station - other) > APART for other in (*held, *stations))
            if away < length - APART and apart and course.line.allowed.is_clear(station):
                stations.append(station)
    return tuple(_guide(rule, station) for station in sorted(stations))


def _distances(course: Course, side: Side, length: float) -> list[float]:
    """Return how far guides of a side stand from its face [m]."""
    second = side.free + min(second_guide_limit(_diameter(course, side)), side.longest)
    steps = max(math.ceil((length - second) / side.longest - 1e-9), 1)
    more = [second + (length - second) * number / steps for number in range(1, steps)]
    return [side.free, second, *more]


def _diameter(course: Course, side: Side) -> float:
    return course.line.section_at(side.face).pipe.size.outside_diameter


def _down(distance: float) -> float:
    return math.floor(distance / _STEP + 1e-9) * _STEP


def _guide(rule: HoldRule, station: float) -> Hold:
    words = station_words(station)
    return Hold(
        name=f"{rule.kind} at {words}",
        kind=rule.kind,
        position=Position(words=words, station=station),
        friction=rule.friction,
        clearance=rule.clearance,
        can_carry=rule.can_carry,
    )


__all__ = ["Side", "first_distance", "guide_rule", "guides_beside_spring", "own_guides", "own_rest"]
