"""A table's cells by column, and where each stands; those of a CSV file.     (joints/tables/cells.py)"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from takeup.errors import Fault, InputError
from takeup.reading.faultlist import FaultList
from takeup.reading.sheet import BLANKS, Form, sheet_of

MOST_ROWS = 100_000
"""Rows of a table; a series of all makers together has fewer."""

FORM = Form(
    what="a table of joints",
    header="name,kind,size_dn,pressure_bar,temperature_c",
    row='"A-100","single axial",100,16,300',
    least=1,
)
"""What a table looks like, for the messages; it has more columns than these."""

Place = tuple[int, int]


@dataclass(frozen=True, kw_only=True, slots=True)
class Cells:
    """n rows, each with a cell of every column.

    Args:
        file: as faults name it.
        header: names of the columns, blanks stripped.
        columns: cells of each column, blanks stripped, (columns, n).
        head: line and column where the header begins.
        header_place: line and column of a name in the header.
        place: line and column of a cell, by row and column.
        called: what a fault at a place begins with: the cell of a sheet, "" in a text.
        remarks: lines before the header, each with its number, without their #.
    """

    file: str
    header: tuple[str, ...]
    columns: tuple[tuple[str, ...], ...]
    head: Place
    header_place: Callable[[int], Place]
    place: Callable[[int, int], Place]
    called: Callable[[Place], str]
    remarks: tuple[tuple[int, str], ...]

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return len(self.columns[0]) if self.columns else 0


def csv_cells(content: bytes, file: str, faults: FaultList, form: Form = FORM) -> Cells:
    """Return the cells of a comma-separated text; `form` says what it must look like.

    Raises:
        InputError: It is not text in UTF-8, has no header, is not parted by commas, or has too many lines.
    """
    lines = max(content.count(b"\n"), content.count(b"\r"))
    if lines > MOST_ROWS + MOST_ROWS // 10:  # a tenth for comments and blank lines
        raise refused(file, too_many(f"{lines} lines"))
    sheet = sheet_of(content, file, faults, form)
    if len(sheet.numbers) > MOST_ROWS:
        raise refused(file, too_many(f"{len(sheet.numbers)} rows"))
    return Cells(
        file=file,
        header=sheet.header,
        columns=tuple(tuple([cell.strip(BLANKS) for cell in column]) for column in sheet.columns),
        head=(sheet.header_line, 1),
        header_place=sheet.header_place,
        place=sheet.place,
        called=lambda _: "",
        remarks=tuple(
            (number, line.strip().lstrip("#").strip())
            for number, line in enumerate(sheet.lines[: sheet.header_line - 1], start=1)
        ),
    )


def said_above(cells: Cells, key: str) -> tuple[str, Place] | None:
    """Return what a line above the header says, such as `# whose: ...`, and where; None where nothing."""
    for number, line in cells.remarks:
        found = re.fullmatch(rf"{key}\s*:\s*(\S.*)", line)
        if found:
            return found[1].strip(), (number, 1)
    return None


def too_many(found: str) -> str:
    """Return the refusal of a table that is too long."""
    return f"the table has {found}; a series has {MOST_ROWS} rows at most: divide it by kind or size"


def refused(file: str, message: str) -> InputError:
    """Return the refusal of a whole file."""
    return InputError((Fault(file=file, line=1, column=1, message=message),))


__all__ = ["FORM", "MOST_ROWS", "Cells", "Place", "csv_cells", "refused", "said_above", "too_many"]
