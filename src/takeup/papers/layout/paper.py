"""The layout drawing among the papers: sheets to issue, as SVG, DXF and PDF.     (papers/layout/paper.py)

SVG and DXF hold the letters that the file has. The PDF is archived with its typeface, so in it a letter that the
typeface lacks stands by its code; its sheets are set anew then, because codes are wider than letters.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from takeup.drawing.reading import Results
from takeup.drawing.sheet import Sheet
from takeup.drawing.sheets import About, layout_drawing
from takeup.drawing.svg import to_svg
from takeup.papers.frame import Head, compile_pdf, head_of
from takeup.papers.frame.sheet_files import printed_of, sheet_files
from takeup.papers.frame.tree import page_tree
from takeup.papers.registry import Options

TEMPLATE = Path(__file__).parent / "layout.typ"


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return every file of the drawing by its name: one SVG a sheet, one DXF and one PDF of all sheets.

    Args:
        results: The results document.
        options: Units and language.
    """
    head = head_of(results, options.units, options.language)
    sheets = sheets_of(results, head)
    printed = printed_of(results, head, sheets, sheets_of)
    return {**sheet_files("layout", sheets, head), "layout.pdf": layout_pdf(printed.sheets, printed.head)}


def sheets_of(results: Results, head: Head) -> tuple[Sheet, ...]:
    """Return the sheets in the language and units of a head."""
    about = About(
        project=head.project,
        number=head.number,
        revision=head.revision,
        day=head.day,
        tool=head.tool,
        sha256=head.sha256,
        demonstration=head.demonstration,
        cautions=head.cautions,
    )
    return layout_drawing(results, about, head.texts, head.units)


def layout_pdf(sheets: Sequence[Sheet], head: Head) -> bytes:
    """Return all sheets as one PDF, a page each, with what it shows in words for those who cannot see it.

    Args:
        sheets: Of the drawing, in letters that the typeface has.
        head: Of the paper.
    """
    title = head.texts("layout.paper_title", lines=head.lines)
    pages = [
        {
            "svg": to_svg(sheet),
            "alt": f"{sheet.title}. {sheet.description}",
            "width": sheet.width,
            "height": sheet.height,
        }
        for sheet in sheets
    ]
    tree = {"frame": page_tree(title, head.project, head.running, head.language), "sheets": pages}
    return compile_pdf(TEMPLATE, tree, head.date)


__all__ = ["layout_pdf", "make", "sheets_of"]
