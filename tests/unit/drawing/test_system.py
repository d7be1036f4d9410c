"""Several lines: one sheet of all of them, one of each; a sign for everything, and nothing lies on anything."""

from __future__ import annotations

import math
from collections import Counter
from itertools import combinations, pairwise
from xml.etree import ElementTree as ET

import pytest
from tests.unit.drawing.results_fixture import straight
from tests.unit.drawing.system_fixture import system

from takeup.drawing import layout_sheet, layout_sheets, to_svg
from takeup.drawing.dimension import expanded, words_box
from takeup.drawing.joint_signs import joint_sign
from takeup.drawing.labels import overlap
from takeup.drawing.lettering import box_of
from takeup.drawing.reading import number_of, records_of
from takeup.drawing.route import joined_legs
from takeup.drawing.sheet import Circle, Dimension, Polyline, Sign, Text
from takeup.drawing.symbols import EXPLAINED, REACH, end_sign, hold_sign, item_sign
from takeup.edge import SI, US
from takeup.joints import TakeUpKind
from takeup.line.holding import HoldKind

SVG = "{http://www.w3.org/2000/svg}"
EXACT = 1e-9  # m or mm: sums of a few floats near 100


def signs(sheet):
    """How often each thing has a sign on a sheet, the legend left out: by class and name, as the SVG says them."""
    root = ET.fromstring(to_svg(sheet))  # noqa: S314 -- our own document
    marked = [group for group in root.iter(f"{SVG}g") if not group.get("class", "legend").startswith("legend")]
    return Counter((group.get("class"), group.find(f"{SVG}title").text) for group in marked)


def wanted(document, line=None):
    """Every hold, joint and item of a document, or of one of its lines, by class and name."""
    found = []
    for sort, key in (("hold", "holds"), ("joint", "takeups")):
        found += [(f"{sort} {item['kind'].replace(' ', '-')}", item["name"], item["line"]) for item in document[key]]
    for own in document["lines"]:
        found += [(f"item {item['kind']}", item["name"], own["name"]) for item in own["items"]]
    return {(kind, name) for kind, name, owner in found if line in (None, owner)}


def words_of(sheet):
    """All words of a sheet with the boxes they fill."""
    for view in sheet.views:
        for item in view.items:
            if isinstance(item, Text):
                yield box_of(item), item.words
            elif isinstance(item, Dimension):
                yield words_box(expanded(item)[1]), item.words


def test_everything_has_one_sign_on_the_sheet_of_all_lines():
    """36 holds, 3 joints and 4 items, and two places where a line leaves another."""
    document = system()
    found = signs(layout_sheets(document)[0])
    leaving = {("branch branch", "DS-2 leaves"), ("branch branch", "DS-3 leaves")}
    assert len(wanted(document)) == 36 + 3 + 4
    assert found == Counter(dict.fromkeys(wanted(document) | leaving, 1))


def test_everything_of_a_line_has_a_sign_in_both_views_of_its_sheet():
    document = system()
    for line, sheet in zip(document["lines"], layout_sheets(document)[1:], strict=True):
        found = signs(sheet)
        things = wanted(document, line["name"])
        assert {thing: found[thing] for thing in things} == dict.fromkeys(things, 2)


def test_one_line_has_one_sheet():
    assert layout_sheets(straight()) == (layout_sheet(straight()),)


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
def test_no_words_lie_on_words_and_all_are_inside_the_sheet(units):
    for sheet in layout_sheets(system(), units):
        boxes = list(words_of(sheet))
        assert [(a[1], b[1]) for a, b in combinations(boxes, 2) if overlap(a[0], b[0])] == []
        for (left, top, right, bottom), words in boxes:
            assert (left > 10.0, top > 12.0, right < 410.0, bottom < 285.0) == (True,) * 4, words


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
def test_lines_anchors_joints_and_items_are_named_on_the_sheet_of_all_lines(units):
    document = system()
    sheet = layout_sheets(document, units)[0]
    seen = {words for _, words in words_of(sheet)}
    for line in document["lines"]:
        assert f"line {line['name']}" in seen
        assert {item["name"] for item in line["items"]} <= seen
    named = [hold["name"] for hold in document["holds"] if "anchor" in hold["kind"]]
    assert {*named, "churn nozzle", "old works boundary", "curd stop", "J1", "J2", "J3"} <= seen
    assert not any("left out" in words for words in seen)


def test_branches_begin_on_their_mains():
    """The first stroke of a branch begins at 1:500 on its main: DS-2 leaves DS-1 at 40 m, 80 mm from its start."""
    plan = layout_sheets(system())[0].views[1]
    assert plan.scale == 500
    pipes = [item for item in plan.items if isinstance(item, Polyline) and item.stroke and item.stroke.width == 0.7]
    starts = {item.points[0] for item in pipes}
    begin = pipes[0].points[0]
    assert min(math.dist((begin[0] + 80.0, begin[1]), point) for point in starts) < EXACT


def turned(value, order):
    """A document whose world is turned: its axes in another order."""
    if isinstance(value, list):
        return [turned(item, order) for item in value]
    if not isinstance(value, dict):
        return value
    found = {key: turned(item, order) for key, item in value.items()}
    for key in ("at_m", "direction"):
        if key in value:
            found[key] = [value[key][axis] for axis in order]
    for key in ("points", "axes"):
        if key in value:
            found[key] = [[row[axis] for axis in order] for row in value[key]]
    return found


@pytest.mark.parametrize(
    ("order", "title"),
    [((0, 1, 2), "Plan"), ((1, 0, 2), "Plan"), ((0, 2, 1), "Elevation, looking north"), ((2, 0, 1), "Elevation")],
)
def test_system_in_any_plane_is_seen_where_it_is_widest(order, title):
    """110 m by 42 m by 2.5 m: flat it is a plan; upright, a plan would show it 2.5 m deep, so it is an elevation."""
    document = turned(system(), order)
    sheets = layout_sheets(document)
    assert sheets[0].views[1].title.startswith(title)
    assert set(signs(sheets[0])) >= wanted(document)
    for sheet in sheets:
        assert [(a[1], b[1]) for a, b in combinations(words_of(sheet), 2) if overlap(a[0], b[0])] == []


def test_lines_are_drawn_to_one_scale():
    """DS-1 is 70 m, 12 m and 40 m between intersections: 140, 24 and 80 mm at 1:500 less its bends of 0.6096 mm."""
    legs = [number_of(leg, "length_m") for leg in records_of(joined_legs(system()["lines"][0]), "legs")]
    assert legs == pytest.approx([70.0, 12.0, 40.0], abs=EXACT)
    plan = layout_sheets(system())[0].views[1]
    pipes = [item.points for item in plan.items if isinstance(item, Polyline) and item.stroke]
    lengths = [sum(math.dist(a, b) for a, b in pairwise(points)) for points in pipes]
    assert any(length == pytest.approx(24.0 - 2 * 0.6096, abs=1e-6) for length in lengths)  # the leg of 12 m


def test_legend_explains_exactly_the_kinds_on_each_sheet():
    for sheet in layout_sheets(system()):
        legend = next(view for view in sheet.views if view.title == "Signs")
        shown = {item.kind for view in sheet.views for item in view.items if isinstance(item, Sign)}
        words = [item.words for item in legend.items if isinstance(item, Text)]
        assert shown == {kind for kind, said in EXPLAINED.items() if said in words}


def test_every_kind_has_a_sign_of_its_own():
    """No two kinds look alike, and none falls back on the ring of an unknown one.

    A single axial joint with limit rods is a limit-rod axial joint by another name: those two have one sign.
    """
    at, along = (0.0, 0.0), (1.0, 0.0)
    holds = {kind: hold_sign(kind, at, along) for kind in (*HoldKind.__args__, "equipment", "continues", "unknown")}
    rods = ("single axial with limit rods", "universal with limit rods")
    joints = {kind: joint_sign(kind, (-3.0, 0.0), (3.0, 0.0)) for kind in (*TakeUpKind.__args__, *rods)}
    assert set(joints) <= set(EXPLAINED)
    assert joints.pop("limit-rod axial") == joints["single axial with limit rods"]
    items = {kind: item_sign(kind, ((-2.0, 0.0), (2.0, 0.0)), along) for kind in ("valve", "flange", "reducer", "item")}
    ends = {kind: end_sign(kind, at, along) for kind in ("blind", "closed valve", "branch")}
    drawn = [*holds.values(), *joints.values(), *items.values(), *ends.values()]
    assert all(a != b for a, b in combinations(drawn, 2))
    assert end_sign("free", at, along) == ()


def lines_of(kind):
    """The open lines of a joint's sign on a pipe to the right, 6 mm long."""
    return [part.points for part in joint_sign(kind, (-3.0, 0.0), (3.0, 0.0)) if not part.closed]


def test_universal_joint_has_two_bellows_alike():
    """A zigzag either side of the middle, mirrored; a joint of one bellows has one, about the middle."""
    zigzags = [points for points in lines_of("universal") if len(points) > 2]
    middles = sorted(sum(x for x, _ in points) / len(points) for points in zigzags)
    assert middles == pytest.approx([-middles[1], middles[1]], abs=EXACT)
    assert middles[1] > 0.0
    assert len([points for points in lines_of("tied axial") if len(points) > 2]) == 1


@pytest.mark.parametrize("kind", TakeUpKind.__args__)
def test_sign_of_a_joint_stays_within_its_reach(kind):
    """Across the pipe no further than REACH, half a stroke more; labels beside it count on that."""
    for part in joint_sign(kind, (-3.0, 0.0), (3.0, 0.0)):
        away = part.radius + abs(part.centre[1]) if isinstance(part, Circle) else max(abs(y) for _, y in part.points)
        assert away <= REACH + EXACT


@pytest.mark.parametrize(("kind", "pins"), [("hinged", 1), ("gimbal", 4), ("swing", 4), ("tied axial", 0)])
def test_pins_are_drawn(kind, pins):
    """One in the middle of a hinge, two pairs on the ring of a gimbal, one at each end of two swing bars."""
    circles = [part for part in joint_sign(kind, (-3.0, 0.0), (3.0, 0.0)) if isinstance(part, Circle)]
    assert len([part for part in circles if part.radius < 0.6]) == pins


@pytest.mark.parametrize("kind", ["tied axial", "tied universal", "single axial with limit rods"])
def test_rods_run_either_side_with_their_lugs(kind):
    """Two thin lines along the pipe as long as the sign; four lugs, those of limit rods set back from the nuts."""
    straight = [points for points in lines_of(kind) if len(points) == 2]
    rods = [points for points in straight if points[0][1] == points[1][1]]
    lugs = [points for points in straight if points[0][0] == points[1][0] and abs(points[1][1]) == REACH]
    assert sorted(points[0][1] for points in rods) == [-2.4, 2.4]
    assert {(points[0][0], points[1][0]) for points in rods} == {(-3.0, 3.0)}
    back = 0.9 if "limit" in kind else 0.0
    assert {abs(points[0][0]) for points in lugs} == {3.0 - back}
    assert len(lugs) == 4


def test_limit_rods_are_told_from_tie_rods_in_the_legend():
    """Rods on a joint that is not called tied are limit rods; nothing in the fixture has any, so they are put there."""
    document = system()
    document["takeups"][0]["data"]["rods"] = {"count": 4}
    for kind, drawn in (("single axial", "single axial with limit rods"), ("tied axial", "tied axial")):
        document["takeups"][0]["kind"] = kind
        legend = next(view for view in layout_sheets(document)[0].views if view.title == "Signs")
        assert EXPLAINED[drawn] in [item.words for item in legend.items if isinstance(item, Text)]


def test_reducer_narrows_the_way_the_pipe_does():
    """DN 200 to DN 150 along the flow: its first face is the higher one."""
    faces = item_sign("reducer", ((-2.0, 0.0), (2.0, 0.0)), (1.0, 0.0))[0].points
    assert abs(faces[0][1]) > abs(faces[1][1])
    faces = item_sign("reducer", ((-2.0, 0.0), (2.0, 0.0)), (1.0, 0.0), wider=True)[0].points
    assert abs(faces[0][1]) < abs(faces[1][1])


def test_sheets_are_the_same_each_time():
    first, second = ([to_svg(sheet) for sheet in layout_sheets(system())] for _ in range(2))
    assert first == second


def test_description_tells_where_lines_leave():
    assert "DS-2 leaves DS-1 at 40 m" in layout_sheets(system())[0].description
