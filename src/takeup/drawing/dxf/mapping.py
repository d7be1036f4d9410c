"""From a sheet to the plane of the document: a view to scale has true lengths there.     (drawing/dxf/mapping.py)"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeup.drawing.dimension import expanded, led, words_box
from takeup.drawing.labels import Box
from takeup.drawing.sheet import Arc, Circle, Dimension, Item, Ordinate, Point, Polyline, Sheet, Sign, Text, View

_ABOUT = 2.0  # a window is so much wider than what it shows [mm]
_APART = 20.0  # and two of them stand so far apart, on the paper of the lower one [mm]
_DIGITS = 6  # of a millimetre: the same sheet gives the same bytes


@dataclass(frozen=True, kw_only=True, slots=True)
class Mapping:
    """How a view lies in the plane: the sheet's `zero` [mm] falls on `at` [mm], x times `scale`, y turned upwards."""

    scale: int
    zero: Point
    at: Point

    def point(self, place: Point) -> Point:
        """Return where a place of the sheet falls."""
        x, y = self.scale * (place[0] - self.zero[0]), self.scale * (self.zero[1] - place[1])
        return round(self.at[0] + x, _DIGITS), round(self.at[1] + y, _DIGITS)

    def length(self, on_paper: float) -> float:
        """Return a length."""
        return round(self.scale * on_paper, _DIGITS)


@dataclass(frozen=True, kw_only=True, slots=True)
class Placed:
    """A view with its window on the sheet [mm] and how it lies in the plane."""

    view: View
    window: Box
    mapping: Mapping


def paper_mapping(sheet: Sheet) -> Mapping:
    """Return how what has no scale lies on its layout: the sheet's lower left corner is the origin."""
    return Mapping(scale=1, zero=(0.0, sheet.height), at=(0.0, 0.0))


def placed_views(sheets: Sequence[Sheet]) -> tuple[tuple[Placed, ...], ...]:
    """Return the views to scale of each sheet, so placed that no window covers another.

    The first of all lies where its coordinates are. One that would lie on another is moved straight down, below all
    before it: its distances from left to right stay true, and so do stations.
    """
    low: float | None = None
    found: list[tuple[Placed, ...]] = []
    for sheet in sheets:
        row: list[Placed] = []
        for view in sheet.views:
            if view.scale is None:
                continue
            window = window_of(view)
            zero = view.zero or (window[0], window[3])
            mapping = Mapping(scale=view.scale, zero=zero, at=(0.0, 0.0))
            if low is not None:
                down = mapping.point((window[0], window[1]))[1] - low + _APART * view.scale
                mapping = Mapping(scale=view.scale, zero=zero, at=(0.0, round(-down, 3)))
            row.append(Placed(view=view, window=window, mapping=mapping))
            bottom = mapping.point((window[0], window[3]))[1]
            low = bottom if low is None else min(low, bottom)
        found.append(tuple(row))
    return tuple(found)


def window_of(view: View) -> Box:
    """Return the box round all of a view on the sheet [mm]."""
    points = [point for item in view.items for point in _extent(item)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs) - _ABOUT, min(ys) - _ABOUT, max(xs) + _ABOUT, max(ys) + _ABOUT


def _extent(item: Item) -> Iterator[Point]:
    """Yield places whose box holds a thing."""
    if isinstance(item, Polyline):
        yield from item.points
    elif isinstance(item, Arc | Circle):
        (x, y), radius = item.centre, item.radius
        yield from ((x - radius, y - radius), (x + radius, y + radius))
    elif isinstance(item, Text):
        left, top, right, bottom = words_box(item)
        yield from ((left, top), (right, bottom))
    elif isinstance(item, Sign):
        for part in item.items:
            yield from _extent(part)
    else:
        strokes, words = expanded(item) if isinstance(item, Dimension) else _led(item)
        yield from (point for stroke in strokes for point in stroke.points)
        yield from _extent(words)


def _led(item: Ordinate) -> tuple[tuple[Polyline, ...], Text]:
    stroke, words = led(item)
    return (stroke,), words
