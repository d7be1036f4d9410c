"""What would have to give, where nothing fits.     (choose/arrange/relax.py)

Each relaxation is searched like the line itself, with a study to prove it. Anchors that carry what is asked of them;
nothing kept clear; room for a deeper loop. The cheapest that stands is told, with its numbers.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.places import places_of
from takeup.choose.arrange.propose import Hunt, Progress, Proposal, hunt_of, propose
from takeup.choose.arrange.records import Place
from takeup.line import Line
from takeup.line.allowed import LoopRoom

STUDIES_EACH = 15
"""Studies that are run for each relaxation."""
DEEPER = (1.5, 2.0, 3.0)
"""How many times as deep room for loops is tried."""
FIRST_DEPTH = 3.0
"""Depth that is tried where no room for loops is stated [m]."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Relaxation:
    """What would have to give, in words, and the best proposal then."""

    words: str
    proposal: Proposal


def relaxations(hunt: Hunt, progress: Progress | None = None) -> tuple[Relaxation, ...]:
    """Return what would make something fit, the cheapest first.

    Args:
        hunt: that found nothing.
        progress: told of every study.
    """
    found = []
    for words, ground in _relaxed(hunt.ground):
        other = hunt_of(ground)
        other.most = STUDIES_EACH
        propose(other, 1, progress=progress)
        if other.proposals:
            best = other.proposals[0]
            found.append(Relaxation(words=words or _asked_of_anchors(hunt.ground, best), proposal=best))
    return tuple(sorted(found, key=lambda one: one.proposal.cost))


def _relaxed(ground: Ground) -> Iterator[tuple[str, Ground]]:
    """Yield grounds with one thing given up each; "" where the words follow from what is found."""
    strong = tuple(replace(place, can_carry=math.inf, can_carry_moment=None) for place in ground.places)
    yield "", _with(ground, _unlimited(ground.line), strong)
    if ground.line.allowed.keep_clear:
        line = replace(ground.line, allowed=replace(ground.line.allowed, keep_clear=()))
        yield "if nothing had to be kept clear", _with(ground, line, places_of(line))
    for room in _deeper(ground.line):
        line = replace(ground.line, allowed=replace(ground.line.allowed, loop_room=(room,)))
        yield f"if a loop could go out by {room.depth:.1f} m", _with(ground, line, ground.places)


def _unlimited(line: Line) -> Line:
    """Return a line whose ends and anchors carry whatever is asked of them: nobody says what they can."""
    holds = tuple(
        replace(hold, can_carry=None, can_carry_moment=None) if "anchor" in hold.kind else hold for hold in line.holds
    )
    ends = {name: replace(end, can_carry=None, can_carry_moment=None, nozzle=None)
            for name, end in (("start", line.start), ("end", line.end))}  # fmt: skip
    return replace(line, holds=holds, start=ends["start"], end=ends["end"])


def _deeper(line: Line) -> Iterator[LoopRoom]:
    rooms = line.allowed.loop_room
    if rooms:
        yield from (replace(rooms[0], depth=rooms[0].depth * times) for times in DEEPER)
        return
    length = sum(leg.length for leg in line.legs)
    along = line.legs[0].direction
    across = (-along[1], along[0], 0.0) if abs(along[2]) < 0.5 else (1.0, 0.0, 0.0)  # noqa: PLR2004 -- level or not
    yield from (LoopRoom(towards=across, depth=FIRST_DEPTH * times, start=0.0, end=length) for times in (1.0, 2.0))


def _with(ground: Ground, line: Line, places: tuple[Place, ...]) -> Ground:
    study = replace(ground.study, lines=tuple(line if one.name == line.name else one for one in ground.study.lines))
    return Ground(study=study, line=line, places=places, prices=ground.prices)


def _asked_of_anchors(ground: Ground, best: Proposal) -> str:
    """Return which anchors would have to carry more than they can, and how much."""
    can = {place.name: place.can_carry for place in ground.places}
    over = [
        f"{name} {load / 1e3:.1f} kN instead of {can[name] / 1e3:.1f} kN"
        for name, load in best.anchor_loads.items()
        if load > can.get(name, math.inf)
    ]
    if over:
        return f"if {' and '.join(over)} could be carried"
    return "if the anchors could carry the moments of it"


__all__ = ["Relaxation", "relaxations"]
