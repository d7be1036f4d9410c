"""Banded Cholesky: the two LAPACK routines this room stands on, with their types.     (mechanics/cholesky.py)

A band is stored by columns, `band[column, row - column]`, (n, width + 1): LAPACK's lower form seen from Python, so
that nothing is copied. Only this file imports SciPy.
"""

from __future__ import annotations

from typing import cast

from scipy.linalg import lapack  # type: ignore[import-untyped]  # SciPy carries no types

from takeup.mechanics.frame import Floats


def factor_band(band: Floats) -> int | None:
    """Overwrite a symmetric positive definite band with its Cholesky factor L, K = L L^T, in the same form.

    Args:
        band: lower half, (n, width + 1), in C order.

    Returns:
        The first unknown without a positive pivot, where the factorisation stopped; None when there is none.
    """
    factor, info = lapack.dpbtrf(band.T, lower=1, overwrite_ab=1)
    assert factor.base is band.base or factor.base is band, "the band is overwritten, never copied"
    return int(info) - 1 if info > 0 else None


def solve_band(factor: Floats, right: Floats) -> Floats:
    """Return K^-1 b for each row b of `right` (c, n), which is overwritten.

    Args:
        factor: what `factor_band` left in the band.
        right: right-hand sides, in C order.
    """
    answer, _ = lapack.dpbtrs(factor.T, right.T, lower=1, overwrite_b=1)
    return cast("Floats", answer.T)
