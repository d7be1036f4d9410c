"""Rows that a reader goes on working with: columns with units, numbers as numbers.     (papers/frame/grid.py)

The same grid becomes a sheet of a workbook and a CSV file. Numbers stand in it as they are printed: in the unit of
their column, with all their digits; how many of them are shown is the column's affair.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

_UNIT_WORDS = re.compile(r"\([ga]\)|[^a-z0-9_]")


@dataclass(frozen=True, kw_only=True, slots=True)
class Box:
    """A cell that its reader fills in; what stands in it already is a proposal."""

    value: str | float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Number:
    """A number with decimals of its own, in a column whose rows have different units."""

    value: float
    decimals: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Sum:
    """The sum of all numbers over it in its column: the one formula of a workbook, ours, with what it makes."""

    value: float


Cell = str | float | Number | Box | Sum | None
"""A text, a number in the column's unit, one with its own decimals, a box to fill in, a sum, or nothing."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Field:
    """A column: its head in the paper's language, its unit, and its name in a CSV file without the unit.

    `decimals` is how many a number shows; `width` is in letters, made from what the column holds where None.
    """

    head: str
    unit: str = ""
    key: str = ""
    decimals: int | None = None
    width: float | None = None

    @property
    def column_key(self) -> str:
        """The name in a CSV file: English, the unit at its end."""
        assert self.key, f"column {self.head} has a name for machines"
        unit = unit_key(self.unit)
        return f"{self.key}_{unit}" if unit else self.key


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """Columns and rows under a caption, which may be ""; `strong` are the numbers of rows set bold, from nought.

    `across` is how many columns of a sheet a cell takes, which only a grid of one column of words asks for.
    """

    fields: tuple[Field, ...]
    rows: tuple[tuple[Cell, ...], ...]
    caption: str = ""
    notes: tuple[str, ...] = ()
    strong: frozenset[int] = frozenset()
    across: int = 1

    def __post_init__(self) -> None:
        assert self.across == 1 or len(self.fields) == 1, "only a column of its own reaches over others"
        assert all(len(row) == len(self.fields) for row in self.rows), "every row fills every column"


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """One sheet of a workbook: its name on the tab, its title, and its grids one under the other.

    With one grid alone its head stays in view and is repeated on every printed page; `filtered` lets a reader choose
    among its rows there, and its first column stays in view too.
    """

    name: str
    title: str
    grids: tuple[Grid, ...]
    notes: tuple[str, ...] = ()
    filtered: bool = False


def unit_key(unit: str) -> str:
    """Return a unit as it ends the name of a column: "N/mm" is n_per_mm, "kN·m" knm, "bar(g)" bar, "°C" c."""
    return _UNIT_WORDS.sub("", unit.lower().replace("/", "_per_").replace("²", "2").replace("³", "3"))


def value_of(cell: Cell) -> str | float | None:
    """Return what a cell holds, without how it is shown."""
    return cell.value if isinstance(cell, (Number, Box, Sum)) else cell


def column_values(grid: Grid, number: int) -> Iterator[str | float | None]:
    """Yield what a column holds."""
    return (value_of(row[number]) for row in grid.rows)


def facts_grid(facts: Sequence[tuple[str, str]], heads: tuple[str, str], caption: str = "") -> Grid:
    """Return facts as a grid of two columns of words."""
    fields = tuple(Field(head=head) for head in heads)
    return Grid(fields=fields, rows=tuple(facts), caption=caption)


__all__ = [
    "Box",
    "Cell",
    "Field",
    "Grid",
    "Number",
    "Sheet",
    "Sum",
    "column_values",
    "facts_grid",
    "unit_key",
    "value_of",
]
