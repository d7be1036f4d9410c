"""A maker's sheet of certified values, all its faults at once.     (choose/comparison/sheet.py)

A row a take-up, by its name in the line file, with any of the columns of a table of joints in any of their units; or a
workbook of data sheets whose boxes are filled in, a row each (forms.py). The order: bytes -> cells (joints/tables) ->
columns -> rows against the take-ups of the study (here) -> what a joint cannot be once the values are put in
(contradictions.py).
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from takeup.choose.comparison.forms import form_cells
from takeup.choose.comparison.quantities import AGREED, BY_QUANTITY, PASSED_OVER, QUANTITIES, Quantity
from takeup.choose.comparison.targets import Target
from takeup.joints.tables.cells import Cells, csv_cells
from takeup.joints.tables.headings import Heading, heading
from takeup.joints.tables.measures import in_si
from takeup.joints.tables.stated import numbers_of, why_formula
from takeup.joints.tables.workbook import is_workbook, workbook_cells, workbook_pages
from takeup.line.reading.read_doubles import HALVES
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import listed, nearest
from takeup.reading.numbers import outside
from takeup.reading.sheet import Form, quoted
from takeup.reading.yaml_places import unsound

Floats = NDArray[np.float64]
Note = Callable[[int, str, str], None]

TAKEUP, CERTIFICATE, MADE_FROM, KIND, SIZE = "takeup", "certificate", "made_from", "kind", "size"
_WORDS = (TAKEUP, CERTIFICATE, MADE_FROM, KIND)
FORM = Form(
    what="a sheet of certified values",
    header="takeup,axial_rate_n_per_mm,effective_area_mm2",
    row='"J1",180,14200',
    least=1,
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Certified:
    """A row: what is certified of one take-up.

    Args:
        target: the take-up.
        certificate: number or words; "" where not said.
        made_from: what a data sheet says of the line file that it was made from; "" where nothing.
        values: in SI, by the name of the quantity; of a double as its file states them.
        note: takes a fault: name of a column without its unit, message.
    """

    target: Target
    certificate: str
    made_from: str
    values: Mapping[str, float]
    note: Callable[[str, str], None]


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """A sheet as read.

    Args:
        file: its name without folders.
        sha256: of its bytes.
        rows: in its order.
        passed_over: columns for which a line file has no counterpart, as written.
        faults: found so far; more may follow.
    """

    file: str
    sha256: str
    rows: tuple[Certified, ...]
    passed_over: tuple[str, ...]
    faults: FaultList


def read_sheet(content: bytes, file: str, targets: Mapping[str, Target]) -> Sheet:
    """Read what a sheet certifies; its faults are noted, not raised, for what follows from it is judged as well.

    Args:
        content: of a CSV file or a workbook (.xlsx).
        file: as the user named it; faults begin with it.
        targets: the take-ups of the study by name.

    Raises:
        InputError: It cannot be read as a table at all.
    """
    faults = FaultList(file)
    tables = [
        _Table(cells=cells, found=_columns(cells, faults), faults=faults) for cells in _cells(content, file, faults)
    ]
    first: dict[str, str] = {}
    return Sheet(
        file=Path(file).name,
        sha256=hashlib.sha256(content).hexdigest(),
        rows=tuple(row for table in tables if TAKEUP in table.found for row in _rows(table, targets, first)),
        passed_over=tuple(
            table.cells.header[at] for table in tables for name, (at, _) in table.found.items() if name in PASSED_OVER
        ),
        faults=faults,
    )


def _cells(content: bytes, file: str, faults: FaultList) -> tuple[Cells, ...]:
    """Return the tables of a file: one, or of a workbook of data sheets one for each that is filled in."""
    if not is_workbook(content, file):
        return (csv_cells(content, file, faults, FORM),)
    forms = form_cells(workbook_pages(content, file), file, faults)
    return (workbook_cells(content, file, faults, FORM, (TAKEUP,)),) if forms is None else forms


def _columns(cells: Cells, faults: FaultList) -> dict[str, tuple[int, Heading]]:
    """Return where each column stands and in which unit; note those that are unknown, twice there, or missing."""
    found: dict[str, tuple[int, Heading]] = {}
    for number, written in enumerate(cells.header):
        where = cells.header_place(number)
        one = Heading(written, "") if written in _WORDS else _meant(written)
        if isinstance(one, str):
            faults.add(*where, f"{cells.called(where)}{one}")
        elif one.name in found:
            first = cells.header[found[one.name][0]]
            again = "stands here a second time" if first == written else f"says the same as {quoted(first)}"
            faults.add(*where, f"{cells.called(where)}the column {quoted(written)} {again}; keep one")
        else:
            found[one.name] = (number, one)
    begin = f"{cells.called(cells.head)}"
    if TAKEUP not in found:
        faults.add(*cells.head, f"{begin}the column 'takeup' is required: names of take-ups, as in the line file")
    if not any(name in BY_QUANTITY for name in found):
        names = ", ".join(one.column.ours for one in QUANTITIES[:5])
        faults.add(*cells.head, f"{begin}no column can be compared; certified values are such as {names}")
    return found


def _meant(written: str) -> Heading | str:
    one = heading(written)
    if isinstance(one, str) and written:
        hint = nearest(written, _WORDS)
        return f"{one}{hint}" if hint and "did you mean" not in one else one
    return one


@dataclass(frozen=True, kw_only=True, slots=True)
class _Table:
    """The cells by column without its unit, and where faults go."""

    cells: Cells
    found: Mapping[str, tuple[int, Heading]]
    faults: FaultList

    def word(self, row: int, column: str) -> str:
        """Return a cell as typed; "" where there is no such column."""
        return self.cells.columns[self.found[column][0]][row] if column in self.found else ""

    def note(self, row: int, column: str, message: str) -> None:
        """Note a fault at a cell, at the name of the take-up where there is no such column."""
        number = self.found[column if column in self.found else TAKEUP][0]
        where = self.cells.place(row, number)
        self.faults.add(*where, f"{self.cells.called(where)}{self.cells.header[number]}: {message}")

    def numbers(self) -> dict[str, Floats]:
        """Return every column of numbers that is compared, and the size, in our units, NaN where nothing is said."""
        return {
            name: _numbers(self.cells.columns[at], one, self.note)
            for name, (at, one) in self.found.items()
            if name in (*BY_QUANTITY, SIZE)
        }


def _rows(table: _Table, targets: Mapping[str, Target], first: dict[str, str]) -> tuple[Certified, ...]:
    """Return the rows that certify a take-up of the study, each once; `first` tells where each was met."""
    numbers = table.numbers()
    rows = []
    for row in range(table.cells.rows):
        target = _target(table.word(row, TAKEUP), targets, partial(table.note, row))
        if target is None:
            continue
        before, here = first.get(target.name), table.cells.place(row, 0)
        if before is not None:
            table.note(row, TAKEUP, f"{quoted(target.name)} stands in {before} already; one row certifies a take-up")
            continue
        first[target.name] = table.cells.called(here).removesuffix(": ") or f"row {here[0]}"
        if not any(table.word(row, name) for name in numbers if name != SIZE):
            table.note(row, TAKEUP, "the row certifies nothing; give a value or leave the row out")
        said = {name: float(values[row]) for name, values in numbers.items() if not math.isnan(values[row])}
        _check_words(row, table)
        _check_agreed(target, table.word(row, KIND), said.pop(SIZE, None), partial(table.note, row))
        rows.append(
            Certified(
                target=target,
                certificate=table.word(row, CERTIFICATE),
                made_from=table.word(row, MADE_FROM),
                values={name: _si(BY_QUANTITY[name], value) for name, value in said.items()},
                note=partial(table.note, row),
            )
        )
    return tuple(rows)


def _numbers(cells: tuple[str, ...], one: Heading, note: Note) -> Floats:
    """Return a column in our unit, NaN where it says nothing sound; what is outside its limits is noted."""
    column = BY_QUANTITY[one.name].column if one.name in BY_QUANTITY else None

    def note_rows(rows: NDArray[np.intp], name: str, message: Callable[[int], str]) -> None:
        for row in rows.tolist():
            note(row, name, message(row))

    values = numbers_of(cells, one, note_rows)
    if column is None:
        return values
    wrong = outside(values, column)
    note_rows(np.flatnonzero(wrong), one.name, lambda row: f"{quoted(cells[row])}: {column.broken(float(values[row]))}")
    return np.where(wrong, np.nan, values)


def _si(one: Quantity, value: float) -> float:
    measure = one.column.measure
    return value if measure is None else float(in_si(np.array([value]), measure)[0])


def _target(name: str, targets: Mapping[str, Target], note: Callable[[str, str], None]) -> Target | None:
    """Return the take-up of a name, else note why there is none."""
    if not name:
        note(TAKEUP, "the cell is empty; each row names a take-up of the line file")
    elif name in targets:
        return targets[name]
    elif (half := _whole_of(name, targets)) is not None:
        note(
            TAKEUP,
            f"{quoted(name)} is half of a double; name the double, {quoted(half)}, and give the data of each half",
        )
    else:
        hint = nearest(name, tuple(targets)) or f"; {listed(tuple(targets))}"
        note(TAKEUP, f"the line file has no take-up {quoted(name)}{hint}")
    return None


def _whole_of(name: str, targets: Mapping[str, Target]) -> str | None:
    ends = tuple(f", {half}" for half in HALVES)
    return next((name.removesuffix(end) for end in ends if name.removesuffix(end) in targets), None)


def _check_words(row: int, table: _Table) -> None:
    for column in (CERTIFICATE, KIND):
        word = table.word(row, column)
        why = why_formula(word) or unsound(word)
        if why:
            table.note(row, column, why)


def _check_agreed(target: Target, kind: str, size: float | None, note: Callable[[str, str], None]) -> None:
    """Note a kind or a size that is not that of the line file."""
    assert set(AGREED) == {KIND, SIZE}, "both are looked at here"
    if kind and kind != target.kind.name:
        note(KIND, f"found {quoted(kind)}; in the line file {target.name} is {quoted(target.kind.name)}")
    if size is not None and size != target.size_dn:
        pipe = "of no DN" if target.size_dn is None else f"DN {target.size_dn:g}"
        note(SIZE, f"DN {size:g} is certified; in the line file {target.name} stands in pipe {pipe}")


__all__ = ["FORM", "Certified", "Sheet", "read_sheet"]
