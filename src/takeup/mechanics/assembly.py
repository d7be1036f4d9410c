"""From members to the stiffness matrix: a narrow band, and what it does not reach.     (mechanics/assembly.py)

The band is stored by columns, `band[column, row - column]`. What a node's six columns hold, twelve entries each, is a
linear function of 41 numbers: 24 terms of the member that starts there, and 17 of the member that ends there (a
member's first 17 terms make its diagonal blocks, the last seven its rotations between the nodes). A run is therefore

    band of nodes = terms (nodes, 41) x table (41, 72)

a matrix product, written a thousand nodes at a time while they are in the processor's cache. Members
with rigid links or at rotated holds, members that join distant nodes, and arcs take the general way, K = A^T K_end A,

    A = [-T(w_i), T(w_j)],  T(w) = [I, -[w x]; 0, I],   w_i = offset + chord, w_j = offset

which is also how rigid links are eliminated: no slave node ever exists. Proof and limits: docs/theory/members.md.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

import numpy as np

from takeup.mechanics.frame import Flags, Floats, Index, Integers
from takeup.mechanics.model import Model, as_slice
from takeup.mechanics.straight import Stiffness, cross_matrices, end_stiffness
from takeup.mechanics.supports import spring_blocks

_TERMS = 24  # b; (a - b) e e^T; c e; 4p; (t - 4p) e e^T; 2p; (t + 2p) e e^T: 1 + 6 + 3 + 1 + 6 + 1 + 6
_AT_END = 17  # the first of them, which its end node has too
_RUN_WIDTH = 12  # entries of a column of a run: rows of its own node from the diagonal on, and of the next node
_BATCH = 64  # nodes a product: BLAS does one this small on one core; two cores would wait for each other
_PIECE = 16 * _BATCH  # nodes a piece: with its terms about a megabyte, which the second-level cache holds


class Links(NamedTuple):
    """Blocks outside the band: nodes `low` < `high`, (q,) each, and K in rows of high, columns of low, (q, 6, 6)."""

    low: Integers
    high: Integers
    block: Floats


NO_LINKS = Links(np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64), np.zeros((0, 6, 6)))


def assemble(model: Model) -> tuple[Floats, Links]:
    """Return the stiffness matrix as `band[column, row - column]` and links; springs included, held unknowns removed.

    Returns:
        (6 n, 12), a held unknown with a one on the diagonal and zeros beside it; and what the band does not reach:
        members that do not join neighbours, or that join junctions.
    """
    runs = _in_runs(model)
    band = _write_runs(model, np.flatnonzero(runs))
    links = NO_LINKS
    if len(runs) < model.frame.member_count or not runs.all():
        arcs = np.arange(len(runs), model.frame.member_count)
        links = add_members(band, model, np.concatenate([np.flatnonzero(~runs), arcs]))
    return band, _finish(band, links, model)


def _in_runs(model: Model) -> Flags:
    """Return which straights may be written as runs, (m,): plain, from a node to the next, starts in order."""
    members = model.frame.straights
    plain = members.end - members.start == 1
    if model.chained < len(model.frame.points):
        plain &= members.end < model.chained
    if not isinstance(model.start, slice):
        plain[1:] &= ~(plain[:-1] & (members.start[1:] <= members.start[:-1]))  # a second member between two nodes
        starts = members.start[plain]
        if (starts[1:] <= starts[:-1]).any():
            plain[:] = False
    if len(model.rotated):
        turned = np.zeros(len(model.frame.points), dtype=bool)
        turned[model.rotated] = True
        plain &= ~(turned[members.start] | turned[members.end])
    for offset in (members.start_offset, members.end_offset):
        if offset is not None:
            plain &= ~offset.any(axis=1)
    return np.asarray(plain)


def _write_runs(model: Model, chosen: Integers) -> Floats:
    """Return the band of chosen straights, written piece by piece; `chosen` is in the order of their start nodes."""
    count = len(model.frame.points)
    starts = model.frame.straights.start[chosen]
    band = np.empty((-(-count // _BATCH) * _BATCH, 6, _RUN_WIDTH))  # whole batches; the last nodes are cut off below
    last = np.zeros(_AT_END)  # terms of the member that ends at the piece's first node
    for first in range(0, len(band), _PIECE):
        nodes = band[first : first + _PIECE]
        low, high = np.searchsorted(starts, (first, first + len(nodes)))
        terms = np.zeros((_TERMS + _AT_END, len(nodes)))
        _write_terms(terms[:_TERMS], as_slice(starts[low:high] - first), model.k, as_slice(chosen[low:high]))
        terms[_TERMS:, 0] = last
        terms[_TERMS:, 1:] = terms[:_AT_END, :-1]
        last = terms[:_AT_END, -1].copy()
        batches = terms.reshape(len(terms), -1, _BATCH).transpose(1, 2, 0)
        np.matmul(batches, _table(), out=nodes.reshape(-1, _BATCH, 6 * _RUN_WIDTH))
    return band[:count].reshape(6 * count, _RUN_WIDTH)


def _write_terms(terms: Floats, here: Index, k: Stiffness, part: Index) -> None:
    """Write the terms of members at the nodes where they start.

    Args:
        terms: (24, nodes).
        here: where the members start.
        k: coefficients of all straights.
        part: the members.
    """
    e = k.axis[:, part]
    squares = np.concatenate([e[:3] * e[:3], e[:3] * e[1:4]])  # xx, yy, zz, xy, yz, zx
    (b, p), (stretch, twist) = k.across[:, part], k.more_along[:, part]
    terms[0, here] = b
    terms[1:7, here] = stretch * squares
    terms[7:10, here] = (0.5 * b * k.length[part]) * e[:3]
    terms[10, here] = 4.0 * p
    terms[11:17, here] = (twist - 3.0 * p) * squares
    terms[17, here] = 2.0 * p
    terms[18:, here] = (twist + 3.0 * p) * squares


@cache
def _table() -> Floats:
    """Return the band entries that a unit of each term makes, (41, 72): at the start node, then at the end node."""
    start, end = np.zeros((_TERMS, 6, _RUN_WIDTH)), np.zeros((_AT_END, 6, _RUN_WIDTH))
    for term, unit in enumerate(np.eye(_TERMS)):
        matrix = _matrix_of_terms(unit)
        for column in range(6):
            start[term, column, : _RUN_WIDTH - column] = matrix[column:, column]
            if term < _AT_END:
                end[term, column, : 6 - column] = matrix[6 + column :, 6 + column]
    return np.concatenate([start, end]).reshape(_TERMS + _AT_END, 6 * _RUN_WIDTH)


def _matrix_of_terms(terms: Floats) -> Floats:
    """Return the 12 x 12 stiffness of a straight member from its 24 terms, as in the header of straight.py."""
    one = np.eye(3)
    push, shear = terms[0] * one + _symmetric(terms[1:7]), cross_matrices(terms[None, 7:10])[0]
    near, far = terms[10] * one + _symmetric(terms[11:17]), terms[17] * one - _symmetric(terms[18:])
    return np.block(
        [
            [push, -shear, -push, -shear],
            [shear, near, -shear, far],
            [-push, shear, push, shear],
            [shear, far, -shear, near],
        ]
    )


def _symmetric(squares: Floats) -> Floats:
    """Return the symmetric 3 x 3 matrix with entries xx, yy, zz, xy, yz, zx."""
    xx, yy, zz, xy, yz, zx = squares
    return np.array([[xx, xy, zx], [xy, yy, yz], [zx, yz, zz]])


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
    chord = np.concatenate([k.chord.T[straight], model.arcs.chord.T[arc]])
    start_offset, end_offset = np.zeros_like(chord), np.zeros_like(chord)
    if frame.straights.start_offset is not None:
        start_offset[: len(straight)] = frame.straights.start_offset[straight]
    if frame.straights.end_offset is not None:
        end_offset[: len(straight)] = frame.straights.end_offset[straight]
    start = np.concatenate([frame.straights.start[straight], frame.arcs.start[arc]])
    finish = np.concatenate([frame.straights.end[straight], frame.arcs.end[arc]])

    way = np.zeros((len(end), 6, 12))
    way[:, :3, :3] = way[:, 3:, 3:6] = -np.eye(3)
    way[:, :3, 3:6] = cross_matrices(start_offset + chord)
    way[:, :3, 6:9] = way[:, 3:, 9:] = np.eye(3)
    way[:, :3, 9:] = -cross_matrices(end_offset)
    _rotate_columns(way, model, start, finish)
    return way.transpose(0, 2, 1) @ end @ way, start, finish


def _rotate_columns(way: Floats, model: Model, start: Integers, finish: Integers) -> None:
    """Turn the columns of (p, 6, 12) operators into the axes of rotated nodes."""
    place = np.full(len(model.frame.points), -1)
    place[model.rotated] = np.arange(len(model.rotated))
    for nodes, first in ((start, 0), (finish, 6)):
        which = np.flatnonzero(place[nodes] >= 0)
        local_to_global = model.rotation[place[nodes[which]]].swapaxes(-1, -2)
        for kind, shift in enumerate((first, first + 3)):
            way[which, :, shift : shift + 3] = way[which, :, shift : shift + 3] @ local_to_global[:, kind]


def add_members(band: Floats, model: Model, members: Integers) -> Links:
    """Add chosen members to the band by their 12 x 12 matrices, in bounded pieces; return what it does not reach."""
    links = []
    for first in range(0, len(members), _PIECE):
        matrices, start, finish = member_operators(model, np.sort(members[first : first + _PIECE]))
        _add_own(band, start, matrices[:, :6, :6])
        _add_own(band, finish, matrices[:, 6:, 6:])
        low, high = np.minimum(start, finish), np.maximum(start, finish)
        forward = (start < finish)[:, None, None]
        block = np.where(forward, matrices[:, 6:, :6], matrices[:, :6, 6:])
        beside = (high - low == 1) & (high < model.chained)
        row, column = np.indices((6, 6)).reshape(2, -1)
        flat = _RUN_WIDTH * (6 * low[beside, None] + column) + 6 + row - column
        np.add.at(band.reshape(-1), flat.ravel(), block[beside].ravel())
        links.append(Links(low[~beside], high[~beside], block[~beside]))
    return Links(*map(np.concatenate, zip(*links, strict=True))) if links else NO_LINKS


def _add_own(band: Floats, node: Integers, blocks: Floats) -> None:
    """Add the lower halves of (p, 6, 6) blocks to nodes' own unknowns; nodes may repeat."""
    row, column = np.tril_indices(6)
    flat = _RUN_WIDTH * (6 * node[:, None] + column) + row - column
    np.add.at(band.reshape(-1), flat.ravel(), blocks[:, row, column].ravel())


def own_blocks(band: Floats) -> Floats:
    """Return the symmetric blocks of nodes' own unknowns from the band of these nodes, (p, 6, 6)."""
    row, column = np.tril_indices(6)
    blocks = np.empty((len(band) // 6, 6, 6))
    lower = band[6 * np.arange(len(blocks))[:, None] + column, row - column]
    blocks[:, row, column] = blocks[:, column, row] = lower
    return blocks


def _finish(band: Floats, links: Links, model: Model) -> Links:
    """Add springs, then remove held unknowns: ones on the diagonal, zeros in their rows and columns."""
    if len(model.sprung):
        _add_own(band, *node_springs(model))
    node, component = model.held
    gone, width = 6 * node + component, band.shape[1]
    band[gone] = np.eye(1, width)
    flat, before = band.reshape(-1), np.arange(1, width)
    row = (width * gone)[:, None] - (width - 1) * before  # places of entry (unknown, unknown - before)
    flat[row[row >= 0]] = 0.0  # the first unknowns have fewer columns before them
    if not len(links.low):
        return links
    free = np.ones((len(model.frame.points), 6))
    free[node, component] = 0.0
    return links._replace(block=links.block * free[links.high][:, :, None] * free[links.low][:, None, :])


def node_springs(model: Model) -> tuple[Integers, Floats]:
    """Return the node of each sprung support, (q,), and its stiffness in the node's own axes, (q, 6, 6)."""
    supports, rows = model.frame.supports, model.sprung
    node = supports.node[rows]
    place = np.full(len(model.frame.points), -1)
    place[model.rotated] = np.arange(len(model.rotated))
    own = np.tile(np.eye(3), (len(node), 2, 1, 1))
    turned = place[node] >= 0
    own[turned] = model.rotation[place[node[turned]]]
    parts = spring_blocks(supports.axes[rows, None] @ own.swapaxes(-1, -2), model.rate)
    blocks = np.zeros((len(node), 6, 6))
    blocks[:, :3, :3], blocks[:, 3:, 3:] = parts[:, 0], parts[:, 1]
    return node, blocks
