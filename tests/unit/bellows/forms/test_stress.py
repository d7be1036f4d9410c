"""Tangent, collar, end convolution and the range.     (tests/unit/bellows/forms/test_stress.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest

from takeup.bellows.forms import stress
from takeup.bellows.geometry import bellows

P, E = np.array([1e6]), np.array([200e9])


def shape(**more: float):
    return bellows(inside_diameter=0.2, height=0.02, pitch=0.02, ply_thickness=1e-3, plies=2, **more)


def test_long_tangent_alone_is_a_cylinder():
    """K = 1: p (D_b + n t)/(2 n t) = 202/4 = 50.5 MPa by hand; only doubles round."""
    assert stress.tangent_stress(shape(tangent_length=0.05), P, E, E) == pytest.approx(50.5e6, rel=1e-12)


def test_short_tangent_carries_its_share():
    """K = L_t/(1.5 sqrt(D_b t)) = 10/(1.5 sqrt(200)) = 0.47140 by hand, five digits."""
    short = shape(tangent_length=0.01)
    assert stress.tangent_share(short) == pytest.approx(0.47140, abs=5e-6)
    assert stress.tangent_stress(short, P, E, E) == pytest.approx(0.47140 * 50.5e6, rel=2e-5)


def test_collar_and_tangent_carry_the_pressure_together():
    """K = 1 and L_c = L_t: the two hoop forces add up to p (D_b + n t) L_t/2 when the stresses go as E D; by hand.

    S1/S1' = (D_b + n t)^2 E_b/(D_c^2 E_c), and S1 n t L_t + S1' t_c L_c (D_b + n t)/D_c = p (D_b + n t) L_t/2.
    Only doubles round.
    """
    both = shape(tangent_length=0.05, collar_thickness=5e-3, collar_length=0.05)
    soft = np.array([100e9])
    s1, collar = (form(both, P, E, soft) for form in (stress.tangent_stress, stress.collar_stress))
    bore, diameter = 0.202, 0.209
    assert stress.collar_diameter(both) == pytest.approx(diameter, rel=1e-12)
    assert s1 / collar == pytest.approx(bore**2 * 2 / diameter**2, rel=1e-12)
    carried = s1 * 2e-3 * 0.05 + collar * 5e-3 * 0.05 * bore / diameter
    assert carried == pytest.approx(1e6 * bore * 0.05 / 2, rel=1e-12)


def test_short_tangent_lets_its_collar_help_by_the_same_share():
    """K = 0.47140 stands on both sides, once with p and once with the collar; by hand, six digits.

    S1 = 202^2 x 10 x 0.47140/(2 [2 x 10 x 202 + 5 x 0.47140 x 10 x 209]) = 10.7265 MPa, lengths in mm, E alike.
    """
    both = shape(tangent_length=0.01, collar_thickness=5e-3, collar_length=0.01)
    assert stress.tangent_stress(both, P, E, E) == pytest.approx(10.7265e6, abs=50)  # half of the last digit


def test_no_tangent_no_stress_of_one():
    assert np.isnan(stress.tangent_stress(shape(), P, E, E)).all()
    assert np.isnan(stress.collar_stress(shape(tangent_length=0.05), P, E, E)).all()


def test_end_convolution_holds_its_load():
    """Cut along the axis: S2,E (A + n t_p L_t + t_c L_c) 2 = p (q D_m + L_t (D_b + n t)), by hand from D_m = 222 mm."""
    both = shape(tangent_length=0.03, collar_thickness=5e-3, collar_length=0.02)
    ply = 1e-3 * math.sqrt(200 / 222)
    metal = (0.5 * (math.pi - 2) * 0.02 + 0.04) * 2 * ply + 2 * ply * 0.03 + 5e-3 * 0.02
    load = 1e6 * (0.02 * 0.222 + 0.03 * 0.202)
    assert stress.end_hoop_stress(both, P) == pytest.approx(load / (2 * metal), rel=1e-12)  # only doubles round
    assert stress.end_hoop_stress(shape(), P) == stress.hoop_stress(shape(), P)


def test_membrane_of_pressure_by_hand():
    """P w/(2 n t_p) = 1 x 20/(4 x 0.94916) = 5.2678 MPa; five digits by hand."""
    assert stress.pressure_membrane(shape(), P) == pytest.approx(5.2678e6, abs=50)


def test_range_has_no_sign():
    """0.7 of the pressure part, EJMA and ASME (from memory): by hand 0.7 x 100 + 500."""
    for part in (100.0, -100.0):
        assert stress.stress_range(np.array([part]), np.array([500.0])) == pytest.approx(570.0, rel=1e-12)
