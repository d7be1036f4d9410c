"""How lines that are not held can move: each motion that nothing resists, drawn as a shape.     (drawing/free_view.py)

A rigid motion moves all of a line, so all of every line that moves is shown. Arrows say which way; one that would lie
on the pipe stands beside it. A straight line that turns about its own axis moves nowhere: rings say that it turns. The
axis of a turn that is seen end-on is marked with a small cross.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from takeup.drawing.mode_shape import Bowed, bowed_lines, shape_of, size_of
from takeup.drawing.reading import Record, Results, records_of, text_of, vector_of
from takeup.drawing.route import Vector
from takeup.drawing.shape_view import LARGEST, SHAPE, Drawn, Moving, sheet_of
from takeup.drawing.sheet import Item, Point, Polyline, Sheet, Stroke
from takeup.edge import SI, Units

_ARROW = Stroke(width=0.2)
_ARROWS = 5  # on each line
_SHORT = 2.5  # an arrow is not drawn shorter [mm]
_HEAD = (1.8, 0.6)  # of an arrow: length, half its width [mm]
_LEVEL = 0.97  # cosine from which an arrow would lie on the pipe
_BESIDE = 4.5  # and then stands so far off it [mm]
_RING = (1.3, 3.4)  # half the axes of a ring round the pipe, along it and across [mm]
_OPEN, _STROKES = 0.7, 24  # a ring is open by so much on either side of its end [rad], and has so many strokes
_CROSS = 1.6  # half the size of the cross on an axis [mm]
_END_ON = 1e-3  # of an axis seen end-on no more is left
_HOW = " freely "


def free_sheets(results: Results, units: Units = SI) -> tuple[Sheet, ...]:
    """Return one drawing for each motion that nothing resists, as wide as a page's words; none where all is held.

    Args:
        results: The results document.
        units: What its scale bar is written in.
    """
    return tuple(sheet_of(_moving(results, motion, units), units) for motion in records_of(results, "not_held"))


def title_of_motion(words: str) -> str:
    """Return "the line can turn freely about ..." as "How the line can turn freely: about ..."."""
    who, _, how = words.partition(_HOW)
    return f"How {who}{_HOW.rstrip()}: {how}"


def _moving(results: Results, motion: Record, units: Units) -> Moving:
    lines, words = bowed_lines(results, motion, rigid=True), text_of(motion, "words")
    turns = tuple(vector_of(shape_of(motion, bowed.line), "turn") for bowed in lines)
    going = [number for number, turn in enumerate(turns) if _moves(lines[number], turn)]
    shifts = any(size_of(movement) > 0.0 for bowed in lines for movement in bowed.movements)
    number, at = max(
        ((number, at) for number in going for at in range(len(lines[number].movements))),
        key=lambda place: round(size_of(lines[place[0]].movements[place[1]]), 6),
    )
    who, how = words.partition(_HOW)[::2]
    can = who.rpartition(" ")[2]  # "move" or "turn"
    long = units.small.text(LARGEST, 0)
    return Moving(
        results=results,
        lines=lines,
        window=tuple(place for number in going for place in lines[number].places),
        title=title_of_motion(words),
        said=(
            f"the lines as they lie, and a motion that nothing resists: {words}. It goes either way and has no size."
            + ("" if shifts else " The line turns about its own axis, as rings round it say, and moves nowhere aside.")
        ),
        peak=(number, at),
        peak_words=((f"can {can} freely", True), *((part, False) for part in _broken(how))),
        marks=lambda drawn: _marks(drawn, turns),
        legend=(
            f"free motion, its largest movement drawn {long} long; it goes either way and has no size"
            if shifts
            else "turns about its own axis; nothing resists it, either way"
        ),
    )


def _moves(bowed: Bowed, turn: Vector) -> bool:
    return size_of(turn) > 0.0 or any(size_of(movement) > 0.0 for movement in bowed.movements)


def _broken(how: str) -> list[str]:
    """Return how something moves on a line or two: direction, and the place of an axis."""
    direction, through, place = how.partition(" through ")
    return [direction, *([f"{through.strip()} {place}"] if place else [])]


def _marks(drawn: Drawn, turns: tuple[Vector, ...]) -> Iterator[Item]:
    """Yield arrows from lines to their shape, rings round lines that turn about themselves, and the axis of a turn."""
    axes: set[Point] = set()
    for bowed, turn in zip(drawn.lines, turns, strict=True):
        if all(size_of(movement) == 0.0 for movement in bowed.movements):
            yield from _rings(drawn, bowed) if size_of(turn) > 0.0 else ()
            continue
        yield from _arrows(drawn, bowed)
        axes |= {(round(x, 3), round(y, 3)) for x, y in _axis(drawn, bowed, turn)}
    for x, y in sorted(axes):
        yield Polyline(points=((x - _CROSS, y - _CROSS), (x + _CROSS, y + _CROSS)), stroke=_ARROW)
        yield Polyline(points=((x - _CROSS, y + _CROSS), (x + _CROSS, y - _CROSS)), stroke=_ARROW)


def _arrows(drawn: Drawn, bowed: Bowed) -> Iterator[Item]:
    at, moved = drawn.at(bowed), drawn.moved(bowed)
    for share in range(_ARROWS):
        station = bowed.stations[0] + (share + 0.5) / _ARROWS * (bowed.stations[-1] - bowed.stations[0])
        k = min(range(len(bowed.stations)), key=lambda k: abs(bowed.stations[k] - station))
        start, end = at[k], moved[k]
        if math.dist(start, end) < _SHORT:
            continue
        way, pipe = _way(start, end), _pipe_way(at, k)
        if abs(way[0] * pipe[0] + way[1] * pipe[1]) > _LEVEL:
            aside = (_BESIDE * pipe[1], -_BESIDE * pipe[0])
            start, end = ((x + aside[0], y + aside[1]) for x, y in (start, end))
        yield Polyline(points=(start, end), stroke=_ARROW)
        yield _head(end, way)


def _rings(drawn: Drawn, bowed: Bowed) -> Iterator[Item]:
    at = drawn.at(bowed)
    start, end = at[0], at[-1]
    (u, v), (wide, high) = _way(start, end), _RING
    for share in (0.125, 0.375, 0.625, 0.875):
        x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
        angles = [math.pi + _OPEN + k / _STROKES * 2.0 * (math.pi - _OPEN) for k in range(_STROKES + 1)]
        ring = [(wide * math.cos(angle), high * math.sin(angle)) for angle in angles]
        points = tuple((x + a * u - b * v, y + a * v + b * u) for a, b in ring)
        yield Polyline(points=points, stroke=SHAPE)
        yield _head(points[-1], _way(points[-3], points[-1]))


def _axis(drawn: Drawn, bowed: Bowed, turn: Vector) -> Iterator[Point]:
    """Yield where the axis of a turn stands that is seen end-on: p + (w x v)/|w|^2 of any place p that moves by v."""
    rate, looking = size_of(turn), drawn.frame.looking
    if rate == 0.0 or math.hypot(*looking.flat(turn)) > _END_ON * rate:
        return
    (x, y, z), (a, b, c), (u, v, w) = bowed.places[0], turn, bowed.movements[0]
    off = (b * w - c * v, c * u - a * w, a * v - b * u)
    place = drawn.frame.paper((x + off[0] / rate**2, y + off[1] / rate**2, z + off[2] / rate**2))
    left, top, right, bottom = drawn.box
    if left <= place[0] <= right and top <= place[1] <= bottom:
        yield place


def _pipe_way(at: list[Point], k: int) -> Point:
    """Return the way of the pipe on paper at a place; none where it is seen end-on."""
    pairs = [pair for pair in pairwise(at[max(k - 1, 0) : k + 2]) if math.dist(*pair) > 0.0]
    return _way(*pairs[0]) if pairs else (0.0, 0.0)


def _way(start: Point, end: Point) -> Point:
    size = math.dist(start, end)
    return (end[0] - start[0]) / size, (end[1] - start[1]) / size


def _head(tip: Point, way: Point) -> Polyline:
    (x, y), (u, v), (long, half) = tip, way, _HEAD
    foot = (x - long * u, y - long * v)
    points = (tip, (foot[0] - half * v, foot[1] + half * u), (foot[0] + half * v, foot[1] - half * u))
    return Polyline(points=points, stroke=None, closed=True, fill="#000000")
