"""Paths over the places of all lines in the order of what they cost at least.     (choose/arrange/search.py)

An arrangement is a path from the first place to the last, line after line; each step is a plan of a span, each place
between two steps an anchor that feels both. What is left of a path costs at least what the best of all ways on would
(worked out from the far end, exact but for what is refused later), so paths come out best first, as many as are asked
for, each once. A plan, or plans that fail together, that are refused are passed over from then on; the order stays
right, since nothing gets cheaper by a refusal.
"""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from takeup.choose.arrange.junctions import (
    LIGHTEST,
    Integers,
    Junction,
    Junctions,
    anchor_costs,
    junction_loads,
    junctions_of,
)
from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.records import Floats, Place, Plan

Measure = Literal["cost", "anchor-load", "joints"]
Path = tuple[int, ...]
"""Numbers of plans, from the first place to the last."""
Together = frozenset[int]
"""Numbers of plans that fail when all of them are in a path."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Bounds:
    """What a path may have at most: joints, and load on any anchor [N]; and whether all its joints are of one name."""

    joints: float = np.inf
    load: float = np.inf
    alike: bool = False


@dataclass(frozen=True, kw_only=True)
class Web:
    """All plans of all spans, and what neighbours do to the anchor between them.

    Args:
        junctions: what meets where.
        bounds: of a path.
        entry: what a path costs before each plan that it may begin with, (n,).
        costs: of the anchor of each junction, (n, m) each.
        onward: cost at least of all that follows a plan, its own not counted, (p,).
        joints_onward: joints at least of all that follows it, (p,).
        load_onward: load at least of the most loaded anchor that follows it, (p,) [N].
        use_onward: share of its capacity that the anchor used most of those that follow is asked at least, (p,); zeros
            where no friction is certain, since then nothing is told apart by it.
        refused: plans that fail whatever stands beside them.
        together: plans that fail together.
    """

    junctions: Junctions
    bounds: Bounds
    entry: Floats
    costs: tuple[Floats, ...]
    onward: Floats
    joints_onward: Floats
    load_onward: Floats
    use_onward: Floats
    refused: set[int] = field(default_factory=set)
    together: set[Together] = field(default_factory=set)

    @property
    def places(self) -> tuple[Place, ...]:
        """All places, line by line."""
        return self.junctions.places

    @property
    def plans(self) -> tuple[Plan, ...]:
        """All plans."""
        return self.junctions.plans


def web_of(places: tuple[Place, ...], plans: Sequence[Plan], prices: Prices, bounds: Bounds | None = None) -> Web:
    """Return the web of all plans, with what is left after each worked out from the far end.

    Args:
        places: in order.
        plans: of all spans.
        prices: of anchors.
        bounds: of a path.
    """
    return web_on(junctions_of(places, plans), prices, bounds)


def web_on(junctions: Junctions, prices: Prices, bounds: Bounds | None = None) -> Web:
    """Return the same, of junctions that are worked out already.

    Args:
        junctions: of all places.
        prices: of anchors.
        bounds: of a path.
    """
    limit = bounds or Bounds()
    places, plans, loads = junctions.places, junctions.plans, junctions.loads
    ends, asked, first = loads.ends, loads.asked, junctions.first
    onward, joints, heaviest, uses = (np.full(len(plans), np.inf) for _ in range(4))
    own, count = np.array([plan.cost for plan in plans]), np.array([float(len(plan.takeups)) for plan in plans])
    last, end = junctions.last, ends[junctions.last, 1]
    onward[last], heaviest[last] = (
        anchor_costs(places[-1], end, prices, limit.load, asked[last, 1]),
        LIGHTEST * end,
    )
    joints[last] = 0.0
    dragged = loads.drags is not None
    uses[last if dragged else slice(None)] = asked[last, 1] / places[-1].can_carry if dragged else 0.0
    costs = []
    for junction in reversed(junctions.inner):
        before, after = junction.before, junction.after
        if junction.place == junction.onward:
            cost = anchor_costs(places[junction.place], junction.loads, prices, limit.load, junction.asked)
        else:
            ended = anchor_costs(places[junction.place], ends[before, 1], prices, limit.load, asked[before, 1])
            begun = anchor_costs(places[junction.onward], ends[after, 0], prices, limit.load, asked[after, 0])
            cost = ended[:, None] + begun[None]
        costs.append(cost)
        if not len(before) or not len(after):
            continue
        onward[before] = (cost + (own[after] + onward[after])[None]).min(axis=1)
        open_ = np.isfinite(cost)
        joints[before] = np.where(open_, (count[after] + joints[after])[None], np.inf).min(axis=1)
        worst = np.maximum(LIGHTEST * junction.loads, heaviest[after][None])
        heaviest[before] = np.where(open_, worst, np.inf).min(axis=1)
        if dragged:
            used = np.maximum(junction.asked / _least_capacity(places, junction), uses[after][None])
            uses[before] = np.where(open_, used, np.inf).min(axis=1)
    return Web(
        junctions=junctions,
        bounds=limit,
        entry=anchor_costs(places[0], ends[first, 0], prices, limit.load, asked[first, 0]),
        costs=tuple(reversed(costs)),
        onward=onward,
        joints_onward=joints,
        load_onward=heaviest,
        use_onward=uses,
    )


def _least_capacity(places: Sequence[Place], junction: Junction) -> float:
    """Return what the weaker of the places at a junction can carry [N]."""
    return min(places[junction.place].can_carry, places[junction.onward].can_carry)


Key = tuple[float, float]
"""What a path is put in order by: the least of its measure, then the least that it costs."""

_Begun = tuple[float, float, float, float, Path, float, float, float, frozenset[str]]
"""A path on its way: its key, its joints, the use of its anchors at least, its plans; then what it has cost, its
greatest load [N], the use so far and its joints' names."""


def paths_in_order(web: Web, measure: Measure = "cost") -> Iterator[tuple[Key, Path]]:
    """Yield what every path is measured by at least, and its plans, the least first; refused ones are passed over.

    Ties are broken by cost, by the fewest joints, by the least use of the anchor used most where friction is certain,
    then by the order of the plans, so that the order never turns on chance.

    Args:
        web: of all plans.
        measure: cost; the greatest load on an anchor, then cost; or joints, then cost.
    """
    ways = _Ways(web, measure)
    heap: list[_Begun] = []
    junctions = web.junctions
    loads, first = junctions.loads, junctions.first
    start = LIGHTEST * loads.ends[first, 0], loads.asked[first, 0] / web.places[0].can_carry
    ways.push(heap, (0.0, 0.0, 0.0, 0.0, (), 0.0, 0.0, 0.0, frozenset()), first, (web.entry, *start))
    while heap:
        begun = heapq.heappop(heap)
        path = begun[4]
        if is_refused(web, path):
            continue
        at = ways.junction_after(path[-1])
        if at is None:
            yield (begun[0], begun[1]), path
            continue
        junction, row = at
        inner = junctions.inner[junction]
        used = inner.asked[row] / _least_capacity(web.places, inner)
        ways.push(heap, begun, inner.after, (web.costs[junction][row], LIGHTEST * inner.loads[row], used))


class _Ways:
    """The ways on from a path, by its last plan."""

    def __init__(self, web: Web, measure: Measure) -> None:
        self._web, self._measure = web, measure
        plans = web.junctions.plans
        self._dragged = float(web.junctions.loads.drags is not None)
        self._own = np.array([plan.cost for plan in plans])
        self._joints = np.array([float(len(plan.takeups)) for plan in plans])
        self._names = [joint_names(plan) for plan in plans] if web.bounds.alike else []
        self._after = {
            number: (place, row)
            for place, junction in enumerate(web.junctions.inner)
            for row, number in enumerate(junction.before.tolist())
        }

    def junction_after(self, plan: int) -> tuple[int, int] | None:
        """Return the junction that a plan ends at, and its row there; None where all lines end."""
        return self._after.get(plan)

    def push(self, heap: list[_Begun], begun: _Begun, numbers: Integers, met: tuple[Floats, Floats, Floats]) -> None:
        """Put a path on, by each plan that may follow, into the heap.

        Args:
            heap: of paths on their way.
            begun: the path.
            numbers: of the plans, (n,).
            met: cost, load and use of the anchor before each, (n,).
        """
        web, (_, _, joints, _, path, spent, load, use, name) = self._web, begun
        spent_then = spent + met[0] + self._own[numbers]
        joints_then = joints + self._joints[numbers]
        load_then, use_then = np.maximum(load, met[1]), np.maximum(use, met[2]) * self._dragged
        most_used = np.round(np.maximum(use_then, web.use_onward[numbers]), 6)
        least = spent_then + web.onward[numbers]
        whole = joints_then + web.joints_onward[numbers]
        keep = np.isfinite(least) & (whole <= web.bounds.joints)
        if not keep.any():
            return
        heaviest = np.maximum(load_then, web.load_onward[numbers])
        first = np.round({"cost": least, "joints": whole, "anchor-load": heaviest}[self._measure], 9)
        columns = (first, np.round(least, 9), joints_then, most_used, numbers, spent_then, load_then, use_then)
        for key, cost, count, most, number, *so_far in zip(*(each[keep].tolist() for each in columns), strict=True):
            names = name | self._names[number] if self._names else name
            if number not in web.refused and len(names) <= 1:
                heapq.heappush(heap, (key, cost, count, most, (*path, number), *so_far, names))


def joint_names(plan: Plan) -> frozenset[str]:
    """Return the names of the joints of a plan, as their series has them."""
    return frozenset(item.chosen.joint if item.chosen else item.name for item in plan.takeups)


def is_refused(web: Web, path: Path) -> bool:
    """Whether a path has a plan that fails by itself, or plans that fail together."""
    return not web.refused.isdisjoint(path) or has_together(web.together, path)


def has_together(together: Collection[Together], path: Path) -> bool:
    """Whether plans that fail together are all in a path."""
    return bool(together) and any(one.issubset(path) for one in together)


__all__ = [
    "LIGHTEST",
    "Bounds",
    "Key",
    "Measure",
    "Path",
    "Together",
    "Web",
    "is_refused",
    "joint_names",
    "junction_loads",
    "paths_in_order",
    "web_of",
    "web_on",
]
