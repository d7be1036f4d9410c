"""Section 6: rods, pins and bases under the greatest thrust, by hand.     (papers/calculation/hardware_needed.py)"""

from __future__ import annotations

from takeup.drawing.reading import Record, Results, maybe_number, number_of, records_of, text_of
from takeup.edge import Units
from takeup.papers.common.numerals import NONE, told
from takeup.papers.common.places import with_line
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column

_DECIMALS = {"MPa": 1, "mm": 1, "N": 2}


def needed_tables(results: Results, units: Units) -> list[Tree]:
    """Return the table of every joint whose rods, pins or base were sized."""
    joints = [joint for joint in records_of(results, "takeups") if records_of(joint, "hardware_needed")]
    return [_table(results, joint, units) for joint in joints]


def _table(results: Results, joint: Record, units: Units) -> Tree:
    rows = records_of(joint, "hardware_needed")
    cells: list[tuple[Cell, ...]] = [
        (text_of(row, "what"), (text_of(row, "formula"), text_of(row, "source")), *_numbers(row, units)) for row in rows
    ]
    head = (
        words_column("For information", "1fr"), words_column("Formula, source", "54mm"),
        number_column("By hand", "", "22mm"), number_column("Given", "", "22mm"),
    )  # fmt: skip
    thrust = told(number_of(rows[0], "thrust_n"), units.force, 2)
    name = with_line(results, joint, text_of(joint, "name"))
    said = f"Hardware of {name}: thrust of {thrust} in the state {text_of(rows[0], 'state')}, shared out evenly"
    return table(head, cells, said)


def _numbers(row: Record, units: Units) -> tuple[str, str]:
    unit = text_of(row, "unit")
    measure = units.of_check(unit)
    given = maybe_number(row, "given")
    value = told(number_of(row, "value"), measure, _DECIMALS[unit])
    return value, NONE if given is None else told(given, measure, _DECIMALS[unit])


__all__ = ["needed_tables"]
