"""How legs go: bearings, slopes, feet and inches; the length is along the leg."""

from __future__ import annotations

import math

import pytest

from takeup.line.reading.going import DIRECTIONS, read_go


@pytest.mark.parametrize(
    ("text", "east", "north"),
    [
        ("30 m bearing 0 deg", 0.0, 1.0),
        ("30 m bearing 90 deg", 1.0, 0.0),
        ("30 m bearing 225 deg", -math.sqrt(0.5), -math.sqrt(0.5)),
        ("30 m bearing 30 deg", 0.5, math.sqrt(3.0) / 2.0),
        ("30 m bearing 360 deg", 0.0, 1.0),
    ],
)
def test_bearing_is_clockwise_from_north(text, east, north):
    """East is sin b, north is cos b; a sine of a whole turn is zero to one rounding of pi."""
    go = read_go(text)
    assert go.length == 30.0
    assert go.direction == pytest.approx((east, north, 0.0), abs=1e-15)


def test_bearing_of_a_word_is_that_word():
    for degrees, word in enumerate(("north", "north-east", "east", "south-east", "south", "south-west", "west")):
        assert read_go(f"1 m bearing {45 * degrees} deg").direction == pytest.approx(DIRECTIONS[word], abs=1e-15)


@pytest.mark.parametrize(
    ("slope", "rise", "level"),
    [
        ("rising 1 in 100", 1.0, 100.0),
        ("falling 1 in 200", -1.0, 200.0),
        ("falling 2 %", -2.0, 100.0),
        ("rising 3 deg", math.sin(math.radians(3.0)), math.cos(math.radians(3.0))),
        ("rising 1 in 0.75", 4.0, 3.0),
    ],
)
def test_slope_is_rise_over_level_distance(slope, rise, level):
    """A slope of 1 in n and of p per cent is measured against the level, an angle from it; the leg is 12 m along it."""
    go = read_go(f"12 m east {slope}")
    size = math.hypot(rise, level)
    assert go.length == 12.0
    assert go.direction == pytest.approx((level / size, 0.0, rise / size), abs=1e-15)


def test_slope_goes_with_a_bearing_and_with_feet_and_inches():
    """16 ft 6 1/2 in is 198.5 in, 5.0419 m exactly."""
    go = read_go("16 ft 6 1/2 in bearing 90 deg rising 100 %")
    assert go.length == pytest.approx(198.5 * 0.0254, rel=1e-15)
    assert go.direction == pytest.approx((math.sqrt(0.5), 0.0, math.sqrt(0.5)), abs=1e-15)


@pytest.mark.parametrize("text", ["16 ft 6 1/2 in east", "5.0419 m east", "198.5 in east"])
def test_one_length_in_three_spellings(text):
    assert read_go(text).length == pytest.approx(5.0419, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("12 m up rising 1 in 100", "a slope follows a level direction"),
        ("12 m rising 1 in 100", "a slope follows a level direction"),
        ("12 m east rising", "expected a slope"),
        ("12 m east rising 0.01", "expected a slope"),
        ("12 m east rising 1 in 0", "a slope is above zero"),
        ("12 m east rising -1 %", "a slope is above zero"),
        ("12 m east rising 90 deg", "above 0 deg and below 90 deg"),
        ("12 m east rising 0 deg", "above 0 deg and below 90 deg"),
        ("12 m east rising 2 in 100", "expected a slope"),
        ("12 m bearing 361 deg", "a bearing is from 0 deg"),
        ("12 m bearing -10 deg", "a bearing is from 0 deg"),
        ("12 m bearing 10", "it has no unit"),
        ("12 m berring", "did you mean 'bearing'"),
        ("0 m bearing 10 deg", "the length must be above zero"),
        ("bearing 10 deg", "is not a length|is not a direction"),
    ],
)
def test_wrong_way_says_what_is_wrong(text, message):
    with pytest.raises(ValueError, match=message):
        read_go(text)
