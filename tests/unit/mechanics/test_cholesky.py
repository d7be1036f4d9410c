"""The typed door to LAPACK.     (tests/unit/mechanics/test_cholesky.py)"""

from __future__ import annotations

import numpy as np
import pytest

from takeup.mechanics.cholesky import factor_band, solve_band

COUNT, WIDTH = 12, 3


def band_and_matrix():
    """Return a positive definite band, and the same as a full matrix."""
    random = np.random.default_rng(7)
    band = random.uniform(-1.0, 1.0, size=(COUNT, WIDTH + 1))
    band[:, 0] += 7.0  # more than twice three off-diagonal entries below one
    full = np.zeros((COUNT, COUNT))
    for below in range(WIDTH + 1):
        for column in range(COUNT - below):
            full[column + below, column] = full[column, column + below] = band[column, below]
    return band, full


def test_cholesky_factor_and_solution_against_numpy():
    """Dense numpy on the same matrix; the condition is below ten, so 1e-13 is generous."""
    band, full = band_and_matrix()
    right = np.random.default_rng(8).normal(size=(2, COUNT))
    assert factor_band(band) is None
    upper = np.linalg.cholesky(full).T
    for above in range(WIDTH + 1):
        assert band[above:, WIDTH - above] == pytest.approx(np.diagonal(upper, above), rel=1e-13, abs=1e-13)
    assert solve_band(band, right.copy()) == pytest.approx(np.linalg.solve(full, right.T).T, rel=1e-13, abs=1e-13)


@pytest.mark.parametrize("count", [1, 2, 11, 12, 13, 8203, 8204, 16396, 20000])
def test_cholesky_solution_of_any_size(count):
    """K x = b, K a beam-like band of width 11, sizes on and off the edges of pieces; the condition is below ten."""
    random = np.random.default_rng(count)
    band = random.uniform(-0.05, 0.05, size=(count, 12))
    band[:, 0] = 1.0  # more than twice eleven entries below 0.05, on average; positive definite (it factorises)
    kept, exact = band.copy(), random.normal(size=count)
    product = kept[:, 0] * exact
    for below in range(1, min(12, count)):
        product[below:] += kept[: count - below, below] * exact[: count - below]
        product[: count - below] += kept[: count - below, below] * exact[below:]
    assert factor_band(band) is None
    assert solve_band(band, product[None])[0] == pytest.approx(exact, rel=1e-12, abs=1e-12)


def test_cholesky_names_the_unknown_without_a_pivot():
    band, _ = band_and_matrix()
    band[5, 0] = -1.0
    assert factor_band(band) == 5


def test_cholesky_commutes_with_scaling_bit_for_bit():
    """Scaling by powers of two rounds nothing: chol(D K D) = D chol(K) exactly, so scaling first would gain nothing."""
    band, _ = band_and_matrix()
    scale = 2.0 ** np.random.default_rng(9).integers(-20, 20, size=COUNT + WIDTH)
    scaled = band.copy()
    for below in range(WIDTH + 1):
        scaled[:, below] *= scale[:COUNT] * scale[below : COUNT + below]
    assert factor_band(band) is None
    assert factor_band(scaled) is None
    for above in range(WIDTH + 1):
        place = WIDTH - above
        assert (scaled[above:, place] == scale[above:COUNT] * band[above:, place]).all()
