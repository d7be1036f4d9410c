"""Where a view is drawn in a DXF document.     (drawing/dxf/canvas.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeup.drawing.dxf.mapping import Mapping
from takeup.drawing.sheet import View

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.base import BaseLayout


@dataclass(frozen=True, kw_only=True, slots=True)
class Canvas:
    """The document, its model space or a layout of it, the view, and how the view lies there."""

    doc: Drawing
    layout: BaseLayout
    view: View
    mapping: Mapping
