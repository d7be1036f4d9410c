"""Strokes of what moves over a drawing: where the number of a movement may stand."""

from __future__ import annotations

import re

import pytest

from takeup.desk.seen.layouts import Spot
from takeup.desk.seen.strokes import movement

EAST = Spot(at=(50.0, 40.0), way=(1.0, 0.0))


def number_at(svg: str) -> tuple[float, float] | None:
    found = re.search(r'<text x="([-\d.]+)" y="([-\d.]+)"', svg)
    return None if found is None else (float(found[1]), float(found[2]))


@pytest.mark.parametrize(("shift", "arrow"), [((6.0, 0.0), True), ((-6.0, 1.0), True), ((1.0, 6.0), False)])
def test_along_the_pipe_it_is_an_arrow_beside_it_and_else_a_stroke_from_it(shift, arrow):
    assert ("<polygon" in movement("a/b", EAST, shift, "")) is arrow
    assert ("<circle" in movement("a/b", EAST, shift, "")) is not arrow


def test_the_number_stands_in_the_middle_of_the_arrow_where_that_is_free():
    assert number_at(movement("a/b", EAST, (6.0, 0.0), "12 mm")) == (53.0, 40.0 - 5.6)


def test_the_number_goes_where_no_words_are_and_nowhere_if_there_are_words_everywhere():
    above = (40.0, 33.0, 70.0, 35.0)
    moved = number_at(movement("a/b", EAST, (6.0, 0.0), "12 mm", [above]))
    assert moved is not None
    assert moved[1] < 33.0 or moved[1] > 35.0 + 1.8, "its base line is above the words, or its capitals are below them"
    assert number_at(movement("a/b", EAST, (6.0, 0.0), "12 mm", [(0.0, 0.0, 200.0, 84.0)])) is None
