"""The matrix of elements in a row as one band, and whether it is positive definite.     (bellows/shell/band.py)

Numbered from node to node, what an element holds lies within its own width of the diagonal, so that a Cholesky
factorisation touches nothing else: it goes through where, and only where, the matrix is positive definite, whichever
way its parts would be taken out of one another (chain.py). Limit: rounding.
"""

from __future__ import annotations

import numpy as np
from scipy.linalg import lapack  # type: ignore[import-untyped]  # SciPy carries no types

from takeup.bellows.geometry import Array


def band_of(elements: Array, count: int) -> Array:
    """Return the lower band of the matrix of elements joined end to end, the two ends of the row held.

    Args:
        elements: shape (e, d, d), the two ends first; symmetric.
        count: k, of movements at a node.

    Returns:
        The lower half by columns, `band[column, row - column]`, shape (e (d - k) - k, d).
    """
    number, width, _ = elements.shape
    step = width - count
    place = np.concatenate((np.arange(count), np.arange(step, width), np.arange(count, step)))  # along the meridian
    below, across = np.nonzero(place[:, None] >= place)
    rows, columns = place[below] - place[across], place[across]
    band = np.zeros((number * step + count, width))
    for first in (0, 1):  # of every second element no two share a joint
        some = np.arange(first, number, 2)
        band[some[:, None] * step + columns, rows] += elements[some][:, below, across]
    return band[count : number * step]


def is_positive(band: Array) -> bool:
    """Return whether the matrix of a band is positive definite; the band is used up.

    Args:
        band: the lower half by columns, as `band_of` returns it.
    """
    _, info = lapack.dpbtrf(band.T, lower=1, overwrite_ab=1)
    return bool(info == 0)


__all__ = ["band_of", "is_positive"]
