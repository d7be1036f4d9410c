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
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.records import Floats, Place, Plan

LIGHTEST = 0.8
"""Share of a quick load that the full study's is never below (docs/theory/proposals.md says how it was tested)."""

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
        refused: plans that fail whatever stands beside them.
        refused_pairs: neighbours that fail together.
    """

    places: tuple[Place, ...]
    plans: tuple[Plan, ...]
    prices: Prices
    bounds: Bounds
    onward: Floats
    joints_onward: Floats
    refused: set[int] = field(default_factory=set)
    refused_pairs: set[tuple[int, int]] = field(default_factory=set)

    def leaving(self, place: int) -> list[int]:
        """Return the plans that leave a place."""
        return [number for number, plan in enumerate(self.plans) if plan.near == place]


def web_of(places: tuple[Place, ...], plans: Sequence[Plan], prices: Prices, bounds: Bounds | None = None) -> Web:
    """Return the web of all plans, with what is left after each worked out from the far end.

    Args:
        places: in order.
        plans: of all spans.
        prices: of anchors.
        bounds: of a path.
    """
    limit = bounds or Bounds()
    onward, joints = np.full(len(plans), np.inf), np.full(len(plans), np.inf)
    arriving, leaving = defaultdict(list), defaultdict(list)
    for number, plan in enumerate(plans):
        arriving[plan.far].append(number)
        leaving[plan.near].append(number)
    last = len(places) - 1
    for number in arriving[last]:
        onward[number], joints[number] = _end_cost(places, plans[number], prices, limit), 0.0
    for place in range(last - 1, 0, -1):
        before, after = np.array(arriving[place], dtype=int), np.array(leaving[place], dtype=int)
        if not len(before) or not len(after):
            continue
        anchor = junction_costs(places[place], [plans[k] for k in before], [plans[k] for k in after], prices, limit)
        own = np.array([plans[k].cost for k in after])
        onward[before] = (anchor + (own + onward[after])[None]).min(axis=1)
        count = np.array([len(plans[k].takeups) for k in after], dtype=float)
        joints[before] = np.where(np.isfinite(anchor), (count + joints[after])[None], np.inf).min(axis=1)
    return Web(places=places, plans=tuple(plans), prices=prices, bounds=limit, onward=onward, joints_onward=joints)


def junction_costs(
    place: Place, before: Sequence[Plan], after: Sequence[Plan], prices: Prices, bounds: Bounds
) -> Floats:
    """Return what the anchor between each of n plans and each of m costs at least; infinite where it cannot bear them.

    The load in each state is what both sides put on it, added as vectors: thrusts that meet take off each other; and
    what one side puts on it while the other is cold and without pressure. Held against what it can carry with
    `LIGHTEST` of it, since a study may find that much less.

    Args:
        place: of the anchor.
        before: plans that end there, n of them.
        after: plans that begin there, m of them.
        prices: of anchors.
        bounds: of a path.

    Returns:
        Cost, (n, m); nothing for an anchor that the file has.
    """
    load = junction_loads(before, after)
    return _anchor_cost(place, load, prices, bounds)


def junction_loads(before: Sequence[Plan], after: Sequence[Plan]) -> Floats:
    """Return the greatest load of any state on the anchor between plans, or of one side alone, (n, m) [N]."""
    arriving = np.stack([plan.forces[1] for plan in before])
    departing = np.stack([plan.forces[0] for plan in after])
    both = np.linalg.norm(arriving[:, None] + departing[None], axis=3).max(axis=2)
    one = np.linalg.norm([plan.alone[1] for plan in before], axis=1)
    other = np.linalg.norm([plan.alone[0] for plan in after], axis=1)
    return np.asarray(np.maximum(both, np.maximum(one[:, None], other[None])))


def _anchor_cost(place: Place, load: Floats, prices: Prices, bounds: Bounds) -> Floats:
    least = LIGHTEST * load
    cost = np.zeros_like(least) if place.fixed else np.asarray(prices.anchor(least), dtype=float)
    return np.where(least > min(place.can_carry, bounds.load), np.inf, cost)


def _end_cost(places: tuple[Place, ...], plan: Plan, prices: Prices, bounds: Bounds) -> float:
    """Return 0, or infinity where the last place cannot bear what arrives there."""
    place = places[-1]
    load = np.linalg.norm(plan.forces[1], axis=1).max(keepdims=True)
    return float(_anchor_cost(place, np.asarray(load), prices, bounds)[0]) if place.held else 0.0


def _start_cost(web: Web, plan: Plan) -> float:
    place = web.places[0]
    load = np.linalg.norm(plan.forces[0], axis=1).max(keepdims=True)
    return float(_anchor_cost(place, np.asarray(load), web.prices, web.bounds)[0]) if place.held else 0.0


def paths_in_order(web: Web) -> Iterator[tuple[float, Path]]:
    """Yield cost at least and plans of every path, the least first; those refused meanwhile are passed over.

    Ties are broken by the fewest joints, then by the order of the plans, so that the order never turns on chance.
    """
    leaving: dict[int, NDArray[np.intp]] = {
        place: np.array(web.leaving(place), dtype=np.intp) for place in range(len(web.places))
    }
    ticket = itertools.count()
    heap: list[tuple[float, int, Path, int, float]] = []

    def push(path: Path, spent: float, joints: int) -> None:
        last = path[-1]
        least = spent + float(web.onward[last])
        if np.isfinite(least) and joints + web.joints_onward[last] <= web.bounds.joints:
            heapq.heappush(heap, (round(least, 9), joints, path, next(ticket), spent))

    for number in leaving[0].tolist():
        plan = web.plans[number]
        push((number,), _start_cost(web, plan) + plan.cost, len(plan.takeups))
    while heap:
        least, joints, path, _, spent = heapq.heappop(heap)
        if _is_refused(web, path):
            continue
        last = web.plans[path[-1]]
        if last.far == len(web.places) - 1:
            yield least, path
            continue
        after = leaving[last.far]
        if not len(after):
            continue
        options = [web.plans[k] for k in after]
        anchor = junction_costs(web.places[last.far], [last], options, web.prices, web.bounds)[0]
        for number, plan, cost in zip(after.tolist(), options, anchor.tolist(), strict=True):
            if np.isfinite(cost) and number not in web.refused:
                push((*path, number), spent + cost + plan.cost, joints + len(plan.takeups))


def _is_refused(web: Web, path: Path) -> bool:
    return bool(web.refused.intersection(path)) or any(pair in web.refused_pairs for pair in itertools.pairwise(path))


__all__ = ["LIGHTEST", "Bounds", "Path", "Web", "junction_costs", "junction_loads", "paths_in_order", "web_of"]
