"""Straight members: stiffness blocks and end forces, component by component.     (mechanics/straight.py)

For a circular section the stiffness of a member in global axes needs no rotation matrix: with the unit axis e,

    K_uu = b I + (a - b) e e^T        a = EA/L, b = 12EI/L^3
    K_ut = c [e x]                    c = 6EI/L^2
    K_tt = g I + (t - g) e e^T        g = 4EI/L, t = GJ/L         (near end)
    K_tt'= h I - (t + h) e e^T        h = 2EI/L                   (far end)

(Textbook Euler-Bernoulli beam, Przemieniecki, Theory of Matrix Structural Analysis, 1968, section 5.6, from memory.)
Arrays hold one component for all members, contiguous, because that is what makes 100 000 members cheap.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.frame import Floats, Straights


class Stiffness(NamedTuple):
    """Coefficients and axes of straight members, each (m,), as in the module header; `chord` is (3, m) [m]."""

    axis: Floats
    chord: Floats
    length: Floats
    a: Floats
    b: Floats
    c: Floats
    g: Floats
    h: Floats
    t: Floats


def stiffness(points: Floats, members: Straights) -> Stiffness:
    """Return the coefficients of every member.

    Args:
        points: node positions, (n, 3) [m].
        members: the straight members.
    """
    begin, finish = points[members.start], points[members.end]
    if members.start_offset is not None:
        begin = begin + members.start_offset
    if members.end_offset is not None:
        finish = finish + members.end_offset
    chord = np.ascontiguousarray((finish - begin).T)
    length = np.sqrt(chord[0] ** 2 + chord[1] ** 2 + chord[2] ** 2)
    per_length = members.bending / length
    b = 12.0 * per_length / length**2
    c = 6.0 * per_length / length
    return Stiffness(
        axis=chord / length,
        chord=chord,
        length=length,
        a=members.axial / length,
        b=b,
        c=c,
        g=4.0 * per_length,
        h=2.0 * per_length,
        t=members.torsion / length,
    )


def end_stiffness(k: Stiffness, chosen: Floats | slice) -> Floats:
    """Return the 6 x 6 stiffness at the end node, start clamped, of chosen members, (p, 6, 6).

    Args:
        k: coefficients of all members.
        chosen: index of p members.
    """
    e = k.axis[:, chosen].T
    outer = e[:, :, None] * e[:, None, :]
    one = np.eye(3)
    a, b, c, g, t = (x[chosen][:, None, None] for x in (k.a, k.b, k.c, k.g, k.t))
    cross = cross_matrices(e)
    matrix = np.empty((len(e), 6, 6))
    matrix[:, :3, :3] = b * one + (a - b) * outer
    matrix[:, :3, 3:] = c * cross
    matrix[:, 3:, :3] = -c * cross
    matrix[:, 3:, 3:] = g * one + (t - g) * outer
    return matrix


def cross_matrices(vectors: Floats) -> Floats:
    """Return [v x] for each vector, (p, 3, 3), so that [v x] w = v x w."""
    matrix = np.zeros((len(vectors), 3, 3))
    x, y, z = vectors.T
    matrix[:, 0, 1], matrix[:, 0, 2] = -z, y
    matrix[:, 1, 0], matrix[:, 1, 2] = z, -x
    matrix[:, 2, 0], matrix[:, 2, 1] = -y, x
    return matrix


def end_forces(k: Stiffness, shift: Floats, turn: Floats) -> Floats:
    """Return force and moment at the end node from the end's movement relative to the clamped start.

    Args:
        k: coefficients of m members.
        shift: v, relative translation less free growth, (3, c, m) [m].
        turn: relative rotation, (3, c, m) [rad].

    Returns:
        (6, c, m) [N], [N m], on the member.
    """
    e = k.axis
    along = e[0] * shift[0] + e[1] * shift[1] + e[2] * shift[2]
    twist = e[0] * turn[0] + e[1] * turn[1] + e[2] * turn[2]
    stretch, twisting = (k.a - k.b) * along, (k.t - k.g) * twist
    force = np.empty((6, *shift.shape[1:]))
    for i, j, l in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
        force[i] = k.b * shift[i] + stretch * e[i] + k.c * (e[j] * turn[l] - e[l] * turn[j])
        force[3 + i] = k.g * turn[i] + twisting * e[i] - k.c * (e[j] * shift[l] - e[l] * shift[j])
    return force
