"""Rods, plates, bars and ties on the desk carry what results.json says, and are as full as its checks have them."""

from __future__ import annotations

import pytest
from tests import example_studies
from tests.unit.desk.benches import EXAMPLES, asked, bench, of_text, step_of

from takeup.desk.interface import TakeupLook
from takeup.drawing.reading import Record, number_of, record_of, records_of, text_of

SCENARIOS = ("no friction", "high friction")
_KINDS = ("limit-rod-axial", "limit-rod-universal", "tied-axial", "tied-universal")
RODS = ("fell-gill-offset", *(f"kinds/{kind}" for kind in _KINDS))
PINS = ("kinds/gimbal", "kinds/hinged", "kinds/swing")
TIES = ("kinds/in-line-pressure-balanced", "kinds/elbow-pressure-balanced")
ROUNDING = {"rel": 1e-9, "abs": 1e-6}  # one walk, superposed in another order: a micronewton or a micrometre apart


def looks(name: str) -> dict[tuple[str, str, str], TakeupLook]:
    """Return every joint by scenario, state and name."""
    one, found = bench(name), {}
    for scenario in SCENARIOS:
        for state in records_of(example_studies.results(name), "states"):
            words = text_of(state, "name")
            seen = one.look(asked(step=step_of(one, words, scenario), scenario=scenario))
            for takeup in seen["takeups"]:
                found[scenario, words, takeup["id"].split("/")[1]] = takeup
    return found


def rows(name: str, key: str) -> list[tuple[str, Record]]:
    """Return rows of joints in the results, each with the name of its joint, of the two scenarios that the desk has."""
    return [
        (text_of(joint, "name"), row)
        for joint in records_of(example_studies.results(name), "takeups")
        for row in records_of(joint, key)
        if text_of(row, "scenario") in SCENARIOS
    ]


def check_at(name: str, rule: str, where: str) -> Record:
    checks = records_of(example_studies.results(name), "checks")
    return next(row for row in checks if (text_of(row, "rule"), text_of(row, "where")) == (rule, where))


@pytest.mark.parametrize("name", RODS)
def test_every_rod_in_every_state_is_as_full_as_its_tension_in_the_results(name):
    seen, told = looks(name), rows(name, "rods")
    assert told, "the example has rods"
    takeups = records_of(example_studies.results(name), "takeups")
    data = {text_of(joint, "name"): record_of(record_of(joint, "data"), "rods") for joint in takeups}
    limits = {joint: number_of(rods, "can_carry_n") for joint, rods in data.items()}
    for joint, row in told:
        own = seen[text_of(row, "scenario"), text_of(row, "state"), joint]["rods"]
        (rod,) = [one for one in own if one["name"] == text_of(row, "rod")]
        assert 1e3 * rod["tension_kn"] == pytest.approx(number_of(row, "tension_n"), **ROUNDING)
        assert 1e3 * rod["capacity_kn"] == pytest.approx(limits[joint], rel=1e-12)  # one division
        assert rod["use"] == pytest.approx(number_of(row, "tension_n") / limits[joint], **ROUNDING)
        assert (rod["engaged"], rod["words"].startswith("slack")) == (row["engaged"], not row["engaged"])


@pytest.mark.parametrize(
    ("name", "rule", "part"),
    [(name, "rods", "rods") for name in RODS]
    + [(name, "pins", "hardware") for name in PINS]
    + [(name, "balance_ties", "hardware") for name in TIES],
)
def test_the_fullest_on_the_desk_is_what_the_check_says(name, rule, part):
    """The most loaded rod, twice the more loaded plate, all ties: over every state of both walks."""
    seen = looks(name)
    for joint in {key[2] for key in seen}:
        said = check_at(name, rule, joint)
        uses = {key: max(one["use"] for one in takeup[part]) for key, takeup in seen.items() if key[2] == joint}
        assert max(uses.values()) == pytest.approx(number_of(said, "use"), **ROUNDING)
        there = [uses[scenario, text_of(said, "state"), joint] for scenario in SCENARIOS]
        assert max(there) == pytest.approx(number_of(said, "use"), **ROUNDING)


@pytest.mark.parametrize("name", TIES)
def test_ties_pull_in_every_state_as_the_results_have_it(name):
    seen = looks(name)
    told = [(joint, row) for joint, row in rows(name, "hardware") if text_of(row, "part").startswith("ties")]
    assert told
    for joint, row in told:
        (ties,) = seen[text_of(row, "scenario"), text_of(row, "state"), joint]["hardware"]
        assert 1e3 * ties["force_kn"] == pytest.approx(number_of(row, "force_n"), **ROUNDING)


def test_where_nobody_said_what_a_rod_carries_there_is_no_use_and_the_words_say_so():
    text = (EXAMPLES / "fell-gill-offset.yaml").read_text(encoding="utf-8")
    without = text.replace("          can_carry: 60 kN\n", "")
    assert without != text
    one = of_text(without)
    (joint,) = one.look(asked(step=step_of(one, "cold at design pressure")))["takeups"]
    for rod in joint["rods"]:
        assert (rod["use"], rod["capacity_kn"]) == (None, None)
        assert rod["words"] == f"{rod['tension_kn']:.1f} kN; capacity not stated"
    (joint,) = one.look(asked(step=step_of(one, "coldest day, shut down")))["takeups"]
    assert joint["rods"][0]["words"] == "slack, nuts 0.3 mm off; capacity not stated"


def test_a_rod_is_fuller_as_pressure_is_pushed_by_hand():
    """At 15 degC, as installed, nothing grows: what two rods hold goes with the pressure, and so does their use."""
    one = bench("fell-gill-offset")
    found = [one.look(asked(hand=(pressure, 15.0)))["takeups"][0]["rods"][0] for pressure in (4.0, 8.0)]
    assert found[0]["use"] > 0.0
    assert found[0]["words"] == f"{found[0]['tension_kn']:.1f} kN of 60 kN"
    assert found[1]["use"] == pytest.approx(2.0 * found[0]["use"], rel=1e-6)  # linear while all rods bear; a solve each


def test_why_tells_each_rod_by_state_with_its_use():
    told = bench("fell-gill-offset").why("FS-03/J1", None)
    (table,) = [one for one in told["tables"] if one["title"] == "Rods by state"]
    row = next(row for row in table["rows"] if row[0]["text"] == "cold at design pressure")
    look = looks("fell-gill-offset")["no friction", "cold at design pressure", "J1"]["rods"][0]
    assert (row[1]["text"], row[1]["use"]) == (f"{look['tension_kn']:.1f} kN", look["use"])
