"""The governing mode of stability: the lines as they lie with the shape they would bow into.  (drawing/mode_view.py)

Drawn from the side from which the movement is seen, and only the part that moves where that is a small part of the
whole. A mode has a shape and no size: the shape is drawn with its largest movement of one stated length on paper.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.labels import Box, Taken, place_label
from takeup.drawing.mode_shape import Bowed, bowed_lines, governing, size_of
from takeup.drawing.places import Place, places_of
from takeup.drawing.projection import DOWN, EAST, NORTH, Frame, Looking
from takeup.drawing.reading import Record, Results, number_of, records_of, text_of
from takeup.drawing.route import Vector, along
from takeup.drawing.scale import choose_scale
from takeup.drawing.sheet import Item, Point, Polyline, Sheet, Stroke, Text, View
from takeup.drawing.signs import drawing_order, sign_of
from takeup.drawing.titles import north_arrow, view_heading
from takeup.drawing.world_view import sign_box, title_of
from takeup.edge import SI, Units

WIDTH = 170.0  # the width of the words on a page of the calculation [mm]
_HIGHEST = 78.0  # the drawing itself is at most so high [mm]
_HEAD, _FOOT = 15.0, 9.0
_BESIDE = (22.0, 13.0)  # room for words left and right, above and below [mm]
_LARGEST = 9.0  # the largest movement seen, on paper [mm]
_MOVES = 0.05  # of the largest movement: less is called at rest
_PART = 0.6  # a moving part shorter than so much of the whole is drawn by itself
_PAD = 0.12  # of its length, drawn on either side
_LEAST = 2.0  # a part of a line is drawn at least so wide either way [m]
_PIPE = Stroke(width=0.25, ink="grey")
_SHAPE = Stroke(width=0.6)
_TIE = Stroke(width=0.1, ink="pale")
_TIES = 6  # strokes from the line to the shape: one in so many points

Window = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Drawn:
    """What is drawn: the row of the governing state, the lines, their frame, the stretch, the box on paper [mm]."""

    results: Results
    row: Record
    lines: tuple[Bowed, ...]
    frame: Frame
    stretch: float
    box: Box


def mode_sheet(results: Results, units: Units = SI) -> Sheet | None:
    """Return the drawing of the governing mode, as wide as a page's words; None where nothing can bow out.

    Args:
        results: The results document.
        units: What its stations and its scale bar are written in.
    """
    row = governing(results)
    if row is None:
        return None
    lines = bowed_lines(results, row)
    looking = _looking(lines)
    window = _window(lines, looking)
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
    seen = max(math.hypot(*looking.flat(movement)) for bowed in lines for movement in bowed.movements)
    room = (0.0, 0.0, WIDTH, height - _FOOT)
    drawn = _Drawn(
        results=results,
        row=row,
        lines=lines,
        frame=frame,
        stretch=_LARGEST * scale / 1000.0 / seen,
        box=(room[0], room[1] + _HEAD, room[2], room[3]),
    )
    view = _view(drawn, room, units)
    governed = text_of(row, "governed_by")
    said = f"How {governed} would bow out, in the state “{text_of(row, 'state')}”"
    largest = max((size, text_of(b.line, "name"), at) for b in lines for size, at in _sizes(b))
    described = (
        f"{view.title} at 1 : {scale}: the lines as they lie, and beside them the shape of the mode with the lowest "
        f"load factor. Line {largest[1]} moves most, at station {units.length.text(largest[2], 2)}. "
        "The shape has no size."
    )
    return Sheet(width=WIDTH, height=height, title=said, description=described, views=(view, _legend(height, units)))


def _sizes(bowed: Bowed) -> Iterator[tuple[float, float]]:
    yield from ((size_of(m), s) for m, s in zip(bowed.movements, bowed.stations, strict=True))


def _looking(lines: tuple[Bowed, ...]) -> Looking:
    """Return the view in which the area between the lines and the shape is largest: plan for what moves level."""

    def area(way: Looking) -> float:
        total = 0.0
        for bowed in lines:
            for (start, end), movement in zip(pairwise(bowed.places), bowed.movements, strict=False):
                (a, b), (c, d), (u, v) = way.flat(start), way.flat(end), way.flat(movement)
                total += abs((c - a) * v - (d - b) * u)
        return total

    return max((DOWN, NORTH, EAST), key=area)


def _box(lines: tuple[Bowed, ...], looking: Looking, least: float) -> Window:
    """Return the box round all places that move at least so much, as seen [m]."""
    flat = [
        looking.flat(place)
        for bowed in lines
        for place, movement in zip(bowed.places, bowed.movements, strict=True)
        if size_of(movement) >= least
    ]
    us, vs = [u for u, _ in flat], [v for _, v in flat]
    return min(us), min(vs), max(us), max(vs)


def _window(lines: tuple[Bowed, ...], looking: Looking) -> Window:
    """Return the part of the world that is drawn [m]: all of it, or the part that moves with a little beside it."""
    whole, part = _box(lines, looking, 0.0), _box(lines, looking, _MOVES)
    size, moving = (max(box[2] - box[0], box[3] - box[1]) for box in (whole, part))
    if moving >= _PART * size:
        return whole
    pad = max(_PAD * moving, _LEAST)
    return (
        max(whole[0], part[0] - pad), max(whole[1], part[1] - pad),
        min(whole[2], part[2] + pad), min(whole[3], part[3] + pad),
    )  # fmt: skip


def _view(drawn: _Drawn, room: Box, units: Units) -> View:
    frame, lines = drawn.frame, drawn.lines
    title = title_of(frame.looking)
    heading, box = view_heading(title, frame.scale, (room[0] - 2.0, room[1] - 1.0), units)
    taken = Taken(room=room, words=[box])
    items: list[Item] = [*heading]
    if frame.looking is DOWN:
        north, box = north_arrow((room[2] - 5.0, room[1] + 8.0))
        items += north
        taken.words.append(box)
    at = [[frame.paper(place) for place in bowed.places] for bowed in lines]
    moved = [[frame.paper(place) for place in _moved(bowed, drawn.stretch)] for bowed in lines]
    for bowed, start, end in zip(lines, at, moved, strict=True):
        taken.strokes += [*pairwise(start), *pairwise(end)]
        items += _ties(bowed, start, end)
        items += [Polyline(points=part, stroke=_PIPE) for part in _inside(start, drawn.box)]
    items += _holds(drawn, taken)
    for end in moved:
        items += [Polyline(points=part, stroke=_SHAPE) for part in _inside(end, drawn.box)]
    items += _names(drawn, taken, units)
    return View(title=title, scale=frame.scale, items=tuple(items))


def _moved(bowed: Bowed, stretch: float) -> tuple[Vector, ...]:
    return tuple(along(p, m, stretch) for p, m in zip(bowed.places, bowed.movements, strict=True))


def _ties(bowed: Bowed, at: list[Point], moved: list[Point]) -> Iterator[Item]:
    """Yield thin strokes from the line to its shape, where it moves."""
    for place, end, movement in list(zip(at, moved, bowed.movements, strict=True))[::_TIES]:
        if size_of(movement) >= _MOVES:
            yield Polyline(points=(place, end), stroke=_TIE)


def _inside(points: list[Point], box: Box) -> Iterator[tuple[Point, ...]]:
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


def _shown_places(drawn: _Drawn) -> Iterator[tuple[Place, Point]]:
    box = drawn.box
    for bowed in drawn.lines:
        for place in drawing_order(places_of(drawn.results, bowed.line)):
            at = drawn.frame.paper(place.at)
            if box[0] <= at[0] <= box[2] and box[1] <= at[1] <= box[3]:
                yield place, at


def _holds(drawn: _Drawn, taken: Taken) -> Iterator[Item]:
    """Yield the signs of what holds the lines and takes up their growth, uncoloured."""
    frame = drawn.frame
    for place, at in _shown_places(drawn):
        if place.sort not in {"anchor", "guide", "joint"}:
            continue
        sign = sign_of(place, at, frame.heading(place.along), frame.heading(place.axis), scale=frame.scale)
        if sign is not None:
            taken.signs.append(sign_box(at))
            yield sign


def _names(drawn: _Drawn, taken: Taken, units: Units) -> list[Item]:
    """Return where the mode moves most, the names of the lines, and those of anchors and joints."""
    frame, first = drawn.frame, records_of(drawn.row, "modes")[0]
    bowed = next(item for item in drawn.lines if text_of(item.line, "name") == text_of(first, "line"))
    station = number_of(first, "station_m")
    at = min(range(len(bowed.stations)), key=lambda k: abs(bowed.stations[k] - station))
    words = ((f"{text_of(first, 'line')} moves most here", True), (f"station {units.length.text(station, 2)}", False))
    way = frame.heading(bowed.movements[at])
    peak = frame.paper(_moved(bowed, drawn.stretch)[at])
    items = [*place_label(words, peak, taken, along=(-way[1], way[0]))]
    if len(drawn.lines) > 1:
        items += _line_names(drawn, taken)
    for place, spot in _shown_places(drawn):
        if place.sort in {"anchor", "joint"}:
            items += place_label(((place.name, False),), spot, taken, along=frame.heading(place.along))
    return items


def _line_names(drawn: _Drawn, taken: Taken) -> Iterator[Item]:
    """Yield the name of every line beside the middle of what is seen of it."""
    for bowed in drawn.lines:
        parts = list(_inside([drawn.frame.paper(place) for place in bowed.places], drawn.box))
        if parts:
            longest = max(parts, key=lambda part: math.dist(part[0], part[-1]))
            name = f"line {text_of(bowed.line, 'name')}"
            yield from place_label(((name, True),), longest[len(longest) // 2], taken)


def _legend(height: float, units: Units) -> View:
    """Return what the strokes mean."""
    y = height - 3.0
    drawn = units.small.text(_LARGEST, 0)
    words = f"mode shape, exaggerated: its largest movement is drawn {drawn} long; a mode has no size"
    items = (
        Polyline(points=((0.0, y), (10.0, y)), stroke=_PIPE),
        Text(at=(12.0, y + 0.9), words="centre line as it lies", size=2.4),
        Polyline(points=((46.0, y), (56.0, y)), stroke=_SHAPE),
        Text(at=(58.0, y + 0.9), words=words, size=2.4),
    )
    return View(title="Strokes", scale=None, items=items)
