"""A frame made ready for assembly and recovery: member coefficients, the holds' axes settled.     (mechanics/model.py)

A hold whose axes are the global ones in some order needs no rotation, only its flags in that order. Any other hold
turns the six unknowns of its node into its own axes, where being held is striking out unknowns: exact, no penalty.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.arc import ArcStiffness, arc_stiffness
from takeup.mechanics.frame import Flags, Floats, Frame, Index, Integers, Supports
from takeup.mechanics.straight import Stiffness, stiffness

_ALIGNED = 1e-12  # axes this near to the global ones are the global ones: directions carry rounding of 1e-16


@dataclass(frozen=True, kw_only=True, slots=True)
class Model:
    """A frame made ready for assembly and recovery.

    Args:
        frame: the frame.
        start: first nodes of the straights, (m,), or the slice that they are: a slice makes views, which cost nothing.
        end: their second nodes.
        k: coefficients of the straights.
        arcs: stiffness and load operators of the arcs.
        rotated: nodes whose unknowns are in their hold's axes, (r,).
        rotation: those axes as rows, (r, 3, 3).
        held: node and component of each held unknown, in the node's own axes, (h,) each.
        sprung: node and component of each unknown with a spring, (q,) each.
        rate: stiffness of those springs, (q,) [N/m], [N m/rad].
        mean_length: of the members; it measures moments in forces, and rotations in lengths [m].
    """

    frame: Frame
    start: Index
    end: Index
    k: Stiffness
    arcs: ArcStiffness
    rotated: Integers
    rotation: Floats
    held: tuple[Integers, Integers]
    sprung: tuple[Integers, Integers]
    rate: Floats
    mean_length: float


def make_model(frame: Frame) -> Model:
    """Return the frame with its coefficients, the holds' axes settled.

    Args:
        frame: the frame.
    """
    supports = frame.supports
    size = np.abs(supports.axes)
    turned = np.flatnonzero((np.minimum(size, np.abs(size - 1.0)) > _ALIGNED).any(axis=(1, 2)))
    order = np.argmax(size, axis=2)  # local axis i lies along global axis order[i]
    order[turned] = (0, 1, 2)
    springs = (supports.spring != 0.0) & ~supports.held
    start, end = as_slice(frame.straights.start), as_slice(frame.straights.end)
    k, arcs = stiffness(frame.points, frame.straights, (start, end)), arc_stiffness(frame.points, frame.arcs)
    return Model(
        frame=frame,
        start=start,
        end=end,
        k=k,
        arcs=arcs,
        rotated=supports.node[turned],
        rotation=supports.axes[turned],
        held=_places(supports, supports.held, order),
        sprung=_places(supports, springs, order),
        rate=supports.spring[springs],
        mean_length=float(k.length.sum() + arcs.length.sum()) / max(frame.member_count, 1),
    )


def as_slice(index: Integers) -> Index:
    """Return an index as a slice where it is a run of consecutive numbers, else as it is."""
    count = len(index)
    if count and index[-1] - index[0] == count - 1 and bool((index[1:] - index[:-1] == 1).all()):
        return slice(int(index[0]), int(index[0]) + count)
    return index


def _places(supports: Supports, chosen: Flags, order: Integers) -> tuple[Integers, Integers]:
    """Return node and component of the chosen directions of supports, (s, 6) flags in the holds' own order."""
    row, local = np.nonzero(chosen)
    if len(row) == 0:
        return row, local
    kind, axis = np.divmod(local, 3)
    return supports.node[row], 3 * kind + order[row, axis]


def to_own_axes(model: Model, values: Floats) -> Floats:
    """Return (6, c, n) values with the rotated nodes in their own axes; the same array where there are none."""
    return _turned(model, values, model.rotation)


def to_global_axes(model: Model, values: Floats) -> Floats:
    """Return (6, c, n) values of rotated nodes' own axes in global axes; the same array where there are none."""
    return _turned(model, values, model.rotation.transpose(0, 2, 1))


def _turned(model: Model, values: Floats, rotation: Floats) -> Floats:
    if len(model.rotated) == 0:
        return values
    turned = values.copy()
    for first in (0, 3):
        part = values[first : first + 3][:, :, model.rotated]
        turned[first : first + 3, :, model.rotated] = np.einsum("rij,jcr->icr", rotation, part)
    return turned
