"""Tees: each kind by hand on one run, NPS 8 Sch 40, T 0.322 in, r2 4.1515 in.     (tests/unit/basis/test_tees.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import CODES, TEES, branch_section_modulus, tee_characteristic, tee_factors
from takeup.errors import OutOfRange
from takeup.units import METRES_PER_INCH

INCH = METRES_PER_INCH
RUN = {"mean_radius": 4.1515 * INCH, "wall": 0.322 * INCH}
# h, i_o = 0.9/h^(2/3): T/r2 = 0.0775623, so 3.1 and 3.3 times it; the pad is as thick as the run
BY_HAND = {
    "welding tee": (0.240443, 2.32756),
    "reinforced fabricated tee": (0.213737, 2.51762),
    "unreinforced fabricated tee": (0.0775623, 4.94852),
    "extruded outlet": (0.0962453, 4.28538),  # r_x = 1 in: (1 + 1/4.1515) T/r2, in B31.3
    "welded-in contour insert": (0.240443, 2.32756),
    "branch welded-on fitting": (0.255957, 2.23254),
}
EXTRA = {"reinforced fabricated tee": {"pad": 0.322 * INCH}, "extruded outlet": {"crotch_radius": 1.0 * INCH}}


@pytest.mark.parametrize("kind", TEES)
def test_tee_of_b31_3_by_hand(kind):
    """Six figures: h and i_o as above, i_i = 3/4 i_o + 1/4 but for the welded-on fitting, torsion one."""
    characteristic, out_of_plane = BY_HAND[kind]
    found = tee_factors("ASME B31.3", kind, **RUN, **EXTRA.get(kind, {}))
    h = tee_characteristic("ASME B31.3", kind, **RUN, **EXTRA.get(kind, {}))
    assert h == pytest.approx(characteristic, rel=1e-5)
    assert found.out_of_plane == pytest.approx(out_of_plane, rel=1e-5)
    in_plane = out_of_plane if kind == "branch welded-on fitting" else 0.75 * out_of_plane + 0.25
    assert found.in_plane == pytest.approx(in_plane, rel=1e-5)
    assert (found.flexibility, found.torsion, found.status) == (1.0, 1.0, "from memory")
    assert kind in found.rule


@pytest.mark.parametrize("kind", TEES)
def test_b31_1_has_one_factor_and_en_takes_the_greater_for_torsion(kind):
    power, process, european = (tee_factors(code, kind, **RUN, **EXTRA.get(kind, {})) for code in CODES)
    assert power.in_plane == power.out_of_plane == power.torsion
    assert european.torsion == european.out_of_plane
    if kind != "extruded outlet":
        assert power.out_of_plane == process.out_of_plane == european.out_of_plane


@pytest.mark.parametrize("code", ["ASME B31.1", "EN 13480-3"])
def test_extruded_outlet_without_credit_for_its_crotch_is_an_unreinforced_tee(code):
    extruded = tee_factors(code, "extruded outlet", **RUN, crotch_radius=1.0 * INCH)
    assert extruded.out_of_plane == tee_factors(code, "unreinforced fabricated tee", **RUN).out_of_plane


def test_thick_crotch_earns_4_4():
    """4.4*0.0775623 = 0.341274, i = 0.9/h^(2/3) = 1.84292; r_x = 1.1 in is above 8.625/8 = 1.078 in; six figures."""
    known = {"crotch_radius": 1.1 * INCH, "crotch_wall": 0.483 * INCH + 1e-9, "branch_diameter": 8.625 * INCH}
    assert tee_factors("ASME B31.1", "welding tee", **RUN, **known).in_plane == pytest.approx(1.84292, rel=1e-5)
    for less in ({"crotch_radius": 1.07 * INCH}, {"crotch_wall": 0.48 * INCH}):
        found = tee_factors("ASME B31.1", "welding tee", **RUN, **(known | less))
        assert found.in_plane == pytest.approx(2.32756, rel=1e-5)


def test_pad_counts_to_one_and_a_half_walls():
    """(1 + 0.75)^(5/2) = 4.0513: B31.1 prints 4.05 above it, B31.3 4; a pad of no thickness would be no pad, T/r2."""
    at, above = (
        tee_characteristic("ASME B31.1", "reinforced fabricated tee", mean_radius=0.1, wall=0.01, pad=pad)
        for pad in (0.015, 0.01501)
    )
    assert at == pytest.approx(0.40513, rel=1e-5)
    assert above == pytest.approx(0.405, rel=1e-12)
    for code in ("ASME B31.3", "EN 13480-3"):
        other = tee_characteristic(code, "reinforced fabricated tee", mean_radius=0.1, wall=0.01, pad=0.03)
        assert other == pytest.approx(0.4, rel=1e-12)
    thin = tee_characteristic("ASME B31.3", "reinforced fabricated tee", mean_radius=0.1, wall=0.01, pad=1e-9)
    assert thin == pytest.approx(0.1, rel=1e-6)


def test_branch_section_modulus_by_hand():
    """By hand pi 0.05^2*lesser of 8 mm and 2*5 mm = 6.2832e-5 m3; with i = 1.2, 6 mm: 4.7124e-5; five figures."""
    assert branch_section_modulus(0.05, 0.008, 0.005, 2.0) == pytest.approx(6.2832e-5, rel=1e-5)
    assert branch_section_modulus(0.05, 0.008, 0.005, 1.2) == pytest.approx(4.7124e-5, rel=1e-5)
    assert branch_section_modulus(0.05, 0.008, 0.005, 1.0) == pytest.approx(3.9270e-5, rel=1e-5)  # 5 mm
    with pytest.raises(OutOfRange, match=r"i = 0\.9 is below one"):
        branch_section_modulus(0.05, 0.008, 0.005, 0.9)


@pytest.mark.parametrize(
    ("code", "kind", "extra", "words"),
    [
        ("ASME B31.3", "lateral", {}, "is no kind of tee"),
        ("ASME B31.3", "welding tee", {"pad": 0.01}, "to no other kind"),
        ("ASME B31.3", "reinforced fabricated tee", {}, "a pad belongs to"),
        ("ASME B31.3", "reinforced fabricated tee", {"pad": 0.0}, "pad 0: must be above zero"),
        ("ASME B31.3", "extruded outlet", {}, "state the radius at the crotch"),
        ("ASME B31.3", "extruded outlet", {"crotch_radius": math.nan}, "crotch radius nan"),
    ],
)
def test_tee_that_is_not_described_is_refused(code, kind, extra, words):
    with pytest.raises(OutOfRange, match=words):
        tee_factors(code, kind, **RUN, **extra)
