"""A mode in space: the centre line of every line and the movement of it, drawn smooth.     (drawing/mode_shape.py)

The results give the movement at the cuts of the model. Between two cuts it is the cubic with the slopes of the
parabolas through each cut and its neighbours: exact for a parabola, and close to a bent pipe.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.reading import Record, Results, numbers_in, records_of, text_of, vectors_of
from takeup.drawing.route import Vector

_STEPS = 6  # of the curve between two cuts
_SAME = 1e-6


@dataclass(frozen=True, kw_only=True, slots=True)
class Bowed:
    """A line and its movement in a mode: stations [m], places [m] and movements, the largest of all lines one."""

    line: Record
    stations: tuple[float, ...]
    places: tuple[Vector, ...]
    movements: tuple[Vector, ...]


def governing(results: Results) -> Record | None:
    """Return the row of the state with the lowest load factor of all; None where nothing can bow out."""
    return next((row for row in records_of(results, "stability") if records_of(row, "shape")), None)


def bowed_lines(results: Results, row: Record, *, rigid: bool = False) -> tuple[Bowed, ...]:
    """Return every line with its movement in a mode, or in a motion that nothing resists, smooth.

    Args:
        results: The results document.
        row: Of the state with the lowest factor, or of the motion.
        rigid: Whether nothing bends: between two cuts the movement is then a straight line.
    """
    return tuple(_bowed(line, shape_of(row, line), rigid=rigid) for line in records_of(results, "lines"))


def shape_of(row: Record, line: Record) -> Record:
    """Return the shape of one line in a row that has one of every line."""
    return next(shape for shape in records_of(row, "shape") if text_of(shape, "line") == text_of(line, "name"))


def _bowed(line: Record, shape: Record, *, rigid: bool) -> Bowed:
    stations = numbers_in(shape["station_m"])
    places, movements = vectors_of(shape, "at_m"), vectors_of(shape, "movement")
    assert len(stations) == len(places) == len(movements), "every node has its place and its movement"
    slopes = [_slopes(stations, [row[axis] for row in movements]) for axis in range(3)]
    found: list[tuple[float, Vector, Vector]] = [(stations[0], places[0], movements[0])]
    for k, (start, end) in enumerate(pairwise(stations)):
        for step in range(1, _STEPS + 1):
            share = step / _STEPS
            pairs = list(zip(movements[k], movements[k + 1], strict=True))
            moved = [
                a + share * (b - a) if rigid else _cubic(share, end - start, (a, b), slopes[axis][k : k + 2])
                for axis, (a, b) in enumerate(pairs)
            ]
            place = [a + share * (b - a) for a, b in zip(places[k], places[k + 1], strict=True)]
            station = start + share * (end - start)
            found.append((station, (place[0], place[1], place[2]), (moved[0], moved[1], moved[2])))
    return Bowed(
        line=line,
        stations=tuple(item[0] for item in found),
        places=tuple(item[1] for item in found),
        movements=tuple(item[2] for item in found),
    )


def _slopes(stations: Sequence[float], values: Sequence[float]) -> list[float]:
    """Return the slope at every station of the parabola through it and its neighbours; of the chord at the ends."""
    steps = [max(b - a, _SAME) for a, b in pairwise(stations)]
    chords = [(b - a) / step for (a, b), step in zip(pairwise(values), steps, strict=True)]
    inner = [
        (chords[k] * steps[k + 1] + chords[k + 1] * steps[k]) / (steps[k] + steps[k + 1])
        for k in range(len(chords) - 1)
    ]
    return [chords[0], *inner, chords[-1]]


def _cubic(share: float, length: float, ends: tuple[float, float], slopes: Sequence[float]) -> float:
    """Return the cubic with given ends and slopes (Hermite's form)."""
    rest = 1.0 - share
    value = rest * rest * (1.0 + 2.0 * share) * ends[0] + share * share * (3.0 - 2.0 * share) * ends[1]
    return value + length * share * rest * (rest * slopes[0] - share * slopes[1])


def size_of(movement: Vector) -> float:
    """Return how large a movement is."""
    return math.hypot(*movement)
