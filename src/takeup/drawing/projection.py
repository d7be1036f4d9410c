"""From the world to the paper: which way a view looks, and the pipe drawn in it.     (drawing/projection.py)

A bend that lies in the plane of the view is a true arc on paper; one seen askew is a fine polyline through true points.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.reading import Record, number_of, pipe_at, records_of
from takeup.drawing.route import Bend, Run, Straight, Vector, along, bend_at, dot, runs_of
from takeup.drawing.sheet import Arc, Circle, Item, Point, Polyline, Stroke

_PER_METRE = 1000.0
_ASKEW = 24  # strokes of a bend that is not seen flat: chords within 1 % of its radius
_FLAT = 1e-3  # a unit vector is seen flat when so little of its length is lost: a fall of 1 in 22 at most
_END_ON = 1e-3  # and end-on when so little of it is left
_SAME = 1e-6
_DOUBLE = 1.0  # a pipe at least so wide on paper [mm] is drawn as two lines

PIPE = Stroke(width=0.7)
EDGE = Stroke(width=0.35)
AXIS = Stroke(width=0.18, ink="grey", dash=(4.0, 0.8, 0.8, 0.8))


@dataclass(frozen=True, kw_only=True, slots=True)
class Looking:
    """A direction of view: `right` and `up` on paper as unit vectors of the world, and its words."""

    words: str
    right: Vector
    up: Vector

    def flat(self, place: Vector) -> Point:
        """Return a place as seen [m], u to the right and v up."""
        return dot(place, self.right), dot(place, self.up)

    def shows_flat(self, *directions: Vector) -> bool:
        """Tell whether directions lie in the plane of the view."""
        return all(abs(math.hypot(*self.flat(direction)) - 1.0) < _FLAT for direction in directions)


DOWN = Looking(words="plan, looking down", right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))
NORTH = Looking(words="elevation, looking north", right=(1.0, 0.0, 0.0), up=(0.0, 0.0, 1.0))
EAST = Looking(words="elevation, looking east", right=(0.0, -1.0, 0.0), up=(0.0, 0.0, 1.0))


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """A view laid on the paper: `origin` [mm] is where (u, v) = `zero` [m] falls, at 1:`scale`."""

    looking: Looking
    origin: Point
    zero: Point
    scale: int

    def paper(self, place: Vector) -> Point:
        """Return where a place of the world falls on the sheet [mm]."""
        u, v = self.looking.flat(place)
        factor = _PER_METRE / self.scale
        return self.origin[0] + factor * (u - self.zero[0]), self.origin[1] - factor * (v - self.zero[1])

    def heading(self, direction: Vector) -> Point:
        """Return a direction on the sheet as a unit vector; to the right when it is seen end-on."""
        u, v = self.looking.flat(direction)
        size = math.hypot(u, v)
        return (1.0, 0.0) if size < _END_ON else (u / size, -v / size)


def extent_of(lines: Sequence[Record], looking: Looking) -> tuple[Point, Point]:
    """Return the least and the greatest (u, v) of the pipe of some lines as seen [m]."""
    seen = [looking.flat(place) for line in lines for run in runs_of(line) for place in _places(run)]
    us, vs = [u for u, _ in seen], [v for _, v in seen]
    return (min(us), min(vs)), (max(us), max(vs))


def _places(run: Run) -> tuple[Vector, ...]:
    if isinstance(run, Straight):
        return run.start, run.end
    return tuple(run.at(run.angle * step / _ASKEW) for step in range(_ASKEW + 1))


def centre_strokes(frame: Frame, line: Record) -> tuple[tuple[Point, Point], ...]:
    """Return the centre line on the sheet as short strokes, for keeping words off it."""
    strokes: list[tuple[Point, Point]] = []
    for run in runs_of(line):
        points = [frame.paper(place) for place in _places(run)]
        strokes += pairwise(points)
    return tuple(strokes)


def single_line(frame: Frame, line: Record, pen: Stroke) -> tuple[Item, ...]:
    """Return the centre line of the pipe, true arcs where they are seen flat.

    Args:
        frame: The view on the sheet.
        line: The line of the results.
        pen: It is drawn with.
    """
    return tuple(item for run in runs_of(line) for item in _drawn(frame, run, pen))


def pipe_items(frame: Frame, line: Record) -> tuple[Item, ...]:
    """Return the pipe: two lines and an axis where it is wide enough on paper, else one line.

    Args:
        frame: The view on the sheet.
        line: The line of the results.
    """
    runs, diameters = runs_of(line), _diameters(line)
    if _PER_METRE * max(diameters) / frame.scale < _DOUBLE:
        return single_line(frame, line, PIPE)
    items: list[Item] = []
    for number, (run, diameter) in enumerate(zip(runs, diameters, strict=True)):
        for side in (-0.5, 0.5):
            items += _edge(frame, runs, number, side * diameter)
        items += _drawn(frame, run, AXIS)
    return tuple(items)


def _diameters(line: Record) -> tuple[float, ...]:
    """Return the outside diameter of every straight and arc of a line, in the order of the flow [m]."""
    legs = records_of(line, "legs")
    stations: list[float] = []
    for number, leg in enumerate(legs):
        end = number_of(leg, "end_m")
        stations.append((number_of(leg, "start_m") + end) / 2.0)
        if number + 1 < len(legs) and bend_at(line, end) is not None:
            stations.append(end)
    return tuple(number_of(pipe_at(line, station), "outside_diameter_mm") / 1000.0 for station in stations)


def _drawn(frame: Frame, run: Run, stroke: Stroke) -> tuple[Item, ...]:
    """Return the centre line of one run."""
    if isinstance(run, Straight):
        start, end = frame.paper(run.start), frame.paper(run.end)
        if math.dist(start, end) < _SAME:
            return (Circle(centre=start, radius=0.9, stroke=EDGE, fill="#ffffff"),)
        return (Polyline(points=(start, end), stroke=stroke),)
    if frame.looking.shows_flat(run.forward, run.outward):
        return (_flat_arc(frame, run, run.radius, stroke),)
    return (Polyline(points=tuple(frame.paper(place) for place in _places(run)), stroke=stroke),)


def _flat_arc(frame: Frame, bend: Bend, radius: float, stroke: Stroke) -> Arc:
    """Return a bend seen flat as a true arc of some radius about its centre [m]."""
    outward, forward = frame.heading(bend.outward), frame.heading(bend.forward)
    turning = outward[0] * forward[1] - outward[1] * forward[0]
    return Arc(
        centre=frame.paper(bend.centre),
        radius=_PER_METRE * radius / frame.scale,
        start=math.atan2(outward[1], outward[0]),
        sweep=math.copysign(bend.angle, turning),
        stroke=stroke,
    )


def _edge(frame: Frame, runs: tuple[Run, ...], number: int, aside: float) -> tuple[Item, ...]:
    """Return one edge of the pipe along a run, `aside` [m] to the right of its centre line as seen."""
    run = runs[number]
    if isinstance(run, Bend):
        if frame.looking.shows_flat(run.forward, run.outward):
            return (_flat_arc(frame, run, run.radius + aside, EDGE),)
        return _edge_of_upright_bend(frame, run, aside)
    if math.dist(frame.paper(run.start), frame.paper(run.end)) < _SAME:
        radius = abs(aside) * _PER_METRE / frame.scale
        return (Circle(centre=frame.paper(run.start), radius=radius, stroke=EDGE),)
    size = math.dist(run.start, run.end)
    direction = tuple((b - a) / size for a, b in zip(run.start, run.end, strict=True))
    forward = (direction[0], direction[1], direction[2])
    right = _right_of(frame, forward)
    start = along(along(run.start, right, aside), forward, _mitre(frame, runs, number - 1, number, aside))
    end = along(along(run.end, right, aside), forward, -_mitre(frame, runs, number, number + 1, aside))
    return (Polyline(points=(frame.paper(start), frame.paper(end)), stroke=EDGE),)


def _edge_of_upright_bend(frame: Frame, bend: Bend, aside: float) -> tuple[Item, ...]:
    """Return one edge of a bend whose plane is seen edge-on, a straight; a bend seen askew shows its axis only."""
    points = [frame.paper(place) for place in _places(bend)]
    start, end = points[0], points[-1]
    length = math.dist(start, end)
    if length < _SAME:
        return ()
    normal = ((start[1] - end[1]) / length, (end[0] - start[0]) / length)
    off = [(x - start[0]) * normal[0] + (y - start[1]) * normal[1] for x, y in points]
    if max(abs(distance) for distance in off) > _SAME:
        return ()
    width = _PER_METRE * aside / frame.scale
    moved = tuple((x + width * normal[0], y + width * normal[1]) for x, y in (start, end))
    return (Polyline(points=moved, stroke=EDGE),)


def _right_of(frame: Frame, forward: Vector) -> Vector:
    """Return the unit vector of the world that points to the right of a direction as seen."""
    u, v = frame.looking.flat(forward)
    size = math.hypot(u, v)
    right, up = frame.looking.right, frame.looking.up
    x, y, z = ((v * r - u * t) / size for r, t in zip(right, up, strict=True))
    return x, y, z


def _mitre(frame: Frame, runs: tuple[Run, ...], before: int, after: int, aside: float) -> float:
    """Return by how much an edge is cut short where two straights meet in a sharp corner [m]: aside * tan(turn / 2)."""
    if before < 0 or after >= len(runs):
        return 0.0
    first, second = runs[before], runs[after]
    if isinstance(first, Bend) or isinstance(second, Bend):
        return 0.0
    if any(math.hypot(*frame.looking.flat(_way(run))) < _SAME for run in (first, second)):
        return 0.0  # one of them is seen end-on
    a, b = (frame.heading(_way(run)) for run in (first, second))
    turn = math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])  # y is down: to the right is above zero
    return aside * math.tan(turn / 2.0)


def _way(run: Straight) -> Vector:
    return run.end[0] - run.start[0], run.end[1] - run.start[1], run.end[2] - run.start[2]
