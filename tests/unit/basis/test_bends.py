"""Bends and mitres: one spacing, three codes, corrections on request.     (tests/unit/basis/test_bends.py)"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.basis import CODES, bend_factors, mitre_bend_radius, mitre_factors
from takeup.basis.bends import flange_correction
from takeup.errors import OutOfRange
from takeup.units import METRES_PER_INCH

INCH = METRES_PER_INCH
ELBOW = {"bend_radius": 12 * INCH, "mean_radius": (8.625 - 0.322) / 2 * INCH, "wall": 0.322 * INCH}  # NPS 8 Sch 40
MITRE = {"half_angle": math.radians(11.25), "mean_radius": 9.84375 * INCH, "wall": 0.3125 * INCH}


def factors(found) -> tuple[float, float, float, float]:
    """Return the four numbers."""
    return found.flexibility, found.in_plane, found.out_of_plane, found.torsion


@pytest.mark.parametrize("code", CODES)
def test_flanges_multiply_flexibility_and_intensification(code):
    """NPS 8, h = 0.2242: by hand h^(1/6) = 0.7794, h^(1/3) = 0.6075; k 7.360, i 2.439. The figures have four digits."""
    plain, one, both = (bend_factors(code, **ELBOW, flanged_ends=number) for number in (0, 1, 2))
    for flanged, correction in ((one, 0.7794), (both, 0.6075)):
        assert flanged.flexibility == pytest.approx(7.360 * correction, rel=2e-4)
        assert flanged.in_plane == pytest.approx(2.439 * correction, rel=4e-4)
        assert flanged.out_of_plane / plain.out_of_plane == pytest.approx(correction, rel=1e-4)


@pytest.mark.parametrize("code", CODES)
@given(pressure=st.floats(min_value=0, max_value=2e7), flanged=st.sampled_from((0, 1, 2)))
def test_pressure_and_flanges_stiffen_and_never_below_straight_pipe(code, pressure: float, flanged: int):
    """The corrections divide by one or more and multiply by one or less; the appendix keeps one as the least."""
    plain = factors(bend_factors(code, **ELBOW))
    corrected = factors(bend_factors(code, **ELBOW, flanged_ends=flanged, pressure=pressure, modulus=200e9))
    assert all(1.0 <= after <= before for after, before in zip(corrected, plain, strict=True))


def test_no_pressure_is_no_correction():
    given_zero = bend_factors("ASME B31.3", **ELBOW, pressure=0.0, modulus=200e9)
    assert given_zero == bend_factors("ASME B31.3", **ELBOW)


def test_b31_1_has_one_factor_and_b31_3_does_not_intensify_torsion():
    """The single i of B31.1 is that of the plane; note (2) of Table D300: factors for torsion are one."""
    power, process, european = (bend_factors(code, **ELBOW) for code in CODES)
    assert power.in_plane == power.out_of_plane == power.torsion == process.in_plane == european.in_plane
    assert process.torsion == 1.0
    assert process.out_of_plane == european.out_of_plane == pytest.approx(power.in_plane * 0.75 / 0.9, rel=1e-12)
    assert "Table D-1" in power.rule
    assert power.status == "from memory"


@pytest.mark.parametrize("code", CODES)
def test_closely_spaced_mitre_by_hand(code):
    """NPS 20 of 5/16 in, 4 cuts, 11 in apart: R1 = 11 cot(11.25)/2 = 27.650 in, h = 0.3125 R1/9.84375^2 = 0.089172.

    k = 1.52/h^(5/6) = 11.393, i = 0.9/h^(2/3) = 4.5091: five figures.
    """
    radius = mitre_bend_radius(MITRE["half_angle"], 11 * INCH, MITRE["mean_radius"])
    assert radius / INCH == pytest.approx(27.650, abs=0.0005)
    found = mitre_factors(code, **MITRE, spacing=11 * INCH)
    assert found.flexibility == pytest.approx(11.393, abs=0.0005)
    assert found.in_plane == found.out_of_plane == pytest.approx(4.5091, abs=0.00005)
    assert "closely" in found.rule


@pytest.mark.parametrize("spacing", [None, 12 * INCH, 100 * INCH])
def test_widely_spaced_and_single_mitre_by_hand(spacing):
    """R1 = 9.84375 (1 + cot(11.25))/2 = 29.666 in, h = (1 + 5.0273)/2*0.3125/9.84375 = 0.095672; k 10.745, i 4.3025."""
    assert mitre_bend_radius(MITRE["half_angle"], spacing, MITRE["mean_radius"]) / INCH == pytest.approx(
        29.666, abs=0.0005
    )
    found = mitre_factors("ASME B31.1", **MITRE, spacing=spacing)
    assert found.flexibility == pytest.approx(10.745, abs=0.0005)
    assert found.in_plane == found.torsion == pytest.approx(4.3025, abs=0.00005)
    assert "widely" in found.rule


@given(half_angle=st.floats(min_value=0.02, max_value=math.radians(22.5)))
def test_radius_runs_on_where_close_becomes_wide(half_angle: float):
    """At s = r2 (1 + tan) both radii are r2 (1 + cot)/2: algebra. A part in 1e9 to the close side moves it as much."""
    limit = 0.25 * (1.0 + math.tan(half_angle))
    close, wide = (mitre_bend_radius(half_angle, limit * share, 0.25) for share in (1 - 1e-9, 1 + 1e-9))
    assert close == pytest.approx(wide, rel=3e-9)


def test_twenty_two_and_a_half_degrees_are_in():
    assert mitre_bend_radius(math.radians(45) / 2, None, 0.1) > 0.1


@pytest.mark.parametrize("angle", [0.0, -0.1, math.radians(22.6), float("nan")])
def test_mitre_angle_outside_the_tables_is_refused(angle: float):
    with pytest.raises(OutOfRange, match=r"is not above zero and at most 22\.5 deg"):
        mitre_bend_radius(angle, None, 0.1)


def test_mitre_without_room_for_welds_is_refused():
    """B = s - 2*10*tan(11.25 deg) = s - 3.9782 in, against 6*0.3125 = 1.875 in: the limit is s = 5.8532 in."""
    assert "closely" in mitre_factors("ASME B31.1", **MITRE, spacing=5.854 * INCH).rule
    with pytest.raises(OutOfRange, match=r"segment of 0\.04761 m at the crotch is shorter than six walls, 0\.04763 m"):
        mitre_factors("ASME B31.1", **MITRE, spacing=5.8525 * INCH)


def test_thin_duct_is_refused():
    """D/T is 2 r2/T + 1: with r2 = 0.35 m and 7.07 mm it is 100.01, with 7.071 mm 99.996."""
    duct = {"bend_radius": 1.0668, "mean_radius": 0.35}
    assert bend_factors("ASME B31.3", **duct, wall=0.007071).flexibility > 1
    with pytest.raises(OutOfRange, match=r"D/T = 100 is above 100"):
        bend_factors("ASME B31.3", **duct, wall=0.00707)


def test_mitre_to_b31_3_does_not_intensify_torsion():
    assert mitre_factors("ASME B31.3", **MITRE, spacing=None).torsion == 1.0


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"pressure": 1e6}, "needs both the pressure and the modulus"),
        ({"modulus": 2e11}, "needs both the pressure and the modulus"),
        ({"pressure": -1e5, "modulus": 2e11}, "pressure -100000: must not be below zero"),
        ({"pressure": 1e5, "modulus": 0.0}, "modulus 0: must be above zero"),
        ({"flanged_ends": 3}, "a bend has 0, 1 or 2"),
    ],
)
def test_corrections_that_make_no_sense_are_refused(wrong, words):
    with pytest.raises(OutOfRange, match=words):
        bend_factors("ASME B31.3", **ELBOW, **wrong)


def test_flange_correction_stops_where_the_chart_does():
    """By hand h = 0.03*0.5/0.1^2 = 1.5: without flanges k = 1.1, with them refused, since h^(1/6) is above one."""
    thick = {"bend_radius": 0.5, "mean_radius": 0.1, "wall": 0.03}
    assert bend_factors("ASME B31.3", **thick).flexibility == pytest.approx(1.65 / 1.5, rel=1e-12)
    with pytest.raises(OutOfRange, match=r"h = 1\.5 is above 1"):
        bend_factors("ASME B31.3", **thick, flanged_ends=1)
    assert flange_correction(1.0, 2) == 1.0
    with pytest.raises(OutOfRange, match=r"h = 1\.01 is above 1"):
        flange_correction(1.01, 2)
