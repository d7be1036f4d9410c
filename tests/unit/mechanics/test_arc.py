"""Arcs: a quarter circle in closed form, loads against many chords, growth.     (tests/unit/mechanics/test_arc.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.unit.mechanics.builders import (
    ANCHOR,
    AXIAL,
    BENDING,
    TORSION,
    answer,
    arcs,
    chain,
    no_straights,
    nodal,
    rotation,
    supports,
    uniform,
)

from takeup.mechanics import Frame, arc_angle, no_arcs

RADIUS = 1.3
QUARTER = math.pi / 2.0


def circle(angles, turn=(0.0, 0.0, 0.0)):
    """Return points and tangents of a circle from the origin along x, bending toward y, then turned."""
    sine, cosine, zero = np.sin(angles), np.cos(angles), np.zeros_like(angles)
    points = RADIUS * np.stack([sine, 1.0 - cosine, zero], axis=1)
    matrix = rotation(turn)
    return points @ matrix.T, np.stack([cosine, sine, zero], axis=1) @ matrix.T


def bend(pieces, turn=(0.0, 0.0, 0.0), angle=QUARTER, held=None):
    """Return an arc in equal pieces, clamped at its start (or held as told)."""
    points, tangents = circle(np.linspace(0.0, angle, pieces + 1), turn)
    return Frame(
        points=points,
        straights=no_straights(),
        arcs=arcs(range(pieces), range(1, pieces + 1), tangents[:-1], RADIUS),
        supports=supports(held or {0: ANCHOR}),
    )


@pytest.mark.parametrize("pieces", [1, 3])
@pytest.mark.parametrize("turn", [(0.0, 0.0, 0.0), (0.7, -0.4, 2.0)])
def test_arc_quarter_circle_closed_form(pieces, turn):
    """A quarter circle clamped at theta = 0, loaded at its end, by Castigliano (integrals by hand).

    From a section at theta to the end r = R (1 - sin, cos, 0), the tangent is t = (cos, sin, 0). With M = r x F:

        Fx: M_z = -R cos F,       N = cos F    u_x = F R^3/EI pi/4         + F R/EA pi/4
        Fy: M_z =  R (1 - sin) F, N = sin F    u_y = F R^3/EI (3pi/4 - 2)  + F R/EA pi/4
                                               u_x = F R^3/EI (-1/2)       + F R/EA (1/2)
        Fz: torque R (1 - sin) F, bending -R cos F
                                               u_z = F R^3 (pi/4 /EI + (3pi/4 - 2) /GJ)
        Mz: M_z = M                            turn = M R pi/2 / EI

    Tolerance: sixteen Gauss points and a 6 x 6 inverse leave 1e-12; three pieces a little more.
    """
    matrix = rotation(turn)
    frame = bend(pieces, turn)
    cube_i, cube_j, line = RADIUS**3 / BENDING, RADIUS**3 / TORSION, RADIUS / AXIAL
    quarter, rest = math.pi / 4.0, 3.0 * math.pi / 4.0 - 2.0
    expected = {
        0: {0: cube_i * quarter + line * quarter, 1: -cube_i / 2.0 + line / 2.0},
        1: {1: cube_i * rest + line * quarter, 0: -cube_i / 2.0 + line / 2.0},
        2: {2: cube_i * quarter + cube_j * rest},
        5: {5: RADIUS * QUARTER / BENDING},
    }
    for load, movements in expected.items():
        local = np.zeros((2, 3))
        local.reshape(-1)[load] = 1e4
        found = answer(frame, nodal(frame, {pieces: (local @ matrix.T).reshape(-1)}))
        tip = (found.displacements[0, -1].reshape(2, 3) @ matrix).reshape(-1)
        for place, movement in movements.items():
            assert tip[place] == pytest.approx(1e4 * movement, rel=1e-10)


def chords(count, load, held):
    """Return the answer for a quarter circle of straight chords under a uniform load."""
    points, _ = circle(np.linspace(0.0, QUARTER, count + 1))
    frame = chain(points, held(count))
    return answer(frame, uniform(frame, per_length=load))


@pytest.mark.parametrize("load", [(0.0, 0.0, -850.0), (300.0, -500.0, 0.0)])
@pytest.mark.parametrize("both", [False, True])
def test_arc_uniform_load_is_the_limit_of_chords(load, both):
    """Chords in a circle are out by h^2, so halving them quarters the error: order 2, measured between 1.9 and 2.1.

    The extrapolation of the two finest, (4 fine - coarse)/3, has an error of h^4: (pi/2/128)^4 = 2e-8, some times that
    allowed. One arc with its load operator must hit it.
    """

    def held(last):
        return {0: ANCHOR, last: ANCHOR} if both else {0: ANCHOR}

    frame = bend(1, held=held(1))
    exact = answer(frame, uniform(frame, per_length=load))
    series = [chords(count, load, held) for count in (32, 64, 128)]
    for name in ("reactions", "displacements"):
        if name == "displacements" and both:
            continue  # both ends are anchors: nothing of the single arc moves
        target = getattr(exact, name)[0, -1]
        found = [getattr(one, name)[0, -1] for one in series]
        error = [np.abs(one - target).max() for one in found]
        if error[-1] < 1e-9 * np.abs(target).max():
            continue  # statics alone decides this reaction
        order = np.log2(np.array(error[:-1]) / np.array(error[1:]))
        assert order == pytest.approx(2.0, abs=0.1)
        limit = (4.0 * found[2] - found[1]) / 3.0
        assert limit == pytest.approx(target, rel=1e-6, abs=1e-6 * np.abs(target).max())


@pytest.mark.parametrize("pieces", [1, 4])
def test_arc_uniform_load_does_not_depend_on_pieces(pieces):
    """Both ends anchored, under weight: reactions of an arc in one piece and in several agree to rounding."""
    whole, cut = bend(1, held={0: ANCHOR, 1: ANCHOR}), bend(pieces, held={0: ANCHOR, pieces: ANCHOR})
    load = (120.0, -40.0, -850.0)
    one, many = (answer(frame, uniform(frame, per_length=load)).reactions for frame in (whole, cut))
    assert many == pytest.approx(one, rel=1e-9, abs=1e-9 * np.abs(one).max())


def test_arc_grows_in_proportion_and_without_force():
    """A free arc grows like its picture: u = eps r from the clamp, no turn; 1e-9 of E A eps is rounding."""
    frame = bend(2, turn=(0.3, 0.2, -0.6))
    found = answer(frame, uniform(frame, strain=2.2e-3))
    assert found.displacements[0, :, :3] == pytest.approx(2.2e-3 * frame.points, rel=1e-9, abs=1e-13)
    assert found.displacements[0, :, 3:] == pytest.approx(0.0, abs=1e-12)
    assert np.abs(found.end_forces).max() < 1e-9 * AXIAL * 2.2e-3


def test_arc_angle_of_a_quarter_circle():
    """The chord of a quarter circle is R sqrt(2) (by hand)."""
    assert arc_angle(np.array([[RADIUS, RADIUS, 0.0]]), np.array([RADIUS])) == pytest.approx(QUARTER, rel=1e-14)


def test_arc_none_at_all():
    none = no_arcs()
    assert len(none.start) == 0
    assert none.entry.shape == (0, 3)
