"""A whole bellows: every convolution, and the tangents that hold it.     (bellows/shell/whole.py)

The ends are held as a weld to the pipe holds them: no end moves or turns but by what is imposed. The convolutions
beside the ends are stiffer than those inside, which the answer for one convolution of a long bellows does not know.
Bellows with as many convolutions are one stack of matrices.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from takeup.bellows.geometry import Array, Bellows, chosen, wall
from takeup.bellows.shell.chain import (
    Condensed,
    condensed,
    condensed_row,
    ends_of,
    in_order,
    projected,
    projected_row,
    recovered,
    row_matrix,
)
from takeup.bellows.shell.meridian import Segments, half_convolution, tangent

_NO_WALL = 1e-6  # of the pitch: a shorter wall is no element of its own
_FEW_CONVOLUTIONS = 3  # halves of convolutions are parts then, so that there is a joint to ask
_FEW = 8  # bellows solved together: their matrices stay near the processor


@dataclass(frozen=True, kw_only=True, slots=True)
class Meridian:
    """Bellows from end to end, n of them alike in number of convolutions, shape (n, e) each field of `segments`.

    Args:
        segments: in order along the axis; z = 0 at the first root.
        cells: parts that are reduced to their ends each: the N convolutions, or 2 N halves of them where they are few.
        tangents: 1 when a tangent stands at each end, else 0.
    """

    segments: Segments
    cells: int
    tangents: int


def alike(shape: Bellows) -> Iterator[tuple[npt.NDArray[np.intp], Bellows]]:
    """Yield bellows solved together, with their numbers: as many convolutions, walls and tangents or not."""
    key = np.stack((shape.convolutions, has_wall(shape), shape.tangent_length > 0.0), axis=1)
    _, group = np.unique(key, axis=0, return_inverse=True)
    for number in range(int(group.max(initial=-1)) + 1):
        rows = np.flatnonzero(group.ravel() == number)
        for start in range(0, len(rows), _FEW):
            some = rows[start : start + _FEW]
            yield some, chosen(shape, some)


def has_wall(shape: Bellows) -> npt.NDArray[np.bool_]:
    """Return where the wall between the arcs is long enough to be an element, shape (n,)."""
    return np.asarray(wall(shape).length > _NO_WALL * shape.pitch)


def half_meridian(shape: Bellows) -> Segments:
    """Return half convolutions from root to crest; all bellows have a wall, or none has: shape (n, 2 or 3)."""
    segments = half_convolution(shape)
    return segments if bool(has_wall(shape)[0]) else _picked(segments, [0, 2])


def meridian(shape: Bellows) -> Meridian:
    """Return the whole meridian of bellows that are alike (`alike`)."""
    there = half_meridian(shape)
    pitch = shape.pitch[:, None]
    cell = _joined((there, _mirrored(there, pitch)))
    count = round(float(shape.convolutions[0]))
    parts = [_shifted(cell, number * pitch) for number in range(count)]
    tangents = int(shape.tangent_length[0] > 0.0)
    if tangents:
        start = tangent(shape)
        parts = [start, *parts, _shifted(start, count * pitch + shape.tangent_length[:, None])]
    cells = count if count > _FEW_CONVOLUTIONS else 2 * count
    return Meridian(segments=_joined(tuple(parts)), cells=cells, tangents=tangents)


@dataclass(frozen=True, kw_only=True, slots=True)
class Reduced:
    """Whole bellows reduced to the roots between convolutions.

    Args:
        elements: every element reduced to its ends, shape (n * e, ...).
        cells: every convolution, or half of one, reduced to its ends, shape (n * cells, ...).
        inside_cells: what was taken out of each of those, shape (n * cells, i, i).
        matrix: of all joints, ends included, shape (n, j, j).
        load: on them, shape (n, j, loads).
    """

    elements: Condensed
    cells: Condensed
    inside_cells: Array
    matrix: Array
    load: Array


def reduced(whole: Meridian, stiffness: Array, load: Array, count: int) -> Reduced:
    """Return whole bellows reduced to the roots between convolutions.

    Args:
        whole: n bellows of e elements.
        stiffness: of all elements, shape (n * e, d, d).
        load: shape (n * e, d, loads).
        count: movements at a node.
    """
    rows, elements = whole.segments.radius.shape
    small = condensed(stiffness, load, count)
    by_row = small.stiffness.reshape(rows, elements, 2 * count, 2 * count)
    load_by_row = small.load.reshape(rows, elements, 2 * count, load.shape[2])
    cells, inside = condensed_row(_cells(whole, by_row), _cells(whole, load_by_row), count)
    parts, loads = _with_tangents(whole, by_row, cells.stiffness), _with_tangents(whole, load_by_row, cells.load)
    matrix, right = row_matrix(parts, loads, count)
    return Reduced(elements=small, cells=cells, inside_cells=inside, matrix=matrix, load=right)


def reduced_derivative(whole: Meridian, derivative: Array, small: Reduced, count: int) -> Array:
    """Return the derivative of the matrix of a reduced bellows from that of its elements, shape (n, j, j)."""
    rows, elements = whole.segments.radius.shape
    by_row = projected(derivative, small.elements).reshape(rows, elements, 2 * count, 2 * count)
    cells = projected_row(_cells(whole, by_row), small.cells, count)
    parts = _with_tangents(whole, by_row, cells)
    return row_matrix(parts, np.zeros((*parts.shape[:3], 0)), count)[0]


def nodal_of(whole: Meridian, small: Reduced, joints: Array, count: int) -> Array:
    """Return all movements of all elements from those of the joints, shape (n * e, d, loads), the two ends first."""
    rows, elements = whole.segments.radius.shape
    ends = ends_of(joints, count)
    cell_ends = ends[:, whole.tangents : whole.tangents + whole.cells]
    inside = recovered(small.cells, cell_ends.reshape(rows * whole.cells, 2 * count, joints.shape[-1]))
    of_elements = ends_of(in_order(inside, count), count)
    inner = elements - 2 * whole.tangents
    of_elements = of_elements.reshape(rows, inner, 2 * count, joints.shape[-1])
    if whole.tangents:
        of_elements = np.concatenate((ends[:, :1], of_elements, ends[:, -1:]), axis=1)
    return recovered(small.elements, of_elements.reshape(rows * elements, 2 * count, joints.shape[-1]))


def _cells(whole: Meridian, by_row: Array) -> Array:
    """Return what belongs to elements by cell, shape (n * cells, elements of one, ...), tangents left out."""
    inner = by_row[:, whole.tangents : by_row.shape[1] - whole.tangents]
    return inner.reshape(len(by_row) * whole.cells, inner.shape[1] // whole.cells, *by_row.shape[2:])


def _with_tangents(whole: Meridian, by_row: Array, cells: Array) -> Array:
    """Return convolutions in their rows, between the tangents where there are any."""
    inner = cells.reshape(len(by_row), whole.cells, *cells.shape[1:])
    return np.concatenate((by_row[:, :1], inner, by_row[:, -1:]), axis=1) if whole.tangents else inner


def picked(whole: Meridian, rows: npt.NDArray[np.intp]) -> Meridian:
    """Return some of the bellows, by number."""
    segments = Segments(**{name: getattr(whole.segments, name)[rows] for name in Segments.__dataclass_fields__})
    return Meridian(segments=segments, cells=whole.cells, tangents=whole.tangents)


def _picked(segments: Segments, columns: list[int]) -> Segments:
    return Segments(**{name: getattr(segments, name)[:, columns] for name in Segments.__dataclass_fields__})


def _mirrored(segments: Segments, pitch: Array) -> Segments:
    """Return segments of shape (n, e) seen in the plane z = pitch/2 and run the other way, from crest to root."""
    half = segments.turn * segments.length / 2.0
    chord = segments.length * np.sinc(half / np.pi)
    end_radius = segments.radius + chord * np.sin(segments.angle + half)
    end_axial = segments.axial + chord * np.cos(segments.angle + half)
    fields = {
        "radius": end_radius,
        "axial": pitch - end_axial,
        "angle": -(segments.angle + 2.0 * half),
        "turn": segments.turn,
        "length": segments.length,
        "thickness": segments.thickness,
        "plies": segments.plies,
    }
    return Segments(**{name: field[:, ::-1] for name, field in fields.items()})


def _shifted(segments: Segments, by: Array) -> Segments:
    fields = {name: getattr(segments, name) for name in Segments.__dataclass_fields__}
    return Segments(**(fields | {"axial": segments.axial + by}))


def _joined(parts: tuple[Segments, ...]) -> Segments:
    return Segments(
        **{
            name: np.concatenate([getattr(part, name) for part in parts], axis=1)
            for name in Segments.__dataclass_fields__
        }
    )


__all__ = [
    "Meridian",
    "Reduced",
    "alike",
    "half_meridian",
    "has_wall",
    "meridian",
    "nodal_of",
    "picked",
    "reduced",
    "reduced_derivative",
]
