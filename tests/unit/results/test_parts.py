"""The list of parts, counted by hand for small lines.     (tests/unit/results/test_parts.py)"""

from __future__ import annotations

import math
from functools import lru_cache

import pytest
from tests.builders import hold, joint, line_file, rule, study_of
from tests.unit.drawing.system_fixture import system
from tests.unit.results.hardware_lines import HINGED
from tests.unit.results.walk_lines import RUNS_OUT

from takeup.results import results_of

COUNTED = line_file(
    ["12 m east, to: turn", "8 m north"],
    insulation="{ thickness: 50 mm, kind: mineral wool }",
    holds=(hold("spider guide", "4 m"), hold("spider guide", "6 m"), rule("rest", "support spans")),
    takeups=(joint("J1", "2 m"),),
)
RADIUS = 0.3048  # of a long radius bend DN 200: 1.5 x 8 in, ASME B16.9 (from memory)


@lru_cache(maxsize=8)
def results_for(text):
    """The results of a text, once for all tests; none of them changes them."""
    return results_of(study_of(text))


def rows(text_or_results, group, what=""):
    """The rows of a group, of one sort of part where it is named."""
    results = text_or_results if isinstance(text_or_results, dict) else results_for(text_or_results)
    return [row for row in results["parts"]["rows"] if row["group"] == group and what in ("", row["what"])]


def test_pipe_is_what_is_left_between_bends_and_joints():
    """By hand: legs 12 + 8 = 20 m, less 2 R of the bend of a right angle, less the joint of 1.1 m: 18.2904 m."""
    (pipe,) = rows(COUNTED, "pipe")
    assert pipe["count"] == pytest.approx(20.0 - 2.0 * RADIUS - 1.1, abs=1e-9)  # exact but for rounding
    assert (pipe["unit"], pipe["size"], pipe["wall_mm"], pipe["material"]) == ("m", "DN 200", 8.18, "ASTM A106 B")


def test_pipe_is_the_developed_length_less_its_parts():
    results = results_for(COUNTED)
    arc = math.pi / 2.0 * RADIUS
    assert rows(results, "pipe")[0]["count"] == pytest.approx(
        results["lines"][0]["developed_length_m"] - arc - 1.1, abs=1e-9
    )  # exact but for rounding


def test_insulation_runs_along_pipe_and_arcs():
    """By hand: the pipe of 18.2904 m and the arc of pi/2 x 0.3048 m = 0.47878 m."""
    (cover,) = rows(COUNTED, "insulation")
    assert cover["count"] == pytest.approx(18.2904 + math.pi / 2.0 * RADIUS, abs=1e-9)  # exact but for rounding
    assert (cover["what"], cover["thickness_mm"], cover["size"]) == ("mineral wool", 50.0, "DN 200")


def test_bend_has_its_radius_and_angle():
    (bend,) = rows(COUNTED, "bend")
    assert (bend["what"], bend["count"], bend["names"]) == ("bend", 1.0, ["turn"])
    assert (bend["radius_mm"], bend["angle_deg"], bend["cuts"]) == (304.8, 90.0, None)


def test_sharp_corner_takes_no_pipe():
    """By hand: 3 + 2 = 5 m up to the intersection."""
    sharp = line_file(["3 m east, bend: sharp, to: corner", "2 m north"])
    assert rows(sharp, "bend", "sharp corner")[0]["radius_mm"] is None
    assert rows(sharp, "pipe")[0]["count"] == pytest.approx(5.0, abs=1e-9)  # exact but for rounding


def test_holds_are_rows_of_their_own_with_the_loads_to_make_them_for():
    results = results_for(COUNTED)
    guides = {row["name"]: row for row in results["guides"]}
    holds = {row["name"]: row for row in results["holds"]}
    found = rows(results, "hold")
    assert [row["names"][0] for row in found[:2]] == ["west end", "east end"]
    assert {name for row in found for name in row["names"]} == set(holds)
    for row in found:
        (name,) = row["names"]
        guide, envelope = guides.get(name), holds[name]["envelope"]
        asked = (guide["design_n"], guide["state"]) if guide else (envelope["design_force_n"], envelope["design_state"])
        assert (row["design_n"], row["design_state"]) == asked
    assert rows(results, "hold", "rest")


def test_alike_joints_are_one_row_with_their_tags():
    text = line_file(
        ["40 m east"], takeups=(joint("J1", "4 m"), joint("J2", "30 m"), joint("J3", "36 m", length="1.2 m"))
    )
    first, second = rows(text, "take-up")
    assert (first["count"], first["names"], first["length_mm"]) == (2.0, ["J1", "J2"], 1100.0)
    assert (second["count"], second["names"], second["length_mm"]) == (1.0, ["J3"], 1200.0)


def test_items_tees_and_sizes_of_a_system():
    """Every item of the three lines is counted once; each branch is a tee of the line that it leaves."""
    results = system()
    items = [item for line in results["lines"] for item in line["items"]]
    assert sum(row["count"] for row in rows(results, "item")) == len(items)
    assert {name for row in rows(results, "item") for name in row["names"]} == {item["name"] for item in items}
    tees = rows(results, "tee")
    assert {(row["line"], name) for row in tees for name in row["names"]} == {("DS-1", "DS-2"), ("DS-1", "DS-3")}
    for line in results["lines"]:
        pieces = [part for part in line["sections"] if part["part"] == "pipe"]
        counted = sum(row["count"] for row in rows(results, "pipe") if row["line"] == line["name"])
        assert counted == pytest.approx(sum(p["end_m"] - p["start_m"] for p in pieces), abs=1e-9)  # the same sum


def test_rods_and_plates_come_with_their_joint():
    (rod,) = rows(RUNS_OUT, "hardware", "rod")
    given = results_for(RUNS_OUT)["takeups"][0]["data"]["rods"]
    assert (rod["count"], rod["diameter_mm"]) == (given["count"], pytest.approx(given["diameter_mm"]))
    plates = rows(HINGED, "hardware", "plate")
    joints = {row["name"] for row in results_for(HINGED)["takeups"]}
    assert sum(row["count"] for row in plates) == 2 * len(joints)  # two plates a hinge
    assert {name for row in plates for name in row["names"]} == joints


def test_line_that_is_not_solved_is_counted_all_the_same():
    results = results_of(study_of(line_file(["12 m east"], start="free", end="free")))
    assert not results["solver"]["solved"]
    assert rows(results, "pipe")[0]["count"] == pytest.approx(12.0, abs=1e-9)  # exact but for rounding
    held = results_of(study_of(line_file(["12 m east"], start="free", end="free", holds=(hold("rest", "4 m"),))))
    assert [row["design_n"] for row in rows(held, "hold")] == [None]


def test_nothing_is_priced_without_a_price_file():
    parts = results_for(COUNTED)["parts"]
    assert (parts["prices"], parts["total"]) == (None, None)
    assert {row["price"] for row in parts["rows"]} == {None}
