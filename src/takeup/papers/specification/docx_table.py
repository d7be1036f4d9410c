"""A table of a DOCX file, built element by element.     (papers/specification/docx_table.py)

The library's own tables look up a cell by counting all of them: a specification with twenty tables took five seconds.
Order of the elements: ISO/IEC 29500-1, 17.4, which readers insist on. Every text goes in as text.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeup.drawing.lettering import width_of
from takeup.papers.specification.blocks import Blank, Cell, Grid
from takeup.papers.specification.docx_parts import element
from takeup.papers.specification.plain_text import plain_text

if TYPE_CHECKING:
    from docx.oxml.xmlchemy import BaseOxmlElement

WIDTH = 9638  # of the words on a page: 170 mm in twentieths of a point
_HALF_POINTS = "17"  # size of type in a table
_MARGINS = 220.0  # of a cell, left and right together [1/20 pt]
_TWIPS = 20.0  # twentieths in a point
_BOX, _HEAD = "F2F2F2", "E2E2E2"  # grounds of a box to fill in and of a table's head


def table_element(block: Grid) -> BaseOxmlElement:
    """Return a table: fixed widths, no row broken over two pages, its head on every page, and what it shows."""
    table = element("w:tbl")
    table.append(_properties(block))
    widths = column_widths(block)
    columns = element("w:tblGrid")
    for width in widths:
        columns.append(element("w:gridCol", {"w:w": str(width)}))
    table.append(columns)
    if block.heads:
        table.append(_row(block.heads, widths, block.numbers, head=True))
    for row in block.rows:
        table.append(_row(row, widths, block.numbers, head=False))
    return table


def column_widths(block: Grid) -> list[int]:
    """Return the widths of columns [1/20 pt]: as their shares, but none is narrower than its longest word.

    What those need more the others give, each of what it has over its own longest word; where all together need more
    than the page has the shares stay, and words are broken.
    """
    widths = [WIDTH * share / sum(block.shares) for share in block.shares]
    heads = [(block.heads, True)] if block.heads else []
    rows = [*heads, *((row, False) for row in block.rows)]
    needed = [0.0] * len(widths)
    for cells, strong in rows:
        needed = [max(least, _longest(cell, strong=strong)) for least, cell in zip(needed, cells, strict=True)]
    short = sum(max(0.0, need - width) for need, width in zip(needed, widths, strict=True))
    spare = sum(max(0.0, width - need) for need, width in zip(needed, widths, strict=True))
    if short > spare:
        return [round(width) for width in widths]
    return [
        round(need if need > width else width - short * (width - need) / spare)
        for need, width in zip(needed, widths, strict=True)
    ]


def _longest(cell: Cell, *, strong: bool) -> float:
    """Return the width that the longest word of a cell needs, with the margins of the cell [1/20 pt]."""
    words = plain_text(cell.words if isinstance(cell, Blank) else cell)
    longest = max((width_of(word, 1.0, bold=strong) for word in words.split(" ")), default=0.0)
    return _MARGINS + _TWIPS * float(_HALF_POINTS) / 2.0 * longest


def _properties(block: Grid) -> BaseOxmlElement:
    properties = element("w:tblPr")
    properties.append(element("w:tblStyle", {"w:val": "TableGrid"}))
    properties.append(element("w:tblW", {"w:w": str(WIDTH), "w:type": "dxa"}))
    properties.append(element("w:tblLayout", {"w:type": "fixed"}))
    properties.append(element("w:tblCaption", {"w:val": plain_text(block.caption)}))
    return properties


def _row(cells: tuple[Cell, ...], widths: list[int], numbers: frozenset[int], *, head: bool) -> BaseOxmlElement:
    row, properties = element("w:tr"), element("w:trPr")
    properties.append(element("w:cantSplit"))
    if head:
        properties.append(element("w:tblHeader"))
    row.append(properties)
    for number, (cell, width) in enumerate(zip(cells, widths, strict=True)):
        row.append(_cell(cell, width, right=number in numbers, head=head))
    return row


def _cell(cell: Cell, width: int, *, right: bool, head: bool) -> BaseOxmlElement:
    made, properties = element("w:tc"), element("w:tcPr")
    properties.append(element("w:tcW", {"w:w": str(width), "w:type": "dxa"}))
    blank = isinstance(cell, Blank)
    if head or blank:
        ground = _HEAD if head else _BOX
        properties.append(element("w:shd", {"w:val": "clear", "w:color": "auto", "w:fill": ground}))
    made.append(properties)
    paragraph, shape = element("w:p"), element("w:pPr")
    shape.append(element("w:spacing", {"w:before": "20", "w:after": "20"}))
    if right and not blank:
        shape.append(element("w:jc", {"w:val": "right"}))
    paragraph.append(shape)
    paragraph.append(_run(plain_text(cell.words if isinstance(cell, Blank) else cell), strong=head, leaning=blank))
    made.append(paragraph)
    return made


def _run(words: str, *, strong: bool, leaning: bool) -> BaseOxmlElement:
    run, properties = element("w:r"), element("w:rPr")
    for tag, wanted in (("w:b", strong), ("w:i", leaning)):
        if wanted:
            properties.append(element(tag))
    properties.append(element("w:sz", {"w:val": _HALF_POINTS}))
    properties.append(element("w:szCs", {"w:val": _HALF_POINTS}))
    run.append(properties)
    text = element("w:t", {"xml:space": "preserve"})
    text.text = words
    run.append(text)
    return run


__all__ = ["WIDTH", "column_widths", "table_element"]
