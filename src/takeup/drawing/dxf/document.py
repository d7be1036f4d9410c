"""Sheets as a DXF document.     (drawing/dxf/document.py)

Model space holds every view to scale, one to one in millimetres; each sheet is a layout with its frame, its words and
a window on each of its views. The first view lies at its own coordinates, others below it (`mapping.py`).
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeup.drawing.dxf.canvas import Canvas
from takeup.drawing.dxf.fixed import without_clock
from takeup.drawing.dxf.mapping import Placed, paper_mapping, placed_views
from takeup.drawing.dxf.shapes import add_item
from takeup.drawing.dxf.tables import TEXT, VIEWPORTS, set_tables
from takeup.drawing.sheet import Sheet

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Paperspace

_VERSION = "R2010"
_MILLIMETRES, _METRIC = 4, 1
_MAKER = "takeup"


@dataclass(frozen=True, kw_only=True, slots=True)
class Origin:
    """Where a document comes from: its date ("" for none) and the name of the tool with its version."""

    day: str
    tool: str = _MAKER


def to_dxf(sheets: Sequence[Sheet], origin: Origin) -> bytes:
    """Return sheets as one DXF document, the same bytes for the same sheets.

    Args:
        sheets: In their order; each becomes a layout, "sheet 1" and so on.
        origin: Its date and its tool.
    """
    from ezdxf.filemanagement import new

    doc = new(_VERSION, setup=False, units=_MILLIMETRES)
    doc.header["$MEASUREMENT"] = _METRIC
    doc.header["$TEXTSTYLE"] = TEXT
    doc.header["$PSLTSCALE"] = 0
    set_tables(doc)
    doc.objects.set_wipeout_variables(frame=0)
    doc.rootdict.get_required_dict("AcDbVariableDictionary").set_or_add_dict_var("WIPEOUTFRAME", "0")
    rows = placed_views(sheets)
    for row in rows:
        for placed in row:
            for item in placed.view.items:
                add_item(Canvas(doc=doc, layout=doc.modelspace(), view=placed.view, mapping=placed.mapping), item)
    for number, (sheet, row) in enumerate(zip(sheets, rows, strict=True), start=1):
        _add_layout(doc, sheet, row, f"sheet {number}")
    doc.layouts.delete("Layout1")
    doc.layouts.set_active_layout("sheet 1")
    _set_limits(doc, rows)
    for name in sorted(doc.entitydb.dxf_types_in_use()):
        doc.classes.add_class(name)  # the library itself goes through them in the order of a set, which is by chance
    stream = io.StringIO()
    doc.write(stream)
    return without_clock(stream.getvalue(), day=origin.day, maker=origin.tool).encode("utf-8", errors="replace")


def _add_layout(doc: Drawing, sheet: Sheet, row: tuple[Placed, ...], name: str) -> None:
    """Write one sheet as a layout."""
    layout = doc.layouts.new(name)
    layout.page_setup(size=(sheet.width, sheet.height), margins=(0, 0, 0, 0), units="mm")
    for placed in row:
        _add_window(layout, sheet, placed)
    mapping = paper_mapping(sheet)
    for view in sheet.views:
        if view.scale is None:
            for item in view.items:
                add_item(Canvas(doc=doc, layout=layout, view=view, mapping=mapping), item)


def _add_window(layout: Paperspace, sheet: Sheet, placed: Placed) -> None:
    """Write a window on a view, at its scale."""
    left, top, right, bottom = placed.window
    middle = ((left + right) / 2.0, (top + bottom) / 2.0)
    on_paper = paper_mapping(sheet).point(middle)
    layout.add_viewport(
        center=on_paper,
        size=(right - left, bottom - top),
        view_center_point=placed.mapping.point(middle),
        view_height=placed.mapping.length(bottom - top),
        dxfattribs={"layer": VIEWPORTS},
    )


def _set_limits(doc: Drawing, rows: tuple[tuple[Placed, ...], ...]) -> None:
    """Let model space open on all that it holds."""
    corners = [
        placed.mapping.point((placed.window[side], placed.window[side + 1]))
        for row in rows
        for placed in row
        for side in (0, 2)
    ]
    if not corners:
        return
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = (min(xs), min(ys), 0.0), (max(xs), max(ys), 0.0)
    doc.set_modelspace_vport(height=max(ys) - min(ys), center=((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0))
