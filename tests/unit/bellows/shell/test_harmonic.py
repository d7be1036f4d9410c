"""The first harmonic: rigid movements, tubes as beams, whole bellows.     (bellows/shell/test_harmonic.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.shells import ROUND_THINGS, B, U, W, arc, at, moved_by, shell, straight, whole_shell

from takeup.bellows.geometry import bellows
from takeup.bellows.shell.convolution import convolutions
from takeup.bellows.shell.harmonic import angular_stiffness, whole_rates
from takeup.bellows.shell.reference import reference
from takeup.bellows.shell.strains import G, V

E, NU = np.array([195e9]), np.array([0.3])
DN200 = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "ply_thickness": 0.001}


def rigid(some, kind: str) -> np.ndarray:
    """Return a movement of the whole shell that strains nothing: sideways by 1, or a turn by 1 about the origin.

    Sideways u = cos, v = -sin. Turn: w = r cos, u = -z cos, v = z sin, and the normal n = (C, -S) turns along:
    beta = 1, gamma = -S (first principles).
    """
    place = some.at_nodes()
    moved = np.zeros((some.nodes, ROUND_THINGS))
    if kind == "sideways":
        moved[:, U], moved[:, V] = 1.0, -1.0
    else:
        moved[:, W], moved[:, U], moved[:, V] = place.radius, -place.axial, place.axial
        moved[:, B], moved[:, G] = 1.0, -place.sine
    return moved.ravel()


@pytest.mark.parametrize("kind", ["sideways", "turn"])
def test_rigid_movement_costs_nothing(kind):
    """A patch test: no force at any node beyond rounding, 1e-13 of what the entries of the matrix add up to."""
    some = shell(arc(start=-1.2, end=1.3, radius=0.1, thickness=0.01, parts=3, ring=0.4))
    matrix, moved = some.stiffness(1), rigid(some, kind)
    assert np.abs(matrix @ moved).max() < 1e-13 * (np.abs(matrix) @ np.abs(moved)).max()


def tube_between_planes(length: float, thickness: float, *, lateral: bool) -> float:
    """Return the moment per turn, or the force per sideways movement, of a tube of radius 1 whose ends stay planes.

    The section may change its shape at the ends, but for a hold at one place.
    """
    some = shell(straight(angle=0.0, length=length, radius=1.0, thickness=thickness, parts=8))
    last = some.nodes - 1
    held = {at(node, thing, ROUND_THINGS): 0.0 for node in (0, last) for thing in (W, B)}
    held[at(0, V, ROUND_THINGS)] = 0.0
    if lateral:
        held[at(last, V, ROUND_THINGS)] = -1.0
    else:
        held[at(last, W, ROUND_THINGS)] = held[at(last, B, ROUND_THINGS)] = 1.0
    matrix = some.stiffness(1)
    moved = moved_by(matrix, np.zeros(len(matrix)), held)
    return float(moved @ matrix @ moved)


def second_moment(thickness: float) -> float:
    """Return pi (b^4 - a^4)/4 of a tube of middle radius 1, which is pi R^3 t to (t/R)^2/4."""
    return np.pi / 4.0 * ((1.0 + thickness / 2.0) ** 4 - (1.0 - thickness / 2.0) ** 4)


@pytest.mark.parametrize(("thickness", "close"), [(0.002, 1e-9), (0.02, 1e-9), (0.2, 2e-6)])
def test_tube_bends_as_a_beam(thickness, close):
    """M = E I theta/L, exact for planes that stay planes, E = 1; the series round the axis leaves 9e-7 at t/R = 0.2."""
    found = tube_between_planes(10.0, thickness, lateral=False)
    assert found == pytest.approx(second_moment(thickness) / 10.0, rel=close)
    assert found == pytest.approx(np.pi * thickness / 10.0, rel=thickness**2)


@pytest.mark.parametrize("length", [10.0, 20.0, 40.0])
def test_tube_moves_sideways_as_a_beam_with_shear(length):
    """12 E I/L^3/(1 + 12 E I/(k G A L^2)); a thin tube, t/R = 0.002, shears as sin theta: k = 1/2 (by hand).

    The shear is 26 % of the movement at L = 10 R. Measured 1.4e-6 at most: the order of the element.
    """
    thickness, rigid_ = 0.002, 0.5 / 1.3
    bending, area = second_moment(thickness), 2.0 * np.pi * thickness
    expected = 12.0 * bending / length**3 / (1.0 + 12.0 * bending / (0.5 * rigid_ * area * length**2))
    assert tube_between_planes(length, thickness, lateral=True) == pytest.approx(expected, rel=5e-6)


# Convolutions and whole bellows -------------------------------------------------------------------------------------


def test_angular_stiffness_is_that_of_springs_on_the_mean_circle():
    """Springs: f D_m^2/8 (check values F1), for a convolution that is narrow beside its diameter: w/D_m = 0.01.

    The circle on which the springs sit is known to w/D_m only; measured 9e-5, so 5e-4.
    """
    shape = bellows(inside_diameter=2.0, height=0.02, pitch=0.02, ply_thickness=0.0008)
    axial = convolutions(shape, E, NU).axial_stiffness
    found = angular_stiffness(shape, E, NU, reference(8))
    assert found == pytest.approx(axial * (2.0 + 0.02 + 0.0008) ** 2 / 8.0, rel=5e-4)


@pytest.mark.parametrize("convolutions_", [1, 2, 3, 4, 8])
def test_whole_bellows_is_stiffer_than_its_convolutions_inside(convolutions_):
    """Welded ends only hold: above f/N and k/N, the difference falling as 1/N.

    Measured: 0.22 to 0.30 of one convolution along the axis, 0.25 to 0.35 in bending, most where there is but one.
    """
    shape = bellows(**DN200, convolutions=convolutions_)
    rates = whole_rates(shape, E, NU, reference(6))
    axial = convolutions(shape, E, NU).axial_stiffness / convolutions_
    angular = angular_stiffness(shape, E, NU, reference(6)) / convolutions_
    assert 0.22 < convolutions_ * (rates.axial[0] / axial[0] - 1.0) < 0.31
    assert 0.25 < convolutions_ * (rates.angular[0] / angular[0] - 1.0) < 0.35


def test_whole_rates_tend_to_the_beam():
    """64 convolutions: ends are 0.4 % of f/N, and 1.1 % of the lateral rate, whose ends bend most (measured)."""
    shape = bellows(**DN200, convolutions=64)
    rates = whole_rates(shape, E, NU, reference(6))
    axial = convolutions(shape, E, NU).axial_stiffness / 64.0
    angular = angular_stiffness(shape, E, NU, reference(6)) / 64.0
    assert rates.axial == pytest.approx(axial, rel=0.005)
    assert rates.angular == pytest.approx(angular, rel=0.005)
    assert rates.lateral == pytest.approx(12.0 * angular / (64.0 * 0.024) ** 2, rel=0.015)


@pytest.mark.parametrize("tangent", [0.0, 0.03])
@pytest.mark.parametrize("count", [2, 5])
def test_whole_rates_are_those_of_the_shell_unreduced(count, tangent):
    """Nothing condensed: every node in one full matrix, solved by itself. 1e-8: condition of the full matrix."""
    shape = bellows(**DN200, convolutions=count, tangent_length=tangent)
    some, order = whole_shell(shape, order=5), 5
    last, radius = some.nodes - 1, 0.110
    rates = whole_rates(shape, E, NU, reference(order))
    matrix = some.stiffness(0)
    held = {at(node, thing): 0.0 for node in (0, last) for thing in (U, W, B)} | {at(last, W): 1.0}
    moved = moved_by(matrix, np.zeros(len(matrix)), held)
    assert rates.axial[0] == pytest.approx(moved @ matrix @ moved, rel=1e-8)
    matrix = some.stiffness(1)
    ends = {at(node, thing, ROUND_THINGS): 0.0 for node in (0, last) for thing in range(ROUND_THINGS)}
    aside = {at(last, U, ROUND_THINGS): 1.0, at(last, V, ROUND_THINGS): -1.0}
    turned = {at(last, W, ROUND_THINGS): radius, at(last, B, ROUND_THINGS): 1.0}
    by_aside = moved_by(matrix, np.zeros(len(matrix)), ends | aside)
    by_turn = moved_by(matrix, np.zeros(len(matrix)), ends | turned)
    lateral, turning, both = (
        one @ matrix @ two for one, two in ((by_aside, by_aside), (by_turn, by_turn), (by_aside, by_turn))
    )
    assert rates.lateral[0] == pytest.approx(lateral, rel=1e-8)
    assert rates.angular[0] == pytest.approx(turning - both**2 / lateral, rel=1e-7)
