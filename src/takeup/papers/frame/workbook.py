"""Sheets of rows as a workbook that an office goes on working with.     (papers/frame/workbook.py)

A text is written as text, whatever it begins with: never as a formula, a link or a number. Numbers are numbers; a sum
under a column is a formula of ours, with what it makes beside it, so that it is read without being worked out. One
sheet is the head of the paper. The file bears the document's date and no clock is read, so that the same results give
the same bytes; sheets print on A4 across, as wide as the page or as several where one would be too small to read,
with the head of the table and its first column on every page.
"""

from __future__ import annotations

import io
import math
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from takeup.papers.frame.grid import Box, Cell, Field, Grid, Number, Sheet, Sum, facts_grid, value_of
from takeup.papers.frame.head import Head
from takeup.papers.frame.pdf import UNDATED
from takeup.papers.frame.sheet_shape import (
    SIZE,
    fit_names,
    height_of,
    lines_in,
    page_words,
    pages_across,
    widths_of,
)

if TYPE_CHECKING:  # the library is imported late
    from xlsxwriter import Workbook
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

_A4 = 9
_LONGEST = 32_767  # letters that a cell may hold
_PROPERTY = 255  # letters that a property of the file may have
_OPTIONS = {
    "in_memory": True,  # the parts of the file then bear a fixed time
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
    # A typeface that every office has, or one as wide; of no scheme, which would put another in its place.
    "default_format_properties": {"font_name": "Arial", "font_size": SIZE, "font_scheme": "none"},
}
_TITLE_LINES = 1.4  # of the title's height
_BESIDE = 110  # letters that surely stand on the first of several pages, beside the first column


def workbook_bytes(head: Head, title: str, sheets: Sequence[Sheet], *, head_first: bool = True) -> bytes:
    """Return the bytes of a workbook (XLSX).

    Args:
        head: of the paper; a sheet of its own.
        title: of the paper.
        sheets: the others, in order; names on tabs are made fit and different.
        head_first: whether the sheet of the head stands before the others, or behind them.
    """
    from xlsxwriter import Workbook

    stream = io.BytesIO()
    with Workbook(stream, _OPTIONS) as book:
        created = datetime.combine(head.date or UNDATED, datetime.min.time())
        whole = f"{title}, {head.project}"
        book.set_properties({"title": whole[:_PROPERTY], "comments": head.running[:_PROPERTY], "created": created})
        about = _about(head, title)
        every = [about, *sheets] if head_first else [*sheets, about]
        formats = _Formats(book)
        for name, sheet in zip(fit_names([sheet.name for sheet in every]), every, strict=True):
            page = book.add_worksheet(name)
            _print_set_up(page, head)
            _Pen(page=page, formats=formats).sheet(sheet, head)
    return stream.getvalue()


def _about(head: Head, title: str) -> Sheet:
    """Return the sheet of the head: facts, cautions, what is not covered, notes."""
    said = head.texts
    parts = (("cautions", head.cautions), ("not_covered", head.not_covered), ("notes", head.remarks))
    lists = tuple(
        Grid(fields=(Field(head=said(f"frame.{key}")),), rows=tuple((words,) for words in items), across=2)
        for key, items in parts
        if items
    )
    facts = facts_grid(head.facts, (said("frame.about"), ""))
    return Sheet(name=said("frame.about"), title=title, grids=(facts, *lists), notes=(said("frame.outside"),))


def _print_set_up(page: Worksheet, head: Head) -> None:
    page.set_paper(_A4)
    page.set_landscape()
    page.set_margins(left=0.5, right=0.5, top=0.8, bottom=0.7)
    page.set_header(f"&L&8{page_words(head.project)}&R&8{page_words(head.running)}")
    page.set_footer(f"&L&8{page_words(head.file)}&C&8{page_words(head.tool)}&R&8{head.texts('frame.sheet_page')}")


class _Formats:
    """The looks of the cells of one workbook, each made once and in the order in which they are first wanted."""

    def __init__(self, book: Workbook) -> None:
        self._book = book
        self._made: dict[tuple[bool, bool, bool, int | None], Format] = {}
        self.title = book.add_format({"bold": True, "font_size": 14})
        self.loud = book.add_format({"bold": True})
        self.words = book.add_format({})
        self.wrapped = book.add_format({"valign": "top", "text_wrap": True})
        self.head = book.add_format({"bold": True, "text_wrap": True, "valign": "vcenter", "bottom": 1, "top": 1})

    def of(self, cell: Cell, field: Field, *, strong: bool) -> Format:
        """Return the look of a cell; without decimals a number shows the digits that it has."""
        boxed, value = isinstance(cell, Box), value_of(cell)
        number = isinstance(value, int | float)
        own = cell.decimals if isinstance(cell, Number) else field.decimals
        decimals = None if isinstance(value, str) else own
        key = (strong, boxed, number, decimals)
        if key not in self._made:
            look: dict[str, object] = {"valign": "top", "bold": strong, "text_wrap": not number}
            if number:  # a little off the words that may stand beside it
                look |= {"align": "right", "indent": 1}
            if decimals is not None:
                look["num_format"] = "0." + "0" * decimals if decimals else "0"
            if boxed:
                look |= {"border": 1, "bg_color": "#fff8dc"}
            self._made[key] = self._book.add_format(look)
        return self._made[key]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Pen:
    """Writes on one sheet."""

    page: Worksheet
    formats: _Formats

    def sheet(self, sheet: Sheet, head: Head) -> None:
        """Write a sheet: title, what it belongs to, notes, grids one under the other."""
        widths = widths_of(sheet.grids)
        across = pages_across(widths) if len(sheet.grids) == 1 else 1
        self.printed(across)
        row = self.headed(sheet, head, across)
        for column, width in enumerate(widths):
            self.page.set_column(column, column, width)
        for grid in sheet.grids:
            first = row + 1 + bool(grid.caption)
            row = self.grid(row + 1, grid, widths, alone=len(sheet.grids) == 1)
            if sheet.filtered and len(sheet.grids) == 1:
                self.page.autofilter(first, 0, first + len(grid.rows), len(grid.fields) - 1)
                self.page.freeze_panes(first + 1, 1)  # whose row it is stays in view as well

    def headed(self, sheet: Sheet, head: Head, across: int) -> int:
        """Write the title, what the sheet belongs to and its notes, and return the row behind them.

        On a sheet that is several pages wide the first column is on each of them, and words that reach out of it would
        be cut there: they stand beside it, on the first page alone, in lines that do not reach over its edge.
        """
        column = 1 if across > 1 else 0
        belongs = " · ".join(filter(None, (head.project, head.running, head.day)))
        self.text(0, column, sheet.title, self.formats.title)
        self.page.set_row(0, height_of(1) * _TITLE_LINES)
        self.text(1, column, belongs, self.formats.words)
        notes = [words for words in (head.demonstration, *sheet.notes) if words]
        if across > 1:
            notes = [line for words in notes for line in textwrap.wrap(words, _BESIDE)]
        for row, words in enumerate(notes, start=2):
            self.text(row, column, words, self.formats.loud)
        return 2 + len(notes)

    def printed(self, across: int) -> None:
        """Set how many pages a sheet is wide; grids one under the other, with sentences between, stay on one."""
        self.page.fit_to_pages(across, 0)
        if across > 1:
            self.page.repeat_columns("A:A")

    def grid(self, row: int, grid: Grid, widths: Sequence[float], *, alone: bool) -> int:
        """Write a grid from a row on and return the row behind it."""
        if grid.caption:
            self.text(row, 0, grid.caption, self.formats.loud)
            row += 1
        heads = [f"{field.head}\n{field.unit}" if field.unit else field.head for field in grid.fields]
        for column, words in enumerate(heads):
            self.text(row, column, words, self.formats.head)
        self.high(row, heads, grid, widths, bold=True)
        if alone:
            self.page.freeze_panes(row + 1, 0)
            self.page.repeat_rows(row)
        first = row + 1
        for number, cells in enumerate(grid.rows):
            row += 1
            for column, (cell, field) in enumerate(zip(cells, grid.fields, strict=True)):
                look = self.formats.of(cell, field, strong=number in grid.strong)
                if isinstance(cell, Sum):
                    self.sum(row, column, first, cell, look)
                else:
                    self.cell(row, column, cell, look)
            self.high(row, [value_of(cell) for cell in cells], grid, widths, bold=number in grid.strong)
        for note in grid.notes:
            row += 1
            self.text(row, 0, note, self.formats.words)
        return row + 1

    def high(
        self, row: int, values: Sequence[str | float | None], grid: Grid, widths: Sequence[float], *, bold: bool
    ) -> None:
        """Make a row as high as its words need; those that reach over several columns become one cell."""
        rooms = widths if grid.across == 1 else [sum(widths[: grid.across])]
        if grid.across > 1:
            look = self.formats.head if bold else self.formats.wrapped
            self.page.merge_range(row, 0, row, grid.across - 1, "", look)
            self.text(row, 0, str(values[0]), look)
        lines = [
            lines_in(value, room, bold=bold)
            for value, room in zip(values, rooms, strict=False)
            if isinstance(value, str)
        ]
        if max(lines, default=1) > 1:
            self.page.set_row(row, height_of(max(lines)))

    def sum(self, row: int, column: int, first: int, cell: Sum, look: Format) -> None:
        """Write the sum of a column from its first row to the one over it."""
        from xlsxwriter.utility import xl_range

        assert row > first, "there is something to be summed"
        refused = self.page.write_formula(
            row, column, f"=SUM({xl_range(first, column, row - 1, column)})", look, cell.value
        )
        assert not refused, "the formula fits its cell"

    def cell(self, row: int, column: int, cell: Cell, look: Format) -> None:
        """Write what a cell holds."""
        value = value_of(cell)
        if value is None:
            self.page.write_blank(row, column, None, look)
        elif isinstance(value, str):
            self.text(row, column, value, look)
        else:
            assert math.isfinite(value), "a number without bound is written as a word"
            self.page.write_number(row, column, value, look)

    def text(self, row: int, column: int, words: str, look: Format) -> None:
        """Write a text as text, whatever it looks like; one longer than a cell may hold ends with an ellipsis."""
        short = words if len(words) <= _LONGEST else words[: _LONGEST - 1] + "…"
        refused = self.page.write_string(row, column, short, look)
        assert not refused, "the text fits its cell"


__all__ = ["workbook_bytes"]
