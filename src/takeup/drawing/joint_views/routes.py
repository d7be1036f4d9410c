"""Pipe that takes growth by its route: a loop, a Z, an L, seen from above.     (drawing/joint_views/routes.py)

Full: as installed. Dashed: hot, its movement drawn larger than it is.
"""

from __future__ import annotations

from takeup.drawing.joint_views.parts import ABOVE, BELOW, GONE, Items, arrow, label, plate, stroke
from takeup.drawing.sheet import Point, Polyline, Stroke

_PIPE = Stroke(width=1.4)
_ANCHOR, _GUIDE = 3.0, 2.2


def _line(*points: Point) -> Polyline:
    return Polyline(points=points, stroke=_PIPE)


def _hot(*points: Point) -> Polyline:
    return Polyline(points=points, stroke=GONE)


def _anchor(at: Point) -> Items:
    return (plate((at[0] - _ANCHOR, at[1] - _ANCHOR), (at[0] + _ANCHOR, at[1] + _ANCHOR), "#ffffff"),)


def _guide(at: Point, *, upright: bool = False) -> Items:
    x, y = at
    if upright:
        return tuple(stroke((x + side * 2.0, y - _GUIDE), (x + side * 2.0, y + _GUIDE)) for side in (-1, 1))
    return tuple(stroke((x - _GUIDE, y + side * 2.0), (x + _GUIDE, y + side * 2.0)) for side in (-1, 1))


def loop() -> Items:
    """Return a loop out of a run."""
    y, top = 66.0, 30.0
    return (
        _line((14.0, y), (70.0, y), (70.0, top), (110.0, top), (110.0, y), (166.0, y)),
        _hot((14.0, y), (74.0, y), (72.5, 50.0), (70.0, top), (110.0, top), (107.5, 50.0), (106.0, y), (166.0, y)),
        *_anchor((14.0, y)), *_anchor((166.0, y)), *_guide((40.0, y)), *_guide((140.0, y)),
        *arrow((54.0, y - 5.0), (64.0, y - 5.0)), *arrow((126.0, y - 5.0), (116.0, y - 5.0)),
        *label("anchor", (16.0, BELOW), (14.0, y + 2.0)), *label("guide", (40.0, BELOW), (40.0, y + 2.2)),
        *label("legs that bend", (54.0, 40.0), (70.0, 46.0)), *label("growth", (58.0, 54.0), (58.0, y - 5.2)),
        *label("back of the loop", (90.0, ABOVE + 4.0), (90.0, top)),
    )  # fmt: skip


def z_bend() -> Items:
    """Return two runs with an offset across them."""
    high, low = 28.0, 68.0
    return (
        _line((14.0, low), (90.0, low), (90.0, high), (166.0, high)),
        _hot((14.0, low), (94.0, low), (92.5, 58.0), (87.5, 38.0), (86.0, high), (166.0, high)),
        *_anchor((14.0, low)), *_anchor((166.0, high)), *_guide((44.0, low)), *_guide((136.0, high)),
        *arrow((66.0, low - 5.0), (78.0, low - 5.0)), *arrow((114.0, high + 5.0), (102.0, high + 5.0)),
        *label("anchor", (16.0, BELOW), (14.0, low + 2.0)), *label("guide", (44.0, BELOW), (44.0, low + 2.2)),
        *label("offset that bends", (120.0, 60.0), (90.6, 48.0)), *label("growth", (72.0, 54.0), (72.0, low - 5.2)),
        *label("run", (66.0, BELOW), (66.0, low + 0.4)),
    )  # fmt: skip


def l_bend() -> Items:
    """Return two legs that bend each other."""
    high, low, x = 24.0, 68.0, 118.0
    return (
        _line((14.0, low), (x, low), (x, high)),
        _hot((14.0, low), (50.0, low + 0.2), (x + 4.0, low + 3.0), (x + 3.0, 56.0), (x, high)),
        *_anchor((14.0, low)), *_anchor((x, high)), *_guide((36.0, low)), *_guide((x, 34.0), upright=True),
        *arrow((92.0, low - 5.0), (104.0, low - 5.0)), *arrow((x + 8.0, 48.0), (x + 8.0, 60.0)),
        *label("anchor", (16.0, BELOW), (14.0, low + 2.0)), *label("guide", (36.0, BELOW), (36.0, low + 2.2)),
        *label("growth of one leg bends the other", (84.0, 50.0), (98.0, low - 5.2)),
        *label("growth", (144.0, 48.0), (x + 8.2, 54.0)), *label("leg", (70.0, BELOW), (70.0, low + 0.4)),
    )  # fmt: skip
