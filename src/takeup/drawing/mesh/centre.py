"""The centre line of a line in the results: where a station is, and how far it is moved.     (drawing/mesh/centre.py)

Straights and true arcs; a station of an arc is in proportion along it. The results give the movement of every node of
the model; between two nodes it is the cubic of Fritsch and Carlson (from memory): through the nodes, smooth, and never
beyond either of them, so that nothing moves in a picture which does not move in the results.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.drawing.mesh.solid import Floats
from takeup.drawing.reading import Record, number_of, records_of, vectors_of
from takeup.drawing.route import Bend, Run, Straight, runs_of

_SAME = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class CentreLine:
    """Runs of a line, and the station at which each begins and the last one ends (r + 1,) [m]."""

    runs: tuple[Run, ...]
    stations: Floats

    @property
    def length(self) -> float:
        """The greatest station [m]."""
        return float(self.stations[-1])

    def at(self, stations: Floats) -> Floats:
        """Return the points at some stations, (n, 3) [m]."""
        numbers = np.clip(np.searchsorted(self.stations, stations, side="right") - 1, 0, len(self.runs) - 1)
        found = np.empty((len(stations), 3))
        for number in np.unique(numbers):
            here = numbers == number
            start, end = self.stations[number], self.stations[number + 1]
            share = (stations[here] - start) / max(end - start, _SAME)
            found[here] = _on(self.runs[number], share)
        return found


def centre_line(line: Record) -> CentreLine:
    """Return the centre line of a line of the results."""
    runs = tuple(run for run in runs_of(line) if not _is_nothing(run))
    stations, bends = [0.0], iter(_turning(line))
    for run in runs:
        if isinstance(run, Straight):
            stations.append(stations[-1] + float(np.linalg.norm(np.subtract(run.end, run.start))))
        else:
            stations.append(next(bends))
    return CentreLine(runs=runs, stations=np.array(stations))


def _turning(line: Record) -> list[float]:
    """Return the station at which each bend that has a radius ends [m]."""
    bends = [bend for bend in records_of(line, "bends") if bend.get("radius_mm")]
    return [number_of(bend, "finish_m") for bend in bends]


def _is_nothing(run: Run) -> bool:
    return isinstance(run, Straight) and float(np.linalg.norm(np.subtract(run.end, run.start))) < _SAME


def _on(run: Run, share: Floats) -> Floats:
    if isinstance(run, Straight):
        start, end = np.array(run.start), np.array(run.end)
        return np.asarray(start + share[:, None] * (end - start))
    return _on_arc(run, share)


def _on_arc(bend: Bend, share: Floats) -> Floats:
    turned = share * bend.angle
    out = np.outer(np.cos(turned), bend.outward) + np.outer(np.sin(turned), bend.forward)
    return np.asarray(np.array(bend.centre) + bend.radius * out)


@dataclass(frozen=True, kw_only=True, slots=True)
class Movement:
    """How far a line is moved: at the stations of its nodes, (n,) [m], so far, (n, 3) [m], with slopes, (n, 3)."""

    stations: Floats
    moved: Floats
    slopes: Floats

    def at(self, stations: Floats) -> Floats:
        """Return the movement at some stations, (m, 3) [m]."""
        if not len(self.stations):
            return np.zeros((len(stations), 3))
        x, y, slopes = self.stations, self.moved, self.slopes
        k = np.clip(np.searchsorted(x, stations, side="right") - 1, 0, len(x) - 2)
        step = (x[k + 1] - x[k])[:, None]
        share = np.clip((stations - x[k])[:, None] / step, 0.0, 1.0)
        rest = 1.0 - share
        ends = rest**2 * (1.0 + 2.0 * share) * y[k] + share**2 * (3.0 - 2.0 * share) * y[k + 1]
        return np.asarray(ends + step * share * rest * (rest * slopes[k] - share * slopes[k + 1]))


def _slopes(stations: Floats, moved: Floats) -> Floats:
    """Return the slope at every node: the weighted harmonic mean of the chords beside it, none where signs differ.

    At both ends it is that of the chord.
    """
    steps = np.diff(stations)[:, None]
    chords = np.diff(moved, axis=0) / steps
    before, beyond = chords[:-1], chords[1:]
    near, far = 2.0 * steps[1:] + steps[:-1], steps[1:] + 2.0 * steps[:-1]
    same = before * beyond > 0.0
    safe_before, safe_beyond = np.where(same, before, 1.0), np.where(same, beyond, 1.0)
    inner = np.where(same, (near + far) / (near / safe_before + far / safe_beyond), 0.0)
    return np.concatenate([chords[:1], inner, chords[-1:]])


def movement_of(line: Record, shape: Record | None) -> Movement:
    """Return how a line is moved in a state; nowhere where there is no shape.

    Args:
        line: of the results.
        shape: of the line in the state.
    """
    nodes = records_of(line, "nodes")
    if shape is None or not nodes:
        return Movement(stations=np.empty(0), moved=np.empty((0, 3)), slopes=np.empty((0, 3)))
    stations = np.array([number_of(node, "station_m") for node in nodes])
    moved = np.array(vectors_of(shape, "displacement_mm"), dtype=float).reshape(-1, 3) / 1e3
    assert len(stations) == len(moved), "every node has its movement"
    return Movement(stations=stations, moved=moved, slopes=_slopes(stations, moved))


__all__ = ["CentreLine", "Movement", "centre_line", "movement_of"]
