"""Joints from a series: cycles and temperature are held to what their ratings were kept to, not to themselves."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.selection_lines import STEADY, choice, line_text, read, stored

from takeup.checks import CheckResult, joint_limits
from takeup.choose import resolve
from takeup.line import Study
from takeup.study import Solved, solve_study

AT = "west end + 1.0 m"


def study_of(folder, **row: str) -> Study:
    """Return the line of 185 degC and 1000 cycles with one joint of a series in it."""
    stored(folder, {**STEADY, "axial_compression_mm": "60", **row})
    return resolve(read(folder, line_text(choice("J1", AT, 'joint: "J 1"'))))


def result(study: Study, rule: str) -> CheckResult:
    solved = solve_study(study)
    assert isinstance(solved, Solved)
    (found,) = [one for one in joint_limits.check(solved.lines[0]) if one.rule == rule]
    return found


def test_cycles_beyond_the_rated_ones_are_left_to_the_check_of_movement(tmp_path):
    """Rated for 490, exponent 2: (490/1000)^(1/2) = 0.7 of the movements are left; no use of 1.00 by construction."""
    found = result(study_of(tmp_path, rated_cycles="490", life_exponent="2"), "joint_cycles")
    assert (found.outcome, found.use, found.demand) == ("passes", None, 1000.0)
    assert found.because.endswith("movements are kept to 0.7 of the rated ones over the 1000 cycles asked")


def test_cycles_within_the_rated_ones_are_held_to_those(tmp_path):
    found = result(study_of(tmp_path, rated_cycles="2000"), "joint_cycles")
    assert (found.outcome, found.use, found.capacity) == ("passes", 0.5, 2000.0)
    assert "kept" not in found.because


def test_typed_data_are_held_to_their_own_cycles(tmp_path):
    """The same numbers without the series that they are from."""
    study = study_of(tmp_path, rated_cycles="490", life_exponent="2")
    (line,) = study.lines
    (joint,) = line.takeups
    typed = replace(joint, chosen=None, data=replace(joint.data, rated_cycles=490.0))
    found = result(replace(study, lines=(replace(line, takeups=(typed,)),)), "joint_cycles")
    assert (found.outcome, found.capacity) == ("fails", 490.0)


def test_temperature_is_held_to_the_highest_that_the_derating_reaches(tmp_path):
    """185 degC at design, rated to 150, the curve ends at 250: 0.74 of that, and the words give both."""
    found = result(study_of(tmp_path, temperature_c="150", derating_c="20:1 250:0.9"), "joint_temperature")
    assert (found.outcome, found.capacity) == ("passes", 250.0)
    assert found.use == pytest.approx(0.74, rel=1e-12)  # one quotient
    words = "by its derating, which reaches 250 °C, above its rated temperature, 150 °C"
    assert found.because.endswith(words)


def test_temperature_within_the_rated_one_says_nothing_of_a_derating(tmp_path):
    found = result(study_of(tmp_path, temperature_c="200", derating_c="20:1 250:0.9"), "joint_temperature")
    assert "derating" not in found.because


def test_temperature_beyond_the_derating_fails(tmp_path):
    found = result(study_of(tmp_path, temperature_c="150", derating_c="20:1 170:0.9"), "joint_temperature")
    assert (found.outcome, found.capacity) == ("fails", 170.0)
