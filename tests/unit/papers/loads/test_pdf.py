"""Every load of the results stands on the PDF, and no number that is not theirs.

(tests/unit/papers/loads/test_pdf.py)
"""

from __future__ import annotations

import io
import math
import re

import pytest
from pypdf import PdfReader
from tests.unit.papers.loads.schedule_lines import files, options, pages, renamed, results

from takeup.edge import SI
from takeup.papers.common.numerals import MINUS
from takeup.papers.frame import head_of
from takeup.papers.loads.anchors import anchor_chapter
from takeup.papers.loads.held import held_of
from takeup.papers.loads.paper import make
from takeup.papers.loads.writer import writer_of
from takeup.papers.words.catalogue import entries_of

NUMBER = re.compile(r"\d+(?:\.\d+)?")
ASKED = ["corner", "askew", "continues"]


def printed(values, size=1e3):
    """Numbers as a column shows them: four figures of the largest, two decimals at most, a plus above zero."""
    numbers = [value / size for value in values]
    largest = max(map(abs, numbers))
    decimals = 1 if largest == 0.0 else max(0, min(2, 3 - math.floor(math.log10(largest))))
    found = []
    for number in numbers:
        words = f"{number:.{decimals}f}"
        if float(words) == 0.0:
            found.append(words.removeprefix("-"))
        else:
            found.append(words.replace("-", MINUS) if number < 0.0 else f"+{words}")
    return found


def text_of(name, system="si", language="en"):
    return " ".join(pages(files(name, system, language)["loads.pdf"]))


@pytest.mark.parametrize("name", ASKED)
def test_every_load_of_every_anchor_is_printed_in_its_row(name):
    text = text_of(name)
    for held in held_of(results(name)):
        if not held.anchor:
            continue
        forces = printed([value for load in held.loads for value in load.force])
        moments = printed([value for load in held.loads for value in load.moment])
        for number in range(len(held.loads)):
            row = " ".join([*forces[3 * number : 3 * number + 3], *moments[3 * number : 3 * number + 3]])
            assert row in text, (held.name, held.loads[number])


@pytest.mark.parametrize("name", ASKED)
def test_summary_has_the_design_range_of_every_anchor(name):
    text = text_of(name)
    anchors = [held for held in held_of(results(name)) if held.anchor]
    for part in (slice(0, 3), slice(3, 6)):
        values = [value for held in anchors for one in held.design[part] for value in (one.greatest, one.least)]
        words = printed(values)
        for number in range(0, len(words), 6):
            pairs = [words[number + 2 * axis : number + 2 * axis + 2] for axis in range(3)]
            row = " ".join(" ".join(dict.fromkeys(pair)) for pair in pairs)
            assert row in text


def test_guides_are_printed_with_what_to_make_them_for():
    document, text = results("corner"), text_of("corner")
    for row in document["guides"]:
        design = printed([1.5 * one["design_n"] for one in document["guides"]])  # factor of the line file
        assert design[document["guides"].index(row)].removeprefix("+") in text
        assert row["name"] in text


def sources(document):
    """Numbers that may be printed, of the parts of the results that the schedule tells, and times the factors."""
    kept = [
        {key: value for key, value in hold.items() if key != "contact"} for hold in document["holds"]
    ]  # contacts are told by their status alone
    told = [kept, document.get("guides"), document["checks"], document["input"], document["lines"], document["zones"]]
    factors = document["input"]["resolved"]["design_factors"] or {}
    scales = {1.0, *(factors[key] for key in ("anchors", "guides") if key in factors)}
    for held in held_of(document):  # the bound of friction askew
        yield from (scale * value for scale in scales for one in held.ranges for value in (one.least, one.greatest))
    stack = [*told]
    while stack:
        value = stack.pop()
        if isinstance(value, dict):
            stack += value.values()
        elif isinstance(value, list):
            stack += value
        elif isinstance(value, int | float) and not isinstance(value, bool):
            yield from (scale * value for scale in scales)


def words_in(document):
    """Texts that may be printed, numbers in them and all."""
    yield from entries_of("en").values()
    stack = [document]
    while stack:
        value = stack.pop()
        if isinstance(value, str):
            yield value
        elif isinstance(value, dict):
            stack += value.values()
        elif isinstance(value, list):
            stack += value


@pytest.mark.parametrize("name", ASKED)
def test_no_number_is_printed_that_the_results_do_not_hold(name):
    document, read = results(name), pages(files(name)["loads.pdf"])
    allowed = {number for words in words_in(document) for number in NUMBER.findall(words)}
    allowed |= {f"{abs(value) / size:.{n}f}" for value in sources(document) for size in (1.0, 1e3) for n in range(4)}
    allowed |= {f"{value:g}" for value in sources(document)}
    allowed |= {str(number) for number in range(1, len(read) + 1)}  # of pages and headings
    body = " ".join(read[:-1])  # the key plan has a test of its own
    digest = document["input"]["sha256"]
    body = re.sub(rf"{digest[:20]}\S*\s*\S*{digest[-4:]}", " ", body)
    strange = [number for number in NUMBER.findall(body) if number not in allowed and not digest.count(number)]
    headings = re.findall(r"(?<![\d.])(\d\.\d+) (?=\w)", body)
    assert set(strange) <= set(headings), strange


def test_one_side_cases_stand_in_rows_of_their_own():
    document = results("corner")
    one_sided = [state["name"] for state in document["states"] if state["kind"] == "one side"]
    assert one_sided
    text = text_of("corner")
    for state in one_sided:
        assert f"{state} one side only" in text


def test_what_carries_nothing_is_said():
    held = next(one for one in held_of(results("corner")) if one.name == "test hanger")
    there = [load.state for load in held.loads if not load.is_nothing]
    assert there == [load.state for load in held.loads if load.state == "under hydrostatic test"]
    text = text_of("corner")
    assert "test hanger T-1 hanger temporary, there only in: under hydrostatic test" in text


def test_a_line_that_goes_on_says_that_loads_from_beyond_are_to_be_added():
    assert "THESE LOADS ARE THOSE OF THIS SIDE ONLY" in text_of("continues")


def test_structures_that_give_have_rows_of_their_own():
    text = text_of("askew")
    assert "structures giving" in text
    assert "is said to give" in text


def test_a_line_that_is_not_solved_says_so_and_lists_what_is_planned():
    text = text_of("loose")
    assert "NO LOADS: the lines were not solved" in text
    assert "not held: no load on a structure" in text


def test_hand_stands_beside_the_model_with_the_reason():
    text = text_of("corner")
    for hold in results("corner")["holds"]:
        for row in hold["hand"]:
            if row["value"] is not None and row["model"] is not None:
                assert row["what"] in text
            if row["because"]:
                assert " ".join(row["because"].split()) in text


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("system", ["si", "us"])
def test_the_sense_is_said_on_the_first_page_and_the_document_is_tagged(system, language):
    content = files("corner", system, language)["loads.pdf"]
    first = pages(content)[0]
    assert ("ON THE STRUCTURE" if language == "en" else "AUF DAS TRAGWERK") in first
    assert ("kN" if system == "si" else "lbf") in first
    read = PdfReader(io.BytesIO(content))
    assert read.trailer["/Root"]["/Lang"].startswith(language)
    assert read.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_german_numbers_have_commas():
    """-82.6 kN of the walk is -82,6 there; the same digits, another mark."""
    held = next(one for one in held_of(results("corner")) if one.name == "west end")
    words = printed([value for load in held.loads for value in load.force])[3].replace(".", ",")
    assert words in text_of("corner", "si", "de")


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "add up to 13.00 kN as they then stand, in the state “operating” (stability, in the calculation)."),
        ("de", "bis zu 13,00 kN dazu, im Zustand „Betrieb“ (Stabilität, in der Berechnung)."),
    ],
)
def test_what_stands_beyond_first_order_is_said_and_where_to_read_of_it(language, said):
    """3, 4 and 12 kN at right angles are 13 kN; section 7 of the schedule is another than that of the calculation."""
    document = results("corner")
    west = next(hold for hold in document["holds"] if hold["name"] == "west end")
    felt = {"name": west["name"], "line": west["line"], "force_n": [3000.0, -4000.0, 12000.0]}
    document["second_order"] = [{"state": "operating", "holds": [felt]}]
    chapter = anchor_chapter(
        document,
        next(held for held in held_of(document) if held.name == "west end"),
        writer_of(head_of(document, SI, language)),
        brief=False,
    )
    assert said in str(chapter["said"])


ODD = {
    "west end": "Kesselhaus Süd – Größe ß",
    "corner anchor": "锚 北",
    "east end": "مرساة الشرق",
    "test hanger": "=1+1 *fett* #let x $y$ <b> " + "überlang" * 12,
}


def test_odd_names_do_no_harm():
    document = renamed(results("corner"), ODD)
    made = make(document, options())
    assert made == make(renamed(results("corner"), ODD), options())  # the same bytes
    text = " ".join(pages(made["loads.pdf"]))
    assert "Kesselhaus Süd – Größe ß" in text
    assert "[U+951A] [U+5317]" in text  # the typeface has no such letters
    assert "=1+1 *fett* #let x $y$ <b>" in text
    plan = made["loads-key-plan.svg"].decode("utf-8")
    assert "锚 北" in plan
    assert "مرساة الشرق" in plan
