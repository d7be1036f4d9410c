"""Equivalent cycles and the range factor as the codes state them.     (tests/published/test_cycles.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import CODES, cycle_factor, equivalent_cycles


@pytest.mark.parametrize("code", CODES)
def test_seven_thousand_cycles_are_free(code):
    """B31.3 302.3.5 (from memory, high): 6.0*7000^(-0.2) = 1.02, so f = 1.0; 6^5 = 7776 are the last free."""
    assert 6.0 / math.pow(7000, 0.2) == pytest.approx(1.02, abs=0.005)
    assert cycle_factor(code, 7000) == 1.0
    assert cycle_factor(code, 7776) == pytest.approx(1.0, rel=1e-12)
    assert cycle_factor(code, 7800) < 1.0


@pytest.mark.parametrize(("cycles", "step"), [(14_000, 0.9), (22_000, 0.8), (45_000, 0.7), (100_000, 0.6)])
def test_factor_against_the_older_steps(cycles: float, step: float):
    """Steps of older B31.1 and of EN 13480-3 (from memory, high): 0.9 to 14 000 and so on; rounded to a tenth."""
    assert cycle_factor("EN 13480-3", cycles) == pytest.approx(step, abs=0.05)


def test_half_ranges_count_a_thirty_second():
    """N = 7000 + 0.5^5*32 000 = 8000, by hand; the full range counts once. Exact in binary."""
    assert equivalent_cycles(7000, [(0.5, 32_000)]) == 8000
    assert equivalent_cycles(7000, [(1.0, 500), (0.0, 1e6)]) == 7500
    assert equivalent_cycles(7000, []) == 7000
