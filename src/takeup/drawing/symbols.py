"""What holds and takes up the pipe, and what stands in it, as signs of our own.     (drawing/symbols.py)

Every sheet explains those it bears. A sign is drawn round its place with the pipe running from left to right, and
turned into the way of the pipe; diamonds, rests and hangers stay upright. Signs are not to scale. The sign of an
anchor or a joint is filled with the colour of its use, where a number stands by it. Those of joints: `joint_signs.py`.
"""

from __future__ import annotations

import math

from takeup.drawing.joint_signs import JOINTS_EXPLAINED
from takeup.drawing.sheet import Circle, Point, Polyline
from takeup.drawing.strokes import BLANK, FINE, LINE, THICK, Parts, box, shape, stroke, turned

_BLACK = "#000000"
_UPRIGHT = (1.0, 0.0)
REACH = 2.8  # a sign stays within so much of its place, across the pipe [mm]

_HELD = {
    "main anchor": "main anchor: holds all, carries pressure",
    "intermediate anchor": "intermediate anchor",
    "directional anchor": "directional anchor: holds one axis",
    "stop": "stop: holds one way",
    "equipment": "nozzle of equipment",
    "slide guide": "slide guide: pipe free to slide along",
    "spider guide": "spider guide: pipe free to slide along",
    "planar guide": "planar guide: pipe free in one plane",
    "rest": "rest: carries weight only",
    "hanger": "hanger: carries weight only",
    "spring hanger": "spring hanger",
}
_ELSE = {
    "valve": "valve",
    "flange": "pair of flanges",
    "reducer": "reducer",
    "item": "other thing in the line",
    "branch": "another line leaves here",
    "blind": "blind end",
    "closed valve": "end at a closed valve",
    "continues": "line continues: other side to be added",
}
EXPLAINED = {**_HELD, **JOINTS_EXPLAINED, **_ELSE}  # in the order of the legend


def hold_sign(kind: str, at: Point, along: Point, fill: str = BLANK) -> Parts:
    """Return the sign of a hold of some kind; a ring for a kind without a sign of its own."""
    if "anchor" in kind:
        return _anchor(kind, at, along, fill)
    if "hanger" in kind or kind == "rest":
        return _from_outside(kind, at, fill)
    if "guide" in kind:
        return _guide(kind, at, along, fill)
    if kind in {"stop", "equipment", "continues"}:
        return _of_its_own(kind, at, along, fill)
    return (Circle(centre=at, radius=1.6, stroke=LINE, fill=fill),)


def _of_its_own(kind: str, at: Point, along: Point, fill: str) -> Parts:
    """Return the sign of a stop, of the nozzle of equipment, or of an end beyond which the line continues."""
    if kind == "stop":
        bar = stroke(at, along, ((1.5, -2.4), (1.5, 2.4)), THICK)
        return (shape(at, along, ((1.3, 0.0), (-1.6, -1.8), (-1.6, 1.8)), fill), bar)
    if kind == "equipment":
        cross = tuple(stroke(at, along, ((-2.2, -y), (2.2, y)), FINE) for y in (-2.2, 2.2))
        return (shape(at, along, box(2.2, 2.2), fill), *cross)
    return (stroke(at, along, ((0.0, -2.7), (0.0, -0.8), (-1.1, -0.3), (1.1, 0.3), (0.0, 0.8), (0.0, 2.7))),)


def _anchor(kind: str, at: Point, along: Point, fill: str) -> Parts:
    if kind == "main anchor":
        feet = tuple(stroke(at, along, ((-2.2, y), (2.2, y))) for y in (-2.75, 2.75))
        return (shape(at, along, box(2.2, 2.2), fill), *feet)
    diamond = shape(at, _UPRIGHT, ((-2.6, 0.0), (0.0, -2.6), (2.6, 0.0), (0.0, 2.6)), fill)
    if kind == "directional anchor":
        heads = tuple(
            shape(at, along, ((2.4 * side, 0.0), (0.9 * side, -0.8), (0.9 * side, 0.8)), _BLACK) for side in (-1, 1)
        )
        return (diamond, *heads)
    return (diamond,)


def _guide(kind: str, at: Point, along: Point, fill: str) -> Parts:
    if kind == "spider guide":
        spokes = tuple(stroke(at, along, ((0.0, y), (0.0, 1.9 * y))) for y in (-1.2, 1.2))
        return (Circle(centre=at, radius=1.2, stroke=LINE, fill=fill), *spokes)
    if kind == "planar guide":
        return tuple(
            stroke(at, along, ((-1.5, 2.3 * side), (-1.5, 1.4 * side), (1.5, 1.4 * side), (1.5, 2.3 * side)))
            for side in (-1, 1)
        )
    bars = (((-1.3, y - 0.3), (1.3, y - 0.3), (1.3, y + 0.3), (-1.3, y + 0.3)) for y in (-1.5, 1.5))
    return tuple(shape(at, along, bar, fill) for bar in bars)


def _from_outside(kind: str, at: Point, fill: str) -> Parts:
    """Return a rest under its place, or a hanger over it, upright on the sheet."""
    if kind == "rest":
        return (shape(at, _UPRIGHT, ((0.0, 0.5), (1.4, 2.6), (-1.4, 2.6)), fill),)
    spring = ((0.0, -0.7), (0.7, -1.0), (-0.7, -1.4), (0.7, -1.8), (-0.7, -2.2), (0.0, -2.6))
    rod = spring if kind == "spring hanger" else ((0.0, -0.7), (0.0, -2.6))
    clamp = Circle(centre=at, radius=0.7, stroke=LINE, fill=fill)
    return (clamp, stroke(at, _UPRIGHT, rod), stroke(at, _UPRIGHT, ((-1.4, -2.6), (1.4, -2.6))))


def end_sign(kind: str, at: Point, along: Point) -> Parts:
    """Return the sign of an end that holds nothing, or of a place where another line leaves; none for a free end."""
    if kind == "blind":
        return (stroke(at, along, ((0.0, -1.9), (0.0, 1.9)), THICK),)
    if kind == "closed valve":
        return (shape(at, along, _bow_tie(2.2), _BLACK),)
    if kind == "branch":
        return (Circle(centre=at, radius=0.9, stroke=None, fill=_BLACK),)
    return ()


def _bow_tie(half: float) -> tuple[Point, ...]:
    return (-half, -1.6), (half, 1.6), (half, -1.6), (-half, 1.6)


def item_sign(kind: str, ends: tuple[Point, Point], along: Point, *, wider: bool = False) -> Parts:
    """Return the sign of something in the line between its ends on the sheet; a short one is drawn so as to be seen.

    Args:
        kind: Valve, flange, reducer or item.
        ends: Its first and its last face on the sheet [mm].
        along: The way of the flow there.
        wider: Whether a reducer opens towards the flow.
    """
    (x, y), (x_end, y_end) = ends
    middle = ((x + x_end) / 2.0, (y + y_end) / 2.0)
    half = math.dist(*ends) / 2.0
    if kind == "valve":
        return (shape(middle, along, _bow_tie(half), BLANK),)
    if kind == "flange":
        return tuple(stroke(middle, along, ((side, -2.0), (side, 2.0))) for side in (-half, half))
    if kind == "reducer":
        first, last = (1.0, 1.9) if wider else (1.9, 1.0)
        return (shape(middle, along, ((-half, -first), (half, -last), (half, last), (-half, first)), BLANK),)
    return (shape(middle, along, box(half, 1.5), BLANK),)


def arrow(at: Point, along: Point, length: float = 3.2) -> Polyline:
    """Return a filled head of an arrow about a place, pointing along."""
    points = turned(at, along, ((length / 2.0, 0.0), (-length / 2.0, -length / 3.2), (-length / 2.0, length / 3.2)))
    return Polyline(points=points, stroke=None, closed=True, fill="#000000")
