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


class Passed(NamedTuple):
    """W, what the chains pass on to the junctions.

    Args:
        begins: first node of each chain that fills in, (f,).
        far: junction of each node of those chains, (filling,).
        run: W at those nodes, (filling, 6, 6).
        node: chain node of the couplings that do not fill, (q,).
        near: their junctions, (q,).
        stub: W there, (q, 6, 6).
    """

    begins: Integers
    far: Integers
    run: Floats
    node: Integers
    near: Integers
    stub: Floats


class Junctions(NamedTuple):
    """The junctions, factorised: W and the factor of S."""

    passed: Passed
    sparse: SparseFactor


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
    near, far = _chosen(touch, ~fills), _chosen(touch, fills)
    begins = np.flatnonzero(np.diff(chain[:filling], prepend=-1))
    by_chain = np.empty(len(begins), dtype=np.int64)
    by_chain[chain[far.node]] = far.junction
    passed = Passed(
        begins=begins,
        far=by_chain[chain[:filling]],
        run=_run(band[: 6 * filling], far),
        node=near.node,
        near=near.junction,
        stub=np.asarray(np.linalg.solve(_own_factor(band, near.node), near.block), dtype=np.float64),
    )
    direct = Links(links.low[~outer] - chained, links.high[~outer] - chained, links.block[~outer])
    sparse = _factor_reduced(passed, direct, own)
    return sparse if isinstance(sparse, int) else Junctions(passed, sparse)


def _factor_reduced(passed: Passed, direct: Links, own: Floats) -> SparseFactor | int:
    """Return the factor of S = C - W^T W, or the unknown where it lost positive definiteness.

    Args:
        passed: W.
        direct: blocks of C between two junctions.
        own: blocks of C of one junction, (j, 6, 6).
    """
    run, stub, first = passed.run, passed.stub, passed.far[passed.begins]
    joined = passed.node < len(run)  # the chain fills in from its other end: it joins two junctions
    across = -stub[joined].swapaxes(1, 2) @ run[passed.node[joined]]  # rows: the near junction
    low = np.concatenate([direct.low, passed.far[passed.node[joined]]])
    high = np.concatenate([direct.high, passed.near[joined]])
    aside = np.concatenate([direct.block, across])
    alone = [own, -stub.swapaxes(1, 2) @ stub, -np.add.reduceat(run.swapaxes(1, 2) @ run, passed.begins, axis=0)]
    place = np.concatenate([np.arange(len(own)), passed.near, first])
    rows, columns = np.concatenate([place, high, low]), np.concatenate([place, low, high])
    return factor_sparse(6 * len(own), 6 * rows, 6 * columns, np.concatenate([*alone, aside, aside.swapaxes(1, 2)]))


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
    passed, cases, chained = junctions.passed, len(right), len(band) // 6
    z = np.ascontiguousarray(right[:, :chained])
    if chained:
        z = solve_forward(band, z.reshape(cases, -1)).reshape(z.shape)
    filled, rest = z[:, : len(passed.far)], right[:, chained:].copy()
    by_node = rest.transpose(1, 0, 2)  # a view
    pushed = _times(passed.stub.swapaxes(1, 2), z[:, passed.node])
    np.subtract.at(by_node, passed.near, pushed.transpose(1, 0, 2))
    if len(passed.begins):
        sums = np.add.reduceat(_times(passed.run.swapaxes(1, 2), filled), passed.begins, axis=1)
        np.subtract.at(by_node, passed.far[passed.begins], sums.transpose(1, 0, 2))
    there = junctions.sparse.solve(rest.reshape(cases, -1).T).T.reshape(rest.shape)
    filled -= _times(passed.run, there[:, passed.far])
    z[:, passed.node] -= _times(passed.stub, there[:, passed.near])
    right[:, chained:] = there
    right[:, :chained] = solve_backward(band, z.reshape(cases, -1)).reshape(z.shape) if chained else z
    return right


def _times(blocks: Floats, vectors: Floats) -> Floats:
    """Return blocks (q, 6, 6) times vectors (c, q, 6)."""
    return np.asarray((blocks @ vectors.transpose(1, 2, 0)).transpose(2, 0, 1))
