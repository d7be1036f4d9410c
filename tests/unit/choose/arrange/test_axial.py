"""Axial joints in a span: drawn out by the least that serves, anchors of the file, names that a file can hold."""

from __future__ import annotations

import math

import pytest
from tests.bare_lines import GUIDES, RESTS, bare_text, ground_on

from takeup.choose.arrange.places import places_of
from takeup.choose.arrange.spans import NEVER, plans_of
from takeup.line.reading.positions import check_name

STOCK = "axial DN 100, 6 bar, 20 mm"


def joints_in(ground, near, far):
    plans = [plan for plan in plans_of(ground)[0] if (plan.near, plan.far) == (near, far)]
    return {plan.takeups[0].chosen.joint: plan for plan in plans if plan.takeups and plan.takeups[0].chosen}


def test_joint_is_drawn_out_by_the_least_that_serves():
    ground = ground_on(bare_text("21 m east", may=()))
    plan = joints_in(ground, 0, 1)[STOCK]
    moved = ground.growth(0, 1)[:, 0]
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
    assert all(plan.forces.shape == (2, len(ground.states), 3) for plan in plans)
    assert not any((plan.near, plan.far) == (0, 2) for plan in plans)  # no span passes over an anchor of the file


def test_places_by_a_distance_get_names_that_a_file_can_hold():
    ground = ground_on(bare_text("24 m east", may=("{ at: boiler header + 12 m, can_carry: { force: 25 kN } }",)))
    names = [place.name for place in places_of(ground.line)]
    assert names == ["boiler header", "anchor at 12 m", "bath header"]
    for name in names:
        check_name(name)  # raises where it reads as a position


def test_what_is_never_proposed_is_said_once_and_not_for_every_span():
    _, refusals = plans_of(ground_on(bare_text("16 m east", may=())))
    assert not {one.concept for one in refusals} & set(NEVER)
