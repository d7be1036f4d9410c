"""Remarks on each of many bellows: why a value is missing, what a form does not know.     (bellows/forms/remarks.py)

A form that is asked outside its range gives nan there, for its own bellows alone, and a remark in plain words.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Mask: TypeAlias = npt.NDArray[np.bool_]
Note: TypeAlias = tuple[Mask, Callable[[int], str]]


def always(words: str) -> Callable[[int], str]:
    """Return the same words for every bellows."""
    return lambda _row: words


def remarks_of(count: int, notes: Iterable[Note]) -> tuple[str, ...]:
    """Return one text for each bellows, its remarks joined by semicolons, "" where there is nothing to say.

    Args:
        count: n, of bellows.
        notes: which bellows each remark is about, shape (n,), and its words for one of them by number.
    """
    said: list[list[str]] = [[] for _ in range(count)]
    for mask, words in notes:
        for row in np.flatnonzero(mask):
            said[row].append(words(int(row)))
    return tuple("; ".join(dict.fromkeys(one)) for one in said)


__all__ = ["Mask", "Note", "always", "remarks_of"]
