"""Acceptance, forming, yield of the formed metal.     (tests/unit/bellows/forms/test_limits.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms import Limit, acceptance, forming, published, squirm
from takeup.bellows.geometry import Bellows, bellows

SHAPE = bellows(inside_diameter=0.219, height=0.022, pitch=0.024, convolutions=8, ply_thickness=1e-3)
TANGENT = bellows(
    inside_diameter=0.219, height=0.022, pitch=0.024, convolutions=8, ply_thickness=1e-3, tangent_length=0.03
)
TWO_PLIES = bellows(inside_diameter=0.219, height=0.022, pitch=0.024, ply_thickness=1e-3, plies=2)


def limits(
    pressure: float, *, annealed: bool = False, allowable: float = 110e6, shape: Bellows = SHAPE
) -> dict[tuple[str, str], Limit]:
    metal = Metal(
        **{
            name: np.array([value])
            for name, value in (
                ("modulus", 180e9),
                ("cold_modulus", 195e9),
                ("poisson", 0.3),
                ("yield_strength", 170e6),
                ("allowable", allowable),
            )
        },
        annealed=np.array([annealed]),
        family=("austenitic",),
    )
    asked = {"pressure": pressure, "temperature": 200.0, "axial": 0.02, "lateral": 0.0, "angular": 0.0, "cycles": 500.0}
    duty = Duty(**{name: np.array([value]) for name, value in asked.items()})
    return {(one.name, one.source[:4]): one for one in acceptance(published(shape, metal, duty), metal, duty)}


def test_uses_by_hand():
    """S2 of the worked bellows is 52.907 MPa at 1 MPa: 0.4810 of 110 MPa; S3 + S4 172.46 over 3 x 110: 0.5226."""
    found = limits(1e6)
    assert found["S2, inner convolution", "ASME"].use == pytest.approx(0.4810, abs=5e-5)
    assert found["S3 + S4, meridian", "ASME"].use == pytest.approx(0.5226, abs=5e-5)


def test_end_convolution_counts_its_tangent():
    """S2,E = (24 x 242 + 30 x 220)/(2 (54.8888 + 0.951290 x 30)) = 74.364 MPa at 1 MPa: 0.67604 of 110; by hand."""
    found = limits(1e6, shape=TANGENT)
    assert found["S2, end convolution", "ASME"].use == pytest.approx(0.67604, abs=5e-6)  # half of the last digit


def test_stress_of_pressure_from_outside_counts_by_its_magnitude():
    """No form knows the sense of pressure: each stress only turns its sign, so the use stays to the last bit."""
    inside, outside = limits(1e6, shape=TANGENT), limits(-1e6, shape=TANGENT)
    stresses = [name for name in inside if inside[name].unit == "Pa" and name[0].startswith("S")]
    assert len(stresses) == 5
    for name in stresses:
        assert outside[name].use == inside[name].use, name


def test_annealed_may_bend_half_as_much():
    """K_m 1.5 against 3 (EN, and ASME where Y_sm reaches 2): from memory, medium."""
    formed, soft = limits(1e6), limits(1e6, annealed=True)
    for code in ("ASME", "EN 1"):
        name = ("S3 + S4, meridian", code)
        assert soft[name].use == pytest.approx(2 * formed[name].use, rel=1e-12)
    name = ("in-plane squirm", "ASME")
    assert soft[name].use == pytest.approx(2.3 / 0.75 * formed[name].use, rel=1e-12)


def test_squirm_is_of_pressure_inside_and_collapse_of_outside():
    inside, outside = limits(1e6), limits(-1e5)
    collapse = ("collapse, pressure from outside", "elas")
    assert np.isnan(inside[collapse].use).all()
    assert np.isfinite(outside[collapse].use).all()
    assert outside[collapse].demand == 1e5
    for code in ("ASME", "EJMA"):
        assert np.isnan(outside["column squirm", code].use).all()
        assert np.isfinite(inside["column squirm", code].use).all()


def test_allowable_not_stated_gives_no_use():
    found = limits(1e6, allowable=math.nan)
    assert np.isnan(found["S2, inner convolution", "ASME"].use).all()
    assert np.isfinite(found["in-plane squirm", "ASME"].use).all()


def test_no_average_life_is_a_limit():
    assert {name[1] for name in limits(1e6) if name[0] == "design life"} == {"ASME", "EN 1"}


def test_forming_strain_by_hand():
    """ln(1 + 44/219) = 0.18309; t_p 0.95129: ln(1 + 1.90258/24) = 0.07629; root of squares 0.19835. Four digits."""
    assert forming.forming_strain(SHAPE) == pytest.approx(0.19835, abs=2e-5)


def test_forming_strain_bends_all_plies_as_one():
    """Two plies: t_p 0.949334, ln(1 + 4 x 0.949334/24) = 0.146886 beside 0.183082: 0.234723; six digits by hand."""
    assert forming.forming_strain(TWO_PLIES) == pytest.approx(0.234723, abs=5e-7)


def test_hardening_by_hand():
    """ASME VIII-1 App. 26, from memory (medium), at x = 0.6 eps_f = 0.06; five digits by hand.

    Austenitic 1 + 0.5964 - 0.02732 - 0.00052 + 0.00003, nickel 1 + 0.408 - 0.0328 + 0.0021 - 0.00008.
    """
    strain, families = np.array([0.1, 0.1, 0.1, 0.5]), ("austenitic", "higher alloy 625/825", "", "austenitic")
    found = forming.hardening(strain, families)
    assert found == pytest.approx([1.56859, 1.37722, 1.0, 2.0], abs=2e-5)
    assert forming.hardening(strain, families, way=forming.ROLLED)[0] > found[0]


def test_yield_of_formed_metal():
    """ASME 2.3 and 0.75, EJMA 0.67 C_m (from memory): by hand 0.67 x 1.5 = 1.005."""
    strip = np.array([100.0, 100.0])
    assert squirm.yield_asme(strip, np.array([False, True])) == pytest.approx([230.0, 75.0], rel=1e-12)
    assert squirm.yield_ejma(strip, np.array([3.0, 1.5])) == pytest.approx([201.0, 100.5], rel=1e-12)


def test_in_plane_without_bending():
    """Alpha = 2 at delta = 0, and 4 delta^2 + 1/2 for great delta, by expanding the root; 1e-4 comes next."""
    assert squirm.interaction(np.array([0.0])) == pytest.approx(2.0, rel=1e-12)
    assert squirm.interaction(np.array([50.0])) == pytest.approx(4 * 2500 + 0.5, abs=1e-3)


def test_in_plane_of_ejma_by_hand():
    """1.3 x 54.889 mm2 x 0.67 x 3 x 205 MPa/(242 x 24 mm x sqrt(4.8343)) = 2.3024 MPa; five digits by hand."""
    pressure = squirm.in_plane_ejma(SHAPE, np.array([4.8343]), squirm.yield_ejma(np.array([205e6]), np.array([3.0])))
    assert pressure == pytest.approx(2.3024e6, abs=50)


def test_a_third_of_the_collapse_is_allowed():
    """ASME VIII-1 UG-28 (from memory): a factor of 3. Rings 2 x 180e9/0.91 x (10.918/262.84)^3 = 28.354 MPa by hand."""
    capacity = limits(-1e5)["collapse, pressure from outside", "elas"].capacity
    assert capacity == pytest.approx(28.354e6 / 3, rel=3e-4)  # e to five digits, cubed
