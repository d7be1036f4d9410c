"""The layout drawing is to scale, says all it must, and puts nothing on anything."""

from __future__ import annotations

import math
import re
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.drawing.long_lines import main_of
from tests.unit.drawing.results_fixture import corner, loop, results, riser, straight

from takeup.drawing import layout_sheet, to_svg
from takeup.drawing.colour import colour_of
from takeup.drawing.dimension import expanded, words_box
from takeup.drawing.labels import overlap
from takeup.drawing.lettering import box_of
from takeup.drawing.reading import use_words
from takeup.drawing.sheet import Arc, Dimension, Polyline, Sign, Text
from takeup.drawing.symbols import EXPLAINED
from takeup.edge import SI, TIE, US

ALL = [straight, corner, riser, loop, lambda: straight(60)]
LONG = [
    pytest.param(lambda: straight(400), id="400 guides"),
    pytest.param(lambda: main_of(9), id="9 spans"),
    pytest.param(lambda: main_of(31), id="31 spans"),
]
PAPER = 1e-9  # mm: coordinates are sums of a few floats near 400


def texts(view):
    """All words of a view."""
    return [item.words for item in view.items if isinstance(item, Text)]


def strokes(view):
    """Everything drawn in a view, signs taken apart."""
    return [part for item in view.items for part in (item.items if isinstance(item, Sign) else (item,))]


def view_of(sheet, start):
    """The view whose title begins so."""
    return next(view for view in sheet.views if view.title.startswith(start))


def test_leg_is_drawn_at_the_stated_scale():
    """A dimension of 96 m at 1:500 is 192 mm on paper."""
    plan = view_of(layout_sheet(corner()), "Plan")
    assert plan.scale == 500
    lengths = {item.words: math.dist(item.start, item.end) for item in plan.items if isinstance(item, Dimension)}
    assert lengths == pytest.approx({"96.00 m": 192.0, "9.00 m": 18.0, "54.00 m": 108.0}, abs=PAPER)


def test_bends_are_true_arcs_and_meet_the_straights():
    """R 305 mm at 1:50 is 6.1 mm; the edges of a pipe of 219.1 mm are at 6.1 -+ 2.191 mm."""
    plan = view_of(layout_sheet(loop()), "Plan")
    assert plan.scale == 50
    arcs = [item for item in plan.items if isinstance(item, Arc)]
    radii = sorted({round(arc.radius, 6) for arc in arcs})
    assert radii == pytest.approx([3.909, 6.1, 8.291], abs=1e-6)
    assert len(arcs) == 12
    ends = [point for item in plan.items if isinstance(item, Polyline) for point in (item.points[0], item.points[-1])]
    for arc in arcs:
        assert abs(arc.sweep) == pytest.approx(math.pi / 2.0, abs=1e-12)
        for angle in (arc.start, arc.start + arc.sweep):
            tip = (arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle))
            assert min(math.dist(tip, end) for end in ends) < 1e-6


def test_small_pipe_on_paper_is_one_line():
    """219.1 mm at 1:500 is 0.44 mm: one line, its arcs of R 305 mm at 0.61 mm."""
    arcs = [item for item in view_of(layout_sheet(corner()), "Plan").items if isinstance(item, Arc)]
    assert [arc.radius for arc in arcs] == pytest.approx([0.61, 0.61], abs=PAPER)


def test_double_line_is_mitred_at_a_sharp_corner():
    """Two legs at a right angle without a bend: the edges of both meet on the diagonal through the corner."""
    holds = [("west", "main anchor", 0.0), ("north", "main anchor", 8.0)]
    sheet = layout_sheet(results([(0.0, 0.0, 0.0), (5.0, 0.0, 0.0), (5.0, 3.0, 0.0)], [None], holds, []))
    plan = view_of(sheet, "Plan")
    edges = [
        item.points
        for item in plan.items
        if isinstance(item, Polyline)
        and item.stroke
        and item.stroke.width == 0.35
        and not item.closed
        and math.dist(*item.points[:2]) > 20.0
    ]
    assert len(edges) == 4
    assert math.dist(edges[0][1], edges[2][0]) < 1e-6
    assert math.dist(edges[1][1], edges[3][0]) < 1e-6


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("make", [*ALL, *LONG])
def test_no_words_lie_on_words(make, units):
    boxes = []
    for view in layout_sheet(make(), units).views:
        for item in view.items:
            if isinstance(item, Text):
                boxes.append((box_of(item), item.words))
            elif isinstance(item, Dimension):
                boxes.append((words_box(expanded(item)[1]), item.words))
    touching = [(a[1], b[1]) for a, b in combinations(boxes, 2) if overlap(a[0], b[0])]
    assert touching == []


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("make", [*ALL, *LONG])
def test_all_words_are_inside_the_sheet(make, units):
    sheet = layout_sheet(make(), units)
    for view in sheet.views:
        for item in view.items:
            if isinstance(item, Text):
                left, top, right, bottom = box_of(item)
                assert left > 10.0, item.words
                assert right < sheet.width - 10.0, item.words
                assert top > 12.0, item.words
                assert bottom < sheet.height - 12.0, item.words


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("make", ALL)
def test_every_anchor_and_joint_is_named_in_the_view_and_every_place_in_the_section(make, units):
    document = make()
    sheet = layout_sheet(document, units)
    seen = " ".join(texts(view_of(sheet, ("Plan", "Elevation"))))
    for item in (*document["holds"], *document["takeups"]):
        if "anchor" in item["kind"] or item in document["takeups"]:
            assert item["name"] in seen
            assert f"station {units.length.text(item['station_m'], 2)}" in seen
    section = texts(view_of(sheet, "Developed"))
    for item in (*document["holds"], *document["takeups"]):
        assert units.length.figures(item["station_m"], 2) in section


def test_layout_in_us_units_has_feet_and_inches_at_the_same_true_scale():
    """96 m are 3779.53 in = 314 ft 11.53 in, 192 mm on paper at 1:500; R 305 mm is 12.01 in; 25 m are 82 ft (by hand).

    The bar of at most 50 mm is then the round 50 ft: 15.24 m, 30.48 mm on paper.
    """
    sheet = layout_sheet(corner(), US)
    plan = view_of(sheet, "Plan")
    lengths = {
        item.words.replace(TIE, " "): math.dist(item.start, item.end)
        for item in plan.items
        if isinstance(item, Dimension)
    }
    expected = {"314 ft 11 1/2 in": 192.0, "29 ft 6 5/16 in": 18.0, "177 ft 2 in": 108.0}
    assert lengths == pytest.approx({words: expected[words] for words in lengths}, abs=PAPER)
    assert {"314 ft 11 1/2 in", "177 ft 2 in"} <= set(lengths)
    assert "R 12.01 in" in texts(plan)
    bar = [item for item in plan.items if isinstance(item, Text) and item.words in {"0", "50 ft"}]
    assert bar[1].at[0] - bar[0].at[0] == pytest.approx(30.48, abs=PAPER)
    words = to_svg(sheet)
    assert "Stations and elevations in feet and inches." in words
    assert "NPS 8, 8.626 × 0.322 in" in words
    assert "Legs in the order of the flow: 314 ft 11 1/2 in from start header" in words
    assert not re.search(r"(?<![a-z])mm(?![a-z])|\d m\b", re.sub(r"<svg[^>]*>|guide at [0-9.]+ m", "", words))


def test_riser_is_an_elevation_and_the_title_says_so():
    """42 m high on 9 m of plan: more than twice, so it is seen from the side on which it is wider."""
    sheet = layout_sheet(riser())
    assert view_of(sheet, "Elevation").title == "Elevation, looking north"
    assert not any(view.title.startswith("Plan") for view in sheet.views)


def test_legend_explains_exactly_the_signs_on_the_sheet():
    legend = texts(view_of(layout_sheet(corner()), "Signs"))
    kinds = {hold["kind"] for hold in corner()["holds"]} | {joint["kind"] for joint in corner()["takeups"]}
    assert kinds == {kind for kind, words in EXPLAINED.items() if words in legend}


def test_title_block_says_what_a_drawing_must():
    block = " | ".join(texts(view_of(layout_sheet(corner()), "Title")))
    for words in (
        "Ketterby laundry steam main",
        "K-07",
        "2026-05-12",
        "LS-201",
        "1 : 500",
        "A",
        "Forces are those on the structure.",
        "Not for construction until checked by a licensed engineer.",
    ):
        assert words in block


@pytest.mark.parametrize("make", ALL)
def test_every_colour_is_that_of_a_number_beside_it(make):
    """Each fill but black, white and the scale of use itself is the colour of a use printed in the same view."""
    for view in layout_sheet(make()).views:
        if view.title == "Scale of use":
            continue
        printed = {float(n) for words in texts(view) for n in re.findall(r"(?:use )?(\d+\.\d\d)\b", words)}
        allowed = {colour_of(use) for use in printed} | {"#000000", "#ffffff", None}
        fills = {item.fill for item in strokes(view) if isinstance(item, Polyline)}
        assert fills <= allowed, view.title


def test_colours_grow_lighter_with_use():
    """The order survives grey print: luminance 0.2126 R + 0.7152 G + 0.0722 B (Rec. 709) rises all the way."""

    def luminance(use):
        colour = colour_of(use)
        red, green, blue = (int(colour[n : n + 2], 16) for n in (1, 3, 5))
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    steps = [luminance(n / 20.0) for n in range(21)]
    assert steps == sorted(steps)
    assert len(set(steps)) == 21
    assert colour_of(1.3) == colour_of(1.0)


def test_use_just_over_full_is_told_from_full():
    """1.0002 with two decimals would read 1.00; more decimals are given until it does not."""
    assert use_words(1.0002) == "1.0002"
    assert use_words(1.0) == "1.00"
    assert use_words(0.834) == "0.83"
    assert use_words(1.0 + 1e-9) == ">1.000000"
    assert use_words(math.inf) == "∞"


WAYS = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]


@st.composite
def routes(draw):
    """Any route along the axes, with bends of 305 mm or sharp corners, an anchor at each end and guides between."""
    legs = draw(st.lists(st.tuples(st.sampled_from(WAYS), st.floats(1.0, 80.0)), min_size=1, max_size=7))
    points, before = [(0.0, 0.0, 0.0)], None
    for way, length in legs:
        if before is None or sum(a * b for a, b in zip(way, before, strict=True)) == 0:
            points.append(tuple(p + length * w for p, w in zip(points[-1], way, strict=True)))
            before = way
    radii = draw(st.lists(st.sampled_from([305.0, None]), min_size=len(points) - 2, max_size=len(points) - 2))
    length = sum(math.dist(a, b) for a, b in pairwise(points))
    holds = [("start", "main anchor", 0.0), ("end", "main anchor", length)]
    holds += [(f"G{n}", "slide guide", length * n / 9.0) for n in range(1, 9)]
    return results(points, radii, holds, [])


@settings(max_examples=60)
@given(routes(), st.sampled_from([SI, US]))
def test_any_route_is_drawn_and_nothing_lies_on_anything(document, units):
    sheet = layout_sheet(document, units)
    boxes = [words_box(expanded(i)[1]) for v in sheet.views for i in v.items if isinstance(i, Dimension)]
    boxes += [box_of(i) for v in sheet.views for i in v.items if isinstance(i, Text)]
    assert not any(overlap(a, b) for a, b in combinations(boxes, 2))
    assert "nan" not in to_svg(sheet)
    for name in ("start", "end"):
        assert name in texts(view_of(sheet, ("Plan", "Elevation")))


def test_line_that_was_not_solved_is_drawn_with_its_planned_holds():
    document = straight()
    planned = [
        {"name": hold["name"], "line": hold["line"], "kind": hold["kind"], "station_m": hold["station_m"]}
        for hold in document["holds"]
    ]
    document["input"]["resolved"]["holds"] = planned
    document |= {"holds": [], "checks": []}
    assert "middle anchor" in to_svg(layout_sheet(document))


def test_level_section_is_not_exaggerated_and_a_slight_fall_is_stated():
    """150 m that fall 0.45 m: 0.9 mm at 1:500, so it is exaggerated, and the sheet says by how much."""
    assert any(
        "elevations to the same scale" in words for words in texts(view_of(layout_sheet(straight()), "Developed"))
    )
    ends = [("high", "main anchor", 0.0), ("low", "main anchor", math.hypot(150.0, 0.45))]
    falling = results([(0.0, 0.0, 4.5), (150.0, 0.0, 4.05)], [], ends, [])
    assert any(
        re.search(r"elevations exaggerated \d+ times", words)
        for words in texts(view_of(layout_sheet(falling), "Developed"))
    )
