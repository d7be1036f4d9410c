"""Where pipe stress is looked at, and the moments there: what the stress rules share.     (checks/stress_points.py)

A point is one end of a piece of pipe, bend or reducer. Its moments are told apart in the plane of the fitting, across
that plane and about the pipe; on straight pipe the split is any, because all planes are alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.basis import Factors, Moments
from takeup.line import Allowables, Pipe, Stretch, bore_area, stretches_of
from takeup.study import CAUSES, LineAnswer
from takeup.study.fittings import Spot, spots_of

Floats = NDArray[np.float64]
LOOKED_AT = ("pipe", "arc", "spool", "reducer")
STAYING = ("pressure", "weight", "sustained loads")
MOVING = ("growth", "joint spring preset", "imposed", "contact", "friction")


@dataclass(frozen=True, kw_only=True, slots=True)
class Point:
    """One end of a piece.

    Args:
        place: number of the piece.
        end: 0 its start, 1 its end.
        station: [m].
        pipe: there.
        spot: the fitting.
        axes: tangent, normal of the fitting's plane, and their cross product as rows, (3, 3).
    """

    place: int
    end: int
    station: float
    pipe: Pipe
    spot: Spot
    axes: Floats

    @property
    def factors(self) -> Factors:
        """The fitting's factors; asked only where there are any."""
        assert self.spot.factors is not None, "a point without factors is not covered"
        return self.spot.factors

    def words(self) -> str:
        """Return the place in words."""
        return f"at {self.station:.2f} m, {self.spot.words}"


StretchPoints = list[tuple[Stretch, list[Point]]]


def points_of(answer: LineAnswer) -> list[Point]:
    """Return every point of a line, along the flow."""
    model = answer.model
    spots = spots_of(answer.study, answer.line, model.pieces, model.route.turns)
    points = []
    for place, (piece, both) in enumerate(zip(model.pieces, spots, strict=True)):
        if piece.part not in LOOKED_AT:
            continue
        for end, station in enumerate((piece.start, piece.end)):
            inside = station + (1e-9 if end == 0 else -1e-9)  # the direction of this piece, not of its neighbour
            axes = _axes(model.route.direction(inside), both[end].normal)
            points.append(Point(place=place, end=end, station=station, pipe=piece.pipe, spot=both[end], axes=axes))
    return points


def stretches_with_points(answer: LineAnswer, known: StretchPoints | None = None) -> StretchPoints:
    """Return the stretches between anchors, each with its points: the same in every scenario.

    Args:
        answer: the model's answer for a line.
        known: of another scenario; None where they are not known yet.
    """
    if known is not None:
        return known
    points = points_of(answer)
    return [
        (stretch, [point for point in points if stretch.start <= _middle(answer, point) <= stretch.end])
        for stretch in stretches_of(answer.line)
    ]


def _middle(answer: LineAnswer, point: Point) -> float:
    return answer.model.pieces[point.place].middle


def _axes(tangent: Floats, normal: Floats | None) -> Floats:
    if normal is None:
        helper = np.eye(3)[int(np.argmin(np.abs(tangent)))]
        normal = _cross(tangent, helper)
    normal = normal - (normal @ tangent) * tangent
    normal /= np.linalg.norm(normal)
    return np.array([tangent, normal, _cross(tangent, normal)])


def _cross(first: Floats, second: Floats) -> Floats:
    """Return first x second of two single vectors, many times as fast as what numpy has for arrays of them."""
    (a, b, c), (x, y, z) = first.tolist(), second.tolist()
    return np.array([b * z - c * y, c * x - a * z, a * y - b * x])


def moments_at(answer: LineAnswer, point: Point, causes: Sequence[str]) -> Floats:
    """Return torsion, in-plane and out-of-plane moment at a point from some causes, (states, 3) [N m]."""
    chosen = [CAUSES.index(cause) for cause in causes]
    moment = answer.end_moments[:, chosen, point.place, point.end].sum(axis=1)
    return np.asarray(moment @ point.axes.T)


def as_moments(rows: Floats) -> Moments:
    """Return rows of torsion, in-plane and out-of-plane moment, (k, 3), as the basis takes them."""
    return Moments(in_plane=rows[:, 1], out_of_plane=rows[:, 2], torsion=rows[:, 0])


def wall_forces(answer: LineAnswer, point: Point, causes: Sequence[str]) -> Floats:
    """Return the axial force in the wall from some causes, tension above zero, (states,) [N].

    N = S + P A_bore: where pressure is among the causes, its end caps are in it.
    """
    chosen = [CAUSES.index(cause) for cause in causes]
    force = answer.effective_forces[:, chosen, point.place].sum(axis=1)
    if "pressure" in causes:
        force = force + bore_area(point.pipe) * pressures_at(answer, point)
    return np.asarray(force)


def pressures_at(answer: LineAnswer, point: Point) -> Floats:
    """Return the gauge pressure at a point, (states,) [Pa]."""
    return answer.pressures[:, point.place]


def allowables_of(answer: LineAnswer, pipe: Pipe) -> Allowables:
    """Return the stresses that hold for a pipe: its own, or the study's."""
    return pipe.allowables or answer.study.allowables
