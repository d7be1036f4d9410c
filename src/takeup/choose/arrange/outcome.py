"""One call for all of it: proposals, their front, and what would have to give.     (choose/arrange/outcome.py)

An interruption keeps what was found: what is proved by then is put in order and handed over, and said to be so.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.choose.arrange.front import front, undominated
from takeup.choose.arrange.propose import Hunt, Progress, Proposal, measured, propose
from takeup.choose.arrange.relax import Relaxation, relaxations
from takeup.choose.arrange.search import Bounds, Measure

FRONT_STUDIES = 30
"""Studies that are run beyond those of the proposals, for the front alone."""

Stopped = Literal["", "interrupted", "interrupted at the front", "most studies run"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Outcome:
    """What a search came to.

    Args:
        hunt: with the proposals, best first.
        measure: by which they are the best.
        asked: how many were.
        bounds: of every proposal.
        front: proposals that none betters in cost, load and joints at once, of those verified.
        front_whole: whether nothing was left untried for it.
        relaxations: what would make something fit, the cheapest first; only where nothing does.
        stopped: why it ended before its time; "" where it did not.
    """

    hunt: Hunt
    measure: Measure
    asked: int
    bounds: Bounds
    front: tuple[Proposal, ...]
    front_whole: bool
    relaxations: tuple[Relaxation, ...]
    stopped: Stopped

    @property
    def interrupted(self) -> bool:
        """Whether somebody interrupted it."""
        return self.stopped.startswith("interrupted")


def outcome_of(
    hunt: Hunt,
    best: int,
    *,
    measure: Measure = "cost",
    bounds: Bounds | None = None,
    progress: Progress | None = None,
) -> Outcome:
    """Run a search to its end, or until it is interrupted.

    Args:
        hunt: with nothing proved yet.
        best: how many proposals are wanted.
        measure: by which they are the best.
        bounds: of every proposal.
        progress: told of every study.
    """
    stopped: Stopped = ""
    whole, given = False, tuple[Relaxation, ...]()
    try:
        propose(hunt, best, measure=measure, bounds=bounds, progress=progress)
        stopped = "most studies run" if hunt.exhausted else ""
    except KeyboardInterrupt:
        stopped = "interrupted"
    if stopped:
        hunt.proposals = sorted(_proved(hunt), key=lambda one: (measured(one, measure), one.path))[:best]
    if stopped != "interrupted":
        try:
            if hunt.proposals:
                whole = _front_is_whole(hunt, progress, bounds)
            elif not hunt.hopeless:
                given = relaxations(hunt, progress, bounds)
        except KeyboardInterrupt:
            stopped = "interrupted at the front"
    return Outcome(
        hunt=hunt,
        measure=measure,
        asked=best,
        bounds=bounds or Bounds(),
        front=undominated(_proved(hunt)),
        front_whole=whole,
        relaxations=given,
        stopped=stopped,
    )


def _proved(hunt: Hunt) -> list[Proposal]:
    return [one for one in hunt.proved.values() if one is not None]


def _front_is_whole(hunt: Hunt, progress: Progress | None, bounds: Bounds | None) -> bool:
    """Run the studies of the front, into the hunt; return whether all that it asks for were."""
    kept, most = hunt.proposals, hunt.most
    hunt.exhausted, hunt.most = False, hunt.studies + FRONT_STUDIES
    try:
        front(hunt, progress, bounds)
        return not hunt.exhausted
    finally:
        hunt.proposals, hunt.most = kept, most


__all__ = ["FRONT_STUDIES", "Outcome", "outcome_of"]
