"""What holds and takes up the pipe, and what stands in it, as signs of our own.     (drawing/symbols.py)

Every sheet explains those it bears. A sign is drawn round its place with the pipe running from left to right, and
turned into the way of the pipe; diamonds, rests and hangers stay upright. Signs are not to scale. The sign of an
anchor or a joint is filled with the colour of its use, where a number stands by it.
"""

from __future__ import annotations

import math

from takeup.drawing.sheet import Arc, Circle, Point, Polyline, Stroke

Parts = tuple[Polyline | Arc | Circle, ...]
_LINE = Stroke(width=0.35)
_FINE = Stroke(width=0.2)
_THICK = Stroke(width=0.8)
_NOTHING = 1e-6
_BLANK = "#ffffff"
_BLACK = "#000000"
_UPRIGHT = (1.0, 0.0)
_ASIDE = 0.66  # of half the sign: where the middle of each of two bellows stands
_SET_BACK = 0.9  # between nut and lug of a limit rod [mm]
REACH = 2.8  # a sign stays within so much of its place, across the pipe [mm]

EXPLAINED = {
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
    "single axial": "single axial joint",
    "externally pressurised": "externally pressurised joint",
    "tied axial": "tied axial joint: tie rods across it",
    "universal": "universal joint: two bellows, a spool",
    "tied universal": "tied universal joint: tie rods across it",
    "single axial with limit rods": "single axial with limit rods",
    "universal with limit rods": "universal with limit rods: two bellows",
    "valve": "valve",
    "flange": "pair of flanges",
    "reducer": "reducer",
    "item": "other thing in the line",
    "branch": "another line leaves here",
    "blind": "blind end",
    "closed valve": "end at a closed valve",
    "continues": "line continues: other side to be added",
}


def turned(at: Point, along: Point, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return points of a sign on the sheet: x along the pipe, y to its right."""
    return tuple((at[0] + x * along[0] - y * along[1], at[1] + x * along[1] + y * along[0]) for x, y in points)


def _shape(at: Point, along: Point, points: tuple[Point, ...], fill: str | None) -> Polyline:
    return Polyline(points=turned(at, along, points), stroke=_LINE, closed=True, fill=fill)


def _stroke(at: Point, along: Point, points: tuple[Point, ...], pen: Stroke = _LINE) -> Polyline:
    return Polyline(points=turned(at, along, points), stroke=pen)


def _box(half: float, aside: float) -> tuple[Point, ...]:
    return (-half, -aside), (half, -aside), (half, aside), (-half, aside)


def hold_sign(kind: str, at: Point, along: Point, fill: str = _BLANK) -> Parts:
    """Return the sign of a hold of some kind; a ring for a kind without a sign of its own."""
    if "anchor" in kind:
        return _anchor(kind, at, along, fill)
    if "hanger" in kind or kind == "rest":
        return _from_outside(kind, at, fill)
    if "guide" in kind:
        return _guide(kind, at, along, fill)
    if kind in {"stop", "equipment", "continues"}:
        return _of_its_own(kind, at, along, fill)
    return (Circle(centre=at, radius=1.6, stroke=_LINE, fill=fill),)


def _of_its_own(kind: str, at: Point, along: Point, fill: str) -> Parts:
    """Return the sign of a stop, of the nozzle of equipment, or of an end beyond which the line continues."""
    if kind == "stop":
        bar = _stroke(at, along, ((1.5, -2.4), (1.5, 2.4)), _THICK)
        return (_shape(at, along, ((1.3, 0.0), (-1.6, -1.8), (-1.6, 1.8)), fill), bar)
    if kind == "equipment":
        cross = tuple(_stroke(at, along, ((-2.2, -y), (2.2, y)), _FINE) for y in (-2.2, 2.2))
        return (_shape(at, along, _box(2.2, 2.2), fill), *cross)
    return (_stroke(at, along, ((0.0, -2.7), (0.0, -0.8), (-1.1, -0.3), (1.1, 0.3), (0.0, 0.8), (0.0, 2.7))),)


def _anchor(kind: str, at: Point, along: Point, fill: str) -> Parts:
    if kind == "main anchor":
        feet = tuple(_stroke(at, along, ((-2.2, y), (2.2, y))) for y in (-2.75, 2.75))
        return (_shape(at, along, _box(2.2, 2.2), fill), *feet)
    diamond = _shape(at, _UPRIGHT, ((-2.6, 0.0), (0.0, -2.6), (2.6, 0.0), (0.0, 2.6)), fill)
    if kind == "directional anchor":
        heads = tuple(
            _shape(at, along, ((2.4 * side, 0.0), (0.9 * side, -0.8), (0.9 * side, 0.8)), _BLACK) for side in (-1, 1)
        )
        return (diamond, *heads)
    return (diamond,)


def _guide(kind: str, at: Point, along: Point, fill: str) -> Parts:
    if kind == "spider guide":
        spokes = tuple(_stroke(at, along, ((0.0, y), (0.0, 1.9 * y))) for y in (-1.2, 1.2))
        return (Circle(centre=at, radius=1.2, stroke=_LINE, fill=fill), *spokes)
    if kind == "planar guide":
        return tuple(
            _stroke(at, along, ((-1.5, 2.3 * side), (-1.5, 1.4 * side), (1.5, 1.4 * side), (1.5, 2.3 * side)))
            for side in (-1, 1)
        )
    bars = (((-1.3, y - 0.3), (1.3, y - 0.3), (1.3, y + 0.3), (-1.3, y + 0.3)) for y in (-1.5, 1.5))
    return tuple(_shape(at, along, bar, fill) for bar in bars)


def _from_outside(kind: str, at: Point, fill: str) -> Parts:
    """Return a rest under its place, or a hanger over it, upright on the sheet."""
    if kind == "rest":
        return (_shape(at, _UPRIGHT, ((0.0, 0.5), (1.4, 2.6), (-1.4, 2.6)), fill),)
    spring = ((0.0, -0.7), (0.7, -1.0), (-0.7, -1.4), (0.7, -1.8), (-0.7, -2.2), (0.0, -2.6))
    rod = spring if kind == "spring hanger" else ((0.0, -0.7), (0.0, -2.6))
    clamp = Circle(centre=at, radius=0.7, stroke=_LINE, fill=fill)
    return (clamp, _stroke(at, _UPRIGHT, rod), _stroke(at, _UPRIGHT, ((-1.4, -2.6), (1.4, -2.6))))


def end_sign(kind: str, at: Point, along: Point) -> Parts:
    """Return the sign of an end that holds nothing, or of a place where another line leaves; none for a free end."""
    if kind == "blind":
        return (_stroke(at, along, ((0.0, -1.9), (0.0, 1.9)), _THICK),)
    if kind == "closed valve":
        return (_shape(at, along, _bow_tie(2.2), _BLACK),)
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
        return (_shape(middle, along, _bow_tie(half), _BLANK),)
    if kind == "flange":
        return tuple(_stroke(middle, along, ((side, -2.0), (side, 2.0))) for side in (-half, half))
    if kind == "reducer":
        first, last = (1.0, 1.9) if wider else (1.9, 1.0)
        return (_shape(middle, along, ((-half, -first), (half, -last), (half, last), (-half, first)), _BLANK),)
    return (_shape(middle, along, _box(half, 1.5), _BLANK),)


def joint_sign(kind: str, start: Point, end: Point, fill: str = _BLANK) -> Parts:
    """Return the sign of a joint between its ends on the sheet; a short one is drawn long enough to be seen."""
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    length = math.dist(start, end)
    along = (1.0, 0.0) if length < _NOTHING else ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    half = max(length, 6.0) / 2.0
    box = _shape(middle, along, _box(half, 1.9), fill)
    if kind == "externally pressurised":
        caps = tuple(_stroke(middle, along, ((x, -2.6), (x, 2.6))) for x in (-half, half))
        return (box, _waves(middle, along, half - 1.2, 1.0), *caps)
    rods = _rods(middle, along, half, limit="limit" in kind) if "tied" in kind or "limit" in kind else ()
    if "universal" in kind:
        return (*_two_bellows(middle, along, half, fill), *rods)
    return (box, _waves(middle, along, half, 1.9), *rods)


def _two_bellows(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return two bellows, each about a third of the sign, and the spool between them, as slim as the pipe."""
    parts: list[Polyline] = [_shape(at, along, _box(half, 0.9), fill)]
    for side in (-1, 1):
        (middle,) = turned(at, along, ((side * _ASIDE * half, 0.0),))
        parts += [
            _shape(middle, along, _box((1.0 - _ASIDE) * half, 1.9), fill),
            _waves(middle, along, (1.0 - _ASIDE) * half, 1.9, count=4),
        ]
    return tuple(parts)


def _rods(at: Point, along: Point, half: float, *, limit: bool) -> Parts:
    """Return a rod either side with its lugs; the nuts of a limit rod stand back from them."""
    lug = half - (_SET_BACK if limit else 0.0)
    parts = []
    for side in (-1, 1):
        parts.append(_stroke(at, along, ((-half, 2.4 * side), (half, 2.4 * side)), _FINE))
        parts += [_stroke(at, along, ((x, 1.9 * side), (x, REACH * side))) for x in (-lug, lug)]
        if limit:
            parts += [_stroke(at, along, ((x, 2.1 * side), (x, 2.7 * side)), _FINE) for x in (-half, half)]
    return tuple(parts)


def _waves(at: Point, along: Point, half: float, height: float, count: int = 8) -> Polyline:
    """Return the convolutions of a bellows as a zigzag across the pipe."""
    points = tuple((-half + 2.0 * half * n / count, height if n % 2 else -height) for n in range(count + 1))
    return Polyline(points=turned(at, along, points), stroke=_FINE)


def arrow(at: Point, along: Point, length: float = 3.2) -> Polyline:
    """Return a filled head of an arrow about a place, pointing along."""
    points = turned(at, along, ((length / 2.0, 0.0), (-length / 2.0, -length / 3.2), (-length / 2.0, length / 3.2)))
    return Polyline(points=points, stroke=None, closed=True, fill="#000000")
