"""Hardware by hand, and what it refuses.     (tests/unit/joints/sizing/test_sizing.py)

Every number is worked out in the docstring of its test; tolerances are those of the figures written there.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.bellows.forms.movement import lateral_equivalent, universal_lateral_equivalent
from takeup.errors import OutOfRange
from takeup.joints import sizing
from takeup.joints.sizing import EachBellows, Side, Surroundings

THRUST = 24e5 * 0.046  # 24 bar on 460 cm2: 110.4 kN


def test_tie_rods_under_test():
    """110.4 kN on four rods of 24 mm: 27.6 kN on 452.389 mm2 are 61.01 MPa; at that stress they need 24 mm."""
    assert sizing.rod_force(THRUST, 4) == pytest.approx(27_600.0, rel=1e-12)
    assert sizing.rod_stress(THRUST, 4, 0.024) == pytest.approx(61.01e6, rel=1e-4)
    assert sizing.rod_diameter(THRUST, 4, 61.01e6) == pytest.approx(0.024, rel=1e-4)


def test_one_rod_is_refused():
    with pytest.raises(OutOfRange, match="at least 2"):
        sizing.rod_force(THRUST, 1)


def test_limit_rods_as_stops():
    """Set on at once, twice the thrust. With k h = 12 F the root is 5, so six times; energy agrees to rounding."""
    assert sizing.stopping_force(100e3, 0.0, 400e6) == pytest.approx(200e3, rel=1e-12)
    assert sizing.stopping_force(100e3, 3e-3, 400e6) == pytest.approx(600e3, rel=1e-12)
    stretched = 600e3 / 400e6
    assert 100e3 * (3e-3 + stretched) == pytest.approx(400e6 * stretched**2 / 2.0, rel=1e-12)


def test_rods_with_a_gap_get_their_share_at_once():
    """100 kN on four: 25 kN at rest; with any gap 50 kN, which is the bound of a run that is next to none."""
    assert sizing.caught_share(100e3, 4, 0.0) == pytest.approx(25e3, rel=1e-12)
    assert sizing.caught_share(100e3, 4, 2e-3) == pytest.approx(50e3, rel=1e-12)
    assert sizing.stopping_force(100e3, 1e-12, 400e6) / 4 == pytest.approx(
        sizing.caught_share(100e3, 4, 1e-12), rel=1e-8
    )
    with pytest.raises(OutOfRange):
        sizing.caught_share(100e3, 4, -1e-3)


def test_lug_as_a_cantilever():
    """27.6 kN at 60 mm: 1656 N m; a plate 100 mm by 30 mm has 15e-6 m3: 110.4 MPa. At that stress it needs 30 mm."""
    assert sizing.lug_stress(27_600.0, 0.06, 0.1, 0.03) == pytest.approx(110.4e6, rel=1e-12)
    assert sizing.lug_thickness(27_600.0, 0.06, 0.1, 110.4e6) == pytest.approx(0.03, rel=1e-12)


def test_gussets_of_a_lug():
    """1656 N m on two gussets of 12 mm by 100 mm: 2*12*100^2/6 = 40 000 mm3, 41.4 MPa."""
    assert sizing.gusset_stress(27_600.0, 0.06, 0.1, 0.012) == pytest.approx(41.4e6, rel=1e-12)


def test_plates_away_from_a_hole_and_beside_it():
    """55.2 kN on 80*25 mm2: 27.6 MPa; on (80 - 40)*25 mm2 beside the hole 55.2 MPa. A hole of 80 mm leaves nothing."""
    assert sizing.plate_stress(55_200.0, 0.08, 0.025) == pytest.approx(27.6e6, rel=1e-12)
    assert sizing.net_stress(55_200.0, 0.08, 0.025, 0.04) == pytest.approx(55.2e6, rel=1e-12)
    with pytest.raises(OutOfRange, match="what the hole leaves of the plate's width is 0 m"):
        sizing.net_stress(55_200.0, 0.08, 0.025, 0.08)


def test_sections_say_what_they_may_take():
    """Shares of the yield strength by AISC ASD, 9th edition, from memory: D1, F4, J8, D1, D3.1.

    1 kN on a rod of 24 mm, 452.389 mm2: 2.2105 MPa; on a pin of 40 mm, 2*1256.637 mm2: 0.39789 MPa.
    """
    (rod,) = sizing.rod_sections(0.024)
    sections = sizing.pin_sections(0.04, 0.08, 0.025)
    assert [(one.name, one.share, one.clause) for one in (rod, *sections)] == [
        ("rod tension", 0.60, "D1"),
        ("pin shear", 0.40, "F4"),
        ("pin bearing", 0.90, "J8"),
        ("gross section", 0.60, "D1"),
        ("net section", 0.45, "D3.1"),
    ]
    assert rod.stress(1e3) == sizing.pull_stress(1e3, 0.024) == pytest.approx(2.2105e6, rel=3e-5)
    stresses = [one.stress(1e3) for one in sections]
    assert stresses == pytest.approx([0.39789e6, 1.0e6, 0.5e6, 1.0e6], rel=2e-5)


def test_pins_in_double_shear_and_bearing():
    """55.2 kN on a pin of 40 mm: 2*1256.637 mm2, 21.963 MPa; on 25 mm of plate 1000 mm2, 55.2 MPa."""
    pull = sizing.plate_pull(THRUST)
    assert pull == pytest.approx(55_200.0, rel=1e-12)
    assert sizing.pin_shear(pull, 0.04) == pytest.approx(21.963e6, rel=3e-5)
    assert sizing.pin_bearing(pull, 0.04, 0.025) == pytest.approx(55.2e6, rel=1e-12)


@pytest.mark.parametrize(
    ("shear", "bearing", "needed"), [(21.963e6, 200e6, 0.04), (100e6, 55.2e6, 0.04), (1e9, 110.4e6, 0.02)]
)
def test_pin_is_as_thick_as_the_worse_of_both_asks(shear, bearing, needed):
    """The numbers of the test before turned round; with both allowed stresses high, bearing: 55.2 kN/(110.4*25 mm)."""
    found = sizing.pin_diameter(55_200.0, shear=shear, bearing=bearing, thickness=0.025)
    assert found == pytest.approx(needed, rel=3e-5)


SOME = EachBellows(mean_diameter=0.25, live_length=0.24, convolutions=10)


def test_spool_by_the_closed_form():
    """With no axial movement 3 L^2 - (6 L_b + c) L + 4 L_b^2 = 0, c = 3 D y/(2 N e).

    D 250, L_b 240, N 10, y 60 mm, e 1.5 mm: c = 1500 mm; L = (2940 + sqrt(2940^2 - 48*240^2))/6
    = (2940 + 2424.62)/6 = 894.10 mm, so a spool of 414.10 mm.
    """
    assert sizing.spool_length(SOME, 0.06, 1.5e-3) == pytest.approx(0.41410, rel=2e-5)


def test_spool_of_a_small_movement_is_none():
    """Touching they are one bellows of 2 N: y = e N 2 L_b 2/(3 D) = 1.5*20*480/750 = 19.2 mm."""
    assert sizing.spool_length(SOME, 0.0192, 1.5e-3) == pytest.approx(0.0, abs=1e-9)
    assert sizing.spool_length(SOME, 0.0, 1.5e-3) == 0.0
    one = (np.array([value]) for value in (0.0192, 0.25, 20.0, 0.48, 0.0))
    assert lateral_equivalent(*one) == pytest.approx(1.5e-3, rel=1e-12)


@given(st.floats(0.03, 0.5), st.floats(0.5e-3, 4e-3), st.floats(0.0, 0.1))
def test_spool_gives_the_movement_that_was_asked(lateral, allowed, compression):
    """Put back into the published form; 1e-6 m of the searched length moves e_y by less than a part in 10 000."""
    found = sizing.spool_length(SOME, lateral, allowed, compression)
    ends = {"length": 0.24, "overall": 0.48 + found, "axial": -compression}
    across = universal_lateral_equivalent(
        *(np.array([value]) for value in (lateral, 0.25, 10.0)), **{key: np.array([v]) for key, v in ends.items()}
    )[0]
    if found == 0.0:
        assert across <= allowed
    else:
        assert across == pytest.approx(allowed, rel=1e-4)


def test_no_spool_makes_up_for_bellows_that_are_shut():
    with pytest.raises(OutOfRange, match="leaves nothing"):
        sizing.spool_length(SOME, 0.06, 1.5e-3, compression=0.48)


@pytest.mark.parametrize(("installed", "drawn"), [(-10.0, 0.02), (90.0, 0.0), (190.0, -0.02), (40.0, 0.01)])
def test_preset_halves_the_movement(installed, drawn):
    """40 mm between -10 and 190 degC: at the coldest half of it, half-way none, a quarter of the way 10 mm."""
    assert sizing.preset(0.04, installed, -10.0, 190.0) == pytest.approx(drawn, abs=1e-15)


@pytest.mark.parametrize("temperatures", [(-11.0, -10.0, 190.0), (191.0, -10.0, 190.0), (20.0, 20.0, 20.0)])
def test_preset_outside_its_range_is_refused(temperatures):
    with pytest.raises(OutOfRange):
        sizing.preset(0.04, *temperatures)


def test_nut_gaps_as_fitted():
    """Rated 20 mm out and 60 mm in, fitted 15 mm long: 5 mm to the outer nuts, 75 mm to the inner."""
    assert sizing.nut_gaps(0.02, 0.06, 0.015) == pytest.approx((0.005, 0.075), abs=1e-15)
    with pytest.raises(OutOfRange, match="beyond its rating"):
        sizing.nut_gaps(0.02, 0.06, 0.021)


def test_anchor_base_between_two_halves():
    """Thrust 46.00, spring 15.64, friction 11.70 kN (the anchor example): 73.34 kN alone; between equals 27.34 kN."""
    one = Side(thrust=46_000.0, spring=15_640.0, friction=11_700.0)
    assert sizing.base_load(one, one) == pytest.approx(27_340.0, rel=1e-12)
    assert sizing.base_load_one_side(one, one) == pytest.approx(73_340.0, rel=1e-12)
    less = Side(thrust=40_000.0, spring=20_000.0, friction=9_000.0)  # 6.0 of thrust left, 29.0 of spring and friction
    assert sizing.base_load(one, less) == sizing.base_load(less, one) == pytest.approx(35_000.0, rel=1e-12)
    with pytest.raises(OutOfRange, match="friction"):
        sizing.base_load(one, Side(thrust=1.0, spring=1.0, friction=-1.0))


@pytest.mark.parametrize(
    ("diameter", "flow", "limit"),
    [
        (0.1016, "gas", 16.0),
        (0.1524, "gas", 24.0),
        (0.1525, "gas", 25.0),
        (0.4, "gas", 25.0),
        (0.1016, "liquid", 8.0),
        (0.4, "liquid", 10.0),
    ],
)
def test_velocity_without_liner(diameter, flow, limit):
    """EJMA, 8th and 9th edition, from memory, in ft/s: 4 and 2 an inch to 6 in, then 25 and 10; half near a bend."""
    assert sizing.velocity_without_liner(diameter, flow, None) == pytest.approx(limit * 0.3048, rel=1e-12)
    assert sizing.velocity_without_liner(diameter, flow, 9.9 * diameter) == pytest.approx(limit * 0.1524, rel=1e-12)
    assert sizing.velocity_without_liner(diameter, flow, 10.1 * diameter) == pytest.approx(limit * 0.3048, rel=1e-12)


def test_steam_main_needs_a_liner_and_slow_water_none():
    """25 m/s of steam in DN 200 against 7.6 m/s; 1.5 m/s of water against 3.0 m/s."""
    assert sizing.liner_needed(25.0, 0.219, "gas", None)
    assert not sizing.liner_needed(1.5, 0.219, "liquid", None)
    assert sizing.liner_needed(1.6, 0.219, "liquid", 1.0)  # a bend near by: 1.52 m/s


@pytest.mark.parametrize(("flow", "rise", "drained"), [("gas", 1.0, True), ("gas", 0.0, False), ("gas", -1.0, False)])
def test_drain_of_a_liner(flow, rise, drained):
    assert sizing.drain_needed(flow, rise) is drained
    assert not sizing.drain_needed("liquid", rise)
    with pytest.raises(OutOfRange, match="no sine"):
        sizing.drain_needed(flow, 1.1)


def test_room_round_a_liner():
    """8 mm across and 2 degrees over 300 mm: 8 + 300*0.0349208 = 18.476 mm."""
    assert sizing.liner_clearance(8e-3, math.radians(2.0), 0.3) == pytest.approx(18.476e-3, rel=2e-5)
    with pytest.raises(OutOfRange, match="right angle"):
        sizing.liner_clearance(8e-3, math.pi / 2.0, 0.3)


def test_cover_where_something_harms_the_bellows():
    assert sizing.cover_reasons(Surroundings()) == ()
    reasons = sizing.cover_reasons(Surroundings(insulated=True, welded_near=True))
    assert [words.split()[0] for words in reasons] == ["insulation", "weld"]


def test_every_way_of_joining_has_its_words():
    assert set(sizing.ENDS) == {"threaded", "welded", "flanged", "sweat"}
    assert all(end.allows and end.asks for end in sizing.ENDS.values())


ASKED = {
    "rod stress": lambda bad: sizing.rod_stress(THRUST, 4, bad),
    "rod diameter": lambda bad: sizing.rod_diameter(THRUST, 4, bad),
    "stopping force": lambda bad: sizing.stopping_force(THRUST, 0.0, bad),
    "lug": lambda bad: sizing.lug_stress(1e3, 0.06, 0.1, bad),
    "lug thickness": lambda bad: sizing.lug_thickness(1e3, 0.06, 0.1, bad),
    "gusset": lambda bad: sizing.gusset_stress(1e3, 0.06, bad, 0.01),
    "pin shear": lambda bad: sizing.pin_shear(1e3, bad),
    "pin bearing": lambda bad: sizing.pin_bearing(1e3, 0.04, bad),
    "pin diameter": lambda bad: sizing.pin_diameter(1e3, shear=bad, bearing=1e8, thickness=0.02),
    "spool": lambda bad: sizing.spool_length(SOME, 0.06, bad),
    "velocity": lambda bad: sizing.velocity_without_liner(bad, "gas", None),
    "clearance": lambda bad: sizing.liner_clearance(0.0, 0.0, bad),
}


@pytest.mark.parametrize("asked", ASKED)
@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_size_that_is_none_is_refused(asked, bad):
    with pytest.raises(OutOfRange):
        ASKED[asked](bad)
