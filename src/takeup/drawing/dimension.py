"""A dimension as strokes and words: extension lines, line, ticks, the length above it.     (drawing/dimension.py)"""

from __future__ import annotations

import math

from takeup.drawing.lettering import CAPITALS, UPWARDS, width_of
from takeup.drawing.sheet import Dimension, Ordinate, Point, Polyline, Stroke, Text

_LINE = Stroke(width=0.25)
_THIN = Stroke(width=0.18, ink="grey")
_TICK = 1.1
_BEYOND = 1.2
_SAME = 1e-6
_BETWEEN = 1.4  # words stand so far from the ticks on either side [mm]
_HANG = 1.2  # words hang so far under the end of their leader [mm]
_FREE = 3.4  # the extension line starts clear of the signs on the pipe


def expanded(dimension: Dimension) -> tuple[tuple[Polyline, ...], Text]:
    """Return the strokes of a dimension, and its words set to be read from below or from the right."""
    along, aside = _directions(dimension)
    reach = math.copysign(_BEYOND, dimension.offset)
    free = math.copysign(min(_FREE, abs(dimension.offset) / 2.0), dimension.offset)
    ends = [_moved(point, aside, dimension.offset) for point in (dimension.start, dimension.end)]
    length = math.dist(dimension.start, dimension.end)
    far = dimension.shift + math.copysign(width_of(dimension.words, dimension.size) / 2.0, dimension.shift)
    low, high = min(0.0, length / 2.0 + far), max(length, length / 2.0 + far)
    if abs(dimension.shift) < _SAME:
        low, high = 0.0, length
    strokes = [Polyline(points=(_moved(ends[0], along, low), _moved(ends[0], along, high)), stroke=_LINE)]
    for point, end in zip((dimension.start, dimension.end), ends, strict=True):
        strokes.append(Polyline(points=(_moved(point, aside, free), _moved(end, aside, reach)), stroke=_THIN))
        slant = (along[0] + aside[0], along[1] + aside[1])
        strokes.append(Polyline(points=(_moved(end, slant, -_TICK), _moved(end, slant, _TICK)), stroke=_LINE))
    return tuple(strokes), _words(dimension, (ends[0], ends[1]), along)


def led(ordinate: Ordinate) -> tuple[Polyline, Text]:
    """Return the way from a place to its words, and the words, read upwards and hung from its end."""
    x, y = ordinate.points[-1]
    text = Text(
        at=(x + CAPITALS * ordinate.size / 2.0, y + _HANG),
        words=ordinate.words,
        size=ordinate.size,
        anchor="end",
        rotation=UPWARDS,
        bold=ordinate.bold,
    )
    return Polyline(points=ordinate.points, stroke=_THIN), text


def shifts(words: str, size: float, length: float) -> tuple[float, ...]:
    """Return where along a dimension of some length its words may stand: in the middle, or outside where they are long.

    Args:
        words: Of the dimension.
        size: Of the type [mm].
        length: On paper [mm].
    """
    wide = width_of(words, size)
    if wide + 2.0 * _BETWEEN <= length:
        return (0.0,)
    out = length / 2.0 + _BETWEEN + wide / 2.0
    return (out, -out)


def _directions(dimension: Dimension) -> tuple[Point, Point]:
    length = math.dist(dimension.start, dimension.end)
    x, y = ((b - a) / length for a, b in zip(dimension.start, dimension.end, strict=True))
    return (x, y), (-y, x)


def _moved(point: Point, way: Point, length: float) -> Point:
    return point[0] + way[0] * length, point[1] + way[1] * length


def _words(dimension: Dimension, ends: tuple[Point, Point], along: Point) -> Text:
    """Return the words above the middle of the line, never upside down."""
    middle = ((ends[0][0] + ends[1][0]) / 2.0, (ends[0][1] + ends[1][1]) / 2.0)
    degrees = math.degrees(math.atan2(along[1], along[0]))
    degrees = round((degrees + 90.0) % 180.0 - 90.0, 6)  # from -90, read upwards, to just below 90
    turned = math.radians(degrees)
    above = (math.sin(turned), -math.cos(turned))
    at = _moved(_moved(middle, along, dimension.shift), above, 0.9)
    return Text(at=at, words=dimension.words, size=dimension.size, anchor="middle", rotation=degrees)


def words_box(text: Text) -> tuple[float, float, float, float]:
    """Return the level box round words set at any angle [mm]."""
    width = width_of(text.words, text.size, bold=text.bold)
    before = {"start": 0.0, "middle": width / 2.0, "end": width}[text.anchor]
    top, below = CAPITALS * text.size, 0.22 * text.size
    turned = math.radians(text.rotation)
    cosine, sine = math.cos(turned), math.sin(turned)
    corners = [
        (text.at[0] + x * cosine - y * sine, text.at[1] + x * sine + y * cosine)
        for x in (-before, width - before)
        for y in (-top, below)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)
