"""L-bend and U-loop with long-radius bends: anchor forces by Castigliano.     (test_castigliano.py)

The pipe is cut loose at its far anchor and walked from there with scipy.integrate.quad: unit forces and moments at the
cut give section forces everywhere, their energies a 6 x 6 flexibility, and growth the gap that the anchor must close.
Nothing of the package is used but the answer.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad
from tests.unit.mechanics.builders import ANCHOR, AXIAL, BENDING, TORSION, answer, arcs, straights, supports, uniform

from takeup.mechanics import Frame, no_arcs

RADIUS, FLEXIBILITY, STRAIN = 0.3048, 7.6, 2.2e-3  # a long-radius bend of DN 200; k about 1.65/h; growth to 190 degC
X, Y, Z = np.eye(3)


def route(corners):
    """Return the pieces of a route with bends: (start point, tangent, normal, length), normal None where straight."""
    corners = np.array(corners, dtype=float)
    ways = np.diff(corners, axis=0)
    lengths = np.linalg.norm(ways, axis=1)
    ways /= lengths[:, None]
    pieces, start = [], corners[0]
    for leg, way in enumerate(ways):
        last = leg == len(ways) - 1
        stop = corners[leg + 1] - (0.0 if last else RADIUS) * way  # square corners: the tangent length is the radius
        pieces.append((start, way, None, np.linalg.norm(stop - start)))
        if not last:
            pieces.append((stop, way, ways[leg + 1], RADIUS * math.pi / 2.0))
            start = stop + RADIUS * (way + ways[leg + 1])
    return pieces, corners[-1]


def section(piece, s):
    """Return place and tangent at arc length s of a piece."""
    start, tangent, normal, _ = piece
    if normal is None:
        return start + s * tangent, tangent
    angle = s / RADIUS
    place = start + RADIUS * (math.sin(angle) * tangent + (1.0 - math.cos(angle)) * normal)
    return place, math.cos(angle) * tangent + math.sin(angle) * normal


def flexibility(pieces, end):
    """Return the movement of the cut end under unit forces and moments there, (6, 6), by numerical quadrature."""
    matrix, units = np.zeros((6, 6)), np.eye(6)
    for piece in pieces:
        for row in range(6):
            for column in range(row + 1):
                work, _ = quad(energy, 0.0, piece[3], args=(piece, end, units[row], units[column]), epsabs=1e-16)
                matrix[row, column] += work
    return np.tril(matrix) + np.tril(matrix, -1).T


def energy(s, piece, end, one, other):
    """Return the energy per length that two loads at the cut end have in common."""
    place, tangent = section(piece, s)
    bending = BENDING / (1.0 if piece[2] is None else FLEXIBILITY)
    moments = [load[3:] + np.cross(end - place, load[:3]) for load in (one, other)]
    torques = [moment @ tangent for moment in moments]
    return (
        (one[:3] @ tangent) * (other[:3] @ tangent) / AXIAL
        + torques[0] * torques[1] / TORSION
        + (moments[0] @ moments[1] - torques[0] * torques[1]) / bending
    )


def anchor_force(corners):
    """Return what the far anchor puts on the pipe: it takes back the free growth, which is in proportion."""
    pieces, end = route(corners)
    growth = np.concatenate([STRAIN * (end - pieces[0][0]), np.zeros(3)])
    return np.linalg.solve(flexibility(pieces, end), -growth)


def frame_of(corners):
    """Return the same pipe as a frame, each straight leg in two members."""
    pieces, end = route(corners)
    points, line, bends, entries = [pieces[0][0]], [], [], []
    for piece in pieces:
        start, tangent, normal, length = piece
        if normal is None:
            points += [start + 0.3 * length * tangent, start + length * tangent]
            line += [len(points) - 3, len(points) - 2]
        else:
            points.append(start + RADIUS * (tangent + normal))
            bends.append(len(points) - 2)
            entries.append(tangent)
    assert points[-1] == pytest.approx(end)
    section_of_bends = (AXIAL, BENDING / FLEXIBILITY, TORSION)
    return Frame(
        points=np.array(points),
        straights=straights(line, [node + 1 for node in line]),
        arcs=arcs(bends, [node + 1 for node in bends], entries, RADIUS, section_of_bends),
        supports=supports({0: ANCHOR, len(points) - 1: ANCHOR}),
    )


ROUTES = {
    "L-bend": [0 * X, 10 * X, 10 * X + 8 * Y],
    "U-loop": [0 * X, 20 * X, 20 * X + 5 * Y, 23 * X + 5 * Y, 23 * X, 45 * X],
    "space": [0 * X, 6 * X, 6 * X + 4 * Z, 6 * X + 9 * Y + 4 * Z],
}


@pytest.mark.parametrize("name", ROUTES)
def test_castigliano_anchor_force(name):
    """All six components at the far anchor; quad promises 1.5e-8 of each integral, 1e-6 leaves room to solve."""
    corners = ROUTES[name]
    frame = frame_of(corners)
    found = answer(frame, uniform(frame, strain=STRAIN)).reactions[0, -1]
    expected = anchor_force(corners)
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-6 * np.abs(expected).max())


def test_castigliano_sharp_equal_legs_by_hand():
    """L-bend, sharp corner, both legs a, inextensible. Cut at the far anchor (forces F_x, F_y, moment M there):

        upright leg, s from the anchor:   m = M - s F_x
        level leg, t from the corner:     m = M + t F_y - a F_x
        no turn:        2 M a - 3/2 F_x a^2 + 1/2 F_y a^2 = 0
        growth taken:  -3/2 M a^2 + 4/3 F_x a^3 - 1/2 F_y a^3 = -EI eps a
                        1/2 M a^2 - 1/2 F_x a^3 + 1/3 F_y a^3 = -EI eps a

    so F_x = F_y = -12 EI eps/a^2 and M = -6 EI eps/a. E A = 1e13 leaves I/(A a^2) = 4e-9.
    """
    a = 12.0
    frame = Frame(
        points=np.array([[0.0, 0, 0], [a, 0, 0], [a, a, 0]]),
        straights=straights([0, 1], [1, 2], (1e13, BENDING, TORSION)),
        arcs=no_arcs(),
        supports=supports({0: ANCHOR, 2: ANCHOR}),
    )
    found = answer(frame, uniform(frame, strain=STRAIN)).reactions[0, -1]
    force, moment = -12.0 * BENDING * STRAIN / a**2, -6.0 * BENDING * STRAIN / a
    assert found[[0, 1, 5]] == pytest.approx([force, force, moment], rel=1e-7)
