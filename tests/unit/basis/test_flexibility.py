"""Elbow factors: never below one, refused where no bend is.     (tests/unit/basis/test_flexibility.py)"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.basis import (
    bend_flexibility_factor,
    bend_intensification,
    flexibility_characteristic,
    in_plane_intensification,
    out_of_plane_intensification,
)
from takeup.errors import OutOfRange

FACTORS = (bend_flexibility_factor, bend_intensification, in_plane_intensification, out_of_plane_intensification)


def test_characteristic_by_hand():
    """T R1/r2^2 = 0.01*0.3/0.1^2 = 0.3; only doubles round."""
    assert flexibility_characteristic(0.3, 0.1, 0.01) == pytest.approx(0.3, rel=1e-12)


@given(st.floats(min_value=1e-3, max_value=100))
def test_bend_is_never_stiffer_than_straight_pipe(characteristic: float):
    """ASME B31.1 Appendix D: k and i are not below one; in plane is never below out of plane."""
    assert all(factor(characteristic) >= 1 for factor in FACTORS)
    assert in_plane_intensification(characteristic) >= out_of_plane_intensification(characteristic)


def test_thick_wide_bend_is_straight_pipe():
    """By hand: 1.65/2 = 0.83 and 0.9/2^(2/3) = 0.57 are both below one, so the appendix says one."""
    assert [factor(2.0) for factor in FACTORS] == [1, 1, 1, 1]


@pytest.mark.parametrize(
    ("bend_radius", "mean_radius", "wall"),
    [(0.1, 0.1, 0.01), (0.3, 0.1, 0.0), (0.3, 0.1, 0.2), (-0.3, 0.1, 0.01), (0.3, 0.0, 0.01), (0.3, 0.1, float("nan"))],
)
def test_dimensions_that_make_no_bend_are_refused(bend_radius: float, mean_radius: float, wall: float):
    with pytest.raises(OutOfRange, match="do not make a bend"):
        flexibility_characteristic(bend_radius, mean_radius, wall)


@pytest.mark.parametrize("factor", FACTORS)
@pytest.mark.parametrize("characteristic", [0.0, -0.3, float("nan")])
def test_characteristic_that_is_not_above_zero_is_refused(factor, characteristic: float):
    with pytest.raises(OutOfRange, match="is not above zero"):
        factor(characteristic)
