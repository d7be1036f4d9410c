"""Drawings, what moves over them, and solids: where the page looks for things they are, and nothing has a style."""

from __future__ import annotations

import base64
import math
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from tests.builders import hold, joint, line_file
from tests.unit.desk.benches import EXAMPLES, KETTERBY, asked, bench, of_text, step_of
from tests.unit.drawing.system_fixture import SYSTEM

from takeup.desk.seen.layouts import PLAN, SECTION, TALL_PLAN, TALL_SECTION, WIDTHS, narrowest
from takeup.desk.seen.overlay import MOST_TIMES

SVG = "{http://www.w3.org/2000/svg}"


def element(svg: str) -> ET.Element:
    return ET.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg">{svg}</svg>')  # noqa: S314 -- our own drawing


def places(one) -> dict[str, float]:
    return {place["id"]: place["station_m"] for line in one.outline() for place in line["places"]}


@pytest.fixture(scope="module", params=[KETTERBY, "three lines"])
def drawn(request):
    return bench(KETTERBY) if request.param == KETTERBY else of_text(SYSTEM)


def test_every_line_is_drawn_in_plan_and_along_its_route(drawn):
    views = drawn.views()["views"]
    assert [(view["line"], view["view"]) for view in views] == [
        (line["name"], view) for line in drawn.outline() for view in ("plan", "section")
    ]
    for view in views:
        root = ET.fromstring(view["svg"])  # noqa: S314 -- our own drawing
        assert view["width"] in WIDTHS
        assert view["height"] == (PLAN if view["view"] == "plan" else SECTION)
        assert root.get("viewBox") == f"0 0 {view['width']:g} {view['height']:g}"
        assert view["line"] in view["title"]


def test_a_line_that_rises_has_sheets_that_are_high_enough_to_see_it():
    """24 m of riser: on 84 mm and 92 mm it was a dozen millimetres high, smaller than its signs."""
    for view in bench("rowan-house-copper-riser").views()["views"]:
        assert view["height"] == (TALL_PLAN if view["view"] == "plan" else TALL_SECTION)
        ys = [at["y"] for at in view["track"]]
        assert max(ys) - min(ys) >= 45.0  # 48 mm at 1 : 500


def test_a_sheet_is_as_narrow_as_the_scale_of_its_line_lets_it_be():
    """The offset, 40 m across, is 80 mm long at 1 : 500: the narrowest does; the demonstration is 150 mm long."""
    offset = {view["view"]: view["width"] for view in bench("fell-gill-offset").views()["views"]}
    assert offset == {"plan": WIDTHS[0], "section": WIDTHS[0]}
    long = {view["view"]: view["width"] for view in bench(KETTERBY).views()["views"]}
    assert WIDTHS[0] < long["plan"] <= long["section"] <= WIDTHS[-1]
    assert narrowest(lambda width: 500 if width >= 172.0 else 1000) == 175.0


def test_nothing_that_is_drawn_has_a_style_or_a_script(drawn):
    look = drawn.look(asked(step=3))
    for svg in [view["svg"] for view in drawn.views()["views"]] + [over["svg"] for over in look["overlays"]]:
        assert "style" not in svg
        assert "<script" not in svg
        assert "href" not in svg


def test_every_place_that_can_be_picked_up_has_a_handle_where_its_sign_is(drawn):
    known = places(drawn)
    for view in drawn.views()["views"]:
        handles = {handle["id"]: handle for handle in view["handles"]}
        own = {place for place in known if place.startswith(f"{view['line']}/")}
        assert set(handles) <= own
        movable = {
            place["id"] for line in drawn.outline() for place in line["places"] if line["name"] == view["line"]
            if place["what"] != "end"
        }  # fmt: skip
        assert movable <= set(handles)
        signs = {group.get("data-id") for group in ET.fromstring(view["svg"]).iter(f"{SVG}g")} - {None}  # noqa: S314
        assert movable <= signs
        for handle in handles.values():
            assert 0.0 <= handle["x"] <= view["width"]
            assert 0.0 <= handle["y"] <= view["height"]


def test_the_track_leads_along_the_drawn_line_past_every_handle(drawn):
    known = places(drawn)
    for view in drawn.views()["views"]:
        track = np.array([[point["station_m"], point["x"], point["y"]] for point in view["track"]])
        assert (np.diff(track[:, 0]) > 0.0).all()
        length = next(line["length_m"] for line in drawn.outline() if line["name"] == view["line"])
        assert track[0, 0] == 0.0
        assert track[-1, 0] == pytest.approx(length, abs=1e-6)  # it is rounded to a micrometre
        for handle in view["handles"]:
            x, y = (np.interp(known[handle["id"]], track[:, 0], track[:, axis]) for axis in (1, 2))
            # signs that would lie on one another are moved apart along the pipe, by the lengths of those beside them
            assert math.hypot(handle["x"] - x, handle["y"] - y) < 20.0


def test_bends_are_in_the_track():
    """DN 200 long radius: 1.5 x 203.2 mm = 305 mm, at 1 : 1000 three tenths of a millimetre inside the corner."""
    one = bench(KETTERBY)
    plan = one.views()["views"][0]
    near = [point for point in plan["track"] if abs(point["station_m"] - 96.0) < 0.31]
    assert len(near) > 10, "a bend of 90 degrees is cut every 5"


def test_the_moved_line_is_drawn_as_many_times_as_told_along_the_pipe():
    """The free end of 40 m of pipe moves by its growth; at 100 times it is drawn 100 times as far from where it lies.

    By hand: mean coefficient 12.6e-6 per K (carbon steel, 21 to 204 degC, from memory) x 183.3 K x 40 m = 92.4 mm.
    """
    text = line_file(
        ["40 m east"],
        end="free",
        holds=tuple(hold("slide guide", f"{k} m", slides_on="PTFE on steel") for k in (8, 16, 24, 32)),
    )
    one = of_text(text)
    step = step_of(one, "operating")
    ends = []
    for times in (1.0, 100.0):
        look = one.look(asked(step=step, exaggeration=times))
        assert look["exaggeration"] == times
        points = element(look["overlays"][0]["svg"]).find(f"{SVG}polyline[@class='moved']").get("points").split()
        ends.append([float(value) for value in points[-1].split(",")])
    grown = look["movements"][0]["movement_m"][-3]
    assert grown == pytest.approx(0.0924, rel=0.03)  # a coefficient of three figures; pressure stretches a little
    scale = 1000.0 * 40.0 / (one.views()["views"][0]["track"][-1]["x"] - one.views()["views"][0]["track"][0]["x"])
    assert ends[1][0] - ends[0][0] == pytest.approx(99.0 * 1000.0 * grown / scale, abs=0.03)  # hundredths are drawn


def test_the_server_chooses_a_round_exaggeration_that_shows_the_greatest_movement():
    one = bench(KETTERBY)
    chosen = {one.look(asked(step=step))["exaggeration"] for step in (0, 20, 50, 70)}
    assert len(chosen) == 1, "movements of two states can be told apart by size"
    (times,) = chosen
    assert times in {10.0**k * n for k in range(5) for n in (1, 2, 5)}
    most = 0.0
    for row in one.walk("no friction")["steps"]:
        moved = np.array(one.look(asked(step=row["step"]))["movements"][0]["movement_m"]).reshape(-1, 3)
        most = max(most, float(np.linalg.norm(moved, axis=1).max()))
    # 1 : 1000: a metre is a millimetre; 12 mm are wanted, and the series goes in steps of 2.5 at most
    assert 12.0 / 2.5 - 0.1 <= most * times <= 12.0 + 0.1


def test_a_loop_is_not_drawn_across_itself():
    """The feet of the loop are 10 ft, 3.048 m apart, and draw near to each other by what both sides grow."""
    one = bench("marlow-hot-water-loop")
    look = one.look(asked(step=step_of(one, "design pressure and temperature")))
    moved = np.array(look["movements"][0]["movement_m"]).reshape(-1, 3)
    model = one.laid[0].model
    corners = np.cumsum([0.0, *(leg.length for leg in model.line.legs)])
    feet = [int(np.argmin(np.abs(model.stations - station))) for station in (corners[1], corners[4])]
    nearer = float(np.linalg.norm(moved[feet[1]] - moved[feet[0]]))
    assert 0.03 < nearer < 0.09, "steel of 21.3 m on either side, some 100 K: about 27 mm each"
    assert look["exaggeration"] * nearer < 3.048
    assert look["exaggeration"] >= 10.0, "the growth is still seen"


def test_growth_along_the_pipe_is_an_arrow_beside_it_and_the_farthest_says_how_far():
    """A number of the picture is that of the look: the node that moves farthest of those that a hold is at."""
    one = bench(KETTERBY)
    look = one.look(asked(step=step_of(one, "operating")))
    groups = [item for item in element(look["overlays"][0]["svg"]).iter(f"{SVG}g") if item.get("class") == "movement"]
    assert len(groups) > 10
    assert all(item.find(f"{SVG}polygon") is not None for item in groups), "a straight main moves along itself"
    (words,) = [text.text for item in groups for text in item.iter(f"{SVG}text")]
    most = np.linalg.norm(np.array(look["movements"][0]["movement_m"]).reshape(-1, 3), axis=1).max()
    assert words.endswith(" mm")
    assert 0.8e3 * most < float(words.removesuffix(" mm")) <= 1e3 * most + 0.5  # no hold is where the joint begins


def test_what_does_not_move_is_not_drawn_moving():
    """A line between two anchors with nothing that takes growth up: it is pressed, and moves by microns at most."""
    one = of_text((EXAMPLES / "bare" / "linnet-foot-pipe-bridge.yaml").read_text(encoding="utf-8"))
    look = one.look(asked(step=5))
    assert look["exaggeration"] == MOST_TIMES
    assert 'class="movement"' not in look["overlays"][0]["svg"]


def test_an_anchors_arrow_is_as_long_as_it_is_full():
    one = bench(KETTERBY)
    look = one.look(asked(step=step_of(one, "operating")))
    (arrow,) = [
        group
        for group in element(look["overlays"][0]["svg"]).iter(f"{SVG}g")
        if group.get("class").startswith("anchor-force") and group.get("data-id") == "LS-201/boiler house header"
    ]
    stroke = arrow.find(f"{SVG}line")
    long = math.hypot(*(float(stroke.get(f"{axis}2")) - float(stroke.get(f"{axis}1")) for axis in "xy"))
    use = next(own["use"] for own in look["holds"] if own["id"] == "LS-201/boiler house header")
    assert long == pytest.approx(10.0 * use, abs=0.015)  # 10 mm when full; hundredths are drawn
    assert float(stroke.get("x2")) < float(stroke.get("x1")), "pressure pushes the west end to the west"


def test_rods_are_drawn_slack_or_taut_and_guides_closed_or_open():
    """The example's joint is tied: cold and under pressure its rods pull, hot without pressure they let go."""
    one = bench("fell-gill-offset")
    found = set()
    for row in one.walk("no friction")["steps"]:
        look = one.look(asked(step=row["step"]))
        for own in look["takeups"]:
            expected = "rod taut" if any(rod["engaged"] for rod in own["rods"]) else "rod slack"
            for over in look["overlays"]:
                (group,) = [
                    item for item in element(over["svg"]).iter(f"{SVG}g")
                    if item.get("class") == "joint-moved" and item.get("data-id") == own["id"]
                ]  # fmt: skip
                assert {line.get("class") for line in group.iter(f"{SVG}line")} == {expected}
            found.add(expected)
        for own in (own for own in look["holds"] if own["contact"]):
            kinds = {
                item.get("class")
                for over in look["overlays"]
                for item in element(over["svg"]).iter(f"{SVG}g")
                if item.get("data-id") == own["id"]
            } - {"movement"}
            assert kinds == {f"contact {own['contact']}"}
    assert found == {"rod taut", "rod slack"}


def test_names_with_markup_in_them_stay_names():
    text = line_file(
        ["30 m east"],
        takeups=(joint("J1", "2 m"),),
        holds=(hold("slide guide", "20 m", name="'a <b> & \"c\"'", slides_on="PTFE on steel"),),
    )
    one = of_text(text)
    look = one.look(asked(step=3))
    ids = {group.get("data-id") for group in element(look["overlays"][0]["svg"]).iter(f"{SVG}g")}
    assert 'T-1/a <b> & "c"' in ids


def decoded(part, key: str, kind: str) -> np.ndarray:
    return np.frombuffer(base64.b64decode(part[key]), dtype=kind)


def test_solids_are_closed_and_ride_between_nodes_of_their_line(drawn):
    solids = drawn.solids()
    nodes = {line["line"]: len(line["movement_m"]) // 3 for line in drawn.look(asked(step=0))["movements"]}
    known = places(drawn)
    total = 0
    for part in solids["parts"]:
        position, index = decoded(part, "position", "<f4").reshape(-1, 3), decoded(part, "index", "<u4").reshape(-1, 3)
        node, share = decoded(part, "node", "<u4"), decoded(part, "share", "<f4")
        total += len(position)
        edges = np.sort(np.concatenate([index[:, [0, 1]], index[:, [1, 2]], index[:, [2, 0]]]), axis=1)
        _, counts = np.unique(edges, axis=0, return_counts=True)
        assert (counts % 2 == 0).all(), "every edge has a face on either side"
        assert (position >= np.array(solids["low_m"]) - 1e-3).all()  # single precision of a coordinate of 100 m
        assert (position <= np.array(solids["high_m"]) + 1e-3).all()
        if part["what"] == "hold":
            assert len(node) == len(share) == 0
        else:
            assert len(node) == len(share) == len(position)
            assert node.max() + 1 < nodes[part["line"]]
            assert ((share >= 0.0) & (share <= 1.0)).all()
        assert part["id"] == "" if part["what"] == "pipe" else part["id"] in known
    assert total < 60_000


def test_a_vertex_of_the_pipe_rides_where_it_lies():
    """Between its two nodes, by its share, is a point of the centre line no further off than the pipe is thick."""
    one = bench(KETTERBY)
    model = one._kept.base.prepared.model.lines[0]
    for part in (part for part in one.solids()["parts"] if part["what"] == "pipe"):
        position, node = decoded(part, "position", "<f4").reshape(-1, 3), decoded(part, "node", "<u4")
        share = decoded(part, "share", "<f4").astype(float)[:, None]
        middle = model.points[node] * (1.0 - share) + model.points[node + 1] * share
        # 219.1 mm outside: 109.6 mm, drawn thicker; an arc of 15 degrees and 305 mm is 2.6 mm off its chord
        # (R (1 - cos 7.5 deg)); where the pipe turns a ring is cut aslant, by at most 1/cos 2.5 deg of its radius
        thick = one.solids()["thick"]
        assert np.linalg.norm(position - middle, axis=1).max() < 0.1096 * thick * 1.001 + 0.0027
