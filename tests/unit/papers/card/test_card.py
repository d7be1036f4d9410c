"""The set-up and inspection card: numbers of the results, read back from the PDF by another library.

(tests/unit/papers/card/test_card.py)
"""

from __future__ import annotations

import copy
import io
import re
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pypdf
import pytest
from tests.unit.drawing.system_fixture import system
from tests.unit.papers.setting_fixture import limit_rods, no_joint, numbers_of, shown

import takeup.papers.card
from takeup.drawing.lettering import box_of
from takeup.drawing.sheet import Text
from takeup.edge import SI, US
from takeup.papers.card.contents import contents_of
from takeup.papers.card.length_chart import Course, length_chart
from takeup.papers.card.paper import make
from takeup.papers.frame import head_of
from takeup.papers.registry import Options
from takeup.papers.words.catalogue import entries_of

EVIL = "Ü #panic() $x$ <b> 中文 שלום \u202e" + "sehrlang" * 30


def pages(document: dict, units=SI, language="en") -> list[str]:
    """The words of every page, white space as one blank."""
    (file,) = make(document, Options(units=units, language=language)).items()
    assert file[0] == "card.pdf"
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(file[1])).pages]


def tree(document: dict, units=SI, language="en") -> dict:
    return contents_of(document, head_of(document, units, language))


def cells(table: dict) -> list[list[str]]:
    return [[cell["words"].replace("\u200b", "") for cell in row["cells"]] for row in table["rows"]]


@pytest.fixture(scope="module")
def document() -> dict:
    return limit_rods()


@pytest.fixture(scope="module")
def words(document) -> str:
    return " ".join(pages(document))


def test_table_has_every_five_degrees_between_coldest_and_hottest(document):
    (line,) = tree(document)["lines"]
    (table,) = line["lengths"]["tables"]
    assert [row[0] for row in cells(table)] == ["−8", "−5", "0", "5", "10", "12", "15", "20", "25", "30", "35"]
    assert [row["strong"] for row in table["rows"]].index(True) == 5  # installation, 12 °C


def test_table_in_us_units_has_every_ten_degrees(document):
    """-8 °C is 17.6 °F, 12 °C 53.6 °F, 35 °C 95 °F; 1117.6672 mm are 44.003 in."""
    (line,) = tree(document, US)["lines"]
    (table,) = line["lengths"]["tables"]
    rows = cells(table)
    assert [row[0] for row in rows] == ["17.6", "20", "30", "40", "50", "53.6", "60", "70", "80", "90", "95"]
    assert rows[0][1] == "44.003"


def test_length_on_the_coldest_day_is_that_of_the_hand_calculation(words):
    """By hand, steps in tests/unit/results/test_setting.py: 1108 + 2.129333e-4 x 45 400 = 1117.667 mm.

    Limit rods stand off by 40 mm at installation; on the coldest day by 40 - 9.667 = 30.333 mm.
    """
    assert re.search(r"−8 1117\.7 30\.3 −5 ", words)
    assert re.search(r" 12 1108\.0 40\.0 15 ", words)


def test_every_row_of_the_setting_is_printed(document, words):
    (joint,) = document["takeups"]
    rows = [row for row in joint["setting"]["rows"] if row["temperature_c"] % 5 == 0]
    assert len(rows) == 9
    for row in rows:
        printed = f"{shown(row['temperature_c'], 0)} {shown(row['length_mm'], 1)} {shown(row['rod_gap_mm'], 1)}"
        assert printed in words


def test_expected_readings_are_those_of_the_results(document, words):
    (joint,) = document["takeups"]
    hot = [row["length_mm"] for row in joint["setting"]["faces"] if row["state"] == "operating"]
    least, greatest = shown(min(hot), 0), shown(max(hot), 0)
    expected = least if least == greatest else f"{least} to {greatest}"
    assert f"face to face [mm] 1108 {expected} below 960, above 1160" in words  # 1100 - 140 and 1100 + 60, rated
    gaps = {
        state: [row["gap_mm"] for row in joint["rods"] if row["state"] == state] for state in ("installed", "operating")
    }
    cold, warm = (f"{shown(min(found), 1)} to {shown(max(found), 1)}" for found in gaps.values())
    assert f"nut gap [mm] {cold} {warm}" in words  # the pipe's weight turns the joint a little, so rods differ


def test_change_for_ten_degrees_is_the_movement_over_its_temperature(document, words):
    (joint,) = document["takeups"]
    faces = joint["setting"]["faces"]
    hot = [row["length_mm"] for row in faces if row["state"] == "operating"]
    zone = next(state for state in document["states"] if state["name"] == "operating")["zones"][0]
    by = (1108.0 - (min(hot) + max(hot)) / 2.0) / (zone["temperature_c"] - 12.0) * 10.0
    assert f"For every 10 K that the pipe is warmer or colder the length changes: J1 by {shown(by, 1)} mm." in words


def test_positions_are_the_shapes_of_the_walk(document):
    (line,) = tree(document)["lines"]
    shape = {one["state"]: one["displacement_mm"] for one in document["shapes"]}
    stations = [node["station_m"] for node in document["lines"][0]["nodes"]]
    rows = cells(line["positions"])
    assert rows
    for name, _, *moved, box in rows:
        station = next(hold["station_m"] for hold in document["holds"] if hold["name"] == name)
        node = min(range(len(stations)), key=lambda place: abs(stations[place] - station))
        expected = [far - near for near, far in zip(shape["installed"][node], shape["operating"][node], strict=True)]
        assert moved == [shown(value, 0) for value in expected]
        assert box == ""


def test_every_number_with_a_decimal_stands_in_the_results(document):
    """In all tables but boxes; a number of the results, or a difference of two lengths of one joint."""
    (line,) = tree(document)["lines"]
    allowed = list(numbers_of(document))
    seen = 0
    for table in (*line["lengths"]["tables"], line["readings"], line["positions"]):
        for cell in (cell for row in cells(table) for cell in row):
            for figure in re.findall(r"(?<![\w.])[−]?\d+\.\d+", cell):
                value, decimals = float(figure.replace("−", "-")), len(figure.partition(".")[2])
                near = 0.5 * 10.0**-decimals * 1.000001  # half of the last printed digit, and a float's rounding
                assert any(abs(value - one) <= near for one in allowed), figure
                seen += 1
    assert seen > 20


def test_order_of_work_puts_bars_after_anchors_and_before_the_test(document):
    (line,) = tree(document)["lines"]
    steps = line["steps"]

    def place(part: str) -> int:
        return next(number for number, step in enumerate(steps) if part in step)

    parts = (
        "Fix every anchor",
        "with the shipping bars in",
        "nuts of the limit rods",
        "take out the shipping bars",
        "Test at 18 bar(g) with water",
        "hot readings",
    )
    order = [place(part) for part in parts]
    assert order == sorted(order)
    assert len(set(order)) == len(order)
    assert "out of line by 1.0 mm at most" in " ".join(steps)
    assert "tested at 24 bar(g) at most" in " ".join(steps)
    assert "hangers locked" not in " ".join(steps)  # it has none


def test_card_is_readable_on_site(document):
    """What is read while working is 11 points or more; only what stands at head and foot and about it is smaller."""
    made = make(document, Options())["card.pdf"]
    small: set[str] = set()

    def looked_at(text: str, outer: list[float], matrix: list[float], _font: object, size: float) -> None:
        points = size * abs(matrix[3] * outer[3])
        if text.strip() and points < 10.99:
            small.add(text.strip())

    reader = pypdf.PdfReader(io.BytesIO(made))
    for page in reader.pages[:-1]:
        page.extract_text(visitor_text=looked_at)
    head = head_of(document)
    kept = [head.project, head.running, "Forces are those on the structure", "page"]
    assert {words for words in small if not any(part in words or words in part for part in kept)} == set()


@pytest.mark.parametrize(("language", "tag", "title"), [("en", "en-GB", "Set-up"), ("de", "de-DE", "Einstell")])
def test_card_is_tagged_and_bears_its_language(document, language, tag, title):
    reader = pypdf.PdfReader(io.BytesIO(make(document, Options(language=language))["card.pdf"]))
    root = reader.trailer["/Root"]
    assert root["/Lang"] == tag
    assert root["/MarkInfo"]["/Marked"]
    assert reader.metadata.title.startswith(title)
    words = " ".join(page.extract_text() for page in reader.pages)
    assert ("1117,7" in words) == (language == "de")


def test_card_carries_what_every_paper_carries(document, words):
    head = head_of(document)
    flat = words.replace(" ", "")
    for part in (
        head.project,
        head.number,
        head.day,
        head.basis,
        head.tool,
        head.sha256,
        *head.cautions,
        *head.not_covered,
    ):
        assert part.replace(" ", "") in flat
    assert re.search(r"page 1 of \d", words)


def test_bytes_are_the_same_each_time():
    first, second = (make(limit_rods(), Options())["card.pdf"] for _ in range(2))
    assert first == second


def test_line_without_a_joint_has_a_card_without_joints():
    document = no_joint()
    words = " ".join(pages(document))
    assert "No expansion joint stands in this line" in words
    assert "shipping bars of" not in words
    assert "Where the pipe moves to when operating" in words
    assert "bars out" not in words


def test_several_lines_have_a_page_of_their_own_each():
    document = system()
    found = pages(document)
    begins = [
        next(k for k, page in enumerate(found) if f"Line {line['name']} document" in page) for line in document["lines"]
    ]
    assert begins == sorted(set(begins))
    for line, page in zip(document["lines"], begins, strict=True):
        last = ([*begins, len(found) - 1])[begins.index(page) + 1]
        assert last - page <= 2, line["name"]  # one or two pages a line
        for joint in (one for one in document["takeups"] if one["line"] == line["name"]):
            assert joint["name"] in found[page]


@pytest.mark.parametrize(
    ("lateral", "angular", "said"),
    [
        (1.5, 0.0, "ends out of line by 1.5 mm at most, square to each other."),
        (0.0, 0.25, "ends in line, askew by 0.25 ° at most."),
        (1.5, 0.25, "ends out of line by 1.5 mm at most, askew by 0.25 ° at most."),
        (0.0, 0.0, "ends in line and square to each other but for what the table sets."),
    ],
)
def test_no_tolerance_of_nought_is_asked_of_a_fitter(lateral, angular, said):
    """What the line file allows stands there, and nothing that it does not."""
    document = limit_rods()
    document["takeups"][0] |= {"misalignment_lateral_mm": lateral, "misalignment_angular_deg": angular}
    (line,) = tree(document)["lines"]
    (step,) = [step for step in line["steps"] if "with the shipping bars in" in step]
    assert said in step


@pytest.mark.parametrize(
    ("kind", "said"), [("slide guide", "Fix guides ("), ("rest", "Fix rests or hangers ("), ("main anchor", "")]
)
def test_only_what_a_line_has_is_to_be_fixed(kind, said):
    """Guides that are made rests, and rests guides: what there is none of is not counted."""
    document = limit_rods()
    for hold in document["holds"]:
        if hold["kind"] != "main anchor":
            hold["kind"] = kind
    (line,) = tree(document)["lines"]
    assert [said] * bool(said) == [said for step in line["steps"] if "nothing is jammed" in step and said in step]
    assert not [step for step in line["steps"] if "(0)" in step]


@pytest.mark.parametrize(
    ("kind", "watched", "looked"),
    [
        ("slide guide", " Watch that the pipe slides at every guide.", "anchors, guides and joints"),
        ("rest", " Watch that the pipe slides on every rest.", "anchors and joints"),
        ("main anchor", "", "anchors and joints"),
    ],
)
def test_nobody_watches_what_a_line_has_not(kind, watched, looked):
    document = limit_rods()
    for hold in document["holds"]:
        if hold["kind"] != "main anchor":
            hold["kind"] = kind
    (line,) = tree(document)["lines"]
    (warm,) = [step for step in line["steps"] if step.startswith("Warm up slowly")]
    assert warm.partition(".")[2] == watched
    assert [step for step in line["steps"] if step.endswith(f"Look at {looked} at half the pressure first.")]
    (bars,) = [step for step in line["steps"] if "take out the shipping bars" in step]
    assert ("guides" in bars, "rests" in bars) == (kind == "slide guide", kind == "rest")


def test_sag_that_is_read_cold_is_explained():
    """A turn of 0.1 degrees before anything is warm is the pipe's weight; without it nothing is said of sag."""
    document = limit_rods()
    (joint,) = document["takeups"]
    cold = next(row for row in joint["movements"] if row["state"] == "installed")
    cold |= {"angular_deg": 0.1}
    assert "J1: an offset, a turn or nuts apart that are expected cold are the sag" in " ".join(notes_of(document))
    cold |= {"angular_deg": 0.0, "lateral_mm": 0.0}
    for rod in joint["rods"]:
        rod["gap_mm"] = 40.0
    assert "sag" not in " ".join(notes_of(document))


def notes_of(document: dict) -> list[str]:
    (line,) = tree(document)["lines"]
    return line["notes"]


def test_joints_that_are_set_alike_share_a_column():
    """Of six in a row the third is 1 mm shorter on the coldest day: it has a column of its own, each its own boxes."""
    document = limit_rods()
    (joint,) = document["takeups"]
    document["takeups"] = [{**copy.deepcopy(joint), "name": f"J{number}"} for number in range(1, 7)]
    document["takeups"][2]["setting"]["rows"][0]["length_mm"] -= 1.0
    (line,) = tree(document)["lines"]
    heads = [head for table in line["lengths"]["tables"] for head in table["heads"]]
    assert [head for head in heads if head.endswith("length [mm]")] == [
        "J1, J2 length [mm]",
        "J3 length [mm]",
        "J4 to J6 length [mm]",
    ]
    assert [row[0] for row in cells(line["lengths"]["as_set"])] == [f"J{number}" for number in range(1, 7)]


def test_joint_held_by_its_hardware_has_one_length_for_every_day():
    document = limit_rods()
    (joint,) = document["takeups"]
    for row in joint["setting"]["rows"]:
        row |= {"length_mm": 1108.0, "rod_gap_mm": None}
        row["offset_mm"] = [0.0, (row["temperature_c"] - 12.0) * 0.3, 0.0]
    joint["setting"]["because"] = "its rods, pins or bars hold its length: the pipe is fitted to it"
    joint["data"]["axial_compression_mm"] = joint["data"]["axial_extension_mm"] = 0.0
    words = " ".join(pages(document))
    assert "J1: 1108.0 mm on every day; its rods, pins or bars hold its length" in words
    assert "J1 far face north [mm] −8 −6.0" in words  # -20 K x 0.3 mm/K
    assert "below" not in words.partition("At the joints")[2].partition("Where the pipe")[0]


def test_markup_and_very_long_names_do_no_harm():
    document = limit_rods()
    document["takeups"][0]["name"] = document["input"]["project"] = EVIL
    document["lines"][0]["legs"][0]["to"] = EVIL
    flat = " ".join(pages(document)).replace(" ", "")
    assert "Ü#panic()$x$<b>[U+4E2D][U+6587]" in flat
    assert "sehrlang" * 3 in flat


def test_line_that_was_not_solved_has_a_card_without_readings():
    document = limit_rods()
    (joint,) = document["takeups"]
    joint["movements"], joint["rods"], joint["setting"] = [], [], joint["setting"] | {"rows": [], "faces": []}
    document["shapes"] = document["holds"] = []
    words = " ".join(pages(document))
    assert "the study has no length for other days" in words
    assert "At the joints" not in words


def texts_of(names: list[str]) -> Iterator[Text]:
    courses = [
        Course(name=name, points=((-8.0, 9.7 + k), (12.0, 0.0), (35.0, -11.0 - k))) for k, name in enumerate(names)
    ]
    sheet = length_chart(courses, title="t", across="Pipe at [°C]", up="by [mm]", mark=",")
    for view in sheet.views:
        for item in view.items:
            if isinstance(item, Text):
                left, top, right, bottom = box_of(item)
                assert left >= 0.0
                assert top >= 0.0
                assert right <= sheet.width
                assert bottom <= sheet.height
                yield item


@pytest.mark.parametrize("names", [["J1"], ["J1", "J2", "J3"], ["causeway joint, first", "causeway joint, second"]])
def test_words_of_the_chart_do_not_overlap(names):
    for one, other in combinations(texts_of(names), 2):
        left, top, right, bottom = box_of(one)
        far_left, far_top, far_right, far_bottom = box_of(other)
        assert right <= far_left or far_right <= left or bottom <= far_top or far_bottom <= top, (
            one.words,
            other.words,
        )


def test_chart_tells_its_numbers_in_words():
    points = ((-8.0, 9.7), (35.0, -11.7))
    sheet = length_chart([Course(name="J1", points=points)], title="t", across="at", up="by", mark=",")
    assert sheet.description == "at, by: J1: -8,0 / 9,7, 35,0 / -11,7"


def test_every_text_of_the_paper_is_used():
    source = "".join(path.read_text(encoding="utf-8") for path in Path(takeup.papers.card.__file__).parent.glob("*.py"))
    keys = [key.partition(".")[2] for key in entries_of("en") if key.startswith("card.")]
    outside = {"of_line"}  # common/printer.py
    assert [key for key in keys if f'"{key}"' not in source and key not in outside] == []
