"""What the supports of a node hold together, how they move it, and what each of them gives.     (mechanics/supports.py)

One support holds directions n_j of its own axes. Several at one node, N_i = sum of n_j n_j^T over those of support i:

    G = sum N_i = V diag(lambda) V^T        the directions V with lambda > 0 are held, G+ is the pseudo-inverse
    u = G+ sum_j n_j d_j                    the node's movement when what they stand on moves by d_j along n_j
    R_i = N_i G+ R                          the share of support i in the node's reaction R

R_i lies along what support i holds, the shares add up to R (G G+ R = R, since R lies in the held span), and the sum
of the squares of all the components n_j.R is least: two supports that hold one direction share it equally.
Translations and rotations are settled apart, each with its own basis. Springs need none of this: each row keeps its own
axes and adds A^T diag(rate) A. Proof: docs/theory/solver.md.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.frame import Flags, Floats, Integers, Supports

_PARALLEL = 1e-8  # 1 - cos of the angle below which two held directions are one, 1.4e-4 rad: no bracket is truer
_ALIGNED = 1e-12  # axes this near to the global ones are the global ones: directions carry rounding of 1e-16
_AGREE = 1e-9  # of the largest movement: rounding of directions and of what the caller computed


class Shared(NamedTuple):
    """Supports whose node has others: `rows` (d,), `group` (d,) and `inverse` G+ of each group, (g, 2, 3, 3)."""

    rows: Integers
    group: Integers
    inverse: Floats


class Holding(NamedTuple):
    """What is held, each node once: `node` (k,), `axes` as rows (k, 2, 3, 3), `held` (k, 6); and who shares a node.

    The two sets of axes are those of the translations and of the rotations.
    """

    node: Integers
    axes: Floats
    held: Flags
    shared: Shared | None


def settle(supports: Supports) -> Holding:
    """Return what the supports hold, node by node; a node with one support keeps that support's axes.

    Args:
        supports: the supports.
    """
    node, axes = supports.node, np.repeat(supports.axes[:, None], 2, axis=1)
    if (node[1:] > node[:-1]).all():
        return Holding(node, axes, supports.held, None)
    nodes, group, count = np.unique(node, return_inverse=True, return_counts=True)
    crowd = count > 1
    if not crowd.any():
        return Holding(node, axes, supports.held, None)
    rows = np.flatnonzero(crowd[group])
    single = np.flatnonzero(~crowd[group])
    group = (np.cumsum(crowd) - 1)[group[rows]]
    gram = np.zeros((int(crowd.sum()), 2, 3, 3))
    np.add.at(gram, group, _projectors(axes[rows], supports.held[rows]))
    basis, held, inverse = _held_span(gram)
    return Holding(
        node=np.concatenate([node[single], nodes[crowd]]),
        axes=np.concatenate([axes[single], basis]),
        held=np.concatenate([supports.held[single], held]),
        shared=Shared(rows, group, inverse),
    )


def _projectors(axes: Floats, held: Flags) -> Floats:
    """Return N, the sum of n n^T over held directions, of rows with axes (d, 2, 3, 3) and flags (d, 6)."""
    return np.asarray(axes.swapaxes(-1, -2) @ (held.reshape(-1, 2, 3, 1) * axes))


def _held_span(gram: Floats) -> tuple[Floats, Flags, Floats]:
    """Return basis as rows (g, 2, 3, 3), flags (g, 6) and pseudo-inverse (g, 2, 3, 3) of G (g, 2, 3, 3).

    A span of global axes is told in global axes.
    """
    values, vectors = np.linalg.eigh(gram)
    firm = values > _PARALLEL
    across = vectors.swapaxes(-1, -2)
    inverse = (vectors * np.where(firm, 1.0 / np.where(firm, values, 1.0), 0.0)[..., None, :]) @ across
    onto = (vectors * firm[..., None, :]) @ across
    level = (np.minimum(np.abs(onto), np.abs(onto - 1.0)) <= _ALIGNED).all(axis=(-1, -2))
    basis = np.where(level[..., None, None], np.eye(3), across)
    flags = np.where(level[..., None], np.rint(np.diagonal(onto, axis1=-2, axis2=-1)) == 1.0, firm)
    return basis, flags.reshape(-1, 6), inverse


def moved_by(supports: Supports, holding: Holding, imposed: Floats) -> tuple[Integers, Floats, Integers]:
    """Return the nodes that are held, where their supports take them, and where these disagree.

    Args:
        supports: s supports.
        holding: what they hold.
        imposed: movement of what they stand on, in their own axes, (c, s, 6) [m], [rad].

    Returns:
        nodes with a support, (k,); their movement, (6, c, k), global axes; a support that disagrees with others at
        its node, -1 where there is none, (c,).
    """
    told = (imposed * supports.held).reshape(len(imposed), -1, 2, 3)
    by_row = np.einsum("sji,cskj->kics", supports.axes, told)
    shared = holding.shared
    if shared is None:
        return supports.node, by_row.reshape(6, *by_row.shape[2:]), np.full(len(imposed), -1)
    total = np.zeros((2, 3, len(imposed), len(shared.inverse)))
    np.add.at(total.transpose(3, 0, 1, 2), shared.group, by_row[..., shared.rows].transpose(3, 0, 1, 2))
    together = np.einsum("gkij,kjcg->kicg", shared.inverse, total)
    torn = _torn(supports, shared, told[:, shared.rows], together)
    alone = np.ones(len(supports.node), dtype=bool)
    alone[shared.rows] = False
    movement = np.concatenate([by_row[..., alone], together], axis=-1)
    return holding.node, movement.reshape(6, *movement.shape[2:]), torn


def _torn(supports: Supports, shared: Shared, told: Floats, together: Floats) -> Integers:
    """Return a support that disagrees with others at its node, or -1, (c,); rounding of 1e-9 of the largest is allowed.

    Args:
        supports: the supports.
        shared: d of them that share a node.
        told: where each of these would take it, in its own axes, (c, d, 2, 3).
        together: where they take it, (2, 3, c, g), global axes.
    """
    own = np.einsum("sij,kjcs->cski", supports.axes[shared.rows], together[..., shared.group])
    apart = np.abs(own - told) * supports.held[shared.rows].reshape(-1, 2, 3)
    wrong = (apart > _AGREE * np.abs(told).max(axis=(1, 3), keepdims=True)).any(axis=(2, 3))
    return np.where(wrong.any(axis=1), shared.rows[np.argmax(wrong, axis=1)], -1)


def shares(supports: Supports, shared: Shared, reactions: Floats) -> Floats:
    """Return the part of each sharing support in what is held at its node, (6, c, d).

    Args:
        supports: the supports.
        shared: d of them that share a node.
        reactions: what all supports together hold at each group's node, (6, c, g), global axes.
    """
    rows = shared.rows
    own = _projectors(np.repeat(supports.axes[rows, None], 2, axis=1), supports.held[rows])
    parts = reactions.reshape(2, 3, *reactions.shape[1:])[..., shared.group]
    split = np.einsum("dkij,kjcd->kicd", own @ shared.inverse[shared.group], parts)
    return np.asarray(split.reshape(6, *split.shape[2:]))


def spring_blocks(axes: Floats, rate: Floats) -> Floats:
    """Return A^T diag(rate) A of springs, (q, 2, 3, 3): what they add to the translations and to the rotations.

    Args:
        axes: as rows, of the translations and of the rotations, (q, 2, 3, 3).
        rate: (q, 6) [N/m], [N m/rad].
    """
    return np.asarray(axes.swapaxes(-1, -2) @ (rate.reshape(-1, 2, 3, 1) * axes))
