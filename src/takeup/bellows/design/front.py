"""The best of what fits: nothing beats it in material, length and stiffness at once.     (bellows/design/front.py)"""

from __future__ import annotations

from typing import Literal, TypeAlias

import numpy as np
import numpy.typing as npt

from takeup.bellows.geometry import Array

Least: TypeAlias = Literal["material", "length", "stiffness"]
LEASTS: tuple[Least, ...] = ("material", "length", "stiffness")
_WHY = {
    "material": "least material of all that fit",
    "length": "shortest of all that fit",
    "stiffness": "softest of all that fit",
}
_BETWEEN = "between them: least product of material, length and stiffness"
_FIGURES = 9  # objectives that agree so far are the same, on every machine

Rows: TypeAlias = npt.NDArray[np.intp]


def undominated(objectives: Array) -> Rows:
    """Return which rows no other row beats: not greater in every column and less in one.

    Args:
        objectives: what is to be small, above zero, shape (n, 3).

    Returns:
        Rows in rising order of the first column, then the second and third; of equal rows the first.
    """
    rounded = _rounded(objectives)
    order = np.lexsort((np.arange(len(rounded)), rounded[:, 2], rounded[:, 1], rounded[:, 0]))
    left, found = order, []
    while len(left):
        # The first of those left is beaten by none of them: they are sorted. What it beats or equals goes.
        found.append(left[0])
        left = left[~(rounded[left] >= rounded[left[0]]).all(axis=1)]
    return np.array(found, dtype=np.intp)


def picked(objectives: Array, least: Least) -> tuple[Rows, tuple[str, ...]]:
    """Return a few of the undominated with the reason for each, the wanted one first.

    Args:
        objectives: of the undominated: material, length, stiffness, shape (n, 3).
        least: which stands first.
    """
    rounded = _rounded(objectives)
    reasons: dict[int, list[str]] = {}
    for name in (least, *(one for one in LEASTS if one != least)):
        column = LEASTS.index(name)
        others = [number for number in range(len(LEASTS)) if number != column]
        row = int(np.lexsort((rounded[:, others[1]], rounded[:, others[0]], rounded[:, column]))[0])
        reasons.setdefault(row, []).append(_WHY[name])
    middle = int(np.argmin(_rounded(np.prod(objectives, axis=1))))
    if middle not in reasons:
        reasons[middle] = [_BETWEEN]
    return np.array(list(reasons), dtype=np.intp), tuple("; ".join(words) for words in reasons.values())


def _rounded(values: Array) -> Array:
    """Return numbers above zero with nine significant figures."""
    scale = 10.0 ** (_FIGURES - 1 - np.floor(np.log10(values)))
    return np.asarray(np.round(values * scale) / scale)


__all__ = ["LEASTS", "Least", "picked", "undominated"]
