"""The centre line of a line, finely, and how it moves between the nodes of the model.     (desk/seen/curves.py)

Between two nodes a straight member is drawn as it bends: the cubic with the movements and turns of its ends, which is
exact where no load acts between them; along itself it moves in proportion. Arcs are cut so finely that they are drawn
in proportion. Bellows are left out: a joint has a sign of its own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.frame import Floats, Integers
from takeup.study.model import LineModel

_IN_STRAIGHT, _IN_ARC = 4, 3  # parts that a straight member, and an arc of at most 15 degrees, is drawn in


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Curve:
    """Points on the centre line of a line, m of them.

    Args:
        model: the line in the frame.
        stations: (m,) [m].
        points: as the line lies, (m, 3) [m].
        ways: of the flow, (m, 3).
        runs: where each run of pipe between bellows begins and ends among them.
        piece: number of the piece that each lies in, (m,).
        share: of that piece, (m,).
        length: of that piece, zero in an arc, (m,) [m].
    """

    model: LineModel
    stations: Floats
    points: Floats
    ways: Floats
    runs: tuple[tuple[int, int], ...]
    piece: Integers
    share: Floats
    length: Floats

    def moved(self, displacements: Floats) -> Floats:
        """Return how far each point is moved, (m, 3) [m].

            u = u_a + x (u_b - u_a),   and across the member with n = 1 - x
            u = n^2 (1 + 2 x) u_a + x^2 (3 - 2 x) u_b + L x n (n t_a - x t_b) x d        (Hermite's cubic)

        Args:
            displacements: of the nodes of the frame, (n, 6); t are their turns, d the way of the member.
        """
        own = displacements[self.model.nodes]
        first, last = own[self.piece], own[self.piece + 1]
        x = self.share[:, None]
        rest = 1.0 - x
        even = rest * first[:, :3] + x * last[:, :3]
        bent = x * rest * (1.0 - 2.0 * x) * (first[:, :3] - last[:, :3])
        turned = x * rest * (rest * first[:, 3:] - x * last[:, 3:])
        across = bent - (bent * self.ways).sum(axis=1, keepdims=True) * self.ways
        slopes = self.length[:, None] * np.cross(turned, self.ways)
        return np.asarray(even + np.where(self.length[:, None] > 0.0, across + slopes, 0.0))


def curve_of(model: LineModel) -> Curve:
    """Return the centre line of a line, finely."""
    counts = [
        0 if piece.part == "bellows" else _IN_ARC if piece.part == "arc" else _IN_STRAIGHT for piece in model.pieces
    ]
    piece, share, runs, at = [], [], [], 0
    for number, count in enumerate(counts):
        if not count:
            continue
        begins = number == 0 or not counts[number - 1]
        own = np.arange(0 if begins else 1, count + 1) / count
        if begins:
            runs.append([at, at])
        piece += [number] * len(own)
        share += own.tolist()
        at += len(own)
        runs[-1][1] = at
    return _curve(model, np.array(piece, dtype=np.int64), np.array(share), tuple((a, b) for a, b in runs))


def _curve(model: LineModel, piece: Integers, share: Floats, runs: tuple[tuple[int, int], ...]) -> Curve:
    starts, ends = model.points[:-1][piece], model.points[1:][piece]
    stations = model.stations[:-1][piece] + share * np.diff(model.stations)[piece]
    points = starts + share[:, None] * (ends - starts)
    chords = np.diff(model.points, axis=0)
    lengths = np.linalg.norm(chords, axis=1)
    ways = (chords / lengths[:, None])[piece]
    bent = np.array([one.part == "arc" for one in model.pieces])
    for number in np.flatnonzero(bent[piece]).tolist():
        points[number] = model.route.point(float(stations[number]))
        ways[number] = model.route.direction(float(stations[number]))
    return Curve(
        model=model,
        stations=stations,
        points=points,
        ways=ways,
        runs=runs,
        piece=piece,
        share=share,
        length=np.where(bent, 0.0, lengths)[piece],
    )


def moved_at(model: LineModel, displacements: Floats, stations: Floats) -> Floats:
    """Return how far a line is moved at stations that need not be its nodes, in proportion between them, (k, 3) [m].

    Args:
        model: the line in the frame.
        displacements: of the nodes of the frame, (n, 6).
        stations: (k,) [m].
    """
    own = displacements[model.nodes]
    return np.stack([np.interp(stations, model.stations, own[:, axis]) for axis in range(3)], axis=1)


__all__ = ["Curve", "curve_of", "moved_at"]
