"""Cold spring: its limits, and what is refused.     (tests/unit/basis/test_cold_spring.py)"""

from __future__ import annotations

import pytest

from takeup.basis import cold_reaction, hot_reaction
from takeup.errors import OutOfRange

COLD = {"hot_allowable": 110e6, "hot_modulus": 185e9, "cold_modulus": 203e9}


def test_sign_follows_the_reaction():
    assert hot_reaction(-9e3, 0.5, 185e9, 203e9) == -hot_reaction(9e3, 0.5, 185e9, 203e9)
    assert cold_reaction(-9e3, 0.5, expansion_stress=100e6, **COLD) == -4.5e3  # C_1 is below zero: C counts


def test_line_without_cold_spring_or_relaxation_pulls_nothing_cold():
    """S_E = 100 MPa: C_1 = 1 - 110*203/(100*185) = -0.207; below zero, so nothing."""
    assert cold_reaction(9e3, 0.0, expansion_stress=100e6, **COLD) == 0.0


@pytest.mark.parametrize("share", [-0.01, 1.01, float("nan")])
def test_cold_spring_that_is_no_share_is_refused(share: float):
    with pytest.raises(OutOfRange, match="is not a share of the growth"):
        hot_reaction(9e3, share, 185e9, 203e9)
    with pytest.raises(OutOfRange, match="is not a share of the growth"):
        cold_reaction(9e3, share, expansion_stress=100e6, **COLD)


def test_stress_that_is_none_is_refused():
    with pytest.raises(OutOfRange, match="expansion stress 0"):
        cold_reaction(9e3, 0.5, expansion_stress=0.0, **COLD)
