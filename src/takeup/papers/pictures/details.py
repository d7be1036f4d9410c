"""Details: joints larger, true to size, where the picture has room for them.     (papers/pictures/details.py)

A long line is drawn thicker than it is, so that it is seen; what a joint does is not seen there. A detail shows it from
the same side with nothing thickened, its movement as many times larger as everywhere in the picture.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from takeup.drawing.labels import Box, Taken, crosses
from takeup.drawing.mesh.flat import Facet, facets_of
from takeup.drawing.mesh.holds import upright
from takeup.drawing.mesh.profile import radius_at
from takeup.drawing.mesh.scene import Detail, Line, Look, Scene, part_of
from takeup.drawing.mesh.tones import Toned
from takeup.drawing.reading import Record, Results, number_of, of_line, records_of, text_of
from takeup.drawing.sheet import Point
from takeup.papers.pictures.view import View, spots_of

Floats = NDArray[np.float64]
WIDE, HIGH, HEAD = 62.0, 43.0, 12.0
"""A detail on the sheet, and the room in it for words over it [mm]."""
_MOST = 3
_SEEN = 6.0  # where a pipe is drawn wider, what a joint does is seen without a detail [mm]
_OVER_PIPE, _OVER_WORDS = 60.0, 240.0  # what a leader costs that crosses the pipe, or words and details [mm]
_OFF = 2.2  # a leader ends so far off its joint [mm]
_STEP = 4.0  # places are tried so far apart [mm]
_CLEAR = 6.0  # and stand so far off everything [mm]
_PAD = 4.0  # of the drawing within its frame [mm]
_BESIDE = 1.2  # diameters of pipe that are shown on either side of a joint
_RING, _ROUND = 1.75, 32  # radius of a ring over that of the pipe, and its strokes
_STEP_ALONG = 1e-3  # the way of the pipe is taken between two places so far from a station [m]
_FINE = Detail(sides=18, points=6, waves=10)


@dataclass(frozen=True, kw_only=True, slots=True)
class Shown:
    """A detail on the sheet.

    Args:
        box: that it fills.
        at: the joint in the picture.
        takeup: the joint.
        facets: of it.
        lying: its centre line as it lies.
        rings: round the ends of its bellows as they lie.
    """

    box: Box
    at: Point
    takeup: Record
    facets: tuple[Facet, ...]
    lying: tuple[Point, ...]
    rings: tuple[tuple[Point, ...], ...]


def details_of(
    results: Results, view: View, scene: Scene, room: Box, *, faces: Sequence[Box], words: Sequence[Box]
) -> tuple[Shown, ...]:
    """Return the details that there is room for: of the joints that move most in any state, each near its joint.

    Args:
        results: the results document.
        view: how the lines are looked at.
        scene: the state.
        room: where a detail may stand.
        faces: boxes of what is drawn there.
        words: boxes of words there.
    """
    if 2.0 * view.thick * view.scale * max(radius_at(line.record, 0.0) for line in scene.lines) > _SEEN:
        return ()
    found: list[Shown] = []
    boxes, spots = list(words), spots_of(view, scene, results)
    strokes = [stroke for line in scene.lines for stroke in pairwise(_centre(view, line))]
    for line, takeup in _most_moved(results, scene)[:_MOST]:
        at = spots[text_of(takeup, "line"), text_of(takeup, "name")]
        drawn = Taken(room=room, signs=list(faces), words=boxes, strokes=strokes)
        box = _free(drawn, at)
        if box is None:
            continue
        boxes.append(box)
        found.append(_shown(results, view, (line, takeup), box, at))
    return tuple(found)


def _most_moved(results: Results, scene: Scene) -> list[tuple[Line, Record]]:
    """Return all joints with their lines, the one that moves most in any state first."""
    pairs = [(line, takeup) for line in scene.lines for takeup in of_line(results, "takeups", line.record)]
    return sorted(pairs, key=lambda pair: -max((_size(one) for one in records_of(pair[1], "movements")), default=0.0))


def _size(movement: Record) -> float:
    """Return how much a joint moves, along and aside [mm], rounded so that two alike stay in their order."""
    return round(abs(number_of(movement, "axial_mm")) + number_of(movement, "lateral_mm"), 1)


def _centre(view: View, line: Line) -> list[Point]:
    return view.paper(line.at(np.linspace(0.0, line.centre.length, 97)))


def _free(drawn: Taken, at: Point) -> Box | None:
    """Return the free place nearest to a point whose leader crosses nothing; where there is none, the least bad one."""
    places = _places(drawn)
    best: tuple[float, Box] | None = None
    for far, box in sorted((_far(box, at), box) for box in places):
        if best is not None and far >= best[0]:
            break
        cost = far + _crossing(box, at, drawn)
        if best is None or cost < best[0]:
            best = (cost, box)
    return None if best is None else best[1]


def _places(drawn: Taken) -> list[Box]:
    """Return the boxes that are clear of everything: a place is taken by what it meets both across and down."""
    left, top, right, bottom = drawn.room
    xs = np.arange(right - WIDE, left - 1e-9, -_STEP)
    ys = np.arange(top, bottom - HIGH + 1e-9, _STEP)
    taken = np.array([*drawn.signs, *drawn.words]).reshape(-1, 4)
    meets_across = _meets(xs, WIDE, taken[:, 0], taken[:, 2])
    meets_down = _meets(ys, HIGH, taken[:, 1], taken[:, 3])
    free = meets_down @ meets_across.T == 0.0
    return [
        (x, y, x + WIDE, y + HIGH)
        for y, row in zip(ys.tolist(), free.tolist(), strict=True)
        for x, is_free in zip(xs.tolist(), row, strict=True)
        if is_free
    ]


def _meets(starts: Floats, size: float, lows: Floats, highs: Floats) -> Floats:
    """Return 1.0 where a stretch from a start meets one between a low and a high end, (starts, ends)."""
    beside = (starts[:, None] + size + _CLEAR <= lows) | (highs <= starts[:, None] - _CLEAR)
    return np.asarray(~beside, dtype=float)


def _far(box: Box, at: Point) -> float:
    return round(math.dist(((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0), at), 3)


def _crossing(box: Box, at: Point, drawn: Taken) -> float:
    """Return what it costs that the leader crosses the pipe, or words and details [mm]."""
    leader = leader_of(box, at)
    if leader is None:
        return 0.0
    pipe, words = not drawn.is_off_strokes(*leader), any(crosses(leader, other) for other in drawn.words)
    return _OVER_PIPE * pipe + _OVER_WORDS * words


def leader_of(box: Box, at: Point) -> tuple[Point, Point] | None:
    """Return the stroke from a detail to its joint; None where the joint is under it."""
    left, top, right, bottom = box
    end = (min(max(at[0], left), right), min(max(at[1], top), bottom))
    length = math.dist(end, at)
    if length <= _OFF:
        return None
    share = 1.0 - _OFF / length
    return end, (end[0] + share * (at[0] - end[0]), end[1] + share * (at[1] - end[1]))


def _shown(results: Results, view: View, joint: tuple[Line, Record], box: Box, at: Point) -> Shown:
    line, takeup = joint
    low, high = number_of(takeup, "from_m"), number_of(takeup, "to_m")
    beside = _BESIDE * 2.0 * radius_at(line.record, low)
    span = (max(0.0, low - beside), min(line.centre.length, high + beside))
    look = Look(detail=_FINE)
    solids = part_of(results, line, span, look)
    rings, axis = list(_rings(line, takeup)), line.centre.at(np.linspace(*span, 25))
    places = np.concatenate([*(solid.vertices for solid in solids), *rings])
    flat = view.seen.flat(places)[:, :2]
    middle = (flat.min(axis=0) + flat.max(axis=0)) / 2.0
    wide, high_ = (float(one) for one in np.ptp(flat, axis=0))
    scale = min((WIDE - 2.0 * _PAD) / wide, (HIGH - HEAD - _PAD) / high_)
    centre = ((box[0] + box[2]) / 2.0, (box[1] + HEAD + box[3] - _PAD / 2.0) / 2.0)

    def placed(point: Point) -> Point:
        return centre[0] + scale * (point[0] - float(middle[0])), centre[1] - scale * (point[1] - float(middle[1]))

    def paper(at: Floats) -> list[Point]:
        return [placed((float(u), float(v))) for u, v in view.seen.flat(at)[:, :2]]

    facets = facets_of(solids, view.seen, Toned(view.greatest))
    moved = tuple(Facet(corners=tuple(placed(one) for one in facet.corners), colour=facet.colour) for facet in facets)
    round_ends = tuple(tuple(paper(ring)) for ring in rings)
    return Shown(box=box, at=at, takeup=takeup, facets=moved, lying=tuple(paper(axis)), rings=round_ends)


def _rings(line: Line, takeup: Record) -> Iterator[Floats]:
    """Yield a ring round each end of every bellows where it lies when nothing has moved [m]."""
    angles = np.linspace(0.0, 2.0 * np.pi, _ROUND + 1)
    for span in records_of(takeup, "bellows"):
        for key in ("from_m", "to_m"):
            station = number_of(span, key)
            near = line.centre.at(np.array([station - _STEP_ALONG, station + _STEP_ALONG]))
            axes = upright(np.array([near[1] - near[0]] * 3))
            radius = _RING * radius_at(line.record, station)
            round_it = np.outer(np.cos(angles), axes[1]) + np.outer(np.sin(angles), axes[2])
            yield np.asarray(near.mean(axis=0) + radius * round_it)


__all__ = ["HEAD", "HIGH", "WIDE", "Shown", "details_of", "leader_of"]
