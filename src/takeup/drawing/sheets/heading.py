"""The title of a view with its scale and the bar that shows it, and the north arrow.     (drawing/sheets/heading.py)"""

from __future__ import annotations

from takeup.drawing.labels import Box
from takeup.drawing.lettering import width_of
from takeup.drawing.scale import bar_length
from takeup.drawing.sheet import Item, Point, Polyline, Text
from takeup.drawing.sheets.about import Scribe
from takeup.drawing.sheets.pens import LINE, TITLE, TYPE
from takeup.drawing.sheets.scales import Scale

_BAR = 50.0  # a bar is at most so long [mm]
HEIGHT = 17.0  # of a heading with its bar [mm]
BARE = 9.0  # and without [mm]


def heading(title: str, scale: Scale | None, at: Point, scribe: Scribe, more: str = "") -> tuple[tuple[Item, ...], Box]:
    """Return the title of a view over its scale bar, and the box that they fill.

    Args:
        title: What the view is.
        scale: Its scale; None where it has none.
        at: The top left of the heading [mm].
        scribe: Words and units.
        more: What else must be said of it.
    """
    x, y = at[0] + 4.0, at[1] + 8.0
    words = "; ".join(filter(None, (scribe.text("scale_is", scale=scale.words) if scale else "", more)))
    items: list[Item] = [Text(at=(x, y), words=title, size=TITLE, bold=True)]
    right = x + width_of(title, TITLE, bold=True) + 4.0
    if words:
        items.append(Text(at=(right, y), words=words, size=TYPE))
        right += width_of(words, TYPE)
    if scale is None:
        return tuple(items), (at[0], at[1], right + 2.0, at[1] + BARE + 2.0)
    bar, end = scale_bar(scale.ratio, (x, y + 3.0), scribe)
    return (*items, *bar), (at[0], at[1], max(right, end) + 2.0, at[1] + HEIGHT)


def scale_bar(ratio: int, at: Point, scribe: Scribe) -> tuple[tuple[Item, ...], float]:
    """Return a bar of a round length in two halves, with its figures, and its right end [mm]."""
    span = scribe.units.span
    length = bar_length(ratio, _BAR, span.size)
    wide = 1000.0 * span.size * length / ratio
    x, y = at
    items: list[Item] = []
    for start, fill in ((x, "#000000"), (x + wide / 2.0, "#ffffff")):
        end = start + wide / 2.0
        corners = ((start, y), (end, y), (end, y + 1.2), (start, y + 1.2))
        items.append(Polyline(points=corners, stroke=LINE, closed=True, fill=fill))
    items += [
        Text(at=(x, y + 4.8), words="0", size=TYPE),
        Text(at=(x + wide + 1.5, y + 1.9), words=span.named(span.typed(length * span.size)), size=TYPE),
    ]
    return tuple(items), x + wide + 1.5 + width_of(span.named(f"{length:g}"), TYPE)


def north_arrow(at: Point, way: Point, scribe: Scribe) -> tuple[tuple[Item, ...], Box]:
    """Return an arrow to the north about a place, its letter beyond its tip, and the box that they fill.

    Args:
        at: Its middle [mm].
        way: To the north on the sheet, a unit vector.
        scribe: The letter.
    """
    (x, y), (u, v) = at, way

    def turned(along: float, aside: float) -> Point:
        return x + along * u - aside * v, y + along * v + aside * u

    tip, notch = turned(7.0, 0.0), turned(-1.5, 0.0)
    left, right = turned(-4.0, -2.8), turned(-4.0, 2.8)
    letter = turned(10.5, 0.0)
    items: tuple[Item, ...] = (
        Polyline(points=(tip, left, notch), stroke=LINE, closed=True, fill="#000000"),
        Polyline(points=(tip, right, notch), stroke=LINE, closed=True, fill="#ffffff"),
        Text(at=(letter[0], letter[1] + 1.75), words=scribe.text("north"), size=TITLE, anchor="middle", bold=True),
    )
    return items, (x - 13.5, y - 13.5, x + 13.5, y + 13.5)
