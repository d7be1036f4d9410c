"""The screening rule, and the L-bend on which two quick rules disagree.     (tests/published/test_screening.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import CODES, SCREENING_LIMIT, clause, screening_limit, screening_result, screening_value
from takeup.units import METRES_PER_FOOT, METRES_PER_INCH, mm

SQUARE_INCHES_PER_SQUARE_FOOT = 144


def test_limits_in_both_systems_are_one_limit():
    """ASME B31.9 919.4.1 eq. (8) (read): 0.03 with in, in, ft, ft and 208.3 with mm, mm, m, m.

    0.03/144 = 208.33e-6: the metric figure is printed to four digits.
    """
    assert pytest.approx(0.03 / SQUARE_INCHES_PER_SQUARE_FOOT, rel=0.05 / 208.3) == SCREENING_LIMIT


@pytest.mark.parametrize(("diameter", "printed"), [(6.0, 0.0413), (6.625, 0.0456)])
def test_l_bend_value_of_the_screening_rule(diameter: float, printed: float):
    """NPS 6, legs 25 and 20 ft, 500 degF; computed from Y 1.159 in, U 32.02 ft, L 45 ft: half of the last digit.

    Y and U by hand: U = sqrt(25^2 + 20^2) ft, Y = 3.62 in/100 ft along U; half of their last digits.
    """
    assert math.hypot(25, 20) == pytest.approx(32.02, abs=0.005)
    assert 3.62 * math.hypot(25, 20) / 100 == pytest.approx(1.159, abs=0.0005)
    value = screening_value(
        diameter * METRES_PER_INCH, 1.159 * METRES_PER_INCH, 45 * METRES_PER_FOOT, 32.02 * METRES_PER_FOOT
    )
    assert value * SQUARE_INCHES_PER_SQUARE_FOOT == pytest.approx(printed, abs=0.00005)


def test_l_bend_that_a_quick_rule_passes_needs_formal_analysis():
    """The guided-cantilever rule of an article (read) passes the same bend: 7.77 sqrt(1.0*6) = 19.03 ft < 20 ft.

    Two quick rules, opposite verdicts: the line has neither passed nor failed. 0.005 ft is half of the last digit.
    """
    assert 7.77 * math.sqrt((500 - 100) * 25 / 10_000 * 6) == pytest.approx(19.03, abs=0.005)
    straight = math.hypot(25, 20) * METRES_PER_FOOT
    result = screening_result(6.625 * METRES_PER_INCH, 1.159 * METRES_PER_INCH, 45 * METRES_PER_FOOT, straight)
    assert result.outcome == "formal analysis needed"
    assert "exceeds 208.3" in result.because
    assert "B31.9" in result.source


def test_flexible_line_is_excused():
    """By hand: 219.1 mm * 100 mm / (40 - 20)^2 m2 = 54.8 mm2/m2, below 208.3; three printed digits."""
    result = screening_result(mm(219.1), mm(100), 40.0, 20.0)
    assert result.value * 1e6 == pytest.approx(54.8, abs=0.05)
    assert result.outcome == "no formal analysis needed"


@pytest.mark.parametrize(
    ("code", "number"), [("ASME B31.1", "119.7"), ("ASME B31.3", "319.4.1"), ("EN 13480-3", "12.2")]
)
def test_rule_names_its_clause_by_code(code, number: str):
    """One rule in all three: the clauses of ASME were read, that of EN 13480-3 is from memory (low)."""
    result = screening_result(mm(219.1), mm(100), 40.0, 20.0, code=code)
    assert result.value == screening_value(mm(219.1), mm(100), 40.0, 20.0)
    assert result.source == clause(code, "screening").words
    assert f"{code} {number}" in result.source
    assert code in CODES


def test_limit_by_material_is_the_fixed_one_at_a_thousandth():
    """B31.3 319.4.1 (from memory, high): K1 = 30 S_A/E_a (in, ft), 208 000 S_A/E_a (mm, m); 0.03 at S_A/E_a = 1/1000.

    208 000 is 208 333 rounded to three figures; 208.3 has four.
    """
    assert screening_limit(200e6, 200e9) == pytest.approx(SCREENING_LIMIT, rel=0.05 / 208.3)
    assert screening_limit(200e6, 200e9) * 1e6 == pytest.approx(208_000 * 200e6 / 200e9, rel=2e-3)
