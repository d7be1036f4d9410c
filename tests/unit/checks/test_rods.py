"""Rods of joints: the most loaded one against what it can carry, and where all are slack.     (checks/test_rods.py)

Four answers are told here, tensions and pressures of one tied joint in the states of a line; what is judged is read off
them by hand.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.builders import hold, joint, line_file, solve

from takeup.checks import rods
from takeup.checks.restrained import is_restrained, slack_states
from takeup.study import LineAnswer

RODS = "{ count: 4, diameter: 24 mm, circle: 420 mm, modulus: 200 GPa, hot: no, can_carry: 50 kN, source: invented }"


@pytest.fixture(scope="module")
def tied() -> LineAnswer:
    return solve(tied_text())


def tied_text() -> str:
    """Return a run with a tied joint in line, free at its far end."""
    one = f"{joint('J1', 'west end + 3 m', kind='tied axial', lateral='30 mm')[:-2]}, rods: {RODS} }}"
    guides = hold("slide guide", "[6 m, 12 m]")
    return line_file(["14 m east"], end="blind", holds=(guides,), takeups=(one,))


def told(answer: LineAnswer, pressures: dict[int, float], tensions: dict[int, list[float]]) -> LineAnswer:
    """Return the answer with a joint at no pressure and without tension but in the states told."""
    (one,) = answer.joints
    pressure, pulls = np.zeros_like(one.pressure), np.zeros_like(one.rods)
    for number, value in pressures.items():
        pressure[number] = value
    for number, values in tensions.items():
        pulls[number] = values
    return replace(answer, joints=(replace(one, pressure=pressure, rods=pulls),))


def test_the_most_loaded_rod_is_held_against_what_one_can_carry(tied: LineAnswer):
    """Third of four in the second state, 40 kN of 50 kN; not the mean, not the least, not the sum."""
    answer = told(tied, {1: 10e5, 2: 10e5}, {1: [10e3, 20e3, 40e3, 5e3], 2: [30e3] * 4})
    (row,) = rods.check(answer)
    assert (row.where, row.state, row.outcome) == ("J1", tied.states[1].name, "passes")
    assert (row.demand, row.capacity) == (40e3, 50e3)
    assert row.because.startswith("rod 3 of 4 pulls with 40.0 kN")
    (over,) = rods.check(told(tied, {1: 10e5}, {1: [10e3, 20e3, 51e3, 5e3]}))
    assert over.outcome == "fails"


def test_rods_are_slack_where_none_pulls_under_pressure(tied: LineAnswer):
    """Pulled by one rod is not slack, nor is a line without pressure; pressure without any pull is."""
    (takeup,) = tied.line.takeups
    held = told(tied, {1: 10e5, 2: 5e5}, {1: [1e3] * 4, 2: [0.0, 0.0, 1.0, 0.0]})
    assert slack_states(held, takeup) == []
    assert is_restrained(held, takeup)
    assert [row.where for row in rods.check(held)] == ["J1"]
    loose = told(tied, {1: 10e5, 2: 5e5, 3: 2e5}, {1: [1e3] * 4})
    names = [tied.states[number].name for number in (2, 3)]
    assert slack_states(loose, takeup) == names
    assert not is_restrained(loose, takeup)
    row = rods.check(loose)[1]
    assert (row.where, row.state, row.outcome) == ("J1, slack", names[0], "close")
    assert "slack in 2 of the states" in row.because


def test_slack_limit_rods_are_as_they_should_be(tied: LineAnswer):
    """Limit rods of an unrestrained joint wait for it to run out; it is restrained by nothing."""
    (takeup,) = tied.line.takeups
    free = replace(takeup, kind="single axial")
    loose = replace(told(tied, {2: 5e5}, {}), line=replace(tied.line, takeups=(free,)))
    assert not is_restrained(loose, free)
    assert [row.where for row in rods.check(loose)] == ["J1"]
