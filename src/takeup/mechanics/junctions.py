"""Chains that meet at junctions: eliminate the chains, solve the junctions, go back.     (mechanics/junctions.py)

With the chains' matrix A = U^T U (a band), the junctions' C and the coupling B between them,

    W = U^-T B;   S = C - W^T W;   z = U^-T b;   S x_j = b_j - W^T z;   x = U^-1 (z - W x_j)

which is Cholesky of the whole in another order: as stable, and its pivots are those of U and of S. A chain meets at
most two junctions. Where it does so with its last node, W is one block; where with another, W runs on to the end of the
chain (it "fills in"): six right-hand sides for all such chains at once. S is sparse, one block for each two junctions
that a chain or a member joins, and goes to SuperLU. A tree has S with the pattern of a tree, so nothing ever fills.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.assembly import Links
from takeup.mechanics.cholesky import solve_backward, solve_forward
from takeup.mechanics.frame import Flags, Floats, Integers
from takeup.mechanics.sparse import SparseFactor, factor_sparse


class Couplings(NamedTuple):
    """Couplings of chains to junctions: the chain's `node` (q,), the `junction` (q,), K between them (q, 6, 6)."""

    node: Integers
    junction: Integers
    block: Floats


class Junctions(NamedTuple):
    """The junctions, factorised.

    Args:
        sparse: factor of S.
        begins: first node of each chain that fills in, (f,).
        far: junction of each node of those chains, (filling,).
        run: W at those nodes, (filling, 6, 6).
        node: chain node of the couplings that do not fill, (q,).
        near: their junctions, (q,).
        stub: W there, (q, 6, 6).
    """

    sparse: SparseFactor
    begins: Integers
    far: Integers
    run: Floats
    node: Integers
    near: Integers
    stub: Floats


def factor_junctions(band: Floats, links: Links, own: Floats, chain: Integers, filling: int) -> Junctions | int:
    """Return the factorised junctions, or the unknown among theirs where a pivot is lost.

    Args:
        band: factor U of the chains, (6 nodes of chains, 12).
        links: blocks outside the band.
        own: the junctions' own blocks, (j, 6, 6).
        chain: chain of each node of chains.
        filling: number of nodes of chains that fill in.
    """
    chained = len(chain)
    outer = links.low < chained
    touch = Couplings(links.low[outer], links.high[outer] - chained, links.block[outer].swapaxes(1, 2))
    fills = _which_fill(touch.node, chain)
    begins = np.flatnonzero(np.diff(chain[:filling], prepend=-1))
    near, far = _chosen(touch, ~fills), _chosen(touch, fills)
    by_chain = np.empty(len(begins), dtype=np.int64)
    by_chain[chain[far.node]] = far.junction
    stub = np.asarray(np.linalg.solve(_own_factor(band, near.node), near.block), dtype=np.float64)
    run = _run(band[: 6 * filling], far)

    direct = Links(links.low[~outer] - chained, links.high[~outer] - chained, links.block[~outer])
    joined = near.node < filling  # the chain's other end fills in: it joins two junctions
    across = -stub[joined].swapaxes(1, 2) @ run[near.node[joined]]  # rows: the near junction
    near_to = by_chain[chain[near.node[joined]]]
    low = np.concatenate([direct.low, near_to])
    high = np.concatenate([direct.high, near.junction[joined]])
    aside = np.concatenate([direct.block, across])
    self_blocks = [own, -stub.swapaxes(1, 2) @ stub, -np.add.reduceat(run.swapaxes(1, 2) @ run, begins, axis=0)]
    place = np.concatenate([np.arange(len(own)), near.junction, by_chain])
    rows, columns = np.concatenate([place, high, low]), np.concatenate([place, low, high])
    blocks = np.concatenate([*self_blocks, aside, aside.swapaxes(1, 2)])
    sparse = factor_sparse(6 * len(own), 6 * rows, 6 * columns, blocks)
    if isinstance(sparse, int):
        return sparse
    return Junctions(sparse, begins, by_chain[chain[:filling]], run, near.node, near.junction, stub)


def _chosen(couplings: Couplings, flags: Flags) -> Couplings:
    return Couplings(couplings.node[flags], couplings.junction[flags], couplings.block[flags])


def _which_fill(node: Integers, chain: Integers) -> Flags:
    """Return which couplings fill in, (q,): all but those of a chain's last node, and of two there all but one."""
    last = np.append(np.diff(chain) != 0, np.ones(min(len(chain), 1), dtype=bool))
    _, one = np.unique(node, return_index=True)
    fills = np.ones(len(node), dtype=bool)
    fills[one] = ~last[node[one]]
    return fills


def _own_factor(band: Floats, node: Integers) -> Floats:
    """Return the lower triangle U^T of nodes' own unknowns, (q, 6, 6)."""
    lower = np.zeros((len(node), 6, 6))
    row, column = np.tril_indices(6)
    lower[:, row, column] = band[6 * node[:, None] + row, 11 + column - row]
    return lower


def _run(band: Floats, far: Couplings) -> Floats:
    """Return U^-T B of the couplings that fill in, (filling, 6, 6)."""
    right = np.zeros((6, len(band) // 6, 6))
    right[:, far.node] = far.block.transpose(2, 0, 1)
    if len(band):
        right = solve_forward(band, right.reshape(6, -1)).reshape(right.shape)
    return np.ascontiguousarray(right.transpose(1, 2, 0))


def solve_junctions(band: Floats, junctions: Junctions, right: Floats) -> Floats:
    """Return K^-1 b, (c, n, 6); `right` is overwritten.

    Args:
        band: factor U of the chains.
        junctions: the junctions.
        right: right-hand sides, (c, n, 6), in the inner numbering.
    """
    cases, chained = len(right), len(band) // 6
    z = np.ascontiguousarray(right[:, :chained])
    if chained:
        z = solve_forward(band, z.reshape(cases, -1)).reshape(z.shape)
    filled = z[:, : len(junctions.far)]
    rest = right[:, chained:].copy()
    by_node = rest.transpose(1, 0, 2)  # a view
    pushed = _times(junctions.stub.swapaxes(1, 2), z[:, junctions.node])
    np.subtract.at(by_node, junctions.near, pushed.transpose(1, 0, 2))
    if len(junctions.begins):
        sums = np.add.reduceat(_times(junctions.run.swapaxes(1, 2), filled), junctions.begins, axis=1)
        np.subtract.at(by_node, junctions.far[junctions.begins], sums.transpose(1, 0, 2))
    there = junctions.sparse.solve(rest.reshape(cases, -1).T).T.reshape(rest.shape)
    filled -= _times(junctions.run, there[:, junctions.far])
    z[:, junctions.node] -= _times(junctions.stub, there[:, junctions.near])
    right[:, chained:] = there
    right[:, :chained] = solve_backward(band, z.reshape(cases, -1)).reshape(z.shape) if chained else z
    return right


def _times(blocks: Floats, vectors: Floats) -> Floats:
    """Return blocks (q, 6, 6) times vectors (c, q, 6)."""
    return np.asarray((blocks @ vectors.transpose(1, 2, 0)).transpose(2, 0, 1))
