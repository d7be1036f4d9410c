"""A line with loops of pipe put into its legs: the same line, longer, everything moved along.     (line/looped.py)

A loop turns one leg into five: along, out, along, back, along. The far end and every point past the loop stay where
they are in space; their stations grow by twice the depth, the two legs out and back. Plans go by stations of the bare
line. Whether there is room for a loop is judged elsewhere (choose/arrange/loops.py); here it is put in.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

import numpy as np

from takeup.line.allowed import Allowed
from takeup.line.choices import Choice
from takeup.line.conditions import Load
from takeup.line.holding import Hold
from takeup.line.parts import Bends, Corner, Leg, Position, Vector
from takeup.line.reading.going import DIRECTIONS
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.read_corners import mitre
from takeup.line.reading.wording import length_words
from takeup.line.records import Line, Study
from takeup.line.room import room_about
from takeup.units import parse

CORNERS = ("near corner", "far corner", "turn", "home corner")
"""Of a loop, along the flow."""
_DECIMALS = 6  # a leg is set out to the micrometre, so that its length in a file says all of it
_ROUNDING = 1e-9  # sums of lengths differ by less [m]


@dataclass(frozen=True, kw_only=True, slots=True)
class LoopPlan:
    """A loop to be put into a leg.

    Args:
        name: its own; those of its corners begin with it.
        station: of its middle, on the bare line [m].
        width: between the centre lines of the legs that go out and back [m].
        depth: how far its centre line goes out, square to its leg [m].
        towards: to which side of its leg, of length one.
    """

    name: str
    station: float
    width: float
    depth: float
    towards: Vector

    @property
    def begin(self) -> float:
        """Station of its first corner [m]."""
        return self.station - self.width / 2.0

    @property
    def finish(self) -> float:
        """Station at which the bare line is met again [m]."""
        return self.station + self.width / 2.0

    @property
    def corners(self) -> tuple[str, ...]:
        """The names of its corners, along the flow."""
        return tuple(f"{self.name} {words}" for words in CORNERS)


def moved_station(station: float, plans: Sequence[LoopPlan]) -> float:
    """Return where a station of the bare line is, once loops are in it [m]."""
    passed = sum(2.0 * plan.depth for plan in plans if station >= plan.finish - SAME_PLACE)
    within = sum(plan.depth for plan in plans if plan.begin + SAME_PLACE < station < plan.finish - SAME_PLACE)
    return station + passed + within


def tangent_of(bends: Bends) -> float:
    """Return what a square bend takes of either leg, T = R tan 45 deg = R [m]."""
    return bends.radius or 0.0


def way_out(direction: Vector, towards: Vector) -> Vector:
    """Return the way square to a leg on the side of another way, of length one."""
    along = math.fsum(one * other for one, other in zip(direction, towards, strict=True))
    if abs(along) < _ROUNDING:
        return towards
    x, y, z = (one - along * other for one, other in zip(towards, direction, strict=True))
    size = math.hypot(x, y, z)
    square = (x / size, y / size, z / size)
    near = (known for known in DIRECTIONS.values() if np.allclose(known, square, rtol=0.0, atol=_ROUNDING))
    return next(near, square)


def stations_of(line: Line) -> tuple[float, ...]:
    """Return the stations of the corners of a line, both ends included [m]."""
    return (0.0, *accumulate(leg.length for leg in line.legs))


def leg_of(line: Line, plan: LoopPlan) -> int:
    """Return the number of the leg that a loop is to be put into: that of its middle."""
    stations = stations_of(line)
    return int(np.clip(np.searchsorted(stations, plan.station) - 1, 0, len(line.legs) - 1))


def legs_with(line: Line, plans: Sequence[LoopPlan]) -> tuple[tuple[Leg, ...], ...]:
    """Return of each leg of a line the legs that it becomes.

    Args:
        line: the bare line.
        plans: loops, none over another.
    """
    begun = stations_of(line)
    found = []
    for number, leg in enumerate(line.legs):
        own = sorted((plan for plan in plans if leg_of(line, plan) == number), key=lambda plan: plan.station)
        found.append(_split(line, leg, (begun[number], begun[number + 1]), own) if own else (leg,))
    return tuple(found)


def _split(line: Line, leg: Leg, stretch: tuple[float, float], plans: Sequence[LoopPlan]) -> tuple[Leg, ...]:
    """Return the legs of one with loops: four for each, and the rest of it, which keeps its corner."""
    place, finish = stretch
    legs: list[Leg] = []
    for plan in plans:
        bends = line.section_at(plan.station).pipe.bends
        out = way_out(leg.direction, plan.towards)
        back = (0.0 - out[0], 0.0 - out[1], 0.0 - out[2])
        before = round(plan.begin - place, _DECIMALS)
        ways = ((leg.direction, before), (out, plan.depth), (leg.direction, plan.width), (back, plan.depth))
        corners = (_corner(name, bends) for name in plan.corners)
        legs += [Leg(direction=way, length=far, to=to) for (way, far), to in zip(ways, corners, strict=True)]
        place += before + plan.width
    rest = finish - place
    short = round(rest, _DECIMALS)
    return (*legs, replace(leg, length=short if abs(short - rest) < _ROUNDING else rest))


def _corner(name: str, bends: Bends) -> Corner:
    made = mitre(bends.cuts, bends.radius, math.pi / 2.0)
    return Corner(name=name, bend_radius=bends.radius, bend_words=bends.words, mitre=made)


def default_name(hold: Hold, words: str, line: str, *, many: bool) -> str:
    """Return what a hold is called whose name the file does not say, with its place in these words."""
    name = f"{hold.kind} at {words}"
    return f"{name} of {line}" if many else name


def hold_places(hold: Hold) -> str:
    """Return the words of a hold's place alone, without where on the bend it stands."""
    return hold.position.words.removesuffix(f", {hold.position.on_bend}")


def route_places(line: Line) -> dict[str, float]:
    """Return the named places of a route and their stations [m]; changes of pipe have no name in the record."""
    stations = stations_of(line)
    found = {line.start.name: 0.0}
    found |= {leg.to.name: station for leg, station in zip(line.legs, stations[1:], strict=True)}
    for item in line.items:
        found[item.name] = (item.start + item.end) / 2.0
        found |= {f"first face of {item.name}": item.start, f"last face of {item.name}": item.end}
    return found


def places_of(line: Line) -> dict[str, float]:
    """Return the named places of a line and their stations, its holds and take-ups among them [m]."""
    found = {one.name: one.position.station for one in line.holds}
    found |= {one.name: one.position.station for one in line.takeups}
    found |= {one.name: one.position.station for one in line.choices}
    return found | route_places(line)


@dataclass(frozen=True, kw_only=True, slots=True)
class Moving:
    """How places of one line move when loops are put into it.

    Args:
        places: the named places of the bare line and their stations [m].
        plans: the loops.
        renamed: holds named by their place, which is called otherwise now.
    """

    places: Mapping[str, float]
    plans: tuple[LoopPlan, ...]
    renamed: Mapping[str, str]

    def station(self, station: float) -> float:
        """Return where a station of the bare line is now [m]."""
        return moved_station(station, self.plans)

    def words(self, words: str, station: float) -> str:
        """Return the words of a place that was called so at a station of the bare line; the old ones where they do."""
        wanted = self.station(station)
        named = self._named(words)
        if named is None:
            return words if abs(wanted - station) < _ROUNDING else length_words(wanted)
        name, distance = named
        new = self.renamed.get(name, name)
        away = wanted - self.station(self.places[name])
        if abs(away - distance) < _ROUNDING:
            return words if new == name else new + words.removeprefix(name)
        away = round(away, _DECIMALS) if abs(round(away, _DECIMALS) - away) < _ROUNDING else away
        return f"{new} {'-' if away < 0.0 else '+'} {length_words(abs(away))}" if away else new

    def position(self, position: Position) -> Position:
        """Return a place as it is now."""
        suffix = f", {position.on_bend}" if position.on_bend else ""
        base = position.words.removesuffix(suffix)
        at = position.station
        if suffix:
            named = self._named(base)
            at = parse(base, "length") if named is None else self.places[named[0]] + named[1]
        return replace(position, words=self.words(base, at) + suffix, station=self.station(position.station))

    def _named(self, words: str) -> tuple[str, float] | None:
        """Return the name that a place is told by, and how far from it [m]; None for a station."""
        if words in self.places:
            return words, 0.0
        for sign, factor in ((" + ", 1.0), (" - ", -1.0)):
            name, found, distance = words.partition(sign)
            if found and name.strip() in self.places:
                return name.strip(), factor * parse(distance, "length")
        return None


def moving(line: Line, plans: Sequence[LoopPlan], *, many: bool) -> Moving:
    """Return how the places of a line move.

    Args:
        line: the bare line.
        plans: loops.
        many: whether its file has several lines.
    """
    ordered = tuple(sorted(plans, key=lambda plan: plan.station))
    renamed: dict[str, str] = {}
    first = Moving(places=places_of(line), plans=ordered, renamed=renamed)
    for hold in line.holds:
        if hold.name == default_name(hold, hold_places(hold), line.name, many=many):
            base = replace(hold, position=first.position(hold.position))
            renamed[hold.name] = default_name(hold, hold_places(base), line.name, many=many)
    return first


def looped(study: Study, name: str, plans: Sequence[LoopPlan]) -> Study:
    """Return a study with loops put into one of its lines, everything on that line moved along.

    Args:
        study: with the bare line.
        name: of the line.
        plans: loops for which there is room, none over another.
    """
    bare = study.line(name)
    move = moving(bare, plans, many=len(study.lines) > 1)
    lines = tuple(_looped(one, move) if one.name == name else _leaving(one, name, move) for one in study.lines)
    loads = tuple(_load(load, move) if load.line == name else load for load in study.loads)
    return replace(study, lines=lines, loads=loads)


def _looped(line: Line, move: Moving) -> Line:
    to = move.station
    return replace(
        line,
        legs=tuple(leg for legs in legs_with(line, move.plans) for leg in legs),
        sections=tuple(replace(one, start=to(one.start), end=to(one.end)) for one in line.sections),
        items=tuple(replace(one, start=to(one.start), end=to(one.end)) for one in line.items),
        holds=tuple(_hold(one, move) for one in line.holds),
        takeups=tuple(replace(one, position=move.position(one.position)) for one in line.takeups),
        choices=tuple(_choice(line, one, move) for one in line.choices),
        zones=tuple(replace(one, position=move.position(one.position)) for one in line.zones),
        allowed=_allowed(line, move),
    )


def _hold(hold: Hold, move: Moving) -> Hold:
    return replace(hold, name=move.renamed.get(hold.name, hold.name), position=move.position(hold.position))


def _choice(line: Line, choice: Choice, move: Moving) -> Choice:
    """Return a place for a joint, with the room that a loop leaves beside it."""
    position = move.position(choice.position)
    room = room_about(choice.position.station, [spread(line, plan) for plan in move.plans])
    return replace(choice, position=position, room=min(choice.room, room))


def spread(line: Line, plan: LoopPlan) -> tuple[float, float]:
    """Return from where to where a loop with its bends takes the bare line [m]."""
    tangent = tangent_of(line.section_at(plan.station).pipe.bends)
    return plan.begin - tangent, plan.finish + tangent


def _allowed(line: Line, move: Moving) -> Allowed:
    """Return what the building allows; a place within a loop is none any more."""
    spreads = [spread(line, plan) for plan in move.plans]
    to, allowed = move.station, line.allowed
    return replace(
        allowed,
        may_hold=tuple(
            replace(one, station=to(one.station), words=move.words(one.words, one.station))
            for one in allowed.may_hold
            if not any(begin < one.station < finish for begin, finish in spreads)
        ),
        keep_clear=tuple((to(begin), to(finish)) for begin, finish in allowed.keep_clear),
        loop_room=tuple(replace(one, start=to(one.start), end=to(one.end)) for one in allowed.loop_room),
    )


def _leaving(line: Line, main: str, move: Moving) -> Line:
    if line.branch is None or line.branch.of != main:
        return line
    return replace(line, branch=replace(line.branch, position=move.position(line.branch.position)))


def _load(load: Load, move: Moving) -> Load:
    end = None if load.end is None else move.position(load.end)
    return replace(load, start=move.position(load.start), end=end)


__all__ = [
    "CORNERS",
    "LoopPlan",
    "Moving",
    "default_name",
    "hold_places",
    "leg_of",
    "legs_with",
    "looped",
    "moved_station",
    "moving",
    "places_of",
    "route_places",
    "spread",
    "stations_of",
    "tangent_of",
    "way_out",
]
