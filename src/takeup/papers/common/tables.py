"""Tables as the template sets them: columns with heads and units, rows of finished words.     (papers/common/tables.py)

Everything that is printed is a finished text by here; the template decides only how it looks. A cell may have a second,
smaller line under it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from takeup.papers.common.glyphs import breakable

Align = Literal["left", "right"]
Cell = str | tuple[str, str]
Tree = dict[str, object]
_ROWS = 18  # a table of so many rows with so many letters takes less than half a page
_LETTERS = 1500


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """A column: its head, its unit, its side, and its width as the template reads it ("auto", "1fr", "24mm")."""

    head: str
    unit: str = ""
    align: Align = "left"
    width: str = "auto"


def words_column(head: str, width: str = "auto") -> Column:
    """Return a column of words."""
    return Column(head=head, width=width)


def number_column(head: str, unit: str = "", width: str = "auto") -> Column:
    """Return a column of numbers, flush right."""
    return Column(head=head, unit=unit, align="right", width=width)


def table(
    columns: Sequence[Column],
    rows: Sequence[Sequence[Cell]],
    caption: str,
    *,
    strong: Sequence[int] = (),
    notes: Sequence[str] = (),
) -> Tree:
    """Return a table for the template.

    Args:
        columns: Its columns.
        rows: Its cells; a pair is a text and a smaller one under it.
        caption: What it shows, also for those who cannot see it.
        strong: The numbers of rows that are set bold.
        notes: One for each row, set under it across all columns but the first; empty for a table without.
    """
    assert len(notes) in {0, len(rows)}, "every row has a note, or none has"
    assert all(len(row) == len(columns) for row in rows), "every row fills every column"
    return {
        "columns": [
            {"head": item.head, "unit": item.unit, "align": item.align, "width": item.width} for item in columns
        ],
        "rows": [
            {"cells": [_cell(cell) for cell in row], "strong": number in strong} for number, row in enumerate(rows)
        ],
        "caption": caption,
        "notes": [breakable(note) for note in notes],
        "together": _fits_together(rows, notes),
    }


def _fits_together(rows: Sequence[Sequence[Cell]], notes: Sequence[str]) -> bool:
    """Tell whether a table is surely shorter than half a page, and so may be kept from breaking over two."""
    letters = sum(len(part) for row in rows for cell in row for part in cell)
    return len(rows) <= _ROWS and letters <= _LETTERS and not notes


def _cell(cell: Cell) -> Tree:
    words, more = cell if isinstance(cell, tuple) else (cell, "")
    return {"words": breakable(words), "more": breakable(more)}


def facts(pairs: Sequence[tuple[str, str]]) -> Tree:
    """Return a list of what is what, for the template; empty answers are left out."""
    return {"facts": [[breakable(head), breakable(words)] for head, words in pairs if words]}


def sentences(words: Sequence[str]) -> list[str]:
    """Return sentences for the template."""
    return [breakable(sentence) for sentence in words]
