"""Stress in rods, pins and plates by their sizes.     (checks/test_hardware_stress.py)

46 000 mm2 under 18 bar of test: 82.8 kN of thrust, 20.7 kN in each of four rods; under 9 bar 41.4 kN, 20.7 kN in each
of two plates. Every stress and every share of the yield strength is worked out by hand in its test.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.builders import checks, hold, joint, line_file, solve
from tests.unit.study.pinned_lines import COLD_WATER, pinned

from takeup.checks import hardware_stress
from takeup.checks.outcome import CheckResult
from takeup.study import LineAnswer

RODS = "count: 4, diameter: {d}, circle: 420 mm, gap: {gap}, modulus: 200 GPa, hot: no, {more}source: invented"
FOUR_FIGURES = 2e-4  # of numbers by hand


def with_rods(diameter: str, more: str, kind: str = "single axial", gap: str = "20 mm") -> str:
    """Return a run between anchors with rods; limit rods hang slack in it."""
    given = f"rods: {{ {RODS.format(d=diameter, more=more, gap=gap)} }}"
    one = joint("J1", "west end + 2 m", kind=kind).replace(", data:", f", {given}, data:", 1)
    return line_file(["14 m east"], holds=(hold("slide guide", "[4 m, 6 m, 9 m, 12 m]"),), takeups=(one,))


def with_pins(kind: str = "hinged", strength: str = "yield_strength: 200 MPa, ", old: str = "", new: str = "") -> str:
    """Return a joint with plates in a line that ends blind."""
    one = pinned("J1", "1.5 m", kind).replace("can_carry: 300 kN, ", f"can_carry: 30 kN, {strength}")
    return line_file(["3 m east"], end="blind", takeups=(one.replace(old, new),), **COLD_WATER)


def in_plates(answer: LineAnswer, *forces: float) -> dict[str, CheckResult]:
    """Return the rows where the first plate has three forces in the second state, and nothing else is in either."""
    (one,) = answer.joints
    plates = np.zeros((len(answer.states), 2, 3))
    plates[1, 0] = forces
    rows = hardware_stress.check(replace(answer, joints=(replace(one, plates=plates),)))
    return {row.where: row for row in rows}


@pytest.mark.parametrize(
    ("diameter", "stress", "outcome"),
    [("24 mm", 91.514, "passes"), ("19.6 mm", 137.21, "close"), ("12 mm", 366.06, "fails")],
)
def test_a_slack_rod_is_judged_by_twice_the_whole_thrust(diameter, stress, outcome):
    """2 x 20.7 kN, set on at once, on 452.389, 301.719 and 113.097 mm2; 0.60*235 = 141 MPa is allowed.

    AISC ASD D1, from memory.
    """
    (row,) = checks(with_rods(diameter, "can_carry: 30 kN, yield_strength: 235 MPa, "), "hardware_stress")
    assert (row.where, row.state, row.unit) == ("J1, rod tension", "under hydrostatic test", "MPa")
    assert (row.demand, row.capacity) == (pytest.approx(stress, rel=FOUR_FIGURES), pytest.approx(141.0, rel=1e-12))
    assert (row.outcome, row.status) == (outcome, "from memory")
    assert row.because.startswith("41.4 kN, twice the whole thrust shared evenly, set on at once as rods with a gap")
    assert "F / (pi d^2/4); 0.60 of the yield strength of 235 MPa" in row.because


def test_a_tie_rod_is_judged_by_its_share_at_rest():
    """No gap, nothing runs: 20.7 kN on 452.389 mm2 are 45.757 MPa."""
    answer = solve(with_rods("24 mm", "yield_strength: 235 MPa, ", kind="tied axial", gap="0 mm"))
    (one,) = answer.joints
    (row,) = hardware_stress.check(replace(answer, joints=(replace(one, rods=np.zeros_like(one.rods)),)))
    assert row.demand == pytest.approx(45.757, rel=FOUR_FIGURES)
    assert row.because.startswith("20.7 kN, the whole thrust shared evenly; F")


def test_a_rod_that_pulls_more_by_the_model_is_judged_by_that():
    """45 kN on 452.389 mm2 are 99.47 MPa."""
    answer = solve(with_rods("24 mm", "yield_strength: 235 MPa, "))
    (one,) = answer.joints
    pulls = np.zeros_like(one.rods)
    pulls[2] = [1e3, 45e3, 2e3, 0.0]
    (row,) = hardware_stress.check(replace(answer, joints=(replace(one, rods=pulls),)))
    assert (row.demand, row.state) == (pytest.approx(99.47, rel=FOUR_FIGURES), answer.states[2].name)
    assert row.because.startswith("45.0 kN by the model")


def test_steel_of_no_stated_strength_is_asked_for_where_plain_steel_would_not_do():
    """41.4 kN on 113.097 mm2 are 366.06 MPa; plain steel, EN 10025-2 from memory, may have 0.60*235 = 141."""
    (row,) = hardware_stress.check(solve(with_rods("12 mm", "can_carry: 50 kN, ")))
    assert (row.where, row.outcome, row.capacity) == ("J1, rod tension", "no limit given", None)
    assert (row.demand, row.mandatory) == (pytest.approx(366.06, rel=FOUR_FIGURES), True)
    assert "plain steel of 235 MPa may have 141.0 MPa there; state 'yield_strength'" in row.because


@pytest.mark.parametrize(
    ("old", "new", "asked"),
    [
        ("diameter: 40 mm", "diameter: 12 mm", []),
        ("diameter: 40 mm", "diameter: 11 mm", ["pin shear"]),
        ("thickness: 25 mm", "thickness: 2.4 mm", ["pin bearing", "net section of plates"]),
        ("width: 80 mm", "width: 47 mm", ["net section of plates"]),
        ("width: 80 mm, thickness: 25 mm", "width: 45 mm, thickness: 3.2 mm",
         ["gross section of plates", "net section of plates"]),
    ],
)  # fmt: skip
def test_each_section_of_unknown_steel_is_asked_by_its_own_share(old, new, asked):
    """Of 235 MPa 0.40, 0.90, 0.60 and 0.45: 94, 211.5, 141 and 105.75 MPa; 20.7 kN a plate.

    Pins of 12 and 11 mm: 91.5 and 108.9 MPa of shear. 2.4 mm thick: 215.6 of bearing and beside the hole, 107.8 gross.
    47 mm wide: 118.3 on 7*25 mm2. 45 by 3.2 mm: 143.8 gross, 1294 beside the hole, 161.7 of bearing.
    """
    rows = in_plates(solve(with_pins(strength="", old=old, new=new)), 0.0, 0.0, 0.0)
    assert [where.removeprefix("J1, ") for where in rows] == asked
    assert {row.outcome for row in rows.values()} <= {"no limit given"}


def test_steel_of_no_stated_strength_is_not_judged_where_plain_steel_would_do():
    """91.5 of 141 MPa in a rod; the sections of plates are those of the next test, of a fifth of what is allowed."""
    assert hardware_stress.check(solve(with_rods("24 mm", "can_carry: 30 kN, "))) == []
    assert hardware_stress.check(solve(with_pins(strength=""))) == []


def test_sections_of_a_plate_and_its_pin_by_the_whole_thrust():
    """20.7 kN: 2*1256.637 mm2 of pin 8.2363 MPa; 40*25 mm2 20.7; 80*25 mm2 10.35; (80 - 40)*25 mm2 20.7 MPa.

    Of 200 MPa of yield are allowed 0.40, 0.90, 0.60 and 0.45: 80, 180, 120 and 90 MPa (AISC ASD, from memory).
    """
    rows = in_plates(solve(with_pins()), 0.0, 0.0, 0.0)
    found = {where: (row.demand, row.capacity, row.outcome) for where, row in rows.items()}
    assert found == {
        "J1, pin shear": (pytest.approx(8.2363, rel=FOUR_FIGURES), pytest.approx(80.0, rel=1e-12), "passes"),
        "J1, pin bearing": (pytest.approx(20.7, rel=1e-12), pytest.approx(180.0, rel=1e-12), "passes"),
        "J1, gross section of plates": (pytest.approx(10.35, rel=1e-12), pytest.approx(120.0, rel=1e-12), "passes"),
        "J1, net section of plates": (pytest.approx(20.7, rel=1e-12), pytest.approx(90.0, rel=1e-12), "passes"),
    }
    assert {row.state for row in rows.values()} == {"under hydrostatic test"}


def test_the_more_loaded_plate_by_the_model():
    """30, 40 and 120 kN at right angles are 130 kN: 51.7 MPa of shear, 130 of bearing, 65 and 130 MPa of tension.

    130 of 90 MPa beside the hole fails, and nothing else does.
    """
    answer = solve(with_pins())
    rows = in_plates(answer, 120e3, 40e3, 30e3)
    stresses = [row.demand for row in rows.values()]
    assert stresses == pytest.approx([51.725, 130.0, 65.0, 130.0], rel=FOUR_FIGURES)
    assert [row.outcome for row in rows.values()] == ["passes", "passes", "passes", "fails"]
    assert {row.state for row in rows.values()} == {answer.states[1].name}


@pytest.mark.parametrize(
    ("old", "new", "failing"),
    [
        ("diameter: 40 mm", "diameter: 12 mm", ["pin shear"]),
        ("thickness: 25 mm", "thickness: 2.7 mm", ["pin bearing", "net section of plates"]),
        ("width: 80 mm", "width: 48 mm", ["net section of plates"]),
        ("width: 80 mm, thickness: 25 mm", "width: 45 mm, thickness: 3.5 mm",
         ["gross section of plates", "net section of plates"]),
    ],
)  # fmt: skip
def test_each_section_fails_where_it_is_too_small(old, new, failing):
    """20.7 kN: a pin of 12 mm has 226.195 mm2, 91.5 of 80 MPa, and 69 of bearing, of 180 MPa.

    A plate of 2.7 mm: 191.7 of 180 MPa of bearing, 191.7 of 90 MPa on (80 - 40)*2.7 mm2, 95.8 of 120 MPa of gross
    section. One 48 mm wide: 103.5 of 90 MPa on 8*25 mm2. One of 45 by 3.5 mm: 131.4 of 120 MPa on the whole, of bearing
    147.9 of 180 MPa.
    """
    rows = in_plates(solve(with_pins(old=old, new=new)), 0.0, 0.0, 0.0)
    assert [where.removeprefix("J1, ") for where, row in rows.items() if row.outcome == "fails"] == failing


def test_bars_of_a_swing_joint_are_called_bars():
    names = {row.where for row in hardware_stress.check(solve(with_pins("swing")))}
    assert names == {"J1, pin shear", "J1, pin bearing", "J1, gross section of bars", "J1, net section of bars"}
