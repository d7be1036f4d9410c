"""Banded Cholesky: the three LAPACK routines this room stands on, with their types.     (mechanics/cholesky.py)

A band is stored by columns, lower half `band[column, row - column]`, which is LAPACK's form seen from Python, so that
nothing is copied. The factor K = L L^T is computed in the lower form, which is the faster one to factorise, and
then turned into the upper form of U = L^T, `factor[column, width + row - column]`, which is the faster one to solve
with: measured, two thirds of the time a right-hand side. Only this file, sparse.py
and shifted.py import SciPy.
"""

from __future__ import annotations

from typing import cast

from numpy.lib.stride_tricks import as_strided
from scipy.linalg import lapack  # type: ignore[import-untyped]  # SciPy carries no types

from takeup.mechanics.frame import Floats

_PIECE = 8192  # columns a piece: under a megabyte, which the second-level cache holds


def factor_band(band: Floats) -> int | None:
    """Overwrite a symmetric positive definite band with its Cholesky factor U, K = U^T U.

    Args:
        band: lower half, (n, width + 1), in C order; afterwards the upper band of U.

    Returns:
        The first unknown without a positive pivot, where the factorisation stopped; None when there is none.
    """
    _, info = lapack.dpbtrf(band.T, lower=1, overwrite_ab=1)
    if info > 0:
        return int(info) - 1
    _transpose(band)
    return None


def _transpose(band: Floats) -> None:
    """Turn a lower band into the upper band of its transpose, in place.

    Entry (c - s, c) of U is entry (c, c - s) of L: in memory, of rows of w = width + 1 numbers,

        upper[w c + (w - 1 - s)] = lower[w (c - s) + s],   or with t = w - 1 - s:  lower[w (c - w + 1) + (w - 1)(t + 1)]

    a row with a stride of w - 1. A column needs no lower column beyond its own: columns go from the last to the first.
    """
    count, width = band.shape[0], band.shape[1] - 1
    size = band.itemsize
    for beyond in range(count, width, -_PIECE):
        first = max(width, beyond - _PIECE)
        skewed = as_strided(
            band[first - width :, width:], (beyond - first, width + 1), ((width + 1) * size, width * size)
        )
        band[first:beyond] = skewed.copy()
    corner = band[:width].copy()
    for below in range(min(width, count)):
        band[below:width, width - below] = corner[: len(corner) - below, below]


def solve_band(factor: Floats, right: Floats) -> Floats:
    """Return K^-1 b for each row b of `right` (c, n), which is overwritten.

    Args:
        factor: what `factor_band` left in the band.
        right: right-hand sides, in C order.
    """
    answer, _ = lapack.dpbtrs(factor.T, right.T, lower=0, overwrite_b=1)
    return cast("Floats", answer.T)


def solve_forward(factor: Floats, right: Floats) -> Floats:
    """Return U^-T b for each row b of `right` (c, n), which is overwritten: the first half of `solve_band`."""
    answer, _ = lapack.dtbtrs(factor.T, right.T, uplo="U", trans="T", overwrite_b=1)
    return cast("Floats", answer.T)


def solve_backward(factor: Floats, right: Floats) -> Floats:
    """Return U^-1 z for each row z of `right` (c, n), which is overwritten: the second half of `solve_band`."""
    answer, _ = lapack.dtbtrs(factor.T, right.T, uplo="U", trans="N", overwrite_b=1)
    return cast("Floats", answer.T)
