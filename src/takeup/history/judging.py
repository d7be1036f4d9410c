"""Whether the numbers of a record can be: times, vacuum, tables of material, media.     (history/judging.py)

Each rule looks at a whole column at once, and at single rows only where some row breaks it. A value that is no
number has been noted already; it is NaN here, and breaks no rule a second time.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.errors import OutOfRange
from takeup.history.cells import CONTENTS
from takeup.library import Curve
from takeup.line import SAME_STATION, Line, Study, Zone, content_density
from takeup.line.states import Content
from takeup.reading.faultlist import FaultList
from takeup.reading.sheet import Sheet
from takeup.units import PA_PER_BAR, STANDARD_ATMOSPHERE

Floats = NDArray[np.float64]
Contents = tuple[Content | None, ...]

VACUUM_BAR = -STANDARD_ATMOSPHERE / PA_PER_BAR
"""Gauge pressure of a perfect vacuum below the standard atmosphere [bar]: -1.01325."""


@dataclass(frozen=True, kw_only=True, slots=True)
class ZoneColumns:
    """One zone's values: pressure [bar], temperature [degC], content; `place` is the column of a fault in them."""

    zone: Zone
    place: int
    pressure: Floats
    temperature: Floats
    content: Contents | None


def check_times(sheet: Sheet, column: int, times: Floats, faults: FaultList) -> None:
    """Note every row whose time is not after that of the row before."""
    rows = np.flatnonzero(np.isfinite(times))
    late = np.flatnonzero(np.diff(times[rows]) <= 0.0) + 1
    before = dict(zip(rows[late].tolist(), rows[late - 1].tolist(), strict=True))

    def message(row: int) -> str:
        return (
            f"{sheet.header[column]}: {times[row]:.15g} s is not after {times[before[row]]:.15g} s "
            f"in line {sheet.numbers[before[row]]}; times rise from row to row"
        )

    faults.add_rows(list(before), lambda row: sheet.place(row, column), message)


def check_vacuum(sheet: Sheet, column: int, pressures: Floats, faults: FaultList) -> None:
    """Note every pressure below that of a perfect vacuum."""

    def message(row: int) -> str:
        return (
            f"{sheet.header[column]}: {pressures[row]:.15g} bar is below a perfect vacuum, {VACUUM_BAR:g} bar; "
            "pressures are gauge, above the standard atmosphere"
        )

    rows = np.flatnonzero(pressures < VACUUM_BAR).tolist()
    faults.add_rows(rows, lambda row: sheet.place(row, column), message)


def check_tables(sheet: Sheet, column: int, temperatures: Floats, curves: tuple[Curve, ...], faults: FaultList) -> None:
    """Note every temperature at which a table of a material that has it has no row on one side."""
    low = max((curve.temperatures[0] for curve in curves), default=-np.inf)
    high = min((curve.temperatures[-1] for curve in curves), default=np.inf)

    def message(row: int) -> str:
        return f"{sheet.header[column]}: {_why_no_row(float(temperatures[row]), curves)}"

    rows = np.flatnonzero((temperatures < low) | (temperatures > high)).tolist()
    faults.add_rows(rows, lambda row: sheet.place(row, column), message)


def check_media(sheet: Sheet, study: Study, here: ZoneColumns, faults: FaultList) -> None:
    """Note every row in which the content of a zone has no density: ice, oil that nobody described, gas under test.

    The range of each content is a box of pressure and temperature. The rows at which either is least or greatest
    therefore answer for every other.
    """
    line = study.line(here.zone.parts[0].line)
    sound = np.isfinite(here.pressure) & np.isfinite(here.temperature) & (here.pressure >= VACUUM_BAR)
    for content in CONTENTS:
        if here.content is None:
            rows = np.flatnonzero(sound) if content == line.medium else np.empty(0, dtype=np.intp)
        else:
            holds = np.fromiter((word == content for word in here.content), dtype=np.bool_, count=len(here.content))
            rows = np.flatnonzero(sound & holds)
        if rows.size and any(_why_no_density(line, content, here, row) for row in _extremes(here, rows)):
            _note_media(sheet, line, content, (here, rows), faults)


def curves_of(study: Study, zone: Zone) -> tuple[Curve, ...]:
    """Return the tables of expansion and modulus of every material in a zone."""
    found: dict[str, tuple[Curve, Curve]] = {}
    for part in zone.parts:
        for section in study.line(part.line).sections:
            if section.start < part.end - SAME_STATION and section.end > part.start + SAME_STATION:
                material = section.pipe.material
                found[f"{material.name}, {section.pipe.expansion_table}"] = (material.expansion, material.modulus)
    return tuple(curve for pair in found.values() for curve in pair)


def _why_no_row(temperature: float, curves: tuple[Curve, ...]) -> str:
    """Return the refusal of the first table that has no row for a temperature, or nothing."""
    for curve in curves:
        try:
            curve.at(temperature)
        except OutOfRange as reason:
            return str(reason)
    return ""


def _extremes(here: ZoneColumns, rows: NDArray[np.intp]) -> set[int]:
    """Return the rows, of those given, at which pressure or temperature is least or greatest."""
    pressure, temperature = here.pressure[rows], here.temperature[rows]
    ends = (pressure.argmin(), pressure.argmax(), temperature.argmin(), temperature.argmax())
    return {int(rows[end]) for end in ends}


def _why_no_density(line: Line, content: Content, here: ZoneColumns, row: int) -> str:
    if content == "thermal oil" and line.medium_density is None:
        return f"the medium of line {line.name} is {line.medium}: no density of thermal oil is stated there"
    typed = None if line.medium_density is None else line.medium_density.value
    try:
        content_density(content, float(here.pressure[row]) * PA_PER_BAR, float(here.temperature[row]), typed=typed)
    except OutOfRange as reason:
        return str(reason)
    return ""


def _note_media(
    sheet: Sheet, line: Line, content: Content, held: tuple[ZoneColumns, NDArray[np.intp]], faults: FaultList
) -> None:
    here, rows = held
    name, unsaid = sheet.header[here.place], here.content is None
    said = f"; no column says what fills line {line.name}, so {content} does" if unsaid else ""

    def message(row: int) -> str:
        return f"{name}: {_why_no_density(line, content, here, row)}{said}"

    wrong = [int(row) for row in rows if _why_no_density(line, content, here, int(row))]
    faults.add_rows(wrong, lambda row: sheet.place(row, here.place), message)
