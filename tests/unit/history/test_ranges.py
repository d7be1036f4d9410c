"""Ranges of a history: the standard's example, and what holds for every history.     (history/test_ranges.py)"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from takeup.history import range_table, ranges_of
from takeup.history.ranges import turning_points

FIGURE_6 = (-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0)
"""The history of ASTM E1049-85 (2017), Figure 6 (from memory)."""

whole_numbers = st.lists(st.integers(-50, 50).map(float), min_size=2, max_size=60)


def test_ranges_example_of_the_standard():
    """ASTM E1049-85 (2017) 5.4.4, Figure 6 (from memory): half ranges 3, 4, 8, 9, 8, 6 and one whole of 4, in order."""
    found = [(one.count, one.size, one.mean) for one in ranges_of(FIGURE_6)]
    # means by hand: of -2 and 1; 1 and -3; -1 and 3; -3 and 5; 5 and -4; -4 and 4; 4 and -2
    assert found == [
        (0.5, 3.0, -0.5),
        (0.5, 4.0, -1.0),
        (1.0, 4.0, 1.0),
        (0.5, 8.0, 1.0),
        (0.5, 9.0, 0.5),
        (0.5, 8.0, 0.0),
        (0.5, 6.0, 1.0),
    ]


def test_range_names_its_values():
    """In Figure 6 the whole range goes from the fifth value, -1, to the sixth, 3: counted from nought 4 and 5."""
    whole = next(one for one in ranges_of(FIGURE_6) if one.count == 1.0)
    assert (whole.low, whole.high, whole.begins, whole.ends) == (-1.0, 3.0, 4, 5)


def test_range_table_example_of_the_standard():
    """Figure 6 in three bins to 9: 3 alone; 4, 4 and 6; 8, 9 and 8; counts by hand 0.5, 2.0 and 1.5."""
    table = range_table(FIGURE_6, 3)
    assert [(one.above, one.up_to, one.count, one.low, one.high) for one in table] == [
        (0.0, 3.0, 0.5, -2.0, 1.0),
        (3.0, 6.0, 2.0, -3.0, 4.0),
        (6.0, 9.0, 1.5, -4.0, 5.0),
    ]


def test_range_table_shows_bins_without_ranges():
    """Up 10 and down 1: nothing between 2 and 8."""
    counts = [(one.count, one.low) for one in range_table((0.0, 10.0, 9.0), 5)]
    assert counts == [(0.5, 9.0), (0.0, None), (0.0, None), (0.0, None), (0.5, 0.0)]


@pytest.mark.parametrize("values", [(), (5.0,), (5.0, 5.0), (5.0, 5.0, 5.0)])
def test_constant_history_has_no_range(values):
    assert ranges_of(values) == ()
    assert range_table(values, 4) == ()


@pytest.mark.parametrize("values", [(1.0, 4.0), (1.0, 1.0, 4.0, 4.0), (4.0, 2.0, 1.0)])
def test_one_way_is_half_a_range(values):
    """Two values are enough: from 1 to 4, or back, is one range of 3 that stays open."""
    (only,) = ranges_of(values)
    assert (only.low, only.high, only.count) == (1.0, 4.0, 0.5)


def test_history_without_a_number_somewhere_is_refused():
    with pytest.raises(AssertionError, match="a number everywhere"):
        ranges_of((0.0, float("nan"), 1.0))


@given(whole_numbers)
@example(list(FIGURE_6))
def test_ranges_take_up_the_whole_way(values):
    """A whole range is gone both ways, a half one once: together the way of the history. Whole numbers: exact."""
    way = float(np.abs(np.diff(values)).sum())
    assert sum(2.0 * one.count * one.size for one in ranges_of(values)) == way


@given(whole_numbers)
def test_largest_range_is_from_least_to_greatest(values):
    spread = max(values) - min(values)
    assert max((one.size for one in ranges_of(values)), default=0.0) == spread


@given(whole_numbers, st.integers(1, 4))
def test_values_between_and_repeated_change_nothing(values, parts):
    """Halves, thirds and quarters of a step between whole numbers: turning points stay the very same numbers."""
    shares = np.arange(parts) / parts
    dense = [float(a + (b - a) * share) for a, b in pairwise(values) for share in shares]
    repeated = [value for value in (*dense, values[-1]) for _ in range(2)]
    assert counted(repeated) == counted(values)


@given(whole_numbers)
def test_history_upside_down_has_the_same_sizes(values):
    mirrored = [(one.size, one.count) for one in ranges_of([-value for value in values])]
    assert mirrored == [(one.size, one.count) for one in ranges_of(values)]


@given(whole_numbers, st.integers(1, 12))
def test_table_holds_every_range(values, bins):
    """Counts are halves and wholes: their sums are exact."""
    table = range_table(values, bins)
    assert sum(one.count for one in table) == sum(one.count for one in ranges_of(values))
    assert all(one.low is None or one.above < one.high - one.low for one in table)


@given(whole_numbers)
def test_turning_points_turn(values):
    """Between the turning points that stand beside each other, the history goes one way."""
    turns = turning_points(np.array(values))
    for begin, end in pairwise(turns):
        steps = np.diff(values[begin : end + 1])
        assert (steps >= 0.0).all() or (steps <= 0.0).all()


def counted(values: list[float]) -> Counter[tuple[float, float, float]]:
    return Counter((one.low, one.high, one.count) for one in ranges_of(values))
