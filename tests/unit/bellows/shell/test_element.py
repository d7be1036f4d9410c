"""The element, axisymmetric: cylinder, cone, sphere and flat ring.     (bellows/shell/test_element.py)

Every node stays in the matrices (tests/shells.py), so that the element alone is held. The shell has a thickness, a
shear and pressure on its inner face; thin-shell theory has none of them, and is left by amounts of the order of t/R.
Lame and Reissner have them and are met more closely.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad
from tests.shells import B, U, W, arc, at, ends_free_to_breathe, moved_by, shell, straight

NU = 0.3
THIN = 0.002  # t/R of what is held to thin-shell theory


def edge_length(thickness: float) -> float:
    """Return 1/beta, over which the edge of a cylinder of radius 1 is felt: beta = (3 (1 - nu^2))^(1/4)/sqrt(R t).

    Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, long cylinders (from memory).
    """
    return float(np.sqrt(thickness) / (3.0 * (1.0 - NU**2)) ** 0.25)


def plate_stiffness(thickness: float) -> float:
    """Return E t^3/(12 (1 - nu^2)) with E = 1."""
    return thickness**3 / 12.0 / (1.0 - NU**2)


# Cylinder ----------------------------------------------------------------------------------------------------------


def pressed_cylinder(thickness: float, ends: str) -> np.ndarray:
    """Return the radial movement of a cylinder of radius 1 under pressure on its inner face."""
    some = shell(straight(angle=0.0, length=0.5, radius=1.0, thickness=thickness), order=4)
    force, last = some.pressed(), some.nodes - 1
    held = ends_free_to_breathe(some)
    if ends != "held":
        del held[at(last, W)]
    if ends == "closed":
        force[at(last, W)] += np.pi * (1.0 - thickness / 2.0) ** 2
    return moved_by(some.stiffness(0), force, held)[U::3]


def lame(thickness: float, ends: str) -> float:
    """Return the movement of the middle radius 1 of a thick cylinder: Lame, by hand with E = 1.

    A = a^2/(b^2 - a^2), along the axis s = 0 open, A closed, 2 nu A held; u = (1 - nu) A + (1 + nu) A b^2 - nu s.
    """
    a, b = 1.0 - thickness / 2.0, 1.0 + thickness / 2.0
    share = a**2 / (b**2 - a**2)
    along = {"open": 0.0, "closed": share, "held": 2.0 * NU * share}[ends]
    return (1.0 - NU) * share + (1.0 + NU) * share * b**2 - NU * along


@pytest.mark.parametrize("ends", ["open", "closed", "held"])
@pytest.mark.parametrize(("thickness", "close"), [(0.002, 2e-7), (0.02, 2e-5), (0.2, 2e-3)])
def test_cylinder_under_pressure_is_a_thick_one(ends, thickness, close):
    """Lame. A normal that stays straight leaves (t/R)^2/25 (measured 1.6e-3 at t/R = 0.2): a little above that."""
    moved = pressed_cylinder(thickness, ends)
    assert moved == pytest.approx(lame(thickness, ends), rel=close)


@pytest.mark.parametrize(("ends", "factor"), [("open", 1.0), ("closed", 1.0 - NU / 2.0), ("held", 1.0 - NU**2)])
def test_cylinder_under_pressure_tends_to_the_membrane(ends, factor):
    """Thin: p R^2/(E t), times 1 - nu/2 with closed ends; pressure on the inner face leaves some t/(2 R), so 1e-3."""
    assert pressed_cylinder(THIN, ends) == pytest.approx(factor / THIN, rel=THIN / 2.0)


@pytest.mark.parametrize("order", [4, 8])
def test_cylinder_with_a_ring_load_at_its_edge(order):
    """Edge moves 2 beta R^2 Q/(E t) = Q/(2 beta^3 D), turn Q/(2 beta^2 D); Timoshenko (from memory). t/R = 0.002.

    Shear and the thickness leave 0.18 t/R and 0.12 t/R (measured 3.5e-4 and 2.4e-4, in proportion to t/R): 5e-4.
    """
    reach, bend = edge_length(THIN), plate_stiffness(THIN)
    some = shell(straight(angle=0.0, length=8.0 * reach, radius=1.0, thickness=THIN, parts=8), order=order)
    matrix, last = some.stiffness(0), some.nodes - 1
    held = {at(last, W): 0.0, at(last, B): 0.0}
    pushed, turned = np.zeros(len(matrix)), np.zeros(len(matrix))
    pushed[at(0, U)] = turned[at(0, B)] = 2.0 * np.pi
    by_push, by_turn = moved_by(matrix, pushed, held), moved_by(matrix, turned, held)
    assert by_push[U] == pytest.approx(reach**3 / 2.0 / bend, rel=5e-4)
    assert abs(by_push[B]) == pytest.approx(reach**2 / 2.0 / bend, rel=5e-4)
    assert abs(by_turn[B]) == pytest.approx(reach / bend, rel=5e-4)
    assert by_turn[U] == pytest.approx(by_push[B], rel=1e-8)  # what one load does at the other (Maxwell)


def test_cylinder_with_a_clamped_edge_under_pressure():
    """Far away p R^2/(E t) with open ends; from the clamped edge w = w0 (1 - e^-x (cos x + sin x)), x = beta s.

    Timoshenko (from memory); within 2 t/R of w0 for pressure on the inner face and shear (measured 0.4 t/R).
    """
    reach = edge_length(THIN)
    some = shell(straight(angle=0.0, length=10.0 * reach, radius=1.0, thickness=THIN, parts=8))
    held = {at(0, thing): 0.0 for thing in (U, W, B)} | {at(some.nodes - 1, B): 0.0}
    moved = moved_by(some.stiffness(0), some.pressed(), held)[U::3]
    x = some.at_nodes().axial / reach
    near = x < 5.0  # the other end mirrors the edge beyond
    expected = (1.0 - np.exp(-x) * (np.cos(x) + np.sin(x))) / THIN
    assert moved[near] == pytest.approx(expected[near], abs=2.0)


# Cone and sphere ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("angle", [0.5, 1.0])
def test_cone_under_pressure_is_a_membrane(angle):
    """Round the axis p r/cos(alpha), along half of it: u = p r^2 (1 - nu/2)/(E t cos(alpha)). Its edges are pulled so.

    In the middle half, fifteen and more edge lengths away; t/R is 0.002 and the inner face leaves 0.5 t/R: 1e-3.
    """
    some = shell(straight(angle=angle, length=1.0, radius=1.0, thickness=THIN, parts=10))
    force, radius, last = some.pressed(), some.at_nodes().radius, some.nodes - 1
    for node, sign in ((0, -1.0), (last, 1.0)):
        pull = sign * np.pi * radius[node] ** 2 / np.cos(angle)
        force[at(node, U)] += pull * np.sin(angle)
        force[at(node, W)] += pull * np.cos(angle)
    moved = moved_by(some.stiffness(0), force, {at(last, W): 0.0})[U::3]
    middle = slice(last // 4, 3 * last // 4)
    expected = radius**2 * (1.0 - NU / 2.0) / (THIN * np.cos(angle))
    assert moved[middle] == pytest.approx(expected[middle], rel=1e-3)


def half_sphere(thickness: float, parts: int = 16):
    """Return a hemisphere of radius 1 from its equator to a hole of a thousandth of it at the pole, and its hold."""
    some = shell(arc(start=0.0, end=np.pi / 2.0 - 1e-3, radius=1.0, thickness=thickness, parts=parts))
    return some, {at(some.nodes - 1, thing): 0.0 for thing in (U, B)}


@pytest.mark.parametrize(("thickness", "close"), [(0.002, 5e-6), (0.02, 1e-4)])
def test_sphere_under_pressure_is_a_thick_one(thickness, close):
    """Lame: u = A ((1 - 2 nu) + (1 + nu) b^3/2), A = a^3/(b^3 - a^3), E = 1, by hand; thin p R^2 (1 - nu)/(2 E t).

    Measured 2.3e-6 and 4.8e-5: the hole at the pole, and (t/R)^2/8.
    """
    some, held = half_sphere(thickness)
    held |= {at(0, W): 0.0, at(0, B): 0.0}
    moved = moved_by(some.stiffness(0), some.pressed(), held)[U]
    a, b = 1.0 - thickness / 2.0, 1.0 + thickness / 2.0
    expected = a**3 / (b**3 - a**3) * (1.0 - 2.0 * NU + (1.0 + NU) * b**3 / 2.0)
    assert moved == pytest.approx(expected, rel=close)
    assert moved == pytest.approx((1.0 - NU) / 2.0 / thickness, rel=thickness)


def test_hemisphere_with_loads_at_its_edge():
    """Moves 2 lambda H/(E t), turn 2 lambda^2 H/(E t R) and 4 lambda^3 M/(E t R^2), lambda^4 = 3 (1 - nu^2) (R/t)^2.

    Geckeler's edge formulas (from memory), at the equator good to the order of t/R. Measured 3.2e-4 at most, in
    proportion to t/R = 0.002: 5e-4.
    """
    some, held = half_sphere(THIN)
    held[at(some.nodes - 1, W)] = 0.0
    matrix, decay = some.stiffness(0), (3.0 * (1.0 - NU**2)) ** 0.25 / np.sqrt(THIN)
    pushed, turned = np.zeros(len(matrix)), np.zeros(len(matrix))
    pushed[U] = turned[B] = 2.0 * np.pi
    by_push, by_turn = moved_by(matrix, pushed, held), moved_by(matrix, turned, held)
    assert by_push[U] == pytest.approx(2.0 * decay / THIN, rel=5e-4)
    assert abs(by_push[B]) == pytest.approx(2.0 * decay**2 / THIN, rel=5e-4)
    assert abs(by_turn[B]) == pytest.approx(4.0 * decay**3 / THIN, rel=5e-4)


# Flat ring ----------------------------------------------------------------------------------------------------------

INNER, OUTER = 0.10, 0.14


def flat_ring(thickness: float):
    return shell(straight(angle=np.pi / 2.0, length=OUTER - INNER, radius=INNER, thickness=thickness, parts=2))


@pytest.mark.parametrize("thickness", [0.001, 0.004])
def test_flat_ring_with_guided_edges(thickness):
    """Kirchhoff plate whose edges do not turn, ring load F: slope A r + B/r + c r ln r, c = F/(4 pi D), by hand.

    With Reissner's shear F ln(b/a)/(2 pi (5/6) G t), which is 0.2 % and 3 % here, exact for this element: 1e-8 is
    rounding and the order of the element.
    """
    a, b, bend, rigid = INNER, OUTER, plate_stiffness(thickness), 0.5 / (1.0 + NU)
    some = flat_ring(thickness)
    matrix, last = some.stiffness(0), some.nodes - 1
    held = {at(0, W): 0.0, at(0, B): 0.0, at(last, B): 0.0, at(last, W): 1.0}
    force = (matrix @ moved_by(matrix, np.zeros(len(matrix)), held))[at(last, W)]
    c = 1.0 / (4.0 * np.pi * bend)
    first = -c * (b**2 * np.log(b) - a**2 * np.log(a)) / (b**2 - a**2)
    second = c * a**2 * b**2 * np.log(b / a) / (b**2 - a**2)
    moved = quad(lambda r: first * r + second / r + c * r * np.log(r), a, b, epsrel=1e-12)[0]
    sheared = np.log(b / a) / (2.0 * np.pi * 5.0 / 6.0 * rigid * thickness)
    assert 1.0 / force == pytest.approx(abs(moved) + sheared, rel=1e-8)


@pytest.mark.parametrize("thickness", [0.001, 0.004])
def test_flat_ring_under_pressure(thickness):
    """Edges that do not turn, the outer held, the inner free along the axis: shear p (r^2 - a^2)/(2 r), by hand.

    D (slope'' + ...) gives slope p r^3/(16 D) - p a^2 r (2 ln r - 1)/(8 D) + C r + E/r, nought at both edges; with
    shear in the movement (2 % and more of it) exact for this element: 1e-8.
    """
    a, b, bend, rigid = INNER, OUTER, plate_stiffness(thickness), 0.5 / (1.0 + NU)
    some = flat_ring(thickness)
    held = {at(0, B): 0.0, at(some.nodes - 1, B): 0.0, at(some.nodes - 1, W): 0.0}
    moved = moved_by(some.stiffness(0), some.pressed(), held)[W]

    def loaded(r: float) -> float:
        return r**3 / (16.0 * bend) - a**2 * r * (2.0 * np.log(r) - 1.0) / (8.0 * bend)

    first, second = np.linalg.solve([[a, 1.0 / a], [b, 1.0 / b]], [-loaded(a), -loaded(b)])
    bent = quad(lambda r: loaded(r) + first * r + second / r, a, b, epsrel=1e-12)[0]
    sheared = quad(lambda r: (r**2 - a**2) / (2.0 * r), a, b)[0] / (5.0 / 6.0 * rigid * thickness)
    assert abs(moved) == pytest.approx(abs(bent) + sheared, rel=1e-8)


# What no shell resists ----------------------------------------------------------------------------------------------


def test_moving_along_the_axis_costs_nothing():
    """A patch test: forces of a rigid movement, beside those that a tenth of it would ask if it bent the shell."""
    some = shell(arc(start=-1.2, end=1.3, radius=0.1, thickness=0.01, parts=3, ring=0.4))
    matrix = some.stiffness(0)
    moved = np.zeros(len(matrix))
    moved[W::3] = 1.0
    assert np.abs(matrix @ moved).max() < 1e-12 * (np.abs(matrix) @ np.abs(moved)).max()  # rounding


def test_stiffness_is_symmetric_and_never_below_zero():
    some = shell(arc(start=-1.2, end=1.3, radius=0.1, thickness=0.01, parts=3, ring=0.4))
    for harmonic, free in ((0, 1), (1, 2), (2, 0)):
        matrix = some.stiffness(harmonic)
        assert np.abs(matrix - matrix.T).max() < 1e-15 * np.abs(matrix).max()
        values = np.linalg.eigvalsh(matrix)
        # rigid movements: one along the axis; one sideways and one turn; none with two waves
        assert np.abs(values[:free]).max(initial=0.0) < 1e-14 * values[-1]
        assert values[free] > 1e-12 * values[-1]
