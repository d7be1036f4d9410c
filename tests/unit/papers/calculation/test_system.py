"""The papers of several lines: each line, hold, item and branch is printed, and the same each time."""

from __future__ import annotations

import io
import re

import pypdf
import pytest
from tests.unit.drawing.results_fixture import corner
from tests.unit.drawing.system_fixture import system

from takeup.edge import SI, US
from takeup.papers import summary_lines
from takeup.papers.calculation.calculation import calculation_pdf, contents_of
from takeup.papers.calculation.line_inputs import way_words
from takeup.papers.calculation.loads import hand_table


def squeezed(words: str) -> str:
    """Words without white space: a table breaks them anywhere a line may end."""
    return re.sub(r"[\s\u200b]+", "", words)


@pytest.fixture(scope="module")
def document():
    """The calculation of the three lines."""
    return calculation_pdf(system())


@pytest.fixture(scope="module")
def reader(document):
    return pypdf.PdfReader(io.BytesIO(document))


@pytest.fixture(scope="module")
def printed(reader):
    """All that is printed, squeezed."""
    return squeezed("".join(page.extract_text() for page in reader.pages))


def cells(spec):
    """The words of a table, row by row; a smaller line under a cell is put behind it."""
    return [
        [f"{cell['words']} ({cell['more']})" if cell["more"] else cell["words"] for cell in row["cells"]]
        for row in spec["rows"]
    ]


def headings(entries):
    """All headings of an outline in order."""
    for entry in entries:
        if isinstance(entry, list):
            yield from headings(entry)
        else:
            yield entry.title


def test_every_line_hold_joint_item_zone_and_state_is_printed(printed):
    results = system()
    for line in results["lines"]:
        assert squeezed(f"Line {line['name']}") in printed
        for item in line["items"]:
            assert squeezed(item["name"]) in printed
    for item in (*results["holds"], *results["takeups"], *results["states"], *results["zones"]):
        assert squeezed(item["name"]) in printed
    for text in (*results["assumptions"], *results["cautions"]):
        assert squeezed(text) in printed


def test_every_check_is_printed_with_its_place_and_its_reason(printed):
    for check in system()["checks"]:
        for key in ("title", "where", "because", "outcome"):
            assert squeezed(check[key]) in printed


def test_what_the_user_said_of_ends_and_holds_is_printed(printed):
    """All as typed: a pad of 8 mm, a nozzle that rises 6 mm, a spring of 40 N/mm, a structure of 80 kN/mm."""
    for words in (
        "churn branch, leaving DS-1 at station 40.00 m: reinforced fabricated tee, pad 8 mm",
        "churn nozzle, equipment; moves the line 0, 0, 6 mm (east, north, up) hot (invented for a test)",
        "its nozzle allows 4, 4, 4 kN and 3, 3, 3 kN·m along and about its x, y, z, each component (invented for a",
        "spring 40 N/mm, set cold to 2.20 kN, works from 1.00 kN to 4.00 kN, locked in the test (invented for a test)",
        "its structure gives 80000 N/mm along x, and is rigid otherwise (invented for a test)",
        "old works boundary, continues; the other side is to be added",
        "clad in aluminium, 0.8 mm",
        "stops movement along (−1, 0, 0)",
        "leaves the pipe free along (0, 1, 0)",
        "closed: churn valve; loads: gust",
        "These loads are those of this side only: the other side is to be added.",
    ):
        assert squeezed(words) in printed


def test_calculation_is_accessible_and_fit_for_archives(reader):
    root = reader.trailer["/Root"]
    packet = root["/Metadata"].get_data().decode()
    assert re.search(r"<pdfuaid:part>1</pdfuaid:part>", packet)
    assert re.search(r"<pdfaid:part>2</pdfaid:part>", packet)
    assert re.search(r"<pdfaid:conformance>A</pdfaid:conformance>", packet)
    assert root["/MarkInfo"]["/Marked"]
    assert reader.metadata.title == "Calculation of lines DS-1, DS-2 and DS-3, Tarnwick dairy steam system"


def test_calculation_is_the_same_each_time(document):
    assert calculation_pdf(system()) == document


def test_the_drawing_has_a_page_for_all_lines_and_one_for_each(reader):
    """420 mm = 1190.55 pt: four pages in a row behind the front are A3 across, and no other page is."""
    wide = [number for number, page in enumerate(reader.pages, start=1) if float(page.mediabox.width) > 1000.0]
    assert wide[0] in {2, 3}  # the front of three lines may take two pages
    assert wide == list(range(wide[0], wide[0] + 4))


def test_loads_and_inputs_are_headed_line_by_line(reader):
    heads = list(headings(reader.outline))
    for line in ("DS-1", "DS-2", "DS-3"):
        assert sum(head.endswith(f" Line {line}") for head in heads) == 2  # inputs and loads
    assert any(head.endswith("Lines drawn to scale") for head in heads)
    assert any(head.endswith("churn nozzle, equipment") for head in heads)


def test_a_long_table_repeats_its_head(reader):
    """The loads by state of 27 states break over two pages, and the head stands on both."""
    pages = [squeezed(page.extract_text()) for page in reader.pages]
    broken = [page for page in pages if page.count("FxkN") + page.count("Fx") and "Loadsonthestructure" not in page]
    assert broken
    assert sum("CheckWhereStateDemandCapacityUnitUseOutcome" in page for page in pages) > 1


def test_zones_stand_with_their_parts_and_conditions():
    zones = contents_of(system())["states"]["zones"]
    assert cells(zones)[:2] == [
        [
            "boiler header to yard anchor with DS-2", "DS-1", "0.00", "66.00",
            "12.00 bar(g) (195.0 °C)", "10.00 bar(g) (184.5 °C)", "18.00 bar(g) (12.0 °C)",
        ],
        ["", "DS-2", "0.00", "2.25", "", "", ""],
    ]  # fmt: skip
    assert contents_of(corner())["states"]["zones"] is None  # one zone is the whole line


def test_pipes_stand_section_by_section_where_a_line_has_several():
    lines = contents_of(system())["inputs"]["lines"]
    assert [row[:3] for row in cells(lines[0]["pipes"])] == [
        ["0.00", "102.20", "DN 200, 219.1 × 8.18 mm, ASTM A106 B"],
        ["102.20", "122.00", "DN 150, 168.3 × 7.11 mm, ASTM A106 B"],
    ]
    assert lines[1]["pipes"] is None
    assert [row[0] for row in cells(lines[0]["items"])] == ["header flange", "size change", "end strainer"]


def test_a_way_is_in_words_along_an_axis_and_in_components_elsewhere():
    """A fall of 1 in 100 is 0.0100 of a leg, to four figures; 45 degrees are 0.7071 each way."""
    assert way_words([0.0, -1.0, 0.0]) == "south"
    assert way_words([0.99995, 0.0, -0.0099995]) == "east 1.0000, up −0.0100"  # 0.99995 rounds up
    assert way_words([0.70710678, 0.70710678, 0.0]) == "east 0.7071, north 0.7071"


def test_loads_of_giving_structures_stand_beside_or_are_said_to_be_the_same():
    """Where 80 kN/mm gives, the header's own force is less: 82.43 of 82.53 kN under test (results.json)."""
    anchors = {a["name"]: a for line in contents_of(system())["loads"]["lines"] for a in line["anchors"]}
    header = anchors["dairy header"]
    assert cells(header["giving"]) != cells(header["states"])
    far = anchors["boiler header"]
    assert (far["giving"] is None) == any("as printed are the same" in words for words in far["said"])


def test_stops_and_nozzles_are_listed_with_the_anchors_and_hangers_with_the_guides():
    lines = contents_of(system())["loads"]["lines"]
    assert [a["name"] for a in lines[2]["anchors"]] == [
        "curd stop",
        "curd line stop",
        "curd anchor",
        "old works boundary",
    ]
    assert lines[1]["guides_title"] == "Guides, rests and hangers"
    assert [row[0] for row in cells(lines[1]["guides"])] == ["churn spring", "churn hanger", "churn plane"]


def test_a_hand_row_without_a_formula_says_none_and_why():
    """DS-3 leaves the last span of DS-1, so no short formula gives the header's force."""
    row = next(
        row for hold in system()["holds"] for row in hold["hand"] if row["value"] is None and "DS-3" in row["because"]
    )
    spec = hand_table([row], "By hand beside by model", SI)
    assert spec["notes"][0].startswith("none: DS-3 leaves the span")
    assert cells(spec)[0][1] == "–"


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
def test_summary_names_the_lines(units):
    words = summary_lines(system(), units)
    assert words[0] == "Tarnwick dairy steam system: 3 lines, ASME B31.1-2020"
    assert [line.split(",")[0] for line in words[1:4]] == ["  line DS-1", "  line DS-2", "  line DS-3"]
    assert words[3].endswith("leaving DS-1 at dairy corner + 13 m")
    row = next(line for line in words if line.startswith("  old works boundary "))
    assert " DS-3 " in row
    assert row.endswith("under hydrostatic test; other side to be added")


def test_summary_of_one_line_has_no_column_of_lines():
    assert not any(re.search(r"\bline {2,}", line) for line in summary_lines(corner()))
    assert any(re.search(r"\bline {2,}", line) for line in summary_lines(system()))


def test_summary_tells_states_of_one_check_together():
    """The curd anchor sees net thrust in 18 states: one row, its worst state first."""
    rows = [line for line in summary_lines(system()) if line.startswith("  intermediate anchor sees")]
    failing = [row for row in rows if "fails" in row]
    assert len(failing) == 1
    assert "under hydrostatic test and 17 others" in failing[0]


def test_us_calculation_of_a_system_writes_the_loads_of_the_user_in_us_units():
    """90 N/m / (4.4482216 N / 0.3048 m) = 6.167 lbf/ft (by hand), in three figures."""
    row = cells(contents_of(system(), US)["inputs"]["loads"])[0]
    assert row[4] == "0, 6.17, 0 lbf/ft"
