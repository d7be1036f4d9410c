"""From displacements to member end forces, and what is out of balance at the nodes.     (mechanics/recover.py)

End forces are those at rest, all nodes held, plus those of the displacements. Deformations are taken as differences of
displacements before any stiffness is applied, so that rigid motion of a long flexible line cancels exactly and the
residual means something: K u would lose it in rounding. Forces are (2, 6, c, members): start and end of each member.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.frame import Floats, Index, Loads
from takeup.mechanics.model import Model, to_global_axes, to_own_axes
from takeup.mechanics.straight import cross, cyclic, through_the_cut

_PIECE = 4096  # columns a piece: its dozen temporaries of 100 kB stay in the second-level cache


def forces_at_rest(model: Model, loads: Loads) -> Floats:
    """Return the end forces of every member while all nodes are held, (2, 6, c, members).

    A member that may not grow is compressed by E A eps; a uniform load q puts -q L/2 and -+d x q L/12 on its ends.

    Args:
        model: the model.
        loads: c load cases.
    """
    split = len(model.k.length)
    rest = np.zeros((2, 6, *loads.strain.shape))
    straight, arc = rest[..., :split], rest[..., split:]
    held_growth = (model.k.a * model.k.chord)[:, None] * loads.strain[:, :split]
    straight[0, :3] = held_growth
    straight[1, :3] = -held_growth
    if loads.per_length is not None:
        _add_uniform_load(model, loads.per_length[:, :split], straight)
    _carry_to_nodes(model, straight)
    if arc.shape[3]:
        _arc_forces_at_rest(model, loads, arc)
    return rest


def _add_uniform_load(model: Model, per_length: Floats, rest: Floats) -> None:
    push = np.multiply(np.moveaxis(per_length, 2, 0), model.k.length, order="C")
    rest[:, :3] -= 0.5 * push
    bend = cross(cyclic(model.k.chord[:, None]), cyclic(push)) / 12.0
    rest[0, 3:] -= bend
    rest[1, 3:] += bend


def _carry_to_nodes(model: Model, ends: Floats) -> None:
    """Carry end forces of straights through their rigid links to the nodes, in place: M + o x F."""
    members = model.frame.straights
    for side, offset in enumerate((members.start_offset, members.end_offset)):
        if offset is not None:
            ends[side, 3:] += cross(cyclic(offset.T[:, None]), cyclic(ends[side, :3]))


def _arc_forces_at_rest(model: Model, loads: Loads, rest: Floats) -> None:
    k, split = model.arcs, len(model.k.length)
    growth = loads.strain[:, split:] * k.chord[:, None]
    rest[1] = -np.einsum("aij,jca->ica", k.end[:, :, :3], growth)
    push, middle = np.zeros_like(growth), k.first_moment.T / k.length
    if loads.per_length is not None:
        per_length = loads.per_length[:, split:]
        rest[1] += np.einsum("aij,caj->ica", k.shape, per_length)
        push += np.moveaxis(per_length, 2, 0) * k.length
    rest[0] = _start_from_end(rest[1], k.chord)
    rest[0, :3] -= push
    rest[0, 3:] -= cross(cyclic(middle[:, None]), cyclic(push))


def _start_from_end(end: Floats, chord: Floats) -> Floats:
    """Return the start forces of an unloaded member by equilibrium: -F and -M - d x F."""
    start = -end
    start[3:] -= cross(cyclic(chord[:, None]), cyclic(end[:3]))
    return start


def member_forces(model: Model, rest: Floats, u: Floats) -> Floats:
    """Return the end forces of every member, (2, 6, c, members).

    Args:
        model: the model.
        rest: what `forces_at_rest` returned.
        u: displacements, (6, c, n), global axes.
    """
    forces = np.empty_like(rest)
    split, cases = len(model.k.length), rest.shape[2]
    step = max(_PIECE // max(cases, 1), 1)
    for first in range(0, split, step):
        _straight_forces(model, u, slice(first, min(first + step, split)), forces, rest)
    if split < rest.shape[3]:
        arcs, k = model.frame.arcs, model.arcs
        gap = u[:, :, arcs.end] - u[:, :, arcs.start]
        gap[:3] -= cross(cyclic(u[3:][:, :, arcs.start]), cyclic(k.chord[:, None]))
        end = np.einsum("aij,jca->ica", k.end, gap)
        forces[1, ..., split:] = rest[1, ..., split:] + end
        forces[0, ..., split:] = rest[0, ..., split:] + _start_from_end(end, k.chord)
    return forces


def _straight_forces(model: Model, u: Floats, piece: slice, forces: Floats, rest: Floats) -> None:
    """Write the end forces of a piece of the straights: open the cut in the middle, pass F and B through it."""
    k = model.k
    begin, finish = u[:, :, _part(model.start, piece)], u[:, :, _part(model.end, piece)]
    start_arm, end_arm, axis = k.start_arm[:, None, piece], k.end_arm[:, None, piece], k.axis[:3, None, piece]
    gap = finish - begin
    if k.start_arm is k.end_arm:
        gap[:3] -= cross(cyclic(begin[3:] + finish[3:]), start_arm)
    else:
        gap[:3] -= cross(cyclic(begin[3:]), start_arm) + cross(cyclic(finish[3:]), end_arm)
    force = through_the_cut(k.b[piece], k.stretch[piece], axis, gap[:3])
    moment = through_the_cut(k.p[piece], k.twist[piece], axis, gap[3:])
    around = cyclic(force)
    lever = cross(end_arm, around)
    (start, end), (start_rest, end_rest) = forces[..., piece], rest[..., piece]
    np.add(end_rest[:3], force, out=end[:3])
    np.subtract(start_rest[:3], force, out=start[:3])
    np.add(end_rest[3:], moment - lever, out=end[3:])
    if k.start_arm is not k.end_arm:
        lever = cross(start_arm, around)
    moment += lever
    np.subtract(start_rest[3:], moment, out=start[3:])


def _part(nodes: Index, piece: slice) -> Index:
    """Return the part of an index that a piece of the members uses."""
    if isinstance(nodes, slice):
        return slice(nodes.start + piece.start, nodes.start + piece.stop)
    return nodes[piece]


def out_of_balance(model: Model, applied: Floats, forces: Floats, springs: Floats | None = None) -> Floats:
    """Return applied forces, less what members take, plus what springs give, at every node, (6, c, n)."""
    out = applied.copy()
    split = len(model.k.length)
    arcs = model.frame.arcs
    for side, (straight, arc) in enumerate(((model.start, arcs.start), (model.end, arcs.end))):
        _subtract_at(out, straight, forces[side, :, :, :split])
        _subtract_at(out, arc, forces[side, :, :, split:])
    return out if springs is None else out + springs


def _subtract_at(total: Floats, index: Index, values: Floats) -> None:
    """Subtract columns at nodes; nodes may repeat."""
    if isinstance(index, slice) or len(np.unique(index)) == len(index):
        total[:, :, index] -= values
    else:
        np.subtract.at(total.transpose(2, 0, 1), index, values.transpose(2, 0, 1))


def spring_forces(model: Model, u: Floats) -> Floats | None:
    """Return the force of the springs on the frame, (6, c, n), global axes; None when there are no springs."""
    if len(model.rate) == 0:
        return None
    node, component = model.sprung
    force = np.zeros_like(u)
    force[component, :, node] = -model.rate[:, None] * to_own_axes(model, u)[component, :, node]
    return to_global_axes(model, force)


def free_part(model: Model, values: Floats) -> Floats:
    """Return forces at the unknowns that are free to move, in the nodes' own axes, (6, c, n); zero at the held."""
    own = to_own_axes(model, values)
    if own is values:
        own = values.copy()
    node, component = model.held
    own[component, :, node] = 0.0
    return own


def largest(model: Model, values: Floats, power: int) -> Floats:
    """Return the largest component of each case of (..., 6, c, k) values, (c,).

    Args:
        model: its mean member length L makes rotations lengths, and moments forces.
        values: displacements or forces.
        power: +1 for displacements (a rotation counts times L), -1 for forces (a moment counts over L).
    """
    if values.shape[-1] == 0:
        return np.zeros(values.shape[-2])
    high = np.maximum(np.maximum.reduce(values, axis=-1), -np.minimum.reduce(values, axis=-1))
    high = high.reshape(-1, 2, 3, high.shape[-1])
    high[:, 1] *= model.mean_length**power
    return np.asarray(high.max(axis=(0, 1, 2)))
