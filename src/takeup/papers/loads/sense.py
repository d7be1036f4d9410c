"""The sense of forces and moments, drawn: axes with positive arrows, and who pushes whom.     (papers/loads/sense.py)

East runs down to the right, north up to the right, up is up, as in the isometric of the layout drawing. A moment is
positive by the right hand: the thumb along the axis, the fingers the way that the arrow turns.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from takeup.drawing.sheet import Anchor, Ink, Item, Point, Polyline, Sheet, Stroke, Text, View
from takeup.drawing.sheets.askew import heading_of
from takeup.drawing.symbols import arrow
from takeup.papers.words import Texts

WIDTH, HEIGHT = 118.0, 47.0  # of the sketch at its own size [mm]
_AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
_TYPE = 2.75  # size of its type [mm]
_ORIGIN = (27.0, 31.0)
_LONG = 19.0  # of an axis on the sheet [mm]
_TURN_AT, _TURN = 11.6, 3.5  # where the arrow of a moment goes round its axis, and its radius [mm]
_STEPS = 24
_FROM, _SWEEP = -0.25 * math.pi, 1.45 * math.pi
_FORCE_AT = ((1.6, 3.6), (1.8, 0.6), (0.0, -3.6))  # the words of a force, from the tip of its axis [mm]
_MOMENT_AT = ((-7.6, 6.6), (2.6, 6.0), (4.6, 0.2))  # and those of a moment, from the middle of its turn [mm]
_FORCE = Stroke(width=0.6)
_LOUD = Stroke(width=1.0)
_LINE = Stroke(width=0.3)
_PIPE = Stroke(width=0.45)
_FINE = Stroke(width=0.2)
_BACK = Stroke(width=0.35, ink="grey", dash=(1.8, 1.1))
_EAST, _WEST = (1.0, 0.0), (-1.0, 0.0)
_END, _LEVEL, _FOOT = 98.0, 20.0, 40.0  # where the pipe ends, its height, and the ground [mm]


def sense_sheet(texts: Texts) -> Sheet:
    """Return the sketch as a drawing of its own.

    Args:
        texts: of its language.
    """
    title = texts("loads.sense_title")
    return Sheet(
        width=WIDTH,
        height=HEIGHT,
        title=title,
        description=texts("loads.sense_described"),
        views=(View(title=title, scale=None, items=sense_items(texts)),),
    )


def sense_items(texts: Texts, at: Point = (0.0, 0.0), larger: float = 1.0) -> tuple[Item, ...]:
    """Return what the sketch is drawn of.

    Args:
        texts: of its language.
        at: its top left corner [mm].
        larger: how many times its own size it is drawn.
    """
    moved = _Moved(at=at, larger=larger)
    return tuple(moved(item) for item in (*_axes(texts), *_pushing(texts)))


@dataclass(frozen=True, kw_only=True, slots=True)
class _Moved:
    """Moves and enlarges what the sketch is drawn of."""

    at: Point
    larger: float

    def __call__(self, item: Polyline | Text) -> Item:
        if isinstance(item, Text):
            return replace(item, at=self.point(item.at), size=self.larger * item.size)
        return replace(item, points=tuple(map(self.point, item.points)))

    def point(self, place: Point) -> Point:
        return self.at[0] + self.larger * place[0], self.at[1] + self.larger * place[1]


def _axes(texts: Texts) -> Iterator[Polyline | Text]:
    """Yield the three axes, each with its name, the arrow of its force and that of its moment."""
    for number, (axis, letter) in enumerate(zip(_AXES, "xyz", strict=True)):
        way = heading_of(axis)
        tip = _along(_ORIGIN, way, _LONG)
        yield Polyline(points=(_ORIGIN, _along(_ORIGIN, way, _LONG - 1.5)), stroke=_FORCE)
        yield arrow(tip, way, 3.4)
        yield from _turning(number)
        force = texts("loads.sense_axis", force=f"+F{letter}", way=texts(f"loads.axis_{letter}"))
        aside, below = _FORCE_AT[number]
        yield _words((tip[0] + aside, tip[1] + below), force, anchor="middle" if letter == "z" else "start", bold=True)
        middle, (aside, below) = _along(_ORIGIN, way, _TURN_AT), _MOMENT_AT[number]
        yield _words((middle[0] + aside, middle[1] + below), f"+M{letter}")


def _turning(axis: int) -> Iterator[Polyline]:
    """Yield the arrow of a positive moment round an axis: a circle across it, seen askew."""
    one, other = _AXES[(axis + 1) % 3], _AXES[(axis + 2) % 3]

    def on_sheet(angle: float) -> Point:
        x, y = _along(_ORIGIN, heading_of(_AXES[axis]), _TURN_AT)
        for part, unit in ((math.cos(angle), one), (math.sin(angle), other)):
            x, y = _along((x, y), heading_of(unit), _TURN * part)
        return x, y

    points = tuple(on_sheet(_FROM + _SWEEP * step / _STEPS) for step in range(_STEPS + 1))
    (x, y), (x_end, y_end) = points[-2], points[-1]
    length = math.hypot(x_end - x, y_end - y)
    way = ((x_end - x) / length, (y_end - y) / length)
    yield Polyline(points=points, stroke=_LINE)
    yield arrow(_along(points[-1], way, 0.5), way, 2.2)


def _pushing(texts: Texts) -> Iterator[Polyline | Text]:
    """Yield a pipe that ends at an anchor on its structure, and the force of the pipe on it."""
    post = (_END + 1.6, _END + 6.0)
    for side in (-2.1, 2.1):
        yield Polyline(points=((66.0, _LEVEL + side), (_END, _LEVEL + side)), stroke=_PIPE)
    yield _box((_END, _LEVEL - 5.0), (_END + 1.6, _LEVEL + 5.0))
    yield _box((post[0], _LEVEL - 2.1), (post[1], _FOOT))
    yield Polyline(points=((post[1], _LEVEL + 5.0), (post[1] + 9.0, _FOOT)), stroke=_LINE)
    yield Polyline(points=((_END - 6.0, _FOOT), (_END + 19.0, _FOOT)), stroke=_FORCE)
    for number in range(10):
        left = _END - 6.0 + 2.5 * number
        yield Polyline(points=((left, _FOOT + 2.2), (left + 2.2, _FOOT)), stroke=_FINE)
    yield Polyline(points=((post[1] + 0.8, _LEVEL), (_END + 16.0, _LEVEL)), stroke=_LOUD)
    yield arrow((_END + 16.6, _LEVEL), _EAST, 4.2)
    yield _words((WIDTH - 1.0, 8.0), texts("loads.sense_on_1"), anchor="end", bold=True)
    yield _words((WIDTH - 1.0, 11.8), texts("loads.sense_on_2"), anchor="end", bold=True)
    yield Polyline(points=((_END - 1.0, _LEVEL + 6.0), (_END - 12.0, _LEVEL + 6.0)), stroke=_BACK)
    yield replace(arrow((_END - 12.6, _LEVEL + 6.0), _WEST, 2.8), fill="#555555")
    yield _words((_END - 1.0, _LEVEL + 11.0), texts("loads.sense_back_1"), anchor="end", ink="grey")
    yield _words((_END - 1.0, _LEVEL + 14.6), texts("loads.sense_back_2"), anchor="end", ink="grey")
    yield _words((67.0, _LEVEL - 3.6), texts("loads.sense_pipe"), ink="grey")
    yield _words((WIDTH - 1.0, _FOOT + 5.6), texts("loads.sense_structure"), anchor="end", ink="grey")


def _box(one: Point, other: Point) -> Polyline:
    (left, top), (right, bottom) = one, other
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return Polyline(points=corners, stroke=_LINE, closed=True, fill="#ffffff")


def _words(at: Point, words: str, *, anchor: Anchor = "start", bold: bool = False, ink: Ink = "black") -> Text:
    return Text(at=at, words=words, size=_TYPE, anchor=anchor, bold=bold, ink=ink)


def _along(at: Point, way: Point, length: float) -> Point:
    return at[0] + length * way[0], at[1] + length * way[1]


__all__ = ["HEIGHT", "WIDTH", "sense_items", "sense_sheet"]
