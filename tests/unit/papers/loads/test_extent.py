"""Of many anchors the states that govern are printed, and the workbook has all.     (tests/unit/papers/loads/)"""

from __future__ import annotations

import csv
import io
import math

import pytest
from tests.unit.papers.loads.schedule_lines import files, options, pages, results
from tests.unit.papers.loads.test_pdf import printed, sources, words_in

from takeup.edge import SI
from takeup.papers.frame import head_of
from takeup.papers.loads import extent
from takeup.papers.loads.by_state import states_table
from takeup.papers.loads.extent import governing_states, has_many_anchors, has_many_guides
from takeup.papers.loads.held import band_cases, held_of
from takeup.papers.loads.paper import make
from takeup.papers.loads.ranges import ON_THE_WAY
from takeup.papers.loads.writer import writer_of

ASKED = ["corner", "askew"]


@pytest.fixture
def few(monkeypatch):
    """As if nearly nothing were printed of every state; the files that other tests read are made before."""
    for language in ("en", "de"):
        files("corner", "si", language)
    monkeypatch.setattr(extent, "_MOST_ROWS", 3)
    monkeypatch.setattr(extent, "_MOST_CELLS", 3)


def anchors_of(name):
    return [held for held in held_of(results(name)) if held.anchor]


def brief_text(name, language="en"):
    return " ".join(pages(make(results(name), options(language=language))["loads.pdf"]))


def test_a_short_line_has_every_state():
    holds = held_of(results("corner"))
    assert not has_many_anchors([held for held in holds if held.anchor])
    assert not has_many_guides([held for held in holds if not held.anchor])
    text = " ".join(pages(files("corner")["loads.pdf"]))
    assert "the states that govern" not in text
    assert "too many to be printed" not in text


@pytest.mark.parametrize("name", ASKED)
def test_every_value_of_an_envelope_occurs_in_a_state_that_is_printed(name):
    """All but the bound of friction by hand, which is added to a state's own load: that state is printed."""
    for held in anchors_of(name):
        kept = governing_states(held)
        for one in held.ranges:
            if not one.is_nothing:
                assert {case.state.removeprefix(ON_THE_WAY) for case in (one.least_in, one.greatest_in)} <= kept
        assert held.governed_by[0].removeprefix(ON_THE_WAY) in kept
        band = band_cases(held)
        assert band is None or {state.removeprefix(ON_THE_WAY) for state, _ in band[1:]} <= kept
        assert {load.state for load in held.loads if load.kind == "test"} <= kept
        assert kept < {load.state for load in held.loads}, "a test with nothing to leave out shows nothing"


@pytest.mark.usefixtures("few")
@pytest.mark.parametrize("name", ASKED)
def test_rows_of_states_that_govern_are_printed_as_ever(name):
    text = brief_text(name)
    for held in anchors_of(name):
        shown = [load for load in held.loads if load.state in governing_states(held)]
        forces = printed([value for load in shown for value in load.force])
        moments = printed([value for load in shown for value in load.moment])
        for number in range(len(shown)):
            row = " ".join([*forces[3 * number : 3 * number + 3], *moments[3 * number : 3 * number + 3]])
            assert row in text, (held.name, shown[number])


def test_table_of_states_has_no_state_that_does_not_govern():
    document = results("corner")
    write = writer_of(head_of(document, SI, "en"))
    for held in anchors_of("corner"):
        for brief in (True, False):
            spec = states_table(held, write, brief=brief)
            named = {row["cells"][0]["words"] for row in spec["rows"]} - {""}
            wanted = governing_states(held) if brief else {load.state for load in held.loads}
            assert {words.replace("\u200b", "") for words in named} == wanted
            assert spec["together"] is False, "it goes on on the next page with its head"


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", ("Every state of every anchor", "in every state, with every friction, stand in loads.xlsx")),
        ("de", ("Jeder Zustand jedes Festpunkts", "mit jeder Reibung, stehen in loads.xlsx")),
    ],
)
@pytest.mark.usefixtures("few")
def test_the_page_says_where_the_others_are_and_they_are_there(language, said):
    text = brief_text("corner", language)
    assert all(words in text for words in said)
    made = make(results("corner"), options(language=language))
    assert made["loads.csv"] == files("corner", "si", language)["loads.csv"]
    assert made["loads.xlsx"] == files("corner", "si", language)["loads.xlsx"]
    lines = [line for line in made["loads.csv"].decode("utf-8-sig").splitlines() if not line.startswith("#")]
    assert len(list(csv.DictReader(io.StringIO("\n".join(lines))))) == sum(
        len(held.loads) for held in held_of(results("corner"))
    )


def test_every_number_of_the_short_form_is_one_of_the_results():
    """The rows and heads of the table of states: what is printed of each load is the load, to the printed figure."""
    document = results("corner")
    allowed = {f"{abs(value) / size:.{n}f}" for value in sources(document) for size in (1.0, 1e3) for n in range(4)}
    told = " ".join(words_in(document))
    write = writer_of(head_of(document, SI, "en"))
    for held in anchors_of("corner"):
        for row in states_table(held, write, brief=True)["rows"]:
            for cell in row["cells"][2:]:
                figures = cell["words"].replace("\u200b", "").lstrip("+\N{MINUS SIGN}")
                assert figures in allowed or figures in told
                assert math.isfinite(float(figures))
