"""Second order, bows and guides in results.json, against the schema, and as the calculation prints them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import validate
from tests.builders import hold, joint, line_file, study_of
from tests.unit.study.thrust_lines import UNIVERSAL, tied

import takeup.results
from takeup.edge import SI, US
from takeup.papers.common.beyond import bows_table, guides_table, swings_table
from takeup.results import results_of

SCHEMA = json.loads((Path(takeup.results.__file__).parent / "results.schema.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def offset() -> dict:
    """A tied universal across a Z, its guides loose."""
    holds = (
        hold("slide guide", "[4 m, 9 m, 37 m, 42 m]", clearance="2 mm"),
        hold("rest", "[15 m, 21.2 m, 25.8 m, 32 m]"),
    )
    takeup = tied("tied universal", "23.5 m", "2 m", **UNIVERSAL)
    return results_of(study_of(line_file(["20 m east", "7 m north", "20 m east"], holds=holds, takeups=(takeup,))))


@pytest.fixture(scope="module")
def straight() -> dict:
    """An open joint between anchors."""
    text = line_file(
        ["40 m east"], holds=(hold("slide guide", "[3 m, 6 m, 17 m, 29 m]"),), takeups=(joint("J1", "1.2 m"),)
    )
    return results_of(study_of(text))


def test_parts_are_those_of_the_schema(offset, straight):
    for results in (offset, straight):
        validate(json.loads(json.dumps(results)), SCHEMA)
    assert straight["second_order"] == []


def test_second_order_says_force_hand_and_why(offset):
    rows = {row["state"]: row for row in offset["second_order"]}
    row = rows["operating"]
    assert row["takeup"] == "J1"
    assert row["stable"]
    assert row["force_n"] < 0.0
    assert row["lateral_after_mm"] > row["lateral_mm"] > 80.0  # 20 m of pipe either side, 2.3 mm/m
    assert row["hand_n"] == pytest.approx(46e3 * row["lateral_mm"] / 1e3 * (1 / 2.0 - 1 / 1.2), rel=0.01)  # 10 bar
    assert row["because"]
    assert {item["name"] for item in row["holds"]} >= {"west end", "east end"}


def test_clearance_names_its_guides_and_joints(offset):
    for row in offset["clearance"]:
        assert row["clearance_mm"] == 2.0
        assert row["bow_mm"] == pytest.approx(2.0 + row["length_m"])  # L/1000 in mm is L in m
        assert {item["name"] for item in row["takeups"]} == {"J1"}
        assert len(row["guides"]) == 4 * row["stable"]


def test_guides_say_what_they_are_to_be_made_for(straight):
    """15 % of 18 bar x 46 000 mm2 = 12.42 kN (by hand)."""
    for row in straight["guides"]:
        assert row["fifteen_percent_n"] == pytest.approx(12_420.0, rel=1e-4)  # the gauge stands as high as the joint
        assert row["design_n"] == max(row["computed_n"], row["fifteen_percent_n"])
    assert [row["name"] for row in straight["guides"]] == [f"slide guide at {at} m" for at in (3, 6, 17, 29)]


def test_modes_say_which_part_bows(offset):
    modes = [mode for row in offset["stability"] for mode in row["modes"]]
    assert {mode["part"] for mode in modes} <= {"run", "bellows", "spool", "rods"}
    swaying = [mode for mode in modes if mode["part"] == "bellows" and mode["spool_sways"]]
    assert swaying
    assert all(mode["governed_by"] == "the bellows of J1 (its spool free)" for mode in swaying)
    assert all(mode["required"] == 5.9 for mode in swaying)


@pytest.mark.parametrize("units", [SI, US])
def test_the_calculation_prints_them(offset, straight, units):
    swings, bows, guides = (make(offset, units) for make in (swings_table, bows_table, guides_table))
    assert len(swings["rows"]) == len(swings["notes"]) == len(offset["second_order"])
    assert len(bows["rows"]) == len(offset["clearance"])
    assert len(guides["rows"]) == 4
    assert swings_table(straight, units) is None
    printed = guides_table(straight, units)["rows"][0]["cells"]
    assert printed[3]["words"].replace("\N{NO-BREAK SPACE}", " ") in {"12.42", "2 792", "2792"}  # 12 420 N/4.448 N/lbf
