"""From displacements to member end forces, and what they leave out of balance.     (mechanics/recover.py)

End forces start as those at rest, all nodes held, and grow with each correction of the displacements by those of the
correction alone: F(u + du) = F(u) + F(du). The rounding of a displacement of metres, times the stiffness of a member of
centimetres, thus never enters, and the residual means something: K u would lose it, and so would F of a rounded sum.
Forces are (2, 6, c, members): start and end of each member.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from takeup.mechanics.frame import Floats, Index, Integers, Loads
from takeup.mechanics.model import Model, to_own_axes
from takeup.mechanics.straight import cross, cyclic, through_the_cut
from takeup.mechanics.supports import moved_by, shares

_PIECE = 4096  # columns a piece: its dozen temporaries of 100 kB stay in the second-level cache


def forces_at_rest(model: Model, loads: Loads) -> Floats:
    """Return the end forces of every member while all nodes are held, (2, 6, c, members).

    A member that may not grow is compressed by E A eps; a uniform load q puts -q L/2 and -+ d x q L/12 on its ends.

    Args:
        model: the model.
        loads: c load cases.
    """
    cases, members = loads.strain.shape
    rest = np.empty((2, 6, cases, members))
    split = len(model.k.length)
    for piece in _pieces(split, cases):
        _straight_forces_at_rest(model, loads, piece, rest)
    _carry_to_nodes(model, rest[..., :split])
    if split < members:
        _arc_forces_at_rest(model, loads, rest[..., split:])
    return rest


def _pieces(members: int, cases: int) -> Iterator[slice]:
    """Yield the straights a piece at a time, so that what is computed for a piece stays in the cache."""
    step = max(_PIECE // max(cases, 1), 1)
    for first in range(0, members, step):
        yield slice(first, min(first + step, members))


def _straight_forces_at_rest(model: Model, loads: Loads, piece: slice, rest: Floats) -> None:
    """Write the end forces at rest of a piece of the straights, rigid links left out."""
    start, end = rest[..., piece]
    k, members = model.k, model.frame.straights
    np.multiply(members.axial[piece] * k.axis[:3, None, piece], loads.strain[:, piece], out=start[:3])
    np.negative(start[:3], out=end[:3])
    if loads.per_length is None:
        start[3:] = end[3:] = 0.0
        return
    half = np.multiply(np.moveaxis(loads.per_length[:, piece], 2, 0), 0.5 * k.length[piece], order="C")
    start[:3] -= half
    end[:3] -= half
    end[3:] = cross(cyclic(k.chord[:, None, piece] / 6.0), cyclic(half))
    np.negative(end[3:], out=start[3:])


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


def recover(model: Model, applied: Floats, step: Floats, forces: Floats) -> Floats:
    """Add the end forces of a step of displacements to `forces`; return what is out of balance, (6, c, n).

        out of balance = applied forces - member end forces

    Args:
        model: the model.
        applied: force and moment on each node, (6, c, n), global axes.
        step: displacements, (6, c, n), global axes.
        forces: end forces before the step, (2, 6, c, members); after it when this returns.
    """
    out = applied.copy()
    split = len(model.k.length)
    for piece in _pieces(split, forces.shape[2]):
        ends = _part(model.start, piece), _part(model.end, piece)
        _add_straight_forces(model, piece, step[:, :, ends[0]], step[:, :, ends[1]], forces[..., piece])
        for index, force in zip(ends, forces[..., piece], strict=True):
            _subtract_at(out, index, force)
    if split < forces.shape[3]:
        arcs, k, (start, end) = model.frame.arcs, model.arcs, forces[..., split:]
        gap = step[:, :, arcs.end] - step[:, :, arcs.start]
        gap[:3] -= cross(cyclic(step[3:][:, :, arcs.start]), cyclic(k.chord[:, None]))
        force = np.einsum("aij,jca->ica", k.end, gap)
        end += force
        start += _start_from_end(force, k.chord)
        _subtract_at(out, arcs.start, start)
        _subtract_at(out, arcs.end, end)
    return out


def _add_straight_forces(model: Model, piece: slice, begin: Floats, finish: Floats, forces: Floats) -> None:
    """Add the end forces of a piece of the straights: open the cut in the middle, pass F and B through it.

    Args:
        model: the model.
        piece: p members.
        begin: displacements of their start nodes, (6, c, p).
        finish: displacements of their end nodes, (6, c, p).
        forces: to be added to, (2, 6, c, p).
    """
    k, (start, end) = model.k, forces
    start_arm, end_arm = k.start_arm[:, None, piece], k.end_arm[:, None, piece]
    opening = finish - begin
    if k.start_arm is k.end_arm:
        opening[:3] -= cross(cyclic(begin[3:] + finish[3:]), start_arm)
    else:
        opening[:3] -= cross(cyclic(begin[3:]), start_arm) + cross(cyclic(finish[3:]), end_arm)
    force, moment = through_the_cut(k, piece, opening.reshape(2, 3, *opening.shape[1:]))
    around = cyclic(force)
    lever = cross(end_arm, around)
    start[:3] -= force
    end[:3] += force
    end[3:] += moment - lever
    if k.start_arm is not k.end_arm:
        lever = cross(start_arm, around)
    moment += lever
    start[3:] -= moment


def _part(nodes: Index, piece: slice) -> Index:
    """Return the part of an index that a piece of the members uses."""
    if isinstance(nodes, slice):
        return slice(nodes.start + piece.start, nodes.start + piece.stop)
    return nodes[piece]


def sums_at_nodes(model: Model, forces: Floats) -> Floats:
    """Return the sum of member end forces at every node, (6, c, n)."""
    split = len(model.k.length)
    total = np.zeros((6, forces.shape[2], len(model.frame.points)))
    arcs = model.frame.arcs
    for side, ends in enumerate(((model.start, arcs.start), (model.end, arcs.end))):
        _subtract_at(total, ends[0], -forces[side, :, :, :split])
        _subtract_at(total, ends[1], -forces[side, :, :, split:])
    return total


def _subtract_at(total: Floats, index: Index, values: Floats) -> None:
    """Subtract columns at nodes; nodes may repeat."""
    if isinstance(index, slice) or (index[1:] > index[:-1]).all():
        total[:, :, index] -= values
    else:
        np.subtract.at(total.transpose(2, 0, 1), index, values.transpose(2, 0, 1))


def spring_forces(model: Model, moved: Floats) -> Floats:
    """Return the force of each sprung support on its node, (6, c, q), global axes.

    Args:
        model: the model.
        moved: movement of its node away from its foot, (6, c, q), global axes.
    """
    axes = model.frame.supports.axes[model.sprung]
    local = np.einsum("qij,kjcq->kicq", axes, moved.reshape(2, 3, *moved.shape[1:]))
    local *= -model.rate.T.reshape(2, 3, 1, -1)
    return np.asarray(np.einsum("qji,kjcq->kicq", axes, local).reshape(moved.shape))


def add_springs(model: Model, total: Floats, pull: Floats) -> None:
    """Add the forces of the sprung supports, (6, c, q), to (6, c, n) forces at nodes."""
    if len(model.sprung):
        _subtract_at(total, model.frame.supports.node[model.sprung], -pull)


class Start(NamedTuple):
    """Where a solution starts: nodes where their supports take them, all others at rest.

    `u` (6, c, n), `forces` of the members (2, 6, c, members), `pull` of the sprung supports (6, c, q), global axes;
    `torn` is a support that disagrees with others at its node on where it goes, -1 where there is none, (c,).
    """

    u: Floats
    forces: Floats
    pull: Floats
    torn: Integers


def start_of(model: Model, loads: Loads) -> Start:
    """Return movements and forces while every node is held where its supports take it.

    Args:
        model: the model.
        loads: c load cases.
    """
    cases = len(loads.strain)
    u, forces = np.zeros((6, cases, len(model.frame.points))), forces_at_rest(model, loads)
    pull = feet(model, loads)
    if loads.imposed is None:
        return Start(u, forces, pull, np.full(cases, -1))
    node, movement, torn = moved_by(model.frame.supports, model.holding, loads.imposed)
    u[:, :, node] = movement
    recover(model, u, u, forces)
    pull += spring_forces(model, u[:, :, model.frame.supports.node[model.sprung]])
    return Start(u, forces, pull, torn)


def feet(model: Model, loads: Loads) -> Floats:
    """Return the forces of the sprung supports on nodes at rest: those of their moved feet, (6, c, q), global axes."""
    if loads.imposed is None:
        return np.zeros((6, len(loads.strain), len(model.sprung)))
    axes = model.frame.supports.axes[model.sprung]
    push = (loads.imposed[:, model.sprung] * model.rate).reshape(len(loads.imposed), -1, 2, 3)
    return np.asarray(np.einsum("qji,cqkj->kicq", axes, push).reshape(6, len(push), -1))


def support_reactions(model: Model, total: Floats, pull: Floats) -> Floats:
    """Return what each support gives, (6, c, s), global axes.

    Args:
        model: the model.
        total: what all supports of a node give together, (6, c, n).
        pull: forces of the sprung supports, (6, c, q).
    """
    supports, holding = model.frame.supports, model.holding
    if holding.shared is None:
        return total[:, :, supports.node]
    reactions, shared = total[:, :, supports.node], holding.shared
    add_springs(model, total, -pull)
    held = total[:, :, holding.node[len(holding.node) - len(shared.inverse) :]]
    reactions[:, :, shared.rows] = shares(supports, shared, held)
    sharing = np.isin(model.sprung, shared.rows)
    reactions[:, :, model.sprung[sharing]] += pull[:, :, sharing]
    return reactions


def strike_held(model: Model, values: Floats) -> Floats:
    """Return values in the nodes' own axes with zeros at the held unknowns, (6, c, n); the array may be the same."""
    own = to_own_axes(model, values)
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
    return np.asarray(high.max(axis=(0, 1, 2)) + 0.0)  # no negative zero
