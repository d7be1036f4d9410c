"""Dimensions of a sheet as DIMENSION entities with their picture.     (drawing/dxf/dimensions.py)

The format keeps what was measured beside a block that shows it. The block is drawn here, from the same strokes and
words as on the sheet: nothing depends on which typefaces a machine has. The words are those of the results; what is
measured is the true length in millimetres, and a test compares both.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from takeup.drawing.dimension import expanded, led
from takeup.drawing.dxf.canvas import Canvas
from takeup.drawing.dxf.mapping import Mapping
from takeup.drawing.dxf.tables import BOLD, DIMENSIONS, INKS, TEXT, dimstyle_of, width_of
from takeup.drawing.dxf.words import override_of, text_of
from takeup.drawing.lettering import CAPITALS
from takeup.drawing.sheet import Dimension, Ordinate, Point, Polyline, Text

if TYPE_CHECKING:
    from ezdxf.layouts.blocklayout import BlockLayout

_ALIGNED, _ORDINATE = 1, 6
_OWN_BLOCK, _OF_X, _PLACED = 32, 64, 128  # bits of the kind: a block of its own, along x, words placed by hand
_BELOW_WORDS, _BESIDE_WORDS = 8, 6  # where words are attached: middle of their foot, middle of their right end
_DIGITS = 6


def add_dimension(canvas: Canvas, item: Dimension) -> None:
    """Draw the distance between two places, its line beside them."""
    mapping = canvas.mapping
    strokes, text = expanded(item)
    start, end = mapping.point(item.start), mapping.point(item.end)
    line = strokes[0].points
    at = _beside(item, line)
    entity = {
        "dimtype": _ALIGNED | _OWN_BLOCK | _PLACED,
        "defpoint": mapping.point(at),
        "defpoint2": start,
        "defpoint3": end,
        "text_midpoint": mapping.point(_middle(text)),
        "actual_measurement": round(math.dist(start, end), _DIGITS),
        "attachment_point": _BELOW_WORDS,
    }
    _add(canvas, (strokes, text), entity, item.size)


def add_ordinate(canvas: Canvas, item: Ordinate) -> None:
    """Draw how far a place is from the origin of its view, along x."""
    mapping = canvas.mapping
    stroke, text = led(item)
    place = mapping.point(item.points[0])
    entity = {
        "dimtype": _ORDINATE | _OWN_BLOCK | _OF_X | _PLACED,
        "defpoint": mapping.at,
        "defpoint2": place,
        "defpoint3": mapping.point(item.points[-1]),
        "text_midpoint": mapping.point(_middle(text)),
        "actual_measurement": round(place[0] - mapping.at[0], _DIGITS),
        "attachment_point": _BESIDE_WORDS,
    }
    _add(canvas, ((stroke,), text), entity, item.size)


def _beside(item: Dimension, line: tuple[Point, ...]) -> Point:
    """Return where the line of a dimension meets the extension line of its end."""
    length = math.dist(item.start, item.end)
    x, y = ((b - a) / length for a, b in zip(item.start, item.end, strict=True))
    assert line, "a dimension has a line"
    return item.end[0] - y * item.offset, item.end[1] + x * item.offset


def _middle(text: Text) -> Point:
    """Return the middle of words, half their capitals over the base line."""
    turned = math.radians(text.rotation)
    up = CAPITALS * text.size / 2.0
    return text.at[0] + up * math.sin(turned), text.at[1] - up * math.cos(turned)


def _add(canvas: Canvas, drawn: tuple[tuple[Polyline, ...], Text], entity: dict[str, object], size: float) -> None:
    """Write the entity and its picture."""
    (strokes, text), doc, mapping = drawn, canvas.doc, canvas.mapping
    block = doc.blocks.new_anonymous_block(type_char="D")
    for stroke in strokes:
        _add_line(block, mapping, stroke)
    _add_words(block, mapping, text)
    canvas.layout.new_entity(
        "DIMENSION",
        {
            **entity,
            "layer": DIMENSIONS,
            "color": INKS["black"],
            "geometry": block.name,
            "dimstyle": dimstyle_of(doc, mapping.scale, size),
            "text": override_of(text.words),
        },
    )


def _add_line(block: BlockLayout, mapping: Mapping, line: Polyline) -> None:
    assert line.stroke is not None, "a dimension is drawn of strokes"
    look = {"layer": DIMENSIONS, "color": INKS[line.stroke.ink], "lineweight": width_of(line.stroke)}
    block.add_lwpolyline([mapping.point(point) for point in line.points], dxfattribs=look)


def _add_words(block: BlockLayout, mapping: Mapping, text: Text) -> None:
    at = mapping.point(text.at)
    look = {
        "layer": DIMENSIONS,
        "style": BOLD if text.bold else TEXT,
        "height": mapping.length(CAPITALS * text.size),
        "rotation": round(-text.rotation, 6),
        "insert": at,
        "align_point": at,
        "halign": 1 if text.anchor == "middle" else 2,
    }
    block.add_text(text_of(text.words), dxfattribs=look)
