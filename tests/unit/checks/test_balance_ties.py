"""Ties of balanced joints: pull, and push under vacuum, told by hand.     (checks/test_balance_ties.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.builders import joint, line_file, solve

from takeup.checks import balance_ties
from takeup.joints import Balance
from takeup.study import LineAnswer


def answer_of(more: str) -> LineAnswer:
    balance = f"balance: {{ axial_rate: 190 N/mm, effective_area: 46000 mm2, {more}source: invented }}"
    takeup = joint("J1", "10 m", kind="in-line pressure balanced").replace(", data:", f", {balance}, data:", 1)
    return solve(line_file(["20 m east"], takeups=(takeup,)))


def told(answer: LineAnswer, pressures: dict[int, float], ties: dict[int, float]) -> LineAnswer:
    """Return the answer with its joint at no pressure and without force in its ties but in the states told."""
    (one,) = answer.joints
    pressure, pull = np.zeros_like(one.pressure), np.zeros_like(one.pressure)
    for number, value in pressures.items():
        pressure[number] = value
    for number, value in ties.items():
        pull[number] = value
    return replace(answer, joints=(replace(one, pressure=pressure, ties=pull),))


@pytest.mark.parametrize(("pull", "outcome"), [(83e3, "passes"), (140e3, "close"), (151e3, "fails")])
def test_the_pull_is_held_against_what_the_ties_can_carry(pull, outcome):
    answer = answer_of("can_carry: 150 kN, ")
    (row,) = balance_ties.check(told(answer, {1: 18e5, 2: 12e5}, {1: pull, 2: 50e3}))
    assert (row.where, row.state, row.outcome) == ("J1", answer.states[1].name, outcome)
    assert (row.demand, row.capacity) == (pull, 150e3)
    assert row.because == f"its ties pull with {pull / 1e3:.1f} kN together; invented"


def test_nobody_said_what_the_ties_can_carry():
    (row,) = balance_ties.check(told(answer_of(""), {1: 18e5}, {1: 83e3}))
    assert (row.outcome, row.demand) == ("no limit given", 83e3)


def test_a_push_under_vacuum_on_ties_that_only_pull_is_not_covered():
    answer = answer_of("can_carry: 150 kN, ")
    rows = balance_ties.check(told(answer, {1: 18e5, 4: -0.5e5}, {1: 83e3, 4: -5e3}))
    assert [(row.where, row.outcome) for row in rows] == [("J1", "passes"), ("J1, pushed", "not covered")]
    assert rows[1].state == answer.states[4].name
    assert "pushed with 5.0 kN" in rows[1].because


@pytest.mark.parametrize(("push", "outcome"), [(5e3, "passes"), (9.5e3, "close"), (11e3, "fails")])
def test_a_push_under_vacuum_is_held_against_what_they_take(push, outcome):
    answer = answer_of("can_carry: 150 kN, can_be_pushed: 10 kN, ")
    rows = balance_ties.check(told(answer, {1: 18e5, 4: -0.5e5}, {1: 83e3, 4: -push}))
    assert [(row.where, row.outcome) for row in rows] == [("J1", "passes"), ("J1, pushed", outcome)]
    assert (rows[1].demand, rows[1].capacity) == (push, 10e3)


def test_a_push_without_vacuum_is_no_danger():
    """Slack ties only take a spring force away: 12 kN of push in a hot line without pressure."""
    rows = balance_ties.check(told(answer_of("can_carry: 150 kN, "), {1: 18e5}, {1: 83e3, 4: -12e3}))
    assert [(row.where, row.outcome) for row in rows] == [("J1", "passes")]


def test_ties_that_the_line_takes_a_part_off_are_held_against_all_of_it():
    """18 bar on 46 000 mm2 are 82.8 kN; by the model 78 kN, of ties of 80 kN: the whole is too much for them."""
    rows = balance_ties.check(told(answer_of("can_carry: 80 kN, "), {1: 18e5}, {1: 78e3}))
    assert [(row.where, row.outcome) for row in rows] == [("J1", "close"), ("J1, anchor lost", "fails")]
    assert rows[1].demand == pytest.approx(82.8e3, rel=1e-12)
    assert len(balance_ties.check(told(answer_of("can_carry: 80 kN, "), {1: 18e5}, {1: 82.9e3}))) == 1


def test_ties_of_an_unequal_balance_pull_with_a_share_of_what_is_left():
    """10 bar on 460 and 400 cm2: 40 kN, and of the 6 kN left 190/(95 + 190), two thirds, 4 kN: 44 kN (by hand)."""
    balance = Balance(
        axial_rate=190e3, effective_area=0.040, can_carry=None, can_be_pushed=None, source="invented for a test"
    )
    pull = balance_ties.pull_of_free_ties(balance, pressure=10e5, area=0.046, rate=95e3)
    assert pull == pytest.approx(44e3, rel=1e-12)


def test_joints_without_a_balance_have_no_ties():
    assert balance_ties.check(solve(line_file(["20 m east"], takeups=(joint("J1", "10 m"),)))) == []
