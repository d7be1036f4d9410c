"""A frame made ready for assembly and recovery: member coefficients, the holds' axes settled.     (mechanics/model.py)

A node held along the global axes needs no rotation, only flags in their order. Any other hold turns the six unknowns
of its node into axes of its own, where being held is striking out unknowns: exact, no penalty. Translations and
rotations have axes of their own, since the supports of one node may hold them in different directions (supports.py).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.arc import ArcStiffness, arc_stiffness
from takeup.mechanics.frame import Flags, Floats, Frame, Index, Integers
from takeup.mechanics.straight import Stiffness, stiffness
from takeup.mechanics.supports import _ALIGNED, Holding, settle


@dataclass(frozen=True, kw_only=True, slots=True)
class Model:
    """A frame made ready for assembly and recovery.

    Args:
        frame: the frame.
        start: first nodes of the straights, (m,), or the slice that they are: a slice makes views, which cost nothing.
        end: their second nodes.
        k: coefficients of the straights.
        arcs: stiffness and load operators of the arcs.
        rotated: nodes whose unknowns are in axes of their own, (r,).
        rotation: those axes as rows, of the translations and of the rotations, (r, 2, 3, 3).
        holding: what the supports hold together at each node.
        held: node and component of each held unknown, in the node's own axes, (h,) each.
        sprung: the supports that have springs, (q,).
        rate: stiffness of those springs in their support's axes, zero where free or held, (q, 6) [N/m], [N m/rad].
        chained: number of nodes that come before the junctions (ordering.py); only among them is the matrix a band.
        mean_length: of the members; it measures moments in forces, and rotations in lengths [m].
    """

    frame: Frame
    start: Index
    end: Index
    k: Stiffness
    arcs: ArcStiffness
    rotated: Integers
    rotation: Floats
    holding: Holding
    held: tuple[Integers, Integers]
    sprung: Integers
    rate: Floats
    chained: int
    mean_length: float


def make_model(frame: Frame, chained: int | None = None) -> Model:
    """Return the frame with its coefficients, the holds' axes settled.

    Args:
        frame: the frame.
        chained: number of nodes that come before the junctions; all, if it is not told.
    """
    holding = settle(frame.supports)
    size = np.abs(holding.axes)
    turned = np.flatnonzero((np.minimum(size, np.abs(size - 1.0)) > _ALIGNED).any(axis=(1, 2, 3)))
    order = np.argmax(size, axis=3)  # local axis i lies along global axis order[i]
    order[turned] = (0, 1, 2)
    rate = frame.supports.spring * ~frame.supports.held
    sprung = np.flatnonzero(rate.any(axis=1))
    start, end = as_slice(frame.straights.start), as_slice(frame.straights.end)
    k, arcs = stiffness(frame.points, frame.straights, (start, end)), arc_stiffness(frame.points, frame.arcs)
    return Model(
        frame=frame,
        start=start,
        end=end,
        k=k,
        arcs=arcs,
        rotated=holding.node[turned],
        rotation=holding.axes[turned],
        holding=holding,
        held=_places(holding.node, holding.held, order),
        sprung=sprung,
        rate=rate[sprung],
        chained=len(frame.points) if chained is None else chained,
        mean_length=float(k.length.sum() + arcs.length.sum()) / max(frame.member_count, 1),
    )


def as_slice(index: Integers) -> Index:
    """Return an index as a slice where it is a run of consecutive numbers, else as it is."""
    count = len(index)
    if count and index[-1] - index[0] == count - 1 and bool((index[1:] - index[:-1] == 1).all()):
        return slice(int(index[0]), int(index[0]) + count)
    return index


def _places(node: Integers, held: Flags, order: Integers) -> tuple[Integers, Integers]:
    """Return node and component of held directions, (k, 6) flags in the holds' own order (k, 2, 3)."""
    row, local = np.nonzero(held)
    if len(row) == 0:
        return row, local
    kind, axis = np.divmod(local, 3)
    return node[row], 3 * kind + order[row, kind, axis]


def to_own_axes(model: Model, values: Floats) -> Floats:
    """Return (6, c, n) values with the rotated nodes in their own axes; the same array where there are none."""
    return _turned(model, values, model.rotation)


def to_global_axes(model: Model, values: Floats) -> Floats:
    """Return (6, c, n) values of rotated nodes' own axes in global axes; the same array where there are none."""
    return _turned(model, values, model.rotation.swapaxes(-1, -2))


def _turned(model: Model, values: Floats, rotation: Floats) -> Floats:
    if len(model.rotated) == 0:
        return values
    turned = values.copy()
    for kind, first in enumerate((0, 3)):
        part = values[first : first + 3][:, :, model.rotated]
        turned[first : first + 3, :, model.rotated] = np.einsum("rij,jcr->icr", rotation[:, kind], part)
    return turned
