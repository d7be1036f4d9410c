"""The best of what fits, against comparison of all with all."""

from __future__ import annotations

import numpy as np
import pytest

from takeup.bellows.design.front import picked, undominated


@pytest.mark.parametrize("seed", range(5))
def test_undominated_are_those_of_brute_force(seed):
    points = np.random.default_rng(seed).integers(1, 12, size=(200, 3)).astype(float)
    found = {tuple(points[row]) for row in undominated(points)}
    brute = {tuple(one) for one in points if not any((other <= one).all() and (other < one).any() for other in points)}
    assert found == brute


def test_equal_points_stand_once():
    assert undominated(np.ones((5, 3))).tolist() == [0]


def test_none_are_none():
    assert undominated(np.ones((0, 3))).tolist() == []


def test_one_that_is_best_in_all_has_all_reasons():
    rows, why = picked(np.array([[1.0, 1.0, 1.0]]), "length")
    assert rows.tolist() == [0]
    assert why[0].startswith("shortest")
    assert "least material" in why[0]
    assert "softest" in why[0]


def test_the_one_between_has_the_least_product():
    """By hand 22.5 and 27; the sums, 11 and 9, go the other way, but would weigh kilograms against metres."""
    points = np.array([[1.0, 9.0, 9.0], [9.0, 1.0, 9.0], [9.0, 9.0, 1.0], [1.5, 2.0, 7.5], [3.0, 3.0, 3.0]])
    rows, why = picked(points, "stiffness")
    assert rows.tolist() == [2, 0, 1, 3]
    assert why[3].startswith("between them")
