"""Conditions of a line and of a zone, and states of the user's own."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.errors import InputError
from takeup.line import states_of, zones_of
from takeup.line.reading.reader import study_from_text

HERE = Path(__file__).parent
BRANCHED = (HERE / "branched.yaml").read_text(encoding="utf-8")
ADDED = BRANCHED.partition("  add:\n")[2].partition("lines:")[0]


def with_state(text: str) -> str:
    return BRANCHED.replace(ADDED, text)


def test_zone_has_conditions_of_its_own_and_the_rest_of_the_whole():
    """Gauge pressures as typed; one bar is 1e5 Pa."""
    study = study_from_text(BRANCHED, "x")
    assert [(zone.name, zone.conditions.operating.pressure) for zone in zones_of(study).every] == [
        ("boiler header to yard anchor with LS-202", 10e5),
        ("yard anchor to laundry header", 10e5),
        ("branch valve to low pressure side", 10e5),
        ("low pressure side", 4e5),
    ]


def test_part_that_a_zone_does_not_say_is_that_of_its_line():
    own = "    zones:\n      - name: low pressure side\n        from: reducing valve\n"
    text = BRANCHED.replace(own, "    operating: { pressure: 9 bar(g), temperature: 180 °C }\n" + own)
    text = text.replace("        operating: { pressure: 4 bar(g), temperature: 175 °C }\n", "")
    text = text.replace("        design: { pressure: 5 bar(g), temperature: 195 °C }\n", "").replace(
        "7.5 bar(g)", "19 bar(g)"
    )
    line = study_from_text(text, "x").lines[1]
    assert line.conditions is not None
    assert line.zones[0].conditions is not None
    assert (line.conditions.design.pressure, line.conditions.operating.pressure) == (12e5, 9e5)
    assert line.zones[0].conditions.operating == line.conditions.operating
    assert line.zones[0].position.station == pytest.approx(7.0, abs=1e-12)


def test_zone_without_conditions_has_those_of_its_line():
    rule = "      - { name: low pressure side, from: reducing valve }\n"
    before, _, rest = BRANCHED.partition("      - name: low pressure side\n")
    text = before + rule + rest[rest.index("    route:") :]
    assert study_from_text(text, "x").lines[1].zones[0].conditions is None


def test_state_like_another_changes_one_zone():
    """The press house at no pressure, everything else as it operates; the branch valve is closed."""
    study = study_from_text(BRANCHED, "x")
    states = {state.name: state for state in states_of(study)}
    shut, operating = states["press house shut"], states["operating"]
    assert shut.zones[:3] == operating.zones[:3]
    assert (shut.zones[3].pressure, shut.zones[3].temperature, shut.zones[3].content) == (0.0, 12.0, "none")
    assert (shut.closed, shut.locked) == (("branch valve",), False)


def test_state_of_its_own_still_says_all():
    text = with_state(
        "    - { name: flushed, pressure: 2 bar(g), temperature: 40 °C, content: water, at_elevation: 4.5 m }\n"
    )
    state = states_of(study_from_text(text, "x"))[-1]
    assert {(zone.pressure, zone.content) for zone in state.zones} == {(2e5, "water")}


def test_hangers_may_be_locked():
    text = with_state("    - { name: pinned, like: installed, hangers: locked }\n")
    assert states_of(study_from_text(text, "x"))[-1].locked


def test_state_that_no_table_reaches_is_a_fault_with_its_place():
    """Steam at 400 bar(g) has no saturation temperature (IAPWS-IF97: 220.64 bar(a) is the last)."""
    text = with_state("    - { name: burst, pressure: 400 bar(g), temperature: 190 °C, content: medium }\n")
    with pytest.raises(InputError, match=r"added state burst"):
        study_from_text(text, "x")


def test_heads_count_over_lines_that_hang_together():
    """2 % of 18 bar(g) is 3.671 m of water; main and branch each rise less, together more: 0.15 m down, 3.6 m up."""
    text = BRANCHED.replace(", gauge_elevation: 4.5 m }\ncycles", " }\ncycles")
    study_from_text(text, "x")
    high = text.replace("{ by: [3 m, 0 m, 0.06 m]", "{ by: [3 m, 0 m, 3.6 m]")
    with pytest.raises(InputError, match=r"test, pressure: the key 'gauge_elevation' is required beside it: the lines"):
        study_from_text(high, "x")
