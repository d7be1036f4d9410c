"""Room round a picture, and things of a picture put elsewhere.     (papers/common/margins.py)"""

from __future__ import annotations

from dataclasses import replace

from takeup.drawing.sheet import Circle, Dimension, Item, Point, Polyline, Sheet, Text

MARGIN = 7.0
"""Round a picture that stands by itself [mm]."""


def moved(item: Item, by: Point) -> Item:
    """Return a thing so far to the right and lower on the sheet."""
    across, down = by
    if isinstance(item, Polyline):
        return replace(item, points=tuple((x + across, y + down) for x, y in item.points))
    if isinstance(item, Circle):
        return replace(item, centre=(item.centre[0] + across, item.centre[1] + down))
    if isinstance(item, Dimension):
        (x, y), (x_end, y_end) = item.start, item.end
        return replace(item, start=(x + across, y + down), end=(x_end + across, y_end + down))
    assert isinstance(item, Text), "the picture is made of strokes, dots, measures and words"
    return replace(item, at=(item.at[0] + across, item.at[1] + down))


def with_margin(sheet: Sheet) -> Sheet:
    """Return a sheet with a margin all round it."""
    views = tuple(
        replace(view, items=tuple(moved(item, (MARGIN, MARGIN)) for item in view.items)) for view in sheet.views
    )
    return replace(sheet, width=sheet.width + 2.0 * MARGIN, height=sheet.height + 2.0 * MARGIN, views=views)


__all__ = ["MARGIN", "moved", "with_margin"]
