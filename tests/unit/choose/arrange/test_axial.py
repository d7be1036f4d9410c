"""Axial joints in a span: drawn out by the least that serves, anchors of the file, names that a file can hold."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.bare_lines import GUIDES, RESTS, bare_text, ground_on

from takeup.choose.arrange.places import places_of
from takeup.choose.arrange.propose import hunt_of, propose
from takeup.choose.arrange.relax import relaxations
from takeup.choose.arrange.spans import NEVER, plans_of
from takeup.choose.rules import guides_beside
from takeup.line.reading.positions import check_name

STOCK = "axial DN 100, 6 bar, 20 mm"


def joints_in(ground, near, far):
    plans = [plan for plan in plans_of(ground)[0] if (plan.near, plan.far) == (near, far)]
    return {plan.takeups[0].chosen.joint: plan for plan in plans if plan.takeups and plan.takeups[0].chosen}


def test_joint_is_drawn_out_by_the_least_that_serves():
    ground = ground_on(bare_text("21 m east", may=()))
    plan = joints_in(ground, 0, 1)[STOCK]
    moved = ground.courses[0].growth(0, 1)[:, 0]
    # x_0 = max growth - X_c, up to whole millimetres; X_c is 20 mm and X_e 5.3 mm in the demonstration series
    least = math.ceil((moved.max() - 0.020) * 1e3) * 1e-3
    assert least > 0.0
    assert plan.takeups[0].preset == pytest.approx(least, abs=1e-9)  # both in whole millimetres
    assert -moved.min() + least <= 0.0053


def test_joint_that_fits_as_it_is_is_not_drawn_out():
    ground = ground_on(bare_text("16 m east", may=()))
    assert joints_in(ground, 0, 1)[STOCK].takeups[0].preset == 0.0


@pytest.mark.parametrize("kind", ["main anchor", "intermediate anchor"])
def test_spans_beside_an_anchor_of_the_file_have_joints(kind):
    given = f"{{ kind: {kind}, at: 10 m, name: mid, can_carry: 25 kN }}"
    ground = ground_on(bare_text("24 m east", may=(), holds=(GUIDES, RESTS, given)))
    assert [place.name for place in ground.places] == ["boiler header", "mid", "bath header"]
    assert joints_in(ground, 0, 1)
    assert joints_in(ground, 1, 2)
    plans, _ = plans_of(ground)
    assert all(plan.forces.shape == (2, len(ground.courses[0].states), 3) for plan in plans)
    assert not any((plan.near, plan.far) == (0, 2) for plan in plans)  # no span passes over an anchor of the file


def test_places_by_a_distance_get_names_that_a_file_can_hold():
    ground = ground_on(bare_text("24 m east", may=("{ at: boiler header + 12 m, can_carry: { force: 25 kN } }",)))
    names = [place.name for place in places_of(ground.study, ground.courses[0].line)]
    assert names == ["boiler header", "anchor at 12 m", "bath header"]
    for name in names:
        check_name(name)  # raises where it reads as a position


def test_what_is_never_proposed_is_said_once_and_not_for_every_span():
    _, refusals = plans_of(ground_on(bare_text("16 m east", may=())))
    assert not {one.concept for one in refusals} & set(NEVER)


def test_a_preset_takes_from_the_spring_what_it_leaves():
    ground = ground_on(bare_text("21 m east", may=()))
    takeup = joints_in(ground, 0, 1)[STOCK].takeups[0]
    plan = joints_in(ground, 0, 1)[STOCK]
    pressures = [
        state.at(ground.courses[0].line.name, takeup.position.station).pressure_at(3.0)
        for state in ground.courses[0].states
    ]
    stretched = takeup.preset - ground.courses[0].growth(0, 1)[:, 0]
    # |P A_e - k (x + x_0)| along the pipe, outwards at the far end: first principles; to rounding
    expected = [p * takeup.data.effective_area for p in pressures] - takeup.data.axial_rate * stretched
    assert plan.forces[1][:, 0] == pytest.approx(expected, rel=1e-9)


def test_guides_move_towards_their_joint_out_of_what_is_kept_clear():
    ground = ground_on(bare_text("21 m east", may=()))
    takeup = joints_in(ground, 0, 1)[STOCK].takeups[0]
    free = guides_beside(ground.courses[0].laid, takeup, (0.0, 21.0))
    second = free[1]
    allowed = replace(ground.courses[0].line.allowed, keep_clear=((second - 0.2, second + 0.5),))
    laid = replace(ground.courses[0].laid, line=replace(ground.courses[0].line, allowed=allowed))
    kept = guides_beside(laid, takeup, (0.0, 21.0))
    assert takeup.position.station < free[0] < second
    assert kept[:2] == pytest.approx([free[0], second - 0.2], abs=1e-9)  # to rounding: the nearer edge


def test_a_deeper_loop_that_would_serve_is_told_with_its_own_depth():
    room = "{ towards: north, depth: 0.5 m }"
    hunt = hunt_of(ground_on(bare_text("16 m east", may=(), room=room, series="")))
    propose(hunt, 1)
    assert hunt.proposals == []
    deeper = [one for one in relaxations(hunt) if "loop" in one.words]
    assert deeper
    for one in deeper:
        assert one.words == f"if a loop could go out by {one.proposal.whole.loops[0].depth:.1f} m"
