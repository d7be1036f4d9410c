"""Proposals that none betters in cost, greatest anchor load and joints at once.     (choose/arrange/front.py)

For every number of joints the cheapest, then the cheapest whose anchors see less than that, and so on until there is
none: the load is swept as a bound, so nothing on the front is missed for want of a weight between the three.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from takeup.choose.arrange.propose import Hunt, Progress, Proposal, best_within
from takeup.choose.arrange.search import Bounds

_LESS = 1.0 - 1e-6  # of a load: the next has to be less by more than rounding


def front(hunt: Hunt, progress: Progress | None = None, bounds: Bounds | None = None) -> tuple[Proposal, ...]:
    """Return the front, the cheapest first.

    Args:
        hunt: that goes on; studies that it has run are not run again.
        progress: told of every study.
        bounds: of every path.
    """
    found: list[Proposal] = []
    limit = bounds or Bounds()
    joints = limit.joints
    while not hunt.exhausted:
        swept = _swept(hunt, replace(limit, joints=joints), progress)
        found += swept
        if not swept:
            break
        joints = max(one.joints for one in swept) - 1  # with any bound between, the same would come again
    return undominated(found)


def _swept(hunt: Hunt, bounds: Bounds, progress: Progress | None) -> list[Proposal]:
    """Return the cheapest within bounds, then the cheapest of less load, until there is none."""
    found: list[Proposal] = []
    load = bounds.load
    while not hunt.exhausted:
        best = best_within(hunt, replace(bounds, load=load), progress)
        if best is None:
            break
        found.append(best)
        load = best.greatest_load[1] * _LESS
    return found


def undominated(proposals: Sequence[Proposal]) -> tuple[Proposal, ...]:
    """Return the proposals that no other betters in one of the three without being worse in another, each once."""
    each = list({one.path: one for one in proposals}.values())
    kept = [one for one in each if not any(_betters(other, one) for other in each)]
    return tuple(sorted(kept, key=lambda one: (one.cost, one.greatest_load[1], one.joints, one.path)))


def _betters(other: Proposal, one: Proposal) -> bool:
    mine, theirs = _measures(one), _measures(other)
    return all(a <= b for a, b in zip(theirs, mine, strict=True)) and theirs != mine


def _measures(one: Proposal) -> tuple[float, float, float]:
    return one.cost, one.greatest_load[1], float(one.joints)


__all__ = ["front", "undominated"]
