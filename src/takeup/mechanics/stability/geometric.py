"""Geometric stiffness: what the force in a member does when the member turns.     (mechanics/stability/geometric.py)

A length ds that carries S and turns by theta across its tangent t grows by theta^2/2 ds, second order, so that

    V = S/2 integral( theta^T (I - t t^T) theta ds )          K_G = second derivative of V, symmetric

theta is the rotation of the member's own static shape: a cubic between straight ends, the exact curve of an arc. For a
straight member, with P = I - e e^T, in the blocks of straight.py:

    push = 6S/5L P,  shear = S/10 [e x],  near = 2SL/15 P,  far = -SL/30 P         (consistent; any book on stability)

which is free of twist and stretch. A rigid link o in line with the force is a length of line too: S (e.o) P on its
node's rotation. A rod between two points gives T/L P on what they move apart. Pressure follows the wall by itself
when S is the effective force: its potential is that of length, -P A L. Proof and limits: docs/theory/stability.md.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from takeup.mechanics.frame import Floats, Integers
from takeup.mechanics.model import Model
from takeup.mechanics.ordering import Numbering
from takeup.mechanics.straight import cross_matrices

_GAUSS, _WEIGHT = np.polynomial.legendre.leggauss(16)


@dataclass(frozen=True, kw_only=True, slots=True)
class Links:
    """Rods and rigid links that pull or push between two points, l of them; only their force is told, no stiffness.

    Args:
        start: first node of each, (l,).
        end: second node of each, (l,).
        start_arm: from the first node to the point where the rod begins, (l, 3) [m].
        end_arm: from the second node to the point where it ends, (l, 3) [m].
        force: T, tension positive, (l,) [N].
    """

    start: Integers
    end: Integers
    start_arm: Floats
    end_arm: Floats
    force: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Geometric:
    """Geometric stiffness block by block, before holds: `block` (q, 12, 12) between nodes `start` and `end` (q,).

    In the model's numbering; members first, in its order, then links.
    """

    start: Integers
    end: Integers
    block: Floats


def geometric_stiffness(
    model: Model, force: Floats, numbering: Numbering | None = None, links: Links | None = None
) -> Geometric:
    """Return the geometric stiffness of all members and links, global axes.

    Args:
        model: the model.
        force: S of each member in the caller's order, tension positive, (members,) [N].
        numbering: the inner numbering, where there is one.
        links: rods and links, in the caller's numbering.
    """
    frame, inner = model.frame, force if numbering is None else force[numbering.member]
    split = len(frame.straights.start)
    start, end = [frame.straights.start, frame.arcs.start], [frame.straights.end, frame.arcs.end]
    blocks = [straight_blocks(model, inner[:split]), arc_blocks(model, inner[split:])]
    if links is not None:
        if numbering is not None:
            links = replace(links, start=numbering.place[links.start], end=numbering.place[links.end])
        start.append(links.start)
        end.append(links.end)
        blocks.append(link_blocks(frame.points, links))
    return Geometric(start=np.concatenate(start), end=np.concatenate(end), block=np.concatenate(blocks))


def straight_blocks(model: Model, force: Floats) -> Floats:
    """Return K_G of straight members for the unknowns of both nodes, (m, 12, 12), global axes.

    Args:
        model: the model.
        force: S of each straight, tension positive, (m,) [N].
    """
    k, members = model.k, model.frame.straights
    e = np.ascontiguousarray(k.axis[:3].T)
    length = k.length[:, None, None]
    across = force[:, None, None] * (np.eye(3) - e[:, :, None] * e[:, None, :])
    push, shear = (1.2 / length) * across, 0.1 * force[:, None, None] * cross_matrices(e)
    block = np.empty((len(force), 12, 12))
    block[:, :3, :3] = block[:, 6:9, 6:9] = push
    block[:, :3, 6:9] = block[:, 6:9, :3] = -push
    block[:, 3:6, 3:6] = block[:, 9:, 9:] = (2.0 / 15.0 * length) * across
    block[:, 3:6, 9:] = block[:, 9:, 3:6] = (-1.0 / 30.0 * length) * across
    block[:, 3:6, :3] = block[:, 9:, :3] = block[:, 6:9, 3:6] = block[:, 6:9, 9:] = shear
    block[:, :3, 3:6] = block[:, :3, 9:] = block[:, 3:6, 6:9] = block[:, 9:, 6:9] = -shear
    if members.start_offset is not None or members.end_offset is not None:
        none = np.zeros_like(e)
        before = none if members.start_offset is None else members.start_offset
        beyond = none if members.end_offset is None else members.end_offset
        block = _through_arms(block, before, beyond)
        block[:, 3:6, 3:6] += np.einsum("mi,mi->m", e, before)[:, None, None] * across
        block[:, 9:, 9:] -= np.einsum("mi,mi->m", e, beyond)[:, None, None] * across
    return block


def _through_arms(block: Floats, start_arm: Floats, end_arm: Floats) -> Floats:
    """Return A^T block A, (q, 12, 12): from the tips of rigid arms to the nodes; a tip moves u - arm x turn."""
    way = np.tile(np.eye(12), (len(block), 1, 1))
    way[:, :3, 3:6], way[:, 6:9, 9:] = -cross_matrices(start_arm), -cross_matrices(end_arm)
    return np.asarray(way.swapaxes(1, 2) @ block @ way)


def arc_blocks(model: Model, force: Floats) -> Floats:
    """Return K_G of arcs for the unknowns of both nodes, (a, 12, 12), global axes.

        theta(s) = theta_start + integral( Cm (M + r x F) ds ),     F and M at the end from the arc's own stiffness

    Args:
        model: the model.
        force: S of each arc, along its tangent, tension positive, (a,) [N].
    """
    arcs, k = model.frame.arcs, model.arcs
    if len(force) == 0:
        return np.zeros((0, 12, 12))
    chord, radius = k.chord.T, arcs.radius[:, None]
    angle = k.length[:, None] / radius
    across = chord - np.sin(angle) * radius * arcs.entry
    across /= np.linalg.norm(across, axis=1)[:, None]
    where = (angle * (0.5 + 0.5 * _GAUSS))[..., None]  # (a, g, 1)
    sine, cosine = np.sin(where), np.cos(where)
    entry, normal = arcs.entry[:, None, :], across[:, None, :]
    tangent = cosine * entry + sine * normal
    arm = chord[:, None, :] - radius[..., None] * (sine * entry + (1.0 - cosine) * normal)

    along = tangent[..., :, None] * tangent[..., None, :]
    bending, torsion = (1.0 / values[:, None, None, None] for values in (arcs.bending, arcs.torsion))
    soft = bending * np.eye(3) + (torsion - bending) * along
    lever = cross_matrices(arm.reshape(-1, 3)).reshape(along.shape)
    turned = np.concatenate([soft @ lever, soft], axis=3)  # per length, by a force and a moment at the end
    summed = np.einsum("gh,ahij->agij", _sums_to_gauss(), turned) * (0.5 * k.length)[:, None, None, None]

    gap = np.zeros((len(force), 6, 12))
    gap[:, :, 6:] = np.eye(6)
    gap[:, :, :6] = -np.eye(6)
    gap[:, :3, 3:6] = cross_matrices(chord)
    shape = summed @ (k.end @ gap)[:, None]
    shape[..., 3:6] += np.eye(3)
    weight = (force * 0.5 * k.length)[:, None] * _WEIGHT
    bent = shape - along @ shape
    return np.asarray(np.einsum("ag,agij,agik->ajk", weight, bent, shape))


def _sums_to_gauss() -> Floats:
    """Return the matrix that integrates from -1 to each Gauss point what is known at the Gauss points, (g, g)."""
    count = len(_GAUSS)
    powers = np.polynomial.legendre.legvander(_GAUSS, count)  # P_0..P_g at the points
    order = np.arange(count)
    coefficients = (2.0 * order[:, None] + 1.0) / 2.0 * powers[:, :count].T * _WEIGHT  # of each Lagrange polynomial
    below = np.hstack([-np.ones((count, 1)), powers[:, : count - 1]])  # P_-1 of the antiderivative is -1
    antiderivative = (powers[:, 1:] - below) / (2.0 * order + 1.0)
    return np.asarray(antiderivative @ coefficients)


def link_blocks(points: Floats, links: Links) -> Floats:
    """Return K_G of rods and links for the unknowns of both nodes, (l, 12, 12), global axes.

    Args:
        points: node positions, (n, 3) [m].
        links: in the numbering of the points.
    """
    line = (points[links.end] + links.end_arm) - (points[links.start] + links.start_arm)
    length = np.linalg.norm(line, axis=1)
    n = line / length[:, None]
    across = links.force[:, None, None] * (np.eye(3) - n[:, :, None] * n[:, None, :])
    push = across / length[:, None, None]
    block = np.zeros((len(n), 12, 12))
    block[:, :3, :3] = block[:, 6:9, 6:9] = push
    block[:, :3, 6:9] = block[:, 6:9, :3] = -push
    block = _through_arms(block, links.start_arm, links.end_arm)
    block[:, 3:6, 3:6] += np.einsum("mi,mi->m", n, links.start_arm)[:, None, None] * across
    block[:, 9:, 9:] -= np.einsum("mi,mi->m", n, links.end_arm)[:, None, None] * across
    return block


def in_own_axes(model: Model, geometric: Geometric) -> Geometric:
    """Return the same with the unknowns of rotated nodes in their own axes."""
    if len(model.rotated) == 0:
        return geometric
    place = np.full(len(model.frame.points), -1)
    place[model.rotated] = np.arange(len(model.rotated))
    way = np.tile(np.eye(12), (len(geometric.block), 1, 1))
    for first, nodes in ((0, geometric.start), (6, geometric.end)):
        which = np.flatnonzero(place[nodes] >= 0)
        rotation = model.rotation[place[nodes[which]]]
        for kind, at in enumerate((first, first + 3)):
            way[which, at : at + 3, at : at + 3] = rotation[:, kind]
    return replace(geometric, block=np.asarray(way @ geometric.block @ way.swapaxes(1, 2)))


def geometric_forces(geometric: Geometric, moved: Floats) -> Floats:
    """Return the end forces that turned members need, K_G u, (2, 6, c, q), global axes: at start, at end.

    Args:
        geometric: in global axes.
        moved: displacements, (6, c, n).
    """
    both = np.concatenate([moved[:, :, geometric.start], moved[:, :, geometric.end]])
    forces = geometric.block @ both.transpose(2, 0, 1)  # (q, 12, c)
    return np.ascontiguousarray(forces.transpose(1, 2, 0)).reshape(2, 6, moved.shape[1], len(forces))
