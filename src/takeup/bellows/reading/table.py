"""What a bellows file says, before it is judged: numbers and words by column.     (bellows/reading/table.py)

CSV and YAML both become a `Table`; from there on they are one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from takeup.bellows.geometry import Array

Place = tuple[int, int]


@dataclass(frozen=True, kw_only=True, slots=True)
class Table:
    """n bellows.

    Args:
        rows: n.
        numbers: by column, in the unit of the table, shape (n,); nan where the file says nothing or nothing sound.
        words: by column, n of them; "" where the file says nothing or nothing sound.
        head: line and column of the names of the columns; of the file's beginning where it is no table.
        says: whether anything is said, sound or not, by row and column.
        place: line and column of what is said, by row and column; of the row where nothing is said.
        row_place: line and column of a row.
        typed: how something was typed, by row and column.
        called: what a column is called in the file.
    """

    rows: int
    numbers: Mapping[str, Array]
    words: Mapping[str, tuple[str, ...]]
    head: Place
    says: Callable[[int, str], bool]
    place: Callable[[int, str], Place]
    row_place: Callable[[int], Place]
    typed: Callable[[int, str], str]
    called: Callable[[str], str]
