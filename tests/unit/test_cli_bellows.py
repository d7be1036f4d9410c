"""`takeup bellows rate` from outside: what it prints where, what it writes, its exit codes."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import jsonschema
import pytest

import takeup.bellows
from takeup import __version__, cli

EXAMPLES = Path(__file__).parents[2] / "examples" / "bellows"
SCHEMA = json.loads((Path(takeup.bellows.__file__).parent / "rating.schema.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", ["thornby.csv", "thornby.yaml"])
def test_example_is_rated_as_table_and_document_alike(name, capsys):
    assert cli.run(["bellows", "rate", str(EXAMPLES / name), "--csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert cli.run(["bellows", "rate", str(EXAMPLES / name), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator(SCHEMA).validate(document)
    assert document["tool"] == {"name": "takeup", "version": __version__}
    assert document["input"]["file"] == name
    for row, other in zip(rows, document["rows"], strict=True):
        for column, cell in row.items():
            said = other[column]
            assert cell == ("" if said is None else said if isinstance(said, str) else f"{said:.9g}"), column


def test_shape_outside_the_published_range_keeps_its_shell_values(tmp_path, capsys):
    """A convolution lower than half its pitch has C1 = q/(2 w) = 1.25, above the charts' 1 (from memory); no fault."""
    path = tmp_path / "odd.csv"
    path.write_text(
        "name,inside_diameter_mm,convolution_height_mm,pitch_mm,convolutions,plies,ply_thickness_mm,crest_radius_mm,"
        "root_radius_mm,modulus_gpa,poisson\nodd,219,12,30,8,2,1,6,6,195,0.3\n",
        encoding="utf-8",
    )
    assert cli.run(["bellows", "rate", str(path), "--csv"]) == 0
    [row] = csv.DictReader(io.StringIO(capsys.readouterr().out))
    assert float(row["shell_stiffness_n_per_mm"]) > 0.0
    assert float(row["squirm_elastic_bar"]) > 0.0
    assert row["formula_stiffness_n_per_mm"] == ""
    assert row["remark"] != ""


def test_sheet_is_printed_and_pictures_are_written_where_asked(tmp_path, capsys):
    assert cli.run(["bellows", "rate", str(EXAMPLES / "thornby.yaml"), "--out", str(tmp_path / "here")]) == 0
    printed = capsys.readouterr().out.splitlines()
    paths = sorted((tmp_path / "here").iterdir())
    assert [path.suffix for path in paths] == [".svg"] * 4  # a convolution and an envelope each
    assert sorted(printed[-4:]) == [str(path) for path in paths]
    assert any(line.startswith("  Thornby 200  ") for line in printed)


def test_machine_output_stays_clean_when_pictures_are_written(tmp_path, capsys):
    assert cli.run(["bellows", "rate", str(EXAMPLES / "thornby.yaml"), "--json", "--out", str(tmp_path)]) == 0
    said = capsys.readouterr()
    json.loads(said.out)
    assert len(said.err.splitlines()) == 4  # a convolution and an envelope each


def test_faults_are_told_at_once_and_nothing_is_written(tmp_path, capsys):
    path = tmp_path / "bad.yaml"
    path.write_text("takeup_bellows: 1\nname: A\npich: 30 mm\n", encoding="utf-8")
    assert cli.run(["bellows", "rate", str(path), "--out", str(tmp_path / "out")]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    faults = said.err.splitlines()
    assert len(faults) > 2
    assert all(fault.startswith(f"{path}:") for fault in faults)
    assert any("did you mean 'pitch'?" in fault for fault in faults)
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("inside", ["", "folder"])
def test_folder_that_cannot_be_is_told_before_anything_is_printed(tmp_path, capsys, inside):
    path = tmp_path / "file"
    path.write_text("", encoding="utf-8")
    assert cli.run(["bellows", "rate", str(EXAMPLES / "thornby.yaml"), "--out", str(path / inside)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(f"takeup: {path}")
    assert len(said.err.splitlines()) == 1


def test_two_answers_are_not_given(capsys):
    assert cli.run(["bellows", "rate", str(EXAMPLES / "thornby.csv"), "--csv", "--json"]) == 2
    assert capsys.readouterr().err == "takeup: --csv and --json are two answers: give one of them\n"


def test_rating_at_the_wanted_life_stands_in_sheet_and_document(tmp_path, capsys):
    """Least of the curves in the table, both in the document; the limit is the least of the criteria."""
    path = tmp_path / "one.yaml"
    text = (EXAMPLES / "thornby.yaml").read_text(encoding="utf-8").split("  - name:")[1]
    path.write_text("takeup_bellows: 1\nname:" + text.replace("\n    ", "\n"), encoding="utf-8")
    assert cli.run(["bellows", "rate", str(path)]) == 0
    sheet = capsys.readouterr().out
    assert "Rating at the wanted life, 1000 cycles" in sheet
    assert "governs" in sheet
    assert cli.run(["bellows", "rate", str(path), "--json"]) == 0
    [row] = json.loads(capsys.readouterr().out)["rows"]
    assert [one["curve"] for one in row["rated_movements"]] == ["ASME design", "EN design"]
    assert row["rated_axial_mm"] == min(one["axial_mm"] for one in row["rated_movements"])
    inside = [one["pressure_bar"] for one in row["pressure_limits"] if one["from"] == "inside"]
    assert row["pressure_limit_bar"] == min(inside)
    assert "rated movement held by" in row["remark"]


DUTY = EXAMPLES / "duty-thornby.yaml"


def test_design_prints_a_sheet_and_a_document_of_the_same(capsys):
    assert cli.run(["bellows", "design", str(DUTY)]) == 0
    sheet = capsys.readouterr().out
    assert "least material of all that fit" in sheet
    assert cli.run(["bellows", "design", str(DUTY), "--least", "length", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["input"]["file"] == DUTY.name
    first, *others = document["designs"]
    assert first["why"].startswith("shortest")
    assert all(first["length_mm"] <= one["length_mm"] for one in others)
    assert all(one["greatest_use"] <= 1.0 for one in document["designs"])
    assert {"mass_kg", "formula_axial_rate_n_per_mm", "squirm_elastic_factor", "criteria"} <= set(first)


def test_design_that_nothing_fits_leaves_with_one_and_says_what_would_help(tmp_path, capsys):
    path = tmp_path / "tight.yaml"
    path.write_text(DUTY.read_text(encoding="utf-8").replace("320 mm", "224 mm"), encoding="utf-8")
    assert cli.run(["bellows", "design", str(path)]) == 1
    assert "Nothing fits" in (said := capsys.readouterr().out)
    assert "more room" in said


def test_design_of_a_wrong_file_leaves_with_two(tmp_path, capsys):
    path = tmp_path / "wrong.yaml"
    path.write_text("takeup_duty: 1\n", encoding="utf-8")
    assert cli.run(["bellows", "design", str(path)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert all(fault.startswith(f"{path}:1:1: ") for fault in said.err.splitlines())
