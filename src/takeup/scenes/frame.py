"""From the world to the strip: lengths to one scale, movements to a larger one.     (scenes/frame.py)

A run of forty metres with a joint of one metre cannot be drawn to one scale on a sheet: the joint would be a speck. So
each bellows is given a fixed length on paper, everything else keeps one scale, and movements are drawn so many times
larger than lengths; the strip says how many times. North is up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from takeup.drawing.sheet import Point
from takeup.scenes.figure import Picture, PicturedJoint

Floats = NDArray[np.float64]
BELLOWS = 17.0  # length of a bellows on paper, as fitted [mm]
TWO, SPOOL = 9.0, 13.0  # of each of two bellows on paper [mm], and of a metre of the spool between them [mm/m]
LARGEST = 12.0  # the largest movement on paper [mm]
BOW = 9.0  # the largest movement of a shape of bowing out [mm]
_BEND = 4.6  # from a corner to where its bend begins on paper [mm]
_PRESSED = 9.5  # a bellows is pressed together by so much at most, so that it is still seen [mm]
_LEAST_MOVED = 1e-6  # m: less is rounding
_ROUND = (1.0, 2.0, 3.0, 4.0, 5.0, 8.0)
_MOST = 100.0  # times: beyond it an elastic give of no interest would look like movement


@dataclass(frozen=True, kw_only=True, slots=True)
class Axis:
    """One axis of the world on paper: linear between corners in the world [m] and on paper [mm]."""

    world: tuple[float, ...]
    paper: tuple[float, ...]

    def at(self, value: float) -> float:
        """Return where a place is on paper, from the axis's own nought [mm]."""
        return float(np.interp(value, self.world, self.paper))


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """How a strip draws: millimetres of paper for a metre of length and for a metre of movement."""

    scale: float
    movement: float

    @property
    def times(self) -> float:
        """How many times larger than lengths movements are drawn."""
        return self.movement / self.scale

    def axes(self, picture: Picture) -> tuple[Axis, Axis]:
        """Return the axes to the east and to the north of a picture."""
        east, north = (_axis(picture, axis, _stretched_along(picture, axis), self.scale) for axis in (0, 1))
        return east, north

    def height(self, picture: Picture) -> float:
        """Return the height of a line on paper [mm]."""
        return self.axes(picture)[1].paper[-1]

    def places(self, picture: Picture, origin: Point, *, moved: bool) -> list[Point]:
        """Return the nodes of a picture on paper; `origin` is the place of the axes' noughts, north is up."""
        stretch = (BOW if picture.bows else self.movement) if moved else 0.0
        east, north = self.axes(picture)
        places = [
            (
                origin[0] + east.at(float(x)) + stretch * float(dx),
                origin[1] - north.at(float(y)) - stretch * float(dy),
            )
            for (x, y), (dx, dy) in zip(picture.points, picture.movements, strict=True)
        ]
        for bend in picture.bends:
            places[bend[0] : bend[1] + 1] = _rounded(places, bend)
        return places


def _rounded(places: list[Point], bend: tuple[int, int]) -> list[Point]:
    """Return the nodes of a bend, drawn wider than it is: with its true radius the walls of the pipe would cross."""
    first, last = bend
    before, after = places[first - 1], places[last + 1]
    (ax, ay), (bx, by) = places[first], places[last]
    one, other = (ax - before[0], ay - before[1]), (after[0] - bx, after[1] - by)
    cross = one[0] * other[1] - one[1] * other[0]
    share = ((bx - ax) * other[1] - (by - ay) * other[0]) / cross
    corner = (ax + share * one[0], ay + share * one[1])
    start, end = (_toward(corner, place) for place in (before, after))
    shares = [k / (last - first) for k in range(last - first + 1)]
    return [
        (
            (1 - t) ** 2 * start[0] + 2 * t * (1 - t) * corner[0] + t**2 * end[0],
            (1 - t) ** 2 * start[1] + 2 * t * (1 - t) * corner[1] + t**2 * end[1],
        )
        for t in shares
    ]


def _toward(corner: Point, place: Point) -> Point:
    """Return the place so far from a corner as a bend on paper begins."""
    share = min(_BEND / math.dist(corner, place), 1.0)
    return corner[0] + share * (place[0] - corner[0]), corner[1] + share * (place[1] - corner[1])


def from_above(pictures: Sequence[Picture]) -> bool:
    """Whether a strip is seen from above: where the line turns or bows out; a straight one is seen from the side."""
    return any(picture.bows or float(np.ptp(picture.points[:, 1])) > _LEAST_MOVED for picture in pictures)


def frame_of(pictures: Sequence[Picture], width: float) -> Frame:
    """Return the frame of a strip: one scale for all its steps, so that they can be compared.

    Args:
        pictures: of its steps.
        width: that the longest line may fill on paper [mm].
    """
    scale = min(_scale(picture, width) for picture in pictures)
    return Frame(scale=scale, movement=_movement(scale, pictures))


def _scale(picture: Picture, width: float) -> float:
    """Return the millimetres of paper for a metre, beside what is stretched, with which a line fills a width."""
    stretched = _stretched_along(picture, 0)
    length = float(np.ptp(picture.points[:, 0])) - sum(end - start for start, end, _ in stretched)
    return (width - sum(paper for _, _, paper in stretched)) / length


def _movement(scale: float, pictures: Sequence[Picture]) -> float:
    """Return the millimetres of paper for a metre of movement: a round number of times the scale of lengths."""
    true = [picture for picture in pictures if not picture.bows]
    moved = max((float(np.abs(picture.movements).max()) for picture in true), default=0.0)
    if moved < _LEAST_MOVED:
        return scale
    pressed = max((-joint.axial / len(joint.bellows) for picture in true for joint in picture.joints), default=0.0)
    apart = max((_ends_apart(picture, joint) for picture in true for joint in picture.joints), default=0.0)
    limits = ((LARGEST, moved), (_PRESSED, pressed), (LARGEST, apart))
    times = min(_MOST, *(paper / true / scale for paper, true in limits if true > _LEAST_MOVED))
    power = 10.0 ** math.floor(math.log10(times))
    return scale * power * max(step for step in _ROUND if step * power <= times)


def _ends_apart(picture: Picture, joint: PicturedJoint) -> float:
    """Return how far one face of a joint has moved against the other [m]."""
    first, last = (picture.movements[node] for node in joint.faces)
    return float(np.abs(last - first).max())


def _stretched_along(picture: Picture, axis: int) -> list[tuple[float, float, float]]:
    """Return bellows that run along an axis, and spools between two: both ends [m], and their length on paper."""
    found = []
    for joint in picture.joints:
        alone = len(joint.bellows) == 1
        parts = [(pair, True) for pair in joint.bellows]
        parts += [((one[1], other[0]), False) for one, other in pairwise(joint.bellows)]
        for ends, waves in parts:
            first, last = sorted(float(picture.points[node, axis]) for node in ends)
            paper = (BELLOWS if alone else TWO) if waves else SPOOL * (last - first)
            if last - first > _LEAST_MOVED:
                found.append((first, last, paper))
    return sorted(found)


def _axis(picture: Picture, axis: int, stretched: list[tuple[float, float, float]], scale: float) -> Axis:
    low, high = float(picture.points[:, axis].min()), float(picture.points[:, axis].max())
    world, paper = [low], [0.0]
    for start, end, length in stretched:
        world += [start, end]
        paper.append(paper[-1] + scale * (start - world[-3]))
        paper.append(paper[-1] + length)
    return Axis(world=(*world, high), paper=(*paper, paper[-1] + scale * (high - world[-1])))
