"""The weight of lines at random, by hand.     (tests/unit/study/random_weights.py)

Straights and arcs of each line with their lengths and centroids; what a metre weighs from plain numbers. Only the
density of the content comes from the state.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from tests.unit.study.random_systems import FOOT, SIXTEENTH, System, Told

from takeup.line import State
from takeup.units import NEWTONS_PER_LBF

Floats = NDArray[np.float64]
GRAVITY = 9.80665  # m/s2, standard
OUTSIDE, WALL, RADIUS = (
    {True: 0.2191, False: 0.1143},
    {True: 0.322 * 0.0254, False: 0.237 * 0.0254},
    {True: 8, False: 4},
)
STEEL, WOOL, COVER = 7850.0, 130.0, 0.0508  # kg/m3 and m; mineral wool as the library has it


def straights_and_arcs(line: Told) -> Iterator[tuple[float, float, float, Floats]]:
    """Yield first and last station, length along the pipe and centroid from the line's start, of straights and arcs.

    A quarter-turn or less of radius R turning by t: its length is R t, its centroid R sin(t/2)/(t/2) from its centre.
    """
    ways, lengths = line.directions(), SIXTEENTH * np.array(line.lengths)
    corners = np.concatenate([np.zeros((1, 3)), np.cumsum(ways * lengths[:, None], axis=0)])
    stations = np.concatenate([[0.0], np.cumsum(lengths)])
    radius, begin = 1.5 * 0.0254 * RADIUS[line.of is None], 0.0
    for leg in range(len(lengths)):
        turn = math.acos(min(1.0, float(ways[leg] @ ways[leg + 1]))) if leg + 1 < len(lengths) else 0.0
        cut = radius * math.tan(turn / 2.0) if turn > math.radians(0.5) else 0.0
        end = lengths[leg] - cut
        middle = corners[leg] + ways[leg] * (begin + end) / 2.0
        yield stations[leg] + begin, stations[leg] + end, end - begin, middle
        begin = cut
        if cut:
            toward = (ways[leg + 1] - ways[leg]) / np.linalg.norm(ways[leg + 1] - ways[leg])
            inward = radius / math.cos(turn / 2.0) - radius * math.sin(turn / 2.0) / (turn / 2.0)
            at = stations[leg + 1]
            yield at - cut, at + cut, radius * turn, corners[leg + 1] + inward * toward


def stretches(line: Told) -> Iterator[tuple[float, float, float, Floats]]:
    """Yield the same, straights cut where a zone, a valve or a joint begins or ends."""
    cuts = [SIXTEENTH * place for kind, place in line.holds if kind == "intermediate anchor"]
    for first, last, _ in special(line):
        cuts += [first, (first + last) / 2.0, last]
    if line.joint is not None:
        cuts += [SIXTEENTH * (line.joint + half) for half in (-11 * 16, 11 * 16)]
    for first, last, length, centre in straights_and_arcs(line):
        inside = sorted({first, last, *(cut for cut in cuts if first < cut < last)})
        if len(inside) == 2:
            yield first, last, length, centre
            continue
        leg = int(np.searchsorted(np.cumsum(line.lengths) * SIXTEENTH, (first + last) / 2.0))
        for begin, end in pairwise(inside):
            middle = (begin + end) / 2.0 - (first + last) / 2.0
            yield begin, end, end - begin, centre + middle * line.directions()[leg]


def special(line: Told) -> Iterator[tuple[float, float, float]]:
    """Yield first and last station and weight [N/m] of valve and joint; the joint is covered, the valve is not."""
    if line.valve is not None:
        middle = SIXTEENTH * (sum(line.lengths[: line.valve]) + line.lengths[line.valve] / 2.0)
        yield middle - 0.1524, middle + 0.1524, 150.0 * NEWTONS_PER_LBF / 0.3048
    if line.joint is not None:
        middle, half = SIXTEENTH * line.joint, 20.0 * 0.0254
        yield middle - half, middle + half, 420.0 * NEWTONS_PER_LBF / (2.0 * half) + cover(main=line.of is None)


def cover(*, main: bool) -> float:
    """Return the weight of the insulation [N/m]."""
    outside = OUTSIDE[main]
    return math.pi / 4.0 * ((outside + 2.0 * COVER) ** 2 - outside**2) * WOOL * GRAVITY


def weight(system: System, state: State) -> tuple[float, Floats]:
    """Return the whole weight [N], and weight times centroid [N m]."""
    total, first_moment, starts = 0.0, np.zeros(3), dict[str, Floats]()
    for line in system.lines:
        start = SIXTEENTH * np.array(system.start)
        if line.of is not None:
            main = next(one for one in system.lines if one.name == line.of[0])
            start = starts[main.name] + on_line(main, SIXTEENTH * line.of[1])
        starts[line.name] = start
        main_size = line.of is None
        outside, wall = OUTSIDE[main_size], WALL[main_size]
        bore = math.pi / 4.0 * (outside - 2.0 * wall) ** 2
        pipe = (math.pi / 4.0 * outside**2 - bore) * STEEL * GRAVITY + cover(main=main_size)
        bellows = () if line.joint is None else tuple(SIXTEENTH * (line.joint + half) for half in (-176, 176))
        for first, last, length, centre in stretches(line):
            middle = (first + last) / 2.0
            dead = next((q for begin, end, q in special(line) if begin < middle < end), pipe)
            area = 71.0 * 0.0254**2 if bellows and bellows[0] < middle < bellows[1] else bore
            part = length * (dead + area * state.at(line.name, middle).density * GRAVITY)
            total += part
            first_moment += part * (start + centre)
    return total, first_moment


def on_line(line: Told, station: float) -> Floats:
    """Return a place on a straight part of a line, from its start [m]."""
    ends = np.concatenate([[0.0], np.cumsum(line.lengths)]) * SIXTEENTH
    return np.asarray(
        sum(
            (max(0.0, min(station - ends[n], ends[n + 1] - ends[n])) * way for n, way in enumerate(line.directions())),
            np.zeros(3),
        )
    )


def pushed(system: System) -> tuple[Floats, Floats]:
    """Return force and moment about the origin of the user's loads: per foot over a foot, and at its beginning."""
    line = system.lines[-1]
    begin = sum(line.lengths[:-1]) + 4 * FOOT
    start = SIXTEENTH * np.array(system.start)
    path = [line]
    while path[0].of is not None:
        path.insert(0, next(one for one in system.lines if path[0].of and one.name == path[0].of[0]))
    for one, following in pairwise(path):
        assert following.of is not None
        start = start + on_line(one, SIXTEENTH * following.of[1])
    force = NEWTONS_PER_LBF * np.array(system.load)
    places = [start + on_line(line, SIXTEENTH * (begin + more)) for more in (0.0, FOOT / 2.0)]
    return 2.0 * force, np.cross(places, force).sum(axis=0)
