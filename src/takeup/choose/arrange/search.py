"""Paths over the places of a line in the order of what they cost at least.     (choose/arrange/search.py)

An arrangement is a path from the first place to the last; each step is a plan of a span, each place between two steps
an anchor that feels both. What is left of a path costs at least what the best of all ways on would (worked out from the
far end, exact but for what is refused later), so paths come out best first, as many as are asked for, each once.
A plan or a pair of neighbours that is refused is passed over from then on; the order stays right, since nothing gets
cheaper by a refusal.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.records import Floats, Place, Plan

LIGHTEST = 0.8
"""Share of a quick load that the full study's is never below (docs/theory/proposals.md says how it was tested)."""

Integers = NDArray[np.int64]
Measure = Literal["cost", "anchor-load", "joints"]
Path = tuple[int, ...]
"""Numbers of plans, from the first place to the last."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Bounds:
    """What a path may have at most: joints, and load on any anchor [N]."""

    joints: float = np.inf
    load: float = np.inf


@dataclass(frozen=True, kw_only=True)
class Web:
    """All plans of all spans, and what neighbours do to the anchor between them.

    Args:
        places: in order.
        plans: of all spans.
        prices: of anchors.
        bounds: of a path.
        onward: cost at least of all that follows a plan, its own not counted, (m,).
        joints_onward: joints at least of all that follows it, (m,).
        load_onward: load at least of the most loaded anchor that follows it, (m,) [N].
        refused: plans that fail whatever stands beside them.
        refused_pairs: neighbours that fail together.
    """

    places: tuple[Place, ...]
    plans: tuple[Plan, ...]
    prices: Prices
    bounds: Bounds
    onward: Floats
    joints_onward: Floats
    load_onward: Floats
    refused: set[int] = field(default_factory=set)
    refused_pairs: set[tuple[int, int]] = field(default_factory=set)


def web_of(places: tuple[Place, ...], plans: Sequence[Plan], prices: Prices, bounds: Bounds | None = None) -> Web:
    """Return the web of all plans, with what is left after each worked out from the far end.

    Args:
        places: in order.
        plans: of all spans.
        prices: of anchors.
        bounds: of a path.
    """
    limit = bounds or Bounds()
    onward, joints, loads = (np.full(len(plans), np.inf) for _ in range(3))
    arriving, leaving = defaultdict(list), defaultdict(list)
    for number, plan in enumerate(plans):
        arriving[plan.far].append(number)
        leaving[plan.near].append(number)
    last = len(places) - 1
    for number in arriving[last]:
        load = _end_load(places[last], plans[number], 1)
        onward[number], joints[number] = _end_cost(places[last], load, prices, limit), 0.0
        loads[number] = LIGHTEST * load
    for place in range(last - 1, 0, -1):
        before, after = np.array(arriving[place], dtype=int), np.array(leaving[place], dtype=int)
        if not len(before) or not len(after):
            continue
        between = junction_loads([plans[k] for k in before], [plans[k] for k in after])
        anchor = _anchor_cost(places[place], between, prices, limit)
        own = np.array([plans[k].cost for k in after])
        onward[before] = (anchor + (own + onward[after])[None]).min(axis=1)
        count = np.array([len(plans[k].takeups) for k in after], dtype=float)
        open_ = np.isfinite(anchor)
        joints[before] = np.where(open_, (count + joints[after])[None], np.inf).min(axis=1)
        worst = np.maximum(LIGHTEST * between, loads[after][None])
        loads[before] = np.where(open_, worst, np.inf).min(axis=1)
    return Web(
        places=places,
        plans=tuple(plans),
        prices=prices,
        bounds=limit,
        onward=onward,
        joints_onward=joints,
        load_onward=loads,
    )


def junction_loads(before: Sequence[Plan], after: Sequence[Plan]) -> Floats:
    """Return the greatest load of any state on the anchor between plans, (n, m) [N].

    In each state what both sides put on it, added as vectors: thrusts that meet take off each other; and what one side
    puts on it while the other is cold and without pressure.

    Args:
        before: plans that end there, n of them.
        after: plans that begin there, m of them.
    """
    arriving = np.stack([plan.forces[1] for plan in before])
    departing = np.stack([plan.forces[0] for plan in after])
    both = _greatest(arriving[:, None] + departing[None])
    one = _greatest(np.array([plan.alone[1] for plan in before])[:, None])
    other = _greatest(np.array([plan.alone[0] for plan in after])[:, None])
    return np.asarray(np.maximum(both, np.maximum(one[:, None], other[None])))


def _greatest(vectors: Floats) -> Floats:
    """Return the size of the greatest of some vectors, (..., s, 3) to (...)."""
    return np.asarray(np.sqrt(np.einsum("...k,...k->...", vectors, vectors).max(axis=-1)))


def _anchor_cost(place: Place, load: Floats, prices: Prices, bounds: Bounds) -> Floats:
    """Return what an anchor costs at least, nothing for one that the file has; infinite where it cannot bear its load.

    Held against what it can carry with `LIGHTEST` of the load, since a study may find that much less.
    """
    least = LIGHTEST * load
    cost = np.zeros_like(least) if place.fixed else np.asarray(prices.anchor(least), dtype=float)
    return np.where(least > min(place.can_carry, bounds.load), np.inf, cost)


def _end_load(place: Place, plan: Plan, end: int) -> float:
    """Return the greatest load of a plan on an end of the line [N]; none on one that is not held."""
    return float(np.linalg.norm(plan.forces[end], axis=1).max()) if place.held else 0.0


def _end_cost(place: Place, load: float, prices: Prices, bounds: Bounds) -> float:
    """Return 0, or infinity where an end of the line cannot bear a load."""
    return float(_anchor_cost(place, np.array([load]), prices, bounds)[0])


Key = tuple[float, float]
"""What a path is put in order by: the least of its measure, then the least that it costs."""


@dataclass(frozen=True, slots=True, order=True)
class _Begun:
    """A path that is not at the far end yet, or has just come there."""

    key: Key
    joints: int
    path: Path
    spent: float = field(compare=False)
    load: float = field(compare=False)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Leaving:
    """The plans that leave a place: their numbers, (n,), forces there, (n, s, 3), and greatest alone, (n,) [N]."""

    numbers: Integers
    forces: Floats
    alone: Floats

    def loads(self, before: Plan) -> Floats:
        """Return the load on the anchor between a plan and each of these, as `junction_loads` does, (n,) [N]."""
        both = _greatest(before.forces[1] + self.forces)
        return np.asarray(np.maximum(both, np.maximum(_greatest(before.alone[1:]), self.alone)))


def _leaving(web: Web) -> list[_Leaving]:
    """Return the plans that leave each place."""
    numbers: list[list[int]] = [[] for _ in web.places]
    for number, plan in enumerate(web.plans):
        numbers[plan.near].append(number)
    return [
        _Leaving(
            numbers=np.array(own, dtype=np.int64),
            forces=np.array([web.plans[number].forces[0] for number in own]),
            alone=_greatest(np.array([web.plans[number].alone[:1] for number in own]).reshape(-1, 1, 3)),
        )
        for own in numbers
    ]


def paths_in_order(web: Web, measure: Measure = "cost") -> Iterator[tuple[Key, Path]]:
    """Yield what every path is measured by at least, and its plans, the least first; refused ones are passed over.

    Ties are broken by cost, by the fewest joints, then by the order of the plans, so that the order never turns on
    chance.

    Args:
        web: of all plans.
        measure: cost; the greatest load on an anchor, then cost; or joints, then cost.
    """
    leaving = _leaving(web)
    heap: list[_Begun] = []

    onward, joints_onward = web.onward.tolist(), web.joints_onward.tolist()
    load_onward = web.load_onward.tolist()

    def push(path: Path, spent: float, joints: int, load: float) -> None:
        last = path[-1]
        least = spent + onward[last]
        whole = joints + joints_onward[last]
        if math.isfinite(least) and whole <= web.bounds.joints:
            heaviest = max(load, load_onward[last])
            first = {"cost": least, "joints": whole, "anchor-load": heaviest}[measure]
            heapq.heappush(heap, _Begun((round(first, 9), round(least, 9)), joints, path, spent, load))

    for number in leaving[0].numbers.tolist():
        plan = web.plans[number]
        load = _end_load(web.places[0], plan, 0)
        own = _end_cost(web.places[0], load, web.prices, web.bounds)
        push((number,), own + plan.cost, len(plan.takeups), LIGHTEST * load)
    while heap:
        begun = heapq.heappop(heap)
        if is_refused(web, begun.path):
            continue
        last = web.plans[begun.path[-1]]
        if last.far == len(web.places) - 1:
            yield begun.key, begun.path
            continue
        after = leaving[last.far]
        if not len(after.numbers):
            continue
        loads = after.loads(last)
        costs = _anchor_cost(web.places[last.far], loads, web.prices, web.bounds)
        for number, cost, load in zip(after.numbers.tolist(), costs.tolist(), loads.tolist(), strict=True):
            if math.isfinite(cost) and number not in web.refused:
                plan = web.plans[number]
                joints = begun.joints + len(plan.takeups)
                heaviest = max(begun.load, LIGHTEST * load)
                push((*begun.path, number), begun.spent + cost + plan.cost, joints, heaviest)


def is_refused(web: Web, path: Path) -> bool:
    """Whether a path has a plan that fails by itself, or two neighbours that fail together."""
    return bool(web.refused.intersection(path)) or any(pair in web.refused_pairs for pair in itertools.pairwise(path))


__all__ = [
    "LIGHTEST",
    "Bounds",
    "Key",
    "Measure",
    "Path",
    "Web",
    "is_refused",
    "junction_loads",
    "paths_in_order",
    "web_of",
]
