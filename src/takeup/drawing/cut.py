"""A part of a line between two stations, as a line of its own.     (drawing/cut.py)

Stations stay those of the whole line.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.places import Place
from takeup.drawing.reading import Record, number_of, records_of, vectors_of
from takeup.drawing.route import joined_legs, on_legs

_SAME = 1e-6
_MOST_PLACES, _MOST_STRONG = 52, 15  # on one sheet
_LONGEST = 340.0  # of a part [m]: at 1 : 1000 it fits on a sheet
_CLEAR = 0.2  # a cut stands off a bend or a joint by so much [m]


@dataclass(frozen=True, kw_only=True, slots=True)
class Part:
    """What is between two stations of a line [m], as a line of its own, with the places there; `whole` is all of it.

    `before` and `beyond` are where it is cut, None at an end of the line.
    """

    whole: Record
    line: Record
    places: tuple[Place, ...]
    start: float
    end: float
    before: float | None = None
    beyond: float | None = None

    @property
    def cuts(self) -> tuple[float, ...]:
        """The stations at which it is cut off [m]."""
        return tuple(cut for cut in (self.before, self.beyond) if cut is not None)


def parts_of(line: Record, places: tuple[Place, ...]) -> tuple[Part, ...]:
    """Return a line in so many parts that each has room on a sheet, cut midway between two places of a straight."""
    last = number_of(records_of(line, "legs")[-1], "end_m")
    strong = sum(place.sort in {"anchor", "joint"} for place in places)
    count = max(-(-len(places) // _MOST_PLACES), -(-strong // _MOST_STRONG), int(-(-last // _LONGEST)), 1)
    return cut_in(line, places, count)


def cut_in(line: Record, places: tuple[Place, ...], count: int) -> tuple[Part, ...]:
    """Return a line in so many parts with about as many places each; fewer where nothing can be cut.

    Args:
        line: the line of the results.
        places: its places.
        count: of parts.
    """
    last = number_of(records_of(line, "legs")[-1], "end_m")
    cuts = _cuts(line, places, count)
    bounds = [0.0, *cuts, last]
    return tuple(
        _part(line, places, (start, end), last)
        if cuts
        else Part(whole=line, line=line, places=places, start=0.0, end=last)
        for start, end in pairwise(bounds)
    )


def _cuts(line: Record, places: tuple[Place, ...], count: int) -> list[float]:
    """Return where to cut a line into so many parts with about as many places each."""
    free = _between(line, places)
    last = number_of(records_of(line, "legs")[-1], "end_m")
    chosen: list[float] = []
    for number in range(1, count):
        wanted = (number * len(places) / count + number * last / count * len(places) / last) / 2.0
        allowed = [(station, rank) for station, rank in free if not chosen or station > chosen[-1] + _CLEAR]
        if allowed:
            chosen.append(min(allowed, key=lambda pair: abs(pair[1] - wanted))[0])
    return chosen


def _between(line: Record, places: tuple[Place, ...]) -> list[tuple[float, int]]:
    """Return the middles between neighbours that a cut may go through, each with how many places are before it."""
    spans = ((number_of(bend, "begin_m"), number_of(bend, "finish_m")) for bend in records_of(line, "bends"))
    bends = [(begin - _CLEAR, finish + _CLEAR) for begin, finish in spans]
    found = []
    for number, (one, other) in enumerate(pairwise(places), start=1):
        middle = (one.station + other.station) / 2.0
        room = other.station - one.station - (one.length + other.length) / 2.0
        if room > 2.0 * _CLEAR and not any(begin < middle < finish for begin, finish in bends):
            found.append((middle, number))
    return found


def _part(line: Record, places: tuple[Place, ...], bounds: tuple[float, float], last: float) -> Part:
    start, end = bounds
    return Part(
        whole=line,
        line=_between_stations(line, start, end),
        places=tuple(place for place in places if start - _SAME <= place.station <= end + _SAME),
        start=start,
        end=end,
        before=start if start > _SAME else None,
        beyond=end if end < last - _SAME else None,
    )


def _between_stations(line: Record, start: float, end: float) -> Record:
    """Return the record of a line with what is between two stations only."""
    legs: list[Record] = []
    points = [on_legs(line, start)[0]]
    for leg, corner in zip(records_of(line, "legs"), vectors_of(line, "points")[1:], strict=True):
        first, last = max(number_of(leg, "start_m"), start), min(number_of(leg, "end_m"), end)
        if last - first > _SAME:
            legs.append({**leg, "start_m": first, "end_m": last, "length_m": last - first})
            points.append(corner if last < end - _SAME else on_legs(line, end)[0])
    given = records_of(line, "nodes") or tuple(
        {"station_m": number_of(leg, "end_m"), "at_m": list(corner)}
        for leg, corner in zip(records_of(line, "legs"), vectors_of(line, "points")[1:], strict=True)
    )
    nodes = [node for node in given if start < number_of(node, "station_m") < end]
    ends = [{"station_m": station, "at_m": list(on_legs(line, station)[0])} for station in (start, end)]
    return {
        **line,
        "legs": legs,
        "points": [list(point) for point in points],
        "bends": [bend for bend in records_of(line, "bends") if start < number_of(bend, "station_m") < end],
        "nodes": [ends[0], *nodes, ends[1]],
        "items": [item for item in records_of(line, "items") if start <= number_of(item, "from_m") <= end],
    }


def legs_of(part: Part) -> tuple[tuple[Record, tuple[float, float, float], tuple[float, float, float]], ...]:
    """Return the legs of a part from intersection to intersection, with the points at both ends."""
    joined = joined_legs(part.line)
    points = vectors_of(joined, "points")
    return tuple(zip(records_of(joined, "legs"), points[:-1], points[1:], strict=True))


__all__ = ["Part", "cut_in", "legs_of", "parts_of"]
