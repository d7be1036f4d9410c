"""Which hardware bows out, and which rating is missing, in plain words.     (checks/test_words_of_parts.py)"""

from __future__ import annotations

from typing import get_args

import pytest
from tests.builders import joint, line_file, solve, solve_all
from tests.unit.study.kind_lines import balance, with_joint
from tests.unit.study.pinned_lines import pinned

from takeup.checks import joint_movement, stability
from takeup.joints.links import LinkRole
from takeup.results.stability import stability_part
from takeup.study import Mode, StateStability
from takeup.study.bowing.stability import _HARDWARE, Part


def low(part: Part) -> StateStability:
    """Return a state in which a part of J1 bows out at 3.1 times the forces, told."""
    mode = Mode(factor=3.1, line="T-1", joint="J1", part=part, sways=False, share=0.9, station=10.0, shapes=())
    return StateStability(
        state="operating", modes=(mode,), bellows=(), searched=9.0, bowing_pressure=None, because="", told=True
    )


@pytest.mark.parametrize(("part", "bows"), [("spool", "bows"), ("rods", "bow"), ("bars", "bow"), ("plates", "bow")])
def test_what_bows_out_is_called_what_it_is(part: Part, bows: str):
    solved = solve_all(line_file(["20 m east"], takeups=(joint("J1", "10 m"),)))
    rows = [row for row in stability.check(solved, [low(part)]) if row.where == "J1" and row.outcome == "fails"]
    assert [row.because for row in rows] == [f"its {part} {bows} out at 3.1 times the forces of this state"]
    (state,) = stability_part([low(part)])
    assert isinstance(state, dict)
    assert state["governed_by"] == f"the {part} of J1"


def test_every_hardware_of_a_joint_has_a_name_of_its_own():
    assert set(_HARDWARE) == set(get_args(LinkRole))
    assert set(_HARDWARE.values()) <= set(get_args(Part))
    assert len(set(_HARDWARE.values())) == len(_HARDWARE)


def missing(takeup: str, moved: tuple[float, float, float]) -> str:
    """Return what is said of a joint that moves so: shorter by, sideways by [m], turned by [rad]."""
    (one,) = solve(line_file(["20 m east"], takeups=(takeup,))).line.takeups
    row = joint_movement.judge_movement(joint_movement.RULE, one, "operating", moved, "it moves")
    assert row.outcome == "no limit given"
    return row.because


def test_a_swing_joint_without_a_rated_turn_is_told_why_it_needs_one():
    """0.01 rad is 0.573 deg."""
    assert missing(pinned("J1", "10 m", "swing", angular=None), (0.0, 0.02, 0.01)) == (
        "it moves; no rating is given for angular movement 0.573 deg: its ends turn about its pins as the line bends, "
        "for which its maker states 'angular'"
    )


def test_a_compensator_without_a_rated_turn_is_told_whose_it_is_to_state():
    one = joint(
        "J1", "10 m", kind="externally pressurised", lateral=None, angular=None, live_length="0.3 m", length="0.5 m"
    )
    assert missing(one, (-0.02, 0.001, 0.01)) == (
        "it moves; no rating is given for lateral movement 1.00 mm and angular movement 0.573 deg: its kind is for "
        "axial movement; what its guided sleeve allows besides is its maker's to state, as 'lateral' and 'angular'"
    )


def test_any_other_joint_names_the_key():
    one = with_joint("in-line pressure balanced", balance(), angular=None)
    assert missing(one, (-0.02, 0.001, 0.01)).endswith("angular movement 0.573 deg: its maker states it as 'angular'")
