"""Guides that a joint brings along where no rule of the line gives it any.     (choose/arrange/own_guides.py)

The spacing rule is for joints that only anchors hold together. One that is restrained pushes the line with its spring
alone, and still wants its sides kept in line: two guides, and more where that spring would bow the pipe beyond them, of
the kind that the line's rule has; none where it has none.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from takeup.basis import first_guide_limit, second_guide_limit
from takeup.choose.arrange.course import Course
from takeup.choose.rests import APART
from takeup.line import Hold
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


__all__ = ["Side", "first_distance", "guide_rule", "own_guides"]
