"""Pins the way that the line wants, and at right angles to it.     (checks/test_pins_way.py)

A level Z of 6 m, 6 m, 6 m between two anchors: it grows in its own plane, so that hinges turn about upright pins and a
swing joint moves across them. Turned by 90 degrees the same joints are pipe. Numbers by hand stand at the tests.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.builders import hold, line_file, solve, walk_all
from tests.unit.study.pinned_lines import COLD_WATER, offset_pair, pinned, three_hinges

from takeup.checks import pins_way, run_checks
from takeup.study import LineAnswer

_HOT_WATER = {
    "design": "{ pressure: 12 bar(g), temperature: 180 °F, vacuum: possible }",
    "operating": "{ pressure: 10 bar(g), temperature: 180 °F }",
}


def z_of(kind: str, along: str, **keys: str) -> str:
    stations = (3.0,) if kind == "swing" else (1.0, 5.0)
    takeups = tuple(pinned(f"J{n}", f"{6.0 + at} m", kind, along=along) for n, at in enumerate(stations, 1))
    return line_file(["6 m east", "6 m north", "6 m east"], takeups=takeups, **keys)


@pytest.mark.parametrize(("kind", "count"), [("hinged", 2), ("swing", 1)])
@pytest.mark.parametrize("medium", ["steam", "water"])
def test_pins_that_lie_as_the_line_turns_pass_and_turned_by_90_degrees_are_told(kind, count, medium):
    keys = {} if medium == "steam" else {"medium": medium, **_HOT_WATER}
    good = pins_way.check(solve(z_of(kind, "upright", **keys)))
    assert [row.outcome for row in good] == ["passes"] * count
    wrong = pins_way.check(solve(z_of(kind, "level", **keys)))
    assert [row.outcome for row in wrong] == ["close"] * count
    for row in wrong:
        assert row.because.startswith("its pins lie level: by growth it ")
        what = "turn" if kind == "hinged" else "move"
        assert row.because.endswith(
            f": the line wants to {what} the other way, and the joint takes up nothing; set its pins at right angles"
        )


def test_gimbals_turn_both_ways_and_are_never_told():
    for along in ("upright", "level"):
        assert pins_way.check(solve(z_of("gimbal", along))) == []


def test_a_pair_of_hinges_turns_by_the_growth_of_its_legs():
    """Legs of 6 m grow by 6 m x 2.5 mm/m each or a little less; 2 x 15 mm over 4 m is half a degree (by hand)."""
    (first, _) = pins_way.check(solve(offset_pair("hinged")))
    assert first.state == "design pressure and temperature"
    turned = float(first.because.partition("turns ")[2].partition(" deg")[0])
    assert turned == pytest.approx(0.5, rel=0.15)  # pipe gives beside the hinges, which takes a few per cent


def test_hinges_of_a_standing_l_must_lie_level():
    """Three hinges in an L that rises by its north leg: its plane stands, and upright pins hold its growth."""
    assert {row.outcome for row in pins_way.check(solve(three_hinges("L")))} == {"passes"}
    gauge = ("temperature: 70 °F }", "temperature: 70 °F, gauge_elevation: 0 m }")
    standing = three_hinges("L", {"north": "up"}).replace(*gauge)
    good = pins_way.check(solve(_lie(standing, "level", "level", "north")))
    assert [row.outcome for row in good] == ["passes"] * 3
    wrong = pins_way.check(solve(_lie(standing, "upright", "upright", "east")))
    assert [row.outcome for row in wrong] == ["close"] * 3
    assert wrong[2].because.startswith("its pins lie east: by growth it turns")


def _lie(text: str, *ways: str) -> str:
    """Return a text whose pins lie so, in the order of its joints."""
    for way in ways:
        text = text.replace("along: upright", f"along:  {way}", 1)  # two blanks, so that each is told once
    return text


def test_water_for_the_test_is_no_growth():
    """A state whose content no cold state has is not asked: its weight would count as growth."""
    rows = pins_way.check(solve(z_of("hinged", "level")))
    assert {row.state for row in rows} == {"design pressure and temperature"}


def test_a_joint_that_nothing_moves_passes():
    """A free end: growth runs out of it, and neither way is anything held."""
    rows = pins_way.check(
        solve(line_file(["3 m east"], end="blind", takeups=(pinned("J1", "1.5 m", "hinged"),), **COLD_WATER))
    )
    assert [row.outcome for row in rows] == ["passes"]


def told(
    free: float, held: float, couple: float, *, name: str = "design pressure and temperature"
) -> tuple[LineAnswer, str]:
    """Return the answer of an upright hinge with turns about its pins and across, and the couple, told in one state."""
    answer = solve(line_file(["3 m east"], end="blind", takeups=(pinned("J1", "1.5 m", "hinged"),), **COLD_WATER))
    (one,) = answer.joints
    number = [state.name for state in answer.states].index(name)
    angular, plates = np.zeros_like(one.angular), np.zeros((len(answer.states), 2, 3))
    angular[number] = held, free
    plates[number, :, 0] = couple / 0.32, -couple / 0.32  # two plates 320 mm apart: F s = M
    return replace(answer, joints=(replace(one, angular=angular, plates=plates),)), name


@pytest.mark.parametrize(
    ("free", "held", "couple", "outcome"),
    [
        (1e-6, 1e-4, 5e3, "close"),  # turned by nothing, 5 kN m held
        (1e-3, 1e-4, 5e3, "close"),  # below 8 deg/100 = 1.4e-3 rad; 4390 x 1e-6 = 0.004 J against 0.5 J
        (5e-3, 1e-4, 5e3, "passes"),  # it turns, and is pressed from the side as well
        (1e-6, 1e-4, 500.0, "passes"),  # 500 N m is less than 4390 N m/rad x 0.14 rad = 613 N m: nothing wants to turn
    ],
)
def test_it_is_told_where_growth_works_against_the_plates_alone(free, held, couple, outcome):
    answer, state = told(free, held, couple)
    (row,) = pins_way.check(answer)
    assert (row.where, row.state, row.outcome) == ("J1", state, outcome)
    assert f"its plates hold {couple / 1e3:.2f} kN·m the other way" in row.because


def test_a_study_with_pins_the_wrong_way_does_not_pass_without_a_word():
    rests = (hold("rest", "3 m"), hold("rest", "15 m"))
    rows = [row for row in run_checks(walk_all(z_of("hinged", "level", holds=rests))) if row.rule == "pins_way"]
    assert [row.outcome for row in rows] == ["close", "close"]
