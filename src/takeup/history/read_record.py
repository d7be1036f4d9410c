"""Reading a plant's record: all its faults at once, or a `Record`.     (history/read_record.py)

The order: bytes -> cells with places (sheet) -> which column is whose (columns) -> numbers and words (cells) -> whether
they can be (judging). Pressures are gauge. A column that several zones share is read and judged once.
The form of the file: docs/reference/record.md.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from takeup.history.cells import contents_of, numbers_of
from takeup.history.columns import PRESSURE, TEMPERATURE, TIME, Columns, find_columns
from takeup.history.judging import (
    Contents,
    Floats,
    ZoneColumns,
    check_media,
    check_tables,
    check_times,
    check_vacuum,
    curves_of,
)
from takeup.line import Study, zones_of
from takeup.line.record import LEAST_ROWS, Record
from takeup.reading.faultlist import FaultList
from takeup.reading.sheet import Form, Sheet, read_bytes, sheet_of
from takeup.units import PA_PER_BAR

FORM = Form(
    what="a record",
    header=f"{TIME},{PRESSURE},{TEMPERATURE}",
    row="60,10.2,184.5",
    least=LEAST_ROWS,
)
"""What a record looks like at least."""


def read_record(path: Path, study: Study) -> Record:
    """Read the record of a plant for the zones of a study.

    Args:
        path: of the file.
        study: whose zones the columns name, whose materials and media bound what can be read.

    Raises:
        InputError: The file cannot be read, is no record, or has faults; it carries the first of them, and how many
            more there are.
    """
    return record_from_bytes(read_bytes(path), str(path), study)


def record_from_bytes(content: bytes, file: str, study: Study) -> Record:
    """Read what a file of a record holds; `file` is the name that faults begin with.

    Raises:
        InputError: It is no record, or has faults.
    """
    faults = FaultList(file)
    sheet = sheet_of(content, file, faults, FORM)
    zones = zones_of(study).every
    columns = find_columns(sheet, tuple(zone.name for zone in zones), faults)
    numbers = {
        column: numbers_of(sheet, column, faults)
        for column in sorted({column for column in _numeric(columns) if column is not None})
    }
    words = {
        column: contents_of(sheet, column, faults)
        for column in sorted({column for column in columns.content if column is not None})
    }
    if sheet.numbers:
        _check(sheet, study, (columns, numbers, words), faults)
    faults.raise_faults()
    return _record(sheet, columns, numbers, words)


def _numeric(columns: Columns) -> tuple[int | None, ...]:
    return (columns.time, *columns.pressure, *columns.temperature)


def _check(
    sheet: Sheet,
    study: Study,
    read: tuple[Columns, dict[int, Floats], dict[int, Contents]],
    faults: FaultList,
) -> None:
    """Note what cannot be: a shared column once, with the tables of every zone that takes it."""
    columns, numbers, words = read
    zones = zones_of(study).every
    if columns.time is not None:
        check_times(sheet, columns.time, numbers[columns.time], faults)
    for column in sorted({column for column in columns.pressure if column is not None}):
        check_vacuum(sheet, column, numbers[column], faults)
    for column in sorted({column for column in columns.temperature if column is not None}):
        takers = [zone for zone, taken in zip(zones, columns.temperature, strict=True) if taken == column]
        curves = tuple(dict.fromkeys(curve for zone in takers for curve in curves_of(study, zone)))
        check_tables(sheet, column, numbers[column], curves, faults)
    judged = set()
    for zone, p, t, c in zip(zones, columns.pressure, columns.temperature, columns.content, strict=True):
        held = (p, t, c, study.line(zone.parts[0].line).medium)
        if p is not None and t is not None and held not in judged:
            judged.add(held)
            here = ZoneColumns(
                zone=zone,
                place=t if c is None else c,
                pressure=numbers[p],
                temperature=numbers[t],
                content=None if c is None else words[c],
            )
            check_media(sheet, study, here, faults)


def _record(sheet: Sheet, columns: Columns, numbers: dict[int, Floats], words: dict[int, Contents]) -> Record:
    """Return the record of a file in which no fault was found."""
    assert columns.time is not None, "a fault was noted"
    unsaid: Contents = (None,) * len(sheet.numbers)
    said = [unsaid if column is None else words[column] for column in columns.content]
    return Record(
        file=Path(sheet.file).name,
        sha256=sheet.sha256,
        times=numbers[columns.time],
        pressures=_table(columns.pressure, numbers) * PA_PER_BAR,
        temperatures=_table(columns.temperature, numbers),
        contents=tuple(zip(*said, strict=True)),
    )


def _table(columns: tuple[int | None, ...], numbers: dict[int, Floats]) -> Floats:
    return np.column_stack([numbers[column] for column in columns if column is not None])
