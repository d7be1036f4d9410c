"""What would have to give, where nothing fits.     (choose/arrange/relax.py)

Each relaxation is searched like the line itself, with a study to prove it. Anchors that carry what is asked of them;
nothing kept clear; room for a deeper loop. The cheapest that stands is told, with its numbers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar  # a results document is JSON

from takeup.choose.arrange.assemble import arranged, resolved_with
from takeup.choose.arrange.ground import Ground, ground_with
from takeup.choose.arrange.propose import Hunt, Progress, Proposal, hunt_of, propose
from takeup.choose.arrange.records import Place, Plan
from takeup.choose.arrange.search import Bounds
from takeup.choose.arrange.verify import Document
from takeup.line import End, Hold, Line, is_anchor
from takeup.line.allowed import LoopRoom
from takeup.results import results_of

_DEEPER_ROOM = "if a loop could go out by"
STUDIES_EACH = 15
"""Studies that are run for each relaxation."""
DEEPER = (1.5, 2.0, 3.0)
"""How many times as deep room for loops is tried."""
FIRST_DEPTH = 3.0
"""Depth that is tried where no room for loops is stated [m]."""

_TENTH = 100.0  # a tenth of a kilonewton [N], of a kilonewton metre [N m]
_ROUNDS = 4  # the first asks for all that fails; further ones for what shows only once a capacity is stated


@dataclass(frozen=True, kw_only=True, slots=True)
class Relaxation:
    """What would have to give, in words, and the best proposal then."""

    words: str
    proposal: Proposal


def relaxations(hunt: Hunt, progress: Progress | None = None, bounds: Bounds | None = None) -> tuple[Relaxation, ...]:
    """Return what would make something fit, the cheapest first.

    Args:
        hunt: that found nothing.
        progress: told of every study.
        bounds: of every path.
    """
    found = list(_unbounded(hunt, progress, bounds or Bounds()))
    for words, ground in _relaxed(hunt.ground):
        other = hunt_of(ground)
        other.most = STUDIES_EACH
        propose(other, 1, bounds=bounds, progress=progress)
        if other.proposals:
            best = other.proposals[0]
            plans = [other.plans[number] for number in best.path]
            depth = max((loop.depth for loop in best.whole.loops), default=0.0)
            said = words or asked_words(hunt.ground, asked_of_anchors(hunt.ground, plans))
            if words == _DEEPER_ROOM:
                if depth == 0.0:
                    continue  # more room for loops is not what helped
                said = f"{words} {depth:.1f} m"
            found.append(Relaxation(words=said, proposal=best))
    told = {one.words: one for one in sorted(found, key=lambda one: -one.proposal.cost)}
    return tuple(sorted(told.values(), key=lambda one: one.proposal.cost))


def _unbounded(hunt: Hunt, progress: Progress | None, bounds: Bounds) -> Iterator[Relaxation]:
    """Yield what more joints, or joints of several names, would bring; nothing where nobody bounds them."""
    freed = []
    if bounds.joints != math.inf:
        freed.append(replace(bounds, joints=math.inf))
    if bounds.alike:
        freed.append(replace(bounds, alike=False))
    for free in freed:
        other = hunt_of(hunt.ground)
        other.most = STUDIES_EACH
        propose(other, 1, bounds=free, progress=progress)
        for best in other.proposals:
            words = (
                "if its joints could differ" if free.alike != bounds.alike else f"if it could have {best.joints} joints"
            )
            yield Relaxation(words=words, proposal=best)


def _relaxed(ground: Ground) -> Iterator[tuple[str, Ground]]:
    """Yield grounds with one thing given up each; "" where the words follow from what is found."""
    lines = [course.line for course in ground.courses]
    yield "", _with(ground, map(_unlimited, lines), strong=True)
    if any(line.allowed.keep_clear for line in lines):
        free = (replace(line, allowed=replace(line.allowed, keep_clear=())) for line in lines)
        yield "if nothing had to be kept clear", _with(ground, free)
    nozzles = [end.name for line in lines for end in (line.start, line.end) if end.nozzle is not None]
    if nozzles:
        words = f"if the limits of the nozzle at {' and at '.join(nozzles)} did not hold"
        yield words, _with(ground, map(_without_nozzles, lines))
    for line in lines:
        for room in _deeper(line):
            rooms = (room, *line.allowed.loop_room[1:])
            yield _DEEPER_ROOM, _with(ground, [replace(line, allowed=replace(line.allowed, loop_room=rooms))])


def _unlimited(line: Line) -> Line:
    """Return a line whose ends and anchors carry whatever is asked of them: nobody says what they can.

    Limits of nozzles stay, since equipment is not made stronger by whoever builds the pipe.
    """
    holds = tuple(
        replace(hold, can_carry=None, can_carry_moment=None) if is_anchor(hold) else hold for hold in line.holds
    )
    start, end = (replace(one, can_carry=None, can_carry_moment=None) for one in (line.start, line.end))
    return replace(line, holds=holds, start=start, end=end)


def _without_nozzles(line: Line) -> Line:
    return replace(line, start=replace(line.start, nozzle=None), end=replace(line.end, nozzle=None))


def _deeper(line: Line) -> Iterator[LoopRoom]:
    rooms = line.allowed.loop_room
    if rooms:
        yield from (replace(rooms[0], depth=rooms[0].depth * times) for times in DEEPER)
        return
    length = sum(leg.length for leg in line.legs)
    along = line.legs[0].direction
    across = (-along[1], along[0], 0.0) if abs(along[2]) < 0.5 else (1.0, 0.0, 0.0)  # noqa: PLR2004 -- level or not
    yield from (LoopRoom(towards=across, depth=FIRST_DEPTH * times, start=0.0, end=length) for times in (1.0, 2.0))


def _with(ground: Ground, lines: Iterable[Line], *, strong: bool = False) -> Ground:
    """Return a ground with some lines in the stead of its own.

    Args:
        ground: of the search.
        lines: by their names.
        strong: whether every place carries what is asked of it.
    """
    own = {line.name: line for line in lines}
    study = replace(ground.study, lines=tuple(own.get(line.name, line) for line in ground.study.lines))
    changed = ground_with(study, ground.prices, ground.names)
    return changed.with_places(_bears_all) if strong else changed


def _bears_all(place: Place) -> Place:
    return replace(place, can_carry=math.inf, can_carry_moment=None)


@dataclass(frozen=True, kw_only=True, slots=True)
class Asked:
    """What an anchor would have to carry: a force [N] and a moment [N m]; None where what it can carry is enough."""

    name: str
    force: float | None
    moment: float | None


def asked_of_anchors(ground: Ground, plans: Sequence[Plan]) -> tuple[Asked, ...]:
    """Return what anchors are asked to carry beyond what they can, rounded up to a tenth of a kilonewton (metre).

    As the checks of the anchors will judge it, friction and combinations included, and the displaced equilibrium that
    is judged only once a capacity is said.

    Args:
        ground: as the file says it.
        plans: of a path that stands where every anchor carries all.
    """
    found: dict[str, Asked] = {}
    for _ in range(_ROUNDS):
        strong = granted(ground, tuple(found.values()))
        whole: Document = results_of(resolved_with(strong, arranged(strong, plans)))
        more = _over(ground, found, whole["checks"])
        if not more:
            break
        found |= more
    return tuple(found.values())


def _over(ground: Ground, known: Mapping[str, Asked], checks: Sequence[Mapping[str, Any]]) -> dict[str, Asked]:
    """Return anchors that fail, with the greatest force and moment that they are held against."""
    more: dict[str, Asked] = {}
    names = {place.name for place in ground.places if place.held}
    for row in checks:
        name = row["where"]
        if row["outcome"] == "fails" and name in names and row["demand"] is not None and row["unit"] in ("N", "N m"):
            before = more.get(name) or known.get(name) or Asked(name=name, force=None, moment=None)
            least = math.ceil(row["demand"] / _TENTH - 1e-9) * _TENTH
            if row["unit"] == "N":
                more[name] = replace(before, force=max(before.force or 0.0, least))
            else:
                more[name] = replace(before, moment=max(before.moment or 0.0, least))
    return more


def granted(ground: Ground, asked: Sequence[Asked]) -> Ground:
    """Return a ground whose anchors carry what they are asked to.

    Args:
        ground: as the file says it.
        asked: of its anchors.
    """
    by_name = {one.name: one for one in asked}
    lines = []
    for course in ground.courses:
        line = course.line
        start, end = (_strong(one, by_name) for one in (line.start, line.end))
        holds = tuple(_strong(hold, by_name) for hold in line.holds)
        lines.append(replace(line, holds=holds, start=start, end=end))
    return _with(ground, lines).with_places(lambda place: _strong_place(place, by_name))


_Held = TypeVar("_Held", End, Hold)


def _strong(one: _Held, asked: Mapping[str, Asked]) -> _Held:
    need = asked.get(one.name)
    if need is None:
        return one
    force = one.can_carry if need.force is None else need.force
    moment = one.can_carry_moment if need.moment is None else need.moment
    return replace(one, can_carry=force, can_carry_moment=moment)


def _strong_place(place: Place, asked: Mapping[str, Asked]) -> Place:
    need = asked.get(place.name)
    if need is None:
        return place
    force = place.can_carry if need.force is None else need.force
    return replace(
        place, can_carry=force, can_carry_moment=place.can_carry_moment if need.moment is None else need.moment
    )


def asked_words(ground: Ground, asked: Sequence[Asked]) -> str:
    """Return which anchors would have to carry more than they can, and how much."""
    can = {place.name: place for place in ground.places}
    parts = []
    for one in asked:
        if one.force is not None:
            parts.append(f"{one.name} {one.force / 1e3:.1f} kN instead of {can[one.name].can_carry / 1e3:g} kN")
        moment = can[one.name].can_carry_moment
        if one.moment is not None and moment is not None:
            parts.append(f"{one.name} {one.moment / 1e3:.1f} kN m instead of {moment / 1e3:g} kN m")
    return f"if {' and '.join(parts)} could be carried"


__all__ = ["Asked", "Relaxation", "asked_of_anchors", "asked_words", "granted", "relaxations"]
