"""What signs are drawn of: pens, boxes, points turned into the way of the pipe.     (drawing/strokes.py)"""

from __future__ import annotations

from takeup.drawing.sheet import Arc, Circle, Point, Polyline, Stroke

Parts = tuple[Polyline | Arc | Circle, ...]
LINE = Stroke(width=0.35)
FINE = Stroke(width=0.2)
THICK = Stroke(width=0.8)
BLANK = "#ffffff"


def turned(at: Point, along: Point, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return points of a sign on the sheet: x along the pipe, y to its right."""
    return tuple((at[0] + x * along[0] - y * along[1], at[1] + x * along[1] + y * along[0]) for x, y in points)


def shape(at: Point, along: Point, points: tuple[Point, ...], fill: str | None) -> Polyline:
    """Return a closed part of a sign, filled."""
    return Polyline(points=turned(at, along, points), stroke=LINE, closed=True, fill=fill)


def stroke(at: Point, along: Point, points: tuple[Point, ...], pen: Stroke = LINE) -> Polyline:
    """Return an open part of a sign."""
    return Polyline(points=turned(at, along, points), stroke=pen)


def box(half: float, aside: float) -> tuple[Point, ...]:
    """Return the corners of a box by half its length along the pipe and half its width across it."""
    return (-half, -aside), (half, -aside), (half, aside), (-half, aside)


def waves(at: Point, along: Point, half: float, height: float, count: int = 8) -> Polyline:
    """Return the convolutions of a bellows as a zigzag across the pipe."""
    points = tuple((-half + 2.0 * half * n / count, height if n % 2 else -height) for n in range(count + 1))
    return Polyline(points=turned(at, along, points), stroke=FINE)
