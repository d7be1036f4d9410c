"""A free motion is drawn as it is: the shape beside the line, all of what moves, arrows, rings, no load factor."""

from __future__ import annotations

import math
from functools import cache

import pytest
from tests.builders import DN200, hold, line_file, study_of

from takeup.drawing.free_view import free_sheets
from takeup.drawing.sheet import Polyline, Sheet, Sign, Text
from takeup.edge import SI, US
from takeup.results import results_of

GUIDED = line_file(["12 m east"], start="free", end="blind", holds=(hold("slide guide", "[3 m, 9 m]"),))
ON_RESTS = line_file(["12 m east", "8 m north"], start="free", end="free", holds=(hold("rest", "[3 m, 9 m, 17 m]"),))
LOOSE_SECOND = f"""\
  - name: T-2
    medium: steam
    pipe: {DN200}
    insulation: none
    route:
      - {{ start: low end, at: [0 m, 3 m, 0 m], as: free }}
      - {{ go: 6 m east }}
      - {{ go: 3 m up, to: high end, as: free }}
    holds:
      - {hold("slide guide", "[2 m, 5 m]")}
"""
TWO = line_file(["12 m east"], holds=(hold("rest", "6 m"),)) + LOOSE_SECOND
UP = line_file(["3 m up"], start="free", end="free")


@cache
def results(text: str) -> dict:
    """The results of a line that is not held."""
    return results_of(study_of(text))


def strokes(sheet: Sheet, width: float) -> list[tuple[tuple[float, float], ...]]:
    """The points of every stroke of one width."""
    items = [item for item in sheet.views[0].items if isinstance(item, Polyline)]
    return [item.points for item in items if item.stroke is not None and item.stroke.width == width]


def words(sheet: Sheet) -> list[str]:
    """All words of a sheet."""
    return [item.words for view in sheet.views for item in view.items if isinstance(item, Text)]


def test_held_lines_have_no_such_drawing():
    assert free_sheets({"not_held": []}) == ()


def test_shift_is_drawn_as_the_line_moved_9_mm_whole():
    """An L on rests, moved east: every point of the shape lies 9 mm to the right of one of the line."""
    first = free_sheets(results(ON_RESTS))[0]
    (pipe,), (shape,) = strokes(first, 0.25), strokes(first, 0.6)
    assert first.title == "How the line can move freely: along (1, 0, 0)"
    assert len(pipe) == len(shape)
    for (x, y), (x_moved, y_moved) in zip(pipe, shape, strict=True):
        assert (x_moved - x, y_moved - y) == pytest.approx((9.0, 0.0), abs=1e-9)  # mm: rounding
    assert "load factor" not in first.description + " ".join(words(first))


def test_arrow_that_would_lie_on_the_pipe_stands_beside_it():
    """Moved east, the leg that runs east has its arrows 4.5 mm off, and all arrows are 9 mm long."""
    first = free_sheets(results(ON_RESTS))[0]
    arrows = [points for points in strokes(first, 0.2) if len(points) == 2 and round(math.dist(*points), 9) == 9.0]
    (pipe,) = strokes(first, 0.25)
    level = pipe[0][1]  # of the leg that runs east
    beside = [start for start, _ in arrows if abs(start[1] - level) == pytest.approx(4.5, abs=1e-9)]
    assert (len(arrows), len(beside)) == (5, 3)  # 12 m of 20 m: three of five


def test_turn_is_drawn_turned_about_its_marked_axis():
    """What is drawn stands at right angles to the way to the axis (small turns), as far as it is away from it."""
    turned = free_sheets(results(ON_RESTS))[2]
    (pipe,), (shape,) = strokes(turned, 0.25), strokes(turned, 0.6)
    crosses = [
        points
        for points in strokes(turned, 0.2)
        if len(points) == 2 and abs(points[0][0] - points[1][0]) == pytest.approx(3.2)
    ]
    x, y = ((a + b) / 2.0 for a, b in zip(*crosses[0], strict=True))
    rates = set()
    for (a, b), (c, d) in zip(pipe, shape, strict=True):
        assert (c - a) * (a - x) + (d - b) * (b - y) == pytest.approx(0.0, abs=0.05)  # mm2: axis to a micrometre
        rates.add(round(math.hypot(c - a, d - b) / math.hypot(a - x, b - y), 3))
    assert len(rates) == 1


def test_line_that_turns_about_itself_has_rings_and_no_shape():
    """Four rings; the one heavy stroke besides is none: nothing moves aside."""
    (only,) = free_sheets(results(GUIDED))
    assert [len(points) for points in strokes(only, 0.6)] == [25] * 4  # 24 strokes each
    assert "turns about its own axis; nothing resists it, either way" in words(only)
    assert "moves nowhere aside" in only.description
    assert [item.kind for item in only.views[0].items if isinstance(item, Sign)] == ["slide guide"] * 2


def test_line_on_end_is_seen_from_the_side_in_every_motion():
    """A free riser: six motions, each seen in elevation; in plan it would be a dot."""
    sheets = free_sheets(results(UP))
    assert len(sheets) == 6
    assert all(sheet.views[0].title.startswith("Elevation") for sheet in sheets)


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
def test_of_two_lines_the_one_that_is_held_lies_still(units):
    """T-1 between anchors, which are drawn though nothing was solved; T-2 tips over about its guided leg."""
    (only,) = free_sheets(results(TWO), units)
    assert only.title.startswith("How line T-2, with what is joined to it, can turn freely: about the direction (1, 0")
    assert {"line T-1", "line T-2", "can turn freely"} <= set(words(only))
    signs = [item for item in only.views[0].items if isinstance(item, Sign)]
    assert [sign.kind for sign in signs].count("main anchor") == 2
    pipes, shapes = strokes(only, 0.25), strokes(only, 0.6)
    assert pipes[0] == shapes[0]
    moved = [math.dist(a, b) for a, b in zip(pipes[1], shapes[1], strict=True)]
    assert max(moved) == pytest.approx(9.0, abs=1e-9)
    for view in only.views:
        for item in view.items:
            if isinstance(item, Text):
                assert 0.0 <= item.at[0] <= only.width
                assert 0.0 <= item.at[1] <= only.height
