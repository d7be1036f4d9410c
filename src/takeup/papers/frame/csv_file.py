"""The rows of a grid as CSV, for other programs.     (papers/frame/csv_file.py)

RFC 4180: comma, CRLF, quotes where they are needed; UTF-8 without a mark at its beginning; decimal points in every
language. Column names are English, their unit at the end. Every row ends with what it comes from (project, document,
revision, date, tool, hash of the input) and whether data are invented, because rows are copied without their file.
A text that a spreadsheet would take for a formula (it begins with = + - @, a tabulator or a line end, after any
blanks) gets an apostrophe before it. Numbers are never touched.
"""

from __future__ import annotations

import csv
import io

from takeup.papers.frame.grid import Cell, Grid, value_of
from takeup.papers.frame.head import Head

GUARD = "'"
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
_ORIGIN = ("project", "document", "revision", "date", "tool", "input_sha256", "demonstration_data")


def csv_bytes(head: Head, grid: Grid) -> bytes:
    """Return a grid as the bytes of a CSV file.

    Args:
        head: of the paper, for the last columns.
        grid: its columns have keys, and none is one of those of the origin.
    """
    keys = [field.column_key for field in grid.fields]
    assert len({*keys, *_ORIGIN}) == len(keys) + len(_ORIGIN), "every column has a name of its own"
    origin = _origin(head)
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([*keys, *_ORIGIN])
    writer.writerows([*map(_written, row), *origin] for row in grid.rows)
    return stream.getvalue().encode("utf-8")


def guarded(words: str) -> str:
    """Return a text with an apostrophe before it, where a spreadsheet would take it for a formula."""
    return GUARD + words if words.startswith(_FORMULA) or words.lstrip().startswith(_FORMULA) else words


def _written(cell: Cell) -> str | float:
    value = value_of(cell)
    if value is None:
        return ""
    return guarded(value) if isinstance(value, str) else value


def _origin(head: Head) -> list[str]:
    marked = "yes" if head.demonstration else "no"
    texts = (head.project, head.number, head.revision, head.day, head.tool, head.sha256, marked)
    return [guarded(words) for words in texts]


__all__ = ["GUARD", "csv_bytes", "guarded"]
