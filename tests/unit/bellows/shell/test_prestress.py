"""Pressure that follows the wall, and the stress it makes: exact cases.     (bellows/shell/test_prestress.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.shells import ROUND_THINGS, B, U, W, arc, at, least_pressure, moved_by, shell, straight

from takeup.bellows.geometry import bellows
from takeup.bellows.shell import element, prestress
from takeup.bellows.shell.buckling import buckling_pressure
from takeup.bellows.shell.reference import reference
from takeup.bellows.shell.strains import G, V

NU = 0.3


def collapse(thickness: float, waves: int, *, follows: bool = True) -> float:
    """Return the outside pressure at which a long tube of radius 1 folds, in units of E t^3/(12 (1 - nu^2) R^3).

    Plane strain: nothing moves along the axis or turns.
    """
    some = shell(straight(angle=0.0, length=0.5, radius=1.0, thickness=thickness), order=4)
    still = {at(node, thing): 0.0 for node in range(some.nodes) for thing in (W, B)}
    state = moved_by(some.stiffness(0), some.pressed(outside=True), still)
    by_pressure = some.by_stress(state, waves)
    if follows:
        by_pressure += some.by_pressure(waves, outside=True)
    held = [at(node, thing, ROUND_THINGS) for node in range(some.nodes) for thing in (W, B)]
    found = least_pressure(some.stiffness(waves), by_pressure, held)
    return found * 12.0 * (1.0 - NU**2) / thickness**3


@pytest.mark.parametrize(("waves", "exact"), [(2, 3.0), (3, 8.0), (4, 15.0)])
def test_tube_under_outside_pressure_folds(waves, exact):
    """m^2 - 1: a ring under pressure that stays normal to it (Timoshenko and Gere, Theory of Elastic Stability).

    t/R = 0.001. Measured 1e-6 to 2e-5: shear and thickness, of the order of (m t/R)^2.
    """
    assert collapse(0.001, waves) == pytest.approx(exact, rel=4e-5)


@pytest.mark.parametrize("thickness", [0.01, 0.1])
def test_thick_tube_under_outside_pressure_folds_a_little_earlier(thickness):
    """Below 3 by (t/R)^2 (measured at both): shear of the wall, which a ring of Timoshenko and Gere has not."""
    assert collapse(thickness, 2) == pytest.approx(3.0 * (1.0 - thickness**2), rel=0.01 * thickness)


@pytest.mark.parametrize("waves", [2, 3, 4])
def test_tube_folds_later_under_pressure_that_does_not_follow(waves):
    """m^2: 4 for a ring whose load keeps its direction (Timoshenko and Gere), the stress alone.

    By hand with v = u/m: the stress sees (m u - v)^2 + (m v - u)^2 = (m^2 - 1)^2/m^2, bending (m^2 - 1)^2. It is the
    pressure's turning that takes 1 away. The pressure sits on the outer face: t/R = 0.001 lower, so 1.5e-3.
    """
    assert collapse(0.001, waves, follows=False) == pytest.approx(waves**2, rel=1.5e-3)


# A whole shell that turns or moves in its pressure ------------------------------------------------------------------


def ball(thickness: float):
    """Return a sphere of radius 1 with holes of a thousandth of it at the poles, and its state under pressure."""
    reach = np.pi / 2.0 - 1e-3
    some = shell(arc(start=-reach, end=reach, radius=1.0, thickness=thickness, parts=8))
    last = some.nodes - 1
    held = {at(node, thing): 0.0 for node in (0, last) for thing in (U, B)} | {at(some.nodes // 2, W): 0.0}
    return some, moved_by(some.stiffness(0), some.pressed(), held)


def moved_whole(some, kind: str) -> np.ndarray:
    """Return a sideways movement by 1 or a turn by 1 (test_harmonic.py says how)."""
    place = some.at_nodes()
    moved = np.zeros((some.nodes, ROUND_THINGS))
    if kind == "sideways":
        moved[:, U], moved[:, V] = 1.0, -1.0
    else:
        moved[:, W], moved[:, U], moved[:, V] = place.radius, -place.axial, place.axial
        moved[:, B], moved[:, G] = 1.0, -place.sine
    return moved.ravel()


def test_turn_of_a_closed_shell_costs_nothing_in_its_pressure():
    """A turn u = w x X swells the shell by w^2 of its volume V, so pressure gives 2 V; its stress takes as much.

    V = 4/3 pi (1 - t/2R)^3 to the inner face, t/R = 0.02, to 1e-5 with holes of area 1e-6. Of the sum 4e-4 is left
    (measured), the order of (t/R)^2: 1e-3.
    """
    some, state = ball(0.02)
    turned = moved_whole(some, "turn")
    by_stress = turned @ some.by_stress(state, 1) @ turned
    by_pressure = turned @ some.by_pressure(1) @ turned
    assert by_pressure == pytest.approx(-8.0 / 3.0 * np.pi * 0.99**3, rel=1e-5)
    assert by_stress + by_pressure == pytest.approx(0.0, abs=1e-3 * by_stress)


def test_moving_a_closed_shell_sideways_costs_nothing_in_its_pressure():
    """Neither the stress nor the pressure feels it: 1e-5 of what a turn costs each, for the holes (their area 1e-6)."""
    some, state = ball(0.02)
    aside, turned = moved_whole(some, "sideways"), moved_whole(some, "turn")
    for matrix in (some.by_stress(state, 1), some.by_pressure(1)):
        assert abs(aside @ matrix @ aside) < 1e-5 * abs(turned @ matrix @ turned)


# Pressure on a face, and on the middle surface ----------------------------------------------------------------------


@pytest.mark.parametrize("ply", [0.001, 0.0005])
def test_squirm_with_stress_through_the_wall_is_that_of_a_pressed_middle_surface(ply, monkeypatch):
    """Pressure p on the inner face and none outside is p/2 on both and +p/2 and -p/2: the even part only squeezes.

    So the bellows squirms as if p acted on its middle surface with no stress through the wall: measured 4e-4 and 2e-5,
    so a thousandth. The stress left out with the face kept changes it by 7 % and 4 %.
    """
    shape = bellows(inside_diameter=0.219, height=0.022, pitch=0.024, ply_thickness=ply, convolutions=8)
    case = (shape, np.array([195e9]), np.array([0.3]), reference(6))
    ours = buckling_pressure(*case)[0]
    monkeypatch.setattr(prestress, "_THROUGH", 0.0)
    face_alone = buckling_pressure(*case)[0]
    for module in (prestress, element):
        monkeypatch.setattr(module, "face_depth", lambda segments, **_: np.zeros_like(segments.thickness))
    assert buckling_pressure(*case)[0] == pytest.approx(ours, rel=1e-3)
    assert face_alone > 1.03 * ours
