"""Matrix times vector, and a rank-one change, in pieces that BLAS does on one core.     (mechanics/contact/pieces.py)

With cholesky.py and sparse.py one of the three files that import SciPy. A walk makes thousands of products of 150 rows,
each some microseconds long. Given whole, BLAS shares each among all cores, and waits for the slowest: measured on two
busy cores, 4 milliseconds instead of 8 microseconds. OpenBLAS keeps to one core below about 8 000 entries.
"""

from __future__ import annotations

import numpy as np
from scipy.linalg import blas  # type: ignore[import-untyped]  # SciPy carries no types

from takeup.mechanics.frame import Floats

_ENTRIES = 8_000


def subtract_outer(matrix: Floats, left: Floats, right: Floats) -> None:
    """Subtract left right^T from a matrix in place.

    Args:
        matrix: (m, n), in C order.
        left: (m,).
        right: (n,).
    """
    rows = max(_ENTRIES // max(len(right), 1), 1)
    for first in range(0, len(left), rows):
        piece = slice(first, first + rows)
        blas.dger(-1.0, right, left[piece], a=matrix[piece].T, overwrite_a=1)


def times(matrix: Floats, vector: Floats) -> Floats:
    """Return matrix times vector, (m, n) and (n,) -> (m,).

    Args:
        matrix: (m, n), in C order.
        vector: (n,).
    """
    rows = max(_ENTRIES // max(len(vector), 1), 1)
    product = np.empty(len(matrix))
    for first in range(0, len(matrix), rows):
        np.matmul(matrix[first : first + rows], vector, out=product[first : first + rows])
    return product
