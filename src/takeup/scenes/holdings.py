"""What holds the line in a picture, and the force it feels.     (scenes/holdings.py)

An anchor is a block that stands on hatched ground, tinted by its use where its capacity is known. Its arrow is the
force of the pipe on it, drawn to the strip's one scale and with its number; a force that would be written as nought has
no arrow.
"""

from __future__ import annotations

import math

from takeup.drawing.colour import colour_of
from takeup.drawing.sheet import Anchor, Circle, Item, Point, Polyline, Sign, Stroke, Text
from takeup.scenes.figure import Picture, PicturedHold
from takeup.scenes.sketch import HALF, WALL, local
from takeup.units import to_kn

DEEP, ACROSS = 5.0, 6.4  # of an anchor's block [mm]
BELOW = ACROSS + 3.6  # the base line of an anchor's name, under the pipe [mm]
LINE = 3.4  # from one line of small words to the next [mm]
SMALL = 2.6
ARROW = 20.0  # the longest arrow [mm]
_SHAFT, _HEAD = 0.8, 1.9  # half the width of an arrow's shaft, and of its head [mm]
_HEAD_LONG = 4.0
_OFF = 1.2
_GROUND = Stroke(width=0.2)
_NOUGHT = 0.05  # kN: written as 0.0
_BESIDE, _LOWER = 3.2, 1.9  # a rest so near to a guide is drawn so much lower [mm]
_BLACK = "#000000"


def arrow_scale(pictures: list[Picture]) -> float:
    """Return the newtons that one millimetre of an arrow stands for: a round number, for all steps of a strip."""
    forces = [abs(hold.force) for picture in pictures for hold in picture.holds if hold.force is not None]
    most = max(forces, default=0.0)
    if to_kn(most) < _NOUGHT:
        return math.inf
    least = most / ARROW
    power = 10.0 ** math.floor(math.log10(least))
    return power * min(step for step in (1.0, 2.0, 5.0, 10.0) if step * power >= least)


def room_below(picture: Picture) -> float:
    """Return how far under the line the words of its holds reach [mm]."""
    anchors = [hold for hold in picture.holds if hold.anchor]
    last = len(picture.points) - 1
    used = LINE if any(hold.use is not None for hold in anchors) else 0.0
    inner = any(hold.node not in (0, last) for hold in anchors)
    return used + (ACROSS + _OFF + 2.0 * _HEAD + 1.0 + 2.0 * LINE if inner else BELOW)


def hold_items(picture: Picture, still: list[Point], ways: list[Point], newtons: float, *, above: bool) -> list[Item]:
    """Return the holds and the ends of a picture.

    Args:
        picture: of the step.
        still: its nodes on paper before anything moved: holds stand still.
        ways: direction of the line at each node, before anything moved.
        newtons: for a millimetre of arrow.
        above: whether the line is seen from above: a rest is then a ring under the pipe, not a wedge.
    """
    items: list[Item] = []
    last = len(still) - 1
    guides = [hold.node for hold in picture.holds if "guide" in hold.kind]
    for hold in picture.holds:
        at, way = still[hold.node], ways[hold.node]
        if hold.anchor and hold.node in (0, last):
            items += _end_anchor(hold, at, way if hold.node == last else (-way[0], -way[1]), way, newtons)
        elif hold.anchor:
            items += _middle_anchor(hold, at, way, newtons)
        elif above and hold.kind == "rest":
            ring = Circle(centre=at, radius=1.1, stroke=WALL, fill="#ffffff")
            items.append(Sign(sort="guide", kind=hold.kind, name=hold.name, items=(ring,)))
        else:
            beside = [still[k] for k in guides if math.dist(still[k], at) < _BESIDE]
            items.append(_support(hold, at, way, lower=_LOWER if beside and "guide" not in hold.kind else 0.0))
    return items


def _end_anchor(hold: PicturedHold, at: Point, out: Point, flow: Point, newtons: float) -> list[Item]:
    """Return an anchor at an end of the line: block, ground, arrow beyond it, number and name."""
    corners = ((0.0, -ACROSS), (DEEP, -ACROSS), (DEEP, ACROSS), (0.0, ACROSS))
    block = tuple(local(at, out, *corner) for corner in corners)
    hatch = [
        Polyline(points=(local(at, out, DEEP, y), local(at, out, DEEP + _OFF, y + 1.4)), stroke=_GROUND)
        for y in _steps(-ACROSS, ACROSS - 1.0, 1.6)
    ]
    items: list[Item] = [
        Sign(sort="anchor", kind=hold.kind, name=hold.name, items=(_filled(block, hold.use), *hatch)),
    ]
    items += _name(hold, (local(at, out, DEEP / 2.0, 0.0)[0], at[1] + BELOW), _toward(out))
    if hold.force is None:
        return items
    outward = hold.force * (flow[0] * out[0] + flow[1] * out[1])
    length = abs(outward) / newtons
    start = DEEP + 2.0 * _OFF + (0.0 if outward >= 0.0 else length)
    way = out if outward >= 0.0 else (-out[0], -out[1])
    shown = to_kn(abs(outward)) >= _NOUGHT
    if shown:
        items.append(_arrow(local(at, out, start, 0.0), way, length))
    middle = local(at, out, DEEP + 2.0 * _OFF + max(length, ARROW / 2.0) / 2.0, 0.0)
    items.append(_words(f"{to_kn(abs(outward)):.1f} kN", (middle[0], at[1] - _HEAD - 1.6), bold=True))
    said = "" if not shown else "pushes" if outward > 0.0 else "pulls"
    return [*items, _words(said, (middle[0], at[1] + _HEAD + 3.4))]


def _middle_anchor(hold: PicturedHold, at: Point, way: Point, newtons: float) -> list[Item]:
    """Return an anchor on the way: blocks either side of the pipe, its arrow and words beneath."""
    parts: list[Polyline] = []
    for side in (1.0, -1.0):
        corners = ((-3.0, HALF), (3.0, HALF), (3.0, ACROSS), (-3.0, ACROSS))
        parts.append(_filled(tuple(local(at, way, x, side * y) for x, y in corners), hold.use))
        parts += [
            Polyline(
                points=(local(at, way, x, side * ACROSS), local(at, way, x + 1.2, side * (ACROSS + _OFF))),
                stroke=_GROUND,
            )
            for x in _steps(-3.0, 2.6, 1.4)
        ]
    items: list[Item] = [Sign(sort="anchor", kind=hold.kind, name=hold.name, items=tuple(parts))]
    if hold.force is None:
        return [*items, *_name(hold, (at[0], at[1] + ACROSS + _OFF + LINE), "middle")]
    length, shown = abs(hold.force) / newtons, to_kn(abs(hold.force)) >= _NOUGHT
    y = ACROSS + _OFF + _HEAD + 1.0
    if shown:
        sense = math.copysign(1.0, hold.force)
        along = (way[0] * sense, way[1] * sense)
        items.append(_arrow(local(at, along, -length / 2.0, y * sense), along, length))
    below = at[1] + ACROSS + _OFF + (2.0 * _HEAD + LINE + 1.0 if shown else LINE)
    items.append(_words(f"{to_kn(abs(hold.force)):.1f} kN", (at[0], below), bold=True))
    return [*items, *_name(hold, (at[0], below + LINE), "middle")]


def _name(hold: PicturedHold, at: Point, anchor: Anchor) -> list[Item]:
    words = [hold.name] + ([] if hold.use is None else [f"use {hold.use:.2f}"])
    return [_words(line, (at[0], at[1] + LINE * k), anchor=anchor) for k, line in enumerate(words)]


def _toward(out: Point) -> Anchor:
    """Return which end of an anchor's name stands at its block, so that it grows away from the line."""
    return "start" if out[0] > 0.0 else "end"


def _support(hold: PicturedHold, at: Point, way: Point, *, lower: float) -> Sign:
    """Return a guide as a bar either side of the pipe, a hanger over it, anything else as a wedge under it."""
    parts: list[Polyline] = []
    if "guide" in hold.kind:
        for side in (1.0, -1.0):
            corners = ((-1.3, HALF + 0.3), (1.3, HALF + 0.3), (1.3, HALF + 1.2), (-1.3, HALF + 1.2))
            points = tuple(local(at, way, x, side * y) for x, y in corners)
            parts.append(Polyline(points=points, stroke=None, closed=True, fill=_BLACK))
            parts.append(
                Polyline(points=(local(at, way, 0, side * HALF), local(at, way, 0, side * (HALF + 1.7))), stroke=WALL)
            )
    elif hold.kind == "hanger":
        top = HALF + 4.2
        strokes = (((0.0, -HALF), (0.0, -top)), ((-1.6, -top), (1.6, -top)))
        parts += [Polyline(points=tuple(local(at, way, x, y) for x, y in ends), stroke=WALL) for ends in strokes]
    else:
        top, foot = HALF + 0.3 + lower, HALF + 2.6 + lower
        points = tuple(local(at, way, x, y) for x, y in ((0.0, top), (1.4, foot), (-1.4, foot)))
        parts.append(Polyline(points=points, stroke=WALL, closed=True, fill="#ffffff"))
    return Sign(sort="guide", kind=hold.kind, name=hold.name, items=tuple(parts))


def end_items(picture: Picture, places: list[Point], ways: list[Point]) -> list[Item]:
    """Return the closed ends of a line that no anchor holds: a thick plate."""
    plate = Stroke(width=0.9)
    return [
        Polyline(
            points=(local(places[k], ways[k], 0, -HALF - 0.6), local(places[k], ways[k], 0, HALF + 0.6)), stroke=plate
        )
        for k, kind in ((0, picture.ends[0]), (-1, picture.ends[1]))
        if kind in ("free", "blind", "closed valve")
    ]


def _arrow(start: Point, way: Point, length: float) -> Polyline:
    """Return a filled arrow; a short one is all head, so that its length stays true."""
    head = min(_HEAD_LONG, length)
    wide = _HEAD * head / _HEAD_LONG
    neck = length - head
    points = [(neck, wide), (length, 0.0), (neck, -wide)]
    if neck > 0.0:
        points = [(0.0, _SHAFT), (neck, _SHAFT), *points, (neck, -_SHAFT), (0.0, -_SHAFT)]
    return Polyline(points=tuple(local(start, way, *p) for p in points), stroke=None, closed=True, fill=_BLACK)


def _filled(points: tuple[Point, ...], use: float | None) -> Polyline:
    return Polyline(points=points, stroke=WALL, closed=True, fill="#ffffff" if use is None else colour_of(use))


def _words(words: str, at: Point, *, anchor: Anchor = "middle", bold: bool = False) -> Text:
    return Text(at=at, words=words, size=SMALL, anchor=anchor, bold=bold)


def _steps(first: float, last: float, step: float) -> list[float]:
    return [first + step * k for k in range(int((last - first) / step) + 1)]
