"""The workbook goes to the maker and comes back: filled in, compared, refused.

(tests/unit/papers/data_sheets/test_round_trip.py)
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.papers.data_sheets.data_sheet_fixture import boxes_of, cell_behind, filled, results, study, tabs_of

from takeup.choose.comparison import compare
from takeup.choose.comparison.labels import HEADS, LABELS, NAMES
from takeup.choose.comparison.quantities import QUANTITIES
from takeup.edge import SI, US, Units
from takeup.errors import InputError
from takeup.line import Study
from takeup.papers.data_sheets.paper import joints_workbook
from takeup.papers.registry import Options
from takeup.papers.words import LANGUAGES

SINGLE = "kinds/single-axial"
AREA = 14_200.0  # mm2, effective area in that example
LEFT = ("lateral_rate", "angular_rate", "torsion_rate")
"""Rates that the examples leave to the model."""


def heads(language: str) -> tuple[str, str, str]:
    """Heads of quantity, used and certified."""
    found = HEADS[language]
    return found["quantity"], found["used"], found["certified"]


def sheet_of(name: str, units: Units = SI, language: str = "en") -> bytes:
    """The workbook of an example."""
    return joints_workbook(results(name), Options(units=units, language=language))


def faults_of(name: str, content: bytes) -> list[str]:
    """What comparing refuses, fault by fault."""
    with pytest.raises(InputError) as caught:
        compare(study(name), content, "joints.xlsx")
    return str(caught.value).splitlines()


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("name", [SINGLE, "kinds/double", "kinds/hinged", "kinds/in-line-pressure-balanced"])
def test_values_certified_as_used_differ_in_nothing(name, units, language):
    """Boxes get the number beside them: all is the same, no check changes, whatever unit and language.

    Rates that these files leave to the model have a test of their own below.
    """
    content = sheet_of(name, units, language)
    left = {LABELS[language][rate] for rate in LEFT}
    for tab in tabs_of(content)[1:-1]:
        boxes = boxes_of(content, tab, heads(language))
        values = {
            cell: used for label, (cell, _, used) in boxes.items() if isinstance(used, float) and label not in left
        }
        assert len(values) >= 12
        content = filled(content, tab, values)
    found = compare(study(name), content, "joints.xlsx").document
    assert not found["not_in_sheet"]
    said = [value for joint in found["takeups"] for value in joint["values"]]
    assert {value["status"] for value in said} == {"same"}
    assert found["checks"] == []


def test_rates_that_the_model_made_may_be_certified_as_used():
    content = sheet_of(SINGLE)
    boxes = boxes_of(content, "J1", heads("en"))
    found = compare(
        study(SINGLE),
        filled(content, "J1", {boxes[LABELS["en"][rate]][0]: boxes[LABELS["en"][rate]][2] for rate in LEFT}),
        "joints.xlsx",
    ).document
    said = {one["column"]: one["status"] for one in found["takeups"][0]["values"]}
    assert said["angular_rate_nm_per_deg"] == "not in the file"
    assert found["checks"] == []


def test_certificate_is_read_behind_its_label():
    content = sheet_of(SINGLE, language="de")
    cell = cell_behind(content, "J1", HEADS["de"]["certificate"])
    area = boxes_of(content, "J1", heads("de"))[LABELS["de"]["effective_area"]]
    found = compare(study(SINGLE), filled(content, "J1", {cell: "Prüfung 7/2", area[0]: AREA}), "j.xlsx").document
    assert found["takeups"][0]["certificate"] == "Prüfung 7/2"


def test_a_fifth_more_area_loads_the_anchors_as_by_hand():
    """F = P A_e at the test: 9 bar x 1.2 x 14 200 mm2 = 15 336 N, and 12 780 N before (by hand)."""
    content = sheet_of(SINGLE)
    cell, _, used = boxes_of(content, "J1", heads("en"))["effective area"]
    assert used == AREA
    found = compare(study(SINGLE), filled(content, "J1", {cell: 1.2 * AREA}), "joints.xlsx")
    header = next(hold for hold in found.results["holds"] if hold["name"] == "boiler header")
    hand = next(one for one in header["hand"] if "hydrostatic test: force along" in one["what"])
    assert hand["value"] == pytest.approx(-15_336.0, rel=1e-9)  # exact but for the last digits of doubles
    assert hand["model"] == pytest.approx(-15_336.0, rel=0.01)  # the pipe stretches and takes a little off
    before, after = (found.document["anchors"][0][key]["along_low_n"] for key in ("before", "after"))
    assert before == pytest.approx(-13_060.0, rel=0.01)  # design: 6 bar x 14 200 mm2 + 180 N/mm x 23.6 mm, by hand
    assert after == pytest.approx(-15_336.0, rel=0.01)


def test_sheet_of_another_kind_under_the_same_tag_is_refused():
    """Both examples have a J1 and neither sheet a fault of its own: only the kind tells that they are two joints."""
    content = sheet_of(SINGLE)
    cell, _, used = boxes_of(content, "J1", heads("en"))["effective area"]
    faults = faults_of("kinds/hinged", filled(content, "J1", {cell: used}))
    assert len(faults) == 1
    assert "kind: found 'single axial'; in the line file J1 is 'hinged'" in faults[0]


@pytest.mark.parametrize("language", LANGUAGES)
def test_sheet_of_another_project_with_the_same_tag_and_kind_is_told(language):
    """The sheet says from which line file it was made; one that was changed since is another file as well."""
    content = sheet_of(SINGLE, language=language)
    cell, _, used = boxes_of(content, "J1", heads(language))[LABELS[language]["effective_area"]]
    back = filled(content, "J1", {cell: used})
    own = study(SINGLE)
    assert remarks_of(own, back) == []
    other = replace(own, project="Other works", sha256="0" * 64)
    (told,) = [words for words in remarks_of(other, back) if "made from another line file" in words]
    assert f"{own.project}, {own.document.number} {own.document.revision}, SHA-256 {own.sha256[:16]}" in told
    assert "this one is Other works, " in told
    assert "SHA-256 0000000000000000. See that" in told


def remarks_of(line: Study, content: bytes) -> list[str]:
    (joint,) = compare(line, content, "joints.xlsx").document["takeups"]
    return [words for words in joint["remarks"] if "line file" in words]


def test_unit_may_be_another_than_was_printed():
    """180 N/mm is 1027.826 lbf/in (by hand: 180 / 0.1751268)."""
    content = sheet_of(SINGLE)
    cell, unit, used = boxes_of(content, "J1", heads("en"))["axial rate"]
    assert used == 180.0
    found = compare(study(SINGLE), filled(content, "J1", {cell: 1027.826, unit: "lbf/in"}), "j.xlsx").document
    rate = next(one for one in found["takeups"][0]["values"] if one["column"] == "axial_rate_n_per_mm")
    assert rate["certified"] == pytest.approx(180.0, rel=1e-6)  # seven figures typed


def test_sheet_as_printed_names_the_empty_boxes():
    faults = faults_of(SINGLE, sheet_of(SINGLE))
    assert "no box of 'J1' under 'As certified' is filled in" in faults[0]
    assert "'axial rate' (E" in faults[0]
    assert "'rated cycles' (E" in faults[0]
    assert "Used here" not in faults[0]  # the note below the boxes is none of them
    german = faults_of(SINGLE, sheet_of(SINGLE, language="de"))
    assert "under 'Bescheinigt' is filled in: 'axiale Federrate' (E" in german[0]


def test_sheet_that_is_left_empty_beside_a_filled_one_certifies_nothing():
    content = sheet_of("kinds/hinged")
    cell, _, used = boxes_of(content, "J2", heads("en"))["effective area"]
    found = compare(study("kinds/hinged"), filled(content, "J2", {cell: used}), "joints.xlsx").document
    assert [joint["name"] for joint in found["takeups"]] == ["J2"]
    assert found["not_in_sheet"] == ["J1"]


@pytest.mark.parametrize(
    ("box", "value", "fault"),
    [
        ("effective area", "large", "effective_area_mm2: found 'large', expected a number"),
        ("axial rate", -3.0, "axial_rate_n_per_mm: '-3': it must be above 0"),
        ("live length", 1e4, "above the length"),
    ],
)
def test_value_that_cannot_be_is_told_by_its_cell(box, value, fault):
    content = sheet_of(SINGLE)
    cell = boxes_of(content, "J1", heads("en"))[box][0]
    faults = faults_of(SINGLE, filled(content, "J1", {cell: value}))
    assert any(f"J1!{cell}: " in one and fault in one for one in faults)


def test_unknown_unit_is_told_with_those_that_are_known():
    content = sheet_of(SINGLE)
    cell, unit, _ = boxes_of(content, "J1", heads("en"))["axial rate"]
    faults = faults_of(SINGLE, filled(content, "J1", {cell: 95.0, unit: "t/furlong"}))
    assert f"J1!{unit}: 't/furlong' is no unit of rate here: n/mm" in faults[0]
    assert len(faults) == 1  # nothing else is said of a sheet that is wrong already


def test_tag_that_is_taken_away_or_twice_there_is_told():
    content = sheet_of("kinds/hinged")
    tag = cell_behind(content, "J2", "Tag")
    for sheet in ("J1", "J2"):
        cell, _, used = boxes_of(content, sheet, heads("en"))["axial rate"]
        content = filled(content, sheet, {cell: used})
    twice = faults_of("kinds/hinged", filled(content, "J2", {tag: "J1"}))
    assert "'J1' stands in J1!B" in twice[0]
    gone = faults_of("kinds/hinged", filled(content, "J2", {tag: ""}))
    assert "no tag behind 'Tag' or 'Kennzeichen'" in gone[0]


def test_labels_are_those_of_the_quantities_and_say_one_thing_each():
    assert set(LABELS) == set(HEADS) == set(LANGUAGES)
    names = {one.name for one in QUANTITIES}
    assert all(set(labels) == names for labels in LABELS.values())
    assert all(heads.keys() == HEADS["en"].keys() for heads in HEADS.values())
    assert len(NAMES) == len(LANGUAGES) * len(names)  # no two are written alike
