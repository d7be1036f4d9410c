"""Lines as they lie, and beside them a shape that they would move into: a mode, a free motion.  (drawing/shape_view.py)

Drawn from the side from which the movement is seen. Such a shape has no size: it is drawn with its largest movement of
one stated length on paper. Read `Moving` first, then `sheet_of`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.labels import Box, LineOfWords, Taken, place_label
from takeup.drawing.lettering import width_of
from takeup.drawing.mode_shape import Bowed
from takeup.drawing.places import Place, places_of
from takeup.drawing.projection import DOWN, EAST, NORTH, Frame, Looking
from takeup.drawing.reading import Results, text_of
from takeup.drawing.route import Vector, along
from takeup.drawing.scale import choose_scale
from takeup.drawing.sheet import Item, Point, Polyline, Sheet, Stroke, Text, View
from takeup.drawing.signs import SMALL, crowd_of, drawing_order, sign_of
from takeup.drawing.titles import north_arrow, view_heading
from takeup.drawing.world_view import sign_box, title_of
from takeup.edge import Units

WIDTH = 170.0  # the width of the words on a page of the calculation [mm]
LARGEST = 9.0  # the largest movement seen, on paper [mm]
MOVES = 0.05  # of the largest movement: less is called at rest
SHAPE = Stroke(width=0.6)
_HIGHEST = 78.0  # the drawing itself is at most so high [mm]
_HEAD, _FOOT = 15.0, 9.0
_BESIDE = (22.0, 13.0)  # room for words left and right, above and below [mm]
_PART = 0.6  # a moving part shorter than so much of the whole is drawn by itself
_PAD = 0.12  # of its length, drawn on either side
_LEAST = 2.0  # a part of a line is drawn at least so wide either way [m]
_ALONG = 0.05  # what a movement along the pipe counts, of one aside: it is seen where its shape protrudes
_PIPE = Stroke(width=0.25, ink="grey")
_FIGURES = 6  # to which two views show as much [m2], [m]

Window = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class Moving:
    """What is to be drawn.

    Args:
        results: The results document.
        lines: Every line with its movement.
        window: The places of the part that moves, all of which are seen.
        title: Of the sheet.
        said: What the description says of the shape, after the view and its scale.
        peak: Number of the line and of the place on it that is named.
        peak_words: What is said there.
        marks: What is drawn between the lines and their shape.
        legend: What the heavy stroke means.
    """

    results: Results
    lines: tuple[Bowed, ...]
    window: tuple[Vector, ...]
    title: str
    said: str
    peak: tuple[int, int]
    peak_words: tuple[LineOfWords, ...]
    marks: Callable[[Drawn], Iterator[Item]]
    legend: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Drawn:
    """What is drawn where: the frame, metres of the world for a movement of one, the box on paper [mm]."""

    moving: Moving
    frame: Frame
    stretch: float
    box: Box

    @property
    def lines(self) -> tuple[Bowed, ...]:
        """Every line with its movement."""
        return self.moving.lines

    def at(self, bowed: Bowed) -> list[Point]:
        """Return a line on paper as it lies."""
        return [self.frame.paper(place) for place in bowed.places]

    def moved(self, bowed: Bowed) -> list[Point]:
        """Return a line on paper as it would move."""
        places = zip(bowed.places, bowed.movements, strict=True)
        return [self.frame.paper(along(place, movement, self.stretch)) for place, movement in places]


def sheet_of(moving: Moving, units: Units) -> Sheet:
    """Return the drawing, as wide as a page's words.

    Args:
        moving: What is to be drawn.
        units: What its stations and its scale bar are written in.
    """
    looking = _looking(moving.lines)
    window = _window(moving, looking)
    extent = (window[2] - window[0], window[3] - window[1])
    scale = choose_scale(extent, (WIDTH - 2.0 * _BESIDE[0], _HIGHEST))
    tall = 1000.0 * extent[1] / scale + 2.0 * _BESIDE[1]
    height = _HEAD + tall + _FOOT
    frame = Frame(
        looking=looking,
        origin=(WIDTH / 2.0, _HEAD + tall / 2.0),
        zero=((window[0] + window[2]) / 2.0, (window[1] + window[3]) / 2.0),
        scale=scale,
    )
    seen = max(math.hypot(*looking.flat(movement)) for bowed in moving.lines for movement in bowed.movements)
    room = (0.0, 0.0, WIDTH, height - _FOOT)
    drawn = Drawn(
        moving=moving,
        frame=frame,
        stretch=LARGEST * scale / 1000.0 / seen if seen > 0.0 else 0.0,
        box=(room[0], room[1] + _HEAD, room[2], room[3]),
    )
    view = _view(drawn, room, units)
    shown = f"{view.title} {units.tell(f'at 1 : {scale}')}"
    described = f"{shown}: {units.tell(moving.said)}"
    views = (view, _legend(height, moving.legend, units))
    return Sheet(width=WIDTH, height=height, title=units.tell(moving.title), description=described, views=views)


def _looking(lines: tuple[Bowed, ...]) -> Looking:
    """Return the view that shows most: the area between the lines and the shape, what moves along, then the lines."""

    def area(way: Looking) -> tuple[float, float]:
        total = length = 0.0
        for bowed in lines:
            for (start, end), movement in zip(pairwise(bowed.places), bowed.movements, strict=False):
                (a, b), (c, d), (u, v) = way.flat(start), way.flat(end), way.flat(movement)
                aside, size = abs((c - a) * v - (d - b) * u), math.hypot(c - a, d - b)
                total += aside + _ALONG * size * math.hypot(u, v)
                length += size
        return round(total, _FIGURES), round(length, _FIGURES)

    return max((DOWN, NORTH, EAST), key=area)


def _box(places: tuple[Vector, ...], looking: Looking) -> Window:
    """Return the box round places, as seen [m]."""
    flat = [looking.flat(place) for place in places]
    us, vs = [u for u, _ in flat], [v for _, v in flat]
    return min(us), min(vs), max(us), max(vs)


def _window(moving: Moving, looking: Looking) -> Window:
    """Return the part of the world that is drawn [m]: all of it, or the part that moves with a little beside it."""
    every = tuple(place for bowed in moving.lines for place in bowed.places)
    whole, part = _box(every, looking), _box(moving.window, looking)
    size, moves = (max(box[2] - box[0], box[3] - box[1]) for box in (whole, part))
    if moves >= _PART * size:
        return whole
    pad = max(_PAD * moves, _LEAST)
    return (
        max(whole[0], part[0] - pad), max(whole[1], part[1] - pad),
        min(whole[2], part[2] + pad), min(whole[3], part[3] + pad),
    )  # fmt: skip


def _view(drawn: Drawn, room: Box, units: Units) -> View:
    frame, lines = drawn.frame, drawn.lines
    title = title_of(frame.looking)
    heading, box = view_heading(title, frame.scale, (room[0] - 2.0, room[1] - 1.0), units)
    taken = Taken(room=room, words=[box])
    items: list[Item] = [*heading]
    if frame.looking is DOWN:
        north, box = north_arrow((room[2] - 5.0, room[1] + 8.0))
        items += north
        taken.words.append(box)
    at, moved = ([drawn.at(bowed) for bowed in lines], [drawn.moved(bowed) for bowed in lines])
    for start, end in zip(at, moved, strict=True):
        taken.strokes += [*pairwise(start), *pairwise(end)]
    marks = list(drawn.moving.marks(drawn))
    taken.strokes += [stroke for mark in marks if isinstance(mark, Polyline) for stroke in pairwise(mark.points)]
    items += [*marks]
    for start in at:
        items += [Polyline(points=part, stroke=_PIPE) for part in inside(start, drawn.box)]
    items += _holds(drawn, taken)
    for end in moved if drawn.stretch > 0.0 else ():
        items += [Polyline(points=part, stroke=SHAPE) for part in inside(end, drawn.box)]
    items += _names(drawn, taken, units)
    return View(title=units.tell(title), scale=frame.scale, items=tuple(items))


def inside(points: list[Point], box: Box) -> Iterator[tuple[Point, ...]]:
    """Yield the stretches of a line of points that lie inside a box."""
    part: list[Point] = []
    for point in points:
        if box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]:
            part.append(point)
            continue
        if len(part) > 1:
            yield tuple(part)
        part = []
    if len(part) > 1:
        yield tuple(part)


def _shown_places(drawn: Drawn) -> Iterator[tuple[Place, Point]]:
    box = drawn.box
    for bowed in drawn.lines:
        for place in drawing_order(places_of(drawn.moving.results, bowed.line)):
            at = drawn.frame.paper(place.at)
            if box[0] <= at[0] <= box[2] and box[1] <= at[1] <= box[3]:
                yield place, at


def _holds(drawn: Drawn, taken: Taken) -> Iterator[Item]:
    """Yield the signs of what holds the lines and takes up their growth, uncoloured; of many small ones, no guides."""
    frame, many = drawn.frame, _are_many(drawn)
    size = SMALL if many else 1.0
    for place, at in _shown_places(drawn):
        if place.sort not in ({"anchor", "joint"} if many else {"anchor", "guide", "joint"}):
            continue
        way, axis = frame.heading(place.along), frame.heading(place.axis)
        corner = None if place.corner is None else frame.paper(place.corner)
        sign = sign_of(place, at, way, axis, scale=frame.scale, corner=corner, size=size)
        if sign is not None:
            taken.signs.append(sign_box(at, size))
            yield sign


def _are_many(drawn: Drawn) -> bool:
    """Tell whether signs would stand on one another: those of anchors and joints take more than a line is long."""
    shown: dict[str, list[Place]] = {}
    for bowed in drawn.lines:
        seen = [place for place in places_of(drawn.moving.results, bowed.line) if place.sort in {"anchor", "joint"}]
        shown[text_of(bowed.line, "name")] = seen
    return any(crowd_of(tuple(places), drawn.frame.scale) > 1.0 for places in shown.values() if len(places) > 1)


def _named(drawn: Drawn) -> Iterator[tuple[Place, Point]]:
    """Yield the anchors and joints that are named; of many the outermost, and those on either side of the peak."""
    shown = [(place, at) for place, at in _shown_places(drawn) if place.sort in {"anchor", "joint"}]
    if not _are_many(drawn):
        yield from shown
        return
    number, at = drawn.moving.peak
    station = drawn.lines[number].stations[at]
    shown.sort(key=lambda pair: pair[0].station)
    before = [pair for pair in shown if pair[0].station <= station]
    beyond = [pair for pair in shown if pair[0].station > station]
    chosen = [*shown[:1], *before[-1:], *beyond[:1], *shown[-1:]]
    yield from (pair for place, pair in enumerate(chosen) if pair not in chosen[:place])


def _names(drawn: Drawn, taken: Taken, units: Units) -> list[Item]:
    """Return what is said of the movement, the names of the lines, and those of anchors and joints."""
    frame, (number, at) = drawn.frame, drawn.moving.peak
    bowed = drawn.lines[number]
    way = frame.heading(bowed.movements[at])
    peak = drawn.moved(bowed)[at]
    items = [
        *place_label(
            tuple((units.tell(words), bold) for words, bold in drawn.moving.peak_words),
            peak,
            taken,
            along=(-way[1], way[0]),
        )
    ]
    if len(drawn.lines) > 1:
        items += _line_names(drawn, taken, units)
    for place, spot in _named(drawn):
        items += place_label(((place.name, False),), spot, taken, along=frame.heading(place.along))
    return items


def _line_names(drawn: Drawn, taken: Taken, units: Units) -> Iterator[Item]:
    """Yield the name of every line beside the middle of what is seen of it."""
    for bowed in drawn.lines:
        parts = list(inside(drawn.at(bowed), drawn.box))
        if parts:
            longest = max(parts, key=lambda part: math.dist(part[0], part[-1]))
            name = units.tell(f"line {text_of(bowed.line, 'name')}")
            yield from place_label(((name, True),), longest[len(longest) // 2], taken)


def _legend(height: float, words: str, units: Units) -> View:
    """Return what the strokes mean."""
    y, line = height - 3.0, units.tell("centre line as it lies")
    right = 12.0 + width_of(line, 2.4) + 4.0
    items = (
        Polyline(points=((0.0, y), (10.0, y)), stroke=_PIPE),
        Text(at=(12.0, y + 0.9), words=line, size=2.4),
        Polyline(points=((right, y), (right + 10.0, y)), stroke=SHAPE),
        Text(at=(right + 12.0, y + 0.9), words=units.tell(words), size=2.4),
    )
    return View(title=units.tell("Strokes"), scale=None, items=items)
