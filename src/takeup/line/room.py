"""How long a joint there is room for at a station.     (line/room.py)"""

from __future__ import annotations

import math
from collections.abc import Iterable

from takeup.line.records import Line
from takeup.line.route import Route, route_of


def room_about(station: float, blocks: Iterable[tuple[float, float]]) -> float:
    """Return the longest thing that fits with its middle at a station, clear of what is there [m].

    Args:
        station: of the middle [m].
        blocks: from where to where something is; a place is a block of no length [m].
    """
    distances = (max(begin - station, station - finish, 0.0) for begin, finish in blocks)
    return 2.0 * min(distances, default=math.inf)


def room_in(line: Line, station: float, besides: str) -> float:
    """Return the longest joint that fits in a line with its middle at a station, in the place of one that is there [m].

    Args:
        line: the line.
        station: of the middle [m].
        besides: name of the take-up that it would stand for.
    """
    return room_about(station, blocks_of(line, route_of(line), besides))


def blocks_of(line: Line, route: Route, besides: str = "") -> list[tuple[float, float]]:
    """Return what no joint can stand on: bends, items, ends, holds and other joints, from and to stations [m].

    Args:
        line: the line.
        route: its centre line.
        besides: name of a take-up that is left out.
    """
    blocks = [(turn.begin, turn.finish) for turn in route.turns]
    blocks += [(item.start, item.end) for item in line.items]
    blocks += [(place, place) for place in (0.0, route.length, *(hold.position.station for hold in line.holds))]
    for takeup in line.takeups:
        if takeup.name != besides:
            middle, half = takeup.position.station, takeup.data.length / 2.0
            blocks.append((middle - half, middle + half))
    return blocks


__all__ = ["blocks_of", "room_about", "room_in"]
