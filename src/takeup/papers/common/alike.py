"""What is said of many things alike, said once: rows of states, and names that follow one another.  (common/alike.py)

A line of many sections goes through scores of states, and most of them change nothing at a place far from where it is
hot: seventy rows of the same figures hide the five that matter. In a table that is longer than half a page a run of
states that print alike is one row; results.json and the workbooks have every state. Names of a run are its two ends.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import groupby

from takeup.papers.common.tables import Cell

LONG = 24
"""So many rows stand one by one: half a page."""
_RUN = 3  # two rows alike take no more room than one with a line under it
_NAMES = 4  # so few names are told one by one


@dataclass(frozen=True, kw_only=True, slots=True)
class Rows:
    """The rows of a table, and the numbers of those that are set bold."""

    cells: list[Sequence[Cell]]
    strong: list[int]


def gathered(rows: Sequence[Sequence[str]], strong: Sequence[int], told: Callable[[str, int], str]) -> Rows:
    """Return rows of states as they are printed; runs that print alike are one row where there are many rows.

    Args:
        rows: a state's name, then what it prints, in the order of the states.
        strong: the numbers of rows that are set bold; they stand with their own kind alone.
        told: gives the line under the first state's name from the last one's name and how many they are.
    """
    if len(rows) <= LONG:
        return Rows(cells=list(rows), strong=list(strong))
    bold = frozenset(strong)
    found = Rows(cells=[], strong=[])
    for (is_bold, _), pairs in groupby(enumerate(rows), key=lambda pair: (pair[0] in bold, tuple(pair[1][1:]))):
        run = [row for _, row in pairs]
        first, last = run[0], run[-1]
        one: list[Sequence[Cell]] = [*run]
        if len(run) >= _RUN:
            one = [((first[0], told(last[0], len(run))), *first[1:])]
        found.strong.extend(range(len(found.cells), len(found.cells) + len(one)) if is_bold else ())
        found.cells.extend(one)
    return found


def names_told(names: Sequence[str], order: Sequence[str], told: Callable[[str, str], str]) -> list[str]:
    """Return names; of those that follow one another in the order of all, four or more, only the ends.

    Args:
        names: some of all, each once, in any order.
        order: all names; any that is not among them stands by itself at the end.
        told: gives "A to B" from A and B.
    """
    wanted = set(names)
    found = []
    for here, group in groupby(order, key=wanted.__contains__):
        run = list(group)
        if here:
            found += run if len(run) < _NAMES else [told(run[0], run[-1])]
    return found + [name for name in names if name not in set(order)]


def states_alike(last: str, count: int) -> str:
    """Return the line under the first of a run of states, in English as `from_to`."""
    return f"to “{last}”: {count} states alike"


def from_to(first: str, last: str) -> str:
    """Return "A to B", for the parts of a paper that are made in English and translated whole."""
    return f"{first} to {last}"


__all__ = ["LONG", "Rows", "from_to", "gathered", "names_told", "states_alike"]
