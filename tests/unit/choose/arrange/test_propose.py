"""Proposals beside every path of a small line with its whole study, and how they answer to limits.

(arrange/test_propose.py)

Of each span a few plans only, so that all paths can be studied: two to four of them, of different concepts.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from functools import cache

import pytest
from tests.bare_lines import bare_text, ground_on, stronger

from takeup.choose.arrange import propose as proposing
from takeup.choose.arrange.front import front, undominated
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.propose import Hunt, Proposal, hunt_of, measured, propose
from takeup.choose.arrange.records import Plan
from takeup.choose.arrange.search import Path

ROUNDING = 1e-9  # the same studies and prices, added in the same order
MEASURES = ("cost", "anchor-load", "joints")
WEAK = ("{ at: 9 m, can_carry: { force: 8 kN } }",)
TWO = ("{ at: 6 m, can_carry: { force: 14 kN } }", "{ at: 11 m, can_carry: { force: 25 kN } }")
LINES = {
    "joints": ({"may": ("{ at: 9 m, can_carry: { force: 25 kN } }",), "room": ""}, ("18 m east",)),
    "weak middle": ({"may": WEAK}, ("20 m east",)),
    "round a corner": ({"may": ("{ at: 8 m, can_carry: { force: 30 kN } }",)}, ("12 m east", "5 m north")),
    "two places": (
        {"may": ("{ at: 6 m, can_carry: { force: 14 kN } }", "{ at: 11 m, can_carry: { force: 25 kN } }")},
        ("16 m east",),
    ),
    "hoses": (
        {
            "may": ("{ at: 6 m, can_carry: { force: 1 kN } }",),
            "room": "",
            "ends": ("1.2 kN", "1.2 kN"),
            "pipe": "{ size: DN 50, wall: 3.91 mm, material: ASTM A106 B, bends: long radius }",
        },
        ("9 m east", "4 m north"),
    ),
}


@dataclass(frozen=True, kw_only=True)
class Case:
    """A line, its plans, and what the own study of every path says."""

    ground: Ground
    plans: tuple[Plan, ...]
    all: dict[Path, Proposal | None]

    def hunt(self) -> Hunt:
        """Return a search that knows nothing yet."""
        return Hunt(ground=self.ground, plans=self.plans, refusals=())

    @property
    def standing(self) -> list[Proposal]:
        """Every path that stands."""
        return [one for one in self.all.values() if one is not None]


def few(plans: tuple[Plan, ...], each: int) -> tuple[Plan, ...]:
    """Return some plans of each span: one of each concept first, the cheapest before the others."""
    kept = []
    for _, span in itertools.groupby(
        sorted(plans, key=lambda one: (one.near, one.far)), lambda one: (one.near, one.far)
    ):
        own = sorted(span, key=lambda one: one.cost)
        firsts = [next(one for one in own if one.concept == concept) for concept in {one.concept: 0 for one in own}]
        kept += [*firsts, *(one for one in own if one not in firsts)][:each]
    return tuple(kept)


def every_path(plans: tuple[Plan, ...], last: int) -> list[Path]:
    """Return every path, without a thought of what it costs or whether it can be borne."""
    whole, begun = [], [(number,) for number, plan in enumerate(plans) if plan.near == 0]
    while begun:
        path = begun.pop()
        at = plans[path[-1]].far
        if at == last:
            whole.append(path)
        else:
            begun += [(*path, number) for number, plan in enumerate(plans) if plan.near == at]
    return whole


@cache
def case(name: str) -> Case:
    keys, legs = LINES[name]
    ground = ground_on(bare_text(*legs, **keys))  # type: ignore[arg-type]  # its keys by name
    plans = hunt_of(ground).plans
    if name == "two places":  # one of each span, two of the first: six paths
        first, others = [one for one in plans if one.far == 1], [one for one in plans if one.concept != "no take-up"]
        plans = (*few(tuple(first), 2), *few(tuple(one for one in others if one.far > 1), 1))
    elif name == "hoses":
        plans = few(tuple(one for one in plans if one.concept in ("braided hose loop", "small-bore compensator")), 2)
    else:
        plans = few(plans, 2)
    found = {}
    for path in every_path(plans, len(ground.places) - 1):
        alone = Hunt(ground=ground, plans=plans, refusals=())  # nothing that another path taught it
        found[path] = proposing._prove(alone, path, lambda _hunt, _words: None)
    return Case(ground=ground, plans=plans, all=found)


@cache
def searched(name: str) -> Hunt:
    """Return a search by cost that began with nothing, and laid blame on its own."""
    hunt = case(name).hunt()
    propose(hunt, 3)
    return hunt


@pytest.mark.parametrize("measure", MEASURES)
@pytest.mark.parametrize("name", LINES)
def test_proposals_are_the_best_of_all_paths_studied(name, measure):
    own, hunt = case(name), searched(name)
    if measure != "cost":  # the same studies are not run again
        hunt = own.hunt()
        hunt.proved = dict(own.all)
        propose(hunt, 3, measure=measure)
    expected = sorted(measured(one, measure) for one in own.standing)[:3]
    assert [measured(one, measure) for one in hunt.proposals] == [pytest.approx(key, rel=ROUNDING) for key in expected]


@pytest.mark.parametrize("name", LINES)
def test_front_is_the_undominated_of_all_paths_studied(name):
    own = case(name)
    hunt = own.hunt()
    hunt.proved = dict(own.all)
    found = [(one.cost, one.greatest_load[1], one.joints) for one in front(hunt)]
    expected = {(one.cost, one.greatest_load[1], one.joints) for one in undominated(own.standing)}
    assert sorted(found) == [pytest.approx(one, rel=ROUNDING) for one in sorted(expected)]
    for one, other in itertools.permutations(found, 2):
        assert not all(mine <= theirs for mine, theirs in zip(one, other, strict=True))


def test_the_lines_are_worth_asking():
    """Some paths stand and some fail, and the front has more than one member somewhere: else nothing is proved here."""
    each = [case(name) for name in LINES]
    assert all(one.standing for one in each)
    assert any(len(one.all) > len(one.standing) for one in each)
    assert any(len(undominated(one.standing)) > 1 for one in each)


@pytest.mark.parametrize("name", LINES)
def test_no_check_of_a_proposal_fails_and_blame_is_never_laid_on_what_stands(name):
    own, hunt = case(name), searched(name)
    assert all(row["outcome"] != "fails" for one in hunt.proposals for row in one.found.results["checks"])
    for path, one in own.all.items():
        refused = hunt.failing.intersection(path) or any(one <= set(path) for one in hunt.together)
        assert one is None or not refused


def best_cost(ground: Ground, plans: tuple[Plan, ...] | None = None) -> float:
    hunt = hunt_of(ground)
    if plans is not None:
        hunt.plans = plans
    propose(hunt, 1)
    return hunt.proposals[0].cost if hunt.proposals else float("inf")


def test_more_capacity_never_costs_more():
    """The same places, three times as strong step by step; what cannot be done at all costs without end."""
    ground = ground_on(bare_text("20 m east", may=WEAK, ends=("9 kN", "9 kN"), room=""))
    costs = [best_cost(stronger(ground, times)) for times in (0.2, 1.4, 1.6, 4.0)]
    assert costs == sorted(costs, reverse=True)
    assert len(set(costs)) > 2


def test_keeping_more_clear_never_costs_less():
    costs = [
        best_cost(ground_on(bare_text("20 m east", may=("{ at: 11 m }",), clear=clear, room="")))
        for clear in ("", "[[ 3 m, 5 m ]]", "[[ 0.2 m, 19.8 m ]]")
    ]
    assert costs == sorted(costs)
    assert costs[0] < costs[-1]


def test_proposals_run_alike_twice():
    own = case("two places")
    first, second = own.hunt(), own.hunt()
    for hunt in (first, second):
        hunt.proved = dict(own.all)
        propose(hunt, 5)
    assert [one.path for one in first.proposals] == [one.path for one in second.proposals]


def test_a_search_that_ends_early_keeps_what_it_proved():
    """Whatever stands of the studies that were run, though others might have been better."""
    own = case("joints")
    short = own.hunt()
    short.most = 1
    propose(short, 5)
    assert short.exhausted
    assert short.studies == short.most
    proved = {path for path, one in short.proved.items() if one is not None}
    assert proved
    assert {one.path for one in short.proposals} == proved


def test_a_long_line_is_not_proved_to_the_end(monkeypatch):
    """With no room for further studies the search ends once as many stand as are asked for, and says so."""
    own = case("joints")
    whole, short = own.hunt(), own.hunt()
    propose(whole, 2)
    monkeypatch.setattr(proposing, "FURTHER", 0)
    propose(short, 2)
    assert not whole.exhausted
    assert short.studies <= whole.studies
    stand = [one for one in short.proved.values() if one is not None]
    assert len(stand) >= len(short.proposals) == 2
    assert short.exhausted or [one.path for one in short.proposals] == [one.path for one in whole.proposals]
    assert [one.cost for one in short.proposals] == sorted(one.cost for one in short.proposals)


def test_a_bound_on_joints_is_kept_and_costs_nothing_less():
    own = case("two places")
    hunt = own.hunt()
    hunt.proved = dict(own.all)
    for joints in range(4):
        found = proposing.best_within(hunt, proposing.Bounds(joints=joints))
        within = [one.cost for one in own.standing if one.joints <= joints]
        assert (found is None) is not bool(within)
        assert found is None or found.cost == pytest.approx(min(within), rel=ROUNDING)
