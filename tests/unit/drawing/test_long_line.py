"""The drawing of a long line in the calculation: every anchor and joint by name, its section in rows, small signs.

(tests/unit/drawing/test_long_line.py)
"""

from __future__ import annotations

from itertools import combinations

import pytest
from tests.unit.drawing.long_lines import main_of, row_of
from tests.unit.drawing.results_fixture import straight

from takeup.drawing import layout_sheet, layout_sheets
from takeup.drawing.labels import overlap
from takeup.drawing.sheet import Polyline, Sign, Text
from takeup.edge import SI, US

PAPER = 1e-9  # mm: coordinates are sums of a few floats near 400
LONG = [
    pytest.param(lambda: main_of(31), id="31 spans"),
    pytest.param(lambda: row_of(2000.0), id="2 km"),
    pytest.param(lambda: row_of(8000.0), id="8 km"),
]


def texts(view):
    """All words of a view."""
    return [item.words for item in view.items if isinstance(item, Text)]


def view_of(sheet, start):
    """The view whose title begins so."""
    return next(view for view in sheet.views if view.title.startswith(start))


def rows_of(sheets):
    """The rows of the section on all sheets."""
    return [view for sheet in sheets for view in sheet.views if view.title.startswith("Developed")]


def shape_of(part):
    """The points of a stroke, or the box of a circle or an arc."""
    if isinstance(part, Polyline):
        return part.points
    x, y = part.centre if hasattr(part, "centre") else part.at
    reach = getattr(part, "radius", 0.0)
    return ((x - reach, y - reach), (x + reach, y + reach))


def box_round(sign):
    points = [point for part in sign.items for point in shape_of(part)]
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def is_tick(item):
    """A short upright stroke across the base of the band, 1.6 mm long."""
    return (
        isinstance(item, Polyline)
        and len(item.points) == 2
        and item.points[0][0] == item.points[1][0]
        and abs(abs(item.points[1][1] - item.points[0][1]) - 1.6) < PAPER
    )


def test_guides_of_a_long_line_are_counted_not_dropped_in_silence():
    sheet = layout_sheet(straight(400))
    section = texts(view_of(sheet, "Developed"))
    words = "400 guides and rests are not on this sheet: see the layout drawing and the tables"
    assert texts(view_of(sheet, "400 guides")) == [words]
    assert "middle anchor" in section
    assert "slide guide: pipe free to slide along" not in texts(view_of(sheet, "Signs"))
    plan = texts(view_of(sheet, "Plan"))
    assert "middle anchor" in plan
    assert "station 75.00 m" in plan, "few anchors and joints keep what stands beside their names"


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("spans", [9, 31])
def test_long_line_has_every_anchor_and_joint_by_name(spans, units):
    """All of them with station and use in the section; on the plan by name, or the sheet says how many are not."""
    document = main_of(spans)
    sheets = layout_sheets(document, units)
    plan = texts(view_of(sheets[0], "Plan"))
    section = [words for view in rows_of(sheets) for words in texts(view)]
    wanted = [item for item in (*document["holds"], *document["takeups"]) if item["kind"] != "slide guide"]
    for item in wanted:
        assert item["name"] in section
        assert units.length.figures(item["station_m"], 2) in section
    missing = [item["name"] for item in wanted if item["name"] not in plan]
    said = f"{len(missing)} names left out for want of room: see the section"
    assert missing == [] or said in plan
    assert {"west station", f"anchor {spans}"} <= set(plan), "the ends of a line are named before all else"
    assert len(missing) < len(wanted) / 4


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("make", LONG)
def test_signs_of_a_long_section_stand_apart_and_near_their_places(make, units):
    """The joint behind an anchor gives way by half of both signs and their gap at most, 2.4 + 3.0 + 0.3 = 5.7 mm."""
    rows = rows_of(layout_sheets(make(), units))
    assert len(rows) > 1
    assert len({view.scale for view in rows}) == 1
    for view in rows:
        boxes = [box_round(item) for item in view.items if isinstance(item, Sign)]
        assert not any(overlap(a, b) for a, b in combinations(boxes, 2))
        middles = sorted((box[0] + box[2]) / 2.0 for box in boxes)
        ticks = sorted({item.points[0][0] for item in view.items if is_tick(item)})
        assert all(min(abs(tick - middle) for tick in ticks) < 5.7 + PAPER for middle in middles)


def test_small_signs_stand_where_their_places_are():
    """On a plan of 31 spans of 60 m signs are 0.45 of those of the legend: boxes of anchors 1.98 mm instead of 4.4."""
    sheets = layout_sheets(main_of(31))
    signs = [item for item in view_of(sheets[0], "Plan").items if isinstance(item, Sign)]
    main = next(sign for sign in signs if sign.kind == "main anchor")
    xs = [x for x, _ in main.items[0].points]
    assert max(xs) - min(xs) == pytest.approx(0.45 * 4.4, abs=PAPER)


@pytest.mark.parametrize("length", [2000.0, 5000.0])
def test_signs_of_a_long_straight_line_stay_in_its_view(length):
    """2 km to the north are 100 mm at 1 : 20 000, where 20 joints and 21 anchors of 5 mm each have no room in a row.

    The anchors have; on 5 km with 51 of them both ends alone. What is left out is counted, and stands in the section.
    """
    sheet = layout_sheet(row_of(length))
    plan = view_of(sheet, "Plan")
    points = [point for item in plan.items if isinstance(item, Sign) for part in item.items for point in shape_of(part)]
    assert points
    assert all(10.0 < x < 410.0 and 12.0 < y < 244.0 for x, y in points)
    words = texts(plan)
    count = int(length // 100.0)
    named = sum(f"pier {number}" in words for number in range(count + 1))
    assert {"pier 0", f"pier {count}"} <= set(words)
    assert f"{2 * count + 1 - named} names left out for want of room: see the section" in words
    assert not {"J1", "J2"} & set(words)
