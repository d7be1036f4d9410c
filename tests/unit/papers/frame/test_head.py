"""The head of a paper comes from the results alone.     (tests/unit/papers/frame/test_head.py)"""

from __future__ import annotations

from datetime import date

import pytest
from tests.unit.drawing.results_fixture import corner
from tests.unit.drawing.system_fixture import system

from takeup.edge import SI, US
from takeup.papers.frame import head_of

CONDITIONS = {
    "design": {"pressure_bar": 12.0, "temperature_c": 195.0},
    "operating": {"pressure_bar": 10.0, "temperature_c": 184.5},
    "test": {"pressure_bar": 18.0, "temperature_c": 12.0, "with": "water"},
    "vacuum": {"possible": True, "pressure_bar": -1.01325, "because": "full vacuum"},
}


def with_conditions():
    """Results whose conditions are whole."""
    document = corner()
    document["input"]["resolved"] |= CONDITIONS
    return document


def test_head_holds_what_the_results_say():
    document = corner()
    head = head_of(document)
    given = document["input"]
    assert (head.project, head.file, head.sha256) == (given["project"], given["file"], given["sha256"])
    assert (head.number, head.revision) == (given["document"]["number"], given["document"]["revision"])
    assert head.date == date.fromisoformat(given["document"]["date"])
    assert head.tool == f"{document['tool']['name']} {document['tool']['version']}"
    assert head.basis == f"{document['basis']['code']}, edition {document['basis']['edition']}"
    assert head.cautions == tuple(document["cautions"])
    assert len(head.not_covered) == len(document["not_covered"])
    assert head.verdict == document["verdict"]["outcome"]
    assert head.remarks == ()


def test_conditions_stand_with_their_units():
    conditions = dict(head_of(with_conditions()).conditions)
    assert conditions["design"] == "12 bar(g), 195 °C"
    assert conditions["operating"] == "10 bar(g), 184.5 °C"
    assert conditions["test"] == "18 bar(g), 12 °C, with water"
    assert conditions["vacuum"].startswith("possible, down to −1.01")
    assert {"installed at", "surroundings"} <= set(conditions)
    assert "psi" in dict(head_of(with_conditions(), US).conditions)["design"]


def test_vacuum_that_is_not_possible_says_why():
    document = with_conditions()
    document["input"]["resolved"]["vacuum"] = {"possible": False, "pressure_bar": 0.0, "because": "a vent is open"}
    assert dict(head_of(document).conditions)["vacuum"] == "not possible: a vent is open"


def test_zone_with_conditions_of_its_own_is_named():
    document = with_conditions()
    alike = {"name": "hall", "conditions": {"design": CONDITIONS["design"]}}
    own = {"name": "cellar", "conditions": {"design": {"pressure_bar": 7.0, "temperature_c": 101.5}}}
    document["zones"] = [alike, own]
    conditions = dict(head_of(document).conditions)
    assert conditions["design, cellar"] == "7 bar(g), 101.5 °C"
    assert "design, hall" not in conditions
    assert dict(head_of(document, SI, "de").conditions)["Auslegung, cellar"] == "7 bar(g), 101,5 °C"


@pytest.mark.parametrize("key", ["number", "revision", "date"])
def test_what_is_absent_is_blank(key):
    document = corner()
    document["input"]["document"][key] = ""
    head = head_of(document)
    label = {"number": "document no.", "revision": "revision", "date": "date"}[key]
    assert dict(head.facts)[label] == ""


def test_document_without_anything_is_named_by_its_line():
    document = corner()
    document["input"]["document"] = {}
    assert head_of(document).running == head_of(document).lines == "line LS-201"


def test_several_lines_are_named():
    document = system()
    names = [line["name"] for line in document["lines"]]
    lines = head_of(document, SI, "de").lines
    assert lines.startswith("Leitungen ")
    assert all(name in lines for name in names)


def test_invented_data_are_told_by_name():
    document = corner()
    for joint in document["takeups"]:
        joint["provenance"] = "user's data: sheet 7"
    assert head_of(document).demonstration == ""
    document["takeups"][0]["provenance"] = "user's data: invented for this demonstration"
    name = document["takeups"][0]["name"]
    assert head_of(document).demonstration.startswith(f"Demonstration data: {name}.")
    assert head_of(document, SI, "de").demonstration.startswith(f"Demonstrationsdaten: {name}.")
    document["takeups"][0]["provenance"] = "user's data: Blatt 7, frei erfunden"
    assert head_of(document).demonstration.startswith(f"Demonstration data: {name}.")


def test_german_head_says_what_stays_english():
    assert head_of(corner(), SI, "de").remarks == (head_of(corner(), SI, "de").texts("frame.left_english"),)
