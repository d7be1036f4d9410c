"""A part of a data sheet: rows for the workbook and the page alike, and what is said under them. (data_sheets/block.py)

A cell of a block is what a cell of a `Grid` is. The workbook has the numbers with all their digits; the page shows as
many as the cell says, with the mark and the parting of thousands of its units.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.edge import Measure, Units
from takeup.papers.common.asked import decimals_of
from takeup.papers.common.numerals import decimals_for, fixed
from takeup.papers.frame import Box, Cell, Grid, Number

Fact = tuple[str, Cell, str]
"""What, its value, its unit."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Block:
    """Rows under a caption, and sentences under them; a block of sentences alone has no rows."""

    caption: str
    grid: Grid | None = None
    said: tuple[str, ...] = ()


def given(value: float | None, measure: Measure, unsaid: str) -> Cell:
    """Return a number that a person gave as a cell, with the digits that it has; words where nobody gave it."""
    if value is None:
        return unsaid
    return Number(value=measure.number(value), decimals=decimals_of(measure.given(value)))


def found(value: float | None, measure: Measure, in_si: int) -> Cell:
    """Return a number of the model as a cell, with as many decimals as show what so many do in SI."""
    if value is None:
        return None
    number = measure.number(value)
    decimals = measure.decimals(in_si)
    return Number(value=0.0 if round(number, decimals) == 0.0 else number, decimals=decimals)


def rounded(value: float, measure: Measure) -> Number:
    """Return a number of the model as a cell with about four figures."""
    number = measure.number(value)
    return Number(value=number, decimals=decimals_for((number,)))


def shown(cell: Cell, units: Units) -> str:
    """Return a cell as the page shows it."""
    if cell is None:
        return ""
    if isinstance(cell, Box):
        return shown(cell.value, units)
    if isinstance(cell, str):
        return cell
    assert isinstance(cell, (int, float, Number)), "a data sheet adds nothing up"
    number = cell if isinstance(cell, Number) else Number(value=cell, decimals=decimals_of(cell))
    return units.area.parted(fixed(number.value, number.decimals))  # of all measures the one that parts thousands in US


__all__ = ["Block", "Fact", "found", "given", "rounded", "shown"]
