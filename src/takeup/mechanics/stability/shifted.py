"""K and K_G as sparse matrices, and the factor of K + sigma K_G that also counts.     (mechanics/stability/shifted.py)

Sylvester: the number of negative pivots of K + sigma K_G is the number of its negative eigenvalues, and that is the
number of load factors between zero and sigma, since each of them takes one eigenvalue through zero and none comes back.
Pivots stay on the diagonal (SuperLU, symmetric mode), so they are those of L D L^T; nothing bounds their growth, so a
solve with a known answer shows whether the factor belongs to the matrix.
"""

from __future__ import annotations

from typing import NamedTuple, Protocol, cast

import numpy as np
from scipy.sparse import coo_array, csc_array  # type: ignore[import-untyped]  # SciPy carries no types
from scipy.sparse.linalg import splu  # type: ignore[import-untyped]  # the same

from takeup.mechanics.assembly import assemble
from takeup.mechanics.frame import Floats, Integers
from takeup.mechanics.model import Model
from takeup.mechanics.stability.geometric import Geometric, in_own_axes

_TRUE = 1e-6  # relative error of a known answer above which a factor is not believed: its signs need far less


class Sparse(Protocol):
    """What this room asks of a sparse matrix."""

    def __matmul__(self, columns: Floats) -> Floats: ...

    def __add__(self, other: Sparse) -> Sparse: ...

    def __mul__(self, by: float) -> Sparse: ...


class _Solver(Protocol):
    def solve(self, right: Floats) -> Floats: ...


class Shifted(NamedTuple):
    """The factor of K + sigma K_G: how many load factors lie `below` sigma, and its solver."""

    lu: _Solver
    below: int

    def solve(self, rows: Floats) -> Floats:
        """Return (K + sigma K_G)^-1 of rows, (c, unknowns)."""
        return np.ascontiguousarray(self.lu.solve(np.ascontiguousarray(rows.T)).T)


def elastic_matrix(model: Model) -> Sparse:
    """Return K, springs included, ones on the diagonal of held unknowns.

    Args:
        model: the model.
    """
    band, links = assemble(model)
    size = len(band)
    column, beyond = np.nonzero(band)
    value = band[column, beyond]
    aside = beyond > 0
    rows, columns = _unknowns(links.high, links.low)
    there = links.block.ravel() != 0.0
    row, column, value = (
        np.concatenate(parts)
        for parts in (
            (column + beyond, column[aside], rows[there], columns[there]),
            (column, (column + beyond)[aside], columns[there], rows[there]),
            (value, value[aside], links.block.ravel()[there], links.block.ravel()[there]),
        )
    )
    return cast("Sparse", coo_array((value, (row, column)), shape=(size, size)).tocsc())


def _unknowns(first: Integers, second: Integers) -> tuple[Integers, Integers]:
    """Return row and column of every entry of 6 x 6 blocks between nodes, flat."""
    row, column = np.broadcast_arrays(
        6 * first[:, None, None] + np.arange(6)[:, None], 6 * second[:, None, None] + np.arange(6)
    )
    return row.ravel(), column.ravel()


def geometric_matrix(model: Model, geometric: Geometric) -> Sparse:
    """Return K_G with zeros in the rows and columns of held unknowns.

    Args:
        model: the model.
        geometric: its blocks, global axes.
    """
    geometric = in_own_axes(model, geometric)
    size = 6 * len(model.frame.points)
    free = np.ones(size, dtype=bool)
    free[6 * model.held[0] + model.held[1]] = False
    own = np.concatenate(
        [6 * nodes[:, None] + np.arange(6) for nodes in (geometric.start, geometric.end)], axis=1
    )  # (q, 12)
    there = (geometric.block != 0.0) & free[own][:, :, None] & free[own][:, None, :]
    member, row, column = np.nonzero(there)
    place = own[member, row], own[member, column]
    return cast("Sparse", coo_array((geometric.block[there], place), shape=(size, size)).tocsc())


def factor_shifted(elastic: Sparse, geometric: Sparse, shift: float) -> Shifted | None:
    """Return the factor of K + shift K_G; None where it is singular or its pivots are not to be believed.

    Args:
        elastic: K.
        geometric: K_G.
        shift: sigma, load factor.
    """
    matrix = cast("csc_array", elastic + geometric * shift)
    try:
        lu = splu(
            matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True}, panel_size=1
        )
    except RuntimeError:  # "Factor is exactly singular"
        return None
    known = np.cos(np.arange(matrix.shape[0]))  # any vector without a pattern of the members'
    push = matrix @ known
    found = lu.solve(push)
    wrong = np.abs(matrix @ found - push).max() / max(float(np.abs(push).max()), np.finfo(float).tiny)
    if not wrong <= _TRUE or (lu.perm_r != lu.perm_c).any():
        return None
    return Shifted(lu, int((lu.U.diagonal() < 0.0).sum()))
