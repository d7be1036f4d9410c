"""Stresses along the meridian: cylinder, bend, torus, flat ring; peaks.     (bellows/shell/test_stresses.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.shells import B, U, W, arc, at, ends_free_to_breathe, moved_by, shell, straight

from takeup.bellows.geometry import bellows
from takeup.bellows.shell.axisymmetric import MOVEMENT, PRESSURE
from takeup.bellows.shell.convolution import convolutions
from takeup.bellows.shell.meridian import half_convolution, places
from takeup.bellows.shell.stresses import peak

E, NU = 195e9, 0.3


@pytest.mark.parametrize("thickness", [0.02, 0.2])
def test_stress_of_a_thick_cylinder(thickness):
    """Lame, ends held, per pascal: along the axis 2 nu A at both faces, round it a/t in the mean.

    In units of the pressure, by which a thin shell is out anyway: 0.025 (measured 0.021 at t/R = 0.2, a tenth of that
    at 0.02). The bending is the moment per length of the middle line, on which the outer side is longer: s t/(2 R).
    """
    some = shell(straight(angle=0.0, length=0.5, radius=1.0, thickness=thickness), order=4)
    found = some.stresses(pressed=moved_by(some.stiffness(0), some.pressed(), ends_free_to_breathe(some)))
    a, b = 1.0 - thickness / 2.0, 1.0 + thickness / 2.0
    along = 2.0 * NU * a**2 / (b**2 - a**2)
    close = 0.025 * thickness / 0.2
    for name, expected in (("membrane", along), ("inner", along), ("outer", along), ("hoop", a / thickness)):
        assert getattr(found, name)[..., PRESSURE] == pytest.approx(expected, abs=close)
    assert found.bending[..., PRESSURE] == pytest.approx(along * thickness / 2.0, abs=2.0 * close)
    assert np.abs(found.hoop[..., MOVEMENT]).max() == 0.0


@pytest.mark.parametrize("thickness", [0.02, 0.2])
def test_stress_of_a_thick_cylinder_pressed_from_outside(thickness):
    """Lame: along the axis -2 nu B at both faces, B = b^2/(b^2 - a^2), round it -b/t in the mean."""
    some = shell(straight(angle=0.0, length=0.5, radius=1.0, thickness=thickness), order=4)
    state = moved_by(some.stiffness(0), some.pressed(outside=True), ends_free_to_breathe(some))
    found = some.stresses(pressed=state, outside=True)
    a, b = 1.0 - thickness / 2.0, 1.0 + thickness / 2.0
    along = -2.0 * NU * b**2 / (b**2 - a**2)
    for name, expected in (("membrane", along), ("inner", along), ("outer", along), ("hoop", -b / thickness)):
        assert getattr(found, name)[..., PRESSURE] == pytest.approx(expected, abs=0.15 * thickness)


@pytest.mark.parametrize("plies", [1, 2, 4])
def test_plies_of_a_cylinder_share_the_pressure_from_side_to_side(plies):
    """Each ply of n bears p/n by Lame, whose stress along the axis is the same at both of its faces.

    In units of the pressure: 0.005 (measured 0.0025 at t/R = 0.02, and as much less as there are plies). A ply that
    took all of the pressure from side to side would be out by nu/(1 - nu) (1 - 1/n), 0.21 for two and 0.32 for four.
    """
    wall = replace(straight(angle=0.0, length=0.5, radius=1.0, thickness=0.02 / plies), plies=np.full(1, float(plies)))
    some = shell(wall, order=4)
    found = some.stresses(pressed=moved_by(some.stiffness(0), some.pressed(), ends_free_to_breathe(some)))
    assert found.inner[..., PRESSURE] == pytest.approx(found.outer[..., PRESSURE], abs=0.005)


@pytest.mark.parametrize("ratio", [1.05, 1.2, 1.5])
def test_stress_of_a_thick_bend(ratio):
    """A tube closed to a ring of very great radius, pressure in its bore: plane strain, Lame along the meridian.

    A (1 + b^2/a^2) inside, 2 A outside, mean p a/t, bending 6/t^2 A b^2 (ln(b/a) - m (1/a - 1/b)), per pascal, by hand.
    Straight normals are out by a part of the pressure that falls with t/m: less than 0.4 t/m of it (measured 0.36 at
    the inner face, 0.2 in bending, 0.09 in the mean). The stress itself is m/t of the pressure.
    """
    a, b = 0.010, 0.010 * ratio
    m, t = (a + b) / 2.0, b - a
    some = shell(arc(start=0.0, end=np.pi, radius=m, thickness=t, parts=3, ring=1000.0))
    held = ends_free_to_breathe(some) | {at(0, U): 0.0}
    found = some.stresses(pressed=moved_by(some.stiffness(0), some.pressed(), held))
    share = a**2 / (b**2 - a**2)
    expected = {
        "membrane": (a / t, 0.12),
        "bending": (6.0 / t**2 * share * b**2 * (np.log(b / a) - m * (1.0 / a - 1.0 / b)), 0.25),
        "inner": (share * (1.0 + b**2 / a**2), 0.4),
        "outer": (2.0 * share, 0.4),
    }
    for name, (value, part) in expected.items():
        assert getattr(found, name)[..., PRESSURE] == pytest.approx(value, abs=part * t / m + 0.011)
        # and 0.011 for the ring's radius, a hundred thousand times the bore's: its deformation loses five digits


def test_stress_of_a_torus():
    """Membrane of a torus, a = 100 mm round a ring of 400 mm, t/a = 0.002: along p a (r + R)/(2 r t), round p a/(2 t).

    Flugge, Stresses in Shells (from memory). Along within 2e-3, that is t/a, for pressure on the inner face. Round it
    within 5e-3 less than 45 degrees from the equators: at the crowns membranes do not fit together and bend.
    """
    tube, ring, t = 0.1, 0.4, 0.0002
    some = shell(arc(start=0.0, end=np.pi, radius=tube, thickness=t, parts=12, ring=ring))
    pressed = moved_by(some.stiffness(0), some.pressed(), ends_free_to_breathe(some))
    found = some.stresses(pressed=pressed)
    place = found.along / tube
    radius = ring + tube * np.cos(place)
    assert found.membrane[..., PRESSURE] == pytest.approx(tube * (radius + ring) / (2.0 * radius * t), rel=2e-3)
    near_equators = np.abs(np.cos(place)) > np.cos(np.pi / 4.0)
    assert found.hoop[..., PRESSURE][near_equators] == pytest.approx(tube / (2.0 * t), rel=5e-3)


@pytest.mark.parametrize("thickness", [0.001, 0.004])
def test_stress_of_a_flat_ring_with_guided_edges(thickness):
    """Slope A r + B/r + c r ln r with c = F/(4 pi D), nought at both edges: M = D (slope' + nu slope/r), by hand.

    Exact for the element up to its order, 8 in a ring from 100 to 140 mm: 1e-6. Shear does not change it.
    """
    a, b, c = 0.10, 0.14, 1.0 / (4.0 * np.pi)
    some = shell(straight(angle=np.pi / 2.0, length=b - a, radius=a, thickness=thickness, parts=2))
    matrix, last = some.stiffness(0), some.nodes - 1
    moved = moved_by(matrix, np.zeros(len(matrix)), {at(0, W): 0.0, at(0, B): 0.0, at(last, B): 0.0, at(last, W): 1.0})
    force = (matrix @ moved)[at(last, W)]
    first = -c * (b**2 * np.log(b) - a**2 * np.log(a)) / (b**2 - a**2)
    second = c * a**2 * b**2 * np.log(b / a) / (b**2 - a**2)
    found = some.stresses(moved=moved)
    radius = a + found.along
    slope = first * radius + second / radius + c * radius * np.log(radius)
    moment = first - second / radius**2 + c * (np.log(radius) + 1.0) + NU * slope / radius
    expected = 6.0 * force * moment / thickness**2
    sign = np.sign(expected[0, 0, 0] * found.bending[0, 0, 0, MOVEMENT])
    assert sign * found.bending[..., MOVEMENT] == pytest.approx(expected, abs=1e-6 * np.abs(expected).max())
    assert found.outer[..., MOVEMENT] == pytest.approx(found.bending[..., MOVEMENT], abs=1e-6 * np.abs(expected).max())
    assert found.inner[..., MOVEMENT] == pytest.approx(-found.outer[..., MOVEMENT], abs=1e-9 * np.abs(expected).max())


@given(
    bore=st.floats(0.05, 1.0),
    slenderness=st.floats(0.02, 0.1),
    height=st.floats(0.04, 0.12),
    radii=st.tuples(st.floats(0.6, 1.2), st.floats(0.6, 1.2)),
    plies=st.integers(1, 3),
)
def test_hoop_stress_holds_the_pressure(bore, slenderness, height, radii, plies):
    """Over the metal it holds the pressure on the inner face seen from the side: integral of r dz, by hand.

    Without the stress through a bent wall it is out by 0.4 % for a deep bellows. What is left, half a thousandth, is
    the pressure's own change through the wall where radii come down to ten thicknesses and three plies share it.
    """
    pitch = 0.9 * height * bore
    shape = bellows(
        inside_diameter=bore,
        height=height * bore,
        pitch=pitch,
        plies=plies,
        ply_thickness=slenderness * pitch / 4.0 / plies,
        crest_radius=radii[0] * pitch / 4.0,
        root_radius=radii[1] * pitch / 4.0,
    )
    line = half_convolution(shape)
    points, weights = np.polynomial.legendre.leggauss(30)
    where = places(line.reshaped(-1), points)
    deep = -(line.thickness * line.plies / 2.0).reshape(-1, 1)
    inner = where.radius + deep * where.cosine
    along = where.cosine * (1.0 - deep * line.turn.reshape(-1, 1)) * line.length.reshape(-1, 1) / 2.0
    metal = (line.thickness * line.plies * line.length).sum()
    found = convolutions(shape, np.array([E]), np.array([NU])).hoop_mean_per_pressure[0]
    assert found == pytest.approx((inner * along * weights).sum() / metal, rel=5e-4)


# Peaks --------------------------------------------------------------------------------------------------------------


def test_peak_lies_between_samples():
    """|1 - (s - 0.42)^2| is greatest at 0.42, with the value 1: exact for a parabola."""
    along = np.linspace(0.0, 1.0, 11).reshape(1, 1, -1)
    found = peak(along, -(1.0 - (along - 0.42) ** 2))
    assert (found.value[0], found.along[0]) == pytest.approx((1.0, 0.42), rel=1e-12)


def test_peak_at_an_end_stays_there():
    along = np.linspace(0.0, 1.0, 11).reshape(1, 1, -1)
    found = peak(along, 2.0 - along)
    assert (found.value[0], found.along[0]) == (2.0, 0.0)


def test_peak_keeps_to_its_element():
    """At a kink between two elements no parabola is laid across: the greatest sample is the peak."""
    along = np.stack([np.linspace(0.0, 1.0, 5), np.linspace(1.0, 2.0, 5)])[None]
    found = peak(along, np.where(along <= 1.0, along, 2.0 - along))
    assert (found.value[0], found.along[0]) == (1.0, 1.0)
