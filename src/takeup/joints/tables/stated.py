"""What a table states: numbers in our units and words, by column.     (joints/tables/stated.py)

A column in another unit is converted here, once; what is no number, no column or no word is noted. Numbers typed in our
units stay as they were typed, so that a stored table gives the same arrays as the one it was made from.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache, partial

import numpy as np
from numpy.typing import NDArray

from takeup.joints.tables.cells import Cells, Place
from takeup.joints.tables.columns import BY_NAME, COLUMNS, IGNORED, WORDS
from takeup.joints.tables.derating import OURS
from takeup.joints.tables.headings import Heading, heading
from takeup.joints.tables.kinds_of_table import TABLE_KINDS
from takeup.joints.tables.measures import in_ours
from takeup.joints.tables.table import Floats
from takeup.library import pipe_sizes
from takeup.reading.faultlist import FaultList
from takeup.reading.numbers import all_numbers, is_number, looks_a_number, why_no_number
from takeup.reading.sheet import quoted

_FORMULA = re.compile(r"[=@]|[+-](?![0-9.])")
_HINTS = {"'": "; write the number without a mark", "%": "; write a share of one"}
_FRACTION = re.compile(r"(?:([0-9]{1,2})[ -])?([0-9]{1,2})/([0-9]{1,2})")


@dataclass(frozen=True, kw_only=True, slots=True)
class Stated:
    """n rows.

    Args:
        rows: n.
        numbers: by name of the column without its unit, in our unit, (n,); NaN where nothing sound is said.
        words: by name of the column, n of them; "" where nothing is said.
        derating_in: suffix of the unit of the temperatures in the words of its derating.
        note: takes a fault: row, column, message.
        note_rows: takes faults of rows: rows, column, and the message of a row.
        says: whether a cell says anything, sound or not, by row and column.
        typed: a cell as it was typed, with the name of its column.
        line: the line of a row.
    """

    rows: int
    numbers: Mapping[str, Floats]
    words: Mapping[str, tuple[str, ...]]
    derating_in: str
    note: Callable[[int, str, str], None]
    note_rows: Callable[[NDArray[np.intp], str, Callable[[int], str]], None]
    says: Callable[[int, str], bool]
    typed: Callable[[int, str], str]
    line: Callable[[int], int]

    def number(self, name: str) -> Floats:
        """Return a column of numbers, NaN throughout where the table has none."""
        found = self.numbers.get(name)
        return np.full(self.rows, np.nan) if found is None else found

    def silent(self, name: str) -> NDArray[np.bool_]:
        """Return which rows say nothing in a column, (n,)."""
        return np.array([not self.says(row, name) for row in range(self.rows)], dtype=bool)

    def said(self, name: str) -> tuple[str, ...]:
        """Return a column of words, "" throughout where the table has none."""
        return self.words.get(name) or ("",) * self.rows


def stated_of(cells: Cells, faults: FaultList) -> Stated:
    """Return what a table states; names of columns and cells that say nothing sound are noted."""
    found = _columns(cells, faults)

    def place(row: int, column: str) -> Place:
        return cells.place(row, found[column][0] if column in found else 0)

    def called(column: str) -> str:
        return cells.header[found[column][0]] if column in found else column

    def note(row: int, column: str, message: str) -> None:
        where = place(row, column)
        faults.add(*where, f"{cells.called(where)}{called(column)}: {message}")

    def note_rows(rows: NDArray[np.intp], column: str, message: Callable[[int], str]) -> None:
        faults.add_rows(
            rows.tolist(),
            lambda row: place(row, column),
            lambda row: f"{cells.called(place(row, column))}{called(column)}: {message(row)}",
        )

    def typed(row: int, column: str) -> str:
        return quoted(cells.columns[found[column][0]][row])

    words = {one.name: cells.columns[found[one.name][0]] for one in WORDS if one.name in found}
    for name, said in words.items():
        formulas = [row for row, word in enumerate(said) if _FORMULA.match(word)]
        note_rows(np.array(formulas, dtype=np.intp), name, partial(_formula_in, said))
    return Stated(
        rows=cells.rows,
        numbers={
            name: numbers_of(cells.columns[number], one, note_rows)
            for name, (number, one) in found.items()
            if name in BY_NAME
        },
        words=words,
        derating_in=found["derating"][1].suffix if "derating" in found else OURS,
        note=note,
        note_rows=note_rows,
        says=lambda row, column: column in found and cells.columns[found[column][0]][row] != "",
        typed=typed,
        line=lambda row: place(row, "name")[0],
    )


def _columns(cells: Cells, faults: FaultList) -> dict[str, tuple[int, Heading]]:
    """Return where each column stands and in which unit; note those that are unknown, twice there, or missing."""
    found: dict[str, tuple[int, Heading]] = {}
    unsound = False
    for number, written in enumerate(cells.header):
        where = cells.header_place(number)
        one = heading(written)
        if isinstance(one, str):
            faults.add(*where, f"{cells.called(where)}{one}")
            unsound = True
        elif one.name in found:
            first = cells.header[found[one.name][0]]
            again = "stands here a second time" if first == written else f"says the same as {quoted(first)}"
            faults.add(*where, f"{cells.called(where)}the column {quoted(written)} {again}; keep one")
        else:
            found[one.name] = (number, one)
    meanings = {one.ours: one.meaning for one in COLUMNS if one.needed == TABLE_KINDS}
    meanings |= {one.name: one.meaning for one in WORDS if one.needed == TABLE_KINDS}
    names = {one.ours: one.name for one in COLUMNS}
    missing = [name for name in meanings if names.get(name, name) not in found and not _spared(cells, found, name)]
    if missing and not cells.columns:
        unsound = True
    for name in missing:
        hint = "" if not unsound else ", unless a column that was not understood is meant"
        message = f"the column '{name}' is required: {meanings[name]}{hint}"
        faults.add(*cells.head, f"{cells.called(cells.head)}{message}")
    return {name: one for name, one in found.items() if name not in IGNORED}


def _spared(cells: Cells, found: Mapping[str, tuple[int, Heading]], column: str) -> bool:
    """Whether every row is of a kind that has no such column, by its name with our unit."""
    spared = next((one.spared for one in COLUMNS if one.ours == column), ())
    if not spared or "kind" not in found or not cells.columns:
        return False
    kinds = cells.columns[found["kind"][0]]
    return bool(kinds) and all(kind in spared for kind in kinds)


def numbers_of(
    cells: tuple[str, ...],
    one: Heading,
    note_rows: Callable[[NDArray[np.intp], str, Callable[[int], str]], None],
) -> Floats:
    """Return a column of numbers in our unit, (n,), NaN where none is; what is no number is noted, empty cells are not.

    Args:
        cells: of the column.
        one: what its name means.
        note_rows: takes faults: rows, column, and the message of a row.
    """
    column = BY_NAME[one.name]
    if one.suffix == "nps":
        values = np.array([_dn(cell) for cell in cells], dtype=float)
        wrong = [row for row in np.flatnonzero(np.isnan(values)).tolist() if cells[row]]
        note_rows(np.array(wrong, dtype=np.intp), one.name, lambda row: _no_size(cells[row]))
        return values
    whole = all_numbers(tuple(cell or "0" for cell in cells))
    filled = np.array([cell != "" for cell in cells], dtype=bool)
    if whole is not None:
        values = np.where(filled, whole, np.nan)
    else:
        values = np.array([float(cell) if is_number(cell) else np.nan for cell in cells])
        note_rows(np.flatnonzero(filled & np.isnan(values)), one.name, lambda row: _why(cells[row]))
    return values if column.measure is None else in_ours(values, column.measure, one.suffix)


def _why(cell: str) -> str:
    """Return what is wrong with a cell that is no number."""
    if cell.startswith(("=", "@")) or (cell[0] in "+-" and re.search(r"[A-Za-z(]", cell) and not looks_a_number(cell)):
        return _formula(cell)
    if cell.lstrip("-–—").strip() == "" or cell.casefold() in ("n/a", "na", "none", "nan"):
        return f"found {quoted(cell)}, expected a number; leave the cell empty where there is none"
    return why_no_number(cell, more=_HINTS)


def _formula_in(cells: tuple[str, ...], row: int) -> str:
    return _formula(cells[row])


def why_formula(cell: str) -> str:
    """Return what is wrong with a word that a spreadsheet would take for a formula, else nothing."""
    return _formula(cell) if _FORMULA.match(cell) else ""


def _formula(cell: str) -> str:
    return f"{quoted(cell)} is what a spreadsheet takes for a formula; write the value itself"


@cache
def _sizes() -> dict[float, float]:
    """Return the DN of each NPS."""
    return {one.nps_inch: float(one.dn.removeprefix("DN ")) for one in pipe_sizes() if one.dn.startswith("DN ")}


def _dn(cell: str) -> float:
    """Return the DN of an NPS, such as 2.5 or `2 1/2`; NaN where there is none."""
    word = cell.removeprefix("NPS").strip().rstrip('"').strip()
    fraction = _FRACTION.fullmatch(word)
    if fraction is not None and int(fraction[3]):
        inches = float(fraction[1] or 0) + int(fraction[2]) / int(fraction[3])
    elif is_number(word):
        inches = float(word)
    else:
        return np.nan
    return _sizes().get(inches, np.nan)


def _no_size(cell: str) -> str:
    return f"{quoted(cell)} is no NPS of ASME B36.10M; expected inches such as 2.5 or 2 1/2, or a column size_dn"


__all__ = ["Stated", "numbers_of", "stated_of", "why_formula"]
