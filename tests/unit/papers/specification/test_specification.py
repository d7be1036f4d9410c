"""The specification: numbers of the results, real styles, text that stays text, the same bytes.

(tests/unit/papers/specification/test_specification.py)
"""

from __future__ import annotations

import copy
import math
import re
from pathlib import Path

import pytest
from tests.unit.drawing.system_fixture import system
from tests.unit.papers.setting_fixture import limit_rods, no_joint, numbers_of, shown
from tests.unit.papers.specification.docx_reading import Docx, W, read, style_of, words_of

import takeup.papers.specification
from takeup.edge import SI, US
from takeup.papers.common.asked import asked_of, wanted_figures
from takeup.papers.common.gathered import joints_of
from takeup.papers.registry import Options
from takeup.papers.specification.blocks import grid
from takeup.papers.specification.docx_table import column_widths
from takeup.papers.specification.paper import make
from takeup.papers.specification.plain_text import plain_text
from takeup.papers.words.catalogue import entries_of

EVIL = 'Ü <b>&amp; { HYPERLINK "http://x" } 中文 שלום =1+1\x07\x00\u202e'


def made(document: dict, units=SI, language="en") -> Docx:
    (file,) = make(document, Options(units=units, language=language)).items()
    assert file[0] == "specification.docx"
    return read(file[1])


@pytest.fixture(scope="module")
def document() -> dict:
    return limit_rods()


@pytest.fixture(scope="module")
def text(document) -> Docx:
    return made(document)


def test_states_of_a_joint_are_those_of_the_results(document, text):
    (joint,) = document["takeups"]
    rows = text.table("state", "pressure [bar(g)]")
    zones = {state["name"]: state["zones"][0] for state in document["states"]}
    expected = [
        [
            moved["state"],
            shown(moved["pressure_bar"], 2),
            shown(zones[moved["state"]]["temperature_c"], 1),
            zones[moved["state"]]["content"],
            shown(moved["axial_mm"], 1),
            shown(moved["lateral_mm"], 1),
            shown(moved["angular_deg"], 2),
            shown(moved["torsion_deg"], 2),
        ]
        for moved in joint["movements"]
    ]
    assert rows == expected
    assert len(rows) > 8


def test_states_that_are_alike_are_one_row_of_a_long_table(document, monkeypatch):
    """With a limit of two rows, as with many states: what is gathered and what is not add up to all states."""
    monkeypatch.setattr("takeup.papers.common.alike.LONG", 2)
    joint = {**document["takeups"][0], "movements": [{**document["takeups"][0]["movements"][0]}] * 5}
    several = {**document, "takeups": [joint]}
    state = joint["movements"][0]["state"]
    rows = made(several).table("state", "pressure [bar(g)]")
    assert [row[0] for row in rows] == [f"{state} to “{state}”: 5 states alike"]


def test_lengths_to_set_are_those_of_the_results(document, text):
    (joint,) = document["takeups"]
    by_day = {row["temperature_c"]: row for row in joint["setting"]["rows"]}
    ((name, preset, *lengths, lateral, angular),) = text.table("joint", "preset [mm]")
    assert (name, preset, lateral, angular) == ("J1", "8.0", "1.0", "0.00")
    assert lengths == [shown(by_day[day]["length_mm"], 1) for day in (-8.0, 12.0, 35.0)]
    assert lengths[0] == "1117.7"  # by hand in tests/unit/results/test_setting.py: 1117.6672
    gaps = [shown(by_day[day]["rod_gap_mm"], 1) for day in (-8.0, 12.0, 35.0)]
    assert gaps[1] == "40.0"
    assert all(gap in next(words for _, words in text.paragraphs if "gap to leave" in words) for gap in gaps)


def test_every_number_in_a_table_stands_in_the_results(document, text):
    """Every figure with a decimal is a number of the results, or one of two sums that are named here.

    Sums: the ratings counted from the neutral length (1100 - 140, 1100 + 60), and distances between holds. A limit
    is rounded to its safe side, which ../common/test_asked.py proves; a weight is in kilograms.
    """
    stations = sorted({hold["station_m"] for hold in document["holds"]} | {document["takeups"][0]["to_m"]})
    allowed = [*numbers_of(document), 1100.0 - 140.0, 1100.0 + 60.0]
    allowed += [far - near for near in stations for far in stations]
    allowed.append(document["takeups"][0]["data"]["weight_n"] / 9.80665)
    (joint,) = joints_of(document)
    limits = [one for one in asked_of(joint, SI) if one.want.value is not None]
    allowed += [float(wanted_figures(one, SI).replace("\N{MINUS SIGN}", "-")) for one in limits]
    seen = 0
    for table in text.tables[1:]:  # the first is the title block, whose words are tested with the head
        for cell in (cell for row in table for cell in row):
            for figure in re.findall(r"(?<![\w.\d])[\N{MINUS SIGN}]?\d+\.\d+(?![\w.])", cell):
                value, decimals = float(figure.replace("\N{MINUS SIGN}", "-")), len(figure.partition(".")[2])
                near = 0.5 * 10.0**-decimals * 1.000001  # half of the last printed digit, and a float's rounding
                assert any(abs(value - one * size) <= near for one in allowed for size in (1.0, 1e-3)), (figure, cell)
                seen += 1
    assert seen > 100


def test_data_of_joints_and_what_is_not_said(document, text):
    data = document["takeups"][0]["data"]
    rows = {row[0]: row[1:] for row in text.table("property", "J1: wanted")}
    rate = f"{data['axial_rate_n_per_mm']:.5g}"
    assert rows["axial rate [N/mm]"] == [f"at most {rate}", rate]
    shortest = document["takeups"][0]["reach"]["shortest_mm"]["value"]
    needed = math.ceil(-(shortest + 8.0) * 10.0 - 1e-6) / 10.0  # preset 8 mm, up to a tenth
    assert rows["rated axial compression [mm]"] == [f"at least {needed:.1f}", "140"]
    assert 0.0 < needed < 140.0, "what is wanted is the duty and not the rating of the joint used"
    materials = {row[0]: row[1] for row in text.table("property", "J1")}
    assert materials["bellows"] == "to be stated by the buyer"
    tension = max(abs(row["tension_n"]) for row in document["takeups"][0]["rods"])
    carried = {row[0]: row[1] for row in text.table("property", "value")}
    assert next(v for k, v in carried.items() if k.startswith("greatest force")) == f"{shown(tension / 1e3, 1)} kN"
    assert carried["gap between nut and lug, as fitted"] == "40 mm"


def test_weight_is_the_same_in_every_section(document):
    """What is wanted and what is packed are one joint: 9.839 N / 9.80665 m/s2 = 1.0033 kg, by hand."""
    light = copy.deepcopy(document)
    light["takeups"][0]["data"]["weight_n"] = 9.839
    rows = [row for table in made(light).tables for row in table if "1.0033" in row]
    assert len(rows) == 2


def test_anchors_and_guides_have_their_loads(document, text):
    rows = {row[0]: row for row in text.table("anchor", "kind")}
    for hold in document["holds"]:
        if hold["kind"] == "main anchor":
            assert rows[hold["name"]][3:5] == [shown(hold["band"][f"{way}_n"] / 1e3, 1) for way in ("low", "high")]
            assert rows[hold["name"]][5] == shown(hold["envelope"]["design_force_n"] / 1e3, 1)
    guides = {row[0]: row for row in text.table("guide", "kind")}
    for guide in document["guides"]:
        assert guides[guide["name"]][4] == shown(guide["design_n"] / 1e3, 1)


def test_document_is_built_of_styles_fields_and_repeated_heads(text):
    styles = {style for style, _ in text.paragraphs}
    assert {"Title", "Heading1", "Heading2", "Caption", "ListBullet"} <= styles
    root = text.xml("word/styles.xml")
    heading = next(style for style in root.iter(f"{W}style") if style.get(f"{W}styleId") == "Heading1")
    number = heading.find(f"{W}pPr/{W}numPr/{W}numId").get(f"{W}val")
    numbering = text.xml("word/numbering.xml")
    assert number in {one.get(f"{W}numId") for one in numbering.iter(f"{W}num")}
    assert fields(text) == {"TOC", "PAGE", "NUMPAGES"}
    for table in list(text.body.iter(f"{W}tbl"))[1:]:
        assert table.find(f"{W}tr/{W}trPr/{W}tblHeader") is not None
        assert table.find(f"{W}tblPr/{W}tblCaption").get(f"{W}val")
    assert [words for style, words in text.paragraphs if style == "Heading1"][:3] == [
        "Scope",
        "Standards",
        "Conditions",
    ]


def test_words_above_and_under_a_page_have_one_stop_at_the_right(text):
    """The library's own stop in the middle would keep them there."""
    root = text.xml("word/styles.xml")
    for name in ("Header", "Footer"):
        style = next(one for one in root.iter(f"{W}style") if one.get(f"{W}styleId") == name)
        assert not list(style.iter(f"{W}tab"))


def test_no_column_is_narrower_than_its_longest_word():
    """By hand: 0.76 + 12 x 0.64 of 8.5 pt and 11 pt of margins are 83 pt, 1652 twentieths; a fifth is 1928.

    Where even the whole page is too narrow the shares stay.
    """
    word = "K" + "n" * 12
    alike = grid(["a", "b", "c", "d", "e"], [("x", "x", "x", "x", word)], "t")
    assert column_widths(alike) == [round(9638 / 5)] * 5
    wide = column_widths(grid(["a"] * 8, [(*["x"] * 7, word)], "t"))
    assert wide[-1] == pytest.approx(220 + 170 * (0.76 + 12 * 0.64), abs=1.0)  # twentieths are whole
    assert sum(wide) == pytest.approx(9638, abs=8)  # each is rounded
    assert len(set(wide[:-1])) == 1, "the others give alike"
    assert column_widths(grid(["a", "b"], [("m" * 90, "m" * 90)], "t")) == [4819, 4819]


def fields(text: Docx) -> set[str]:
    """The first word of every field in document, header and footer."""
    found = set()
    for name in text.parts:
        if re.fullmatch(r"word/(document|header\d+|footer\d+)\.xml", name):
            tree = text.xml(name)
            assert not list(tree.iter(f"{W}fldSimple"))
            assert not list(tree.iter(f"{W}hyperlink"))
            found |= {(one.text or "").split()[0] for one in tree.iter(f"{W}instrText")}
    return found


@pytest.mark.parametrize(("language", "tag", "scope"), [("en", "en-GB", "Scope"), ("de", "de-DE", "Umfang")])
def test_text_bears_its_language(document, language, tag, scope):
    text = made(document, language=language)
    default = text.xml("word/styles.xml").find(f"{W}docDefaults/{W}rPrDefault/{W}rPr/{W}lang")
    assert default.get(f"{W}val") == tag
    assert scope in [words for style, words in text.paragraphs if style == "Heading1"]
    number = "1117,7" if language == "de" else "1117.7"
    assert number in text.words
    below = next(text.xml(name) for name in text.parts if re.fullmatch(r"word/footer\d+\.xml", name))
    assert words_of(below).endswith("Seite 1 von 1" if language == "de" else "page 1 of 1")


def test_us_units_are_printed(document):
    """1117.667 mm are 44.0026 in, by the inch of 25.4 mm; 12 °C are 53.6 °F."""
    text = made(document, units=US)
    (row,) = text.table("joint", "preset [in]")
    assert row[2] == "44.003"
    assert any(head == "length at 53.6 °F [in]" for table in text.tables for head in table[0])


def test_users_text_stays_text():
    document = limit_rods()
    for joint in document["takeups"]:
        joint["name"], joint["at"] = EVIL, EVIL * 20
    document["input"]["project"] = document["input"]["document"]["number"] = EVIL
    text = made(document)
    assert fields(text) == {"TOC", "PAGE", "NUMPAGES"}
    assert plain_text(EVIL) in [words for table in text.tables for row in table for words in row]
    assert plain_text(EVIL) == 'Ü <b>&amp; { HYPERLINK "http://x" } 中文 שלום =1+1[U+0007][U+0000][U+202E]'
    assert {style_of(one) for one in text.body.iter(f"{W}p")} <= {
        "", "Title", "Heading1", "Heading2", "Caption", "ListBullet",
    }  # fmt: skip


def test_white_space_is_a_space_and_surrogates_are_codes():
    assert plain_text("a\tb\r\nc\u2028d \ud800 \ufffe") == "a b c d [U+D800] [U+FFFE]"


def test_bytes_are_the_same_and_all_dates_the_documents():
    first, second = (make(limit_rods(), Options())["specification.docx"] for _ in range(2))
    assert first == second
    text = read(first)
    assert text.dates == {(2026, 2, 3, 0, 0, 0)}
    assert text.order[0] == "[Content_Types].xml"
    core = text.parts["docProps/core.xml"].decode()
    assert core.count("2026-02-03T00:00:00Z") == 2
    assert "python-docx" not in core
    later = limit_rods()
    later["input"]["document"]["date"] = "2027-04-05"
    assert make(later, Options())["specification.docx"] != first


def test_document_without_a_date_bears_none():
    document = limit_rods()
    document["input"]["document"]["date"] = ""
    core = made(document).parts["docProps/core.xml"].decode()
    assert "created" not in core
    assert "modified" not in core


def test_line_without_a_joint_wants_nothing():
    text = made(no_joint())
    headings = [words for style, words in text.paragraphs if style == "Heading1"]
    assert "nothing is to be supplied" in text.words
    assert not {"Materials", "Design and manufacture", "Hardware", "Installation and set-up", "Deviations"} & {
        *headings
    }
    assert {"Scope", "Standards", "Conditions", "Anchors and guides the joints rely on", "Cautions"} <= {*headings}


def test_several_lines_are_told_apart():
    document = system()
    text = made(document)
    for joint in document["takeups"]:
        assert f"Conditions of {joint['name']}, line {joint['line']}" in text.words


def test_line_that_was_not_solved_says_so():
    document = limit_rods()
    for joint in document["takeups"]:
        joint["movements"], joint["rods"], joint["setting"] = [], [], joint["setting"] | {"rows": [], "faces": []}
    document["holds"] = document["guides"] = []
    assert "The line was not solved" in made(document).words


def test_boxes_are_on_a_ground_of_their_own(text):
    shaded = {
        words_of(cell) for cell in text.body.iter(f"{W}tc")
        if (ground := cell.find(f"{W}tcPr/{W}shd")) is not None and ground.get(f"{W}fill") == "F2F2F2"
    }  # fmt: skip
    assert "to be stated by the buyer" in shaded


def test_every_text_of_the_paper_is_used():
    """A key stands in the room's code, or is put together there from one of these beginnings."""
    source = "".join(
        path.read_text(encoding="utf-8") for path in Path(takeup.papers.specification.__file__).parent.glob("*.py")
    )
    together = ("datum_", "rods_", "pins_", "balance_", "document_")
    keys = [key.partition(".")[2] for key in entries_of("en") if key.startswith("specification.")]
    outside = {"of_line"}  # common/printer.py
    assert [
        key for key in keys if f'"{key}"' not in source and not key.startswith(together) and key not in outside
    ] == []
