"""What would catch a joint if one of its anchors let go.     (arrange/test_fail_safe.py)"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.bare_lines import bare_text, ground_on
from tests.selection_lines import RODS
from tests.series_builders import table_of

from takeup.choose.arrange.assemble import arranged
from takeup.choose.arrange.fail_safe import CATCHES, fail_safe_of
from takeup.choose.arrange.ground import ground_with
from takeup.choose.arrange.propose import Hunt, hunt_of

ROUNDING = 1e-9  # of two products


def hunting(*, catches: bool = True) -> Hunt:
    """Return a search of 12 m between anchors, with joints of DN 100 that have limit rods and without."""
    own = {"size_dn": "100", "effective_area_mm2": "12000", "length_mm": "400"}
    rows = [own | {"price_index": "20"}, own | RODS | {"price_index": "35", "rod_circle_mm": "200"}]
    table = table_of(*rows[: 2 if catches else 1])
    ground = ground_on(bare_text("12 m east", may=()))
    line = ground.courses[0].line
    line = replace(line, allowed=replace(line.allowed, series=(table,)))
    return hunt_of(ground_with(replace(ground.study, lines=(line,)), ground.prices, ground.names))


def caught(hunt: Hunt, concept: str):
    plan = min((one for one in hunt.plans if one.concept == concept), key=lambda one: one.cost)
    [named] = arranged(hunt.ground, [plan]).plans
    return plan, fail_safe_of(hunt, plan, named)


def test_a_joint_with_limit_rods_is_offered_with_what_it_costs_more():
    """Thrust at the test, 1.5 times 6 bar on the area of the joint: the greatest pressure of any state."""
    hunt = hunting()
    plan, found = caught(hunt, "single axial")
    assert found.thrust == pytest.approx(9e5 * plan.takeups[0].data.effective_area, rel=1e-3)  # the gauge stands at 3 m
    cheapest = min((one for one in hunt.plans if one.concept == CATCHES), key=lambda one: one.cost)
    assert found.joint == cheapest.takeups[0].chosen.joint
    assert found.more == pytest.approx(cheapest.cost - plan.cost, rel=ROUNDING)
    assert found.words.startswith("only its anchors hold J1 together")
    assert f"{found.joint}, with limit rods, would catch it" in found.words


def test_without_such_a_joint_a_stop_is_offered():
    _, found = caught(hunting(catches=False), "single axial")
    assert found.joint is None
    assert found.more is None
    assert f"a stop that carries {found.thrust / 1e3:.1f} kN" in found.words


def test_what_holds_itself_needs_nothing():
    hunt = hunting()
    for concept in (CATCHES, "pipe loop"):
        assert caught(hunt, concept)[1] is None
