"""Pins, bars and balancing bellows as the papers print them, in SI and in US units.

By hand: 25.4 mm are 1 in, 4.448 kN are 1000 lbf, 64 516 mm2 are 100 in2, 0.17513 N/mm are 1 lbf/in.
"""

from __future__ import annotations

import pytest
from tests.unit.drawing.results_fixture import corner
from tests.unit.papers.calculation.test_given import spaced, with_joint

from takeup.edge import SI, US
from takeup.papers.calculation.hardware_inputs import hardware_of
from takeup.papers.calculation.hardware_needed import needed_tables
from takeup.papers.calculation.walk_hardware import hardware_tables
from takeup.papers.common.numerals import NONE

POUND = 4.4482216152605
PINS = {
    "along": [0.0, 1.0],
    "way": "upright",
    "spread_mm": 254.0,
    "diameter_mm": 25.4,
    "width_mm": 76.2,
    "thickness_mm": 12.7,
    "length_mm": 508.0,
    "modulus_mpa": 200e3,
    "friction_low": 0.1,
    "friction_high": 0.3,
    "friction_source": "sheet 5",
    "can_carry_n": 1e3 * POUND,
    "source": "sheet 6",
}
BALANCE = {
    "axial_rate_n_per_mm": POUND / 25.4,
    "effective_area_mm2": 64_516.0,
    "can_carry_n": None,
    "source": "sheet 7",
}
STATES = {"cold": 1, "hot": 2}


def row(part, state, force, scenario="no friction", role="pin"):
    return {"part": part, "state": state, "scenario": scenario, "role": role, "force_n": force}


def with_rows(*rows):
    document = corner()
    document["takeups"][0]["hardware"] = list(rows)
    return document


def printed(spec):
    """Cells as (words, more), row by row."""
    return [[(cell["words"], spaced(cell["more"])) for cell in one["cells"]] for one in spec["rows"]]


PINS_IN_SI = (
    "two plates of 76.2 mm by 12.7 mm, 508 mm long, 254 mm apart between their middles, of modulus 200000 MPa, on "
    "upright pins of 25.4 mm, friction of a pin in its hole 0.1 to 0.3 (sheet 5); together they can carry 4.4482 kN "
    "(sheet 6)"
)
PINS_IN_US = (
    "two plates of 3 in by 0.5 in, 20 in long, 10 in apart between their middles, of modulus 29 007 548 psi, on "
    "upright pins of 1 in, friction of a pin in its hole 0.1 to 0.3 (sheet 5); together they can carry 1 000 lbf "
    "(sheet 6)"
)


@pytest.mark.parametrize(("units", "words"), [(SI, PINS_IN_SI), (US, PINS_IN_US)])
def test_pins_in_words(units, words):
    ((_, said),) = hardware_of(with_joint(pins=PINS), units)
    assert spaced(said) == words


def test_level_pins_that_turn_freely():
    pins = PINS | {
        "along": [1.0, 0.0],
        "way": "level",
        "friction_low": None,
        "friction_high": None,
        "can_carry_n": None,
    }
    ((_, said),) = hardware_of(with_joint(pins=pins), SI)
    assert said.endswith("on level pins of 25.4 mm, pins that turn freely; what they can carry is not given (sheet 6)")


@pytest.mark.parametrize(("units", "area", "rate"), [(SI, "64516 mm²", "0.17513 N/mm"), (US, "100 in²", "1 lbf/in")])
def test_balancing_bellows_in_words(units, area, rate):
    ((_, said),) = hardware_of(with_joint(balance=BALANCE), units)
    assert spaced(said) == (
        f"balancing bellows with an effective area of {area} and an axial rate of {rate}; "
        "what its ties can carry is not given; they only pull (sheet 7)"
    )


def test_ties_that_can_be_pushed_say_so():
    pushed = BALANCE | {"can_carry_n": 2e3 * POUND, "can_be_pushed_n": 1e3 * POUND}
    ((_, said),) = hardware_of(with_joint(balance=pushed), US)
    assert spaced(said).endswith("; its ties together can carry 2 000 lbf; they take a push of 1 000 lbf (sheet 7)")


def test_yield_strength_stands_with_the_pins():
    """36 ksi are 248.2113 MPa."""
    strong = PINS | {"yield_strength_mpa": 248.2113}
    ((_, said),) = hardware_of(with_joint(pins=strong), US)
    assert spaced(said).endswith("together they can carry 1 000 lbf, yield strength 36 000 psi (sheet 6)")


@pytest.mark.parametrize(("units", "pull", "push"), [(SI, "8.90", "2.22"), (US, "2\N{NO-BREAK SPACE}000", "500")])
def test_most_of_each_part_both_ways(units, pull, push):
    """2000 lbf is the greatest pull, hot with friction, and 500 lbf the greatest push, cold in both walks alike."""
    document = with_rows(
        row("plate 1", "cold", -500.0 * POUND),
        row("plate 1", "cold", -500.0 * POUND, "high friction"),
        row("plate 1", "hot", 1900.0 * POUND),
        row("plate 1", "hot", 2000.0 * POUND, "high friction"),
    )
    (spec,) = hardware_tables(document, STATES, units)
    ((part, most, where, least, away),) = printed(spec)
    assert part[0] == "plate 1"
    assert (most[0], least[0]) == (pull, push)
    assert where == ("2 hot", "high friction")
    assert away == ("1 cold", "no and high friction")


def test_part_that_is_never_pushed_has_a_dash():
    """A tenth of a newton is what rounding leaves, not a push."""
    (spec,) = hardware_tables(with_rows(row("bar 1", "cold", 900.0), row("bar 1", "hot", -0.1)), STATES, SI)
    ((*_, push, where),) = printed(spec)
    assert (push[0], where) == (NONE, ("", ""))


def test_joints_of_bellows_alone_have_no_table():
    assert hardware_tables(with_rows(), STATES, SI) == []


NEEDED = {
    "state": "under hydrostatic test",
    "thrust_n": 1e3 * POUND,
    "what": "diameter of each rod",
    "formula": "sqrt(4 F / (pi n S))",
    "source": "first principles",
    "value": 25.4,
    "given": 50.8,
    "unit": "mm",
}


@pytest.mark.parametrize(
    ("units", "thrust", "needed", "given"),
    [(SI, "4.45 kN", "25.4 mm", "50.8 mm"), (US, "1 000.0 lbf", "1.000 in", "2.000 in")],
)
def test_sized_rods_stand_beside_what_is_given(units, thrust, needed, given):
    document = corner()
    document["takeups"][0]["hardware_needed"] = [NEEDED]
    (spec,) = needed_tables(document, units)
    assert spaced(spec["caption"]).endswith(
        f"thrust of {thrust} in the state under hydrostatic test, shared out evenly"
    )
    ((what, formula, by_hand, asked),) = printed(spec)
    assert (what[0], formula[1]) == ("diameter of each rod", "first principles")
    assert [spaced(cell[0]) for cell in (by_hand, asked)] == [needed, given]


def test_size_without_anything_given_has_a_dash():
    document = corner()
    document["takeups"][0]["hardware_needed"] = [NEEDED | {"given": None, "unit": "MPa", "value": 61.0}]
    ((_, _, by_hand, given),) = printed(needed_tables(document, SI)[0])
    assert (spaced(by_hand[0]), given[0]) == ("61.0 MPa", NONE)
