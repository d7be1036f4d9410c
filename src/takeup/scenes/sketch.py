"""The pipe of one step as it lies: its walls, its bellows pressed or drawn out, its rods.     (scenes/sketch.py)

All in millimetres on paper. The pipe is drawn wider than it is; hot pipe is grey, cold pipe white, and a word says the
temperature, so that nothing rests on the tint. A bellows is drawn between its two ends as they lie, with one number of
waves always: pressed together they crowd, run out they stand apart.
"""

from __future__ import annotations

import math
from itertools import groupby, pairwise

import numpy as np

from takeup.drawing.colour import colour_of
from takeup.drawing.sheet import Item, Point, Polyline, Sign, Stroke
from takeup.scenes.figure import Picture, PicturedJoint, PicturedRods
from takeup.scenes.frame import BOW

HALF = 2.5  # half the pipe's width on paper [mm]
HOT, COLD = "#c4c4c4", "#ffffff"
WALL = Stroke(width=0.35)
_WAVES = 7
_POINTS = 12  # for each wave
_CREST = 2.2  # height of a wave over the pipe's wall [mm]
_LUG = HALF + 4.4
_ROD = HALF + 3.5
_NUT = 1.0
_LEAST_GAP = 1.6  # a nut off its lug is drawn at least so far off [mm]
_GHOST = Stroke(width=0.2, ink="grey", dash=(0.9, 0.7))
_SAME = 1e-9


def pipe_items(picture: Picture, places: list[Point], still: list[Point], movement: float) -> list[Item]:
    """Return the line of a step: pipe, joints, and where joints stood when they were fitted.

    Args:
        picture: of the step.
        places: of its nodes on paper, moved.
        still: the same before anything moved.
        movement: millimetres of paper for a metre of movement.
    """
    live = {pair for joint in picture.joints for pair in joint.bellows}
    ways = ways_of(places, live)
    items: list[Item] = []
    for nodes, hot in _runs(picture, live):
        outline = _outline([places[node] for node in nodes], [ways[node] for node in nodes])
        items.append(Polyline(points=outline, stroke=WALL, closed=True, fill=HOT if hot else COLD))
    for joint in picture.joints:
        items += _joint(joint, places, ways, movement)
        items += [] if picture.bows else _ghosts(joint, places, still, ways)
    return items


def ways_of(places: list[Point], live: set[tuple[int, int]]) -> list[Point]:
    """Return the direction of the pipe at each node; a bellows' end has that of the pipe it is welded to.

    Args:
        places: of the nodes.
        live: pairs of nodes between which there is a bellows.
    """
    steps = [
        None if (k, k + 1) in live or math.dist(a, b) < _SAME else _unit(a, b)
        for k, (a, b) in enumerate(pairwise(places))
    ]
    ways = []
    for node in range(len(places)):
        beside = [step for step in (steps[node - 1] if node else None, *steps[node : node + 1]) if step is not None]
        x, y = sum(step[0] for step in beside), sum(step[1] for step in beside)
        size = math.hypot(x, y) or 1.0
        ways.append((x / size, y / size))
    return ways


def local(at: Point, way: Point, along: float, aside: float) -> Point:
    """Return a place so far along the pipe from a point and so far to its right, seen along the flow."""
    return at[0] + way[0] * along - way[1] * aside, at[1] + way[1] * along + way[0] * aside


def _unit(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _runs(picture: Picture, live: set[tuple[int, int]]) -> list[tuple[list[int], bool]]:
    """Return the runs of pipe between bellows, each of one temperature: its nodes, and whether it is hot."""
    runs = []
    pieces = [(k, None if (k, k + 1) in live else hot) for k, hot in enumerate(picture.hot)]
    for hot, group in groupby(pieces, key=lambda piece: piece[1]):
        numbers = [number for number, _ in group]
        if hot is not None:
            runs.append(([*numbers, numbers[-1] + 1], hot))
    return runs


def _outline(places: list[Point], ways: list[Point]) -> tuple[Point, ...]:
    """Return the two walls of a run as one closed outline."""
    one = [local(at, way, 0.0, HALF) for at, way in zip(places, ways, strict=True)]
    other = [local(at, way, 0.0, -HALF) for at, way in zip(places, ways, strict=True)]
    return (*one, *reversed(other))


def _joint(joint: PicturedJoint, places: list[Point], ways: list[Point], movement: float) -> list[Item]:
    fill = "#ffffff" if joint.use is None else colour_of(joint.use)
    parts: list[Polyline] = [
        Polyline(
            points=_bellows((places[a], ways[a]), (places[b], ways[b]), joint.bow), stroke=WALL, closed=True, fill=fill
        )
        for a, b in joint.bellows
    ]
    reach = HALF + 1.2 if joint.rods is None else _LUG
    bar = Stroke(width=0.7)
    ends = [(places[node], ways[node]) for node in joint.faces]
    parts += [Polyline(points=(local(at, way, 0, -reach), local(at, way, 0, reach)), stroke=bar) for at, way in ends]
    if joint.rods is not None:
        parts += _rods(joint.rods, ends, movement)
    return [Sign(sort="joint", kind="bellows", name=joint.name, items=tuple(parts))]


def _bellows(start: tuple[Point, Point], end: tuple[Point, Point], bow: tuple[float, ...]) -> tuple[Point, ...]:
    """Return the outline of a bellows between two ends, each a place and a direction: waves on both sides."""
    (a, first), (b, last) = start, end
    if bow:
        return _bowed_bellows(a, b, bow)
    sides: list[list[Point]] = []
    for side in (1.0, -1.0):
        points = []
        for number in range(_WAVES * _POINTS + 1):
            share = number / (_WAVES * _POINTS)
            at = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            way = (first[0] + share * (last[0] - first[0]), first[1] + share * (last[1] - first[1]))
            wave = HALF + _CREST * (1.0 - math.cos(2.0 * math.pi * number / _POINTS)) / 2.0
            points.append(local(at, way, 0.0, side * wave))
        sides.append(points)
    return (*sides[0], *reversed(sides[1]))


def _bowed_bellows(a: Point, b: Point, bow: tuple[float, ...]) -> tuple[Point, ...]:
    """Return the outline of a bellows that bows out between its ends, which have moved already."""
    count = _WAVES * _POINTS
    shares = np.linspace(0.0, 1.0, count + 1)
    out = np.interp(shares, np.linspace(0.0, 1.0, len(bow)), bow) - (bow[0] + shares * (bow[-1] - bow[0]))
    centre = [
        (a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1]) - BOW * o)
        for s, o in zip(shares.tolist(), out.tolist(), strict=True)
    ]
    ways = ways_of(centre, set())
    sides = []
    for side in (1.0, -1.0):
        waves = [HALF + _CREST * (1.0 - math.cos(2.0 * math.pi * k / _POINTS)) / 2.0 for k in range(count + 1)]
        sides.append([local(at, way, 0.0, side * wave) for at, way, wave in zip(centre, ways, waves, strict=True)])
    return (*sides[0], *reversed(sides[1]))


def _rods(rods: PicturedRods, ends: list[tuple[Point, Point]], movement: float) -> list[Polyline]:
    """Return the rods of a joint with a nut at each end; the last nuts stand off their lugs if they are slack."""
    (a, first), (b, last) = ends
    off = 0.0 if rods.taut else max(_LEAST_GAP, rods.gap * movement)
    pen, parts = Stroke(width=0.6 if rods.taut else 0.35), []
    for side in (_ROD, -_ROD):
        start, end = local(a, first, -_NUT, side), local(b, last, off + _NUT + 0.8, side)
        parts.append(Polyline(points=(start, end), stroke=pen))
        parts += [_nut(a, first, -_NUT, side), _nut(b, last, off, side)]
    return parts


def _nut(at: Point, way: Point, along: float, side: float) -> Polyline:
    corners = ((along, side - 1.1), (along + _NUT, side - 1.1), (along + _NUT, side + 1.1), (along, side + 1.1))
    return Polyline(
        points=tuple(local(at, way, *corner) for corner in corners), stroke=None, closed=True, fill="#000000"
    )


def _ghosts(joint: PicturedJoint, places: list[Point], still: list[Point], ways: list[Point]) -> list[Item]:
    """Return dashed strokes where the faces of a joint stood when it was fitted, for those that have moved."""
    reach = HALF + 3.4
    return [
        Polyline(
            points=(local(still[node], ways[node], 0.0, -reach), local(still[node], ways[node], 0.0, reach)),
            stroke=_GHOST,
        )
        for node in joint.faces
        if math.dist(places[node], still[node]) > WALL.width
    ]
