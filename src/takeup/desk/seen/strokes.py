"""Strokes of what moves over a drawing, in the sheet's millimetres.     (desk/seen/strokes.py)"""

from __future__ import annotations

import math
from collections.abc import Sequence
from xml.sax.saxutils import quoteattr

import numpy as np

from takeup.desk.seen.layouts import Spot
from takeup.drawing.labels import Box, overlap
from takeup.drawing.lettering import box_of
from takeup.drawing.sheet import Point, Text
from takeup.mechanics.frame import Floats

SEEN = 0.8
"""A movement on the sheet that is told by a stroke of its own [mm]."""
_STEEP = 0.5  # tangent of the angle up to which a movement counts as along the pipe
_BESIDE, _TICK = 3.6, 0.9  # how far beside the pipe such a movement is drawn, half of the tick that it begins at [mm]
_HEAD, _BARB = 1.3, 0.7  # length of an arrow's head, and half its width [mm]
_WORDS = (-5.6, -8.6, 8.0, -11.6, 11.0)  # how far beside the pipe its number is tried, in order [mm]
_BEYOND, _LETTER = 2.4, 2.6  # how far beyond its end, and the size of the type [mm]


def points_text(at: Floats) -> str:
    """Return points as the attribute of a polyline."""
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in at.tolist())


def stroke(a: Point, b: Point, kind: str = "") -> str:
    """Return a line from a point to another; `kind` is its class, if any."""
    named = f' class="{kind}"' if kind else ""
    return f'<line{named} x1="{a[0]:.2f}" y1="{a[1]:.2f}" x2="{b[0]:.2f}" y2="{b[1]:.2f}"/>'


def off(spot: Spot, along: float, aside: float) -> Point:
    """Return a point so far along the pipe from a spot, and so far beside it [mm]."""
    (x, y), (a, b) = spot.at, spot.way
    return x + along * a - aside * b, y + along * b + aside * a


def movement(name: str, spot: Spot, shift: Point, words: str, taken: Sequence[Box] = ()) -> str:
    """Return how far the pipe that lies at a spot is drawn from there.

    Along the pipe it would lie on the pipe itself: it is an arrow beside it, from a tick where the pipe lies.

    Args:
        name: id of the hold there.
        spot: where the pipe lies.
        shift: from there, as drawn [mm].
        words: its number; "" for none.
        taken: where words stand that a number must not cover; where all is taken there is no number.
    """
    (a, b), (dx, dy) = spot.way, shift
    along, aside = dx * a + dy * b, dy * a - dx * b
    end = (spot.at[0] + dx, spot.at[1] + dy)
    if abs(aside) > _STEEP * abs(along):
        drawn = f'{stroke(spot.at, end)}<circle cx="{end[0]:.2f}" cy="{end[1]:.2f}" r="0.70"/>'
        beyond = _BEYOND / math.hypot(dx, dy)
        tried = [(end[0] + k * beyond * dx, end[1] + k * beyond * dy + _LETTER / 3.0) for k in (1.0, 2.0, 3.0)]
    else:
        drawn = stroke(off(spot, 0.0, -_BESIDE - _TICK), off(spot, 0.0, _TICK - _BESIDE)) + _arrow(spot, along)
        tried = [off(spot, along / 2.0, side) for side in _WORDS]
    told = _number(words, tried, taken) if words else ""
    return f'<g class="movement" data-id={quoteattr(name)} stroke="currentColor" fill="currentColor">{drawn}{told}</g>'


def _number(words: str, tried: Sequence[Point], taken: Sequence[Box]) -> str:
    """Return a number at the first of some points at which it covers no words."""
    for x, y in tried:
        box = box_of(Text(at=(x, y), words=words, size=_LETTER, anchor="middle", bold=True))
        if not any(overlap(box, other) for other in taken):
            return f'<text x="{x:.2f}" y="{y:.2f}" font-size="{_LETTER}" text-anchor="middle">{words}</text>'
    return ""


def _arrow(spot: Spot, along: float) -> str:
    neck = math.copysign(max(abs(along) - _HEAD, 0.0), along)
    barb = [off(spot, along, -_BESIDE), *(off(spot, neck, side - _BESIDE) for side in (-_BARB, _BARB))]
    shaft = stroke(off(spot, 0.0, -_BESIDE), off(spot, along, -_BESIDE))
    return f'{shaft}<polygon points="{points_text(np.array(barb))}"/>'


__all__ = ["SEEN", "movement", "off", "points_text", "stroke"]
