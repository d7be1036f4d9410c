"""The matrix: symmetric, the same either way, solved alike by others.     (tests/unit/mechanics/test_assembly.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.linalg import solveh_banded
from scipy.sparse import coo_array
from scipy.sparse.csgraph import reverse_cuthill_mckee
from scipy.sparse.linalg import spsolve
from tests.unit.mechanics.builders import ANCHOR, answer, arcs, chain, nodal, rotation, straights, supports

from takeup.mechanics import Frame
from takeup.mechanics.assembly import NO_LINKS, _finish, add_members, assemble, member_operators
from takeup.mechanics.model import make_model

GUIDE = (False, True, True, False, False, False)


def random_chain(members, seed=3):
    """Return a random space chain with members of very different stiffness, guided here and there."""
    random = np.random.default_rng(seed)
    points = np.cumsum(random.normal(size=(members + 1, 3)), axis=0)
    frame = chain(points, {0: ANCHOR, members // 2: GUIDE, members: ANCHOR}, springs={members // 2: [3e4] + [0] * 5})
    factors = np.exp(random.normal(size=(3, members)))
    line = frame.straights
    line = replace(
        line, axial=line.axial * factors[0], bending=line.bending * factors[1], torsion=line.torsion * factors[2]
    )
    return replace(frame, straights=line)


def with_everything():
    """Return a frame with arcs, a branch, rigid links and a rotated hold: every way into the matrix."""
    points = np.array([[0.0, 0, 0], [2, 0, 0], [3, 1, 0], [3, 4, 0], [3, 5, 1], [6, 6, 2], [3, 4, 5]])
    line = straights([0, 2, 3, 4, 3], [1, 3, 4, 5, 6])
    link = np.zeros((5, 3))
    link[3] = [0.0, 0.2, -0.1]
    return Frame(
        points=points,
        straights=replace(line, start_offset=link, end_offset=0.5 * link),
        arcs=arcs([1], [2], [[1.0, 0, 0]], 1.0),
        supports=supports(
            {0: ANCHOR, 4: GUIDE, 6: (True, True, True, False, False, True)}, axes={4: rotation((0.2, 0.5, 0.9)).T}
        ),
    )


def whole_matrix(frame):
    """Return the full matrix and the unknowns that are free, from the 12 x 12 matrices of the members alone."""
    model = make_model(frame)
    matrices, start, end = member_operators(model, np.arange(frame.member_count))
    unknown = np.concatenate([6 * start[:, None] + np.arange(6), 6 * end[:, None] + np.arange(6)], axis=1)
    rows, columns = np.broadcast_arrays(unknown[:, :, None], unknown[:, None, :])
    size = 6 * len(frame.points)
    matrix = coo_array((matrices.ravel(), (rows.ravel(), columns.ravel())), shape=(size, size)).tolil()
    for row, rate in zip(model.sprung, model.rate, strict=True):  # only in tests with global axes at sprung nodes
        place = 6 * frame.supports.node[row] + np.arange(6)
        matrix[place, place] += rate
    free = np.ones(size, dtype=bool)
    free[6 * model.held[0] + model.held[1]] = False
    return matrix.tocsc(), free


def full(band, links):
    """Return the full symmetric matrix of a band and its links."""
    size, width = band.shape
    matrix = np.zeros((size, size))
    for below in range(width):
        index = np.arange(size - below)
        matrix[index + below, index] = matrix[index, index + below] = band[: size - below, below]
    for low, high, block in zip(*links, strict=True):
        rows, columns = 6 * high + np.arange(6), 6 * low + np.arange(6)
        matrix[np.ix_(rows, columns)] += block
        matrix[np.ix_(columns, rows)] += block.T
    return matrix


@pytest.mark.parametrize("members", [1, 2, 63, 64, 65, 1023, 1024, 2100])
def test_assembly_product_equals_member_by_member(members):
    """A run as a matrix product against 12 x 12 matrices added up; sizes on and off the edges of batches and pieces.

    Both add the same few terms in another order: a few times 1e-16 of the largest entry.
    """
    model = make_model(random_chain(members))
    band, links = assemble(model)
    other = np.zeros_like(band)
    add_members(other, model, np.arange(members))
    _finish(other, NO_LINKS, model)
    assert len(links.low) == 0
    assert np.abs(band - other).max() < 4e-16 * np.abs(other).max()


def test_assembly_runs_between_arcs_and_branches():
    """The mixed frame against the sum of its members' matrices, held rows struck out."""
    frame = with_everything()
    band, links = assemble(make_model(frame))
    assert (links.low.tolist(), links.high.tolist()) == ([3], [6])  # the branch; all others join neighbours
    matrix, free = whole_matrix(frame)
    expected = np.where(np.outer(free, free), matrix.toarray(), np.eye(len(free)) * ~free)
    assert np.abs(full(band, links) - expected).max() < 4e-16 * np.abs(expected).max()


def test_assembly_matrix_is_symmetric_and_resists_no_rigid_motion():
    """K = K^T to the last bits; K times a rigid motion is rounding of the largest entry (motions are of order ten)."""
    frame = replace(with_everything(), supports=supports({}))
    matrix = whole_matrix(frame)[0].toarray()
    assert np.abs(matrix - matrix.T).max() < 4e-16 * np.abs(matrix).max()
    turns = np.eye(3)
    for turn in turns:
        rigid = np.concatenate([np.cross(turn, frame.points), np.tile(turn, (len(frame.points), 1))], axis=1).ravel()
        assert np.abs(matrix @ rigid).max() < 1e-14 * np.abs(matrix).max()
    for shift in turns:
        rigid = np.concatenate([np.tile(shift, (len(frame.points), 1)), np.zeros((len(frame.points), 3))], axis=1)
        assert np.abs(matrix @ rigid.ravel()).max() < 1e-14 * np.abs(matrix).max()


@pytest.mark.parametrize("frame", [random_chain(40), with_everything()], ids=["chain", "mixed"])
def test_assembly_other_solvers_find_the_same(frame):
    """Sparse LU (SuperLU), and band Cholesky after reverse Cuthill-McKee, on K from the members' matrices.

    Three roundings of condition numbers up to 1e5: 1e-9 leaves two figures.
    """
    random = np.random.default_rng(5)
    load = random.normal(size=(len(frame.points), 6)) * 1e3
    matrix, free = whole_matrix(frame)
    model = make_model(frame)
    turned = load.copy()
    for node, axes in zip(model.rotated, model.rotation, strict=True):
        turned[node] = np.concatenate([axes[0] @ load[node, :3], axes[1] @ load[node, 3:]])
    inside, right = matrix[free][:, free], turned.ravel()[free]

    order = reverse_cuthill_mckee(inside.tocsr(), symmetric_mode=True)
    shuffled = inside[order][:, order].toarray()
    width = int(np.abs(np.subtract(*np.nonzero(shuffled))).max())
    band = np.array([np.pad(np.diagonal(shuffled, -below), (0, below)) for below in range(width + 1)])
    by_rcm = np.empty(len(right))
    by_rcm[order] = solveh_banded(band, right[order], lower=True)

    found = answer(frame, nodal(frame, dict(enumerate(load)))).displacements[0].copy()
    for node, axes in zip(model.rotated, model.rotation, strict=True):
        found[node] = np.concatenate([axes[0] @ found[node, :3], axes[1] @ found[node, 3:]])
    for other in (spsolve(inside, right), by_rcm):
        assert found.ravel()[free] == pytest.approx(other, rel=1e-9, abs=1e-9 * np.abs(other).max())
    assert found.ravel()[~free] == pytest.approx(0.0, abs=1e-15)
