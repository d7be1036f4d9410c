"""Joints that turn or swing on pins, are balanced, or are of hose.     (drawing/joint_views/held.py)"""

from __future__ import annotations

import math

from takeup.drawing.joint_views.parts import (
    ABOVE,
    BELLOWS,
    BELOW,
    CREST,
    DARK,
    FINE,
    LEFT,
    LINE,
    MIDDLE,
    PIPE,
    RIGHT,
    STEEL,
    WHITE,
    Items,
    about,
    axis,
    bar,
    bellows,
    label,
    pin,
    pipe,
    plate,
    ring,
    stroke,
)
from takeup.drawing.sheet import Item, Point, Polyline

_FIRST, _LAST = 56.0, 124.0


def hinged() -> Items:
    """Return a bellows with plates that meet on a pin; the twin pair stands behind."""
    return (
        *pipe(LEFT, 70.0), *pipe(110.0, RIGHT), *bellows(70.0, 110.0, 6), *ring(_FIRST, 16.0, 4.0),
        *ring(_LAST, 16.0, 4.0), *axis(), bar(90.0, _LAST, MIDDLE, 4.4), bar(_FIRST, 90.0, MIDDLE, 4.0),
        *pin(90.0, MIDDLE, 2.4),
        *label("pin, seen from its end", (90.0, ABOVE), (90.0, MIDDLE - 1.8)),
        *label("plate (its twin stands behind)", (62.0, BELOW), (64.0, MIDDLE + 2.5)),
        *label("end ring", (_LAST + 12.0, ABOVE), (_LAST, MIDDLE - 13.0)),
        *label("bellows", (106.0, BELOW), (103.3, MIDDLE + CREST - 1.5)),
    )  # fmt: skip


def gimbal() -> Items:
    """Return a bellows with a ring round it, one pair of pins seen from the end, the other from the side."""
    ring_away, half = 19.0, 5.0
    arms = (
        bar(_FIRST, 90.0, MIDDLE, 3.6),
        *(bar(90.0, _LAST, MIDDLE + side * (ring_away + 1.0), 2.2) for side in (-1, 1)),
    )
    pins = tuple(
        plate((88.4, MIDDLE + side * (ring_away - 5.5)), (91.6, MIDDLE + side * (ring_away + 4.8)), DARK)
        for side in (-1, 1)
    )
    hoop = (
        plate((90.0 - half, MIDDLE - ring_away + 0.4), (90.0 + half, MIDDLE + ring_away - 0.4), STEEL),
        *(stroke((90.0 - half, MIDDLE + side * 15.0), (90.0 + half, MIDDLE + side * 15.0), FINE) for side in (-1, 1)),
    )
    return (
        *pipe(LEFT, 70.0), *pipe(110.0, RIGHT), *bellows(70.0, 110.0, 6), *ring(_FIRST, 16.0, 4.0),
        *ring(_LAST, 23.0, 4.0), *axis(), *hoop, *pins, *arms, *pin(90.0, MIDDLE, 2.2),
        *label("pins of one pair", (90.0, ABOVE - 3.0), (90.0, MIDDLE - ring_away - 3.8)),
        *label("plate of the right end", (138.0, ABOVE), (112.0, MIDDLE - ring_away - 1.0)),
        *label("plate of the left end", (40.0, ABOVE), (66.0, MIDDLE - 2.4)),
        *label("pin of the other pair, from its end", (56.0, BELOW), (88.6, MIDDLE + 1.4)),
        *label("ring round the bellows", (120.0, BELOW + 3.0), (92.5, MIDDLE + 13.0)),
    )  # fmt: skip


def swing() -> Items:
    """Return two bellows and a spool with a bar between two pins; the twin bar stands behind."""
    first, last = 42.0, 138.0
    return (
        *pipe(LEFT, 52.0), *bellows(52.0, 74.0, 4), *pipe(74.0, 106.0), *bellows(106.0, 128.0, 4), *pipe(128.0, RIGHT),
        *ring(first, 16.0, 5.0), *ring(last, 16.0, 5.0), *axis(), bar(first, last, MIDDLE, 3.4),
        *pin(first, MIDDLE, 2.1), *pin(last, MIDDLE, 2.1),
        *label("bar (its twin stands behind)", (90.0, ABOVE), (90.0, MIDDLE - 2.2)),
        *label("pin, seen from its end", (first, BELOW), (first, MIDDLE + 1.6)),
        *label("spool", (90.0, BELOW), (90.0, MIDDLE + PIPE - 1.5)),
        *label("end ring", (last, BELOW), (last, MIDDLE + 14.0)),
        *label("bellows", (117.0, BELOW), (117.0, MIDDLE + CREST - 1.0)),
    )  # fmt: skip


def _tie(x: float, x_end: float, y: float) -> Items:
    nuts = tuple(plate((at - 1.1, y - 2.0), (at + 1.1, y + 2.0), DARK) for at in (x - 2.3, x_end + 2.3))
    return (plate((x - 4.6, y - 0.8), (x_end + 4.6, y + 0.8), WHITE), *nuts)


def in_line_balanced() -> Items:
    """Return the line bellows in two parts with a larger balancing bellows between, tied crosswise."""
    high, low = MIDDLE - 22.5, MIDDLE + 22.5
    rings = ((34.0, 16.0), (64.0, 20.0), (116.0, 20.0), (146.0, 16.0))
    lugs = tuple(
        plate((x - 1.2, min(y, MIDDLE + side * 8.0)), (x + 1.2, max(y, MIDDLE + side * 8.0)), STEEL)
        for x, y, side in (
            (34.0, high - 3.0, -1), (116.0, high - 3.0, -1), (64.0, low + 3.0, 1), (146.0, low + 3.0, 1),
        )
    )  # fmt: skip
    return (
        *pipe(LEFT, 40.0), *bellows(40.0, 62.0, 4), *bellows(66.0, 114.0, 6, (14.5, 18.5)), *bellows(118.0, 140.0, 4),
        *pipe(140.0, RIGHT), *lugs,
        *(part for x, radius in rings for part in ring(x, radius)),
        *_tie(34.0, 116.0, high), *_tie(64.0, 146.0, low), *axis(),
        *label("tie: left end to far ring", (76.0, ABOVE - 3.0), (76.0, high)),
        *label("line bellows, in two parts", (146.0, ABOVE), (129.0, MIDDLE - CREST + 1.0)),
        *label("tie: near ring to right end", (112.0, BELOW + 3.0), (112.0, low)),
        *label("balancing bellows", (40.0, BELOW + 3.0), (78.0, MIDDLE + 17.0)),
    )  # fmt: skip


def at_an_elbow() -> Items:
    """Return a flow bellows, an elbow that turns down, and a balancing bellows with a blind head tied back."""
    away = 18.5
    down = (plate((90.0 - PIPE, MIDDLE + PIPE - 0.2), (90.0 + PIPE, BELOW - 6.0), WHITE),)
    inner = (plate((90.0 - PIPE + 0.2, MIDDLE + PIPE - 0.5), (90.0 + PIPE - 0.2, MIDDLE + PIPE + 0.5), WHITE, None),)
    lugs = tuple(
        plate((x - 1.2, MIDDLE + side * PIPE), (x + 1.2, MIDDLE + side * (away + 3.0)), STEEL)
        for x in (32.0,)
        for side in (-1, 1)
    )
    ties = tuple(part for side in (-1, 1) for part in _tie(32.0, 138.0, MIDDLE + side * away))
    return (
        *ties[:3], *ties[3:], *down, *pipe(LEFT, 40.0), *bellows(40.0, 68.0, 5), *pipe(68.0, 108.0), *inner,
        *bellows(108.0, 136.0, 5), about(136.8, 139.2, away + 3.0, STEEL), *lugs, *axis(LEFT - 4.0, 146.0),
        *label("flow bellows", (54.0, ABOVE), (54.0, MIDDLE - CREST + 1.0)),
        *label("tie", (90.0, ABOVE), (90.0, MIDDLE - away)),
        *label("balancing bellows", (122.0, ABOVE - 4.5), (122.0, MIDDLE - CREST + 1.0)),
        *label("blind head", (152.0, ABOVE), (138.0, MIDDLE - 12.0)),
        *label("elbow of the line", (134.0, BELOW), (94.0, MIDDLE + 16.0)),
        *label("lug ring", (32.0, BELOW), (32.0, MIDDLE + 16.0)),
    )  # fmt: skip


def hose_loop() -> Items:
    """Return two elbows with a U of braided hose hanging between them."""
    bore, top, radius = 5.0, 30.0, 24.0
    legs, deep = (90.0 - radius, 90.0 + radius), 46.0
    parts: list[Item] = []
    parts.append(_bent(_arch(90.0, deep, radius), bore, BELLOWS))
    parts += [plate((x - bore, top + 10.0), (x + bore, deep), BELLOWS) for x in legs]
    parts += _braid(legs, (top + 10.0, deep), bore)
    parts += _braid_of_bend(90.0, deep, radius, bore)
    parts += [plate((x - bore - 1.0, top + 7.0), (x + bore + 1.0, top + 11.0), STEEL) for x in legs]
    for x, side in zip(legs, (-1, 1), strict=True):
        end = LEFT if side < 0 else RIGHT
        parts.append(plate((min(end, x), top - 8.0 - bore), (max(end, x), top - 8.0 + bore), WHITE))
        parts.append(plate((x - bore, top - 8.0 - bore), (x + bore, top + 7.0), WHITE))
        parts.append(plate((x - bore + 0.2, top - 12.0), (x + bore - 0.2, top - 3.2), WHITE, None))
        parts.append(plate((x + side * bore - 0.5, top - 12.7), (x + side * bore + 0.5, top - 3.3), WHITE, None))
    return (
        *parts,
        *label("elbow", (40.0, ABOVE - 3.0), (64.0, top - 8.0)),
        *label("end of the hose", (120.0, ABOVE - 3.0), (111.0, top + 9.0)),
        *label("hose in its braid, which carries the thrust", (134.0, BELOW), (111.0, 60.0)),
        *label("bend, free to move", (46.0, BELOW), (75.0, 64.0)),
    )


def _arch(x: float, y: float, radius: float) -> tuple[Point, ...]:
    angles = (math.pi * n / 24 for n in range(25))
    return tuple((x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles)


def _bent(arch: tuple[Point, ...], half: float, fill: str) -> Polyline:
    (x, y), (x_end, _) = arch[0], arch[-1]
    middle, radius = (x + x_end) / 2.0, (x - x_end) / 2.0
    outer, inner = _arch(middle, y, radius + half), _arch(middle, y, radius - half)
    return Polyline(points=(*outer, *reversed(inner)), stroke=LINE, closed=True, fill=fill)


def _braid(legs: tuple[float, float], span: tuple[float, float], half: float) -> list[Item]:
    top, deep = span
    steps = range(round((deep - top) / 2.5))
    return [
        stroke((x - side * half, top + 2.5 * n), (x + side * half, min(top + 2.5 * n + 5.0, deep)), FINE)
        for x in legs
        for n in steps
        for side in (-1, 1)
        if top + 2.5 * n + 5.0 <= deep + 0.1
    ]


def _braid_of_bend(x: float, y: float, radius: float, half: float) -> list[Item]:
    outer, inner = _arch(x, y, radius + half), _arch(x, y, radius - half)
    crossed = [(outer[n], inner[n + 2]) for n in range(23)] + [(inner[n], outer[n + 2]) for n in range(23)]
    return [stroke(a, b, FINE) for a, b in crossed]
