"""What a balancing bellows leaves of the thrust, by hand.     (checks/test_balance_left.py)"""

from __future__ import annotations

import pytest
from tests.builders import joint, line_file, solve

from takeup.checks import balance_left
from takeup.checks.outcome import CheckResult


def rows(area: str) -> list[CheckResult]:
    balance = f"balance: {{ axial_rate: 190 N/mm, effective_area: {area}, source: invented }}"
    takeup = joint("J1", "10 m", kind="in-line pressure balanced").replace(", data:", f", {balance}, data:", 1)
    return balance_left.check(solve(line_file(["20 m east"], takeups=(takeup,))))


@pytest.mark.parametrize("area", ["46000 mm2", "43800 mm2", "48200 mm2"])
def test_equal_areas_balance(area):
    """46 000 mm2 within 5 %: 43 700 to 48 300 mm2."""
    (row,) = rows(area)
    assert (row.outcome, row.where) == ("passes", "J1")


@pytest.mark.parametrize(
    ("area", "words"),
    [
        ("34500 mm2", "its balance is too small: it leaves 25% of the thrust, 20.7 kN, "),
        ("55200 mm2", "its balance is too large: it draws together with 20% of the thrust, 16.6 kN, "),
    ],
)
def test_what_is_left_is_told(area, words):
    """Test at 18 bar(g): 1.8 N/mm2 x 11 500 mm2 = 20.7 kN of 82.8 kN, and x 9200 mm2 = 16.56 kN (by hand)."""
    (row,) = rows(area)
    assert (row.outcome, row.state) == ("close", "under hydrostatic test")
    assert row.because.startswith(words)


def test_joints_without_a_balance_are_not_asked():
    assert balance_left.check(solve(line_file(["20 m east"], takeups=(joint("J1", "10 m"),)))) == []
