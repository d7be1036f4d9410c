"""Curves: on a row, between rows, outside them, and what they rest on.     (tests/unit/library/test_records.py)"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.errors import OutOfRange
from takeup.library import Curve, Source

BOOK = Source(words="a handbook", status="read")
RECALLED = Source(words="recalled", status="from memory")
CURVE = Curve(
    what="modulus of a made-up steel",
    temperatures=(0.0, 100.0, 300.0),
    values=(200e9, 190e9, 150e9),
    statuses=("read", "read", "from memory"),
    source=RECALLED,
    row_sources=(BOOK, BOOK, RECALLED),
    table="made-up.csv",
)


def test_curve_returns_rows_exactly_and_reads_linearly_between():
    """By hand: half way from 0 to 100 is 195, a quarter of the way from 100 to 300 is 180; exact in doubles."""
    assert [CURVE.at(degc) for degc in (0, 50, 100, 150, 300)] == [200e9, 195e9, 190e9, 180e9, 150e9]


@given(st.floats(min_value=0, max_value=300))
def test_curve_stays_between_its_neighbouring_rows(degc: float):
    """The rows fall, so the value is at least the lowest and at most the highest; 1 Pa of 2e11 is rounding."""
    assert 150e9 - 1 <= CURVE.at(degc) <= 200e9 + 1


def test_curve_rests_on_the_rows_beside():
    """One row recalled makes the value recalled; on a row, that row alone counts."""
    assert [CURVE.status_at(degc) for degc in (0, 50, 100, 101, 300)] == [
        "read",
        "read",
        "read",
        "from memory",
        "from memory",
    ]
    assert CURVE.sources_at(50) == (BOOK,)
    assert CURVE.sources_at(200) == (BOOK, RECALLED)


def test_curve_without_row_sources_rests_on_its_table():
    typed = Curve(
        what="modulus", temperatures=(0.0, 1.0), values=(1.0, 2.0), statuses=("user's data", "read"), source=BOOK
    )
    assert typed.sources_at(0.5) == (BOOK,)
    assert typed.status_at(0.5) == "user's data"


@pytest.mark.parametrize(
    ("degc", "side"), [(310, "above 300 degC, the last row"), (-0.5, "below 0 degC, the first row")]
)
def test_curve_refuses_outside_its_rows(degc: float, side: str):
    with pytest.raises(OutOfRange) as refusal:
        CURVE.at(degc, asked="design temperature")
    assert str(refusal.value) == (
        f"design temperature {degc:g} degC is {side} for modulus of a made-up steel (made-up.csv). "
        f"Choose a material tabulated to {degc:g} degC, or another design temperature."
    )


def test_curve_refuses_a_temperature_that_is_no_number():
    with pytest.raises(OutOfRange):
        CURVE.at(float("nan"))


def test_curve_with_rows_out_of_order_is_our_own_mistake():
    with pytest.raises(AssertionError, match="temperatures rise"):
        Curve(what="x", temperatures=(1.0, 0.0), values=(1.0, 2.0), statuses=("read", "read"), source=BOOK)
