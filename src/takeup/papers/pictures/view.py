"""How all pictures of a study look at the lines: from the same side, on the same scale.     (papers/pictures/view.py)

So that pictures of two states can be held beside each other: the view and the factors are those of the whole study.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from takeup.drawing.mesh.flat import Seen, best_view, scale_in
from takeup.drawing.mesh.joints import Detail
from takeup.drawing.mesh.profile import radius_at
from takeup.drawing.mesh.scene import Held, Line, Look, Scene, held_of, lines_of
from takeup.drawing.mesh.stretch import greatest_movement, stretch_of
from takeup.drawing.places import is_anchor
from takeup.drawing.reading import Results, number_of, records_of, text_of
from takeup.drawing.scale import round_down
from takeup.drawing.sheet import Point

Floats = NDArray[np.float64]
WIDTH, HEIGHT = 320.0, 200.0
ROOM = (26.0, 37.0, WIDTH - 26.0, HEIGHT - 41.0)
"""Where the lines are drawn, but for words beside them: left, top, right, bottom [mm]."""
_WIDE_ENOUGH = 2.6  # a pipe that is drawn thicker than it is is at most so wide, and at least two fifths of it [mm]
_MARGIN = 4.0  # of the drawn radius of the widest pipe, beyond the centre lines
_APART = 3.4  # smaller holds are drawn where they are so many drawn radii apart
_SLACK = 0.15  # a run is drawn within so much of its places [mm]
_SHADES = (32, 14)  # and its colour within so many steps of the scale; of lines with many joints
_FEW, _SOME = 4, 12  # joints: the more there are, the plainer they are drawn
_WAVE = 1.9  # waves of a bellows are at least so long [mm]
_ROUNDER = Detail(sides=24, points=10, waves=8)
"""Of lines that are drawn as thick as they are."""
PLAIN = (
    (_FEW, Detail(sides=16, points=8, waves=8)),
    (_SOME, Detail(sides=12, points=6, waves=6)),
    (10**9, Detail(sides=8, points=3, waves=3)),
)


@dataclass(frozen=True, kw_only=True, slots=True)
class View:
    """How the lines are looked at.

    Args:
        seen: from where.
        scale: millimetres on paper of a metre.
        zero: what falls on the middle of the room, as seen [m].
        thick: how many times their thickness things are drawn.
        stretch: how many times movements are drawn.
        greatest: movement of all states, which has the darkest colour [m].
        look: how scenes are made.
        crowded: whether holds are left out.
    """

    seen: Seen
    scale: float
    zero: Point
    thick: int
    stretch: int
    greatest: float
    look: Look
    crowded: bool

    def paper(self, places: Floats) -> list[Point]:
        """Return where places fall on the sheet [mm], (n, 3) [m]."""
        return [self.on_paper((float(u), float(v))) for u, v in self.seen.flat(places)[:, :2]]

    def on_paper(self, flat: Point) -> Point:
        """Return where a point of the view [m] falls on the sheet [mm]."""
        left, top, right, bottom = ROOM
        x = (left + right) / 2.0 + self.scale * (flat[0] - self.zero[0])
        return x, (top + bottom) / 2.0 - self.scale * (flat[1] - self.zero[1])


def view_of(results: Results) -> View:
    """Return how all pictures of a study look at its lines."""
    stretch = stretch_of(results)
    states = ["", *dict.fromkeys(text_of(shape, "state") for shape in records_of(results, "shapes"))]
    lines = [line for state in states for line in lines_of(results, state, stretch)]
    places = np.concatenate([line.at(np.linspace(0.0, line.centre.length, 129)) for line in lines])
    room = (ROOM[2] - ROOM[0], ROOM[3] - ROOM[1])
    seen = best_view(places, room)
    widest = max(radius_at(line.record, 0.0) for line in lines)
    scale, thick = _scale(seen, places, room, widest)
    flat = seen.flat(places)
    middle = (flat.min(axis=0) + flat.max(axis=0)) / 2.0
    lying = lines[: len(records_of(results, "lines"))]
    held = [(line, hold) for line in lying for hold in held_of(results, line)]
    kept = _room_for(held, thick)
    greatest = greatest_movement(results)
    joints = sum(len(records_of(takeup, "bellows")) for takeup in records_of(results, "takeups"))
    look = Look(
        thick=float(thick),
        detail=replace(_detail(joints, thick), least=_WAVE / scale),
        holds=kept,
        slack=(_SLACK / scale, greatest / _SHADES[joints > _SOME]),
    )
    return View(
        seen=seen,
        scale=scale,
        zero=(float(middle[0]), float(middle[1])),
        thick=thick,
        stretch=stretch,
        greatest=greatest,
        look=look,
        crowded=len(kept) < len(held),
    )


def _detail(joints: int, thick: int) -> Detail:
    """Return how finely things are drawn: the more joints there are, the plainer."""
    if thick == 1 and joints <= _FEW:
        return _ROUNDER
    return next(detail for most, detail in PLAIN if joints <= most)


def _scale(seen: Seen, places: Floats, room: Point, widest: float) -> tuple[float, int]:
    """Return millimetres of a metre, and how many times thicker things are drawn so that pipes are wide enough."""
    scale, thick = scale_in(seen, places, room), 1
    for _ in range(3):  # a thicker pipe takes room at the edges, so that all is drawn a little smaller
        thick = math.floor(round_down(max(1.0, _WIDE_ENOUGH / (2.0 * widest * scale))))
        edge = _MARGIN * widest * thick
        flat = seen.flat(places)
        wide, high = float(np.ptp(flat[:, 0])) + 2.0 * edge, float(np.ptp(flat[:, 1])) + 2.0 * edge
        scale = min(room[0] / wide, room[1] / high)
    return scale, thick


def _room_for(held: list[tuple[Line, Held]], thick: float) -> frozenset[tuple[str, str]]:
    """Return the holds that are drawn: every anchor, and of the others as many as stand clear of each other."""
    kept: list[tuple[str, str]] = []
    places: list[Floats] = []
    for line, hold in sorted(held, key=lambda pair: not is_anchor(pair[1].kind)):
        apart = _APART * thick * radius_at(line.record, hold.station)
        if not is_anchor(hold.kind) and any(float(np.linalg.norm(hold.at - other)) < apart for other in places):
            continue
        places.append(hold.at)
        kept.append((text_of(line.record, "name"), hold.name))
    return frozenset(kept)


def lying_strokes(view: View, scene: Scene) -> list[tuple[Point, ...]]:
    """Return the centre lines as they lie, on the sheet."""
    found = []
    for line in scene.lines:
        stations: list[float] = []
        for run, (start, end) in zip(line.centre.runs, pairwise(line.centre.stations), strict=True):
            count = 24 if getattr(run, "angle", 0.0) else 1
            stations += [float(place) for place in np.linspace(start, end, count + 1)]
        found.append(tuple(view.paper(line.centre.at(np.array(stations)))))
    return found


def spots_of(view: View, scene: Scene, results: Results) -> dict[tuple[str, str], Point]:
    """Return where each joint and each hold that is drawn stands on the sheet, by line and name."""
    spots: dict[tuple[str, str], Point] = {}
    for line in scene.lines:
        name = text_of(line.record, "name")
        for hold in held_of(results, line):
            spots[name, hold.name] = view.paper(hold.at[None, :])[0]
        for takeup in records_of(results, "takeups"):
            if text_of(takeup, "line") == name:
                station = np.array([number_of(takeup, "from_m"), number_of(takeup, "to_m")])
                spots[name, text_of(takeup, "name")] = view.paper(line.at(station).mean(axis=0)[None, :])[0]
    return spots


__all__ = ["HEIGHT", "ROOM", "WIDTH", "View", "lying_strokes", "spots_of", "view_of"]
