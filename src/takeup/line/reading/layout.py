"""The route of one line as read: stations, places, bends, items, and what stands where.     (line/reading/layout.py)

Everything that is placed on a line is placed with a `Layout`: holds, take-ups, zones, loads and branches.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass

from takeup.library import Insulation
from takeup.line.holding import End
from takeup.line.parts import Branch, Item, Leg, Vector
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.read_pipe import PipeParts
from takeup.line.route import Floats, centre_line

NEARLY_UPRIGHT = math.cos(math.radians(1.0))
"""A leg within one degree of the vertical is a riser: a rest under it would hold nothing."""


@dataclass(frozen=True, kw_only=True, slots=True)
class SectionParts:
    """A stretch of a line, stations [m], with what could be read of its pipe and its insulation."""

    start: float
    end: float
    pipe: PipeParts
    insulation: Insulation | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Layout:
    """The route as read: stations [m] of every corner with both ends, and what each bend takes of its legs [m].

    Args:
        line: name of the line.
        many: whether the file has several lines, so that a name made here says which.
        start: its first end.
        branch: where it leaves another line; None for a line that begins by itself.
        start_at: its first point [m].
        legs: along the flow, items among them.
        end: its far end.
        stations: of the corners, both ends included.
        tangents: one number for each corner, both ends included.
        places: the named places and their stations, along the flow.
        items: valves, flanges, reducers and others.
        sections: contiguous, from the start to the far end.
    """

    line: str
    many: bool
    start: End
    branch: Branch | None
    start_at: Vector
    legs: tuple[Leg, ...]
    end: End
    stations: tuple[float, ...]
    tangents: tuple[float, ...]
    places: dict[str, float]
    items: tuple[Item, ...]
    sections: tuple[SectionParts, ...]

    @property
    def length(self) -> float:
        """Station of the far end [m]."""
        return self.stations[-1]

    @property
    def points(self) -> Floats:
        """The intersections of centre lines, both ends included, (legs + 1, 3) [m]."""
        return centre_line(self.start_at, self.legs).points

    def default_name(self, words: str) -> str:
        """Return a name made from words, which says which line it is on where the file has several."""
        return f"{words} of {self.line}" if self.many else words

    def bend_at(self, station: float) -> int | None:
        """Return the number of the corner with a bend whose intersection is at a station, or None."""
        for number in range(bisect_left(self.stations, station - SAME_PLACE), len(self.stations)):
            if self.stations[number] >= station + SAME_PLACE:
                break
            if self.tangents[number] > 0.0:
                return number
        return None

    def leg_at(self, station: float) -> int:
        """Return the number of the leg that holds a station; a corner belongs to the leg before it."""
        return min(max(bisect_left(self.stations, station) - 1, 0), len(self.legs) - 1)

    def on_arc(self, station: float) -> bool:
        """Whether a station lies on the arc of a bend, tangent points excepted."""
        leg = self.leg_at(station)
        return any(
            abs(self.stations[number] - station) < self.tangents[number] - SAME_PLACE for number in (leg, leg + 1)
        )

    def is_upright(self, station: float) -> bool:
        """Whether every leg at a station is a riser; on the arc of a bend none is, tangent points excepted."""
        if self.on_arc(station):
            return False
        touching = {self.leg_at(station - SAME_PLACE), self.leg_at(station + SAME_PLACE)}
        return all(abs(self.legs[number].direction[2]) > NEARLY_UPRIGHT for number in touching)

    def straight_at(self, station: float) -> tuple[float, float]:
        """Return the stations [m] between which the leg at a station is straight, clear of its bends."""
        number = self.leg_at(station)
        return self.stations[number] + self.tangents[number], self.stations[number + 1] - self.tangents[number + 1]

    def item_at(self, station: float) -> Item | None:
        """Return the item that fills a station, its faces excluded."""
        return next((item for item in self.items if item.start + SAME_PLACE < station < item.end - SAME_PLACE), None)

    def section_at(self, station: float) -> SectionParts:
        """Return the section at a station; at a bound, the one before it."""
        return next((section for section in self.sections if station <= section.end), self.sections[-1])
