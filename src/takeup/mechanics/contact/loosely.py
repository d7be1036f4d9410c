"""Whether a system is as good as singular, told without its singular values where it is not.     (contact/loosely.py)

    cond_2 <= n cond_1                                                  (norms of matrices; textbook)

An inverse takes a sixth of the time of singular values, and most systems are far from any limit.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.frame import Floats


def is_beyond(matrix: Floats, limit: float) -> bool:
    """Return whether the condition number of a square matrix, in the 2-norm, is a limit or more.

    Args:
        matrix: (n, n).
        limit: of the condition number.
    """
    if len(matrix) == 0:
        return False
    try:
        inverse = np.linalg.inv(matrix)
    except np.linalg.LinAlgError:
        return True
    at_most = len(matrix) * float(np.linalg.norm(matrix, 1) * np.linalg.norm(inverse, 1))
    return not at_most < limit and float(np.linalg.cond(matrix)) >= limit


def greatest_stretch(matrix: Floats) -> float:
    """Return the 2-norm of a matrix, by the largest eigenvalue of M M^T, which is small where M has few rows.

    Args:
        matrix: (m, n).
    """
    if matrix.size == 0:
        return 0.0
    return float(np.sqrt(np.linalg.eigvalsh(matrix @ matrix.T)[-1]))


__all__ = ["greatest_stretch", "is_beyond"]
