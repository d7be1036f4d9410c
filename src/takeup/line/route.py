"""The centre line in space: stations, points, directions, bends.     (line/route.py)

Legs run between intersections of centre lines; a station is the sum of leg lengths. A bend of radius R turning by
theta leaves its leg R tan(theta/2) before the intersection and joins the next one as far after it; stations between
map in proportion onto the arc. Local axes of a place: x along the flow, z the most upward normal (on a vertical leg:
the most northward), y = z x x.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.line.parts import Leg, Vector
from takeup.line.records import Line

Floats = NDArray[np.float64]

SAME_STATION = 1e-6  # stations closer than a micrometre are one
STRAIGHT = math.radians(0.5)  # a turn below this is drawn and computed as straight
_VERTICAL = 1.0 - 1e-9
_NORTH, _UP = np.array([0.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, kw_only=True, slots=True)
class Turn:
    """A corner where the line changes direction; `radius` is None at a sharp corner.

    Lengths in metres, `angle` in radians; `entry` and `exit` are the unit directions before and after.
    """

    name: str
    station: float
    radius: float | None
    angle: float
    tangent_length: float
    entry: Floats
    exit: Floats

    @property
    def arc_length(self) -> float:
        """Length along the arc [m]; zero at a sharp corner."""
        return (self.radius or 0.0) * self.angle

    @property
    def begin(self) -> float:
        """Station of the first tangent point [m]."""
        return self.station - self.tangent_length

    @property
    def finish(self) -> float:
        """Station of the second tangent point [m]."""
        return self.station + self.tangent_length


def _finish(turn: Turn) -> float:
    return turn.finish


@dataclass(frozen=True, kw_only=True, slots=True)
class Route:
    """The centre line of one line.

    Args:
        corners: stations of the intersections, both ends included, (legs + 1,) [m].
        points: the intersections, (legs + 1, 3) [m].
        directions: unit directions of the legs, (legs, 3).
        turns: the corners that turn.
    """

    corners: Floats
    points: Floats
    directions: Floats
    turns: tuple[Turn, ...]

    @property
    def length(self) -> float:
        """Station of the far end [m]."""
        return float(self.corners[-1])

    @property
    def developed_length(self) -> float:
        """True length along legs and arcs [m]."""
        return self.length + sum(turn.arc_length - 2.0 * turn.tangent_length for turn in self.turns)

    def turn_at(self, station: float) -> Turn | None:
        """Return the bend whose arc holds `station`, ends excluded."""
        after = bisect_left(self.turns, station, key=_finish)  # turns follow one another, to the rounding of their ends
        for turn in self.turns[after : after + 2]:
            if turn.radius is not None and turn.begin < station < turn.finish:
                return turn
        return None

    def leg_at(self, station: float) -> int:
        """Return the number of the leg that holds `station`; a corner belongs to the leg before it."""
        return int(np.clip(np.searchsorted(self.corners, station) - 1, 0, len(self.directions) - 1))

    def point(self, station: float) -> Floats:
        """Return the point on the centre line at a station, (3,) [m]."""
        turn = self.turn_at(station)
        if turn is None:
            leg = self.leg_at(station)
            return np.asarray(self.points[leg] + (station - self.corners[leg]) * self.directions[leg])
        angle, across = self._on_arc(turn, station)
        radius = turn.radius or 0.0
        corner = self.points[int(np.argmin(np.abs(self.corners - turn.station)))]
        start = corner - turn.tangent_length * turn.entry
        return np.asarray(start + radius * (math.sin(angle) * turn.entry + (1.0 - math.cos(angle)) * across))

    def direction(self, station: float) -> Floats:
        """Return the unit direction of flow at a station, (3,)."""
        turn = self.turn_at(station)
        if turn is None:
            return np.asarray(self.directions[self.leg_at(station)])
        angle, across = self._on_arc(turn, station)
        return np.asarray(math.cos(angle) * turn.entry + math.sin(angle) * across)

    def axes(self, station: float) -> Floats:
        """Return the local axes of a place as rows x, y, z, (3, 3)."""
        return local_axes(self.direction(station))

    def _on_arc(self, turn: Turn, station: float) -> tuple[float, Floats]:
        """Return the angle turned at a station of an arc, and the unit vector toward the arc's centre."""
        angle = turn.angle * (station - turn.begin) / (2.0 * turn.tangent_length)
        across = (turn.exit - math.cos(turn.angle) * turn.entry) / math.sin(turn.angle)
        return angle, across


def local_axes(direction: Floats) -> Floats:
    """Return the local axes of a direction of flow as rows x, y, z, (3, 3).

    Args:
        direction: unit vector, (3,).
    """
    upward = _NORTH if abs(direction[2]) > _VERTICAL else _UP
    normal = upward - (upward @ direction) * direction
    normal /= np.linalg.norm(normal)
    (a, b, c), (x, y, z) = normal.tolist(), direction.tolist()
    return np.array([direction, (b * z - c * y, c * x - a * z, a * y - b * x), normal])


def route_of(line: Line) -> Route:
    """Return the centre line of a line.

    Args:
        line: the line; its reader has proved that the bends fit into their legs.
    """
    return centre_line(line.start_at, line.legs)


def centre_line(start_at: Vector, legs: tuple[Leg, ...]) -> Route:
    """Return the centre line of legs that begin at a point."""
    directions = np.array([leg.direction for leg in legs])
    lengths = np.array([leg.length for leg in legs])
    corners = np.concatenate([[0.0], np.cumsum(lengths)])
    steps = directions * lengths[:, None]
    points = np.array(start_at) + np.concatenate([np.zeros((1, 3)), np.cumsum(steps, axis=0)])
    angles = _turn_angles(directions[:-1], directions[1:])
    turns = []
    for number, leg in enumerate(legs[:-1]):
        angle = float(angles[number])
        if angle < STRAIGHT or leg.item is not None or legs[number + 1].item is not None:
            continue  # an eccentric reducer leans by its shift, which is no turn of the line
        radius = leg.to.bend_radius
        turns.append(
            Turn(
                name=leg.to.name,
                station=float(corners[number + 1]),
                radius=radius,
                angle=angle,
                tangent_length=(radius or 0.0) * math.tan(angle / 2.0),
                entry=directions[number],
                exit=directions[number + 1],
            )
        )
    return Route(corners=corners, points=points, directions=directions, turns=tuple(turns))


def turn_angle(before: Floats, after: Floats) -> float:
    """Return the angle between two unit directions [rad], exact near zero and near a half turn."""
    return float(_turn_angles(before, after))


def _turn_angles(before: Floats, after: Floats) -> Floats:
    """Return the angles between unit directions, (..., 3) each, (...) [rad]."""
    apart, together = after - before, after + before
    return np.asarray(2.0 * np.arctan2(np.sqrt((apart * apart).sum(-1)), np.sqrt((together * together).sum(-1))))
