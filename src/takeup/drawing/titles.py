"""What stands beside a view: its title with the scale, the scale bar, the north arrow.     (drawing/titles.py)"""

from __future__ import annotations

import math

from takeup.drawing.labels import Box
from takeup.drawing.lettering import width_of
from takeup.drawing.scale import bar_length
from takeup.drawing.sheet import Item, Point, Polyline, Stroke, Text
from takeup.edge import Measure, Units

_LINE = Stroke(width=0.2)
_TITLE = 3.4
_SMALL = 2.3
_BAR = 50.0  # a scale bar is at most so long [mm]


def view_heading(
    title: str, scale: int, at: Point, units: Units, more: str = "", *, most: float = math.inf
) -> tuple[tuple[Item, ...], Box]:
    """Return the title of a view over its scale bar, and the box they fill.

    Args:
        title: What the view is.
        scale: The denominator of its scale.
        at: The top left of the heading [mm].
        units: What the scale bar is long in.
        more: What else must be said of it, such as an exaggeration.
        most: The width that it may fill [mm]; where its words need more the scale stands beside the bar.
    """
    x, y = at[0] + 3.0, at[1] + 6.0
    title, words = units.tell(title), units.tell(f"Scale 1 : {scale}" + (f"; {more}" if more else ""))
    first = Text(at=(x, y), words=title, size=_TITLE, bold=True)
    right = x + width_of(title, _TITLE, bold=True) + 3.0
    bar, bar_right = scale_bar(scale, (x, y + 3.2), units.span)
    second = Text(at=(right, y), words=words, size=2.8)
    if right + width_of(words, second.size) > at[0] + most:
        second = Text(at=(bar_right + 2.0, y + 5.0), words=words, size=2.8)
    edge = max(right, second.at[0] + width_of(words, second.size), bar_right)
    return (first, second, *bar), (at[0], at[1], edge + 2.0, y + 8.5)


def scale_bar(scale: int, at: Point, span: Measure) -> tuple[tuple[Item, ...], float]:
    """Return a bar of a round length in two halves, with its figures, and its right end [mm]."""
    length = bar_length(scale, _BAR, span.size)
    wide = 1000.0 * span.size * length / scale
    x, y = at
    middle = x + wide / 2.0
    items: list[Item] = [
        _half_bar(x, middle, y, "#000000"),
        _half_bar(middle, x + wide, y, "#ffffff"),
    ]
    for place, value in ((x, 0.0), (middle, length / 2.0), (x + wide, length)):
        words = span.named(f"{value:g}") if value == length else f"{value:g}"
        items.append(Text(at=(place, y + 3.7), words=words, size=_SMALL, anchor="middle"))
    return tuple(items), x + wide + width_of(span.named(f"{length:g}"), _SMALL)


def _half_bar(left: float, right: float, top: float, fill: str) -> Polyline:
    corners = ((left, top), (right, top), (right, top + 1.0), (left, top + 1.0))
    return Polyline(points=corners, stroke=_LINE, closed=True, fill=fill)


def north_arrow(at: Point) -> tuple[tuple[Item, ...], Box]:
    """Return an arrow to the north, straight up, about a place, and the box it fills."""
    x, y = at
    head = ((x, y - 6.0), (x - 2.4, y + 3.0), (x, y + 1.2))
    other = ((x, y - 6.0), (x + 2.4, y + 3.0), (x, y + 1.2))
    items: tuple[Item, ...] = (
        Polyline(points=head, stroke=_LINE, closed=True, fill="#000000"),
        Polyline(points=other, stroke=_LINE, closed=True, fill="#ffffff"),
        Text(at=(x, y + 7.0), words="N", size=3.4, anchor="middle", bold=True),
    )
    return items, (x - 4.0, y - 7.0, x + 4.0, y + 8.0)
