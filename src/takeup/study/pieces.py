"""Where a line is cut into members: stations, and what each piece between them is.     (study/pieces.py)

Cuts stand at ends, holds, tangent points, the ends of joints and of their bellows, and in between so that no straight
member is longer than a hundredth of the line or three metres, whichever is more: enough for a smooth drawn shape.
Answers at the cuts do not depend on how many others there are (a test).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from takeup.line import SAME_STATION, Line, Route, TakeUp, Zone

_LONGEST = 3.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """A stretch between two cuts, stations in metres; `zone` is its number, `joint` the take-up it belongs to."""

    start: float
    end: float
    part: Literal["pipe", "arc", "spool", "bellows"]
    zone: int
    joint: TakeUp | None


def joint_cuts(takeup: TakeUp) -> tuple[float, float, float, float]:
    """Return the stations of a joint's ends and, between them, of its bellows' ends [m]."""
    middle, half, live = takeup.position.station, takeup.data.length / 2.0, takeup.data.live_length / 2.0
    return middle - half, middle - live, middle + live, middle + half


def pieces_of(line: Line, route: Route, zones: tuple[Zone, ...]) -> tuple[Piece, ...]:
    """Return the pieces of a line in order along the flow."""
    cuts = [0.0, route.length, *(float(corner) for corner in route.corners)]
    cuts += [hold.position.station for hold in line.holds]
    for turn in route.turns:
        cuts += [turn.begin, turn.finish]
        if turn.radius is not None:
            cuts.remove(turn.station)  # the intersection of a bend is not on the pipe
    for takeup in line.takeups:
        cuts += joint_cuts(takeup)
    cuts += [hold.position.station for hold in line.holds if abs(hold.position.station - route.length) > SAME_STATION]
    longest = max(_LONGEST, route.length / 100.0)
    pieces: list[Piece] = []
    for start, end in pairwise(_distinct(cuts)):
        pieces += _cut_up(_whole_piece(line, route, zones, start, end), longest)
    return tuple(pieces)


def _distinct(cuts: list[float]) -> list[float]:
    """Return the cuts in order, those closer than `SAME_STATION` merged."""
    kept: list[float] = []
    for cut in sorted(cuts):
        if not kept or cut - kept[-1] > SAME_STATION:
            kept.append(cut)
    return kept


def _whole_piece(line: Line, route: Route, zones: tuple[Zone, ...], start: float, end: float) -> Piece:
    middle = (start + end) / 2.0
    zone = next(number for number, item in enumerate(zones) if middle < item.end or number == len(zones) - 1)
    for takeup in line.takeups:
        first, live_start, live_end, last = joint_cuts(takeup)
        if first < middle < last:
            part: Literal["bellows", "spool"] = "bellows" if live_start < middle < live_end else "spool"
            return Piece(start=start, end=end, part=part, zone=zone, joint=takeup)
    part_of_route: Literal["arc", "pipe"] = "pipe" if route.turn_at(middle) is None else "arc"
    return Piece(start=start, end=end, part=part_of_route, zone=zone, joint=None)


def _cut_up(piece: Piece, longest: float) -> list[Piece]:
    """Return a long straight pipe in equal shorter pieces; everything else as it is."""
    length = piece.end - piece.start
    count = max(1, math.ceil(length / longest - 1e-9)) if piece.part == "pipe" else 1
    cuts = [piece.start + length * number / count for number in range(count)] + [piece.end]
    return [
        Piece(start=start, end=end, part=piece.part, zone=piece.zone, joint=piece.joint)
        for start, end in pairwise(cuts)
    ]


def hold_stations(line: Line, route: Route) -> tuple[tuple[str, str, float], ...]:
    """Return name, kind and station of everything that holds the line, ends included, along the flow."""
    ends = ((line.start.name, line.start.kind, 0.0), (line.end.name, line.end.kind, route.length))
    inner = [(hold.name, hold.kind, hold.position.station) for hold in line.holds]
    every = [*(item for item in ends if item[1] == "main anchor"), *inner]
    return tuple(sorted(every, key=lambda item: (item[2], item[0])))


def holds_all(kind: str) -> bool:
    """Whether a kind of hold holds all six directions."""
    return kind in ("main anchor", "intermediate anchor")


__all__ = ["Piece", "hold_stations", "holds_all", "joint_cuts", "pieces_of"]
