"""Liner, velocity, surroundings and cover as read; what is not said stays so.  (test_fitting_of_joints.py)"""

from __future__ import annotations

import pytest
from tests.line_texts import VALID, changed, faults, study

from takeup.line.fitting import NOTHING_SAID, Fitting

KIND = "        kind: single axial\n"
FOOT = 0.3048  # m, by definition


def fitting(*said: str) -> Fitting:
    return study(changed((KIND, KIND + "".join(f"        {line}\n" for line in said)))).lines[0].takeups[0].fitting


def test_what_is_not_said_is_neither_yes_nor_no():
    assert study(VALID).lines[0].takeups[0].fitting == NOTHING_SAID
    assert (NOTHING_SAID.liner, NOTHING_SAID.cover, NOTHING_SAID.velocity, NOTHING_SAID.surroundings) == (None,) * 4


def test_everything_said():
    found = fitting(
        "velocity: 100 ft/s",
        "liner: { fitted: yes, clearance: 8 mm, length: 300 mm, drained: yes, source: sheet 9 }",
        "surroundings: [ insulated, sea air, insulated ]",
        "cover: { fitted: no }",
    )
    assert found.velocity == pytest.approx(100 * FOOT)
    assert found.liner is not None
    assert (found.liner.fitted, found.liner.drained, found.liner.source) == (True, True, "sheet 9")
    assert (found.liner.clearance, found.liner.length) == pytest.approx((0.008, 0.3))
    assert (found.surroundings, found.cover) == (("insulated", "sea air"), False)


def test_a_liner_of_which_only_its_being_there_is_said():
    liner = fitting("liner: { fitted: yes }").liner
    assert liner is not None
    assert (liner.fitted, liner.clearance, liner.length, liner.drained, liner.source) == (True, None, None, None, "")


def test_one_word_stands_for_a_list_of_one():
    assert fitting("surroundings: in ground").surroundings == ("in ground",)


def test_both_halves_of_a_double_are_fitted_out_alike():
    text = changed(
        (KIND, "        kind: double\n        base: { can_carry: 40 kN, source: x }\n        velocity: 3 m/s\n"),
        ("live_length: 300 mm", "live_length: 250 mm"),
    )
    assert [one.fitting.velocity for one in study(text).lines[0].takeups] == [3.0, 3.0]


def test_a_velocity_that_can_only_be_a_slip_of_its_unit():
    (message,) = faults(changed((KIND, f"{KIND}        velocity: 35000 m/s\n")))
    assert message.endswith("velocity: '35000 m/s' is more than 500 m/s; is its unit right?")
