"""The best arrangements of a bare line, each proved by its own study.     (choose/arrange/propose.py)

Paths come out of the search by what they cost at least. Each is put together, its guides and rests placed, and put back
by what it costs then; when it comes out again its own study is run; if that stands it is put back once more by what it
costs with the anchors as the study loads them. What comes out a third time is the next best proposal. A cost only grows
on the way, so nothing cheaper is still to come; and a plan that fails in one study is never tried in another.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from takeup.choose.arrange.assemble import arranged, resolved_with
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.parts import Part, cost_of, parts_of
from takeup.choose.arrange.records import Arranged, Plan, Refusal
from takeup.choose.arrange.search import (
    LIGHTEST,
    Bounds,
    Path,
    Web,
    junction_loads,
    paths_in_order,
    web_of,
)
from takeup.choose.arrange.spans import plans_of
from takeup.choose.arrange.verify import Verified, verified

MOST_STUDIES = 200
"""Studies that are run for one call before it is said that more were not tried."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Proposal:
    """One complete arrangement.

    Args:
        path: its plans' numbers.
        whole: its plans and anchors.
        found: its own study.
        parts: what it adds to the line as given.
        cost: of these, an index.
    """

    path: Path
    whole: Arranged
    found: Verified
    parts: tuple[Part, ...]
    cost: float

    @property
    def joints(self) -> int:
        """How many joints it adds."""
        return sum(len(plan.takeups) for plan in self.whole.plans)


@dataclass(frozen=True, kw_only=True, slots=True)
class Refused:
    """A path whose own study fails, or that cannot be put together, and why."""

    plans: tuple[Plan, ...]
    because: str


@dataclass(kw_only=True)
class Hunt:
    """A search under way: what it found, what it refused, and how many studies it ran.

    Args:
        ground: what it stands on.
        plans: of all spans.
        refusals: concepts that no span model lets through.
        proposals: best first.
        refused: paths that failed.
        studies: how many were run.
        exhausted: whether it stopped for their number.
    """

    ground: Ground
    plans: tuple[Plan, ...]
    refusals: tuple[Refusal, ...]
    proposals: list[Proposal] = field(default_factory=list)
    refused: list[Refused] = field(default_factory=list)
    studies: int = 0
    exhausted: bool = False


Progress = Callable[[Hunt, str], None]


def hunt_of(ground: Ground) -> Hunt:
    """Return a search with the plans of every span, nothing proved yet."""
    plans, refusals = plans_of(ground)
    return Hunt(ground=ground, plans=plans, refusals=refusals)


def propose(hunt: Hunt, best: int, *, bounds: Bounds | None = None, progress: Progress | None = None) -> Web:
    """Find the best arrangements, and put them into the hunt as they are proved.

    Args:
        hunt: that goes on.
        best: how many are wanted.
        bounds: of every path.
        progress: told of every study.

    Returns:
        The web, with what was refused in it.
    """
    web = web_of(hunt.ground.places, hunt.plans, hunt.ground.prices, bounds)
    found = _in_order(hunt, web, progress or (lambda _hunt, _words: None))
    for proposal in itertools.islice(found, best):
        hunt.proposals.append(proposal)
    return web


def _in_order(hunt: Hunt, web: Web, progress: Progress) -> Iterator[Proposal]:
    """Yield proposals by their cost; each candidate goes through its three stages."""
    coming = paths_in_order(web)
    ahead = next(coming, None)
    ticket = itertools.count()
    waiting: list[tuple[float, int, int, Path, Proposal | None]] = []
    while ahead is not None or waiting:
        if ahead is not None and (not waiting or ahead[0] <= waiting[0][0]):
            cost = max(_cost_placed(hunt, ahead[1]), ahead[0])
            heapq.heappush(waiting, (cost, 1, next(ticket), ahead[1], None))
            ahead = next(coming, None)
            continue
        _, _, _, path, proposal = heapq.heappop(waiting)
        if proposal is not None:
            yield proposal
        elif not _is_refused(web, path):
            if hunt.studies >= MOST_STUDIES:
                hunt.exhausted = True
                return
            proved = _prove(hunt, web, path, progress)
            if proved is not None:
                heapq.heappush(waiting, (proved.cost, 2, next(ticket), path, proved))


def _is_refused(web: Web, path: Path) -> bool:
    return bool(web.refused.intersection(path)) or any(pair in web.refused_pairs for pair in itertools.pairwise(path))


def _cost_placed(hunt: Hunt, path: Path) -> float:
    """Return what a path costs with its guides and rests as they are placed, anchors by their least load."""
    ground = hunt.ground
    whole = arranged(ground, [hunt.plans[number] for number in path])
    line = resolved_with(ground, whole).line(ground.line.name)
    loads = {}
    for before, after in itertools.pairwise(whole.plans):
        least = LIGHTEST * float(junction_loads([before], [after])[0, 0])
        loads[ground.places[before.far].name] = least
    return cost_of(parts_of(ground.line, line, loads=loads, indices=_indices(whole), prices=ground.prices))


def _prove(hunt: Hunt, web: Web, path: Path, progress: Progress) -> Proposal | None:
    """Return a path with its own study, where that stands; else note who is to blame."""
    ground = hunt.ground
    whole = arranged(ground, [hunt.plans[number] for number in path])
    hunt.studies += 1
    progress(hunt, " | ".join(plan.concept for plan in whole.plans))
    found = verified(ground, whole)
    if not found.stands:
        web.refused.update(path[number] for number in found.blamed)
        web.refused_pairs.update((path[number], path[number + 1]) for number in found.blamed_pairs)
        hunt.refused.append(Refused(plans=whole.plans, because=found.because))
        return None
    over = [load for name, load in found.loads.items() if name in _anchors(ground, whole) and load > web.bounds.load]
    if over:
        return None
    line = found.study.line(ground.line.name)
    parts = parts_of(ground.line, line, loads=found.loads, indices=_indices(whole), prices=ground.prices)
    return Proposal(path=path, whole=whole, found=found, parts=parts, cost=cost_of(parts))


def _anchors(ground: Ground, whole: Arranged) -> set[str]:
    ends = {ground.places[whole.plans[0].near].name, ground.places[whole.plans[-1].far].name}
    return {anchor.name for anchor in whole.anchors} | ends


def _indices(whole: Arranged) -> dict[str, float | None]:
    """Return the price index of each joint of an arrangement, by its name."""
    found: dict[str, float | None] = {}
    for plan in whole.plans:
        for item, index in zip(plan.takeups, plan.price_indices, strict=True):
            found[item.name] = index
    return found


__all__ = ["MOST_STUDIES", "Hunt", "Proposal", "Refused", "hunt_of", "propose"]
