"""Straight members: a member is cut in its middle, and and the cut has no coupling.     (mechanics/straight.py)

Carry both nodes rigidly to the middle of the member. The gap w that opens there [m] and the turn phi between the two
halves [rad] are all the deformation there is. With the unit axis e, the force F and moment B in the cut are

    F = b w + (a - b) (e.w) e            a = EA/L, b = 12EI/L^3
    B = p phi + (t - p) (e.phi) e        p = EI/L, t = GJ/L

uncoupled, since a beam under a constant moment does not open a gap in its middle. The ends receive F and B - r x F at
the end, -F and -B - s x F at the start; s and r run from start node to middle and from middle to end node. Written out
for s = r = d/2, in global axes and without any rotation matrix, this is the textbook stiffness

    K_uu = b I + (a - b) e e^T           near translation
    K_ut = c [e x]                       c = 6EI/L^2
    K_tt = 4p I + (t - 4p) e e^T         near rotation
    K_tt'= 2p I - (t + 2p) e e^T         far rotation

(Euler-Bernoulli beam; Przemieniecki, Theory of Matrix Structural Analysis, 1968, section 5.6, from memory.) Proof and
limits: docs/theory/members.md. Arrays hold one component for all members, contiguous, which makes 100 000 members
cheap. A vector is kept cyclic where it enters cross products, as x, y, z, x, y: a cross product is then two products
of slices.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.frame import Floats, Index, Straights


class Stiffness(NamedTuple):
    """Coefficients of m straight members, as in the module header.

    `axis` is e, cyclic, (5, m); `chord` d (3, m) [m]; `start_arm` s and `end_arm` r, cyclic, (5, m) [m], the same array
    where there are no rigid links; `across` is b and p, `more_along` a - b and t - p, (2, m) each.
    """

    axis: Floats
    chord: Floats
    start_arm: Floats
    end_arm: Floats
    length: Floats
    across: Floats
    more_along: Floats


def stiffness(points: Floats, members: Straights, ends: tuple[Index, Index]) -> Stiffness:
    """Return the coefficients of every member.

    Args:
        points: node positions, (n, 3) [m].
        members: the straight members.
        ends: their first and second nodes, as an index or a slice.
    """
    place = np.ascontiguousarray(points.T)
    between = place[:, ends[1]] - place[:, ends[0]]
    chord, half = between, 0.5 * between
    start_arm = end_arm = half
    if members.start_offset is not None or members.end_offset is not None:
        before, beyond = _offset(members.start_offset, chord), _offset(members.end_offset, chord)
        chord = between + beyond - before
        start_arm, end_arm = before + 0.5 * chord, 0.5 * chord - beyond
    length = np.sqrt(np.add.reduce(chord * chord, axis=0))
    p = members.bending / length
    across = np.stack([12.0 * p / (length * length), p])
    along = np.stack([members.axial, members.torsion]) / length
    arm = cyclic(start_arm)
    return Stiffness(
        axis=cyclic(chord / length),
        chord=chord,
        start_arm=arm,
        end_arm=arm if start_arm is end_arm else cyclic(end_arm),
        length=length,
        across=across,
        more_along=along - across,
    )


def _offset(offset: Floats | None, like: Floats) -> Floats:
    return np.zeros_like(like) if offset is None else offset.T


def cyclic(vector: Floats) -> Floats:
    """Return a vector's components x, y, z, x, y along the first axis."""
    return np.concatenate([vector, vector[:2]])


def cross(left: Floats, right: Floats) -> Floats:
    """Return the cross product of two cyclic vectors, (5, ...) each, as (3, ...)."""
    product: Floats = left[1:4] * right[2:5]
    product -= left[2:5] * right[1:4]
    return product


def through_the_cut(k: Stiffness, piece: slice, opening: Floats) -> Floats:
    """Return force and moment in the middle of members, (2, 3, c, p) [N], [N m].

    Args:
        k: coefficients of all members.
        piece: p of them.
        opening: gap w and turn phi, (2, 3, c, p) [m], [rad].
    """
    axis = k.axis[:3, None, piece]
    along = np.add.reduce(axis * opening, axis=1)
    along *= k.more_along[:, None, piece]
    passed: Floats = along[:, None] * axis
    passed += k.across[:, None, None, piece] * opening
    return passed


def end_stiffness(k: Stiffness, chosen: Index) -> Floats:
    """Return the 6 x 6 stiffness at the end of the member, its start clamped, of chosen members, (p, 6, 6).

    Args:
        k: coefficients of all members.
        chosen: index of p members.
    """
    e = k.axis[:3, chosen].T
    outer = e[:, :, None] * e[:, None, :]
    one = np.eye(3)
    b, p = k.across[:, chosen, None, None]
    stretch, twist = k.more_along[:, chosen, None, None]
    shear = 0.5 * b * k.length[chosen, None, None] * cross_matrices(e)
    matrix = np.empty((len(e), 6, 6))
    matrix[:, :3, :3] = b * one + stretch * outer
    matrix[:, :3, 3:] = shear
    matrix[:, 3:, :3] = -shear
    matrix[:, 3:, 3:] = 4.0 * p * one + (twist - 3.0 * p) * outer
    return matrix


def cross_matrices(vectors: Floats) -> Floats:
    """Return [v x] for each vector, (p, 3, 3), so that [v x] w = v x w."""
    matrix = np.zeros((len(vectors), 3, 3))
    x, y, z = vectors.T
    matrix[:, 0, 1], matrix[:, 0, 2] = -z, y
    matrix[:, 1, 0], matrix[:, 1, 2] = z, -x
    matrix[:, 2, 0], matrix[:, 2, 1] = -y, x
    return matrix
