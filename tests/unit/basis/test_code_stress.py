"""Stress by code on one pipe, by hand.     (tests/unit/basis/test_code_stress.py)

219.1 x 8.18 mm: Z = 2.75554e-4 m3, A = 5.42027e-3 m2; 1 MPa, 100 kN in the wall; moments 3, 4 and 12 kN m, whose
resultant is 13. Factors 2.0 in plane, 1.6 out of plane. Worked out apart from this program to six figures.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.basis import (
    CODES,
    OCCASIONS,
    STRAIGHT_PIPE,
    Moments,
    expansion_stress,
    expansion_stress_range,
    occasional_limit,
    occasional_stress,
    section_modulus,
    sustained_stress,
)
from takeup.errors import OutOfRange
from takeup.units import mm

SIX = 2e-6  # relative: six figures
ONE = replace(STRAIGHT_PIPE, in_plane=2.0, out_of_plane=2.0, torsion=2.0, rule="by hand")
PLANES = replace(STRAIGHT_PIPE, in_plane=2.0, out_of_plane=1.6, rule="by hand")
MOMENTS = Moments(in_plane=-3e3, out_of_plane=4e3, torsion=12e3)
PIPE = {"outside_diameter": mm(219.1), "wall": mm(8.18)}
LOADS = {"moments": MOMENTS, "pressure": 1e6, "axial_force": 100e3, "allowance": 0.0}


@pytest.mark.parametrize("code", ["ASME B31.1", "EN 13480-3"])
def test_sustained_with_one_factor(code):
    """1*219.1/(4*8.18) = 6.69621; 0.75*2 = 1.5, 1.5*13e3/Z = 70.7665: together 77.4627 MPa.

    With i = 1.2 the product 0.9 counts as one: 6.69621 + 47.1777 = 53.8739 MPa.
    """
    assert sustained_stress(code, factors=ONE, **LOADS, **PIPE) == pytest.approx(77.4627e6, rel=SIX)
    low = replace(ONE, in_plane=1.2, out_of_plane=1.2)
    assert sustained_stress(code, factors=low, **LOADS, **PIPE) == pytest.approx(53.8739e6, rel=SIX)


def test_sustained_by_planes():
    """B31.3 320.2: S_a = 18.4493; I = 1.5 and 1.2, S_b = sqrt(4.5^2 + 4.8^2) kN m/Z = 23.8774; 2 S_t = 43.5486 MPa.

    sqrt((18.4493 + 23.8774)^2 + 43.5486^2) = 60.7291 MPa.
    """
    found = sustained_stress("ASME B31.3", factors=PLANES, **LOADS, **PIPE)
    assert found == pytest.approx(60.7291e6, rel=SIX)


def test_low_factors_count_as_one_in_each_plane():
    """0.75*1.2 and 0.75*1.1 are below one: S_b = 5 kN m/Z = 18.1453 MPa.

    sqrt((18.4493 + 18.1453)^2 + 43.5486^2) = 56.8826 MPa.
    """
    low = replace(PLANES, in_plane=1.2, out_of_plane=1.1)
    assert sustained_stress("ASME B31.3", factors=low, **LOADS, **PIPE) == pytest.approx(56.8826e6, rel=SIX)


@pytest.mark.parametrize("code", ["ASME B31.1", "EN 13480-3"])
def test_one_factor_is_the_greater_of_the_planes(code):
    """Planes of 2.0 and 1.6, whichever way round, act as one factor of 2.0."""
    for planes in (PLANES, replace(PLANES, in_plane=1.6, out_of_plane=2.0)):
        found = sustained_stress(code, factors=planes, **LOADS, **PIPE)
        assert found == sustained_stress(code, factors=ONE, **LOADS, **PIPE)


def test_b31_3_takes_the_allowance_off_the_wall_and_the_others_do_not():
    """6.68 mm: Z = 2.29741e-4, A = 4.45781e-3; the same sum gives 73.0515 MPa (B31.3 320.1)."""
    corroded = LOADS | {"allowance": mm(1.5)}
    process = sustained_stress("ASME B31.3", factors=PLANES, **corroded, **PIPE)
    assert process == pytest.approx(73.0515e6, rel=SIX)
    for code in ("ASME B31.1", "EN 13480-3"):
        plain, less = (sustained_stress(code, factors=ONE, **loads, **PIPE) for loads in (LOADS, corroded))
        assert less == plain


def test_wall_that_the_allowance_uses_up_is_refused():
    with pytest.raises(OutOfRange, match="is not between zero and half"):
        sustained_stress("ASME B31.3", factors=PLANES, **(LOADS | {"allowance": mm(9)}), **PIPE)


@pytest.mark.parametrize("code", ["ASME B31.1", "EN 13480-3"])
def test_expansion_with_one_factor_is_the_room_s_first_formula(code):
    """2*13e3/Z = 94.3553 MPa; the axial force does not enter."""
    found = expansion_stress(code, factors=ONE, moments=MOMENTS, axial_force=100e3, **PIPE)
    assert found == pytest.approx(94.3553e6, rel=SIX)
    assert found == expansion_stress_range(2.0, 13e3, section_modulus(**PIPE))


def test_expansion_by_planes():
    """B31.3 319.4.4: S_b = sqrt(6^2 + 6.4^2) kN m/Z = 31.8365 MPa.

    sqrt((18.4493 + 31.8365)^2 + 43.5486^2) = 66.5218 MPa; the sign of the axial force does not count.
    """
    found = expansion_stress("ASME B31.3", factors=PLANES, moments=MOMENTS, axial_force=-100e3, **PIPE)
    assert found == pytest.approx(66.5218e6, rel=SIX)


def test_torsion_factor_is_used():
    """Torsion alone, i_t = 1.5: 1.5*12e3/Z = 65.3229 MPa."""
    twist = Moments(in_plane=0.0, out_of_plane=0.0, torsion=12e3)
    found = expansion_stress("ASME B31.3", factors=replace(PLANES, torsion=1.5), moments=twist, axial_force=0.0, **PIPE)
    assert found == pytest.approx(65.3229e6, rel=SIX)


@pytest.mark.parametrize("code", CODES)
@given(turn=st.floats(min_value=0, max_value=math.pi))
def test_straight_pipe_does_not_care_which_plane_bends(code, turn: float):
    """All factors one: only the resultant of the bending counts; sine and cosine round."""
    planes = Moments(in_plane=5e3 * math.cos(turn), out_of_plane=5e3 * math.sin(turn), torsion=1e3)
    found = expansion_stress(code, factors=STRAIGHT_PIPE, moments=planes, axial_force=0.0, **PIPE)
    assert found == pytest.approx(math.hypot(5e3, 1e3) / section_modulus(**PIPE), rel=1e-12)


@pytest.mark.parametrize("code", CODES)
def test_given_section_modulus_replaces_the_pipe_s(code):
    """Half of Z doubles what the moment makes; only doubles round."""
    half = section_modulus(**PIPE) / 2
    whole, halved = (
        expansion_stress(code, factors=ONE, moments=MOMENTS, axial_force=0.0, **PIPE, modulus_of_section=z)
        for z in (None, half)
    )
    assert halved == pytest.approx(2 * whole, rel=1e-12)


@pytest.mark.parametrize("code", CODES)
def test_occasional_is_added_to_sustained(code):
    """Nothing occasional adds nothing; the same moments again add what they made, 70.7665 MPa where i is one number."""
    alone = {"factors": ONE, "axial_force": 0.0, "allowance": 0.0, **PIPE}
    nothing = Moments(in_plane=0.0, out_of_plane=0.0, torsion=0.0)
    assert occasional_stress(code, sustained=80e6, moments=nothing, **alone) == 80e6
    if code != "ASME B31.3":
        found = occasional_stress(code, sustained=80e6, moments=MOMENTS, **alone)
        assert found == pytest.approx(150.7665e6, rel=SIX)


def test_limits_of_occasional_loads():
    """B31.1 104.8.2: 1.15, 1.20; B31.3 302.3.6: 1.33; EN 13480-3 12.3.3: 1.0 to 1.8 (from memory)."""
    expected = [[1.15, 1.20], [1.33], [1.0, 1.15, 1.2, 1.3, 1.8]]
    for code, factors in zip(CODES, expected, strict=True):
        found = [occasional_limit(code, 100e6, occasion) / 100e6 for occasion in OCCASIONS[code]]
        assert found == pytest.approx(factors, rel=1e-12)  # only doubles round


def test_occasion_of_another_code_is_refused():
    with pytest.raises(OutOfRange, match=r"is no occasion of ASME B31\.3: wind or earthquake"):
        occasional_limit("ASME B31.3", 100e6, "up to 1 % of the time")


@pytest.mark.parametrize("code", CODES)
def test_vacuum_is_no_sustained_pressure(code):
    with pytest.raises(OutOfRange, match="pressure -100000"):
        sustained_stress(code, factors=ONE, **(LOADS | {"pressure": -1e5}), **PIPE)


@pytest.mark.parametrize("code", CODES)
def test_section_modulus_that_is_none_is_refused(code):
    with pytest.raises(OutOfRange, match="modulus of section 0"):
        expansion_stress(code, factors=ONE, moments=MOMENTS, axial_force=0.0, **PIPE, modulus_of_section=0.0)
