"""Which holds rub on which anchor: the bound of friction.     (tests/unit/study/test_friction_bound.py)"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.builders import hold, hold_of, joint, line_file, solve

from takeup.study import LineAnswer, friction_bounds

PTFE_HIGH = 0.2  # the high end of PTFE on steel, src/takeup/library/data/friction.csv


def rubs(answer: LineAnswer, *names: str) -> NDArray[np.float64]:
    """Return mu N of some holds, added, (states,) [N]."""
    total = np.zeros(len(answer.states))
    for name in names:
        loads = hold_of(answer, name)
        total += PTFE_HIGH * np.linalg.norm(loads.local(loads.total)[:, 1:3], axis=1)
    return total


def test_with_two_joints_in_a_span_each_anchor_is_dragged_as_far_as_the_nearer_one():
    """West anchor, G1, J1, G2, J2, G3, east anchor: what lies beyond a joint slides with the pipe beyond it."""
    guides = tuple(hold("slide guide", at, name=name) for name, at in (("G1", "4 m"), ("G2", "15 m"), ("G3", "26 m")))
    takeups = (joint("J1", "8 m"), joint("J2", "22 m"))
    answer = solve(line_file(["30 m east"], holds=guides, takeups=takeups))
    bounds = friction_bounds(answer)
    assert bounds["west end"] == pytest.approx(rubs(answer, "G1"), rel=1e-12)  # the same product
    assert bounds["east end"] == pytest.approx(rubs(answer, "G3"), rel=1e-12)
    assert (rubs(answer, "G2") > 100.0).all()  # the middle does rub, on neither


def test_an_anchor_between_two_spans_is_dragged_from_both_sides():
    guides = tuple(hold("slide guide", at, name=name) for name, at in (("G1", "9 m"), ("G2", "12 m"), ("G3", "28 m")))
    anchor = hold("main anchor", "16 m", name="A1")
    answer = solve(line_file(["32 m east"], holds=(*guides, anchor), takeups=(joint("J1", "4 m"), joint("J2", "22 m"))))
    bounds = friction_bounds(answer)
    assert bounds["A1"] == pytest.approx(rubs(answer, "G1", "G2"), rel=1e-12)  # G3 lies beyond J2
    assert bounds["east end"] == pytest.approx(rubs(answer, "G3"), rel=1e-12)
    assert (bounds["west end"] == 0.0).all()  # nothing rubs before J1


def test_without_a_joint_every_hold_of_the_span_drags_on_both_anchors():
    guides = tuple(hold("slide guide", at, name=name) for name, at in (("G1", "4 m"), ("G2", "8 m")))
    answer = solve(line_file(["12 m east"], holds=guides))
    bounds = friction_bounds(answer)
    for end in ("west end", "east end"):
        assert bounds[end] == pytest.approx(rubs(answer, "G1", "G2"), rel=1e-12)
