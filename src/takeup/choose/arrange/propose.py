"""The best arrangements of a bare line, each proved by its own study.     (choose/arrange/propose.py)

Paths come out of the search by what they cost at least. Each is put together, its guides and rests placed, and put back
by what it costs then; when it comes out again its own study is run; if that stands it is put back once more by what it
costs with the anchors as the study loads them. What comes out a third time is the next best proposal. A cost only grows
on the way, so nothing cheaper is still to come; and a plan that fails in one study is never tried in another.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from takeup.choose.arrange.assemble import arranged, plans_on, resolved_with
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.hands import Hands
from takeup.choose.arrange.junctions import LIGHTEST, Junctions, junction_loads, junctions_of
from takeup.choose.arrange.parts import Part, cost_of, parts_of
from takeup.choose.arrange.records import Arranged, Plan, Refusal
from takeup.choose.arrange.search import (
    Bounds,
    Key,
    Measure,
    Path,
    Together,
    Web,
    is_refused,
    paths_in_order,
    web_on,
)
from takeup.choose.arrange.spans import plans_of
from takeup.choose.arrange.tasks import begin_studies, plans_by, study_by
from takeup.choose.arrange.verify import Verified, verified
from takeup.line import Study
from takeup.mechanics import Memory

MOST_STUDIES = 200
"""Studies that are run for one call before it is said that more were not tried."""
MOST_PLACED = 300
"""Paths of which guides and rests are placed for one call before the best of those is studied, whatever else waits."""
FURTHER = 500
"""Holds in all lines of further studies, once as many proposals stand as are asked for: so much work goes into the
proof that nothing better is still to come. Short lines are proved to the end; of a long one it is said that more were
not tried."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Proposal:
    """One complete arrangement.

    Args:
        path: its plans' numbers.
        whole: its plans and anchors.
        found: its own study.
        parts: what it adds to the line as given.
        cost: of these, an index.
        anchor_loads: the greatest force on each of its anchors and ends, by the number of its place [N].
    """

    path: Path
    whole: Arranged
    found: Verified
    parts: tuple[Part, ...]
    cost: float
    anchor_loads: dict[int, float]

    @property
    def joints(self) -> int:
        """How many joints it adds."""
        return sum(len(plan.takeups) for plan in self.whole.plans)

    @property
    def greatest_load(self) -> tuple[int, float]:
        """The place that its study loads most, ends among them, and the load [N]."""
        return max(self.anchor_loads.items(), key=lambda item: item[1])


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
        most: studies that may be run.
        held: holds in the lines of the last study.
        memory: of what any study found of a stretch between anchors.
        placed: what each path costs with its guides and rests placed, as far as it came to that.
        proved: what the own study of each path said: its proposal, None where it fails.
        failing: plans that fail whatever stands beside them.
        together: plans that fail together.
        hopeless: why nothing stands whatever is arranged; "" while nobody knows of that.
        met: what meets where, and for which plans it was worked out.
        hands: other processes for the studies; None for none.
    """

    ground: Ground
    plans: tuple[Plan, ...]
    refusals: tuple[Refusal, ...]
    proposals: list[Proposal] = field(default_factory=list)
    refused: list[Refused] = field(default_factory=list)
    studies: int = 0
    exhausted: bool = False
    most: int = MOST_STUDIES
    held: int = 0
    memory: Memory = field(default_factory=Memory)
    placed: dict[Path, float] = field(default_factory=dict)
    proved: dict[Path, Proposal | None] = field(default_factory=dict)
    failing: set[int] = field(default_factory=set)
    together: set[Together] = field(default_factory=set)
    hopeless: str = ""
    met: tuple[tuple[Plan, ...], Junctions] | None = None
    hands: Hands | None = None

    def junctions(self) -> Junctions:
        """Return what meets where, worked out once for the same plans."""
        if self.met is None or self.met[0] is not self.plans:
            self.met = self.plans, junctions_of(self.ground.places, self.plans)
        return self.met[1]


Progress = Callable[[Hunt, str], None]
_Waiting = tuple[Key, int, int, Path, Proposal | None]
"""What it is put in order by, its stage and its turn; the path, and its proposal once it is proved."""


def hunt_of(ground: Ground, hands: Hands | None = None) -> Hunt:
    """Return a search with the plans of every span, nothing proved yet.

    Args:
        ground: what it stands on.
        hands: other processes for the studies, which stand on the same; None for none.
    """
    plans, refusals = plans_of(ground) if hands is None else plans_by(hands)
    return Hunt(ground=ground, plans=plans, refusals=refusals, hands=hands)


def propose(
    hunt: Hunt,
    best: int,
    *,
    measure: Measure = "cost",
    bounds: Bounds | None = None,
    progress: Progress | None = None,
) -> Web:
    """Find the best arrangements, and put them into the hunt as they are proved.

    Args:
        hunt: that goes on.
        best: how many are wanted.
        measure: by which they are the best; ties of it go by cost.
        bounds: of every path.
        progress: told of every study.

    Returns:
        The web, with what was refused in it.
    """
    web = replace(
        web_on(hunt.junctions(), hunt.ground.prices, bounds),
        refused=hunt.failing,
        together=hunt.together,
    )
    found = _in_order(hunt, web, measure, best, progress or (lambda _hunt, _words: None))
    hunt.proposals = []
    for proposal in itertools.islice(found, best):
        hunt.proposals.append(proposal)
    return web


def best_within(hunt: Hunt, bounds: Bounds, progress: Progress | None = None) -> Proposal | None:
    """Return the cheapest proposal within bounds; None where there is none. The hunt's own proposals stay.

    Args:
        hunt: that goes on.
        bounds: of every path.
        progress: told of every study.
    """
    kept = hunt.proposals
    propose(hunt, 1, bounds=bounds, progress=progress)
    found = hunt.proposals[0] if hunt.proposals else None
    hunt.proposals = kept
    return found


def _in_order(hunt: Hunt, web: Web, measure: Measure, best: int, progress: Progress) -> Iterator[Proposal]:
    """Yield proposals by their measure; each candidate goes through its three stages."""
    coming = paths_in_order(web, measure)
    ahead = next(coming, None)
    ticket = itertools.count()
    waiting: list[_Waiting] = []
    stand = further = placed = 0
    while (ahead is not None or waiting) and not hunt.hopeless:
        is_next = ahead is not None and (not waiting or ahead[0] <= waiting[0][0] or _too_few(hunt, waiting))
        if is_next and waiting and placed >= MOST_PLACED:
            hunt.exhausted, is_next = True, False  # what may be better is not looked at
        if ahead is not None and is_next:
            least, path = ahead
            placed += 1
            if path not in hunt.placed:
                hunt.placed[path] = _cost_placed(hunt, path)
            cost = max(hunt.placed[path], least[1])
            key = (cost if measure == "cost" else least[0], cost)
            heapq.heappush(waiting, (key, 1, next(ticket), path, None))
            _begin_ahead(hunt, web, waiting)
            ahead = next(coming, None)
            continue
        _, _, _, path, proposal = heapq.heappop(waiting)
        if proposal is not None:
            yield proposal
        elif not is_refused(web, path):
            if path not in hunt.proved:
                if hunt.studies >= hunt.most or (stand >= best and further >= FURTHER):
                    hunt.exhausted = True
                    yield from _proved_yet(waiting)
                    return
                hunt.proved[path] = _prove(hunt, path, progress, _likely(hunt, web, waiting))
                further += hunt.held if stand >= best else 0
            proved = hunt.proved[path]
            if proved is not None and proved.greatest_load[1] <= web.bounds.load:
                stand += 1
                heapq.heappush(waiting, (measured(proved, measure), 2, next(ticket), path, proved))


def _too_few(hunt: Hunt, waiting: Sequence[_Waiting]) -> bool:
    """Whether fewer paths wait for their studies than there are hands."""
    return hunt.hands is not None and sum(item[4] is None for item in waiting) <= hunt.hands.count


def _begin_ahead(hunt: Hunt, web: Web, waiting: Sequence[_Waiting]) -> None:
    """Have hands that would be idle begin the studies that are likely to be asked for first."""
    if hunt.hands is not None and hunt.hands.idle:
        begin_studies(hunt.hands, {path: _plans(hunt, path) for path in _likely(hunt, web, waiting)})


def _likely(hunt: Hunt, web: Web, waiting: Sequence[_Waiting]) -> list[Path]:
    """Return the paths that are likely to be studied next, as many as there are hands."""
    if hunt.hands is None:
        return []
    coming = (item[3] for item in sorted(waiting, key=lambda item: item[:3]) if item[4] is None)
    unknown = (path for path in coming if path not in hunt.proved and not is_refused(web, path))
    return list(itertools.islice(unknown, hunt.hands.count))


def _proved_yet(waiting: Sequence[_Waiting]) -> Iterator[Proposal]:
    """Yield what is proved of those that wait, the best first: nobody knows what else would have come between them."""
    yield from (item[4] for item in sorted(waiting, key=lambda item: item[:3]) if item[4] is not None)


def measured(proposal: Proposal, measure: Measure) -> Key:
    """Return what a proposal is put in order by."""
    first = {"cost": proposal.cost, "joints": float(proposal.joints), "anchor-load": proposal.greatest_load[1]}[measure]
    return first, proposal.cost


def _cost_placed(hunt: Hunt, path: Path) -> float:
    """Return what a path costs with its guides and rests as they are placed, anchors by their least load."""
    ground = hunt.ground
    whole = arranged(ground, _plans(hunt, path))
    loads = {}
    for before, after in itertools.pairwise(whole.plans):
        if before.far == after.near:
            loads[before.far] = LIGHTEST * float(junction_loads([before], [after])[0, 0])
    return cost_of(_parts(ground, whole, resolved_with(ground, whole), _named(ground, loads)))


def _plans(hunt: Hunt, path: Path) -> list[Plan]:
    return [hunt.plans[number] for number in path]


def _named(ground: Ground, loads: Mapping[int, float]) -> dict[tuple[str, str], float]:
    """Return loads by line and name of their places."""
    return {(ground.places[place].line, ground.places[place].name): load for place, load in loads.items()}


def _parts(ground: Ground, whole: Arranged, study: Study, loads: Mapping[tuple[str, str], float]) -> tuple[Part, ...]:
    """Return what an arrangement adds to all of its lines.

    Args:
        ground: of the search.
        whole: the arrangement.
        study: of it, resolved.
        loads: on its new anchors, by line and name [N].
    """
    indices, parts = _indices(whole), list[Part]()
    for course in ground.courses:
        name = course.line.name
        own = {hold: load for (line, hold), load in loads.items() if line == name}
        parts += parts_of(course.line, study.line(name), loads=own, indices=indices, prices=ground.prices)
    return tuple(parts)


def _prove(hunt: Hunt, path: Path, progress: Progress, likely: Sequence[Path] = ()) -> Proposal | None:
    """Return a path with its own study, where that stands; else note who is to blame.

    Args:
        hunt: it is noted in.
        path: of the plans.
        progress: told of the study.
        likely: paths whose studies are likely to be asked for next.
    """
    ground = hunt.ground
    whole = arranged(ground, _plans(hunt, path))
    hunt.studies += 1
    progress(hunt, _told(ground, whole))
    found = _study_of(hunt, whole, path, likely)
    hunt.held = sum(len(line.holds) for line in found.study.lines)
    if not found.stands:
        for one in found.blamed:
            numbers = frozenset(path[place] for place in one)
            if len(numbers) == 1:
                hunt.failing |= numbers
            else:
                hunt.together.add(numbers)
        hunt.hopeless = hunt.hopeless or found.hopeless
        hunt.refused.append(Refused(plans=whole.plans, because=found.because))
        return None
    ends = {end for plan in whole.plans for end in (plan.near, plan.far) if ground.places[end].held}
    anchors = {end: found.loads[ground.places[end].line, ground.places[end].name] for end in sorted(ends)}
    parts = _parts(ground, whole, found.study, found.loads)
    return Proposal(path=path, whole=whole, found=found, parts=parts, cost=cost_of(parts), anchor_loads=anchors)


def _study_of(hunt: Hunt, whole: Arranged, path: Path, likely: Sequence[Path]) -> Verified:
    """Return what the study of a path says; where there are hands they begin those that are likely to follow."""
    if hunt.hands is None:
        return verified(hunt.ground, whole, hunt.memory)
    begin_studies(hunt.hands, {one: _plans(hunt, one) for one in (path, *likely)})
    return study_by(hunt.hands, path)


def _told(ground: Ground, whole: Arranged) -> str:
    """Return the concepts of an arrangement, line by line."""
    return "; ".join(
        " | ".join(plan.concept for plan in plans_on(ground, whole.plans, course)) for course in ground.courses
    )


def _indices(whole: Arranged) -> dict[str, float | None]:
    """Return the price index of each joint of an arrangement, by its name."""
    found: dict[str, float | None] = {}
    for plan in whole.plans:
        for item, index in zip(plan.takeups, plan.price_indices, strict=True):
            found[item.name] = index
    return found


__all__ = ["MOST_STUDIES", "Hunt", "Progress", "Proposal", "Refused", "best_within", "hunt_of", "measured", "propose"]
