"""The layout drawing as sheets that can be issued, to standard scales, in any language. (drawing/sheets/__init__.py)"""

from __future__ import annotations

from takeup.drawing.sheets.about import About, Words
from takeup.drawing.sheets.issue import layout_drawing

__all__ = ["About", "Words", "layout_drawing"]
