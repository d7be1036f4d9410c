"""Where a line is cut into members: stations, and what each piece between them is.     (study/pieces.py)

Cuts stand at ends, holds, tangent points, the faces of joints, of their bellows and of items, where the pipe or the
zone changes, where a branch leaves and where a load of the user's begins or ends; and in between so that no straight
member is longer than a hundredth of the line or three metres, whichever is more: enough for a smooth drawn shape.
Arcs are exact, but cut every 15 degrees all the same, because a bend is stressed most somewhere between its ends.
Answers at the cuts do not depend on how many others there are (a test). A reducer is a row of short pipes, each of the
diameter and wall in its middle: with eight, it turns within 1 % as the cone where one diameter is up to twice the
other, and within 1.5 % at DN 100 to DN 40 (a test).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from takeup.joints import bellows_between
from takeup.line import SAME_STATION, Item, Line, Pipe, Route, Section, Study, TakeUp, Zones

_LONGEST = 3.0
_CONES = 8
_BOWING_BELLOWS = 12
_ARC = math.radians(15.0)  # the greatest moment of a bend lies within it: a cut is never further than half of this
Part = Literal["pipe", "arc", "spool", "bellows", "valve", "flange", "item", "reducer"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """A stretch between two cuts.

    Args:
        start: station [m].
        end: station [m].
        part: what it is.
        zone: number of its zone.
        section: the section of the line that it belongs to.
        pipe: its pipe; of a reducer, one with the diameter and wall of its middle.
        joint: the take-up it belongs to.
        item: the item it belongs to.
    """

    start: float
    end: float
    part: Part
    zone: int
    section: Section
    pipe: Pipe
    joint: TakeUp | None = None
    item: Item | None = None

    @property
    def middle(self) -> float:
        """Station of its middle [m]."""
        return (self.start + self.end) / 2.0


@dataclass(frozen=True, kw_only=True, slots=True)
class JointSpans:
    """Where a joint lies on its line: stations of its faces, and of both ends of each bellows along the flow [m]."""

    start: float
    end: float
    bellows: tuple[tuple[float, float], ...]

    @property
    def cuts(self) -> tuple[float, ...]:
        """Every station at which one part of the joint ends and another begins [m]."""
        return (self.start, *(station for span in self.bellows for station in span), self.end)


def joint_spans(takeup: TakeUp) -> JointSpans:
    """Return where a joint and its bellows lie; what is not bellows between its faces is spool."""
    middle, half = takeup.position.station, takeup.data.length / 2.0
    return JointSpans(
        start=middle - half,
        end=middle + half,
        bellows=tuple((middle + first, middle + last) for first, last in bellows_between(takeup.data)),
    )


def pieces_of(study: Study, line: Line, route: Route, zones: Zones, *, fine: bool = False) -> tuple[Piece, ...]:
    """Return the pieces of a line in order along the flow.

    Args:
        study: the file; its other lines may branch off this one.
        line: the line, its rules resolved.
        route: its centre line.
        zones: of the study.
        fine: whether pieces may bow between their ends: then a bellows is a dozen, and long pipe is cut twice as short.
    """
    longest = max(_LONGEST, route.length / 100.0) / (2.0 if fine else 1.0)
    pieces: list[Piece] = []
    for start, end in pairwise(_distinct([*_cuts_of(line, route), *_cuts_from_outside(study, line, zones)])):
        pieces += _cut_up(
            line, route, _whole_piece(line, route, zones, start, end), (longest, _BOWING_BELLOWS if fine else 1)
        )
    return tuple(pieces)


def _cuts_of(line: Line, route: Route) -> Iterator[float]:
    yield from (0.0, route.length)
    bent = [turn.station for turn in route.turns if turn.radius is not None]  # no pipe at the intersection of a bend
    yield from (float(corner) for corner in route.corners if float(corner) not in bent)
    yield from (hold.position.station for hold in line.holds)
    for turn in route.turns:
        yield from (turn.begin, turn.finish)
    for takeup in line.takeups:
        yield from joint_spans(takeup).cuts
    for item in line.items:
        yield from (item.start, item.end)
    yield from (section.end for section in line.sections[:-1])


def _cuts_from_outside(study: Study, line: Line, zones: Zones) -> Iterator[float]:
    for other in study.lines:
        if other.branch is not None and other.branch.of == line.name:
            yield other.branch.position.station
    for zone in zones.every:
        for part in zone.parts:
            if part.line == line.name:
                yield from (part.start, part.end)
    for load in study.loads:
        if load.line == line.name:
            yield load.start.station
            if load.end is not None:
                yield load.end.station


def _distinct(cuts: list[float]) -> list[float]:
    """Return the cuts in order, those closer than `SAME_STATION` merged."""
    kept: list[float] = []
    for cut in sorted(cuts):
        if not kept or cut - kept[-1] > SAME_STATION:
            kept.append(cut)
    return kept


def _whole_piece(line: Line, route: Route, zones: Zones, start: float, end: float) -> Piece:
    middle = (start + end) / 2.0
    section = line.section_at(middle)
    piece = Piece(
        start=start,
        end=end,
        part="pipe" if route.turn_at(middle) is None else "arc",
        zone=zones.number(line.name, middle),
        section=section,
        pipe=section.pipe,
    )
    item = line.item_at(middle)
    if item is not None:
        return replace(piece, part=item.kind, item=item)
    for takeup in line.takeups:
        spans = joint_spans(takeup)
        if spans.start < middle < spans.end:
            live = any(first < middle < last for first, last in spans.bellows)
            return replace(piece, part="bellows" if live else "spool", joint=takeup)
    return piece


def _cut_up(line: Line, route: Route, piece: Piece, how: tuple[float, int]) -> list[Piece]:
    """Return a long straight pipe and an arc in equal shorter pieces, a reducer as a row of pipes; else as it is."""
    longest, bellows = how
    length = piece.end - piece.start
    if piece.part == "bellows":
        return _equal(piece, bellows)
    if piece.part == "reducer" and piece.item is not None:
        share = length / (piece.item.end - piece.item.start)
        return [_cone(line, part) for part in _equal(piece, max(1, round(_CONES * share)))]
    turn = route.turn_at(piece.middle)
    if turn is not None:
        angle = turn.angle * length / (2.0 * turn.tangent_length)
        return _equal(piece, max(1, math.ceil(angle / _ARC - 1e-9)))
    count = max(1, math.ceil(length / longest - 1e-9)) if piece.part == "pipe" else 1
    return _equal(piece, count)


def _equal(piece: Piece, count: int) -> list[Piece]:
    length = piece.end - piece.start
    cuts = [piece.start + length * number / count for number in range(count)] + [piece.end]
    return [replace(piece, start=start, end=end) for start, end in pairwise(cuts)]


def _cone(line: Line, piece: Piece) -> Piece:
    """Return a piece of a reducer with the diameter and wall in its middle."""
    assert piece.item is not None, "a reducer is an item"
    first = line.section_at(piece.item.start).pipe
    last = line.section_at(piece.item.end + SAME_STATION).pipe
    share = (piece.middle - piece.item.start) / (piece.item.end - piece.item.start)
    diameter = first.size.outside_diameter * (1.0 - share) + last.size.outside_diameter * share
    size = replace(piece.pipe.size, outside_diameter=diameter)
    return replace(piece, pipe=replace(piece.pipe, size=size, wall=first.wall * (1.0 - share) + last.wall * share))


__all__ = ["JointSpans", "Part", "Piece", "joint_spans", "pieces_of"]
