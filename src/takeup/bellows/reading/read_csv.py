"""A table of bellows, comma-separated.     (bellows/reading/read_csv.py)"""

from __future__ import annotations

import math

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.reading.inputs import COLUMNS, INPUTS, WORDS, Input
from takeup.bellows.reading.table import Table
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import nearest
from takeup.reading.numbers import all_numbers, is_number, why_no_number
from takeup.reading.sheet import BLANKS, Form, Sheet, quoted, sheet_of

_REQUIRED = ("name", *(one.column for one in INPUTS if one.required))
FORM = Form(
    what="a table of bellows",
    header=",".join((*_REQUIRED, "modulus_gpa", "poisson")),
    row="B-219,219,38,30,8,2,1,195,0.3",
    least=1,
)
"""What a table of bellows looks like at least."""


def read_csv(content: bytes, file: str, faults: FaultList) -> Table:
    """Return what a table says; what is no number or no word of its column is noted.

    Raises:
        InputError: The file is not text in UTF-8, has no header, or is not parted by commas.
    """
    sheet = sheet_of(content, file, faults, FORM)
    found = _columns(sheet, faults)
    _check_named(sheet, found, faults)

    def place(row: int, column: str) -> tuple[int, int]:
        return sheet.place(row, found[column]) if column in found else (sheet.numbers[row], 1)

    def typed(row: int, column: str) -> str:
        return quoted(sheet.columns[found[column]][row])

    return Table(
        rows=len(sheet.numbers),
        numbers={one.column: _numbers(sheet, found[one.column], one, faults) for one in INPUTS if one.column in found},
        words={
            word.column: tuple(cell.strip(BLANKS) for cell in sheet.columns[found[word.column]])
            for word in WORDS
            if word.column in found
        },
        head=(sheet.header_line, 1),
        says=lambda row, column: column in found and sheet.columns[found[column]][row].strip(BLANKS) != "",
        place=place,
        row_place=lambda row: (sheet.numbers[row], 1),
        typed=typed,
        called=str,
    )


def _columns(sheet: Sheet, faults: FaultList) -> dict[str, int]:
    """Return where each column stands; note those that are unknown, twice there, or missing."""
    found: dict[str, int] = {}
    for number, name in enumerate(sheet.header):
        if name in found:
            faults.add(*sheet.header_place(number), f"the column {quoted(name)} stands here a second time; keep one")
        elif name in COLUMNS:
            found[name] = number
        elif not name:
            message = "this column has no name; leave it out, with the comma before it"
            faults.add(*sheet.header_place(number), message)
        else:
            message = f"unknown column {quoted(name)}; the columns are {', '.join(COLUMNS)}{nearest(name, COLUMNS)}"
            faults.add(*sheet.header_place(number), message)
    meanings = {"name": "its name"} | {one.column: one.meaning for one in INPUTS}
    for name in _REQUIRED:
        if name not in found:
            faults.add(sheet.header_line, 1, f"the column '{name}' is required: {meanings[name]}")
    return found


def _check_named(sheet: Sheet, found: dict[str, int], faults: FaultList) -> None:
    """Note rows without a name."""
    if "name" in found:
        number = found["name"]
        nameless = [row for row, cell in enumerate(sheet.columns[number]) if not cell.strip(BLANKS)]
        faults.add_rows(nameless, lambda row: sheet.place(row, number), lambda _: "name: the cell is empty")


def _numbers(sheet: Sheet, number: int, one: Input, faults: FaultList) -> Array:
    """Return a column of numbers, (n,); nan where a cell is empty, or no number, which is noted."""
    cells = sheet.columns[number]
    values = all_numbers(cells)
    if values is not None:
        return values
    words = [cell.strip(BLANKS) for cell in cells]
    values = np.array([float(word) if is_number(word) else math.nan for word in words])
    wrong = [int(row) for row in np.flatnonzero(np.isnan(values)) if words[row] or one.required]
    faults.add_rows(
        wrong,
        lambda row: sheet.place(row, number),
        lambda row: (
            f"{one.column}: {why_no_number(words[row]) if words[row] else f'the cell is empty; expected {one.meaning}'}"
        ),
    )
    return values
