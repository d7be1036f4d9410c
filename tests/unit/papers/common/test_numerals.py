"""Numbers are printed with sensible digits, in line, and never so that two unlike look alike."""

from __future__ import annotations

import math

import pytest

from takeup.edge import SI, TIE, US
from takeup.papers.common.numerals import (
    as_given,
    column,
    fixed,
    pair,
    percent_of,
    plain,
    scientific,
    to_safe_side,
    told,
    written,
    written_column,
)


@pytest.mark.parametrize(
    ("value", "decimals", "words"),
    [
        (-82.567, 2, "−82.57"),
        (-0.001, 2, "0.00"),
        (0.0, 1, "0.0"),
        (None, 2, "–"),
        (math.inf, 2, "∞"),
        (-math.inf, 1, "−∞"),
    ],
)
def test_fixed_has_a_true_minus_and_no_minus_before_nought(value, decimals, words):
    assert fixed(value, decimals) == words


@pytest.mark.parametrize(("whole", "words"), [("82.80", "−0.6"), ("0.00", "–"), ("−0.0", "–"), ("–", "–")])
def test_difference_from_nought_is_no_part_of_it(whole, words):
    """A hand result of 0.00 kN beside 0.02 kN of the model would be a difference of -100 % of the model's."""
    assert percent_of(whole, -0.6) == words


def test_column_has_one_number_of_decimals():
    """The largest, 123.4, has four figures with one decimal; all others follow it."""
    assert column([123.42, -1.0, None, 0.04]) == ["123.4", "−1.0", "–", "0.0"]


def test_column_of_small_numbers_shows_figures():
    assert column([0.65, 0.876]) == ["0.650", "0.876"]


def test_pair_shows_which_is_larger():
    """1.0132 of 1.0130 would read alike with three decimals."""
    assert pair(1.01325, 1.013) == ("1.0132", "1.0130")
    assert pair(1000.0, 2000.0) == ("1000", "2000")
    assert pair(None, 12.5) == ("–", "12.50")
    assert pair(5.3e-14, 1e-9) == ("5.3 × 10⁻¹⁴", "1.0 × 10⁻⁹")


def test_scientific_and_plain():
    assert scientific(2.2e2) == "2.2 × 10²"
    assert scientific(0.0) == "0"
    assert plain(12.1389) == "12.139"
    assert plain(132971.3) == "132971"
    assert plain(-8.0) == "−8"
    assert plain(None) == "–"


def test_number_of_the_results_is_written_in_either_system():
    """82 565 N / 4.448222 = 18 561.4 lbf; 12 bar x 14.503774 = 174.05 psi; 104 mm / 25.4 = 4.0945 in (by hand)."""
    assert told(82_565.0, SI.force, 1) == "82.6 kN"
    assert told(82_565.0, US.force, 1) == f"18{TIE}561 lbf"
    assert told(12.0, US.pressure, 2) == "174.0 psig"
    assert written(-104.0, SI.small, 1) == "−104.0"
    assert written(-104.0, US.small, 1) == "−4.094"
    assert written(-0.4, US.force, 1) == "0"
    assert written(None, US.length, 2) == "–"
    assert written(-0.3048, US.length, 2) == f"−1{TIE}ft{TIE}0{TIE}in"


def test_column_of_the_results_has_one_number_of_decimals_in_either_system():
    """-18 561.4 lbf has five figures, so no decimals; 53.0 lbf alone has two."""
    assert written_column([-82_565.0, None, 236.0], SI.force, 2) == ["−82.56", "–", "0.24"]
    assert written_column([-82_565.0, None, 236.0], US.force, 2) == [f"−18{TIE}561", "–", "53"]
    assert written_column([236.0], US.force, 2) == ["53.1"]


def test_number_that_was_given_gets_no_figures_by_converting():
    """140 mm are 5.5118 in, printed to a thousandth; 46 000 mm2 / 645.16 = 71.300 in2 (by hand)."""
    assert (as_given(140.0, SI.small), as_given(140.0, US.small)) == ("140", "5.512")
    assert (as_given(46_000.0, SI.area), as_given(46_000.0, US.area)) == ("46000", "71.3")
    assert as_given(None, US.small) == "–"


@pytest.mark.parametrize(
    ("value", "decimals", "side", "printed"),
    [
        (103.94, 1, "at least", "104.0"),
        (23.0, 1, "at least", "23.0"),
        (0.6661, 2, "at least", "0.67"),
        (0.3, 1, "at least", "0.3"),
        (87.0226, 1, "at least", "87.1"),
        (1027.79, 1, "at most", "1027.7"),
        (46000.0, 0, "at most", "46000"),
        (-1.01325, 2, "at most", "−1.02"),
        (-14.6, 1, "at most", "−14.6"),
        (0.3, 1, "at most", "0.3"),
    ],
)
def test_limit_is_rounded_to_its_safe_side(value, decimals, side, printed):
    """By hand; what stands there exactly stays, though 0.3 and 23.0 are no sums of powers of two."""
    assert fixed(to_safe_side(value, decimals, side), decimals) == printed
