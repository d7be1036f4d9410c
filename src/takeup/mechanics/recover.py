"""From displacements to member end forces, and the out-of-balance at every node.     (mechanics/recover.py)

Deformations are taken as differences of displacements before any stiffness is applied, so that rigid motion of a
long flexible line cancels exactly and the residual means something: K u would lose it in rounding.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.assembly import Model
from takeup.mechanics.frame import Floats, Integers, Loads
from takeup.mechanics.straight import end_forces


class EndForces(NamedTuple):
    """Forces and moments on the members' starts and ends, each (6, c, members)."""

    start: Floats
    end: Floats


def member_forces(model: Model, loads: Loads, displacements: Floats) -> EndForces:
    """Return the end forces of every member.

    Args:
        model: the model.
        loads: c load cases.
        displacements: (6, c, n), global axes.
    """
    frame = model.frame
    split = len(frame.straights.start)
    if not len(frame.arcs.start):
        return _straight_forces(model, loads, displacements)
    straight = _straight_forces(model, loads, displacements)
    arc = _arc_forces(model, loads, displacements, split)
    return EndForces(
        np.concatenate([straight.start, arc.start], axis=2), np.concatenate([straight.end, arc.end], axis=2)
    )


def _straight_forces(model: Model, loads: Loads, u: Floats) -> EndForces:
    members, k = model.frame.straights, model.k
    begin, finish = _at(u, members.start), _at(u, members.end)
    if members.start_offset is not None:
        begin = _carried(begin, members.start_offset)
    if members.end_offset is not None:
        finish = _carried(finish, members.end_offset)
    strain = loads.strain[:, : len(members.start)]
    shift, turn = _relative(begin, finish, k.chord, strain)
    end = end_forces(k, shift, turn)
    push = None
    if loads.per_length is not None:
        push = np.moveaxis(loads.per_length[:, : len(members.start)], 2, 0) * k.length
        end[:3] -= 0.5 * push
        end[3:] += _cross(k.chord[:, None], push) / 12.0
    start = _start_from_end(end, k.chord, push, k.chord[:, None] * 0.5)
    if members.start_offset is not None:
        start[3:] += _cross(members.start_offset.T[:, None], start[:3])
    if members.end_offset is not None:
        end[3:] += _cross(members.end_offset.T[:, None], end[:3])
    return EndForces(start, end)


def _arc_forces(model: Model, loads: Loads, u: Floats, split: int) -> EndForces:
    members, k = model.frame.arcs, model.arcs
    shift, turn = _relative(_at(u, members.start), _at(u, members.end), k.chord, loads.strain[:, split:])
    end = np.einsum("aij,jca->ica", k.end, np.concatenate([shift, turn]))
    push = None
    if loads.per_length is not None:
        per_length = loads.per_length[:, split:]
        end += np.einsum("aij,caj->ica", k.shape, per_length)
        push = np.moveaxis(per_length, 2, 0) * k.length
    middle = (k.first_moment.T / k.length)[:, None]
    return EndForces(_start_from_end(end, k.chord, push, middle), end)


def _at(u: Floats, index: Integers) -> Floats:
    """Return the columns of `u` at nodes; a run of consecutive nodes is a view, which costs nothing."""
    if len(index) > 1 and index[-1] - index[0] == len(index) - 1 and bool((np.diff(index) == 1).all()):
        return u[:, :, index[0] : index[-1] + 1]
    return u[:, :, index]


def _carried(u: Floats, offset: Floats) -> Floats:
    """Return the movement of a point rigidly linked to the node by `offset` (m, 3)."""
    moved = u.copy()
    moved[:3] += _cross(u[3:], offset.T[:, None])
    return moved


def _relative(begin: Floats, finish: Floats, chord: Floats, strain: Floats) -> tuple[Floats, Floats]:
    """Return the end's translation (less free growth) and rotation relative to the rigidly carried start."""
    turn = finish[3:] - begin[3:]
    shift = finish[:3] - begin[:3]
    for i, j, l in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
        shift[i] -= begin[3 + j] * chord[l] - begin[3 + l] * chord[j]
        shift[i] -= strain * chord[i]
    return shift, turn


def _start_from_end(end: Floats, chord: Floats, push: Floats | None, middle: Floats) -> Floats:
    """Return the start forces by equilibrium: F_i = -F_j - Q, M_i = -M_j - d x F_j - p x Q."""
    start = -end
    start[3:] -= _cross(chord[:, None], end[:3])
    if push is not None:
        start[:3] -= push
        start[3:] -= _cross(middle, push)
    return start


def _cross(left: Floats, right: Floats) -> Floats:
    """Return the cross product along the first axis of two broadcastable (3, ...) arrays."""
    return np.stack(
        [
            left[1] * right[2] - left[2] * right[1],
            left[2] * right[0] - left[0] * right[2],
            left[0] * right[1] - left[1] * right[0],
        ]
    )


def node_sums(model: Model, forces: EndForces, count: int) -> Floats:
    """Return the sum of member end forces at every node, (6, c, n)."""
    frame = model.frame
    total = np.zeros((6, forces.start.shape[1], count))
    split = len(frame.straights.start)
    for members, part in ((frame.straights, slice(0, split)), (frame.arcs, slice(split, None))):
        _add_at(total, members.start, forces.start[:, :, part])
        _add_at(total, members.end, forces.end[:, :, part])
    return total


def _add_at(total: Floats, index: Integers, values: Floats) -> None:
    """Add columns at nodes; nodes may repeat."""
    if len(index) == 0:
        return
    step = np.diff(index)
    if (step == 1).all():
        total[:, :, index[0] : index[-1] + 1] += values
    elif (step > 0).all():
        total[:, :, index] += values
    else:
        np.add.at(total, (slice(None), slice(None), index), values)
