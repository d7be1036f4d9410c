"""A template and its data as a PDF that is tagged and fit for archives.     (papers/frame/pdf.py)

PDF/UA-1 and PDF/A-2a, warnings are faults of our own, the typeface is the one that is shipped, and the same data give
the same bytes. Templates import the shared frame as `#import "/frame/frame.typ": *`.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path

from takeup.papers.common.glyphs import FONTS, printable_tree

ROOT = Path(__file__).parents[1]
"""The room of papers: what a template may import lies in it."""
UNDATED = date(1980, 1, 1)
"""What the data of a file bear, where a format demands a day and the document has none; no paper prints it."""


def compile_pdf(template: Path, data: Mapping[str, object], day: date | None) -> bytes:
    """Return the bytes of a PDF.

    Args:
        template: the typst file, within the room of papers; it reads `data` with `json(bytes(sys.inputs.data))`.
        data: all that is printed, finished; letters that the typeface lacks are printed by their codes.
        day: the document's date, None where it has none.
    """
    import typst

    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
    made, warnings = typst.compile_with_warnings(
        template,
        root=ROOT,
        font_paths=fonts,
        ignore_system_fonts=True,
        format="pdf",
        sys_inputs={"data": json.dumps(printable_tree(data), ensure_ascii=False)},
        pdf_standards=["ua-1", "a-2a"],
        timestamp=datetime.combine(day or UNDATED, datetime.min.time(), tzinfo=UTC),
    )
    assert not warnings, "; ".join(str(warning) for warning in warnings)
    assert isinstance(made, bytes), "one PDF is one row of bytes"
    return made


__all__ = ["ROOT", "UNDATED", "compile_pdf"]
