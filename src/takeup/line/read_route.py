"""The route: where the line goes, its ends, its corners and whether the bends fit.     (line/read_route.py)

Legs run between intersections of centre lines. A bend takes R tan(theta/2) of the leg on either side of its corner.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from takeup.line.faultbook import FaultBook
from takeup.line.holding import End
from takeup.line.names import Names
from takeup.line.parts import Corner, Leg, Vector
from takeup.line.positions import SAME_PLACE
from takeup.line.read_ends import check_no_end, read_end
from takeup.line.read_pipe import PipeParts, check_radius
from takeup.line.route import STRAIGHT, turn_angle
from takeup.line.schema_line import LegItem, StartItem
from takeup.line.sentences import LONG_RADIUS, Bend
from takeup.line.yaml_places import Path
from takeup.units import to_mm

NEARLY_UPRIGHT = math.cos(math.radians(1.0))
"""A leg within one degree of the vertical is a riser: a rest under it would hold nothing."""

LONGEST_LINE = 100_000.0
"""A leg longer than this [m] is a slip of the unit, not a leg."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Layout:
    """The route as read: stations [m] of every corner with both ends, and what each bend takes of its legs [m].

    `tangents` has one number for each corner, both ends included; `turns` says where the line changes direction.
    """

    start: End
    start_at: Vector
    legs: tuple[Leg, ...]
    end: End
    stations: tuple[float, ...]
    tangents: tuple[float, ...]
    rise: float

    @property
    def length(self) -> float:
        """Station of the far end [m]."""
        return self.stations[-1]

    @property
    def places(self) -> dict[str, float]:
        """The named places and their stations [m], along the flow."""
        names = (self.start.name, *(leg.to.name for leg in self.legs))
        return dict(zip(names, self.stations, strict=True))

    def bend_at(self, station: float) -> int | None:
        """Return the number of the corner with a bend whose intersection is at a station, or None."""
        for number, corner in enumerate(self.stations):
            if self.tangents[number] > 0.0 and abs(corner - station) < SAME_PLACE:
                return number
        return None

    def is_upright(self, station: float) -> bool:
        """Whether every leg at a station is a riser; on the arc of a bend none is, tangent points excepted."""
        for number, corner in enumerate(self.stations):
            if abs(corner - station) < self.tangents[number] - SAME_PLACE:
                return False
        touching = [
            leg
            for leg, begin, finish in zip(self.legs, self.stations, self.stations[1:], strict=False)
            if begin - SAME_PLACE < station < finish + SAME_PLACE
        ]
        return all(abs(leg.direction[2]) > NEARLY_UPRIGHT for leg in touching)

    def straight_at(self, station: float) -> tuple[float, float]:
        """Return the stations [m] between which the leg at a station is straight, clear of its bends."""
        number = next(n for n, corner in enumerate(self.stations[1:]) if station <= corner)
        return self.stations[number] + self.tangents[number], self.stations[number + 1] - self.tangents[number + 1]


def read_route(book: FaultBook, names: Names, route: Path, pipe: PipeParts) -> Layout | None:
    """Read the route, or return None where its form is unsound; without a sound pipe size no bend is judged."""
    start = book.sound(StartItem, (*route, 0))
    items = [book.sound(LegItem, (*route, index)) for index in range(1, book.size(route))]
    _check_order(book, route)
    legs = [item for item in items if item is not None]
    if start is None or not legs or len(legs) < len(items):
        return None
    _check_last(book, route, legs)
    directions = [_direction(book, (*route, index), leg) for index, leg in enumerate(legs, start=1)]
    known = [direction for direction in directions if direction is not None]
    if len(known) < len(legs) or legs[-1].kind is None or legs[-1].to is None:
        return None
    names.claim(start.start, (*route, 0, "start"))
    corners = _corners((book, names, route), legs, known, pipe)
    return _layout((book, route), start, legs, known, corners)


def _check_order(book: FaultBook, route: Path) -> None:
    """Note where the start is not first; a leg in its place is told by its missing key `start`."""
    for index in range(1, book.size(route)):
        if book.has((*route, index, "start")):
            book.add(
                (*route, index, "start"), "the start is the first item of the route and stands there once", at_key=True
            )
    if book.has((*route, 0, "go")) and not book.has((*route, 0, "start")):
        book.add((*route, 0), "the first item of the route is its start: { start: name, at: [0 m, 0 m, 0 m], as: ... }")


def _check_last(book: FaultBook, route: Path, legs: list[LegItem]) -> None:
    for index, leg in enumerate(legs, start=1):
        path = (*route, index)
        last = index == len(legs)
        if last and leg.to is None:
            book.add(path, "the last leg needs the key 'to': the name of the end")
        if last and leg.kind is None:
            book.add(path, "the last leg needs the key 'as': main anchor, free or blind")
        if last and leg.bend is not None:
            book.add((*path, "bend"), "the last leg ends the line, where there is no bend", at_key=True)
        if not last and leg.kind is not None:
            book.add(
                (*path, "as"),
                "only the last leg says what the end is; a hold on the way stands under holds",
                at_key=True,
            )
        if not last:
            check_no_end(book, path)


def _direction(book: FaultBook, path: Path, leg: LegItem) -> Vector | None:
    if leg.go.length > LONGEST_LINE:
        book.add(
            (*path, "go"), f"a leg of {leg.go.length:.4g} m is longer than {LONGEST_LINE:.0f} m; is its unit right?"
        )
    if leg.along is None:
        if leg.go.direction is None:
            book.add(
                (*path, "go"),
                f"'{book.words((*path, 'go'))}' says no direction; expected one, such as east, or the key 'along'",
            )
        return leg.go.direction
    if leg.go.direction is not None:
        book.add((*path, "along"), "the direction stands in 'go' already; keep one of the two", at_key=True)
        return None
    size = math.hypot(*leg.along)
    if not 0.0 < size < math.inf:
        book.add((*path, "along"), "this direction has no length, or too much of it")
        return None
    x, y, z = (part / size for part in leg.along)
    return (x, y, z)


def _corners(
    context: tuple[FaultBook, Names, Path], legs: list[LegItem], directions: list[Vector], pipe: PipeParts
) -> list[Corner]:
    """Return the corner, or the end, that each leg runs to."""
    book, names, route = context
    corners = []
    for number, leg in enumerate(legs, start=1):
        path = (*route, number)
        name = leg.to or f"corner {number}"
        names.claim(name, (*path, "to") if leg.to else path)
        if number == len(legs):
            corners.append(Corner(name=name, bend_radius=None, bend_words="end"))
            continue
        angle = _turn(directions[number - 1], directions[number])
        if angle > math.pi - STRAIGHT:
            book.add((*route, number + 1, "go"), "this leg runs straight back along the one before it")
        if angle < STRAIGHT or angle > math.pi - STRAIGHT:
            corners.append(Corner(name=name, bend_radius=None, bend_words="straight"))
            continue
        if leg.bend is not None and leg.bend.radius is not None:
            check_radius(book, leg.bend.radius, pipe.size, (*path, "bend"))
        corners.append(_bend(leg.bend or pipe.bends, name, pipe.nominal))
    return corners


def _bend(bend: Bend | None, name: str, nominal: float | None) -> Corner:
    """Return a corner that turns; long radius, marked as assumed, where the file says nothing."""
    words = bend.words if bend else f"{LONG_RADIUS.words} (assumed)"
    chosen = bend or LONG_RADIUS
    radius = chosen.radius
    if chosen.nominal_sizes is not None and nominal is not None:
        radius = chosen.nominal_sizes * nominal
    return Corner(name=name, bend_radius=radius, bend_words=words)


def _layout(
    context: tuple[FaultBook, Path],
    start: StartItem,
    legs: list[LegItem],
    directions: list[Vector],
    corners: list[Corner],
) -> Layout:
    book, route = context
    lengths = [leg.go.length for leg in legs]
    stations = [0.0]
    for length in lengths:
        stations.append(stations[-1] + length)
    tangents = [0.0, *_tangents(directions, corners), 0.0]
    for number, length in enumerate(lengths, start=1):
        _check_fit(book, (*route, number, "go"), length, tangents[number - 1], tangents[number])
    heights = [0.0]
    for length, direction in zip(lengths, directions, strict=True):
        heights.append(heights[-1] + length * direction[2])
    last = legs[-1]
    assert last.to is not None, "read_route has judged it"
    assert last.kind is not None, "read_route has judged it"
    x, y, z = start.at
    return Layout(
        start=read_end(book, start, (*route, 0), name=start.start, kind=start.kind, into=directions[0]),
        start_at=(x, y, z),
        legs=tuple(
            Leg(direction=direction, length=length, to=corner)
            for direction, length, corner in zip(directions, lengths, corners, strict=True)
        ),
        end=read_end(book, last, (*route, len(legs)), name=last.to, kind=last.kind, into=_back(directions[-1])),
        stations=tuple(stations),
        tangents=tuple(tangents),
        rise=max(heights) - min(heights),
    )


def _tangents(directions: list[Vector], corners: list[Corner]) -> list[float]:
    """Return what each bend takes of either leg, T = R tan(theta/2) [m]."""
    return [
        (corner.bend_radius or 0.0) * math.tan(_turn(before, after) / 2.0)
        for before, after, corner in zip(directions, directions[1:], corners, strict=False)
    ]


def _check_fit(book: FaultBook, path: Path, length: float, before: float, after: float) -> None:
    if before + after <= length:
        return
    parts = [
        f"{to_mm(size):.0f} mm for the bend at its {side}" for size, side in ((before, "start"), (after, "end")) if size
    ]
    book.add(
        path,
        f"the bends need {to_mm(before + after):.0f} mm of this leg ({' and '.join(parts)}), "
        f"which is {to_mm(length):.0f} mm long",
    )


def _back(direction: Vector) -> Vector:
    x, y, z = direction
    return (-x, -y, -z)


def _turn(before: Vector, after: Vector) -> float:
    return turn_angle(np.array(before), np.array(after))
