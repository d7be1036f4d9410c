"""The centre line in space: straights and true arcs, and where a station is on it.     (drawing/route.py)

The results give the intersections, the legs between them and each bend's tangent length. From these the pipe is
straight, arc, straight: an arc starts one tangent length before its intersection and ends one after it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.reading import Record, maybe_number, number_of, records_of, text_of, vector_of, vectors_of

Vector = tuple[float, float, float]
_SAME = 1e-6
_ON = 0.9  # cosine: an eccentric reducer sets the line off by less than 26 degrees, and turns it nowhere


@dataclass(frozen=True, kw_only=True, slots=True)
class Straight:
    """A straight from `start` to `end` [m]."""

    start: Vector
    end: Vector


@dataclass(frozen=True, kw_only=True, slots=True)
class Bend:
    """A true arc [m]: from `centre + radius * outward`, setting out along `forward`, through `angle` [rad]."""

    centre: Vector
    radius: float
    outward: Vector
    forward: Vector
    angle: float

    def at(self, turned: float) -> Vector:
        """Return the point after so much of the turn [rad]."""
        out, on = self.radius * math.cos(turned), self.radius * math.sin(turned)
        x, y, z = (c + out * o + on * f for c, o, f in zip(self.centre, self.outward, self.forward, strict=True))
        return x, y, z


Run = Straight | Bend


def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def along(a: Vector, direction: Vector, length: float) -> Vector:
    """Return the point so far from `a` along a direction."""
    return a[0] + length * direction[0], a[1] + length * direction[1], a[2] + length * direction[2]


def runs_of(line: Record) -> tuple[Run, ...]:
    """Return the straights and arcs of a line in the order of the flow."""
    points, legs = vectors_of(line, "points"), records_of(line, "legs")
    directions = [vector_of(leg, "direction") for leg in legs]
    runs: list[Run] = []
    start = points[0]
    for number, leg in enumerate(legs):
        bend = bend_at(line, number_of(leg, "end_m")) if number + 1 < len(legs) else None
        corner = points[number + 1]
        if bend is None:
            runs.append(Straight(start=start, end=corner))
            start = corner
            continue
        tangent = number_of(bend, "tangent_m")
        runs.append(Straight(start=start, end=along(corner, directions[number], -tangent)))
        runs.append(_arc(corner, directions[number], directions[number + 1], tangent))
        start = along(corner, directions[number + 1], tangent)
    return tuple(runs)


def bend_at(line: Record, station: float) -> Record | None:
    """Return the bend at a station that has a radius, or None."""
    for bend in records_of(line, "bends"):
        if abs(number_of(bend, "station_m") - station) < _SAME and maybe_number(bend, "radius_mm"):
            return bend
    return None


def _arc(corner: Vector, first: Vector, second: Vector, tangent: float) -> Bend:
    """Return the arc that leaves one leg and joins the next: R = T / tan(angle / 2)."""
    cosine = max(-1.0, min(1.0, dot(first, second)))  # two unit vectors; rounding must not leave the domain of acos
    angle = math.acos(cosine)
    radius = tangent / math.tan(angle / 2.0)
    inward = along(second, first, -cosine)
    size = math.sqrt(dot(inward, inward))
    outward = (-inward[0] / size, -inward[1] / size, -inward[2] / size)
    begin = along(corner, first, -tangent)
    return Bend(centre=along(begin, outward, -radius), radius=radius, outward=outward, forward=first, angle=angle)


def joined_legs(line: Record) -> Record:
    """Return a line whose legs run from intersection to intersection: what an item fills is joined to its neighbours.

    Its points are those of the joined legs.
    """
    points = vectors_of(line, "points")
    legs: list[Record] = []
    ends = [points[0]]
    for leg, end in zip(records_of(line, "legs"), points[1:], strict=True):
        if legs and _is_face(legs[-1], leg):
            length = number_of(legs[-1], "length_m") + number_of(leg, "length_m")
            legs[-1] = {**leg, "from": legs[-1]["from"], "start_m": legs[-1]["start_m"], "length_m": length}
            ends[-1] = end
        else:
            legs.append(leg)
            ends.append(end)
    return {**line, "legs": legs, "points": ends}


def _is_face(before: Record, beyond: Record) -> bool:
    """Whether two legs meet at the face of an item: a place that nobody named, and where the line does not turn."""
    faces = {f"last face of {text_of(before, 'item')}", f"first face of {text_of(beyond, 'item')}"}
    return text_of(before, "to") in faces and dot(vector_of(before, "direction"), vector_of(beyond, "direction")) > _ON


def on_legs(line: Record, station: float) -> tuple[Vector, Vector]:
    """Return the point at a station [m] on the straight legs, and the direction of the flow there."""
    for leg, start in zip(records_of(line, "legs"), vectors_of(line, "points"), strict=False):
        if station <= number_of(leg, "end_m") + _SAME:
            direction = vector_of(leg, "direction")
            return along(start, direction, station - number_of(leg, "start_m")), direction
    last = records_of(line, "legs")[-1]
    return vectors_of(line, "points")[-1], vector_of(last, "direction")


def profile_of(line: Record) -> tuple[tuple[float, float], ...]:
    """Return station against elevation [m] along the line, in order."""
    nodes = [(number_of(node, "station_m"), vector_of(node, "at_m")[2]) for node in records_of(line, "nodes")]
    if nodes:
        return tuple(sorted(nodes, key=lambda pair: pair[0]))
    stations = [0.0, *(number_of(leg, "end_m") for leg in records_of(line, "legs"))]
    return tuple(zip(stations, (point[2] for point in vectors_of(line, "points")), strict=True))


def elevation_at(profile: tuple[tuple[float, float], ...], station: float) -> float:
    """Return the elevation at a station [m], linear between the points of the profile."""
    for (before, low), (after, high) in pairwise(profile):
        if before - _SAME <= station <= after + _SAME:
            return high if after - before < _SAME else low + (high - low) * (station - before) / (after - before)
    return profile[-1][1]
