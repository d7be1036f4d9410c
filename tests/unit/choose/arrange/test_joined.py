"""Lines that are joined: a path for each, what meets at a branch, and the best beside all of them studied.

(arrange/test_joined.py)

The main is DN 100 with one place that may hold, at the branch or not; the branch is DN 80. Names and capacities are
invented.
"""

from __future__ import annotations

import itertools
from functools import cache

import numpy as np
import pytest
from tests.bare_lines import ground_on, joined_text, plan_of

from takeup.choose import resolve
from takeup.choose.arrange import propose as proposing
from takeup.choose.arrange.assemble import arranged, resolved_with
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.outcome import outcome_of
from takeup.choose.arrange.propose import Hunt, Proposal, hunt_of, measured, propose
from takeup.choose.arrange.records import Plan
from takeup.choose.arrange.regions import beside_place, regions_of
from takeup.choose.arrange.search import Path
from takeup.choose.arrange.standing import standing_words
from takeup.choose.arrange.verify import _blame
from takeup.choose.arrange.written import proposal_texts
from takeup.choose.rules import guides_beside
from takeup.line.reading.reader import study_from_text
from takeup.results import results_of

ROUNDING = 1e-9  # the same studies and prices, added in the same order
BRANCH = ("4 m north", "3 m east")


def at_tee() -> Ground:
    """Return a main that may be held where the branch leaves it."""
    return ground_on(joined_text(*BRANCH))


def spans_on(ground: Ground, *spans: tuple[int, int]) -> list[Plan]:
    nothing = np.zeros((2, len(ground.courses[0].states), 3))
    return [plan_of(near, far, nothing, 1.0) for near, far in spans]


def test_places_stand_line_by_line_and_say_where_lines_meet():
    places = at_tee().places
    assert [(one.line, one.station, one.held, one.joined) for one in places] == [
        ("HW-1", 0.0, True, False),
        ("HW-1", 6.0, True, True),
        ("HW-1", 12.0, True, False),
        ("HW-2", 0.0, False, True),
        ("HW-2", 7.0, True, False),
    ]
    assert places[1].name == "anchor at 6 m"


def test_a_branch_and_the_span_that_it_leaves_are_felt_together():
    ground = at_tee()
    over = spans_on(ground, (0, 2), (3, 4))
    assert regions_of(ground, over) == [{0, 1}, {0, 1}]


def test_a_branch_that_leaves_an_anchor_is_felt_alone_as_long_as_that_is_there():
    ground = at_tee()
    held = spans_on(ground, (0, 1), (1, 2), (3, 4))
    assert regions_of(ground, held) == [{0}, {1}, {0, 1, 2}]
    assert beside_place(ground, held, 1) == [0, 1, 2]
    assert beside_place(ground, held, 0) == [0]
    assert beside_place(ground, held, 4) == [2]


def test_an_anchor_that_the_file_gives_at_a_branch_parts_the_lines():
    given = joined_text(*BRANCH, main_may=()).replace(
        "    holds:\n", "    holds:\n      - { name: mid, kind: main anchor, at: 6 m, can_carry: 25 kN }\n", 1
    )
    ground = ground_on(given)
    assert regions_of(ground, spans_on(ground, (0, 1), (1, 2), (3, 4))) == [{0}, {1}, {2}]


@pytest.mark.parametrize(
    ("where", "blamed"),
    [("tee to stand", {0, 1}), ("boiler header to bath header", {0, 1}), ("stand", {0, 1}), ("nowhere", set())],
)
def test_a_check_where_lines_meet_refuses_their_plans_together(where, blamed):
    ground = at_tee()
    whole = arranged(ground, spans_on(ground, (0, 2), (3, 4)))
    row = {"where": where, "rule": "hold_capacity", "because": ""}
    assert _blame(ground, whole, resolved_with(ground, whole), row) == blamed


def test_nothing_is_certain_of_an_anchor_where_lines_meet():
    """Whatever the main's spans put on it, the branch may take off again; beyond it the forces stay."""
    hunt = hunt_of(at_tee())
    beside = [plan for plan in hunt.plans if (plan.near, plan.far) == (0, 1) and plan.takeups]
    assert beside
    assert all((plan.forces[1] == 0.0).all() and (plan.forces[0] != 0.0).any() for plan in beside)
    over = [plan for plan in hunt.plans if (plan.near, plan.far) == (0, 2)]
    assert over
    assert all((plan.forces == 0.0).all() for plan in over)


def test_no_joint_stands_on_a_branch_or_beside_its_beginning():
    """A joint stands beside an anchor, 0.3 m from the centre of a branch at least, and a branch begins with none."""
    ground = ground_on(joined_text("8 m north", at="1.2 m", main_may=()))
    hunt = hunt_of(ground)
    mains = [item for plan in hunt.plans if plan.far < 2 for item in plan.takeups]
    assert mains
    for item in mains:
        assert abs(item.position.station - 1.2) >= item.data.length / 2.0 + 0.3 - ROUNDING
    branches = [item for plan in hunt.plans if plan.near == 2 for item in plan.takeups]
    assert branches
    assert all(item.position.station > 4.0 for item in branches)


@cache
def small() -> tuple[Ground, tuple[Plan, ...]]:
    """Return a main and a branch with a few plans of each span: joints that stand and some that do not."""
    ground = ground_on(joined_text("3 m north", "2 m east", at="5 m", main=("10 m east",), main_may=("{ at: 5 m }",)))
    plans = hunt_of(ground).plans
    kept = []
    for span in {(plan.near, plan.far): 0 for plan in plans}:
        own = sorted((one for one in plans if (one.near, one.far) == span), key=lambda one: (one.cost, one.key))
        kept += own[: 2 if span[0] == 0 else 1]
    return ground, tuple(kept)


def every_path(ground: Ground, plans: tuple[Plan, ...]) -> list[Path]:
    """Return every path of every line with every path of the others, without a thought of what it costs."""
    lines = []
    for first, course in zip(ground.firsts, ground.courses, strict=True):
        whole, begun = [], [(number,) for number, plan in enumerate(plans) if plan.near == first]
        while begun:
            path = begun.pop()
            at = plans[path[-1]].far
            if at == first + len(course.places) - 1:
                whole.append(path)
            else:
                begun += [(*path, number) for number, plan in enumerate(plans) if plan.near == at]
        lines.append(whole)
    return [sum(each, ()) for each in itertools.product(*lines)]


@cache
def all_studied() -> dict[Path, Proposal | None]:
    """Return what the own study of every arrangement says, none of which is taught by another."""
    ground, plans = small()
    return {
        path: proposing._prove(Hunt(ground=ground, plans=plans, refusals=()), path, lambda _hunt, _words: None)
        for path in every_path(ground, plans)
    }


@pytest.mark.parametrize("measure", ["cost", "anchor-load", "joints"])
def test_the_best_of_joined_lines_are_the_best_of_all_studied(measure):
    ground, plans = small()
    standing = [one for one in all_studied().values() if one is not None]
    assert len(standing) < len(all_studied())  # some fail, or nothing is asked
    hunt = Hunt(ground=ground, plans=plans, refusals=())
    propose(hunt, 4, measure=measure)
    expected = sorted(measured(one, measure) for one in standing)[:4]
    assert [measured(one, measure) for one in hunt.proposals] == [pytest.approx(key, rel=ROUNDING) for key in expected]
    for path, one in all_studied().items():
        refused = hunt.failing.intersection(path) or any(together <= set(path) for together in hunt.together)
        assert one is None or not refused


def test_the_file_of_joined_lines_is_studied_with_the_proposals_own_results(tmp_path):
    text = joined_text("3 m north", "2 m east", at="5 m", main=("10 m east",), main_may=("{ at: 5 m }",))
    path = tmp_path / "bare.yaml"
    path.write_text(text, encoding="utf-8")
    ground, plans = small()
    hunt = Hunt(ground=ground, plans=plans, refusals=())
    outcome = outcome_of(hunt, 1)
    [written] = proposal_texts(outcome, path).values()
    [first] = outcome.hunt.proposals
    found = results_of(resolve(study_from_text(written, "bare.yaml")))
    assert found["verdict"] == first.found.results["verdict"]
    assert [hold["name"] for hold in found["holds"]] == [hold["name"] for hold in first.found.results["holds"]]
    assert [item["name"] for item in found["takeups"]] == [item["name"] for item in first.found.results["takeups"]]
    words = standing_words(ground, first)
    assert words[0].startswith("HW-1: boiler header")
    assert any(one.startswith("HW-2: tee") for one in words)


def test_a_guide_by_rule_stands_beside_a_branch_and_not_on_it():
    """A branch 0.1 m beyond the second guide moves it towards its joint, to 0.3 m from the branch."""

    def guides(at: str) -> list[float]:
        ground = ground_on(joined_text("8 m north", at=at, main=("21 m east",), main_may=()))
        takeup = next(item for plan in hunt_of(ground).plans if plan.far == 1 for item in plan.takeups)
        return guides_beside(ground.courses[0].laid, takeup, (0.0, 21.0))

    first, second = guides("20.5 m")[:2]
    tee = round(second + 0.1, 3)
    assert guides(f"{tee} m")[:2] == pytest.approx([first, tee - 0.3], abs=1e-9)
