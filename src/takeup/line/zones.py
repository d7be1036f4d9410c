"""What bounds a line: stretches between its anchors, and zones of one pressure and temperature.     (line/zones.py)

A stretch lies between neighbouring anchors or ends of one line: the hand calculations and the joint rules look at it.
A zone may reach over several lines: it is bounded by anchors, by valves that can close and by places the user names,
and a branch belongs to the zone of its main unless something bounds it. Taking away one bound leaves what is before
it and what is beyond it; where the lines close a ring it parts nothing, and has no one-sided states. Where lines
warm leg by leg, their corners part zones too: those differ in temperature while warming, and in nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from takeup.line.conditions import Conditions
from takeup.line.holding import ANCHORED_ENDS, ANCHORS, Hold
from takeup.line.records import Line, Study
from takeup.line.route import SAME_STATION, route_of

BoundKind = Literal["end", "anchor", "valve", "place", "corner"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Stretch:
    """A stretch between two neighbouring anchors or ends of one line, stations in metres."""

    name: str
    start: float
    end: float


@dataclass(frozen=True, kw_only=True, slots=True)
class ZonePart:
    """What a zone has of one line, stations in metres."""

    line: str
    start: float
    end: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Zone:
    """One zone: its parts, the first of them on the line that it is named after."""

    name: str
    parts: tuple[ZonePart, ...]
    conditions: Conditions


@dataclass(frozen=True, kw_only=True, slots=True)
class Bound:
    """Something between two zones: its name, and the numbers of all zones before it and beyond it."""

    name: str
    kind: BoundKind
    before: frozenset[int]
    beyond: frozenset[int]
    next: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Zones:
    """The zones of a study, along the flow, and what parts them."""

    every: tuple[Zone, ...]
    bounds: tuple[Bound, ...]

    def number(self, line: str, station: float) -> int:
        """Return the number of the zone at a station of a line; at a bound, of the zone before it."""
        found = -1
        for number, zone in enumerate(self.every):
            for part in zone.parts:
                if part.line == line and part.start <= station:
                    found = number
                    if station <= part.end + SAME_STATION:
                        return number
        return found


def is_anchor(hold: Hold) -> bool:
    """Whether a hold holds all six directions."""
    return hold.kind in ANCHORS and hold.only_in is None


def anchor_stations(line: Line) -> tuple[tuple[str, float], ...]:
    """Return name and station of everything that bounds a stretch: both ends and every anchor, in order."""
    inner = sorted((hold.position.station, hold.name) for hold in line.holds if is_anchor(hold))
    length = sum(leg.length for leg in line.legs)
    return ((line.start.name, 0.0), *((name, station) for station, name in inner), (line.end.name, length))


def stretches_of(line: Line) -> tuple[Stretch, ...]:
    """Return the stretches of a line between its anchors, along the flow."""
    return tuple(
        Stretch(name=f"{first} to {second}", start=begin, end=finish)
        for (first, begin), (second, finish) in pairwise(anchor_stations(line))
    )


def anchored_ends(line: Line) -> tuple[str, ...]:
    """Return the names of the ends that hold the line."""
    return tuple(end.name for end in (line.start, line.end) if end.kind in ANCHORED_ENDS)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Cut:
    name: str
    kind: BoundKind
    station: float
    conditions: Conditions | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class _Part:
    line: Line
    first: _Cut
    last: _Cut
    conditions: Conditions | None


def zones_of(study: Study) -> Zones:
    """Return the zones of a study and what parts them.

    Args:
        study: the file, rules resolved or not: no rule bounds a zone.
    """
    parts = [part for line in study.lines for part in _parts_of(line, by_leg=study.warming == "leg by leg")]
    owner = _merged(parts)
    order = list(dict.fromkeys(owner))
    zone_of = [order.index(first) for first in owner]
    every = tuple(
        _zone(study, [part for part, n in zip(parts, zone_of, strict=True) if n == k]) for k in range(len(order))
    )
    links = list(_links(parts, zone_of))
    bounds = []
    for name in dict.fromkeys(name for name, _, _, _ in links):
        bounds += _bounds_of(name, links, len(every))
    return Zones(every=every, bounds=tuple(bounds))


def _cuts_of(line: Line, *, by_leg: bool) -> list[_Cut]:
    stations = anchor_stations(line)
    cuts = [_Cut(name=name, kind="anchor", station=station) for name, station in stations[1:-1]]
    cuts += [
        _Cut(name=item.name, kind="valve", station=(item.start + item.end) / 2.0)
        for item in line.items
        if item.can_close
    ]
    cuts += [
        _Cut(name=rule.name, kind="place", station=rule.position.station, conditions=rule.conditions)
        for rule in line.zones
    ]
    taken = [cut.station for cut in cuts]
    if by_leg:
        cuts += [
            _Cut(name=turn.name, kind="corner", station=turn.station)
            for turn in route_of(line).turns
            if all(abs(turn.station - other) > SAME_STATION for other in taken)
        ]
    cuts = sorted(cuts, key=lambda cut: cut.station)
    (first, begin), (last, finish) = stations[0], stations[-1]
    return [_Cut(name=first, kind="end", station=begin), *cuts, _Cut(name=last, kind="end", station=finish)]


def _parts_of(line: Line, *, by_leg: bool) -> Iterator[_Part]:
    own: Conditions | None = None
    for first, last in pairwise(_cuts_of(line, by_leg=by_leg)):
        if first.kind != "corner":
            own = first.conditions  # of the user's zone, as far as the next bound that is no corner
        if last.station - first.station > SAME_STATION:
            yield _Part(line=line, first=first, last=last, conditions=own)


def _merged(parts: list[_Part]) -> list[int]:
    """Return, for each part, the number of the first part that it is one with: a branch with its main."""
    owner = list(range(len(parts)))
    for number, part in enumerate(parts):
        branch = part.line.branch
        if branch is None or part.first.kind != "end":
            continue
        main = _part_at(parts, branch.of, branch.position.station)
        if main is not None:
            old, new = owner[number], owner[main]
            owner = [new if item == old else item for item in owner]
    return owner


def _part_at(parts: list[_Part], line: str, station: float) -> int | None:
    """Return the part of a line that holds a station; at an anchor or a valve, none does."""
    for number, part in enumerate(parts):
        if part.line.name != line:
            continue
        if part.first.station + SAME_STATION < station < part.last.station - SAME_STATION:
            return number
        if part.first.kind in ("place", "corner") and abs(part.first.station - station) <= SAME_STATION:
            return number
    return None


def _zone(study: Study, parts: list[_Part]) -> Zone:
    main = parts[0]
    name = main.first.name if main.first.kind == "place" else f"{main.first.name} to {main.last.name}"
    others = [part.line.name for part in parts[1:]]
    conditions = main.conditions or study.conditions_of(main.line)
    return Zone(
        name=f"{name} with {', '.join(others)}" if others else name,
        parts=tuple(ZonePart(line=part.line.name, start=part.first.station, end=part.last.station) for part in parts),
        conditions=conditions,
    )


def _links(parts: list[_Part], zone_of: list[int]) -> Iterator[tuple[str, BoundKind, int, int]]:
    """Yield what parts two zones: its name, its kind, the zone before it and the zone beyond it."""
    for (number, part), (after, following) in pairwise(enumerate(parts)):
        if part.line is following.line:
            yield part.last.name, part.last.kind, zone_of[number], zone_of[after]
    for number, part in enumerate(parts):
        branch = part.line.branch
        if branch is None or part.first.kind != "end":
            continue
        for main, other in enumerate(parts):
            at_cut = abs(other.last.station - branch.position.station) <= SAME_STATION
            if other.line.name == branch.of and at_cut and zone_of[main] != zone_of[number]:
                yield other.last.name, other.last.kind, zone_of[main], zone_of[number]


def _bounds_of(name: str, links: list[tuple[str, BoundKind, int, int]], count: int) -> list[Bound]:
    """Return a bound, or nothing where it parts nothing because the lines close a ring."""
    own = [link for link in links if link[0] == name]
    others = [(before, beyond) for other, _, before, beyond in links if other != name]
    before = _reached(own[0][2], others)
    if any(beyond in before for _, _, _, beyond in own):
        return []
    everything = frozenset(range(count))
    return [
        Bound(name=name, kind=own[0][1], before=before, beyond=everything - before, next=min(link[3] for link in own))
    ]


def _reached(start: int, links: list[tuple[int, int]]) -> frozenset[int]:
    """Return every zone that is joined to one by links."""
    beside: dict[int, set[int]] = {}
    for one, other in links:
        beside.setdefault(one, set()).add(other)
        beside.setdefault(other, set()).add(one)
    found, edge = {start}, {start}
    while edge:
        edge = {zone for known in edge for zone in beside.get(known, ())} - found
        found |= edge
    return frozenset(found)


__all__ = [
    "Bound",
    "Stretch",
    "Zone",
    "ZonePart",
    "Zones",
    "anchor_stations",
    "anchored_ends",
    "is_anchor",
    "stretches_of",
    "zones_of",
]
