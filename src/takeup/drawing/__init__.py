"""Drawings to scale from the results alone: one sheet model, and writers for it.     (drawing/__init__.py)"""

from __future__ import annotations

from takeup.drawing.layout import layout_sheet, layout_sheets
from takeup.drawing.sheet import Sheet
from takeup.drawing.svg import to_svg

__all__ = ["Sheet", "layout_sheet", "layout_sheets", "to_svg"]
