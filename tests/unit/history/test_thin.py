"""Rows that say nothing new: only those go, and all of those.     (history/test_thin.py)"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.history import ranges_of, rows_that_turn, thinned
from takeup.line import Record


def record(times, pressures, temperatures, contents=None) -> Record:
    """Return a record of one zone."""
    held = contents or ["steam"] * len(times)
    return Record(
        file="r.csv",
        sha256="",
        times=np.array(times, dtype=float),
        pressures=np.array(pressures, dtype=float)[:, None],
        temperatures=np.array(temperatures, dtype=float)[:, None],
        contents=tuple((word,) for word in held),
    )


def rows(**columns) -> list[int]:
    return rows_that_turn(record(**columns)).tolist()


def test_straight_rows_go():
    assert rows(times=[0, 1, 2, 5, 6], pressures=[0, 1, 2, 5, 4], temperatures=[9, 9, 9, 9, 9]) == [0, 3, 4]


def test_row_stays_where_one_column_turns():
    assert rows(times=[0, 1, 2], pressures=[0, 1, 2], temperatures=[0, 1, 0]) == [0, 1, 2]


def test_row_stays_where_time_bends_the_line():
    assert rows(times=[0, 1, 3], pressures=[0, 1, 2], temperatures=[0, 0, 0]) == [0, 1, 2]


def test_rows_stay_on_both_sides_of_a_new_content():
    found = rows(
        times=range(6),
        pressures=[0] * 6,
        temperatures=[0] * 6,
        contents=["air", "air", "air", "steam", "steam", "steam"],
    )
    assert found == [0, 2, 3, 5]


def test_ramp_in_decimals_goes():
    """0.1, 0.2, 0.3 ... are straight to rounding, not exactly."""
    steps = range(200)
    found = rows(
        times=[0.1 * n for n in steps], pressures=[1e4 * n for n in steps], temperatures=[0.3 * n for n in steps]
    )
    assert found == [0, 199]


def test_small_turn_stays():
    """A turn of a millionth of a degree is none of rounding, which is near 1e-13 of 180."""
    assert rows(times=[0, 1, 2], pressures=[0, 0, 0], temperatures=[180, 180.000001, 180]) == [0, 1, 2]


def test_slow_bend_is_followed():
    """5e-14 t²: neighbours bend by 1e-13, which they take for rounding; over all 4000 rows it is 8e-7.

    Every row left out is within the rounding that `thin` states, 8 x 2.2e-16 x 100 = 1.8e-13, and that of
    interpolating here, twice the spacing of numbers near 100, 2.8e-14.
    """
    times = np.arange(4000.0)
    temperatures = 100.0 + 5e-14 * times**2
    whole = record(times, np.zeros(4000), temperatures)
    thin = thinned(whole)
    assert 10 < thin.times.size < 3000
    between = np.interp(times, thin.times, thin.temperatures[:, 0])
    assert np.abs(between - temperatures).max() <= 1.8e-13 + 2.8e-14


whole_steps = st.lists(
    st.tuples(st.integers(1, 5), st.integers(-3, 3), st.integers(-3, 3), st.sampled_from(["steam", "air"])),
    min_size=2,
    max_size=40,
)


def of_steps(steps) -> Record:
    moves = np.cumsum([step[:3] for step in steps], axis=0)
    return record(moves[:, 0], moves[:, 1], moves[:, 2], [step[3] for step in steps])


@given(whole_steps)
def test_going_straight_between_kept_rows_passes_every_row(steps):
    """Whole numbers below 1000: interpolation is good to 1e-12 of them."""
    whole = of_steps(steps)
    thin = thinned(whole)
    for column in ("pressures", "temperatures"):
        before, after = getattr(whole, column)[:, 0], getattr(thin, column)[:, 0]
        assert np.interp(whole.times, thin.times, after) == pytest.approx(before, abs=1e-9)
        assert [(one.low, one.high, one.count) for one in ranges_of(after)] == [
            (one.low, one.high, one.count) for one in ranges_of(before)
        ]


@given(whole_steps)
def test_thin_record_has_nothing_more_to_leave_out(steps):
    thin = thinned(of_steps(steps))
    assert rows_that_turn(thin).tolist() == list(range(thin.times.size))


@given(whole_steps, st.sampled_from([2, 4, 8]))
def test_rows_put_between_go_again(steps, parts):
    """Halves, quarters and eighths of whole numbers are exact."""
    moves = np.cumsum([step[:3] for step in steps], axis=0)
    whole = record(moves[:, 0], moves[:, 1], moves[:, 2])
    fine = np.arange((whole.times.size - 1) * parts + 1) / parts
    coarse = np.arange(whole.times.size)
    dense = record(
        np.interp(fine, coarse, whole.times),
        np.interp(fine, coarse, whole.pressures[:, 0]),
        np.interp(fine, coarse, whole.temperatures[:, 0]),
    )
    assert thinned(dense).times.tolist() == thinned(whole).times.tolist()


def test_record_cannot_be_written_to():
    whole = record([0, 1], [0, 0], [0, 0])
    with pytest.raises(ValueError, match="read-only"):
        whole.times[0] = 5.0


@pytest.mark.parametrize(
    ("times", "temperatures", "why"),
    [([0], [0], "two rows"), ([1, 0], [0, 0], "times rise"), ([0, 1], [0, np.nan], "a number")],
)
def test_record_is_checked_when_made(times, temperatures, why):
    with pytest.raises(AssertionError, match=why):
        record(times, [0] * len(times), temperatures)
