"""Numbers are printed with sensible digits, in line, and never so that two unlike look alike."""

from __future__ import annotations

import math

import pytest

from takeup.papers.numerals import as_printed, column, fixed, pair, plain, scientific


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


def test_units_are_printed_in_kilonewtons():
    assert as_printed("N") == (1e-3, "kN")
    assert as_printed("MPa") == (1.0, "MPa")
