"""Workbook and CSV read back by other libraries, number by number.     (tests/unit/papers/loads/test_tables.py)"""

from __future__ import annotations

import csv
import io
import math
import re
import zipfile

import pytest
from python_calamine import CalamineWorkbook
from tests.unit.papers.loads.schedule_lines import files, options, renamed, results, rows

from takeup.papers.loads.held import held_of
from takeup.papers.loads.paper import make
from takeup.papers.loads.ranges import GIVING

KN = {"si": 1e3, "us": 4.4482216152605}  # lbf in N: 0.45359237 kg x 9.80665 m/s2, by definition
KNM = {"si": 1e3, "us": 4.4482216152605 * 0.3048}
M = {"si": 1.0, "us": 0.3048}
ROUNDING = 1e-12  # relative: a quotient of doubles, written with all its digits
UNITS = {"si": ("kN", "kN·m", "m"), "us": ("lbf", "ft·lbf", "ft")}
ENGLISH = ["Summary", "Loads by state", "Envelope", "By cause", "Guides", "Hand check", "Places that hold nothing"]


def told(row, head, unit=""):
    return row[f"{head}\n{unit}" if unit else head]


def same(found, wanted):
    return found == pytest.approx(wanted, rel=ROUNDING, abs=1e-15)  # what the model leaves as 1e-15 N is nothing


@pytest.mark.parametrize("system", ["si", "us"])
@pytest.mark.parametrize("name", ["corner", "askew"])
def test_loads_by_state_are_those_of_the_results(name, system):
    force, moment, length = UNITS[system]
    found = rows(files(name, system)["loads.xlsx"], "Loads by state")
    wanted = [(held, load) for held in held_of(results(name)) for load in held.loads]
    assert len(found) == len(wanted)
    for row, (held, load) in zip(found, wanted, strict=True):
        assert (row["Hold"], row["State"]) == (held.name, load.state)
        assert row["Friction and rates"] == ("structures giving" if load.scenario == GIVING else load.scenario)
        for axis, value, turn in zip("xyz", load.force, load.moment, strict=True):
            assert same(told(row, f"F{axis}", force), value / KN[system])
            assert same(told(row, f"M{axis}", moment), turn / KNM[system])
        assert same(told(row, "Resultant", force), math.hypot(*load.force) / KN[system])
        for key, value in zip(("East", "North", "Up"), held.at, strict=True):
            assert same(told(row, key, length), value / M[system])
        assert row["Carries"] == ("no" if max(map(abs, load.six)) < 0.5 else "yes")  # half a newton is printed as 0


@pytest.mark.parametrize("name", ["corner", "askew"])
def test_every_scenario_of_the_results_is_there(name):
    """What the rows hold is counted from the document itself, not from what the paper made of it."""
    document = results(name)
    count = sum(len(hold["scenarios"]) + len(hold["giving"] or ()) for hold in document["holds"])
    assert len(rows(files(name)["loads.xlsx"], "Loads by state")) == count
    first = document["holds"][0]["scenarios"][0]
    row = rows(files(name)["loads.xlsx"], "Loads by state")[0]
    assert (row["State"], row["Friction and rates"]) == (first["state"], first["scenario"])
    assert same(told(row, "Fz", "kN"), first["force_n"][2] / 1e3)


def test_summary_and_envelope_hold_the_design_ranges():
    document = results("corner")
    summary = rows(files("corner")["loads.xlsx"], "Summary")
    envelope = rows(files("corner")["loads.xlsx"], "Envelope")
    for held, row in zip(held_of(document), summary, strict=True):
        own = {one["Component"]: one for one in envelope if one["Hold"] == held.name}
        for name, one in zip(("Fx", "Fy", "Fz", "Mx", "My", "Mz"), held.ranges, strict=True):
            unit = "kN" if name[0] == "F" else "kN·m"
            assert same(own[name]["Least"], one.least / 1e3)
            assert same(own[name]["Greatest"], one.greatest / 1e3)
            assert same(own[name]["Design, least"], held.factor * one.least / 1e3)
            assert same(told(row, f"{name} least", unit), held.factor * one.least / 1e3)
            assert same(told(row, f"{name} greatest", unit), held.factor * one.greatest / 1e3)
        band = held.record["band"]
        if band:
            assert same(own["along the flow"]["Least"], band["low_n"] / 1e3)
            assert same(own["along the flow"]["Greatest"], band["high_n"] / 1e3)
        assert same(told(row, "Resultant", "kN"), held.factor * held.record["envelope"]["design_force_n"] / 1e3)


def test_guides_and_hand_checks_are_those_of_the_results():
    document, content = results("corner"), files("corner")["loads.xlsx"]
    for row, guide in zip(rows(content, "Guides"), document["guides"], strict=True):
        assert row["Hold"] == guide["name"]
        assert same(told(row, "Computed", "kN"), guide["computed_n"] / 1e3)
        assert same(told(row, "To make it for", "kN"), guide["design_n"] / 1e3)
        fifteen = guide["fifteen_percent_n"]
        assert (
            told(row, "15 % of thrust", "kN") == ""
            if fifteen is None
            else same(told(row, "15 % of thrust", "kN"), fifteen / 1e3)
        )
    hand = [row for hold in document["holds"] for row in hold["hand"]]
    for row, wanted in zip(rows(content, "Hand check"), hand, strict=True):
        assert row["What"] == wanted["what"]
        assert row["Numbers put in"] == wanted["numbers"]
        for key, head in (("value", "By hand"), ("model", "By model")):
            assert row[head] == "" if wanted[key] is None else same(row[head], wanted[key] / 1e3)
        assert wanted["because"] in row["Why they differ"]


def test_causes_sum_to_the_load():
    """Of every state, the rows of its causes less than half a newton left out: nine of them at most."""
    for name in ("corner", "askew"):
        by_load: dict[tuple[object, object], list[dict[str, object]]] = {}
        for row in rows(files(name)["loads.xlsx"], "By cause"):
            by_load.setdefault((row["Hold"], row["State"]), []).append(row)
        for causes in by_load.values():
            *parts, whole = causes
            assert whole["Cause"] == "together"
            assert sum(part["Fx\nkN"] for part in parts) == pytest.approx(whole["Fx\nkN"], abs=9 * 0.5e-3)


@pytest.mark.parametrize("system", ["si", "us"])
def test_csv_is_the_sheet_of_loads(system):
    content, digest = files("corner", system), results("corner")["input"]["sha256"]
    force, moment = {"si": ("kn", "knm"), "us": ("lbf", "ftlbf")}[system]
    read = list(csv.DictReader(io.StringIO(content["loads.csv"].decode("utf-8"))))
    wanted = [(held, load) for held in held_of(results("corner")) for load in held.loads]
    assert len(read) == len(wanted)
    for row, (held, load) in zip(read, wanted, strict=True):
        assert (row["hold"], row["kind"], row["state"]) == (held.name, held.kind, load.state)
        assert (row["state_kind"], row["scenario"]) == (load.kind, load.scenario)
        for axis, value, turn in zip("xyz", load.force, load.moment, strict=True):
            assert same(float(row[f"force_{axis}_{force}"]), value / KN[system])
            assert same(float(row[f"moment_{axis}_{moment}"]), turn / KNM[system])
        assert float(row["design_factor"]) == held.factor
        assert row["input_sha256"] == digest
    assert content["loads.csv"] == files("corner", system, "de")["loads.csv"]  # words of machines in every language


def test_sheets_have_filters_and_names():
    content = files("corner")["loads.xlsx"]
    assert CalamineWorkbook.from_filelike(io.BytesIO(content)).sheet_names[:7] == ENGLISH
    german = CalamineWorkbook.from_filelike(io.BytesIO(files("corner", "si", "de")["loads.xlsx"])).sheet_names
    assert german[:6] == ["Übersicht", "Lasten nach Zustand", "Einhüllende", "Nach Ursache", "Führungen", "Von Hand"]
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        for number in range(1, 8):
            sheet = archive.read(f"xl/worksheets/sheet{number}.xml").decode("utf-8")
            assert re.search(r'<autoFilter ref="A\d+:[A-Z]+\d+"', sheet)
            assert 'state="frozen"' in sheet


@pytest.mark.parametrize("words", ["=1+1", "+x", "@SUM(A1)", "-2", "\t=1"])
def test_names_never_become_formulas(words):
    made = make(renamed(results("continues"), {"west end": words}), options())
    with zipfile.ZipFile(io.BytesIO(made["loads.xlsx"])) as archive:
        assert not any(b"<f>" in archive.read(name) for name in archive.namelist())
    assert any(row["Hold"] == words for row in rows(made["loads.xlsx"], "Summary"))
    read = list(csv.DictReader(io.StringIO(made["loads.csv"].decode("utf-8"), newline="")))
    assert any(row["hold"] == f"'{words}" for row in read)


def test_a_line_that_is_not_solved_has_no_rows_of_loads():
    content = files("loose")
    assert rows(content["loads.xlsx"], "Loads by state") == []
    assert len(content["loads.csv"].decode("utf-8").splitlines()) == 1
    assert len(rows(content["loads.xlsx"], "Places that hold nothing")) == 2  # both its free ends
