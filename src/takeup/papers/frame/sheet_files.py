"""Sheets as files, and as they are printed.     (papers/frame/sheet_files.py)

A drawing holds the letters that the file has; in a PDF a letter that the typeface lacks stands by its code.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from takeup.drawing import to_svg
from takeup.drawing.dxf import Origin, to_dxf
from takeup.drawing.reading import Results
from takeup.drawing.sheet import Sheet
from takeup.papers.common.glyphs import printable_tree
from takeup.papers.frame.head import Head, head_of


@dataclass(frozen=True, kw_only=True, slots=True)
class Printed:
    """What a PDF is made from: the results and their head in letters that can be printed, and the sheets of them."""

    results: Results
    head: Head
    sheets: Sequence[Sheet]


def printed_of(
    results: Results, head: Head, sheets: Sequence[Sheet], draw: Callable[[Results, Head], Sequence[Sheet]]
) -> Printed:
    """Return what a PDF is made from; the sheets are drawn again only where a letter cannot be printed.

    Args:
        results: the results document.
        head: of it.
        sheets: drawn from it.
        draw: what draws sheets.
    """
    clean = printable_tree(results)
    assert isinstance(clean, Mapping), "the results are a record"
    if clean == results:
        return Printed(results=clean, head=head, sheets=sheets)
    printed = head_of(clean, head.units, head.language)
    return Printed(results=clean, head=printed, sheets=draw(clean, printed))


def sheet_files(stem: str, sheets: Sequence[Sheet], head: Head) -> dict[str, bytes]:
    """Return one SVG a sheet, numbered where there are several, and one DXF of all sheets, by their names.

    Args:
        stem: of the names.
        sheets: in order.
        head: of the paper.
    """
    one = len(sheets) == 1
    drawn = {
        f"{stem}.svg" if one else f"{stem}-{number}.svg": to_svg(sheet).encode()
        for number, sheet in enumerate(sheets, start=1)
    }
    return {**drawn, f"{stem}.dxf": to_dxf(sheets, Origin(day=head.day, tool=head.tool))}


__all__ = ["Printed", "printed_of", "sheet_files"]
