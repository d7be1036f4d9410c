"""Cold spring as ASME B31.3 319.5.1 credits it.     (tests/published/test_cold_spring.py)

Formulas from memory (high).
"""

from __future__ import annotations

import pytest

from takeup.basis import cold_reaction, hot_reaction


@pytest.mark.parametrize(("cold_spring", "share"), [(0.0, 1.0), (0.5, 2 / 3), (1.0, 1 / 3)])
def test_hot_reaction_with_cold_spring(cold_spring: float, share: float):
    """R_m = R (1 - 2 C/3) E_m/E_a: half cold spring leaves 2/3 of R; only doubles round."""
    assert hot_reaction(9000.0, cold_spring, 200e9, 200e9) == pytest.approx(9000.0 * share, rel=1e-12)
    assert hot_reaction(9000.0, cold_spring, 180e9, 200e9) == pytest.approx(8100.0 * share, rel=1e-12)


@pytest.mark.parametrize(("cold_spring", "newtons"), [(0.0, 3500.0), (0.3, 3500.0), (0.5, 5000.0)])
def test_cold_reaction_is_the_greater_of_two(cold_spring: float, newtons: float):
    """S_h 117 MPa, S_E 200 MPa, E_m/E_a = 0.9: C_1 = 1 - 117/(200*0.9) = 0.35; R = 10 kN: 0.35 R or C R, the greater.

    Only doubles round.
    """
    found = cold_reaction(
        10e3, cold_spring, hot_allowable=117e6, expansion_stress=200e6, hot_modulus=180e9, cold_modulus=200e9
    )
    assert found == pytest.approx(newtons, rel=1e-12)
