"""The two things of scipy.sparse this room stands on, with their types.     (mechanics/sparse.py)

A walk through a graph, and the sparse factorisation (SuperLU) of what is left when the chains are eliminated. Only this
file, cholesky.py and shifted.py import SciPy.
"""

from __future__ import annotations

from typing import NamedTuple, Protocol, cast

import numpy as np
from scipy.sparse import coo_array  # type: ignore[import-untyped]  # SciPy carries no types
from scipy.sparse.csgraph import connected_components, depth_first_order  # type: ignore[import-untyped]  # the same
from scipy.sparse.linalg import splu  # type: ignore[import-untyped]  # the same

from takeup.mechanics.frame import Floats, Integers


class _Solver(Protocol):
    def solve(self, right: Floats) -> Floats: ...


class SparseFactor(NamedTuple):
    """A factorised symmetric positive definite matrix: `solve` K x = b for columns b; its `pivots`, one an unknown."""

    lu: _Solver
    pivots: Floats

    def solve(self, right: Floats) -> Floats:
        """Return K^-1 of columns, (unknowns, c)."""
        return self.lu.solve(right)


def depth_first(starts: Integers, ends: Integers, rank: Integers) -> Integers:
    """Return the nodes of a graph in the order of a walk that goes on as far as it can, part after part, (n,).

    Args:
        starts: one node of each edge.
        ends: its other node.
        rank: of each node, (n,); the walk enters each part at a node of lowest rank.
    """
    count = len(rank)
    edges = coo_array((np.ones(len(starts)), (starts, ends)), shape=(count, count)).tocsr()
    _, part = connected_components(edges, directed=False)
    by_rank = np.lexsort((rank, part))
    _, first = np.unique(part[by_rank], return_index=True)
    # a root of its own, joined to each part, so that one walk reaches all
    rows, columns = np.concatenate([starts, np.full(len(first), count)]), np.concatenate([ends, by_rank[first]])
    whole = coo_array((np.ones(len(rows)), (rows, columns)), shape=(count + 1, count + 1)).tocsr()
    walk = depth_first_order(whole, count, directed=False, return_predecessors=False)
    return np.asarray(walk[1:], dtype=np.int64)


def factor_sparse(size: int, rows: Integers, columns: Integers, blocks: Floats) -> SparseFactor | int:
    """Return the factor of a symmetric matrix given by blocks, or the unknown where it lost positive definiteness.

    Pivots stay on the diagonal, as in Cholesky: the matrix is symmetric and, if it is any good, positive definite.

    Args:
        size: number of unknowns.
        rows: first row of each block, (b,).
        columns: its first column, (b,).
        blocks: (b, 6, 6), both halves; blocks of one place add.
    """
    row, column = np.broadcast_arrays(
        rows[:, None, None] + np.arange(6)[:, None], columns[:, None, None] + np.arange(6)
    )
    there = blocks != 0.0  # members along the axes leave half of each block empty
    matrix = coo_array((blocks[there], (row[there], column[there])), shape=(size, size)).tocsc()
    try:
        lu = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    except RuntimeError:  # "Factor is exactly singular": SuperLU does not say where
        return size - 1
    pivots = cast("Floats", lu.U.diagonal()[lu.perm_c])
    worst = int(np.argmin(pivots))
    return SparseFactor(lu, pivots) if pivots[worst] > 0.0 else worst
