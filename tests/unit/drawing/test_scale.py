"""Scales are of the series 1, 2, 5 and the largest that fits; bars are round; exaggeration is stated."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.drawing.scale import bar_length, choose_scale, exaggeration, round_up
from takeup.errors import OutOfRange


@pytest.mark.parametrize(
    ("extent", "room", "scale"),
    [
        ((150.0, 0.0), (332.0, 60.0), 500),  # 150 000 mm / 332 mm = 452: the next of the series is 500
        ((0.3, 0.0), (332.0, 60.0), 1),  # 300 mm / 332 mm = 0.9: full size
        ((0.6, 0.0), (332.0, 60.0), 2),  # 600 mm / 332 mm = 1.8
        ((10.0, 12.1), (100.0, 60.0), 500),  # the height asks more: 12 100 / 60 = 201.7, above 200
        ((33.2, 0.0), (332.0, 60.0), 100),  # exactly 100: it fits, and is not refused for its last bit
        ((0.0, 0.0), (332.0, 60.0), 1),  # a point
    ],
)
def test_choose_scale_hand_cases(extent, room, scale):
    """Each by hand: N >= 1000 extent / room, then the next of 1, 2, 5, 10, ..."""
    assert choose_scale(extent, room) == scale


@given(st.floats(0.0, 1e5), st.floats(0.0, 1e5), st.floats(10.0, 1e3), st.floats(10.0, 1e3))
def test_choose_scale_fits_and_is_the_largest(width, height, wide, high):
    scale = choose_scale((width, height), (wide, high))
    assert str(scale).rstrip("0") in {"1", "2", "5"}
    slack = 1.0 + 1e-8  # the scale's own slack for an exact fit is 1e-9
    assert 1000.0 * width / scale <= wide * slack
    assert 1000.0 * height / scale <= high * slack
    if scale > 1:
        larger = scale / (2.0 if str(scale)[0] in "12" else 2.5)
        assert max(1000.0 * width / wide, 1000.0 * height / high) > larger


@pytest.mark.parametrize("extent", [(math.inf, 1.0), (math.nan, 1.0), (-1.0, 1.0)])
def test_choose_scale_refuses_what_has_no_extent(extent):
    with pytest.raises(OutOfRange, match="cannot be drawn"):
        choose_scale(extent, (100.0, 100.0))


def test_choose_scale_refuses_no_room():
    with pytest.raises(OutOfRange, match="cannot be drawn"):
        choose_scale((1.0, 1.0), (100.0, 0.0))


def test_round_up_of_the_series():
    """1 to 5, by eye."""
    assert [round_up(n) for n in (0.2, 1.0, 1.1, 2.0, 2.1, 5.0, 5.1, 99.0, 101.0)] == [1, 1, 2, 2, 5, 5, 10, 100, 200]


def test_bar_length_is_round_and_fits():
    """At 1:500, 50 mm of paper are 25 m: the round length below is 20 m."""
    assert bar_length(500, 50.0) == pytest.approx(20.0, rel=1e-12)  # powers of ten in floats


def test_bar_length_is_round_in_feet_too():
    """25 m are 82.0 ft: the round length below is 50 ft."""
    assert bar_length(500, 50.0, 0.3048) == pytest.approx(50.0, rel=1e-12)  # powers of ten in floats


def test_exaggeration_only_where_a_rise_would_not_show():
    """At 1:500 a rise of 0.5 m is 1 mm: 20 times makes 20 mm, the last of the series within half of 50 mm."""
    assert exaggeration(0.5, 500, 50.0) == 20
    assert exaggeration(0.0, 500, 50.0) == 1
    assert exaggeration(10.0, 500, 50.0) == 1  # 20 mm of 50: it shows by itself
