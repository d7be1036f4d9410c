"""Where hinges stand in an L or Z, and by how much each turns.     (choose/arrange/hinge_shapes.py)

Pieces between hinges are rigid but grow; what lies beyond the outer hinges grows along itself. With d_i from hinge i to
the next, n the normal of the plane and G the growth of the whole span, turning by phi_i closes the line again:

    sum_i phi_i n x d_i = -G       three hinges: both parts in the plane;  two: the part across d, the rest bends pipe
    theta_1 = phi_1, theta_2 = phi_2 - phi_1, theta_3 = -phi_2                            (statics of linkages, small)
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.records import Floats, HingePlaces
from takeup.line.reading.going import DIRECTIONS
from takeup.line.reading.pin_ways import LEVEL, NEARLY_VERTICAL, UPRIGHT, PinWay
from takeup.line.reading.wording import way_words

BETWEEN = 0.3
"""From a bend or an anchor to the face of a hinge: room for a weld and a spanner [m] (common practice, no source)."""
LEVERS = (2.0, 3.0, 4.0, 6.0, 8.0, 12.0)
"""Distances of the hinges of a set of three that are looked at [m] (common practice, no source)."""
_STEP = 0.05  # in which places are set out [m]
_MOST_STEPS = 60  # three metres of tries for room
_LONGER = 1.0  # that a leg is left longer by where it was the longer one [m]
_SAME = 1e-9
_FLAT = 1e-6  # of unit vectors
_IN_LINE = 0.05  # sine of the angle between both pieces, below which three hinges fold


@dataclass(frozen=True, kw_only=True, slots=True)
class Bent:
    """A span that turns in one plane.

    Args:
        legs: from and to stations of its straight parts [m], anchors and tangent points its ends.
        normal: of the plane, of length one.
    """

    legs: tuple[tuple[float, float], ...]
    normal: Floats


Shapes = Callable[[Course, Bent, float], Iterator[HingePlaces]]


def bent_span(course: Course, near: int, far: int) -> Bent | str:
    """Return a span that turns, or why no hinges serve in it: it does not lie in one plane."""
    low, high = course.places[near].station, course.places[far].station
    turns = [turn for turn in course.route.turns if low < turn.station < high]
    edges = [low, *(edge for turn in turns for edge in (turn.begin, turn.finish)), high]
    first = turns[0]
    normal = np.cross(first.entry, first.exit)
    normal /= np.linalg.norm(normal)
    ways = [first.entry, *(turn.exit for turn in turns)]
    if any(abs(float(normal @ way)) > _FLAT for way in ways):
        return "it does not lie in one plane, and hinges turn in one; gimbals, typed in, turn in any"
    return Bent(legs=tuple(zip(edges[::2], edges[1::2], strict=True)), normal=normal)


def pin_way(course: Course, normal: Floats, station: float) -> PinWay | None:
    """Return how pins along a direction lie at a place, in the words of a line file; None where it has none."""
    pipe = course.route.direction(station)
    upright, level = abs(abs(float(normal[2])) - 1.0) < _FLAT, abs(float(normal[2])) < _FLAT
    if abs(float(pipe[2])) <= NEARLY_VERTICAL:
        return PinWay(UPRIGHT, None) if upright else PinWay(LEVEL, None) if level else None
    words = next((word for one in (normal, -normal) if (word := way_words(_clean(one))) is not None), None)
    return None if words is None else PinWay(words, DIRECTIONS[words])


def _clean(way: Floats) -> tuple[float, float, float]:
    """Return a direction without the rounding of a cross product."""
    x, y, z = (float(part) + 0.0 for part in np.round(way, 12))
    return x, y, z


def pair_in_offset(course: Course, bent: Bent, length: float) -> Iterator[HingePlaces]:
    """Yield two hinges in the middle leg of a Z or U, each beside its corner; none where it is too short for both."""
    begin, finish = bent.legs[1]
    first, second = _beside(course, length, begin, 1.0, finish), _beside(course, length, finish, -1.0, begin)
    if first is not None and second is not None and second - first >= length - _SAME:
        yield from turned(course, bent.normal, (first, second))


def three_in_corner(course: Course, bent: Bent, length: float) -> Iterator[HingePlaces]:
    """Yield three hinges in an L, with longer levers each time: two in the longer leg, one in the shorter."""
    (low, corner), (beyond, high) = bent.legs
    first_longer = corner - low >= high - beyond
    edge, end, sense = (corner, low, -1.0) if first_longer else (beyond, high, 1.0)
    other, last = (beyond, high) if first_longer else (corner, low)
    inner = _beside(course, length, edge, sense, end)
    before = -1.0
    for lever in LEVERS:
        if inner is None:
            return
        outer = _beside(course, length, inner + sense * (lever - length / 2.0 - BETWEEN), sense, end)
        third = _beside(course, length, other - sense * max(lever - length, 0.0), -sense, last)
        if third is None:
            third = _beside(course, length, last, sense, other)
        if outer is None or third is None:
            return
        found = sorted((outer, inner, third))
        if found[2] - found[0] <= before + _SAME:
            return
        before = found[2] - found[0]
        yield from turned(course, bent.normal, tuple(found))


def near_corners(bent: Bent, length: float) -> Bent:
    """Return a span that turns with outer legs no longer than a set could use: of what is beyond none knows.

    The longer of both stays the longer.
    """
    reach = LEVERS[-1] + _MOST_STEPS * _STEP + 3.0 * length + 2.0 * BETWEEN
    (low, first), (last, high) = bent.legs[0], bent.legs[-1]
    more = _LONGER if high - last > first - low else 0.0
    low, high = max(low, first - reach), min(high, last + reach + more)
    return Bent(legs=((low, first), *bent.legs[1:-1], (last, high)), normal=bent.normal)


def _beside(course: Course, length: float, edge: float, sense: float, stop: float) -> float | None:
    """Return the middle of a hinge as near to a place as it has room, on the way to where its leg ends [m]."""
    for step in range(_MOST_STEPS):
        middle = edge + sense * (BETWEEN + length / 2.0 + step * _STEP)
        middle = round(sense * math.ceil(sense * middle / _STEP - _SAME) * _STEP, 6)
        if sense * (stop - middle) < BETWEEN + length / 2.0 - _SAME:
            return None
        low, high = course.taken
        half = length / 2.0
        if not bool(((low < middle + half - _SAME) & (middle - half + _SAME < high)).any()):
            return middle
    return None


def turned(course: Course, normal: Floats, stations: tuple[float, ...]) -> tuple[HingePlaces, ...]:
    """Return hinges with what they turn by; none where three lie nearly in a line. Spans that share them share that.

    Args:
        course: the line.
        normal: of the plane that it turns in.
        stations: of the hinges, two or three [m].
    """
    key = (tuple(normal.tolist()), stations)
    if key not in course.linkages:
        course.linkages[key] = tuple(_linkage(course, normal, stations))
    return course.linkages[key]


def _linkage(course: Course, normal: Floats, stations: tuple[float, ...]) -> Iterator[HingePlaces]:
    points = np.array([course.route.point(station) for station in stations])
    arms = np.cross(normal, np.diff(points, axis=0))
    if len(arms) == 1:
        phi = arms[0] / float(arms[0] @ arms[0])
        yield HingePlaces(stations=stations, turning=np.stack([phi, phi]))
        return
    sine = abs(float(np.cross(*arms) @ normal)) / float(np.linalg.norm(arms[0]) * np.linalg.norm(arms[1]))
    if sine >= _IN_LINE:
        phi = np.linalg.pinv(arms.T)  # exact in the plane; what grows out of it turns nothing
        yield HingePlaces(stations=stations, turning=np.stack([phi[0], phi[1] - phi[0], phi[1]]))


__all__ = [
    "BETWEEN",
    "LEVERS",
    "Bent",
    "HingePlaces",
    "Shapes",
    "bent_span",
    "near_corners",
    "pair_in_offset",
    "pin_way",
    "three_in_corner",
    "turned",
]
