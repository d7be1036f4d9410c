"""What holds and takes up the pipe, as signs of our own; every sheet explains those it bears.     (drawing/symbols.py)

A sign is drawn round its place with the pipe running from left to right, and turned into the way of the pipe; a
diamond stays upright, for on a slope it would be taken for a square. Signs
are not to scale. The sign of an anchor or a joint is filled with the colour of its use, where a number stands by it.
"""

from __future__ import annotations

import math

from takeup.drawing.sheet import Circle, Item, Point, Polyline, Stroke

_LINE = Stroke(width=0.35)
_FINE = Stroke(width=0.2)
_NOTHING = 1e-6
_BLANK = "#ffffff"
REACH = 2.8  # a sign stays within so much of its place, across the pipe [mm]

EXPLAINED = {
    "main anchor": "main anchor: holds all, carries pressure",
    "intermediate anchor": "intermediate anchor",
    "directional anchor": "directional anchor",
    "slide guide": "slide guide: pipe free to slide along",
    "spider guide": "spider guide: pipe free to slide along",
    "rest": "rest: carries weight only",
    "single axial": "single axial joint",
    "externally pressurised": "externally pressurised joint",
}


def turned(at: Point, along: Point, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return points of a sign on the sheet: x along the pipe, y to its right."""
    return tuple((at[0] + x * along[0] - y * along[1], at[1] + x * along[1] + y * along[0]) for x, y in points)


def _shape(at: Point, along: Point, points: tuple[Point, ...], fill: str | None, *, closed: bool = True) -> Polyline:
    return Polyline(points=turned(at, along, points), stroke=_LINE, closed=closed, fill=fill)


def hold_sign(kind: str, at: Point, along: Point, fill: str = _BLANK) -> tuple[Item, ...]:
    """Return the sign of a hold of some kind; a ring for a kind without a sign of its own."""
    if kind == "main anchor":
        box = _shape(at, along, ((-2.2, -2.2), (2.2, -2.2), (2.2, 2.2), (-2.2, 2.2)), fill)
        feet = tuple(_shape(at, along, ((-2.2, y), (2.2, y)), None, closed=False) for y in (-2.75, 2.75))
        return (box, *feet)
    if kind in {"intermediate anchor", "directional anchor"}:
        return (_shape(at, (1.0, 0.0), ((-2.6, 0.0), (0.0, -2.6), (2.6, 0.0), (0.0, 2.6)), fill),)
    if kind == "slide guide":
        return tuple(
            _shape(at, along, ((-1.3, y - 0.3), (1.3, y - 0.3), (1.3, y + 0.3), (-1.3, y + 0.3)), fill)
            for y in (-1.5, 1.5)
        )
    if kind == "spider guide":
        spokes = tuple(_shape(at, along, ((0.0, y), (0.0, 1.9 * y)), None, closed=False) for y in (-1.2, 1.2))
        return (Circle(centre=at, radius=1.2, stroke=_LINE, fill=fill), *spokes)
    if kind == "rest":
        return (_shape(at, (1.0, 0.0), ((0.0, 0.5), (1.4, 2.6), (-1.4, 2.6)), fill),)
    return (Circle(centre=at, radius=1.6, stroke=_LINE, fill=fill),)


def joint_sign(kind: str, start: Point, end: Point, fill: str = _BLANK) -> tuple[Item, ...]:
    """Return the sign of a joint between its ends on the sheet; a short one is drawn long enough to be seen."""
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    length = math.dist(start, end)
    along = (1.0, 0.0) if length < _NOTHING else ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    half = max(length, 6.0) / 2.0
    box = _shape(middle, along, ((-half, -1.9), (half, -1.9), (half, 1.9), (-half, 1.9)), fill)
    if kind == "externally pressurised":
        inner = _waves(middle, along, half - 1.2, 1.0)
        caps = tuple(_shape(middle, along, ((x, -2.6), (x, 2.6)), None, closed=False) for x in (-half, half))
        return (box, inner, *caps)
    return (box, _waves(middle, along, half, 1.9))


def _waves(at: Point, along: Point, half: float, height: float) -> Polyline:
    """Return the convolutions of a bellows as a zigzag across the pipe."""
    count = 8
    points = tuple((-half + 2.0 * half * n / count, height if n % 2 else -height) for n in range(count + 1))
    return Polyline(points=turned(at, along, points), stroke=_FINE)


def arrow(at: Point, along: Point, length: float = 3.2) -> Polyline:
    """Return a filled head of an arrow about a place, pointing along."""
    points = turned(at, along, ((length / 2.0, 0.0), (-length / 2.0, -length / 3.2), (-length / 2.0, length / 3.2)))
    return Polyline(points=points, stroke=None, closed=True, fill="#000000")
