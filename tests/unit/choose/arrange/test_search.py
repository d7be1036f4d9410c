"""Paths in the order of what they cost at least, beside all paths one by one.     (arrange/test_search.py)

Webs are drawn at random: one line of three to five places, or two of two to four, up to three plans of each span,
forces of two states, prices in steps.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from tests.bare_lines import plan_of
from tests.price_builders import round_prices

from takeup.choose.arrange.records import Place, Plan
from takeup.choose.arrange.search import LIGHTEST, Bounds, Web, paths_in_order, web_of

PRICES = round_prices()
ROUNDING = 1e-7
"""Of sums of a few prices in double precision, in another order, and of keys that are rounded to 1e-9."""
MEASURES = ("cost", "anchor-load", "joints")


@dataclass(frozen=True, kw_only=True)
class Whole:
    """A path by brute force: what it costs, its greatest load times the bound's share, and its joints."""

    cost: float
    load: float
    joints: int

    def key(self, measure: str) -> tuple[float, float]:
        """Return what it is put in order by."""
        first = {"cost": self.cost, "anchor-load": self.load, "joints": float(self.joints)}[measure]
        return first, self.cost


def drawn(seed: int, *, bounds: Bounds | None = None) -> Web:
    """Return a web drawn at random, some places fixed, some weak."""
    chance = np.random.default_rng(seed)
    counts = [int(chance.integers(3, 6))] if chance.random() < 0.5 else chance.integers(2, 5, 2).tolist()
    places, plans = list[Place](), list[Plan]()
    for line, count in enumerate(counts):
        first = len(places)
        places += [
            Place(
                name=f"place {number}",
                line=f"L-{line}",
                station=10.0 * number,
                fixed=number in (0, count - 1) or bool(chance.random() < 0.2),
                held=not (number == 0 and chance.random() < 0.2),
                can_carry=math.inf if chance.random() < 0.5 else float(chance.uniform(5e3, 6e4)),
                can_carry_moment=None,
            )
            for number in range(count)
        ]
        for near in range(first, first + count - 1):
            for far in range(near + 1, first + count):
                for _ in range(int(chance.integers(0, 4))):
                    force = chance.normal(0.0, 2e4, (2, 2, 3))
                    cost, joints = float(chance.integers(10, 60)), int(chance.integers(0, 3))
                    names = tuple(chance.choice(["A", "B"]) for _ in range(joints))
                    plans.append(plan_of(near, far, force, cost, names))
                if places[far].fixed:
                    break
    return web_of(tuple(places), plans, PRICES, bounds)


def brute(web: Web) -> dict[tuple[int, ...], Whole]:
    """Return every path within its bounds, from the definition: anchors by their load, one place after another."""
    last = len(web.places) - 1
    found = {}

    def extend(path: tuple[int, ...]) -> None:
        at = web.plans[path[-1]].far if path else 0
        if at != last and path and web.places[at].line != web.places[at + 1].line:
            at += 1  # the next line begins
        if at == last:
            whole = measured(web, [web.plans[number] for number in path])
            together = any(one <= set(path) for one in web.together)
            if whole is not None and not together and not web.refused.intersection(path):
                found[path] = whole
            return
        for number, plan in enumerate(web.plans):
            if plan.near == at:
                extend((*path, number))

    extend(())
    return found


def measured(web: Web, plans: list[Plan]) -> Whole | None:
    """Return what a path comes to; None where an anchor cannot bear its load, or a bound is passed."""
    cost, loads = 0.0, []
    sides: list[tuple[list[Plan], list[Plan]]] = []
    for _, own in itertools.groupby(plans, lambda plan: web.places[plan.far].line):
        line = list(own)
        sides += [([], line[:1]), *(([one], [other]) for one, other in itertools.pairwise(line)), (line[-1:], [])]
    for before, after in sides:
        place = web.places[after[0].near if after else before[0].far]
        forces = [plan.forces[1] for plan in before] + [plan.forces[0] for plan in after]
        load = max(float(np.linalg.norm(state)) for state in np.sum(forces, axis=0))
        if before and after:
            load = max(load, *(float(np.linalg.norm(one)) for one in (before[0].alone[1], after[0].alone[0])))
            cost += 0.0 if place.fixed else float(PRICES.anchor(LIGHTEST * load))
        load = load if place.held else 0.0
        if LIGHTEST * load > min(place.can_carry, web.bounds.load):
            return None
        loads.append(LIGHTEST * load)
    joints = sum(len(plan.takeups) for plan in plans)
    names = {item.name for plan in plans for item in plan.takeups}
    if joints > web.bounds.joints or (web.bounds.alike and len(names) > 1):
        return None
    return Whole(cost=cost + sum(plan.cost for plan in plans), load=max(loads), joints=joints)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), measure=st.sampled_from(MEASURES))
@example(seed=0, measure="cost")
def test_search_yields_every_path_once_in_the_order_of_its_measure(seed, measure):
    web = drawn(seed)
    expected = brute(web)
    found = list(paths_in_order(web, measure))
    assert sorted(path for _, path in found) == sorted(expected)
    for key, path in found:
        assert key == pytest.approx(expected[path].key(measure), rel=ROUNDING)
    firsts = [expected[path].key(measure) for _, path in found]
    for before, after in itertools.pairwise(firsts):
        assert before[0] <= after[0] * (1.0 + ROUNDING)
        assert before[1] <= after[1] * (1.0 + ROUNDING) or before[0] < after[0]


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6), joints=st.integers(0, 4), load=st.floats(1e4, 6e4), alike=st.booleans())
@example(seed=78, joints=4, load=6e4, alike=True)  # a span with joints of two names
def test_search_keeps_to_its_bounds(seed, joints, load, alike):
    web = drawn(seed, bounds=Bounds(joints=joints, load=load, alike=alike))
    assert sorted(path for _, path in paths_in_order(web)) == sorted(brute(web))


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6), measure=st.sampled_from(MEASURES))
def test_search_passes_over_what_is_refused_on_the_way(seed, measure):
    """The first path's middle is refused once it has come: nothing that has it comes after, all else in order."""
    web = drawn(seed)
    coming = paths_in_order(web, measure)
    first = next(coming, None)
    if first is None:
        return
    path = first[1]
    if len(path) > 1:
        web.together.add(frozenset(path[:2]))
    else:
        web.refused.add(path[0])
    expected = brute(web)
    rest = list(coming)
    assert sorted(path for _, path in rest) == sorted(expected)
    assert [key for key, _ in rest] == sorted(key for key, _ in rest)


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_what_is_left_is_never_reckoned_too_high(seed):
    """Of every path, after every plan: cost, joints and load onward are at most what the path still has."""
    web = drawn(seed)
    for path, whole in brute(web).items():
        for place in range(len(path)):
            plans = [web.plans[number] for number in path]
            rest = measured_after(web, plans, place)
            assert web.onward[path[place]] <= rest.cost * (1.0 + ROUNDING) + ROUNDING
            assert web.joints_onward[path[place]] <= rest.joints
            assert web.load_onward[path[place]] <= rest.load * (1.0 + ROUNDING)
        assert whole.joints == sum(len(web.plans[number].takeups) for number in path)


def measured_after(web: Web, plans: list[Plan], place: int) -> Whole:
    """Return cost, greatest load and joints of what comes after a plan of a path: its far anchor and all beyond."""
    whole, before = measured(web, plans), plans[place]
    assert whole is not None
    places = tuple(replace(one, can_carry=math.inf) for one in web.places)
    free = replace(web, junctions=replace(web.junctions, places=places), bounds=Bounds())
    cut = np.zeros_like(before.forces)
    cut[1] = before.forces[1]
    lone = np.zeros_like(before.alone)
    lone[1] = before.alone[1]
    after = measured(free, [replace(before, cost=0.0, takeups=(), forces=cut, alone=lone), *plans[place + 1 :]])
    assert after is not None
    return after


@settings(max_examples=20, deadline=None)
@given(seed=st.integers(0, 10**6), measure=st.sampled_from(MEASURES))
def test_search_runs_alike_twice(seed, measure):
    assert list(paths_in_order(drawn(seed), measure)) == list(paths_in_order(drawn(seed), measure))


def test_search_by_hand():
    """Two spans of 10 kN either way, or one: 20 + 15 + the anchor, against 40.

    The thrusts meet at the anchor, but one side alone leaves 0.8 x 10 kN there: up to 20 kN costs 50. So 85 and 40.
    """
    thrust = np.zeros((2, 1, 3))
    thrust[0, 0, 0], thrust[1, 0, 0] = -1e4, 1e4
    ends = [
        Place(name=name, line="L-1", station=at, fixed=True, held=True, can_carry=math.inf, can_carry_moment=None)
        for name, at in (("a", 0.0), ("b", 20.0))
    ]
    middle = replace(ends[0], name="m", station=10.0, fixed=False)
    plans = [plan_of(0, 1, thrust, 20.0, 1), plan_of(1, 2, thrust, 15.0, 1), plan_of(0, 2, thrust, 40.0, 1)]
    web = web_of((ends[0], middle, ends[1]), plans, PRICES)
    assert list(paths_in_order(web)) == [((40.0, 40.0), (2,)), ((85.0, 85.0), (0, 1))]
    assert [path for _, path in paths_in_order(web, "joints")] == [(2,), (0, 1)]
