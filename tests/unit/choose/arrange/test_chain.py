"""Running sums of flexibility: what a bare line does to two anchors, by the study of it.     (arrange/test_chain.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from tests.bare_lines import bare_text, chance_text, course_on

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.places import anchor_of
from takeup.errors import InputError
from takeup.study import CAUSES, Solved, solve_study

GROWTH = CAUSES.index("growth")
SOLVER = 1e-8
"""Of the greatest force or moment: two ways of adding up a few dozen members in double precision, one of them through a
banded factorization whose condition is that of a pipe a hundred times as stiff along as across; 3e-10 was seen."""
L, Z = ("9 m east", "6 m north"), ("9 m east", "4 m north", "12 m east")
U = ("12 m east", "3 m north", "2 m east", "3 m south", "12 m east")
ROUND = ("6 m east", "4 m north", "6 m up", "5 m west", "3 m down")


def worst_difference(course: Course) -> float:
    """Return the greatest difference from the study with anchors at every place, of forces and moments there."""
    line = replace(course.line, holds=tuple(map(anchor_of, course.places[1:-1])), rules=(), takeups=(), choices=())
    solved = solve_study(replace(course.study, lines=(line,)))
    assert isinstance(solved, Solved)
    [answer] = solved.lines
    holds = {hold.name: hold for hold in answer.holds}
    names = [state.name for state in answer.states]
    shared = [(number, names.index(one.name)) for number, one in enumerate(course.chain.states) if one.name in names]
    own, other = (list(numbers) for numbers in zip(*shared, strict=True))
    worst = 0.0
    for near, far in zip(range(len(course.places) - 1), range(1, len(course.places)), strict=True):
        wrench = course.chain.forces(np.array([[course.cuts[near], course.cuts[far]]]))[0][own]
        for place, side, sense in ((far, 0, 1.0), (near, 1, -1.0)):
            here = sense * course.chain.at_place(wrench, course.cuts[place])
            full = holds[course.places[place].name].sides[other, GROWTH, side]
            worst = max(worst, float(np.abs(here - full).max() / np.abs(full).max()))
    return worst


@pytest.mark.parametrize("legs", [L, Z, U, ROUND], ids=["L", "Z", "U", "in space"])
@pytest.mark.parametrize("may", [(), ("{ at: 7.3 m }",), ("{ at: 2.5 m }", "{ at: 13.5 m }")], ids=["0", "1", "2"])
def test_chain_gives_the_growth_loads_of_the_study(legs, may):
    assert worst_difference(course_on(bare_text(*legs, may=may, room="{ towards: up, depth: 3 m }"))) < SOLVER


@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_chain_gives_the_growth_loads_of_any_line(seed):
    try:
        course = course_on(chance_text(seed, places=3))
    except InputError:  # a place on a bend
        reject()
    assert worst_difference(course) < SOLVER


def test_chain_grows_by_hand():
    """By hand: 24 m east between places at 0, 8, 24 m grow in proportion to length: 1 to 2 for 8 m and 16 m.

    And as the material says: length times the difference of its expansion, at 95 degC and at 12 degC.
    """
    course = course_on(bare_text(may=("{ at: 8 m }",)))
    hot = next(number for number, state in enumerate(course.states) if state.name == "design pressure and temperature")
    first, second = course.growth(0, 1)[hot], course.growth(1, 2)[hot]
    curve = course.line.sections[0].pipe.material.expansion
    assert first[0] == pytest.approx(8.0 * (curve.at(95.0) - curve.at(12.0)), rel=1e-12)  # the same few operations
    assert second[0] == pytest.approx(2.0 * first[0], rel=1e-12)
    assert np.abs(np.concatenate([first[1:], second[1:]])).max() == 0.0


def test_straight_chain_pushes_by_hand():
    """By hand: E A alpha dT between two anchors; A = pi (114.3 - 6.02) 6.02 = 2047.83 mm2."""
    course = course_on(bare_text(may=()))
    force = course.chain.forces(np.array([[course.cuts[0], course.cuts[1]]]))[0]
    pipe = course.line.sections[0].pipe
    modulus = pipe.material.modulus.at(course.study.site.installation)
    strain = course.growth(0, 1)[:, 0] / 24.0
    assert force[:, 0] == pytest.approx(modulus * 2047.83e-6 * strain, rel=1e-5)  # six figures of the area, rounded
