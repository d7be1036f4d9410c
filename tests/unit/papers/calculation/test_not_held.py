"""A calculation of lines that are not held shows how they can move, and says so on page one."""

from __future__ import annotations

import io

import pypdf
import pytest
from tests.unit.drawing.results_fixture import corner
from tests.unit.drawing.test_free import GUIDED, ON_RESTS, TWO, UP, results

from takeup.edge import SI
from takeup.papers.calculation.calculation import calculation_pdf, contents_of
from takeup.papers.calculation.not_held import not_held_section


@pytest.mark.parametrize(("text", "drawn"), [(GUIDED, 1), (ON_RESTS, 3), (TWO, 1)], ids=["guided", "rests", "two"])
def test_free_motions_stand_behind_the_drawing_with_their_words(text, drawn):
    """Without a number of its own: the inputs stay section 2, to which other pages point."""
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(results(text))))
    heads = [item.title for item in reader.outline if not isinstance(item, list)]
    assert heads[1:3] == ["Not held", "2 Inputs"]
    assert "Not held: free motions are drawn" in " ".join(reader.pages[0].extract_text().split())
    words = " ".join(" ".join(page.extract_text().split()) for page in reader.pages)
    for motion in results(text)["not_held"]:
        assert motion["words"].partition(" freely ")[2] in words
    section = not_held_section(results(text), SI)
    assert len(section["drawn"]) == drawn
    assert all("a motion that nothing resists" in item["alt"] for item in section["drawn"])
    assert section["more"] == ""


def test_at_most_three_motions_are_drawn_and_the_rest_is_counted():
    """A free riser has all six."""
    section = not_held_section(results(UP), SI)
    assert len(section["drawn"]) == 3
    assert section["more"] == "3 more motions in words: see the verdict."


def test_held_lines_have_no_such_section():
    assert contents_of(corner())["not_held"] is None
