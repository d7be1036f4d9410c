"""Cells of a record as numbers and words, in bulk; what is wrong with one, cell by cell.     (history/cells.py)

A column is converted at once. Only where that fails, or gives something that is no measured number, is each of its
cells looked at by itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import get_args

import numpy as np
from numpy.typing import NDArray

from takeup.line.states import Content
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import nearest
from takeup.reading.numbers import all_numbers, is_number, why_no_number
from takeup.reading.sheet import BLANKS, Sheet, quoted

CONTENTS: tuple[Content, ...] = get_args(Content)

_EMPTY = "the cell is empty; every row has a value in every column"
_NO_MEASUREMENT = ("nan", "inf", "infinity")
_HINTS = {":": "; a record has no dates and times of day, its times are seconds"}


def numbers_of(sheet: Sheet, column: int, faults: FaultList) -> NDArray[np.float64]:
    """Return a column as numbers, (n,); what is no number is noted and comes back as NaN."""
    cells = sheet.columns[column]
    values = all_numbers(cells)
    if values is None:
        values = np.array([float(cell.strip(BLANKS)) if is_number(cell) else math.nan for cell in cells])
        _note(sheet, column, (np.flatnonzero(np.isnan(values)).tolist(), _why_no_number), faults)
    return values


def contents_of(sheet: Sheet, column: int, faults: FaultList) -> tuple[Content | None, ...]:
    """Return a column as words for what fills a zone, (n,); what is no such word is noted and comes back as None."""
    words: dict[str, Content] = {word: word for word in CONTENTS}
    cells = sheet.columns[column]
    found = tuple(words.get(cell) or words.get(cell.strip(BLANKS)) for cell in cells)
    if None in found:
        _note(sheet, column, ([row for row, word in enumerate(found) if word is None], _why_no_content), faults)
    return found


def _note(sheet: Sheet, column: int, wrong: tuple[list[int], Callable[[str], str]], faults: FaultList) -> None:
    """Note the cells of a column that are wrong, each with why."""
    rows, why = wrong
    name, cells = sheet.header[column], sheet.columns[column]
    faults.add_rows(rows, lambda row: sheet.place(row, column), lambda row: f"{name}: {why(cells[row])}")


def _why_no_number(cell: str) -> str:
    word = cell.strip(BLANKS)
    if not word:
        return _EMPTY
    if word.lstrip("+-").lower() in _NO_MEASUREMENT:
        return f"{quoted(word)} is no measured value; leave out the rows in which there is none"
    return why_no_number(cell, more=_HINTS)


def _why_no_content(cell: str) -> str:
    word = cell.strip(BLANKS)
    if not word:
        return f"{_EMPTY}; a zone that holds nothing that weighs has the word 'none'"
    return f"{quoted(word)} is no content; expected one of: {', '.join(CONTENTS)}{nearest(word.lower(), CONTENTS)}"
