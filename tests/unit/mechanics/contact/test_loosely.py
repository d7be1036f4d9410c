"""Singular values that are bounded first, and the norm by fewer of them, against NumPy's own."""

from __future__ import annotations

import numpy as np
import pytest

from takeup.mechanics.contact.loosely import greatest_stretch, is_beyond


def conditioned(condition, size=12, seed=3):
    """Return a matrix of a known condition number: random rotations about singular values from one down."""
    chance = np.random.default_rng(seed)
    left, right = (np.linalg.qr(chance.normal(size=(size, size)))[0] for _ in range(2))
    return left @ np.diag(np.geomspace(1.0, 1.0 / condition, size)) @ right


@pytest.mark.parametrize("condition", [1.0, 1e3, 0.9e6, 1.1e6, 1e9])
def test_condition_beyond_a_limit_is_told_on_either_side_of_it(condition):
    """Made with singular values from 1 to 1/condition; 0.9 and 1.1 of the limit are where the bound does not decide."""
    assert is_beyond(conditioned(condition), 1e6) == (condition > 1e6)


def test_singular_matrix_is_beyond_any_limit():
    assert is_beyond(np.zeros((3, 3)), 1e300)
    assert is_beyond(np.ones((3, 3)), 1e12)
    assert not is_beyond(np.zeros((0, 0)), 1.0)


@pytest.mark.parametrize("shape", [(1, 5), (4, 9), (9, 4), (0, 3)])
def test_greatest_stretch_is_the_2_norm(shape):
    """NumPy's norm by singular values; squares and a root lose no more than a few roundings of the largest, 1e-14."""
    matrix = np.random.default_rng(5).normal(size=shape)
    expected = np.linalg.norm(matrix, 2) if matrix.size else 0.0
    assert greatest_stretch(matrix) == pytest.approx(expected, rel=1e-14)
