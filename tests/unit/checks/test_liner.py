"""Liners and covers of joints: asked for, room, drain, and what nobody said.     (checks/test_liner.py)

Velocities by hand from EJMA, 8th and 9th edition, C-3 (from memory): 4 ft/s (gas) or 2 ft/s (liquid) for an inch of
diameter up to 6 in, 25 and 10 ft/s above, half of that within ten diameters of what stirs the flow. DN 200 of 8.18 mm
has a bore of 202.74 mm (219.1 outside, ASME B36.10M): above 6 in, so 7.62 m/s for steam, and ten bores are 2.03 m.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.builders import joint, line_file, solve

from takeup.checks import CheckResult, cover, liner
from takeup.study import LineAnswer

DN100 = "{ size: DN 100, wall: 6.02 mm, material: ASTM A106 B, bends: long radius }"
COLD = {
    "design": '{ pressure: 6 bar(g), temperature: 90 °C, vacuum: "not possible, because it is kept full" }',
    "operating": "{ pressure: 5 bar(g), temperature: 80 °C }",
    "test": "{ pressure: 9 bar(g), with: water, temperature: 20 °C }",
}
HIGH = "{ pressure: 18 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }"
LINER = "liner: { fitted: yes, clearance: 6 mm, length: 400 mm, drained: no, source: sheet 7 }, "
NO_LINER = "liner: { fitted: no }, "


def answer_of(said: str, *, at: str = "10 m", legs: tuple[str, ...] = ("20 m east",), **more: str) -> LineAnswer:
    takeup = joint("J1", at, kind=more.pop("kind", "single axial")).replace("data:", f"{said}data:", 1)
    return solve(line_file(list(legs), takeups=(takeup,), **more))


def told(answer: LineAnswer, lateral: dict[int, float], angular: dict[int, float]) -> LineAnswer:
    """Return the answer with its joint moved in the states told alone, [m] and [rad]."""
    (one,) = answer.joints
    aside, askew = np.zeros_like(one.lateral), np.zeros_like(one.angular)
    for number, value in lateral.items():
        aside[number, 0] = value
    for number, value in angular.items():
        askew[number, 1] = value
    return replace(answer, joints=(replace(one, lateral=aside, angular=askew),))


def row(rows: list[CheckResult], where: str) -> CheckResult:
    (found,) = [one for one in rows if one.where == where]
    return found


@pytest.mark.parametrize(("velocity", "outcome"), [("6.8", "passes"), ("7.5", "close"), ("7.7", "fails")])
def test_steam_in_a_large_pipe_needs_a_liner_above_25_feet_a_second(velocity, outcome):
    (found,) = liner.check(answer_of(f"velocity: {velocity} m/s, {NO_LINER}"))
    assert (found.where, found.outcome, found.demand) == ("J1", outcome, pytest.approx(float(velocity)))
    assert found.capacity == pytest.approx(7.62)  # 25 x 0.3048, exact
    assert found.status == "from memory"
    assert found.mandatory
    assert "gas needs a liner above 7.62 m/s here; it flows with" in found.because


@pytest.mark.parametrize(("velocity", "outcome"), [("2", "passes"), ("3", "fails")])
def test_water_in_a_small_pipe_grows_with_its_bore(velocity, outcome):
    """DN 100 of 6.02 mm: 114.3 - 12.04 = 102.26 mm, x 24/s = 2.45424 m/s (by hand)."""
    (found,) = liner.check(answer_of(f"velocity: {velocity} m/s, {NO_LINER}", pipe=DN100, medium="water", **COLD))
    assert (found.outcome, found.capacity) == (outcome, pytest.approx(2.45424))


@pytest.mark.parametrize(("at", "limit"), [("corner + 2.86 m", 3.81), ("corner + 2.90 m", 7.62)])
def test_what_stirs_the_flow_upstream_halves_the_limit(at, limit):
    """A bend of 304.8 mm, half a joint of 550 mm, ten bores of 2027.4 mm: 2.882 m from the corner (by hand)."""
    legs = ("10 m east, to: corner", "12 m north")
    (found,) = liner.check(answer_of(f"velocity: 3 m/s, {NO_LINER}", at=at, legs=legs))
    assert found.capacity == pytest.approx(limit)
    assert "the bend at corner being 2.0" in found.because


def test_what_stands_downstream_does_not_stir():
    legs = ("10 m east, to: corner", "12 m north")
    (found,) = liner.check(answer_of(f"velocity: 3 m/s, {NO_LINER}", at="corner - 1 m", legs=legs))
    assert found.capacity == pytest.approx(7.62)


def test_equipment_at_the_start_counts_as_stirring():
    (found,) = liner.check(answer_of(f"velocity: 3 m/s, {NO_LINER}", at="2 m", start="equipment"))
    assert found.capacity == pytest.approx(3.81)
    assert "the equipment at its start being 1.45 m upstream" in found.because  # 2 m less half a joint of 1.1 m


def test_a_needed_liner_that_is_fitted_passes_and_says_which_way_it_stands():
    found = row(liner.check(answer_of(f"velocity: 30 m/s, {LINER}")), "J1")
    assert (found.outcome, found.use) == ("passes", None)
    assert "the flow is taken to run with the route, from west end to east end" in found.because
    assert "its fixed end stands upstream" in found.because


def test_a_needed_liner_of_which_nothing_is_said_leaves_the_study_not_proved():
    (found,) = liner.check(answer_of("velocity: 30 m/s, "))
    assert (found.outcome, found.mandatory) == ("not covered", True)
    assert "a liner is needed, and whether one is fitted is not said" in found.because


def test_a_liner_that_is_not_needed_need_not_be_said():
    (found,) = liner.check(answer_of("velocity: 3 m/s, "))
    assert (found.outcome, found.mandatory) == ("passes", True)
    assert "whether a liner is fitted is not said" in found.because


def test_without_a_velocity_it_is_not_looked_at_and_nothing_stands_in_the_way():
    found = row(liner.check(answer_of(LINER)), "J1")
    assert (found.outcome, found.mandatory) == ("not covered", False)
    assert found.because == "not looked at: no velocity is given; a liner is fitted"


def test_joints_of_which_nothing_is_said_have_no_rows():
    answer = answer_of("")
    assert liner.check(answer) == []
    assert cover.check(answer) == []


@pytest.mark.parametrize(("clearance", "outcome"), [("16 mm", "passes"), ("14.5 mm", "close"), ("13 mm", "fails")])
def test_the_room_round_a_liner_is_what_it_moves_by(clearance, outcome):
    """3 mm aside, 1.5 deg over 400 mm: 3 + 400 tan 1.5 deg = 3 + 10.47437 mm; 13.474 mm (by hand, five figures)."""
    answer = told(answer_of(LINER.replace("6 mm", clearance)), {2: 3e-3, 1: 4e-3}, {2: np.radians(1.5)})
    found = row(liner.check(answer), "J1, room round its liner")
    assert (found.outcome, found.state) == (outcome, answer.states[2].name)
    assert found.demand == pytest.approx(13.47437, rel=1e-6)
    assert found.because.endswith("; sheet 7")


def test_misalignment_at_installation_takes_room_too():
    answer = answer_of(LINER + "misalignment: { lateral: 2 mm, angular: 0.5 deg }, ")
    found = row(liner.check(told(answer, {}, {})), "J1, room round its liner")
    assert found.demand == pytest.approx(2.0 + 400.0 * np.tan(np.radians(0.5)))  # geometry


def test_each_of_two_bellows_turns_by_the_offset_over_their_distance():
    """12 mm aside over 600 mm between their middles: arctan 0.02, x 100 mm = 2 mm (by hand)."""
    takeup = joint("J1", "10 m", kind="universal", centres="600 mm", live_length="200 mm")
    takeup = takeup.replace("data:", LINER.replace("400 mm", "100 mm") + "data:", 1)
    answer = told(solve(line_file(["20 m east"], takeups=(takeup,))), {3: 12e-3}, {})
    assert row(liner.check(answer), "J1, room round its liner").demand == pytest.approx(2.0)


@pytest.mark.parametrize("left_out", ["clearance: 6 mm, ", "length: 400 mm, "])
def test_room_that_nobody_gave_is_not_looked_at(left_out):
    found = row(liner.check(answer_of(LINER.replace(left_out, ""))), "J1, room round its liner")
    assert (found.outcome, found.mandatory) == ("not covered", False)
    assert found.because == f"not looked at: its {left_out.split(':')[0]} is not given"


@pytest.mark.parametrize(
    ("drained", "outcome", "mandatory"),
    [("drained: yes, ", "passes", True), ("drained: no, ", "close", True), ("", "not covered", False)],
)
def test_steam_that_rises_asks_for_a_drain(drained, outcome, mandatory):
    answer = answer_of(LINER.replace("drained: no, ", drained), legs=("20 m up",), test=HIGH)
    found = row(liner.check(answer), "J1, drain of its liner")
    assert (found.outcome, found.mandatory) == (outcome, mandatory)
    assert "by its fixed end" in found.because


@pytest.mark.parametrize("leg", ["20 m down", "20 m east"])
def test_steam_that_falls_or_runs_level_asks_for_none(leg):
    assert [one.where for one in liner.check(answer_of(LINER, legs=(leg,), test=HIGH))] == [
        "J1",
        "J1, room round its liner",
    ]


def test_a_bellows_in_a_housing_is_out_of_the_flow():
    answer = answer_of(f"velocity: 40 m/s, {NO_LINER}surroundings: in ground, ", kind="externally pressurised")
    (found,) = liner.check(answer)
    assert (found.outcome, "out of the flow" in found.because) == ("passes", True)
    (found,) = cover.check(answer)
    assert (found.outcome, found.because) == ("passes", cover.HOUSED)


@pytest.mark.parametrize(
    ("said", "outcome", "words"),
    [
        ("surroundings: insulated, cover: { fitted: yes }, ", "passes", "a cover is fitted"),
        ("surroundings: [ insulated, walked by ], cover: { fitted: no }, ", "close", "a dent is where it cracks"),
        ("surroundings: in weather, ", "close", "whether a cover is fitted is not said"),
        ("surroundings: chlorides, cover: { fitted: no }, ", "passes", "no cover is asked for"),
        ("cover: { fitted: no }, ", "not covered", "not looked at: nobody says what lies round it; no cover is fitted"),
    ],
)
def test_covers(said, outcome, words):
    (found,) = cover.check(answer_of(said))
    assert (found.where, found.outcome, found.mandatory) == ("J1", outcome, outcome != "not covered")
    assert words in found.because
