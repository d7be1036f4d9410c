"""Who is to blame for a failing check, and what would have to give where nothing fits.     (arrange/test_blame.py)"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from tests.bare_lines import bare_text, ground_on

from takeup.choose.arrange.assemble import arranged, resolved_with
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.propose import hunt_of, propose
from takeup.choose.arrange.records import Arranged
from takeup.choose.arrange.relax import Asked, asked_of_anchors, asked_words, relaxations
from takeup.choose.arrange.verify import Document, _blame, _stands_apart
from takeup.line.holding import Stiffness


@cache
def whole() -> tuple[Ground, Arranged]:
    """Two joints and an anchor between them, in places named so that one name begins like another."""
    ground = ground_on(bare_text("20 m east", may=("{ at: 9 m }", "{ at: 15 m }"), room=""))
    hunt = hunt_of(ground)
    spans = ((0, 1), (1, 2), (2, 3))
    plans = [next(one for one in hunt.plans if (one.near, one.far) == span and one.takeups) for span in spans]
    return ground, arranged(ground, plans)


def blamed(where: str, *, rule: str = "hold_capacity", because: str = "") -> frozenset[int]:
    ground, path = whole()
    row: Document = {"where": where, "rule": rule, "because": because}
    return _blame(ground, path, resolved_with(ground, path), row)


def names() -> list[str]:
    return [place.name for place in whole()[0].places]


def test_a_check_within_a_span_refuses_its_plan_alone():
    first, second, third, last = names()
    assert blamed(f"{first} to {second}") == {0}
    assert blamed(f"{second} to {third}") == {1}
    assert blamed(f"{third} to {last}, at 12 m") == {2}
    assert [blamed(f"J{number}") for number in (1, 2, 3)] == [{0}, {1}, {2}]


def test_a_check_at_an_anchor_refuses_the_pair_beside_it():
    first, second, third, last = names()
    assert blamed(second) == {0, 1}
    assert blamed(third) == {1, 2}
    assert blamed(first) == {0}  # an end has one plan beside it
    assert blamed(last) == {2}


def test_a_guide_is_of_the_span_that_it_stands_in():
    ground, path = whole()
    line = resolved_with(ground, path).line(ground.courses[0].line.name)
    for number, plan in enumerate(path.plans):
        low, high = ground.places[plan.near].station, ground.places[plan.far].station
        own = [hold.name for hold in line.holds if hold.kind == "slide guide" and low < hold.position.station < high]
        assert own
        assert all(blamed(name) == {number} for name in own)


def test_what_bows_is_of_the_span_where_it_bows_and_what_has_no_place_of_none():
    assert blamed("HW-1", rule="stability", because="HW-1 bows most at 4.0 m, at 3.1 times") == {0}
    assert blamed("HW-1", rule="stability", because="HW-1 bows most at 17.5 m, at 3.1 times") == {2}
    assert blamed("HW-1") == set()


def test_nobody_is_blamed_beside_an_anchor_that_gives_way():
    """Then what happens in one span is felt in the next, and a failure refuses this path alone."""
    line = whole()[0].courses[0].line
    give = Stiffness(force=(1e7, None, None), moment=(None, None, None), source="invented for a test")
    assert _stands_apart(line)
    assert not _stands_apart(replace(line, end=replace(line.end, stiffness=give)))


WEAK = {"may": (), "ends": ("3 kN", "20 kN"), "room": "{ towards: north, depth: 0.5 m }"}


def test_what_would_have_to_give_makes_it_fit():
    """The one end that is too weak is told, and the same line with exactly that strength there has a proposal."""
    ground = ground_on(bare_text("14 m east", **WEAK))
    hunt = hunt_of(ground)
    propose(hunt, 1)
    assert not hunt.proposals
    found = relaxations(hunt)
    [told] = [one for one in found if "could be carried" in one.words]
    asked = float(told.words.split("boiler header ")[1].split(" kN")[0])
    assert told.words == f"if boiler header {asked:.1f} kN instead of 3 kN could be carried"
    given = {**WEAK, "ends": (f"{asked} kN", "20 kN")}
    again = hunt_of(ground_on(bare_text("14 m east", **given)))
    propose(again, 1)
    assert again.proposals
    assert again.proposals[0].cost == pytest.approx(told.proposal.cost, rel=1e-9)  # the same parts, and nothing new
    assert [one.proposal.cost for one in found] == sorted(one.proposal.cost for one in found)


def test_what_is_asked_of_an_anchor_is_what_its_check_judges():
    """Friction is in the check and not in the envelope: a tenth of a kilonewton less than asked, and it fails."""
    ground = ground_on(bare_text("14 m east", **WEAK))
    strong = hunt_of(ground_on(bare_text("14 m east", **{**WEAK, "ends": ("90 kN", "90 kN")})))
    propose(strong, 1)
    plans = [strong.plans[number] for number in strong.proposals[0].path]
    [asked] = asked_of_anchors(ground, plans)
    assert asked.name == "boiler header"
    assert asked.force is not None
    for less, stands in ((0.0, True), (200.0, False)):
        ends = (f"{(asked.force - less) / 1e3:.1f} kN", "20 kN")
        hunt = hunt_of(ground_on(bare_text("14 m east", **{**WEAK, "ends": ends})))
        hunt.plans = tuple(plan for plan in hunt.plans if plan.key == plans[0].key)
        propose(hunt, 1)
        assert bool(hunt.proposals) is stands


def test_words_of_what_is_asked_tell_moments_too():
    may = ("{ at: 7 m, can_carry: { force: 5 kN, moment: 1 kN·m } }",)
    ground = ground_on(bare_text("14 m east", **{**WEAK, "may": may}))
    middle = ground.places[1].name
    said = asked_words(ground, (Asked(name=middle, force=6_100.0, moment=2_300.0),))
    assert said == f"if {middle} 6.1 kN instead of 5 kN and {middle} 2.3 kN m instead of 1 kN m could be carried"
