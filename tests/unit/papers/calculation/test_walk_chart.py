"""Charts of the walk: what is drawn, in which pen, what is left out, and that words and curves stay on the paper."""

from __future__ import annotations

import copy
import io

import pypdf
import pytest
from tests.unit.drawing.results_fixture import corner, straight
from tests.unit.papers.calculation.walk_fixture import STEPS, event, with_walk

from takeup.drawing.lettering import box_of
from takeup.drawing.sheet import Circle, Polyline, Stroke, Text
from takeup.drawing.svg import to_svg
from takeup.edge import SI, US, Measure
from takeup.papers.calculation.calculation import calculation_pdf, contents_of
from takeup.papers.calculation.walk import walk_section
from takeup.papers.calculation.walk_chart import MOST_PANELS, walk_ticks
from takeup.papers.calculation.walk_events import numbered_events
from takeup.papers.calculation.walked import runs, scenario_words, walked_of
from takeup.papers.common.chart import WIDTH, chart_sheet, names_fit, round_values
from takeup.papers.common.chart_records import Chart, Curve, Panel, Tick
from takeup.papers.common.glyphs import printable_tree

PEN, DASHES = Stroke(width=0.3), Stroke(width=0.2, dash=(1.0, 1.0))
PLAIN = Measure(unit="kN")


def chart(panels, **given):
    """A chart from nought to ten."""
    ticks = tuple(Tick(at=float(n), number=f"{n}", name=f"state {n}") for n in range(11))
    told = {"title": "T", "description": "D", "axis": "A", "span": (0.0, 10.0), "ticks": ticks, **given}
    return Chart(panels=tuple(panels), **told)


def panel(*curves, **given):
    """A panel in kN."""
    return Panel(title="P", measure=PLAIN, curves=curves, **given)


def curve(*points, stroke=PEN):
    """A curve through points."""
    return Curve(points=points, stroke=stroke)


def items(sheet, kind):
    """The things of one kind on a sheet."""
    return [item for view in sheet.views for item in view.items if isinstance(item, kind)]


def strokes(sheet, pen):
    """The strokes drawn with a pen."""
    return [item for item in items(sheet, Polyline) if item.stroke == pen]


def test_curve_is_to_scale_from_side_to_side():
    """0 to 10 is the plot of 170 - 15 - 22 = 133 mm: 5 stands at 15 + 66.5 = 81.5 mm, half way up (by hand)."""
    (line,) = strokes(chart_sheet(chart([panel(curve((0.0, 0.0), (5.0, 50.0), (10.0, 100.0)))])), PEN)
    (x0, y0), (x1, y1), (x2, y2) = line.points
    assert (x0, x1, x2) == pytest.approx((15.0, 81.5, 148.0), abs=1e-9)  # rounding alone
    assert y1 == pytest.approx((y0 + y2) / 2.0, abs=1e-9)
    assert y0 > y2  # down on paper is less


def test_curve_breaks_where_there_is_no_value():
    points = ((0.0, 1.0), (1.0, 2.0), (2.0, None), (3.0, 2.0), (4.0, 1.0))
    assert [len(line.points) for line in strokes(chart_sheet(chart([panel(curve(*points))])), PEN)] == [2, 2]


def test_long_curve_keeps_its_extremes():
    """Of 20 000 points one is 9: it is a place of the drawn curve, at the top of the panel."""
    points = [(k / 2000.0, 9.0 if k == 12_345 else float(k % 2)) for k in range(20_001)]
    (line,) = strokes(chart_sheet(chart([panel(curve(*points))])), PEN)
    assert len(line.points) < 6_000
    at = min(line.points, key=lambda point: point[1])
    assert at[0] == pytest.approx(15.0 + 133.0 * 12_345 / 20_000, abs=1e-9)


def test_extremes_have_dots_and_words_to_the_right():
    sheet = chart_sheet(
        chart([panel(curve((0.0, -2.5), (10.0, 7.0)), least=(0.0, -2.5), greatest=(10.0, 7.0), decimals=1)])
    )
    fills = [(dot.fill, dot.centre[0] > WIDTH - 22.0) for dot in items(sheet, Circle)]
    assert sorted(fills) == sorted([("#000000", False), ("#000000", True), ("#ffffff", False), ("#ffffff", True)])
    words = [text.words for text in items(sheet, Text)]
    assert {"7.0", "−2.5"} <= set(words)


def test_near_marks_share_a_label():
    """At 1 mm apart numbers would lie on one another: 1.0 and 1.05 of ten are 0.665 mm apart, 8 stands alone."""
    sheet = chart_sheet(chart([panel(curve((0.0, 0.0), (10.0, 1.0)))], marks=((1.0, 1), (1.05, 2), (8.0, 3))))
    bold = [text.words for text in items(sheet, Text) if text.bold]
    assert bold == ["1–2", "3", "P"]


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (-83.0, 12.0, ["−50", "0"]),
        (0.0, 18.0, ["0", "5", "10", "15"]),
        (985.0, 1111.0, ["1000", "1050", "1100"]),
        (0.0, 0.07, ["0.00", "0.02", "0.04", "0.06"]),
        (99.0, 101.0, ["99", "100", "101"]),
    ],
)
def test_axis_has_round_values(low, high, expected):
    assert [words for _, words in round_values(low, high)] == expected


@pytest.mark.parametrize("spread", [1e-9, 3.7e-3, 1.0, 17.0, 4.4e5])
@pytest.mark.parametrize("start", [-3.3, -1.0, 0.0, 0.37, 12.0])
def test_axis_has_two_values_at_least_and_few(start, spread):
    values = [value for value, _ in round_values(start * spread, (start + 1.0) * spread)]
    assert 2 <= len(values) <= 6
    assert all(start * spread <= value <= (start + 1.0) * spread for value in values)


def test_constant_curve_is_drawn_with_room():
    (line,) = strokes(chart_sheet(chart([panel(curve((0.0, 12.0), (10.0, 12.0)))])), PEN)
    assert line.points[0][1] == line.points[1][1]


def test_names_give_way_to_numbers_where_states_are_many():
    few = [Tick(at=float(n), number=f"{n}", name="under hydrostatic test") for n in range(16)]
    many = [Tick(at=float(n), number=f"{n}", name="under hydrostatic test") for n in range(80)]
    assert names_fit(few, (0.0, 15.0))
    assert not names_fit(many, (0.0, 79.0))


def test_words_of_a_chart_are_on_the_paper_and_numbers_apart():
    document = with_walk(corner())
    for spec in walk_section(document, SI)["charts"]:
        assert spec["alt"].startswith("The walk through the states")
    walked = walked_of(document)
    sheet = chart_sheet(
        chart([panel(curve((0.0, 0.0), (10.0, 1.0)))], ticks=walk_ticks(walked), span=(0.0, 4.0), title="x")
    )
    for text in items(sheet, Text):
        left, top, right, bottom = box_of(text)
        assert left >= 0.0
        assert top >= 0.0
        assert right <= sheet.width + 3.0  # the last name of the axis may stand half a line out
        assert bottom <= sheet.height


def test_both_scenarios_are_drawn_and_low_friction_is_said_to_be_left_out():
    document = with_walk(corner())
    section = walk_section(document, SI)
    svg = section["charts"][0]["svg"]
    assert "high friction" in svg
    assert "no friction" in svg
    assert "low friction" not in svg
    said = " ".join(section["left_out"])
    assert said.startswith("Not in the charts: low friction")
    assert "loads along the flow of guides and rests" in said


def test_scenario_that_was_not_recorded_step_by_step_is_said_to_be_left_out():
    """Its loads by state are in the results, its steps are not."""
    document = with_walk(corner())
    document["walk"] = [row for row in document["walk"] if row["scenario"] != "low friction"]
    assert walk_section(document, SI)["left_out"][0].startswith("Not in the charts: low friction")


def test_every_anchor_and_joint_has_a_panel_on_some_chart():
    document = with_walk(corner())
    many = copy.deepcopy(document["takeups"][0])
    for n in range(9):
        document["takeups"].append({**many, "name": f"K{n}"})
        for row in document["walk"]:
            row["joints"][f"K{n}"] = 1_000.0 + n
    charts = walk_section(document, SI)["charts"]
    anchors = [hold["name"] for hold in document["holds"] if "anchor" in hold["kind"]]
    things = [*anchors, *(joint["name"] for joint in document["takeups"])]
    assert len(charts) == -(-len(things) // MOST_PANELS)
    for name in things:
        assert sum(f">{name}: " in spec["svg"] for spec in charts) == 1
    assert all(spec["svg"].count("Temperature, °C") >= 1 for spec in charts)


def test_steps_that_did_not_converge_leave_a_gap_and_are_named():
    document = with_walk(corner())
    bad = [row for row in document["walk"] if row["scenario"] == "high friction"][STEPS : STEPS + 2]
    for row in bad:
        row |= {"converged": False, "error": None, "holds": dict.fromkeys(row["holds"]), "joints": {}}
    (said,) = walk_section(document, SI)["unsolved"]
    assert said.startswith("In high friction 2 steps of ")
    assert document["states"][1]["name"] in said
    assert "None" not in walk_section(document, SI)["charts"][0]["svg"]


def test_marks_stand_where_the_scenario_with_most_friction_has_them():
    """The rest leaves at 0.3 of the way to the second state, with high friction at 0.32: at 1.32 on the axis."""
    document = with_walk(corner(), rubs=0)
    first = numbered_events(document, walked_of(document))[0]
    assert first.at == pytest.approx(1.32, abs=1e-12)  # rounding alone
    assert len(first.records) == 3


def test_charts_in_us_units_convert():
    """A set length of 1100 mm is 43.307 in (by 25.4); 10 bar(g) is 145 psig."""
    document = with_walk(corner())
    svg = walk_section(document, US)["charts"][0]["svg"]
    for unit in ("psig", "°F", "lbf", ", in<"):
        assert unit in svg
    for unit in ("bar(g)", "kN", "mm<"):
        assert unit not in svg


def test_same_results_give_the_same_chart_and_a_walk_is_in_the_pdf():
    document = with_walk(straight())
    assert walk_section(document, SI)["charts"] == walk_section(copy.deepcopy(document), SI)["charts"]
    made = calculation_pdf(document)
    assert made == calculation_pdf(copy.deepcopy(document))
    words = " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages).split())
    assert "The walk through the states" in words
    assert "Events on the walk" in words


def test_names_that_cannot_be_printed_find_their_numbers():
    """Names are made printable before they are set, the keys of the walk's rows are not."""
    document = straight()
    document["holds"][0]["name"] = "anchor 中"
    with_walk(document)
    section = contents_of(printable_tree(document))["walk"]
    assert "anchor [U+4E2D]: force along the flow" in section["charts"][0]["svg"]
    assert not any("tells nothing" in words for words in section["left_out"])


def test_chart_is_an_image_with_words():
    svg = to_svg(chart_sheet(chart([panel(curve((0.0, 0.0), (10.0, 1.0), stroke=DASHES))])))
    assert "<desc>D</desc>" in svg
    assert "stroke-dasharray" in svg


def test_runs_and_scenarios_in_words():
    assert runs([1, 3, 4, 5, 8, 9]) == "1, 3–5, 8, 9"
    assert runs([]) == ""
    assert scenario_words(["low friction", "high friction"]) == "low and high friction"
    assert scenario_words(["no friction", "low friction", "high friction"]) == "all scenarios"


def test_event_beyond_the_walked_states_is_no_surprise():
    """An event names the state that it leads to; that alone puts the state on the axis."""
    document = with_walk(straight(), rubs=0)
    last = document["states"][-1]["name"]
    document["walk"] = [row for row in document["walk"] if row["state"] != last]
    late = event(document, (len(document["states"]) - 1, 0.5), "touches", "x", "hold", scenario="high friction")
    document["events"].append(late)
    assert last in walked_of(document).places
    assert walk_section(document, SI)["charts"]
