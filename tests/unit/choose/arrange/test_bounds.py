"""The bounds that the search rests on, each beside whole studies of lines drawn at random.     (arrange/test_bounds.py)

What an anchor feels is held against both that a proposal is judged by: its envelope, and the force that the check of
its capacity judges. Hundreds of lines were tried beyond those that run here (docs/theory/proposals.md).
"""

from __future__ import annotations

import itertools
import random
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from tests.bare_lines import RESTS, bare_text, chance_text, ground_on, joined_text

from takeup.choose.arrange import axial, bare
from takeup.choose.arrange.assemble import arranged, resolved_with
from takeup.choose.arrange.bare import bare_plans
from takeup.choose.arrange.ground import Ground, ground_with
from takeup.choose.arrange.junctions import _between
from takeup.choose.arrange.junctions import loads_of as loads_of_plans
from takeup.choose.arrange.propose import Hunt, _cost_placed, hunt_of
from takeup.choose.arrange.records import Plan, Refusal
from takeup.choose.arrange.search import LIGHTEST, Path, junction_loads, paths_in_order, web_of
from takeup.choose.arrange.verify import Document, loads_of, verified
from takeup.errors import InputError
from takeup.results import results_of

FEW = 60  # paths of a line, among which some are drawn


def chance_hunt(seed: int, **keys: object) -> Hunt:
    try:
        return hunt_of(ground_on(chance_text(seed, **keys)))  # type: ignore[arg-type]  # its keys by name
    except InputError:  # a place on a bend
        reject()


def some_paths(hunt: Hunt, seed: int, count: int) -> list[tuple[float, Path]]:
    """Return what some paths of a line cost at least, and their plans."""
    web = web_of(hunt.ground.places, hunt.plans, hunt.ground.prices)
    found = [(key[1], path) for key, path in itertools.islice(paths_in_order(web), FEW)]
    return random.Random(seed).sample(found, min(count, len(found)))  # noqa: S311 -- which to try, no secret


def quick_loads(ground: Ground, plans: list[Plan]) -> dict[str, float]:
    """Return what the search says of every anchor, before its share."""
    first, last = plans[0], plans[-1]
    found = {
        ground.places[first.near].name: float(np.linalg.norm(first.forces[0], axis=1).max()),
        ground.places[last.far].name: float(np.linalg.norm(last.forces[1], axis=1).max()),
    }
    for before, after in itertools.pairwise(plans):
        found[ground.places[before.far].name] = float(junction_loads([before], [after])[0, 0])
    return found


def judged(results: Document, name: str) -> float:
    """Return the force on an anchor that its capacity is held against; its envelope where that is less."""
    rows = [row for row in results["checks"] if row["rule"] == "hold_capacity" and row["where"] == name]
    return min(loads_of(results)["HW-1", name], max((row["demand"] for row in rows), default=np.inf))


def assert_no_less(ground: Ground, plans: list[Plan]) -> None:
    """Hold the whole study of a path, whether it stands or not, against what the search says of it."""
    results: Document = results_of(resolved_with(ground, arranged(ground, plans)))
    for name, load in quick_loads(ground, plans).items():
        assert LIGHTEST * load <= judged(results, name) + 1.0, (name, [plan.words for plan in plans])  # 1 N: nothing
    for name, (asked, demand) in asked_and_judged(ground, plans, results).items():
        assert asked <= demand + 1.0, (name, [plan.words for plan in plans])


def asked_and_judged(ground: Ground, plans: list[Plan], results: Document) -> dict[str, tuple[float, float]]:
    """Return what the search says that the capacity of every anchor is asked, and what its check says."""
    loads, numbers = loads_of_plans(ground.places, plans), np.arange(len(plans))
    found = {ground.places[plans[0].near].name: float(loads.asked[0, 0])}
    found[ground.places[plans[-1].far].name] = float(loads.asked[-1, 1])
    for number, (before, _) in enumerate(itertools.pairwise(plans)):
        pair = numbers[[number]], numbers[[number + 1]]
        found[ground.places[before.far].name] = float(_between(loads, *pair)[1][0, 0])
    rows = [row for row in results["checks"] if row["rule"] == "hold_capacity"]
    demands = {name: [row["demand"] for row in rows if row["where"] == name] for name in found}
    return {name: (asked, max(demands[name])) for name, asked in found.items() if demands[name]}


def test_friction_of_a_long_level_span_is_known_closely():
    """130 m with three bends on some thirty rests, and an anchor between: within 3 % of the friction of the study.

    The search leaves 5/8 of a support span to each anchor, the study's rests leave it half: an eighth of 4.3 m at each
    end of 50 m and 80 m, with what arcs are shorter than their corners.
    """
    legs = ("30 m east", "30 m north", "40 m east", "30 m north")
    ground = ground_on(bare_text(*legs, may=("{ at: 80 m }",), room=""))
    bare = {(plan.near, plan.far): plan for plan in hunt_of(ground).plans if plan.concept == "no take-up"}
    plans = [bare[0, 1], bare[1, 2]]
    results: Document = results_of(resolved_with(ground, arranged(ground, plans)))
    for name, (asked, demand) in asked_and_judged(ground, plans, results).items():
        friction = next(row for row in results["holds"] if row["name"] == name)["envelope"]["friction_bound_n"]
        assert friction > 2_000.0, name
        assert asked <= demand, name
        drag = plans[0].drag, plans[1].drag
        said = {"boiler header": drag[0][0], "bath header": drag[1][1]}.get(name, drag[0][1] + drag[1][0])
        assert float(said.max()) == pytest.approx(friction, rel=0.03), name
        assert float(said.max()) <= friction, name


@pytest.mark.parametrize(
    ("legs", "keys"),
    [
        (("9 m east", "8 m up"), {}),  # a riser hangs on its anchors
        (("20 m east",), {"holds": (RESTS, "{ kind: hanger, at: 9 m }")}),  # it carries, and does not rub
    ],
    ids=["riser", "hanger"],
)
def test_no_friction_is_certain_where_rests_need_not_carry_or_rub(legs, keys):
    hunt = hunt_of(ground_on(bare_text(*legs, may=(), **keys)))
    whole = [plan for plan in hunt.plans if (plan.near, plan.far) == (0, 1)]
    assert whole
    assert all(plan.drag is None for plan in whole)


@settings(max_examples=9, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_an_anchor_feels_no_less_than_the_bound(seed):
    hunt = chance_hunt(seed)
    for _, path in some_paths(hunt, seed, 1):
        assert_no_less(hunt.ground, [hunt.plans[number] for number in path])


RISER = ("15 m up",)
STOP = "{ kind: stop, at: 14 m, against: east }"
SPIDER = "{ kind: spider guide, at: 7 m, slides_on: PTFE on steel }"
MOVES = ", growth: { movement: [-20 mm, 0 mm, 0 mm], source: invented }"
NORTHWARD = "{ towards: north, depth: 3 m }"
STRONG = ("900 kN", "900 kN")


@pytest.mark.parametrize(
    ("legs", "keys"),
    [
        (RISER, {"may": ()}),  # the weight of the riser hangs on its loop's anchors, against their growth
        (RISER, {"may": ("{ at: 6 m }",), "takes": (2.0, 60.0, "water")}),
        (("9 m east", "8 m up"), {"may": (), "room": ""}),  # rests take what the riser pushes upright
        (("20 m east",), {"may": ("{ at: 9 m }",), "holds": (RESTS, STOP)}),
        (("9 m east", "9 m north"), {"may": (), "holds": (RESTS, SPIDER)}),
        (("20 m east",), {"may": (), "end_kind": "equipment", "end_more": MOVES}),
    ],
    ids=["riser", "riser in two", "riser after a leg", "a stop", "a guide", "an end that moves"],
)
def test_the_bound_holds_where_weight_holds_and_movement_take_from_it(legs, keys):
    hunt = hunt_of(ground_on(bare_text(*legs, **{"room": NORTHWARD, **keys})))
    for _, path in some_paths(hunt, 1, 2):
        assert_no_less(hunt.ground, [hunt.plans[number] for number in path])


SMALL = "{ size: DN 50, wall: 3.91 mm, material: ASTM A106 B, bends: long radius }"
HOT_STEAM = (6.0, 180.0, "steam")


@pytest.mark.parametrize(
    ("legs", "concept", "keys"),
    [
        (("16 m east",), "in-line pressure balanced", {}),
        (("12 m east",), "in-line pressure balanced", {"takes": (10.0, 130.0, "water"), "pipe": SMALL}),
        (("9 m up",), "in-line pressure balanced", {}),  # the weight of the riser hangs on its anchors
        (("16 m east",), "small-bore compensator", {"pipe": SMALL}),
        (("9 m up",), "small-bore compensator", {"pipe": SMALL}),
        (("20 m east", "2 m north", "20 m east"), "hinge pair", {"takes": HOT_STEAM}),
        (("40 m east", "2 m north"), "three hinges", {"takes": HOT_STEAM}),
        (("16 m east",), "braided hose loop", {"pipe": SMALL}),
        (("24 m east",), "braided hose loop", {"pipe": SMALL, "holds": (RESTS,)}),
        (("9 m east", "5 m north"), "braided hose loop", {"pipe": SMALL}),  # said to leave nothing
    ],
)
def test_the_bound_holds_for_each_kind_of_joint(legs, concept, keys):
    """The cheapest and the dearest of a kind; hinges are said to leave nothing on the anchors, and do leave some."""
    hunt = hunt_of(ground_on(bare_text(*legs, **{"may": (), "room": "", "ends": STRONG, **keys})))
    plans = sorted((plan for plan in hunt.plans if plan.concept == concept), key=lambda plan: plan.cost)
    assert plans
    for plan in {id(plan): plan for plan in (plans[0], plans[-1])}.values():
        assert_no_less(hunt.ground, [plan])


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), clear=st.booleans())
def test_guides_and_rests_cost_no_less_than_the_bound(seed, clear):
    """With stretches of several support spans kept clear, in which no rest can stand."""
    hunt = chance_hunt(seed)
    if clear:
        line = hunt.ground.courses[0].line
        allowed = replace(line.allowed, keep_clear=((1.0, 2.5), (6.0, 12.0)))
        line = replace(line, allowed=allowed)
        study = replace(hunt.ground.study, lines=(line,))
        hunt = hunt_of(ground_with(study, hunt.ground.prices, hunt.ground.names))
    for least, path in some_paths(hunt, seed, 3):
        assert _cost_placed(hunt, path) >= least - 1e-6  # rounding of a sum


def test_a_rising_loop_takes_rests_away():
    """Both halves of a level run end at a loop that goes up, and overhang there by half a span each."""
    hunt = hunt_of(
        ground_on(bare_text("12 m north", "4 m east", may=("{ at: 3.3 m }",), room="{ towards: up, depth: 3 m }",
                            pipe="{ size: DN 50, wall: 3.91 mm, material: ASTM A106 B, bends: long radius }"))
    )  # fmt: skip
    rising = [path for _, path in some_paths(hunt, 1, FEW) if any(hunt.plans[number].loops for number in path)]
    web = web_of(hunt.ground.places, hunt.plans, hunt.ground.prices)
    least = {path: key[1] for key, path in itertools.islice(paths_in_order(web), FEW)}
    assert rising
    assert all(_cost_placed(hunt, path) >= least[path] - 1e-6 for path in rising)  # rounding of a sum


def unrefused(ground: Ground, monkeypatch: pytest.MonkeyPatch) -> tuple[Plan, list[Plan | Refusal]]:
    """Return the plan without a joint of the first line whatever its stress, and what the rule says of it."""
    said = list(bare_plans(ground.courses[0], 0, 1))
    with monkeypatch.context() as patch:
        patch.setattr(bare, "SURE", np.inf)
        [plan] = bare_plans(ground.courses[0], 0, 1)
    assert isinstance(plan, Plan)
    return plan, said


@pytest.mark.parametrize(
    ("legs", "stress", "refused"),
    [
        (("9 m east", "2 m north"), "60 MPa", True),
        (("12 m east", "1.2 m north", "12 m east"), "30 MPa", True),
        (("20 m east", "1.5 m north", "1.5 m up", "20 m east"), "20 MPa", True),
        (("12 m east",), "60 MPa", True),  # 412 MPa of 205 MPa at yield
        (("4 m north", "9 m up", "3 m east"), "60 MPa", False),
        (("3 m up",), "60 MPa", False),  # 201 MPa of pushing, which is no bending, and under the yield strength
    ],
)
def test_what_is_refused_as_too_stressed_fails_its_own_study(legs, stress, refused, monkeypatch):
    ground = ground_on(
        bare_text(*legs, may=(), ends=("900 kN", "900 kN"), stress=stress, strength="205 MPa", room="",
                  takes=(6.0, 180.0 if refused else 95.0, "steam" if refused else "water"))
    )  # fmt: skip
    plan, [said] = unrefused(ground, monkeypatch)
    assert isinstance(said, Refusal) is refused
    assert verified(ground, arranged(ground, [plan])).stands is not refused


@pytest.mark.parametrize(
    ("text", "bows"),
    [
        # N = E A (growth) is some 400 kN; Euler's load of 16 m, clamped, 4 pi^2 E I / L^2, some 90 kN, of 5 m 960 kN
        (bare_text("16 m east", may=(), ends=STRONG, room=""), True),
        (bare_text("5 m east", may=(), ends=STRONG, room=""), False),
        # in 16 m and 2 m the long piece bows, whatever the branch does; 2 m would bear 6 MN, but yields at 420 kN
        (joined_text("4 m north", "3 m east", at="2 m", main=("18 m east",), main_may=(), strength="205 MPa"), True),
        (joined_text("4 m north", "3 m east", at="5 m", main=("10 m east",), main_may=(), strength="205 MPa"), False),
    ],
)
def test_what_bows_for_certain_fails_its_own_study(text, bows, monkeypatch):
    ground = ground_on(text)
    plan, [said] = unrefused(ground, monkeypatch)
    assert isinstance(said, Refusal) is bows
    if bows:
        assert "it bows out" in said.because
        others = [one for one in hunt_of(ground).plans if one.near > 1 and one.concept == "no take-up"]
        assert not verified(ground, arranged(ground, [plan, *others])).stands


def test_a_loose_joint_at_a_branch_that_nothing_may_hold_is_refused_and_fails(monkeypatch):
    """The main has no place at its tee: the thrust of the branch's joint has no hold there, whatever is arranged."""
    text = joined_text("10 m north", at="5 m", main=("10 m east",), main_may=())
    said = {one.concept: one.because for one in hunt_of(ground_on(text)).refusals if one.near == 2}
    assert "nothing holds its thrust where the branch leaves HW-1" in said["single axial"]
    assert "nothing holds its thrust" in said["externally pressurised"]
    kinds = {one.concept for one in hunt_of(ground_on(text)).plans if one.near == 2}
    assert kinds == {"no take-up", "in-line pressure balanced", "braided hose loop"}
    monkeypatch.setattr(axial, "_unheld", lambda _course, _near: "")
    hunt = hunt_of(ground_on(text))
    main = next(one for one in hunt.plans if one.near == 0 and one.concept == "no take-up")
    for concept in ("single axial", "externally pressurised"):
        plan = next(one for one in hunt.plans if one.near == 2 and one.concept == concept)
        found = verified(hunt.ground, arranged(hunt.ground, [main, plan]))
        assert "thrust_held" in {row["rule"] for row in found.results["checks"] if row["outcome"] == "fails"}


@pytest.mark.parametrize("at", ["5 m", "4 m"])
def test_a_loose_joint_at_a_branch_that_may_be_held_is_a_way(at):
    """A place that may hold right at the tee lets it be; one beside the tee does not."""
    text = joined_text("10 m north", at="5 m", main=("10 m east",), main_may=(f"{{ at: {at} }}",))
    near = 3  # of the branch, behind three places of the main
    kinds = {one.concept for one in hunt_of(ground_on(text)).plans if one.near == near}
    assert ("single axial" in kinds) is (at == "5 m")
