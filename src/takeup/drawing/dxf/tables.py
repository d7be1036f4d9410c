"""Layers, types of line, and styles of text and of dimensions in a DXF document.     (drawing/dxf/tables.py)

Names are plain words of our own. Every style of dimensions has `dimlfac` 1: what is measured is the true length in
millimetres. Widths of pens are those of the sheet, rounded to the widths that the format knows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeup.drawing.lettering import CAPITALS
from takeup.drawing.sheet import Ink, Sign, Stroke, View

if TYPE_CHECKING:
    from ezdxf.document import Drawing

TEXT, BOLD = "takeup", "takeup bold"
VIEWPORTS = "windows, not plotted"
WORDS, DIMENSIONS, PIPE, FINE = "words", "dimensions", "pipe", "fine lines"
FRAME, BLOCK, LEGEND = "frame", "title block", "legend"
_OF_SIGNS = {
    "hold": "holds",
    "joint": "take-ups",
    "item": "things in the line",
    "branch": "branches",
    "end": "ends",
    "legend": LEGEND,
}
_LAYERS = (PIPE, FINE, WORDS, DIMENSIONS, *_OF_SIGNS.values(), FRAME, BLOCK, "notes", "arrows")
INKS: dict[Ink, int] = {"black": 7, "grey": 8, "pale": 9}
_WIDTHS = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
_THICK = 0.5  # a stroke so wide in a view to scale is the pipe [mm]
_TICK, _GAP, _BEYOND, _BESIDE = 1.1, 0.9, 1.2, 3.4  # of a dimension on paper, as the sheet draws it [mm]


def width_of(stroke: Stroke) -> int:
    """Return the nearest width of a pen that the format knows [0.01 mm]."""
    return min(_WIDTHS, key=lambda width: abs(width - 100.0 * stroke.width))


def layer_of_stroke(view: View, stroke: Stroke | None) -> str:
    """Return the layer of a stroke or a filled shape that belongs to no sign."""
    if view.layer:
        return view.layer
    if stroke is None:
        return "arrows"
    return PIPE if stroke.width >= _THICK else FINE


def layer_of_words(view: View) -> str:
    """Return the layer of words in a view."""
    return view.layer or WORDS


def layer_of_sign(sign: Sign) -> str:
    """Return the layer of a sign."""
    return _OF_SIGNS.get(sign.sort, FINE)


def linetype_of(doc: Drawing, stroke: Stroke) -> str:
    """Return the name of a type of line, made where it is new; a full line is that of the format."""
    if not stroke.dash:
        return "Continuous"
    name = "dash " + " ".join(f"{length:g}" for length in stroke.dash)
    if name not in doc.linetypes:
        pattern = [length if number % 2 == 0 else -length for number, length in enumerate(stroke.dash)]
        doc.linetypes.add(name, [sum(stroke.dash), *pattern], description=name)
    return name


def dimstyle_of(doc: Drawing, scale: int, size: float) -> str:
    """Return the name of the style of dimensions at a scale and a size of type [mm], made where it is new."""
    name = f"takeup 1 to {scale}, {CAPITALS * size:.2f} mm"
    if name not in doc.dimstyles:
        style = doc.dimstyles.new(name)
        style.dxf.dimlfac = 1.0
        style.dxf.dimscale = float(scale)
        style.dxf.dimtxsty = TEXT
        style.dxf.dimtxt = round(CAPITALS * size, 6)
        style.dxf.dimtsz, style.dxf.dimgap, style.dxf.dimexe, style.dxf.dimexo = _TICK, _GAP, _BEYOND, _BESIDE
        style.dxf.dimtad, style.dxf.dimtih, style.dxf.dimtoh = 1, 0, 0
        style.dxf.dimdec, style.dxf.dimlunit, style.dxf.dimzin = 0, 2, 8
        style.dxf.dimlwd = style.dxf.dimlwe = 18
        style.dxf.dimtmove = 2
    return name


def set_tables(doc: Drawing) -> None:
    """Write the layers and the two styles of text."""
    for name in dict.fromkeys(_LAYERS):
        doc.layers.add(name, color=7, linetype="Continuous")
    doc.layers.add(VIEWPORTS, color=8, linetype="Continuous", plot=False)
    for name, font in ((TEXT, "arial.ttf"), (BOLD, "arialbd.ttf")):
        doc.styles.add(name, font=font)
