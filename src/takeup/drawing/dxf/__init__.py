"""Sheets as one DXF document: true lengths in model space, each sheet a layout.     (drawing/dxf/__init__.py)"""

from __future__ import annotations

from takeup.drawing.dxf.document import Origin, to_dxf

__all__ = ["Origin", "to_dxf"]
