"""Rods, two bellows, scatter, clearances, gaps and stops as the papers print them, in SI and in US units.

By hand: 25.4 mm are 1 in, 4.448 kN are 1000 lbf, 12e-6 1/K are 6.667e-6 1/°F, 200 GPa are 29 007 548 psi.
"""

from __future__ import annotations

import pytest
from tests.unit.drawing.results_fixture import corner

from takeup.edge import SI, US
from takeup.papers.calculation.hardware_inputs import hardware_of
from takeup.papers.calculation.hold_inputs import hold_facts
from takeup.papers.calculation.inputs import inputs_section
from takeup.papers.calculation.joint_inputs import joint_tables
from takeup.papers.common.numerals import NONE

RODS = {
    "count": 4,
    "diameter_mm": 25.4,
    "circle_mm": 304.8,
    "gap_mm": 12.7,
    "length_mm": 1270.0,
    "modulus_mpa": 200e3,
    "expansion_per_k": 12e-6,
    "can_carry_n": 4448.2216152605,
    "source": "sheet 4",
}


def spaced(words: str) -> str:
    """Return words without the marks that keep a number whole or let a word break."""
    return words.replace("\N{NO-BREAK SPACE}", " ").replace("\N{ZERO WIDTH SPACE}", "")


def with_joint(**data: object) -> dict:
    document = corner()
    document["takeups"][0]["data"] |= data
    return document


IN_SI = (
    "4 rods of 25.4 mm on a circle of 304.8 mm, 1270 mm between the nuts, gap as fitted 12.7 mm, of modulus "
    "200000 MPa, as hot as the pipe, which grow 12 10⁻⁶/K; each can carry 4.4482 kN (sheet 4)"
)
IN_US = (
    "4 rods of 1 in on a circle of 12 in, 50 in between the nuts, gap as fitted 0.5 in, of modulus 29 007 548 psi, "
    "as hot as the pipe, which grow 6.667 10⁻⁶/°F; each can carry 1 000 lbf (sheet 4)"
)


@pytest.mark.parametrize(("units", "words"), [(SI, IN_SI), (US, IN_US)])
def test_rods_in_words(units, words):
    ((_, said),) = hardware_of(with_joint(rods=RODS), units)
    assert spaced(said) == words


def test_cold_rods_of_which_nobody_says_what_they_carry():
    ((name, said),) = hardware_of(with_joint(rods=RODS | {"expansion_per_k": None, "can_carry_n": None}), SI)
    assert name == corner()["takeups"][0]["name"]
    assert said.endswith("200000 MPa, that stay cold; what each can carry is not given (sheet 4)")


def test_joints_without_rods_are_not_told_of():
    assert hardware_of(with_joint(rods=None), SI) == []


@pytest.mark.parametrize(("units", "apart"), [(SI, "762"), (US, "30")])
def test_two_bellows_and_the_scatter_of_their_rates(units, apart):
    """762 mm are 30 in; the other joint of the table has one bellows, and of its scatter nothing is said."""
    (spec,) = joint_tables(with_joint(centres_mm=762.0, rate_scatter=0.15), units)
    rows = {row["cells"][0]["words"]: [cell["words"] for cell in row["cells"][1:]] for row in spec["rows"]}
    assert rows["Middles of two bellows"][1:] == [apart, NONE]
    assert "Axial rate, each bellows" in rows
    assert "Live length, each bellows" in rows
    assert rows["Scatter of its rates"] == ["%", "15", "not given"]


def test_clearances_gaps_and_stops():
    """6.35 mm are 1/4 in and 19.05 mm 3/4 in."""
    hold = {"kind": "slide guide", "name": "G", "hot_leg_mm": 0.0, "clearance_mm": 6.35, "gap_mm": None}
    stop = {"kind": "stop", "name": "S", "hot_leg_mm": 0.0, "clearance_mm": None, "gap_mm": 6.35}
    spring = {"rate_n_per_mm": 20.0, "cold_load_n": 2e3, "least_n": 1e3, "most_n": 3e3, "locked_in_test": True}
    spring |= {"stop_up_mm": 19.05, "stop_down_mm": None, "source": "sheet 5"}
    hanger = {"kind": "spring hanger", "name": "H", "hot_leg_mm": 0.0, "spring": spring}
    resolved = {"holds": [hold, stop, hanger]}
    said = {units.system: dict(hold_facts(resolved, units)) for units in (SI, US)}
    assert (said["si"]["G"], said["si"]["S"]) == ("clearance each way 6.35 mm", "gap 6.35 mm")
    assert (said["us"]["G"], said["us"]["S"]) == ("clearance each way 0.25 in", "gap 0.25 in")
    assert said["si"]["H"].endswith("locked in the test, stopped 19.05 mm up (sheet 5)")
    assert said["us"]["H"].endswith("locked in the test, stopped 0.75 in up (sheet 5)")


def test_the_walk_is_told():
    document = corner()
    walk = {"modulus": "at operating temperature", "friction_at_installation": "locked in"}
    document["input"]["resolved"]["walk"] = walk
    said = dict(inputs_section(document, SI)["site"]["facts"])
    assert said["walk"] == "moduli at operating temperature; friction at installation: locked in"
