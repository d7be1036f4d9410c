"""From members to one banded stiffness matrix, and from displacements back to member forces.     (mechanics/assembly.py)

The band is stored by columns, `band[column, row - column]`, which is LAPACK's lower band form seen from Python.
Plain straight members (no rigid links, no rotated holds at their nodes) are written entry by entry, a few
thousand members at a time so that the piece of band being written stays in the processor's cache. Arcs,
offset members and members at rotated holds take the general way: K = A^T K_end A with

    A = [-T(w_i), T(w_j)],  T(w) = [I, -[w x]; 0, I],   w_i = offset + chord, w_j = offset

which is also how rigid links are eliminated: no slave node ever exists.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.arc import ArcStiffness, arc_stiffness
from takeup.mechanics.frame import Flags, Floats, Frame, Integers
from takeup.mechanics.straight import Stiffness, cross_matrices, end_stiffness, stiffness

_PIECE = 2048  # nodes a piece: 2048 x 72 doubles is about a megabyte, which fits the second-level cache


@dataclass(frozen=True, kw_only=True, slots=True)
class Model:
    """A frame made ready: member coefficients, and the rotation of each node's unknowns into its hold's axes.

    Args:
        frame: the frame.
        k: coefficients of the straights.
        arcs: stiffness and load operators of the arcs.
        rotated: nodes whose unknowns are in local axes, (r,).
        rotation: their axes as rows, (r, 3, 3).
        held: held unknowns, (n, 6), in each node's own axes.
        spring: spring stiffness, (n, 6), in each node's own axes.
    """

    frame: Frame
    k: Stiffness
    arcs: ArcStiffness
    rotated: Integers
    rotation: Floats
    held: Flags
    spring: Floats


def make_model(frame: Frame) -> Model:
    """Return the frame with its coefficients, the holds' axes settled.

    A hold whose axes are the global ones in some order needs no rotation, only its flags in that order.
    """
    count = len(frame.points)
    held, spring = np.zeros((count, 6), dtype=bool), np.zeros((count, 6))
    supports = frame.supports
    size = np.abs(supports.axes)
    aligned = (size > 1.0 - 1e-12).sum(axis=(1, 2)) == 3
    order = np.argmax(size, axis=2)  # local axis i lies along global axis order[i]
    plain = np.flatnonzero(aligned)
    for shift in (0, 3):
        for i in range(3):
            held[supports.node[plain], shift + order[plain, i]] = supports.held[plain, shift + i]
            spring[supports.node[plain], shift + order[plain, i]] = supports.spring[plain, shift + i]
    turned = np.flatnonzero(~aligned)
    held[supports.node[turned]] = supports.held[turned]
    spring[supports.node[turned]] = supports.spring[turned]
    return Model(
        frame=frame,
        k=stiffness(frame.points, frame.straights),
        arcs=arc_stiffness(frame.points, frame.arcs),
        rotated=supports.node[turned],
        rotation=supports.axes[turned],
        held=held,
        spring=spring,
    )


def band_width(frame: Frame) -> int:
    """Return the number of sub-diagonals of the band."""
    spans = np.concatenate([frame.straights.end - frame.straights.start, frame.arcs.end - frame.arcs.start])
    return 6 * int(np.abs(spans).max(initial=0)) + 5


def assemble(model: Model) -> Floats:
    """Return the stiffness matrix, springs included and held unknowns removed, as `band[column, row - column]`.

    Returns:
        (6 n, width + 1); a held unknown keeps a one on the diagonal and zeros beside it.
    """
    frame = model.frame
    width = band_width(frame)
    band = np.zeros((6 * len(frame.points), width + 1))
    if _is_chain(frame) and _plain_members(model).all():
        _write_chain(band, model)
    else:
        _add_general(band, model)
    _finish(band, model)
    return band


def _plain_members(model: Model) -> Flags:
    """Return which straights have no rigid links and no rotated node, (m,)."""
    members = model.frame.straights
    turned = np.zeros(len(model.frame.points), dtype=bool)
    turned[model.rotated] = True
    plain = ~(turned[members.start] | turned[members.end])
    for offset in (members.start_offset, members.end_offset):
        if offset is not None:
            plain &= ~offset.any(axis=1)
    return plain


def _is_chain(frame: Frame) -> bool:
    """Whether straight member i runs from node i to node i + 1 and there is nothing else."""
    members = frame.straights
    count = len(members.start)
    numbers = np.arange(count)
    return (
        len(frame.arcs.start) == 0
        and len(frame.points) == count + 1
        and bool((members.start == numbers).all() and (members.end == numbers + 1).all())
    )


def _write_chain(band: Floats, model: Model) -> None:
    """Write the matrix of a chain of plain straights into the zeroed band, piece by piece."""
    k = model.k
    count = len(k.length)
    blocks = band.reshape(count + 1, 6, -1)
    for first in range(0, count, _PIECE):
        piece = slice(first, min(first + _PIECE, count))
        part = Stiffness(k.axis[:, piece], k.chord[:, piece], *(x[piece] for x in k[2:]))
        _write_piece(blocks[piece.start : piece.stop], blocks[piece.start + 1 : piece.stop + 1], part)


def _write_piece(near: Floats, far: Floats, k: Stiffness) -> None:
    """Add one piece of a chain: `near` and `far` are the (p, 6, 12) band blocks of its start and end nodes."""
    e, c = k.axis, k.c
    stretch, twist, turn = k.a - k.b, k.t - k.g, k.t + k.h
    for i in range(3):
        square = e[i] * e[i]
        push = k.b + stretch * square
        rock = k.g + twist * square
        near[:, i, 0] += push
        far[:, i, 0] += push
        near[:, 3 + i, 0] += rock
        far[:, 3 + i, 0] += rock
        near[:, i, 6] = -push
        near[:, 3 + i, 6] = k.h - turn * square
    for i, j, l in ((0, 1, 2), (1, 2, 0), (0, 2, 1)):
        pair = e[i] * e[j]
        push, rock, carry = stretch * pair, twist * pair, turn * pair
        near[:, i, j - i] += push
        far[:, i, j - i] += push
        near[:, 3 + i, j - i] += rock
        far[:, 3 + i, j - i] += rock
        near[:, i, 6 + j - i], near[:, j, 6 + i - j] = -push, -push
        near[:, 3 + i, 6 + j - i], near[:, 3 + j, 6 + i - j] = -carry, -carry
        # [e x][i, j] is -e_l for (0, 1, 2) and (1, 2, 0), +e_l for (0, 2, 1); call the entry q.
        q = c * e[l] if (i, j) == (0, 2) else -c * e[l]
        near[:, j, 3 + i - j] += q  # K_ii, translation j with rotation i: -c[e x] transposed
        near[:, i, 3 + j - i] -= q
        far[:, j, 3 + i - j] -= q
        far[:, i, 3 + j - i] += q
        near[:, j, 9 + i - j] = q  # node j's rotation i against node i's translation j: (-c[e x])^T
        near[:, i, 9 + j - i] = -q
        near[:, 3 + j, 3 + i - j] = q  # node j's translation i against node i's rotation j: c[e x]
        near[:, 3 + i, 3 + j - i] = -q


def member_operators(model: Model, members: Integers) -> tuple[Floats, Integers, Integers]:
    """Return K = A^T K_end A of chosen members in their nodes' own axes, with their nodes.

    Args:
        model: the model.
        members: member numbers, straights then arcs, (p,).

    Returns:
        (p, 12, 12), start nodes (p,), end nodes (p,).
    """
    frame, k = model.frame, model.k
    split = len(frame.straights.start)
    straight, arc = members[members < split], members[members >= split] - split
    end = np.concatenate([end_stiffness(k, straight), model.arcs.end[arc]])
    start_arm = np.concatenate([k.chord.T[straight], model.arcs.chord.T[arc]])
    end_arm = np.zeros_like(start_arm)
    if frame.straights.start_offset is not None:
        start_arm[: len(straight)] += frame.straights.start_offset[straight]
    if frame.straights.end_offset is not None:
        end_arm[: len(straight)] += frame.straights.end_offset[straight]
    start = np.concatenate([frame.straights.start[straight], frame.arcs.start[arc]])
    finish = np.concatenate([frame.straights.end[straight], frame.arcs.end[arc]])

    way = np.zeros((len(end), 6, 12))
    way[:, :3, :3] = way[:, 3:, 3:6] = -np.eye(3)
    way[:, :3, 3:6] = cross_matrices(start_arm)
    way[:, :3, 6:9] = way[:, 3:, 9:] = np.eye(3)
    way[:, :3, 9:] = -cross_matrices(end_arm)
    _rotate_columns(way, model, start, finish)
    return way.transpose(0, 2, 1) @ end @ way, start, finish


def _rotate_columns(way: Floats, model: Model, start: Integers, finish: Integers) -> None:
    """Turn the columns of (p, 6, 12) operators into the axes of rotated nodes."""
    place = np.full(len(model.frame.points), -1)
    place[model.rotated] = np.arange(len(model.rotated))
    for nodes, first in ((start, 0), (finish, 6)):
        which = np.flatnonzero(place[nodes] >= 0)
        local_to_global = model.rotation[place[nodes[which]]].transpose(0, 2, 1)
        for shift in (first, first + 3):
            way[which, :, shift : shift + 3] = way[which, :, shift : shift + 3] @ local_to_global


def _add_general(band: Floats, model: Model) -> None:
    """Add every member by its 12 x 12 matrix, in bounded pieces."""
    count, width = model.frame.member_count, band.shape[1]
    flat = band.reshape(-1)
    for first in range(0, count, _PIECE):
        matrices, start, finish = member_operators(model, np.arange(first, min(first + _PIECE, count)))
        unknown = np.concatenate([6 * start[:, None] + np.arange(6), 6 * finish[:, None] + np.arange(6)], axis=1)
        rows, columns = np.broadcast_arrays(unknown[:, :, None], unknown[:, None, :])
        lower = rows >= columns
        np.add.at(flat, columns[lower] * width + rows[lower] - columns[lower], matrices[lower])


def _finish(band: Floats, model: Model) -> None:
    """Add springs, then remove held unknowns: ones on the diagonal, zeros in their rows and columns."""
    band[:, 0] += model.spring.reshape(-1)
    gone = np.flatnonzero(model.held.reshape(-1))
    band[gone, 1:] = 0.0
    for step in range(1, band.shape[1]):
        above = gone[gone >= step] - step
        band[above, step] = 0.0
    band[gone, 0] = 1.0
