"""Advice on materials in the calculation and on a terminal.     (papers/calculation/test_advice.py)"""

from __future__ import annotations

import io
import re
from collections.abc import Mapping
from typing import Any  # the results are JSON: their values are what the schema says

import pypdf
import pytest
from tests.builders import joint, line_file, study_of
from tests.unit.papers.calculation.test_given import spaced

from takeup.edge import SI, US
from takeup.papers.calculation.advice import advice_part, section_number, warning_lines
from takeup.papers.calculation.calculation import calculation_pdf
from takeup.papers.summary.summary import summary_lines
from takeup.results import results_of

SALT = "traces: chlorides, chlorides: 120 ppm, "
WATER = {
    "medium": "water",
    "design": '{ pressure: 8 bar(g), temperature: 90 °C, vacuum: "not possible, because the pumps keep it full" }',
    "operating": "{ pressure: 6 bar(g), temperature: 85 °C }",
}


def takeup(name: str, at: str, said: str, material: str | None) -> str:
    data = {} if material is None else {"bellows_material": material}
    return joint(name, at, **data).replace("data:", f"{said}data:", 1)


def results(*joints: tuple[str, str | None]) -> Mapping[str, Any]:
    """Return the results of a line with so many joints, each with its words and its material, and anchors between."""
    items = tuple(takeup(f"J{n + 1}", f"{10 + 20 * n} m", *one) for n, one in enumerate(joints))
    anchors = tuple(f"{{ kind: intermediate anchor, at: {20 * n} m, name: A{n} }}" for n in range(1, len(joints)))
    return results_of(study_of(line_file([f"{20 * len(joints)} m east"], takeups=items, holds=anchors, **WATER)))


@pytest.fixture(scope="module")
def warned() -> Mapping[str, Any]:
    return results((SALT, "316L"), (SALT, "316L"), ("", None))


def rows(found: Mapping[str, Any], number: int, units: object = SI) -> list[list[tuple[str, str]]]:
    part = advice_part(found, units)
    assert part is not None
    return [[(cell["words"], cell["more"]) for cell in row["cells"]] for row in part["tables"][number]["rows"]]


def test_warnings_stand_first_and_joints_share_what_is_said_of_both(warned):
    first, *others = rows(warned, 0)
    assert first[0][0] == "J1; J2"
    assert first[1] == ("warning", "chlorides in the medium and 300-series")
    assert "120 ppm of chlorides in water, above 60 °C" in spaced(first[2][0])
    assert first[3][0].startswith("tension, chlorides, water and heat crack")
    assert first[4] == ("common practice, no source", "from memory")
    assert {row[1][0] for row in others} == {"note"}
    assert any(row[0][0] == "J3" and "material of the bellows is not said" in row[2][0] for row in others)


def test_papers_say_that_it_is_no_proof_and_what_it_goes_by(warned):
    part = advice_part(warned, SI)
    assert part["tables"][0]["caption"] == "Advice on materials: no proof"
    (said,) = part["said"]
    assert said.startswith("Advice, not proof")
    assert "changes no verdict" in said
    salted, unsaid = rows(warned, 1)
    assert [salted[0][0], salted[1][0]] == ["J1; J2", "316L"]
    assert salted[2] == ("water", "chlorides 120 ppm")
    assert unsaid[1][0] == "not said"
    assert unsaid[2] == ("water", "what else it holds: not said")
    assert unsaid[5][0] == "chlorides not said"


def test_temperatures_it_goes_by_are_in_the_papers_units(warned):
    """90 degC = 194 degF and 70 degF as typed."""
    assert spaced(rows(warned, 1, US)[0][4][0]) == "70 °F and 194 °F"


def test_terminal_has_one_line_for_each_joint_with_warnings(warned):
    number = section_number(warned)
    assert warning_lines(warned)[1:3] == [
        f"  J1: 1 warning on its material, see calculation {number}",
        f"  J2: 1 warning on its material, see calculation {number}",
    ]
    assert not any("J3" in line for line in warning_lines(warned))
    assert "Advice on materials, not proof:" in summary_lines(warned)


def test_terminal_says_nothing_where_nothing_warns():
    assert warning_lines(results(("", None))) == []


def test_the_number_on_the_terminal_is_that_of_the_heading(warned):
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(warned)))
    words = " ".join(" ".join(page.extract_text() for page in reader.pages).split())
    assert re.search(rf"(?<![\d.]){re.escape(section_number(warned))} ?Advice on materials", words)


def test_no_joint_no_advice():
    assert advice_part(results_of(study_of(line_file(["20 m east"]))), SI) is None
