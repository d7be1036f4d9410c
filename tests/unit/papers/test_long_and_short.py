"""A line of three metres and a long one, studied and put on paper whole.     (tests/unit/papers/test_long_and_short.py)

The long one is the first two legs of the main of two kilometres of benchmarks/long_line.py, which needs several sheets
as that does; what only all of it shows is looked at with that script.
"""

from __future__ import annotations

import copy
import io
import json
import re
from functools import cache

import pypdf
import pytest
from benchmarks.long_line import line_text
from python_calamine import CalamineWorkbook
from tests.example_studies import results as results_of_example
from tests.shared import once
from tests.unit.drawing.long_lines import main_of
from tests.unit.drawing.sheets.lines import drawn

from takeup.choose import resolve
from takeup.drawing.sheet import Text
from takeup.line.reading.reader import study_from_text
from takeup.papers.calculation.paper import make as calculation
from takeup.papers.card.paper import make as card
from takeup.papers.data_sheets.paper import make as data_sheets
from takeup.papers.frame import head_of
from takeup.papers.layout.paper import make as layout
from takeup.papers.layout.paper import sheets_of
from takeup.papers.pictures.sheet import picture_svg
from takeup.papers.pictures.view import view_of
from takeup.papers.registry import Options
from takeup.papers.words import texts
from takeup.results import results_of

SHORT = """takeup: 1
project: Pell Weir pump spool
document: { number: PW-02, revision: A, date: 2026-07-02 }
basis: { code: ASME B31.1, edition: 2020 }
site: { installation: 12 °C, coldest: 0 °C, hottest: 35 °C }
design: { pressure: 6 bar(g), temperature: 110 °C, vacuum: "not possible, because the pump keeps it full" }
operating: { pressure: 5 bar(g), temperature: 105 °C }
test: { pressure: 9 bar(g), with: water, temperature: 12 °C }
cycles: [ { from: cold, to: operating, count: 1000 } ]
lines:
  - name: PS-1
    medium: water
    pipe: { size: DN 80, wall: 5.49 mm, material: ASTM A106 B }
    insulation: none
    route:
      - { start: pump flange, at: [0 m, 0 m, 1 m], as: main anchor }
      - { go: 3 m east, to: tank flange, as: main anchor }
    holds:
      - { kind: slide guide, by: spacing rule, slides_on: PTFE on steel }
    takeups:
      - name: spool joint
        kind: single axial
        at: pump flange + 0.5 m
        data:
          axial_rate: 60 N/mm
          effective_area: 8000 mm²
          length: 0.3 m
          live_length: 0.12 m
          weight: 9 kg
          axial_compression: 15 mm
          axial_extension: 5 mm
          lateral: 2 mm
          angular: 1 deg
          pressure: 10 bar(g)
          temperature: 150 °C
          source: invented for this test
"""


@cache
def short() -> dict:
    return once("three-metres", lambda: results_of(resolve(study_from_text(SHORT, "short.yaml"))))


@cache
def long() -> dict:
    return once("two-legs", lambda: results_of(resolve(study_from_text(line_text(2), "long.yaml"))))


def pages(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def test_short_line_is_drawn_large():
    """3 m on a sheet with about 390 mm of room: at 1 : 10 it is 300 mm long, at 1 : 5 it would not fit."""
    files = layout(short(), Options())
    plan, isometric = pages(files["layout.pdf"])
    assert plan.count("Scale 1 : 10 ") >= 2
    assert "match line" not in plan + isometric


def test_long_line_is_cut_into_sheets_that_name_each_other():
    """396 m are 0.4 m at 1 : 1000, more than a sheet is wide: all of it first, then part by part with match lines."""
    found = pages(layout(long(), Options())["layout.pdf"])
    assert "Whole line" in found[0]
    assert len(found) >= 5
    stations = [set(re.findall(r"match line station ([\d.]+) m", page)) for page in found[1:]]
    assert all(stations), "each part has a match line"
    assert stations[0] & stations[-1], "and its neighbour the same"


def test_plan_of_every_part_names_its_anchors_and_joints():
    """Of 31 spans of 60 m; where room is short the name stands alone, without it two of 63 had no place."""
    document, found = main_of(31), set()
    for view in (view for sheet in drawn(document) for view in sheet.views if view.title == "Plan"):
        found |= {item.words for item in view.items if isinstance(item, Text)}
    every = (*document["holds"], *document["takeups"])
    assert {row["name"] for row in every if row["kind"] != "slide guide"} <= found


def test_corners_of_a_whole_line_are_named_all_or_not_at_all():
    """Named where they have room they would be an arbitrary choice, with leaders across the signs of anchors."""
    first = sheets_of(long(), head_of(long(), Options().units, "en"))[0]
    whole = next(view for view in first.views if view.title == "Whole line")
    words = {item.words for item in whole.items if isinstance(item, Text)}
    corners = {bend["name"] for bend in long()["lines"][0]["bends"]}
    assert len(corners & words) in {0, len(corners)}


def test_head_of_a_table_never_stands_alone_under_the_charts_of_a_walk():
    """Charts that fill a page each: the list of the states' numbers, too long to stand at ticks, is where they end."""
    name = "under hydrostatic test"
    document = json.loads(json.dumps(long()).replace(name, f"{name}{' of the whole main' * 8}"))
    found = pages(calculation(document, Options())["calculation.pdf"])
    listed = [number for number, page in enumerate(found) if "No. State No. State" in page]
    charts = [number for number, page in enumerate(found) if re.search(r"walk through the states, chart \d of", page)]
    assert len(charts) > 1
    assert min(listed) >= max(charts), "nothing flows between charts"
    for number in listed:
        assert re.search(r"No\. State No\. State \d", found[number]), found[number][-300:]


def test_card_of_a_long_line_has_a_column_for_joints_that_are_set_alike():
    words = " ".join(pages(card(long(), Options())["card.pdf"]))
    assert len(long()["takeups"]) == 4
    assert "J2, J3 length [mm]" in words  # both between an anchor and the middle, 92 m and 92 m
    assert "J4 length [mm]" in words


@pytest.mark.parametrize(("language", "alike"), [("en", "states alike"), ("de", "gleiche Zustände")])
def test_states_that_print_alike_are_one_row_on_paper_and_all_of_them_in_the_workbook(language, alike, monkeypatch):
    """Two legs have 18 states, ten of them at the same figures at a joint of the first span; twelve legs have 90."""
    monkeypatch.setattr("takeup.papers.common.alike.LONG", 10)
    options = Options(language=language)
    sheets = data_sheets(long(), options)
    pdf = " ".join(pages(sheets["joints.pdf"]))
    assert alike in pdf
    assert alike in " ".join(pages(calculation(long(), options)["calculation.pdf"]))
    tab = CalamineWorkbook.from_filelike(io.BytesIO(sheets["joints.xlsx"])).get_sheet_by_name("J1").to_python()
    first = [str(row[0]) for row in tab]
    said = texts(language).said
    for state in long()["states"]:
        assert said(state["name"]) in first
    assert not any(alike in words for words in first)


def test_long_run_of_joints_is_told_by_its_ends():
    """Four joints one after another; the box of demonstration data and the order of work name the first and last."""
    words = " ".join(pages(card(long(), Options())["card.pdf"]))
    assert "Demonstration data: J1 to J4" in words
    assert "Fit J1 to J4 with the shipping bars in" in words
    told = " ".join(pages(calculation(long(), Options(language="de"))["calculation.pdf"]))
    assert "J1 bis J4" in told


def test_ends_of_a_line_are_named_before_forty_anchors():
    """There is room for 24 names: of anchors in a row the first would take them all, and the far end has to be told."""
    document = copy.deepcopy(results_of_example("ketterby-steam-main"))
    first, *others = document["holds"]
    middle = next(hold for hold in others if hold["name"] == "middle anchor")
    document["holds"] = [first, *({**middle, "name": f"A{number}"} for number in range(40)), *others]
    svg = picture_svg(document, head_of(document, Options().units, "en"), view_of(document), "operating")
    assert ">boiler house header<" in svg
    assert ">laundry header<" in svg
