"""The comparison of proposals holds what it must, bears long words and ten proposals, and is the same each time."""

from __future__ import annotations

import copy
import io
import json
import re
from functools import cache

import pypdf
import pytest
from tests.proposal_builders import nothing, three
from tests.unit.drawing.results_fixture import results as made_up
from tests.unit.drawing.results_fixture import straight

from takeup.choose.arrange.document import proposals_document
from takeup.choose.arrange.written import json_text
from takeup.drawing.proposal_view import NARROW, WIDE, proposal_sheets
from takeup.papers.proposals.comparison import comparison_contents, comparison_pdf
from takeup.papers.proposals.proposal_sheet import proposal_lines


def document_of(outcome):
    return json.loads(json_text(proposals_document(outcome)))


@cache
def whole():
    """The document of three proposals, and the results of each."""
    return document_of(three()), [one.found.results for one in three().hunt.proposals]


def squeezed(words: str) -> str:
    """Words without white space: a table breaks them anywhere a line may end."""
    return re.sub(r"[\s\u200b]+", "", words)


def printed(document, results) -> str:
    reader = pypdf.PdfReader(io.BytesIO(comparison_pdf(document, results)))
    return squeezed("".join(page.extract_text() for page in reader.pages))


def test_comparison_holds_costs_loads_reasons_cautions_and_whose_the_prices_are():
    document, results = whole()
    words = printed(document, results)
    for text in (document["prices"]["words"], document["prices"]["sha256"], *document["cautions"], *document["limits"]):
        assert squeezed(text) in words
    assert squeezed(document["searched"]["words"]) in words
    for one in document["proposals"]:
        assert squeezed(f"Number {one['rank']}: cost {one['cost']:.1f}") in words
        assert squeezed(one["words"]) in words
        for text in one["reasons"]:
            assert squeezed(text.partition("refused: ")[2].partition(": ")[2].removesuffix(".") or text) in words
        for anchor in one["anchors"]:
            assert squeezed(anchor["name"]) in words
            assert f"{anchor['design_force_n'] / 1e3:.1f}" in words
        for part in one["parts"]:
            assert squeezed(part["what"]) in words
            assert f"{part['cost']:.1f}" in words


def test_sheet_on_the_terminal_says_the_same_and_is_loud_on_prices():
    document, _ = whole()
    lines = "\n".join(proposal_lines(document))
    assert "PRICES ARE INVENTED" in lines.splitlines()[1]
    for one in document["proposals"]:
        assert squeezed(one["words"]) in squeezed(lines)
        assert f"{one['cost']:.1f}" in lines
    for text in document["proposals"][0]["reasons"]:
        assert squeezed(text) in squeezed(lines)


def test_comparison_is_accessible_and_the_same_each_time():
    made = comparison_pdf(*whole())
    assert made == comparison_pdf(*whole())
    root = pypdf.PdfReader(io.BytesIO(made)).trailer["/Root"]
    packet = root["/Metadata"].get_data().decode()
    assert re.search(r"<pdfuaid:part>1</pdfuaid:part>", packet)
    assert re.search(r"<pdfaid:part>2</pdfaid:part>", packet)


def test_ten_proposals_with_long_words_fit_their_pages():
    document, results = copy.deepcopy(whole()[0]), whole()[1]
    long = "Header in the lower gallery behind the third boiler, " * 4 + "x" * 70
    document["proposals"] = [copy.deepcopy(document["proposals"][number % 3]) for number in range(10)]
    for rank, one in enumerate(document["proposals"], start=1):
        one["rank"], one["words"] = rank, f"{long} | {one['words']}"
        one["greatest_load"]["where"] = one["anchors"][0]["name"] = long
        one["parts"][0]["what"] = f"{one['parts'][0]['what']} {'y' * 60}"
        one["reasons"] = [*one["reasons"], long]
    reader = pypdf.PdfReader(io.BytesIO(comparison_pdf(document, [results[number % 3] for number in range(10)])))
    words = squeezed("".join(page.extract_text() for page in reader.pages))
    assert words.count("x" * 70) > 30  # each of ten proposals has it in three places and more
    assert squeezed("Cost by part, numbers 6 to 10") in words
    for page in reader.pages:
        assert float(page.mediabox.width) == pytest.approx(595.3, abs=0.1)  # A4 in points, to a tenth


def test_nothing_that_fits_is_said_first_with_what_would_have_to_give():
    document = document_of(nothing())
    words = printed(document, [])
    assert "Nothingfits" in words
    assert squeezed(document["relaxations"][0]["words"]) in words
    lines = "\n".join(proposal_lines(document))
    assert "NOTHING FITS." in lines
    assert squeezed(f"Something would fit {document['relaxations'][0]['words']}") in squeezed(lines)


def test_drawings_have_one_scale_and_stand_side_by_side_where_the_plan_is_not_wide():
    alone = proposal_sheets([straight(), straight()], straight()["lines"][0]["name"])
    assert {sheet.width for sheet in alone} == {WIDE}
    points = [(0.0, 0.0, 4.5), (20.0, 0.0, 4.5), (20.0, 20.0, 4.5)]
    square = made_up(points, [305.0], [("west end", "main anchor", 0.0), ("north end", "main anchor", 40.0)], [])
    pair = proposal_sheets([square, square], square["lines"][0]["name"])
    assert {sheet.width for sheet in pair} == {NARROW}
    drawn = [view.scale for sheet in proposal_sheets(whole()[1], "HW-1") for view in sheet.views]
    assert len(drawn) == 3
    assert len(set(drawn)) == 1
    contents = comparison_contents(*whole())
    assert all(one["svg"].startswith("<svg") for one in contents["drawings"])
