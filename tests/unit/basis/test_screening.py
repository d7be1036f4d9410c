"""Screening: excuses or asks for analysis, never fails a line.     (tests/unit/basis/test_screening.py)"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.basis import SCREENING_LIMIT, screening_result, screening_value
from takeup.errors import OutOfRange


@given(expansion=st.floats(min_value=0, max_value=10), detour=st.floats(min_value=0.1, max_value=100))
def test_screening_excuses_exactly_up_to_the_limit(expansion: float, detour: float):
    """The outcome follows from value and limit alone, and is never a failure."""
    result = screening_result(0.2191, expansion, 50.0 + detour, 50.0)
    assert (result.outcome == "no formal analysis needed") == (result.value <= SCREENING_LIMIT)
    assert "fail" not in result.outcome + result.because


@pytest.mark.parametrize(("developed", "straight"), [(40.0, 40.0), (30.0, 40.0), (40.0, -1.0), (float("nan"), 1.0)])
def test_straight_line_is_outside_the_rule(developed: float, straight: float):
    with pytest.raises(OutOfRange, match="does not apply to a straight line"):
        screening_value(0.2191, 0.1, developed, straight)


@pytest.mark.parametrize(("diameter", "expansion"), [(0.2191, -0.1), (0.0, 0.1), (float("nan"), 0.1)])
def test_numbers_below_zero_are_refused(diameter: float, expansion: float):
    with pytest.raises(OutOfRange, match="is below zero, or diameter"):
        screening_value(diameter, expansion, 60.0, 40.0)
