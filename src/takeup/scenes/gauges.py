"""A pressure gauge and a thermometer beside each step, read like real ones; the words beside them say the same.

(scenes/gauges.py) Full scale of the gauge is the highest pressure of the strip, of the thermometer its highest
temperature.
"""

from __future__ import annotations

import math

from takeup.drawing.lettering import width_of
from takeup.drawing.sheet import Arc, Circle, Item, Point, Polyline, Stroke, Text
from takeup.scenes.figure import Zone

_RADIUS = 2.6
_SIZE = 3.2
_SWEEP = math.radians(270.0)
_FIRST = math.radians(135.0)  # of the dial, at the lower left
_LINE = Stroke(width=0.25)
_NEEDLE = Stroke(width=0.5)
_TALL = 4.4
_COLDEST = 0.0  # degC: the foot of the thermometer's column


def reading_items(zone: Zone, right: Point, full: Zone) -> list[Item]:
    """Return gauge, thermometer and the words beside them, ending at a place on the right.

    Args:
        zone: what is read.
        right: where they end, on the base line of the words.
        full: what the full scales are.
    """
    pressure, temperature = zone.words.split(", ")
    x = right[0] - width_of(temperature, _SIZE)
    items: list[Item] = [Text(at=(x, right[1]), words=temperature, size=_SIZE)]
    x -= 3.2
    items += _thermometer((x, right[1] + 0.9), zone.temperature / max(full.temperature, 1.0))
    x -= 4.6 + width_of(pressure, _SIZE)
    items.append(Text(at=(x, right[1]), words=pressure, size=_SIZE))
    share = zone.pressure / full.pressure if full.pressure > 0.0 else 0.0
    return [*items, *_gauge((x - _RADIUS - 1.4, right[1] - 1.1), share)]


def _gauge(at: Point, share: float) -> list[Item]:
    angle = _FIRST + _SWEEP * min(max(share, 0.0), 1.0)
    tip = (at[0] + 0.75 * _RADIUS * math.cos(angle), at[1] + 0.75 * _RADIUS * math.sin(angle))
    return [
        Circle(centre=at, radius=_RADIUS, stroke=_LINE, fill="#ffffff"),
        Arc(centre=at, radius=0.78 * _RADIUS, start=_FIRST, sweep=_SWEEP, stroke=Stroke(width=0.15, ink="grey")),
        Polyline(points=(at, tip), stroke=_NEEDLE),
        Circle(centre=at, radius=0.45, stroke=None, fill="#000000"),
    ]


def _thermometer(foot: Point, share: float) -> list[Item]:
    """Return a thermometer on its foot; its column is full at a share of one."""
    x, y = foot[0], foot[1] - 1.0
    level = y - _TALL * min(max(share, _COLDEST), 1.0)
    tube = ((x - 0.55, y), (x - 0.55, y - _TALL - 0.4), (x + 0.55, y - _TALL - 0.4), (x + 0.55, y))
    return [
        Polyline(points=tube, stroke=_LINE, fill="#ffffff"),
        Polyline(points=((x, y), (x, level)), stroke=Stroke(width=0.7)),
        Circle(centre=(x, y), radius=1.0, stroke=_LINE, fill="#000000"),
    ]
