"""The columns of a rating: the names that are promised, their fields, units and sizes; the table and the document."""

from __future__ import annotations

import csv
import io
import json
import math
from dataclasses import fields
from pathlib import Path

import jsonschema
import numpy as np
import pytest
from tests.fake_rating import fake_rated

import takeup.bellows
from takeup.bellows.columns import COLUMNS, HEADER
from takeup.bellows.document import csv_text, document_of, json_text
from takeup.bellows.rating import Rated
from takeup.bellows.reading import bellows_from_bytes
from takeup.bellows.schema import rating_schema
from takeup.papers.joints.bellows_sheet import figures, rating_lines

SCHEMA = Path(takeup.bellows.__file__).parent / "rating.schema.json"
HEAD = "name,inside_diameter_mm,convolution_height_mm,pitch_mm,convolutions,plies,ply_thickness_mm,modulus_gpa,poisson"
PROMISED = [
    "name",
    "shell_stiffness_n_per_mm",
    "formula_stiffness_n_per_mm",
    "shell_effective_area_mm2",
    "shell_bending_mpa_per_bar",
    "shell_bending_mpa_per_mm",
    "shell_surface_mpa_per_bar",
    "shell_surface_mpa_per_mm",
    "shell_hoop_mean_mpa_per_bar",
    "shell_angular_stiffness_nm_per_rad",
    "squirm_elastic_bar",
    "squirm_design_bar",
    "formula_s2_mpa",
    "formula_s3_mpa",
    "formula_s4_mpa",
    "formula_s5_mpa",
    "formula_s6_mpa",
    "life_ejma_average_cycles",
    "life_asme_design_cycles",
    "life_en_design_cycles",
    "remark",
]


def read(*names, more="", cells=""):
    rows = "\n".join(f"{name},219,38,30,8,2,1,195,0.3{cells}" for name in names)
    return bellows_from_bytes(f"{HEAD}{more}\n{rows}\n".encode(), "b.csv")


def rows_of(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_promised_columns_are_there_and_none_stands_twice():
    assert set(PROMISED) <= set(HEADER)
    assert len(set(HEADER)) == len(HEADER)
    assert (HEADER[0], HEADER[-1]) == ("name", "remark")


def test_every_column_is_a_field_of_a_rating_and_every_field_a_column():
    known = {field.name for field in fields(Rated)} - {"shape", "metal", "duty", "remarks"}
    assert {column.field for column in COLUMNS} == known


@pytest.mark.parametrize(
    ("name", "si", "printed"),
    [
        ("shell_stiffness_n_per_mm", 2.5e6, 2500.0),  # 1 N/mm = 1000 N/m
        ("shell_effective_area_mm2", 0.05, 50_000.0),  # 1 m2 = 1e6 mm2
        ("shell_bending_mpa_per_bar", 250.0, 25.0),  # 1 Pa/Pa = 1e-6 MPa / 1e-5 bar = 0.1 MPa/bar
        ("shell_surface_mpa_per_mm", 1.2e11, 120.0),  # 1 Pa/m = 1e-6 MPa / 1000 mm
        ("shell_angular_stiffness_nm_per_rad", 7.0, 7.0),
        ("shell_angular_rate_nm_per_deg", 180.0, math.pi),  # 1 degree is pi/180
        ("shell_free_extension_mm_per_bar", 1e-9, 0.1),  # 1 m/Pa = 1000 mm / 1e-5 bar
        ("formula_torsion_rate_nm_per_deg", 180.0, math.pi),
        ("rated_angular_deg", math.pi, 180.0),
        ("rated_lateral_mm", 0.004, 4.0),
        ("squirm_elastic_bar", 3e5, 3.0),
        ("formula_s2_mpa", 4e7, 40.0),
        ("stiffness_difference_percent", 0.05, 5.0),
        ("life_en_design_cycles", 1000.0, 1000.0),
        ("c1", 0.4, 0.4),
    ],
)
def test_numbers_are_printed_in_the_unit_of_the_name(name, si, printed):
    """Sizes by hand from the definitions of the units; the table prints nine figures."""
    column = next(column for column in COLUMNS if column.name == name)
    [row] = rows_of(csv_text(read("A"), fake_rated(1, **{column.field: si})))
    assert float(row[name]) == pytest.approx(printed, rel=1e-8)


def test_number_not_computed_is_an_empty_cell_and_null():
    rated = fake_rated(2, formula_stiffness=[np.nan, 1e6], remarks=("outside the charts", ""))
    text, document = csv_text(read("A", "B"), rated), document_of(read("A", "B"), rated)
    one, other = rows_of(text)
    assert (one["formula_stiffness_n_per_mm"], other["formula_stiffness_n_per_mm"]) == ("", "1000")
    assert [row["formula_stiffness_n_per_mm"] for row in document["rows"]] == [None, 1000.0]
    assert one["remark"].startswith("outside the charts; ")


def test_number_without_a_limit_is_empty_and_told():
    rated = fake_rated(1, life_en_design=np.inf)
    [row] = rows_of(csv_text(read("A"), rated))
    assert row["life_en_design_cycles"] == ""
    assert "no limit: life_en_design_cycles" in row["remark"]


def test_what_was_assumed_stands_in_the_remark():
    [row] = rows_of(csv_text(read("A"), fake_rated(1)))
    assert "as formed, not annealed: the file does not say" in row["remark"]


@pytest.mark.parametrize("name", ["=1+1", "+A", "-A", "@A"])
def test_name_never_becomes_a_formula(name):
    [row] = rows_of(csv_text(read(name), fake_rated(1)))
    assert row["name"] == f"'{name}"
    assert document_of(read(name), fake_rated(1))["rows"][0]["name"] == name


def test_table_is_whole_for_awkward_names():
    text = csv_text(read('"A, left"', '"say ""B"""'), fake_rated(2))
    assert [row["name"] for row in rows_of(text)] == ["A, left", 'say "B"']
    assert text.splitlines()[0] == ",".join(HEADER)


def test_schema_is_as_written_and_holds_the_document():
    assert SCHEMA.read_text(encoding="utf-8") == rating_schema()
    rated = fake_rated(2, formula_stiffness=np.nan, life_en_design=np.inf)
    document = json.loads(json_text(document_of(read("A", "B"), rated)))
    validator = jsonschema.Draft202012Validator(json.loads(rating_schema()))
    validator.validate(document)
    del document["rows"][0]["remark"]
    assert not validator.is_valid(document)


def test_document_says_what_was_given():
    document = document_of(read("A", more=",pressure_bar,outside_pressure_bar", cells=",2,16"), fake_rated(1))
    given = document["rows"][0]["given"]
    assert (given["inside_diameter_mm"], given["convolution_height_mm"], given["modulus_gpa"]) == (219.0, 38.0, 195.0)
    assert given["pressure_bar"] == -14.0
    assert given["cycles"] is None


def cautions(rated, **said):
    one = read("A", more="".join(f",{name}" for name in said), cells="".join(f",{value}" for value in said.values()))
    return document_of(one, rated)["rows"][0]["cautions"]


def quiet(**changed):
    """A rating that nothing is to be said of."""
    far = {
        "squirm_design": 1e9, "in_plane_squirm": 1e9, "life_asme_design": 1e9, "life_en_design": 1e9,
        "formula_s4": 1e9, "shell_collapse": 1e9, "formula_collapse": 1e9,
        "squirm_elastic": 1e9, "squirm_in_plane_elastic": 1e9,
    }  # fmt: skip
    return fake_rated(1, **(far | changed))


def test_nothing_is_said_of_what_is_within_its_limits():
    assert cautions(quiet(), pressure_bar=10, cycles=1000) == []
    assert cautions(quiet(squirm_design=np.nan), pressure_bar=10) == []


@pytest.mark.parametrize(
    ("changed", "said", "words"),
    [
        ({"squirm_design": 9e5}, {"pressure_bar": 10}, "10 bar is above the design pressure for column squirm, 9 bar"),
        ({"in_plane_squirm": 9e5}, {"pressure_bar": 10}, "above the design pressure for in-plane squirm, 9 bar"),
        ({"life_en_design": 640.0}, {"cycles": 1000}, "1000 cycles are wanted, and 640 are allowed by EN 13445-3"),
        (
            {"shell_bending_per_pressure": 300.0, "formula_s4": 2e8},
            {"pressure_bar": 10},
            "higher by the shell, 300 MPa, than by the published form, 200 MPa",
        ),
        (
            {"shell_collapse": 20e5},
            {"pressure_bar": -10},
            "10 bar from outside is above a third of the elastic collapse pressure of the shell, 20 bar",
        ),
        (
            {"formula_collapse": 21e5},
            {"pressure_bar": -10},
            "elastic collapse pressure of the convolutions as rings, 21 bar",
        ),
        (
            {"squirm_elastic": 9e5},
            {"pressure_bar": 10},
            "10 bar is above the pressure at which the shell squirms as a column, elastic, 9 bar",
        ),
        (
            {"squirm_in_plane_elastic": 9e5},
            {"pressure_bar": 10},
            "10 bar is above the pressure at which the shell's convolutions go oval, elastic, 9 bar",
        ),
    ],
)
def test_what_goes_beyond_its_limit_is_said(changed, said, words):
    """In the document, and in the remark of the table; in no other."""
    [found] = cautions(quiet(**changed), **said)
    assert words in found
    one = read("A", more="".join(f",{name}" for name in said), cells="".join(f",{value}" for value in said.values()))
    [row] = rows_of(csv_text(one, quiet(**changed)))
    assert row["remark"].startswith(f"caution: {found}; ")


def test_sheet_of_one_bellows_has_shell_beside_formula_with_the_difference():
    """2520 N/mm is 5 % above 2400 N/mm."""
    rated = fake_rated(1, shell_stiffness=2.52e6, formula_stiffness=2.4e6, remarks=("one thing; another",))
    lines = rating_lines(document_of(read("A"), rated))
    [line] = [line for line in lines if line.startswith("  axial stiffness, one convolution  ")]
    assert line.split()[-4:] == ["2520", "2400", "+5.0", "N/mm"]
    assert "  - one thing" in lines
    assert "  - another" in lines
    assert any("as formed, not annealed" in line for line in lines)


def test_table_of_many_bellows_has_a_line_each():
    lines = rating_lines(document_of(read("A", "B"), fake_rated(2, life_en_design=np.nan)))
    assert sum(line.split()[:1] in (["A"], ["B"]) for line in lines) == 2
    assert "2 of 2 bellows have a number that was not computed; the remark of --csv says why." in lines


@pytest.mark.parametrize(
    ("value", "words"), [(None, "-"), (0.0, "0"), (1234.56, "1235"), (12345.6, "12 346"), (0.0123456, "0.01235")]
)
def test_figures_are_four(value, words):
    assert figures(value).replace("\N{NO-BREAK SPACE}", " ") == words
