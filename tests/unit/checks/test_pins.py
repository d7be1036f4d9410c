"""Plates, bars and pins: what they carry, how they are pushed, and what they hold like pipe.     (checks/test_pins.py)

Forces of plates are told and read off by hand; a hinge and a swing joint in the wrong place go the whole way.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.builders import checks, hold, joint, line_file, solve, walk_all
from tests.unit.study.pinned_lines import COLD_WATER, LENGTH, MODULUS, THICK, WIDTH, offset_pair, pinned

from takeup.checks import pins, run_checks
from takeup.checks.joint_movement import combined_use
from takeup.checks.restrained import is_restrained
from takeup.study import LineAnswer


@pytest.fixture(scope="module")
def hinged() -> LineAnswer:
    return solve(line_file(["3 m east"], end="blind", takeups=(pinned("J1", "1.5 m", "hinged"),), **COLD_WATER))


def told(answer: LineAnswer, *forces: tuple[int, int, tuple[float, float, float]]) -> LineAnswer:
    """Return the answer with nothing in both plates but what is told of a state and a plate."""
    (joint,) = answer.joints
    plates = np.zeros((len(answer.states), 2, 3))
    for state, plate, force in forces:
        plates[state, plate] = force
    return replace(answer, joints=(replace(joint, plates=plates),))


def test_the_more_loaded_plate_speaks_for_both(hinged: LineAnswer):
    """30, 40 and 120 kN at right angles are 130 kN in one plate, 20 kN in the other: twice 130 of 300 kN (by hand)."""
    row, *more = pins.check(  # twice 130 kN is more than the whole thrust, of 41.4 kN, which therefore has no row
        told(hinged, (1, 0, (120e3, 40e3, 30e3)), (1, 1, (20e3, 0.0, 0.0)), (2, 1, (9e3, 0.0, 0.0)))
    )
    assert not more
    assert (row.where, row.state, row.outcome) == ("J1", hinged.states[1].name, "passes")
    assert (row.demand, row.capacity) == (pytest.approx(260e3, rel=1e-12), 300e3)
    assert "carry 130.0 kN and 20.0 kN, together +140.0 kN along" in row.because
    assert pins.check(told(hinged, (1, 0, (0.0, 0.0, 151e3))))[0].outcome == "fails"


def test_a_plate_that_is_pushed_is_a_strut(hinged: LineAnswer):
    """pi^2 E b t^3/12/L^2 = 9.8696 x 200 GPa x 80 x 25^3/12 mm4/(600 mm)^2 = 571.2 kN; a third allowed (by hand)."""
    inertia = WIDTH * THICK**3 / 12.0
    load = math.pi**2 * MODULUS * inertia / LENGTH**2
    assert load == pytest.approx(571.2e3, rel=1e-3)
    (takeup,) = hinged.line.takeups
    assert takeup.pins is not None
    assert pins.euler_load(takeup.pins) == pytest.approx(load, rel=1e-12)
    thin = replace(takeup.pins, width=THICK, thickness=WIDTH)
    assert pins.euler_load(thin) == pytest.approx(load, rel=1e-12)  # it bows out the thin way, whichever that is called
    _, row = pins.check(told(hinged, (3, 1, (-100e3, 0.0, 0.0))))
    assert (row.where, row.state) == ("J1, pushed", hinged.states[3].name)
    assert row.capacity == pytest.approx(load / 3.0, rel=1e-12)
    assert (row.demand, row.outcome) == (100e3, "passes")
    assert pins.check(told(hinged, (3, 1, (-200e3, 0.0, 0.0))))[1].outcome == "fails"


def test_what_plates_can_carry_must_be_said(hinged: LineAnswer):
    (takeup,) = hinged.line.takeups
    assert takeup.pins is not None
    silent = replace(takeup, pins=replace(takeup.pins, can_carry=None))
    row = pins.check(replace(hinged, line=replace(hinged.line, takeups=(silent,))))[0]
    assert row.outcome == "no limit given"
    assert row.demand is not None


def test_plates_off_which_the_line_takes_thrust_are_held_against_all_of_it(hinged: LineAnswer):
    """9 bar on 46 000 mm2 are 41.4 kN; by the model 10 kN in each plate, 20 kN of 300 kN, and of 40 kN by the whole."""
    little = told(hinged, (1, 0, (10e3, 0.0, 0.0)), (1, 1, (10e3, 0.0, 0.0)))
    row, whole = pins.check(little)
    assert (row.demand, whole.where, whole.state) == (20e3, "J1, anchor lost", "under hydrostatic test")
    assert (whole.demand, whole.capacity, whole.outcome) == (pytest.approx(41.4e3, rel=1e-12), 300e3, "passes")
    (takeup,) = hinged.line.takeups
    assert takeup.pins is not None
    weak = replace(takeup, pins=replace(takeup.pins, can_carry=40e3))
    rows = pins.check(replace(little, line=replace(hinged.line, takeups=(weak,))))
    assert [row.outcome for row in rows] == ["passes", "fails"]


def test_the_stress_that_a_capacity_means_is_said(hinged: LineAnswer):
    """150 kN a plate: 59.7 MPa on 2*1256.637 mm2, 150 on 40*25, 75 on 80*25, 150 MPa on 40*25 beside the hole."""
    words = pins.check(told(hinged, (1, 0, (90e3, 0.0, 0.0))))[0].because
    assert (
        "both are said to carry 300.0 kN: that would be 60 MPa of shear in two sections of each pin, 150 MPa" in words
    )
    assert "75 MPa of tension in each plate, 150 MPa of tension beside the hole of each pin, with no yield" in words


@pytest.mark.parametrize("kind", ["hinged", "gimbal", "swing"])
def test_pins_restrain_and_ask_for_no_guide_nor_anchor(kind: str):
    """What asks about unrestrained joints does not ask about pinned ones, in any state."""
    text = offset_pair(kind)
    answer = solve(text)
    assert all(is_restrained(answer, takeup) for takeup in answer.line.takeups)
    asked = {row.rule for row in run_checks(walk_all(text))}
    assert "pins" in asked
    assert not asked & {"thrust_held", "guide_spacing", "one_joint_per_span", "rods"}
    assert all(row.outcome == "passes" for row in checks(text, "pins"))


@pytest.mark.parametrize("kind", ["hinged", "swing"])
def test_pins_in_line_between_anchors_hold_the_growth_like_pipe(kind: str):
    """Nothing can move: anchors and plates get hundreds of kilonewtons, and the rule says what of it is growth.

    E A eps of DN 200 over 185 K is about 2 MN; plates of 2 x 2000 mm2 are not softer by much.
    """
    guides = hold("slide guide", "[2 m, 6 m, 10 m]")
    text = line_file(
        ["12 m east"],
        start="main anchor, can_carry: 100 kN",
        end="main anchor, can_carry: 100 kN",
        holds=(guides,),
        takeups=(pinned("J1", "4 m", kind),),
    )
    (row,) = [item for item in checks(text, "pins") if item.where == "J1"]
    assert row.outcome == "fails"
    assert "which its pins hold like pipe and do not take up" in row.because
    assert [row.outcome for row in checks(text, "pins", "J1, pushed")] == ["fails"]
    assert [row.outcome for row in checks(text, "hold_capacity", "west end")] == ["fails"]


def test_what_pins_hold_needs_no_rating(hinged: LineAnswer):
    """2 % of 120 mm is 2.4 mm: less is not judged, more asks for a rating; what turns is judged by its own, 8 degrees.

    Where data rate no movement at all the way a joint goes, that is no number but a failure.
    """
    (takeup,) = hinged.line.takeups
    eight = math.radians(8.0)
    assert combined_use(-2.3e-3, 2.3e-3, 0.5 * eight, takeup) == (pytest.approx(0.5, rel=1e-12), "")
    assert combined_use(2.5e-3, 0.0, 0.0, takeup) == (0.0, "axial movement +2.50 mm")
    assert combined_use(0.0, 2.5e-3, 0.0, takeup) == (0.0, "lateral movement 2.50 mm")
    free = replace(takeup, kind="single axial")
    use, missing = combined_use(1e-3, 0.0, 0.0, free)
    assert (math.isinf(use), missing) == (True, "")
    assert combined_use(0.9e-5, 0.0, 0.0, free) == (0.0, "")
    rated = replace(takeup, data=replace(takeup.data, axial_compression=10e-3))
    assert combined_use(-5e-3, 0.0, 0.0, rated) == (pytest.approx(0.5, rel=1e-12), "")


def test_a_joint_that_moves_the_way_it_is_not_rated_fails_by_words():
    """A joint rated for compression alone, extended by settlement: fails, without a number that no file can hold."""
    text = line_file(
        ["6 m east"],
        end="main anchor, settlement: [5 mm, 0 mm, 0 mm]",
        holds=(hold("slide guide", "[2 m, 5 m]"),),
        takeups=(joint("J1", "3 m", axial_extension="0 mm"),),
        **COLD_WATER,
    )
    (row,) = checks(text, "joint_movement")
    assert (row.outcome, row.use, row.demand) == ("fails", None, None)
    assert "it is rated for no movement that makes it longer" in row.because
