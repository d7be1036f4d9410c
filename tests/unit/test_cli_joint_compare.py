"""`takeup joints compare` from outside: exit codes, text, document, what is written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import xlsxwriter
from pypdf import PdfReader

from takeup import cli
from takeup.choose.comparison.quantities import QUANTITIES

ROOT = Path(__file__).parents[2]
LINE = ROOT / "examples" / "kinds" / "single-axial.yaml"
EXAMPLE = ROOT / "examples" / "certified" / "ketterby-joints.csv"
PAGE = ROOT / "docs" / "reference" / "certified-sheet.md"


@pytest.fixture
def sheet(tmp_path):
    """Return a function that writes a workbook of one row and gives its path."""

    def made(**cells: object) -> Path:
        path = tmp_path / "sheet.xlsx"
        with xlsxwriter.Workbook(path) as book:
            rows = book.add_worksheet("Certified")
            rows.write_row(0, 0, ["takeup", *cells])
            rows.write_row(1, 0, ["J1", *cells.values()])
        return path

    return made


def compare(*words: object) -> int:
    return cli.run(["joints", "compare", *map(str, words)])


def test_text_shows_difference_side_verdict_loads_and_movements(sheet, capsys):
    """142 cm2 and a fifth more are 17040 mm2."""
    path = sheet(certificate="T-17", effective_area_cm2=170.4, torsion_limit_nm=400)
    assert compare(LINE, path) == 0
    text = capsys.readouterr().out
    lines = [" ".join(line.split()) for line in text.splitlines()]
    assert "J1, single axial, line HW-1: T-17" in lines
    assert "effective area 14200 17040 mm² +20 % unsafe side: higher" in lines
    assert "As in the file: greatest torque." in lines
    assert "VERDICT with certified values: close; before: close" in lines
    assert any(
        line.startswith("anchor and hold capacity bath header under hydrostatic test 0.47 0.55") for line in lines
    )
    assert "Loads on anchors, before -> with certified values:" in lines
    assert "Movements of joints from their set length, before -> with certified values:" in lines


def test_text_in_us_units_has_no_si_unit_in_its_tables(sheet, capsys):
    """400 mm = 15.748 in, 14 kg = 30.86 lb, 180 N/mm = 1027.8 lbf/in, by the exact inch and pound."""
    assert (
        compare(LINE, sheet(length_mm=401, weight_kg=14.5, axial_rate_n_per_mm=190, temperature_c=190), "--units", "us")
        == 0
    )
    text = capsys.readouterr().out
    table = text.partition("VERDICT")[0]
    assert not any(f" {unit} " in table for unit in ("mm", "kg", "N/mm", "°C", "kN"))
    lines = [" ".join(line.split()) for line in table.splitlines()]
    assert "length, face to face 15.748 15.787 in +0.25 %" in lines
    assert "weight 30.86 31.97 lb +3.57 % unsafe side: higher" in lines
    assert any(line.startswith("rated temperature 392 374 °F -18 °F") for line in lines)
    assert "along lbf" in text


def test_document_is_printed_alone_and_papers_are_written(sheet, tmp_path, capsys):
    out = tmp_path / "papers"
    path = sheet(certificate="Tarn Works 17", axial_rate_n_per_mm=190)
    assert compare(LINE, path, "--json", "--out", out) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["takeups"][0]["certificate"] == "Tarn Works 17"
    assert sorted(one.name for one in out.iterdir()) == ["calculation.pdf", "results.json"]
    results = json.loads((out / "results.json").read_text(encoding="utf-8"))
    assert results["verdict"] == document["verdict"]["after"]
    assert results["takeups"][0]["provenance"] == document["takeups"][0]["source"]
    printed = " ".join("".join(page.extract_text() for page in PdfReader(out / "calculation.pdf").pages).split())
    assert "certified: Tarn Works 17, sheet.xlsx, SHA-256" in printed


def test_certified_values_that_fail_leave_with_one(sheet, capsys):
    """Rated 5 bar, below the 6 bar of the design."""
    assert compare(LINE, sheet(pressure_bar=5, test_pressure_bar=15)) == 1
    assert "VERDICT with certified values: fails; before: close" in capsys.readouterr().out


def test_length_that_does_not_fit_leaves_with_one(sheet, capsys):
    """The joint's middle is 0.4 m from the anchor: room for 800 mm."""
    assert compare(LINE, sheet(length_mm=820)) == 1
    text = " ".join(capsys.readouterr().out.split())
    assert "DOES NOT FIT: its place has room for 800 mm." in text
    assert "unsafe side: there is room for 800 mm only" in text


def test_faults_leave_with_two_and_nothing_is_written(sheet, tmp_path, capsys):
    path, out = sheet(weight_kg=-3, axial_rate_n_per_mm="soft"), tmp_path / "papers"
    assert compare(LINE, path, "--out", out) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.splitlines() == [
        f"{path}:2:2: Certified!B2: weight_kg: '-3': it must be above 0 kg",
        f"{path}:2:3: Certified!C2: axial_rate_n_per_mm: found 'soft', expected a number such as 12.5",
    ]
    assert not out.exists()


def test_sheet_that_is_not_there_leaves_with_two(tmp_path, capsys):
    assert compare(LINE, tmp_path / "none.xlsx") == 2
    assert "the file cannot be read: no such file or directory" in capsys.readouterr().err


def test_example_compares_and_the_page_names_every_column(capsys):
    assert compare(ROOT / "examples" / "ketterby-steam-main.yaml", EXAMPLE) == 0
    assert "Not in the sheet: J3." in capsys.readouterr().out
    page = PAGE.read_text(encoding="utf-8")
    assert all(f"`{one.column.ours}`" in page for one in QUANTITIES)
    assert all(f"`{name}`" in page for name in ("takeup", "certificate", "kind", "size_dn", "nps"))
    assert EXAMPLE.read_text(encoding="utf-8").strip() in page
