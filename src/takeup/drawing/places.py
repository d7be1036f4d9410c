"""The places that a drawing shows: holds, take-ups, corners, ends, and how full each is.     (drawing/places.py)"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from takeup.drawing.reading import (
    Record,
    Results,
    Use,
    number_of,
    record_of,
    records_of,
    text_of,
    use_at,
    use_words,
    vector_of,
    vectors_of,
)
from takeup.drawing.route import Vector, on_legs

Sort = Literal["anchor", "guide", "joint", "corner", "end"]
_SAME = 1e-3


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Something at a station [m]: `at` in the world, `along` the way of the flow there; `length` [m] of a joint."""

    name: str
    kind: str
    sort: Sort
    station: float
    at: Vector
    along: Vector
    length: float
    use: Use | None

    @property
    def says(self) -> str:
        """The use in words, with the outcome where it is more than a pass; "" when there is none."""
        if self.use is None:
            return ""
        return f"use {use_words(self.use.value)}" + ("" if self.use.outcome == "passes" else f", {self.use.outcome}")


def places_of(results: Results, line: Record) -> tuple[Place, ...]:
    """Return all places of the line, by station."""
    found = [*_holds(results, line), *_joints(results, line)]
    found += _corners(line)
    found += _ends(line, found)
    return tuple(sorted(found, key=lambda place: (place.station, place.name)))


def _holds(results: Results, line: Record) -> Iterable[Place]:
    for hold in records_of(results, "holds") or _planned(results, line):
        kind = text_of(hold, "kind")
        yield Place(
            name=text_of(hold, "name"),
            kind=kind,
            sort="anchor" if "anchor" in kind else "guide",
            station=number_of(hold, "station_m"),
            at=vector_of(hold, "at_m"),
            along=vectors_of(hold, "axes")[0],
            length=0.0,
            use=use_at(results, text_of(hold, "name")),
        )


def _planned(results: Results, line: Record) -> Iterable[Record]:
    """Yield the holds as resolved, for a line that was not solved and so has no loads to show."""
    for hold in records_of(record_of(record_of(results, "input"), "resolved"), "holds"):
        at, along = on_legs(line, number_of(hold, "station_m"))
        yield {**hold, "at_m": list(at), "axes": [list(along)]}


def _joints(results: Results, line: Record) -> Iterable[Place]:
    for takeup in records_of(results, "takeups"):
        start, end = number_of(takeup, "from_m"), number_of(takeup, "to_m")
        at, along = on_legs(line, (start + end) / 2.0)
        yield Place(
            name=text_of(takeup, "name"),
            kind=text_of(takeup, "kind"),
            sort="joint",
            station=number_of(takeup, "station_m"),
            at=at,
            along=along,
            length=end - start,
            use=use_at(results, text_of(takeup, "name")),
        )


def _corners(line: Record) -> Iterable[Place]:
    points, legs = vectors_of(line, "points"), records_of(line, "legs")
    for number, leg in enumerate(legs[:-1]):
        yield _bare(text_of(leg, "to"), "corner", number_of(leg, "end_m"), points[number + 1], leg)


def _ends(line: Record, found: list[Place]) -> Iterable[Place]:
    """Return the ends at which nothing else stands."""
    points, legs = vectors_of(line, "points"), records_of(line, "legs")
    last = number_of(legs[-1], "end_m")
    for name, station, at, leg in (
        (text_of(legs[0], "from"), 0.0, points[0], legs[0]),
        (text_of(legs[-1], "to"), last, points[-1], legs[-1]),
    ):
        if not any(place.sort == "anchor" and abs(place.station - station) < _SAME for place in found):
            yield _bare(name, "end", station, at, leg)


def _bare(name: str, sort: Sort, station: float, at: Vector, leg: Record) -> Place:
    along = vector_of(leg, "direction")
    return Place(name=name, kind=sort, sort=sort, station=station, at=at, along=along, length=0.0, use=None)
