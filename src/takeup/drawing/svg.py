"""The sheet as SVG, with real text.     (drawing/svg.py)

One unit is one millimetre. Numbers are written to a micrometre, so that the same sheet gives the same bytes.
"""

from __future__ import annotations

import math
from xml.etree import ElementTree as ET

from takeup.drawing.dimension import expanded, led
from takeup.drawing.sheet import Arc, Circle, Dimension, Ordinate, Polyline, Sheet, Sign, Stroke, Text, View
from takeup.edge import TIE

Drawn = Polyline | Arc | Circle | Text | Dimension | Ordinate
_INK = {"black": "#000000", "grey": "#555555", "pale": "#aaaaaa"}
_TYPEFACE = "Inter, 'Helvetica Neue', Arial, sans-serif"


def to_svg(sheet: Sheet, *, owner: str = "") -> str:
    """Return the sheet as an SVG document, with its title and description for those who cannot see it.

    Args:
        sheet: What is drawn.
        owner: Name of the line whose signs are all that it shows: each then says whose sign it is, as `data-id`, the
            line's name, a slash and its own. "" for a sheet on paper, of which nobody asks.
    """
    root = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "width": f"{sheet.width:g}mm",
            "height": f"{sheet.height:g}mm",
            "viewBox": f"0 0 {sheet.width:g} {sheet.height:g}",
            "role": "img",
            "font-family": _TYPEFACE,
            "stroke-linejoin": "round",
        },
    )
    ET.SubElement(root, "title").text = _printable(sheet.title)
    ET.SubElement(root, "desc").text = _printable(sheet.description)
    paper = {"width": f"{sheet.width:g}", "height": f"{sheet.height:g}", "fill": "#ffffff"}
    ET.SubElement(root, "rect", paper)
    for view in sheet.views:
        _write_view(root, view, owner)
    ET.indent(root, space=" ")
    return ET.tostring(root, encoding="unicode") + "\n"


def _write_view(root: ET.Element, view: View, owner: str) -> None:
    group = ET.SubElement(root, "g")
    scale = "" if view.scale is None else f", 1 : {view.scale}"
    ET.SubElement(group, "title").text = _printable(view.title + scale)
    for item in view.items:
        if isinstance(item, Sign):
            _write_sign(group, item, owner)
        else:
            _write(group, item)


def _write(group: ET.Element, item: Drawn) -> None:
    """Write one thing of the sheet but a sign."""
    if isinstance(item, Polyline):
        name = "polygon" if item.closed else "polyline"
        points = " ".join(f"{_n(x)},{_n(y)}" for x, y in item.points)
        ET.SubElement(group, name, {"points": points, **_pen(item.stroke), "fill": item.fill or "none"})
    elif isinstance(item, Arc):
        ET.SubElement(group, "path", {"d": _arc(item), **_pen(item.stroke), "fill": "none"})
    elif isinstance(item, Circle):
        place = {"cx": _n(item.centre[0]), "cy": _n(item.centre[1]), "r": _n(item.radius)}
        ET.SubElement(group, "circle", {**place, **_pen(item.stroke), "fill": item.fill or "none"})
    elif isinstance(item, Text):
        _write_text(group, item)
    elif isinstance(item, Ordinate):
        for part in led(item):
            _write(group, part)
    else:
        _write_dimension(group, item)


def _write_sign(group: ET.Element, sign: Sign, owner: str) -> None:
    """Write a sign as a group of its own: its classes are its sort and its kind, its title the name of the thing."""
    inner = ET.SubElement(group, "g", {"class": f"{sign.sort} {sign.kind.replace(' ', '-')}"})
    if owner:
        inner.set("data-id", _printable(f"{owner}/{sign.name}"))
    ET.SubElement(inner, "title").text = _printable(sign.name)
    for item in sign.items:
        _write(inner, item)


def _write_dimension(group: ET.Element, dimension: Dimension) -> None:
    strokes, text = expanded(dimension)
    for stroke in strokes:
        _write(group, stroke)
    _write_text(group, text)


def _write_text(group: ET.Element, text: Text) -> None:
    x, y = _n(text.at[0]), _n(text.at[1])
    look = {"x": x, "y": y, "font-size": _n(text.size), "fill": _INK[text.ink]}
    if text.anchor != "start":
        look["text-anchor"] = text.anchor
    if text.bold:
        look["font-weight"] = "600"
    if text.rotation:
        look["transform"] = f"rotate({_n(text.rotation)} {x} {y})"
    ET.SubElement(group, "text", look).text = _printable(text.words)


def _pen(stroke: Stroke | None) -> dict[str, str]:
    if stroke is None:
        return {}
    pen = {"stroke": _INK[stroke.ink], "stroke-width": _n(stroke.width)}
    if stroke.dash:
        pen["stroke-dasharray"] = " ".join(_n(length) for length in stroke.dash)
    return pen


def _arc(arc: Arc) -> str:
    """Return the path of a true arc: SVG's own elliptical arc with two equal radii."""
    ends = [
        (arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle))
        for angle in (arc.start, arc.start + arc.sweep)
    ]
    large, way = int(abs(arc.sweep) > math.pi), int(arc.sweep > 0.0)
    (x, y), (x_end, y_end) = ends
    radius = _n(arc.radius)
    return f"M{_n(x)},{_n(y)}A{radius},{radius} 0 {large} {way} {_n(x_end)},{_n(y_end)}"


def _n(value: float) -> str:
    """Return a number to a micrometre, without noughts at its end or a minus before nought."""
    words = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words


def _printable(words: str) -> str:
    """Return words without the control characters that XML cannot hold; each becomes the sign for "unreadable".

    A drawing breaks no words over lines: the tie inside a number is a plain space here.
    """
    return "".join(letter if letter.isprintable() else "\ufffd" for letter in words.replace(TIE, " "))
