"""Guided cantilever: its three forms are one formula.     (tests/unit/basis/test_guided_cantilever.py)"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.basis import cantilever_force, cantilever_length, cantilever_stress
from takeup.errors import OutOfRange


@given(movement=st.floats(min_value=1e-4, max_value=1), length=st.floats(min_value=0.1, max_value=100))
def test_length_gives_back_the_stress(movement: float, length: float):
    """The length form is the stress form solved for L; a square root and four products round."""
    stress = cantilever_stress(203e9, 0.2191, movement, length)
    assert cantilever_length(203e9, 0.2191, movement, stress) == pytest.approx(length, rel=1e-12)


def test_stress_is_the_moment_of_the_force_over_the_section():
    """Statics: M = F L/2 at both ends, S = M D/(2 I); only doubles round."""
    force = cantilever_force(203e9, 3e-5, 0.05, 6.0)
    stress = cantilever_stress(203e9, 0.2191, 0.05, 6.0)
    assert stress == pytest.approx(force * 6.0 / 2 * 0.2191 / (2 * 3e-5), rel=1e-12)


def test_force_and_stress_keep_the_sign_of_the_movement():
    assert cantilever_force(203e9, 3e-5, -0.05, 6.0) == -cantilever_force(203e9, 3e-5, 0.05, 6.0)
    assert cantilever_stress(203e9, 0.2191, -0.05, 6.0) < 0


@pytest.mark.parametrize("length", [0.0, -1.0, float("nan")])
def test_leg_without_length_is_refused(length: float):
    with pytest.raises(OutOfRange, match="the length must be above zero"):
        cantilever_force(203e9, 3e-5, 0.05, length)
    with pytest.raises(OutOfRange, match="the length must be above zero"):
        cantilever_stress(203e9, 0.2191, 0.05, length)


@pytest.mark.parametrize(("movement", "stress"), [(-0.05, 100e6), (0.05, 0.0), (0.05, -1.0), (0.05, float("nan"))])
def test_length_without_a_stress_to_keep_is_refused(movement: float, stress: float):
    with pytest.raises(OutOfRange, match="give the size of each"):
        cantilever_length(203e9, 0.2191, movement, stress)
