"""The places that a drawing shows: holds, take-ups, items, corners, ends, and how full each is.  (drawing/places.py)"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from takeup.drawing.reading import (
    Record,
    Results,
    Use,
    number_of,
    of_line,
    pipe_at,
    record_of,
    records_of,
    text_of,
    use_at,
    use_words,
    vector_of,
    vectors_of,
)
from takeup.drawing.route import Vector, joined_legs, on_legs

Sort = Literal["anchor", "guide", "joint", "item", "branch", "corner", "end"]
_SAME = 1e-3
_ALONE = ("stop", "equipment", "continues")  # named one by one, as every anchor is
_HALVES = ("first", "second")  # how the halves of a double are called, as the line file's reader calls them
ACROSS_A_BEND = "elbow pressure balanced"
_SAY_THEIR_RODS = ("tied", "limit-rod")
_OWN_AXIS = ("directional anchor", "stop", "hanger", "spring hanger")  # their axes are not those of the pipe


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Something at a station [m] of a line.

    Args:
        name: of the thing.
        kind: of the thing.
        sort: what it is drawn as.
        station: [m].
        at: in the world [m].
        along: the way of the flow there.
        axis: the way its sign is turned: along the flow, but where a hold has an axis of its own.
        length: of a joint or an item [m].
        wider: whether a reducer opens towards the flow.
        base: of half a double, where its anchor base is: 1 beyond it in the flow, -1 before it; 0 of all else.
        corner: of a joint that is tied across a bend, where that is [m].
        diameter: of the pipe outside there [m]; 0 of all else.
        use: how full it is.
    """

    name: str
    kind: str
    sort: Sort
    station: float
    at: Vector
    along: Vector
    axis: Vector
    length: float = 0.0
    wider: bool = False
    base: int = 0
    corner: Vector | None = None
    diameter: float = 0.0
    use: Use | None = None

    @property
    def says(self) -> str:
        """The use in words, with the outcome where it is more than a pass; "" when there is none."""
        if self.use is None:
            return ""
        return f"use {use_words(self.use.value)}" + ("" if self.use.outcome == "passes" else f", {self.use.outcome}")


def places_of(results: Results, line: Record) -> tuple[Place, ...]:
    """Return all places of a line, by station."""
    found = [*_holds(results, line), *_joints(results, line), *_items(line), *_branches(results, line)]
    found += _corners(line)
    found += _ends(line, found)
    return tuple(sorted(found, key=lambda place: (place.station, place.name)))


def is_anchor(kind: str) -> bool:
    """Whether a hold is named, and its loads listed, by itself: an anchor, a stop, a nozzle, where a line continues."""
    return "anchor" in kind or kind in _ALONE


def _holds(results: Results, line: Record) -> Iterable[Place]:
    for hold in of_line(results, "holds", line) or _planned(results, line):
        kind, axis = text_of(hold, "kind"), vectors_of(hold, "axes")[0]
        yield Place(
            name=text_of(hold, "name"),
            kind=kind,
            sort="anchor" if is_anchor(kind) else "guide",
            station=number_of(hold, "station_m"),
            at=vector_of(hold, "at_m"),
            along=on_legs(line, number_of(hold, "station_m"))[1] if kind in _OWN_AXIS else axis,
            axis=axis,
            use=use_at(results, text_of(hold, "name")),
        )


def _planned(results: Results, line: Record) -> Iterable[Record]:
    """Yield the holds and anchored ends as resolved, for a line that was not solved and so has no loads to show."""
    last = number_of(records_of(line, "legs")[-1], "end_m")
    ends = zip(records_of(line, "ends"), (0.0, last), strict=True)
    held = [{**end, "station_m": station} for end, station in ends if is_anchor(text_of(end, "kind"))]
    for hold in (*held, *of_line(record_of(record_of(results, "input"), "resolved"), "holds", line)):
        at, along = on_legs(line, number_of(hold, "station_m"))
        yield {**hold, "at_m": list(at), "axes": [list(along)]}


def _joints(results: Results, line: Record) -> Iterable[Place]:
    doubles = _doubles(results, line)
    for takeup in of_line(results, "takeups", line):
        start, end = number_of(takeup, "from_m"), number_of(takeup, "to_m")
        at, along = on_legs(line, (start + end) / 2.0)
        across = text_of(takeup, "kind") == ACROSS_A_BEND
        yield Place(
            name=text_of(takeup, "name"),
            kind=_kind_of_joint(takeup, double=text_of(takeup, "name") in doubles),
            sort="joint",
            station=number_of(takeup, "station_m"),
            at=at,
            along=along,
            axis=along,
            length=end - start,
            base=doubles.get(text_of(takeup, "name"), 0),
            corner=_corner_near(line, (start + end) / 2.0) if across else None,
            diameter=number_of(pipe_at(line, start), "outside_diameter_mm") / 1e3 if across else 0.0,
            use=use_at(results, text_of(takeup, "name")),
        )


def _doubles(results: Results, line: Record) -> dict[str, int]:
    """Return the halves of doubles by name, with where the base is: beyond the first half, before the second."""
    names = {text_of(takeup, "name") for takeup in of_line(results, "takeups", line)}
    found: dict[str, int] = {}
    for name in names:
        whole = name.removesuffix(f", {_HALVES[0]}")
        if whole != name and f"{whole}, {_HALVES[1]}" in names:
            found |= {name: 1, f"{whole}, {_HALVES[1]}": -1}
    return found


def _corner_near(line: Record, station: float) -> Vector | None:
    """Return the corner at the nearer end of the leg that a station is on; None where the line ends there."""
    joined = joined_legs(line)
    points, legs = vectors_of(joined, "points"), records_of(joined, "legs")
    ends = [(abs(number_of(leg, "end_m") - station), points[number + 1]) for number, leg in enumerate(legs[:-1])]
    return min(ends, default=(0.0, None))[1]


def _kind_of_joint(takeup: Record, *, double: bool) -> str:
    """Return the kind of a joint, and that it has limit rods where it has rods and its name says nothing of them."""
    kind = text_of(takeup, "kind")
    if double:
        return "double" if kind == "single axial" else f"double {kind}"
    if not record_of(record_of(takeup, "data"), "rods") or kind.startswith(_SAY_THEIR_RODS):
        return kind
    return f"{kind} with limit rods"


def _items(line: Record) -> Iterable[Place]:
    for item in records_of(line, "items"):
        start, end = number_of(item, "from_m"), number_of(item, "to_m")
        at, along = on_legs(line, (start + end) / 2.0)
        before, beyond = (
            number_of(pipe_at(line, station), "outside_diameter_mm") for station in (start, end + 2.0 * _SAME)
        )
        yield Place(
            name=text_of(item, "name"),
            kind=text_of(item, "kind"),
            sort="item",
            station=(start + end) / 2.0,
            at=at,
            along=along,
            axis=along,
            length=end - start,
            wider=beyond > before,
        )


def _branches(results: Results, line: Record) -> Iterable[Place]:
    """Yield the places where other lines leave this one; their axis is the way the other line sets out."""
    for other in records_of(results, "lines"):
        branch = record_of(other, "branch")
        if text_of(branch, "of") == text_of(line, "name"):
            station = number_of(branch, "station_m")
            at, along = vectors_of(other, "points")[0], on_legs(line, station)[1]
            axis = vector_of(records_of(other, "legs")[0], "direction")
            name = f"{text_of(other, 'name')} leaves"
            yield Place(name=name, kind="branch", sort="branch", station=station, at=at, along=along, axis=axis)


def _corners(line: Record) -> Iterable[Place]:
    joined = joined_legs(line)
    points, legs = vectors_of(joined, "points"), records_of(joined, "legs")
    for number, leg in enumerate(legs[:-1]):
        yield _bare((text_of(leg, "to"), "corner"), "corner", number_of(leg, "end_m"), points[number + 1], leg)


def _ends(line: Record, found: list[Place]) -> Iterable[Place]:
    """Return the ends at which nothing else stands."""
    points, legs = vectors_of(line, "points"), records_of(line, "legs")
    last = number_of(legs[-1], "end_m")
    kinds = [text_of(end, "kind") for end in records_of(line, "ends")]
    for name, kind, station, at, leg in (
        (text_of(legs[0], "from"), kinds[0], 0.0, points[0], legs[0]),
        (text_of(legs[-1], "to"), kinds[1], last, points[-1], legs[-1]),
    ):
        if not any(place.sort == "anchor" and abs(place.station - station) < _SAME for place in found):
            yield _bare((name, kind), "end", station, at, leg)


def _bare(names: tuple[str, str], sort: Sort, station: float, at: Vector, leg: Record) -> Place:
    along, (name, kind) = vector_of(leg, "direction"), names
    return Place(name=name, kind=kind, sort=sort, station=station, at=at, along=along, axis=along)
