"""From the world to an isometric that is not to scale.     (drawing/sheets/askew.py)

East runs down to the right, north up to the right, both at 30 degrees, and up is up. Along each of the three ways the
distances between corners are drawn by their square roots, so that a short offset beside a long leg is still seen: what
lies further on stays further on, so no leg changes its way and no line crosses another that it does not meet.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.labels import Box
from takeup.drawing.route import Vector
from takeup.drawing.sheet import Point

_COS, _SIN = math.sqrt(3.0) / 2.0, 0.5
_LEAST = 0.22  # of the longest root: a shorter distance is drawn so long
_SLIGHT = 0.02  # of the longest distance: a shorter one is a fall or an eccentric face, and stays slight
_SAME = 1e-6
_NOTHING = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Axis:
    """One way of the world: where the corners are along it [m], and where they are drawn."""

    knots: tuple[float, ...]
    drawn: tuple[float, ...]

    def __call__(self, value: float) -> float:
        """Return where a coordinate is drawn, linear between two corners."""
        if value <= self.knots[0]:
            return self.drawn[0]
        for (low, before), (high, after) in pairwise(zip(self.knots, self.drawn, strict=True)):
            if value <= high:
                return before + (after - before) * (value - low) / (high - low)
        return self.drawn[-1]


@dataclass(frozen=True, kw_only=True, slots=True)
class Askew:
    """The isometric on the sheet: three axes, a factor [mm], and where its origin falls [mm]."""

    axes: tuple[Axis, Axis, Axis]
    factor: float
    origin: Point

    def paper(self, place: Vector) -> Point:
        """Return where a place of the world falls on the sheet [mm]."""
        east, north, up = (axis(value) for axis, value in zip(self.axes, place, strict=True))
        u, v = seen((east, north, up))
        return self.origin[0] + self.factor * u, self.origin[1] - self.factor * v


def seen(place: Vector) -> Point:
    """Return what is seen of a vector, to the right and up."""
    east, north, up = place
    return _COS * (east + north), _SIN * (north - east) + up


def heading_of(direction: Vector) -> Point:
    """Return a direction on the sheet as a unit vector, y down."""
    u, v = seen(direction)
    size = math.hypot(u, v)
    return (1.0, 0.0) if size < _NOTHING else (u / size, -v / size)


def askew_in(corners: Sequence[Vector], room: Box) -> Askew:
    """Return the isometric of some corners, as large as its room and in the middle of it.

    Args:
        corners: All ends of legs [m].
        room: Left, top, right, bottom [mm].
    """
    longest = max(max(axis) - min(axis) for axis in zip(*corners, strict=True))
    x, y, z = (_axis(values, longest) for values in zip(*corners, strict=True))
    plain = Askew(axes=(x, y, z), factor=1.0, origin=(0.0, 0.0))
    points = [plain.paper(corner) for corner in corners]
    us, vs = [u for u, _ in points], [v for _, v in points]
    wide, high = room[2] - room[0], room[3] - room[1]
    factor = min(wide / max(max(us) - min(us), _SAME), high / max(max(vs) - min(vs), _SAME))
    middle = (factor * (min(us) + max(us)) / 2.0, factor * (min(vs) + max(vs)) / 2.0)
    origin = ((room[0] + room[2]) / 2.0 - middle[0], (room[1] + room[3]) / 2.0 - middle[1])
    return Askew(axes=(x, y, z), factor=factor, origin=origin)


def _axis(values: Sequence[float], longest: float) -> Axis:
    knots: list[float] = []
    for value in sorted(values):
        if not knots or value - knots[-1] > _SAME:
            knots.append(value)
    drawn = [0.0]
    for low, high in pairwise(knots):
        gap = high - low
        slight = math.sqrt(longest) * gap / longest
        root = max(math.sqrt(gap), _LEAST * math.sqrt(longest))
        drawn.append(drawn[-1] + (slight if gap < _SLIGHT * longest else root))
    return Axis(knots=tuple(knots), drawn=tuple(drawn))
