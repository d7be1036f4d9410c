"""A picture as PNG, so many dots wide, with the typeface that is shipped.     (papers/pictures/png.py)"""

from __future__ import annotations

import json
from pathlib import Path

from takeup.papers.common.glyphs import FONTS
from takeup.papers.frame.pdf import ROOT

TEMPLATE = Path(__file__).parent / "picture.typ"
WIDE = 1600
"""Dots from the left edge to the right."""
_INCH = 25.4


def png_bytes(svg: str, size: tuple[float, float]) -> bytes:
    """Return an SVG as PNG; the same picture gives the same bytes.

    Args:
        svg: in letters that the typeface has.
        size: of the sheet [mm].
    """
    import typst

    data = {"svg": svg, "width": size[0], "height": size[1]}
    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
    made, warnings = typst.compile_with_warnings(
        TEMPLATE,
        root=ROOT,
        font_paths=fonts,
        ignore_system_fonts=True,
        format="png",
        ppi=WIDE * _INCH / size[0],
        sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
    )
    assert not warnings, "; ".join(str(warning) for warning in warnings)
    assert isinstance(made, bytes), "one page is one picture"
    return made


__all__ = ["TEMPLATE", "WIDE", "png_bytes"]
