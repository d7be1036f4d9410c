"""Cells of a table as numbers: all at once where all are numbers, and what is wrong with one.     (reading/numbers.py)

Python also takes `1_000`, digits of other scripts, control characters and `nan` for numbers; a table does not.
"""

from __future__ import annotations

import math
import re
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from takeup.reading.sheet import BLANKS, quoted

_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_HINTS = {
    "#": "; a comment stands on a line of its own",
    ",": "; the decimal mark is a point",
    ";": "; cells are parted by commas",
    "\N{MINUS SIGN}": "; write a plain hyphen for the minus",
}
"""What to say of a text that is no number, by a sign in it; the first that is found counts."""


class Limits(Protocol):
    """What a number may be: each limit None where there is none."""

    @property
    def above(self) -> float | None:
        """Least value, itself excluded."""
        ...

    @property
    def least(self) -> float | None:
        """Least value."""
        ...

    @property
    def most(self) -> float | None:
        """Greatest value."""
        ...

    @property
    def whole(self) -> bool:
        """Whether it is a whole number."""
        ...


def outside(values: NDArray[np.float64], limits: Limits) -> NDArray[np.bool_]:
    """Return which numbers break a limit; NaN, a number that is not said, breaks none, (n,)."""
    wrong = np.zeros(values.shape, dtype=bool)
    if limits.above is not None:
        wrong |= values <= limits.above
    if limits.least is not None:
        wrong |= values < limits.least
    if limits.most is not None:
        wrong |= values > limits.most
    if limits.whole:
        wrong |= ~np.isnan(values) & (values != np.round(values))
    return wrong


def all_numbers(cells: tuple[str, ...]) -> NDArray[np.float64] | None:
    """Return the numbers of cells each of which is one, (n,), else None."""
    together = "".join(cells)
    if "_" in together or not (together.isascii() and together.isprintable()):
        return None
    try:
        values = np.array([float(cell) for cell in cells])
    except ValueError:
        return None
    return values if np.isfinite(values).all() else None


def looks_a_number(word: str) -> bool:
    """Whether a word without blanks round it is written as a number; it may be too large for one."""
    return _NUMBER.fullmatch(word) is not None


def is_number(cell: str) -> bool:
    """Whether a cell is a number."""
    word = cell.strip(BLANKS)
    return looks_a_number(word) and math.isfinite(float(word))


def why_no_number(cell: str, *, more: dict[str, str] | None = None) -> str:
    """Return what is wrong with a cell that is no number and not empty; `more` are hints of the file's own."""
    word = cell.strip(BLANKS)
    if looks_a_number(word):
        return f"{quoted(word)} is too large a number"
    hint = next((hint for sign, hint in ((more or {}) | _HINTS).items() if sign in word), "")
    return f"found {quoted(word)}, expected a number such as 12.5{hint}"
