"""The things of a sheet as entities of a DXF document.     (drawing/dxf/shapes.py)

What is filled with white hides what is under it (WIPEOUT), so that a sign reads the same on a dark screen; other
colours are solid hatches. Words are TEXT, as high as their capitals are on the sheet.
"""

from __future__ import annotations

import math

from takeup.drawing.dxf.canvas import Canvas
from takeup.drawing.dxf.dimensions import add_dimension, add_ordinate
from takeup.drawing.dxf.tables import (
    BOLD,
    INKS,
    TEXT,
    layer_of_sign,
    layer_of_stroke,
    layer_of_words,
    linetype_of,
    width_of,
)
from takeup.drawing.dxf.words import text_of
from takeup.drawing.lettering import CAPITALS
from takeup.drawing.sheet import Arc, Circle, Dimension, Item, Ordinate, Point, Polyline, Sign, Stroke, Text

_WHITE = "#ffffff"
_ROUND = 24  # sides of a round that hides what is under it
_ATTACHED = {"start": 0, "middle": 1, "end": 2}


def add_item(canvas: Canvas, item: Item, layer: str = "") -> None:
    """Draw one thing of a view.

    Args:
        canvas: Where.
        item: The thing.
        layer: Of the sign that it is a part of; "" for the layer of its own.
    """
    if isinstance(item, Sign):
        for part in item.items:
            add_item(canvas, part, layer_of_sign(item))
    elif isinstance(item, Text):
        _add_text(canvas, item, layer or layer_of_words(canvas.view))
    elif isinstance(item, Dimension):
        add_dimension(canvas, item)
    elif isinstance(item, Ordinate):
        add_ordinate(canvas, item)
    else:
        own = layer or layer_of_stroke(canvas.view, item.stroke)
        if not isinstance(item, Arc) and item.fill is not None:
            _add_fill(canvas, item, own)
        if item.stroke is not None:
            _add_stroke(canvas, item, item.stroke, own)


def _add_stroke(canvas: Canvas, item: Polyline | Arc | Circle, stroke: Stroke, layer: str) -> None:
    """Draw the outline of a thing."""
    look = {
        "layer": layer,
        "color": INKS[stroke.ink],
        "lineweight": width_of(stroke),
        "linetype": linetype_of(canvas.doc, stroke),
        "ltscale": float(canvas.mapping.scale),
    }
    if isinstance(item, Polyline):
        points = [canvas.mapping.point(point) for point in item.points]
        canvas.layout.add_lwpolyline(points, close=item.closed, dxfattribs=look)
        return
    centre, radius = canvas.mapping.point(item.centre), canvas.mapping.length(item.radius)
    if isinstance(item, Circle):
        canvas.layout.add_circle(centre, radius, dxfattribs=look)
        return
    first, last = sorted((-item.start, -item.start - item.sweep))  # y is turned over: so are angles
    canvas.layout.add_arc(centre, radius, round(math.degrees(first), 9), round(math.degrees(last), 9), dxfattribs=look)


def _add_fill(canvas: Canvas, item: Polyline | Circle, layer: str) -> None:
    """Fill a closed thing: white hides what is under it, black is the ink of the drawing."""
    points = [canvas.mapping.point(point) for point in _corners(item)]
    assert item.fill is not None, "only what is filled comes here"
    if item.fill == _WHITE:
        canvas.layout.add_wipeout(points, dxfattribs={"layer": layer})
        return
    hatch = canvas.layout.add_hatch(color=INKS["black"], dxfattribs={"layer": layer})
    if item.fill != "#000000":
        red, green, blue = (int(item.fill[at : at + 2], 16) for at in (1, 3, 5))
        hatch.rgb = (red, green, blue)
    hatch.paths.add_polyline_path(points, is_closed=True)


def _corners(item: Polyline | Circle) -> tuple[Point, ...]:
    if isinstance(item, Polyline):
        return item.points
    angles = (2.0 * math.pi * number / _ROUND for number in range(_ROUND))
    (x, y), radius = item.centre, item.radius
    return tuple((x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles)


def _add_text(canvas: Canvas, text: Text, layer: str) -> None:
    """Write words on their base line."""
    if not text.words:
        return
    at = canvas.mapping.point(text.at)
    look = {
        "layer": layer,
        "color": INKS[text.ink],
        "style": BOLD if text.bold else TEXT,
        "height": canvas.mapping.length(CAPITALS * text.size),
        "rotation": round(-text.rotation, 6),
        "insert": at,
        "halign": _ATTACHED[text.anchor],
    }
    if text.anchor != "start":
        look["align_point"] = at
    canvas.layout.add_text(text_of(text.words), dxfattribs=look)
