"""Elements in a row as one band: the same matrix, and positive exactly where its least value is."""

from __future__ import annotations

import numpy as np
import pytest

from takeup.bellows.shell.band import band_of, is_positive
from takeup.bellows.shell.chain import row_matrix

MOVEMENTS, NODES = 2, 4


def elements(number: int) -> np.ndarray:
    """Return invented symmetric matrices, the two ends first, positive as sums of squares."""
    half = np.random.default_rng(20).normal(size=(number, NODES * MOVEMENTS, NODES * MOVEMENTS))
    return half @ half.transpose(0, 2, 1)


def dense(band: np.ndarray) -> np.ndarray:
    size = len(band)
    lower = sum(np.diag(row[: size - below], -below) for below, row in enumerate(band.T[:size]))
    return lower + np.tril(lower, -1).T


def joined(parts: np.ndarray) -> np.ndarray:
    """Return the matrix by its definition, node by node along the row, the two ends of the row struck out."""
    inside, order = NODES - 2, [0, *range(2, NODES), 1]
    nodes = len(parts) * (inside + 1) + 1
    whole = np.zeros((nodes * MOVEMENTS, nodes * MOVEMENTS))
    for number, part in enumerate(parts):
        for row, first in enumerate(order):
            for column, second in enumerate(order):
                at = [(number * (inside + 1) + place) * MOVEMENTS for place in (row, column)]
                whole[at[0] : at[0] + MOVEMENTS, at[1] : at[1] + MOVEMENTS] += part[
                    first * MOVEMENTS : (first + 1) * MOVEMENTS, second * MOVEMENTS : (second + 1) * MOVEMENTS
                ]
    return whole[MOVEMENTS:-MOVEMENTS, MOVEMENTS:-MOVEMENTS]


@pytest.mark.parametrize("number", [1, 2, 5])
def test_a_band_is_the_matrix_of_all_elements(number):
    """1e-14: sums of two numbers of order one, in either order."""
    parts = elements(number)
    assert dense(band_of(parts, MOVEMENTS)) == pytest.approx(joined(parts), rel=1e-14, abs=1e-14)


def test_a_band_of_elements_without_an_inside_is_that_of_joints_in_a_row():
    parts = elements(3)[:, : 2 * MOVEMENTS, : 2 * MOVEMENTS]
    matrix, _ = row_matrix(parts[None], np.zeros((1, 3, 2 * MOVEMENTS, 0)), MOVEMENTS)
    inner = matrix[0, MOVEMENTS:-MOVEMENTS, MOVEMENTS:-MOVEMENTS]
    assert dense(band_of(parts, MOVEMENTS)) == pytest.approx(inner, rel=1e-14, abs=1e-14)


@pytest.mark.parametrize(("share", "positive"), [(1.0 - 1e-9, True), (1.0 + 1e-9, False)])
def test_a_band_is_positive_up_to_its_least_value(share, positive):
    """Taken off the diagonal, the least eigenvalue makes it singular; 1e-9 of it is a thousand times rounding."""
    band = band_of(elements(4), MOVEMENTS)
    band[:, 0] -= share * np.linalg.eigvalsh(dense(band))[0]
    assert is_positive(band) is positive
