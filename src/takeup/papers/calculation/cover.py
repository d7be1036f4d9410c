"""What page one says of the conditions, and which rows of long tables it shows.     (papers/calculation/cover.py)"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

from takeup.drawing.reading import Record, Results, maybe_number, record_of, records_of, text_of
from takeup.edge import Units
from takeup.papers.common.numerals import NONE, written
from takeup.papers.common.tables import Cell, Tree, table, words_column

MOST = 12
"""Rows of a table on page one; the others stand in the section that the table names."""
_KINDS = ("design", "operating", "test")

Row = TypeVar("Row")


def conditions_table(results: Results, units: Units) -> Tree | None:
    """Return pressure and temperature in design, operation and test with what is inside, zones that differ row by row.

    Args:
        results: the results document.
        units: that it is written in.
    """
    resolved = record_of(record_of(results, "input"), "resolved")
    filled = text_of(record_of(resolved, "test"), "with")
    alike: dict[tuple[Cell, ...], list[str]] = {}
    for zone in records_of(results, "zones"):
        alike.setdefault((_inside(results, zone), *_states(zone, units), filled), []).append(text_of(zone, "name"))
    if not alike:
        return None
    head = [words_column("Medium"), *(words_column(kind.capitalize()) for kind in _KINDS), words_column("Test with")]
    rows: list[tuple[Cell, ...]] = list(alike)
    vacuum = record_of(resolved, "vacuum")
    if vacuum.get("possible"):
        least = units.pressure.named(written(maybe_number(vacuum, "pressure_bar"), units.pressure, 2))
        head.append(words_column("Vacuum"))
        rows = [(*row, least) for row in rows]
    if len(alike) > 1:
        head.insert(0, words_column("Zone", "1fr"))
        rows = [("; ".join(zones), *row) for zones, row in zip(alike.values(), rows, strict=True)]
    else:
        head[-1] = words_column(head[-1].head, "1fr")
    return table(head, rows, "Conditions")


def _inside(results: Results, zone: Record) -> str:
    """Return what is in the lines of a zone."""
    mediums = {text_of(line, "name"): text_of(line, "medium") for line in records_of(results, "lines")}
    lines = dict.fromkeys(text_of(part, "line") for part in records_of(zone, "parts"))
    return ", ".join(dict.fromkeys(mediums[line] for line in lines if line in mediums))


def _states(zone: Record, units: Units) -> Iterator[Cell]:
    """Yield pressure and temperature of a zone in each condition; a dash where it has none."""
    for kind in _KINDS:
        own = record_of(record_of(zone, "conditions"), kind)
        found = [
            measure.named(written(value, measure, decimals))
            for key, measure, decimals in (("pressure_bar", units.pressure, 2), ("temperature_c", units.temperature, 1))
            if (value := maybe_number(own, key)) is not None
        ]
        yield ", ".join(found) or NONE


def foremost(rows: Sequence[Row], weight: Callable[[Row], tuple[float, float]]) -> list[Row]:
    """Return the rows that weigh most, in their order, so many as page one shows."""
    kept = sorted(range(len(rows)), key=lambda number: (weight(rows[number]), -number), reverse=True)[:MOST]
    return [rows[number] for number in sorted(kept)]


def of_all(shown: int, whole: int, section: int) -> str:
    """Return what a caption says of rows that page one leaves out; "" where it shows all."""
    return f"; those most used, {shown} of {whole}: all in section {section}" if shown < whole else ""


__all__ = ["MOST", "conditions_table", "foremost", "of_all"]
