"""Joints as signs of our own, one for each kind.     (drawing/joint_signs.py)

A box with a zigzag is a bellows, two with a slim box between are a universal joint. Beside them: strokes outside are
rods with their lugs, circles are pins, a bar between circles is a plate or a swing bar, a higher box is a balancing
bellows, thick strokes are closed ends. All stay within `REACH` of the pipe's middle line (`symbols.py`). A double is
drawn in halves, either side of the sign of its base; one that is tied across a bend has its head beyond that bend.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from takeup.drawing.sheet import Circle, Point
from takeup.drawing.strokes import BLANK, FINE, LINE, THICK, Parts, box, shape, stroke, turned, waves

JOINTS_EXPLAINED = {
    "single axial": "single axial joint",
    "single axial with limit rods": "single axial with limit rods",
    "tied axial": "tied axial joint: tie rods across it",
    "limit-rod axial": "limit-rod axial joint",
    "universal": "universal joint: two bellows, a spool",
    "universal with limit rods": "universal with limit rods: two bellows",
    "tied universal": "tied universal joint: tie rods across it",
    "limit-rod universal": "universal, limit rods on each bellows",
    "swing": "swing joint: two bars, pinned",
    "hinged": "hinged joint: turns about its pins",
    "gimbal": "gimbal joint: two pairs of pins",
    "externally pressurised": "externally pressurised joint",
    "small-bore compensator": "small-bore compensator",
    "double": "double: a bellows either side of a base",
    "double externally pressurised": "double, pressed from outside, on a base",
    "in-line pressure balanced": "pressure balanced joint, in line",
    "elbow pressure balanced": "pressure balanced: tied across a bend",
    "braided hose loop": "loop of braided hose",
}
_Sign = Callable[[Point, Point, float, str], Parts]
"""What draws a kind: from its middle, the way of the pipe, half its length and its fill."""
_NOTHING = 1e-6
_LEAST = 6.0  # length of the shortest sign [mm]
_WIDE, _SLIM, _HIGH = 1.9, 0.9, 2.3  # half the width of a bellows, of a spool, of a balancing bellows [mm]
_ROD, _LUG = 2.4, 2.8  # of a rod from the middle line, and of the outer end of its lug [mm]
_ASIDE = 0.66  # of half the sign: where the middle of each of two bellows stands
_SET_BACK = 0.9  # between nut and lug of a limit rod [mm]
_PIN = 0.5  # radius of a pin [mm]
_TO_BASE = 2.7  # spool of half a double under the sign of its base [mm]
_WHOLE, _BASE = 4.6, 1.1  # half the length of the sign of a whole double, and of what its base takes of it [mm]
_STUB, _BALANCE = 1.0, 1.6  # pipe between a bend and the bellows beyond it, and half that bellows [mm]
_INTO_ELBOW = 0.6  # of half the pipe's width: where the outer wall of an elbow is passed, before its corner
_SHORT = 2.4  # half a housing that is too short for the whole zigzag [mm]
_HOSE = 12  # strokes of half a circle of hose


@dataclass(frozen=True, kw_only=True, slots=True)
class Bend:
    """A bend that a joint is tied across: where it is on the sheet, and half the pipe's width there [mm]."""

    at: Point
    pipe: float


def joint_sign(
    kind: str, start: Point, end: Point, fill: str = BLANK, *, base: int = 0, bend: Bend | None = None
) -> Parts:
    """Return the sign of a joint between its ends on the sheet; a short one is drawn long enough to be seen.

    Args:
        kind: Of joint.
        start: Its first end [mm].
        end: Its last.
        fill: The colour of its use.
        base: Of half a double, on which side its base is: 1 beyond it, -1 before it; 0 for the whole.
        bend: That the joint is tied across; None for a sign by itself.
    """
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    length = math.dist(start, end)
    along = (1.0, 0.0) if length < _NOTHING else ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    half = max(length, _LEAST) / 2.0
    if base:
        toward = (base * along[0], base * along[1])
        return _half_double(middle, toward, half, fill, outside=kind != "double")
    if bend is not None and math.dist(middle, bend.at) > half:
        return _across_bend(middle, bend, half, fill)
    if kind in _OF_ITS_OWN:
        return _OF_ITS_OWN[kind](middle, along, half, fill)
    return _with_rods(kind, middle, along, half, fill)


def _with_rods(kind: str, at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return one bellows or two, and its rods where the kind has some."""
    bare = _two_bellows(at, along, half, fill) if "universal" in kind else _bellows(at, along, half, fill)
    if kind == "limit-rod universal":
        places = (turned(at, along, ((side * _ASIDE * half, 0.0),))[0] for side in (-1, 1))
        rods = tuple(part for at in places for part in _rods(at, along, (1.0 - _ASIDE) * half, limit=True, back=0.35))
        return (*bare, *rods)
    if "tied" in kind or "limit" in kind:
        return (*bare, *_rods(at, along, half, limit="limit" in kind))
    return bare


def _bellows(at: Point, along: Point, half: float, fill: str, *, width: float = _WIDE, count: int = 8) -> Parts:
    return (shape(at, along, box(half, width), fill), waves(at, along, half, width, count))


def _two_bellows(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return two bellows, each about a third of the sign, and the spool between them, as slim as the pipe."""
    places = turned(at, along, ((-_ASIDE * half, 0.0), (_ASIDE * half, 0.0)))
    either = (part for place in places for part in _bellows(place, along, (1.0 - _ASIDE) * half, fill, count=4))
    return (shape(at, along, box(half, _SLIM), fill), *either)


def _rods(at: Point, along: Point, half: float, *, limit: bool, back: float = _SET_BACK) -> Parts:
    """Return a rod either side with its lugs; the nuts of a limit rod stand back from them."""
    lug = half - (back if limit else 0.0)
    parts = []
    for side in (-1, 1):
        parts.append(stroke(at, along, ((-half, _ROD * side), (half, _ROD * side)), FINE))
        parts += [stroke(at, along, ((x, _WIDE * side), (x, _LUG * side))) for x in (-lug, lug)]
        if limit:
            parts += [stroke(at, along, ((x, 2.1 * side), (x, 2.7 * side)), FINE) for x in (-half, half)]
    return tuple(parts)


def _hinged(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return a bellows with a plate over it and a pin in its middle."""
    plate = shape(at, along, box(half + 0.6, 0.45), BLANK)
    return (*_bellows(at, along, half, fill), plate, Circle(centre=at, radius=1.0, stroke=LINE, fill=BLANK), _dot(at))


def _gimbal(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return a bellows with a ring, two pins on it along the pipe and two across."""
    ring = Circle(centre=at, radius=1.5, stroke=LINE, fill=BLANK)
    places = turned(at, along, ((-1.5, 0.0), (1.5, 0.0), (0.0, -1.5), (0.0, 1.5)))
    plates = tuple(stroke(at, along, ((side * (half + 0.6), 0.0), (side * 1.5, 0.0)), THICK) for side in (-1, 1))
    return (*_bellows(at, along, half, fill), *plates, ring, *(_dot(place) for place in places))


def _dot(at: Point) -> Circle:
    return Circle(centre=at, radius=0.45, stroke=None, fill="#000000")


def _swing(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return a universal joint with a bar either side between two pins."""
    ends = [(x * (half - _PIN), y * (_LUG - _PIN)) for y in (-1, 1) for x in (-1, 1)]
    bars = (stroke(at, along, ((-half, y * (_LUG - _PIN)), (half, y * (_LUG - _PIN)))) for y in (-1, 1))
    pins = (Circle(centre=place, radius=_PIN, stroke=LINE, fill=BLANK) for place in turned(at, along, tuple(ends)))
    return (*_two_bellows(at, along, half, fill), *bars, *pins)


def _from_outside(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return a bellows inside a housing."""
    caps = (stroke(at, along, ((x, -2.6), (x, 2.6))) for x in (-half, half))
    inner, count = (half - 1.2, 8) if half > _SHORT else (0.6 * half, 3)
    return (shape(at, along, box(half, _WIDE), fill), waves(at, along, inner, 1.0, count), *caps)


def _small_bore(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return a slim housing with nuts at its ends."""
    nuts = (shape(at, along, tuple((x + end, y) for x, y in box(0.45, 1.6)), BLANK) for end in (-half, half))
    return (shape(at, along, box(half, 1.2), fill), waves(at, along, half - 1.3, 0.6), *nuts)


def _balanced(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return the line's bellows, and a higher balancing one beside it, tied to the joint's other end."""
    first, second = turned(at, along, ((-0.5 * half, 0.0), (0.5 * half, 0.0)))
    ties = (stroke(at, along, ((-half, y * 2.6), (half, y * 2.6)), FINE) for y in (-1, 1))
    lugs = (stroke(at, along, ((x, y * 1.2), (x, y * _LUG))) for y in (-1, 1) for x in (-half, half))
    return (
        shape(at, along, box(half, _SLIM), fill),
        *_bellows(first, along, 0.38 * half, fill, width=1.5, count=4),
        *_bellows(second, along, 0.38 * half, fill, width=_HIGH, count=4),
        *ties,
        *lugs,
    )


def _at_elbow(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return it where the bend is not to be seen: a bellows with its head stands off the pipe, tied back across it."""
    flow, foot, head = turned(at, along, ((-0.3 * half, 0.0), (0.75 * half, -1.5), (0.75 * half, 0.0)))
    up = (along[1], -along[0])
    return (
        shape(at, along, box(half, _SLIM), fill),
        *_bellows(flow, along, 0.6 * half, fill, count=5),
        *_bellows(foot, up, 0.9, fill, width=0.9, count=3),
        stroke(at, along, ((0.75 * half - 1.2, -_ROD - 0.2), (0.75 * half + 1.2, -_ROD - 0.2)), THICK),
        stroke(at, along, ((-half, -_ROD - 0.2), (0.75 * half, -_ROD - 0.2)), FINE),
        stroke(at, along, ((-half, -_SLIM), (-half, -_LUG))),
        _dot(head),
    )


def _half_double(at: Point, along: Point, half: float, fill: str, *, outside: bool) -> Parts:
    """Return half a double, its base beyond it, with a spool that runs under the sign of the base."""
    (spool,) = turned(at, along, ((half + _TO_BASE / 2.0, 0.0),))
    bare = _from_outside(at, along, half, fill) if outside else _bellows(at, along, half, fill, count=6)
    return (shape(spool, along, box(_TO_BASE / 2.0, _SLIM), fill), *bare)


def _double(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return a whole double by itself: a bellows either side of the sign of its base."""
    return _whole_double(at, along, max(half, _WHOLE), fill, _few_waves)


def _double_from_outside(at: Point, along: Point, half: float, fill: str) -> Parts:
    return _whole_double(at, along, max(half, _WHOLE), fill, _from_outside)


def _whole_double(at: Point, along: Point, half: float, fill: str, one: _Sign) -> Parts:
    length = (half - _BASE) / 2.0
    sides = (turned(at, along, ((side * (half - length), 0.0),))[0] for side in (-1, 1))
    either = tuple(part for side in sides for part in one(side, along, length, fill))
    base = shape(at, along, ((-1.5, 0.0), (0.0, -2.6), (1.5, 0.0), (0.0, 2.6)), BLANK)
    return (shape(at, along, box(half, _SLIM), fill), *either, base)


def _few_waves(at: Point, along: Point, half: float, fill: str) -> Parts:
    return _bellows(at, along, half, fill, count=4)


def balance_beyond(at: Point, bend: Bend) -> Point:
    """Return where the middle of the balancing bellows beyond a bend is drawn, for a joint at a place before it."""
    length = math.dist(at, bend.at)
    reach = 1.0 + (bend.pipe + _STUB + _BALANCE) / max(length, _NOTHING)
    return at[0] + reach * (bend.at[0] - at[0]), at[1] + reach * (bend.at[1] - at[1])


def _across_bend(at: Point, bend: Bend, half: float, fill: str) -> Parts:
    """Return the flow bellows before a bend, and in line with it beyond the bend a bellows with a head tied back."""
    length = math.dist(at, bend.at)
    along = ((bend.at[0] - at[0]) / length, (bend.at[1] - at[1]) / length)
    head = length + bend.pipe + _STUB + 2.0 * _BALANCE
    ties = (stroke(at, along, ((-half, y * _ROD), (head, y * _ROD)), FINE) for y in (-1, 1))
    lugs = (stroke(at, along, ((-half, y * _WIDE), (-half, y * _LUG))) for y in (-1, 1))
    begin, end = length - _INTO_ELBOW * bend.pipe, length + bend.pipe + _STUB
    return (
        shape(at, along, ((begin, -_SLIM), (end, -_SLIM), (end, _SLIM), (begin, _SLIM)), BLANK),
        *_bellows(at, along, half, fill),
        *_bellows(balance_beyond(at, bend), along, _BALANCE, fill, count=4),
        *ties,
        *lugs,
        stroke(at, along, ((head, -_LUG), (head, _LUG)), THICK),
        _dot(bend.at),
    )


def _hose(at: Point, along: Point, half: float, fill: str) -> Parts:
    """Return a U of hose that hangs to the right of the flow, the pipe between its legs taken out."""
    outer, inner, top = min(half, 1.7), min(half, 1.7) - 0.9, 1.0

    def arch(radius: float) -> tuple[Point, ...]:
        angles = (math.pi * n / _HOSE for n in range(_HOSE + 1))
        return tuple((radius * math.cos(angle), top + radius * math.sin(angle)) for angle in angles)

    bend = ((outer, -0.5), *arch(outer), (-outer, -0.5), (-inner, -0.5), *reversed(arch(inner)), (inner, -0.5))
    middle = (outer + inner) / 2.0
    braid = ((middle, -0.5), *arch(middle), (-middle, -0.5))
    faces = (stroke(at, along, ((side * half, -1.4), (side * half, 1.4))) for side in (-1, 1))
    return (
        shape(at, along, box(half, 0.45), BLANK),
        stroke(at, along, ((-half, 0.0), (-outer, 0.0))),
        stroke(at, along, ((outer, 0.0), (half, 0.0))),
        shape(at, along, bend, fill),
        stroke(at, along, braid, FINE),
        *faces,
    )


_OF_ITS_OWN: dict[str, _Sign] = {
    "swing": _swing,
    "hinged": _hinged,
    "gimbal": _gimbal,
    "externally pressurised": _from_outside,
    "small-bore compensator": _small_bore,
    "double": _double,
    "double externally pressurised": _double_from_outside,
    "in-line pressure balanced": _balanced,
    "elbow pressure balanced": _at_elbow,
    "braided hose loop": _hose,
}

__all__ = ["JOINTS_EXPLAINED", "Bend", "balance_beyond", "joint_sign"]
