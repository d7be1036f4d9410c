"""Joints in space: corrugated bellows or their housing, rods, plates.     (drawing/mesh/joints.py)

A bellows is drawn between its two ends where they are in the state that is shown. An exaggerated shortening may be more
than the joint is long: its ends are then inside each other, and the bellows covers as much as they are past each other.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.drawing.mesh.profile import CREST, HOUSED, Form, bellows_form
from takeup.drawing.mesh.solid import Faces, Floats, Solid
from takeup.drawing.mesh.sweep import tube
from takeup.drawing.reading import Record, number_of, record_of, text_of

HOUSED_KINDS = ("externally pressurised", "small-bore compensator")
_LEAST = 1.7  # a bellows is drawn at least so many diameters of its pipe long
_ROD, _AWAY = 0.13, 0.28  # radius of a rod, and how far it is off the crests, over the radius of the pipe
_MOST_RODS = 6
_STEEP = 0.9  # cosine from which a joint stands upright
_FEWEST = 3  # waves of a bellows
_ROUND = 6  # sides of a rod


@dataclass(frozen=True, kw_only=True, slots=True)
class Ends:
    """A bellows in a state: its ends and the way of the pipe as it lies, (3,), and how far each end is moved [m]."""

    first: Floats
    last: Floats
    way: Floats
    moved: tuple[float, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class Detail:
    """How finely round things are made: sides of a tube, points of a wave; of a bellows the most waves, none shorter.

    `least` is the length of a wave below which fewer are drawn, so that they are seen [m].
    """

    sides: int
    points: int
    waves: int
    least: float = 0.0


def bellows_solid(takeup: Record, name: str, ends: Ends, radius: float, detail: Detail, *, longer: bool) -> Solid:
    """Return one bellows of a joint with its rods or plates.

    Args:
        takeup: of the results.
        name: of the solid.
        ends: where it is.
        radius: of its pipe as drawn [m].
        detail: how finely.
        longer: whether it may be drawn longer than it is, so that it is seen.
    """
    first, last = _drawn(ends, _LEAST * 2.0 * radius if longer else 0.05 * radius)
    form = _form(takeup, detail, float(np.linalg.norm(last - first)))
    shares = np.array([share for share, _ in form])
    points = first + shares[:, None] * (last - first)
    shapes = [tube(points, radius * np.array([over for _, over in form]), detail.sides)]
    moved = [_levels(shares, ends.moved, detail.sides)]
    for start, end, thick in _beside(takeup, first, last, radius):
        shapes.append(tube(np.array([start, end]), np.array([thick, thick]), _ROUND))
        moved.append(_levels(np.array([0.0, 1.0]), ends.moved, _ROUND))
    return _whole(name, shapes, moved)


def _whole(name: str, shapes: list[tuple[Floats, Faces]], moved: list[Floats]) -> Solid:
    before = np.cumsum([0, *(len(vertices) for vertices, _ in shapes)])
    return Solid(
        name=name,
        sort="bellows",
        vertices=np.concatenate([vertices for vertices, _ in shapes]),
        quads=np.concatenate([quads + start for (_, quads), start in zip(shapes, before, strict=False)]),
        moved=np.concatenate(moved),
    )


def _levels(shares: Floats, moved: tuple[float, float], sides: int) -> Floats:
    """Return how far each vertex of a tube is moved: in proportion between its ends."""
    rings = moved[0] + shares * (moved[1] - moved[0])
    return np.concatenate([np.repeat(rings, sides), rings[[0, -1]]])


def _drawn(ends: Ends, least: float) -> tuple[Floats, Floats]:
    """Return both ends as drawn: at least so far apart about their middle, along the pipe where they are as one."""
    apart = ends.last - ends.first
    length = float(np.linalg.norm(apart))
    if length >= least:
        return ends.first, ends.last
    way = apart / length if length > 0.25 * least else ends.way
    middle = (ends.first + ends.last) / 2.0
    return middle - least / 2.0 * way, middle + least / 2.0 * way


def _form(takeup: Record, detail: Detail, length: float) -> Form:
    if text_of(takeup, "kind") in HOUSED_KINDS:
        return HOUSED
    own = record_of(takeup, "computed").get("convolutions")
    waves = int(own) if isinstance(own, int | float) else detail.waves
    seen = detail.waves if detail.least == 0.0 else int(length / detail.least)
    return bellows_form(max(_FEWEST, min(waves, detail.waves, seen)), detail.points)


def _beside(takeup: Record, first: Floats, last: Floats, radius: float) -> list[tuple[Floats, Floats, float]]:
    """Return rods, or the two plates or bars, as straight pieces: start, end and half their thickness [m]."""
    data = record_of(takeup, "data")
    rods, pins = record_of(data, "rods"), record_of(data, "pins")
    if not rods and not pins:
        return []
    count = min(int(number_of(rods, "count")), _MOST_RODS) if rods else 2
    way = (last - first) / np.linalg.norm(last - first)
    up = np.array([0.0, 0.0, 1.0]) if abs(way[2]) < _STEEP else np.array([0.0, 1.0, 0.0])
    across = np.cross(up, way)
    across /= np.linalg.norm(across)
    normal = np.cross(way, across)
    off = radius * (CREST + _AWAY)
    thick = radius * (_ROD if rods else 2.0 * _ROD)
    over = 0.12 * (last - first)
    angles = np.pi * (2.0 * np.arange(count) + (1.0 if rods else 0.0)) / count
    places = [off * (np.cos(angle) * across + np.sin(angle) * normal) for angle in angles]
    return [(first + place - over, last + place + over, thick) for place in places]


__all__ = ["Detail", "Ends", "bellows_solid"]
