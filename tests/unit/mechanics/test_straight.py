"""Straight members: patch tests, then the beam formulas.     (tests/unit/mechanics/test_straight.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.unit.mechanics.builders import (
    ANCHOR,
    AXIAL,
    BENDING,
    TORSION,
    answer,
    chain,
    nodal,
    rotation,
    uniform,
)

from takeup.mechanics.straight import cross, cross_matrices, cyclic

LENGTH = 7.3
CUTS = ([0.0, 1.0], [0.0, 0.5, 1.0], [0.0, 0.013, 0.2, 0.21, 0.77, 0.9, 1.0])  # one member, two, six very unequal ones
TURNS = ((0.0, 0.0, 0.0), (0.4, -1.1, 0.8), (0.0, 1.5707963267948966, 0.0))  # along x; askew; upright
# A member a hundredth of the whole is 100^3 stiffer against bending: 1e-16 x 1e6, and two figures in hand.
EXACT = 1e-8


def cantilever(cuts, turn):
    """Return a cantilever cut at fractions of its length, its axes, and the stations of its nodes."""
    stations = LENGTH * np.array(cuts)
    axes = rotation(turn).T  # rows: along, and two across
    return chain(np.outer(stations, axes[0]), {0: ANCHOR}), axes, stations


@pytest.mark.parametrize("cuts", CUTS)
@pytest.mark.parametrize("turn", TURNS)
def test_straight_patch_uniform_tension(cuts, turn):
    """u(s) = F s / EA at every node, in every member the force F."""
    frame, axes, stations = cantilever(cuts, turn)
    found = answer(frame, nodal(frame, {len(cuts) - 1: [*(9e4 * axes[0]), 0, 0, 0]}))
    exact = np.outer(9e4 * stations / AXIAL, axes[0])
    assert found.displacements[0, :, :3] == pytest.approx(exact, rel=EXACT, abs=EXACT * np.abs(exact).max())
    assert found.end_forces[0, :, :3] @ axes[0] == pytest.approx(9e4, rel=EXACT)


@pytest.mark.parametrize("cuts", CUTS)
@pytest.mark.parametrize("turn", TURNS)
def test_straight_patch_uniform_bending(cuts, turn):
    """A moment M about the second axis: theta(s) = M s / EI, deflection -M s^2 / 2EI along the third, at every node."""
    frame, axes, stations = cantilever(cuts, turn)
    found = answer(frame, nodal(frame, {len(cuts) - 1: [0, 0, 0, *(2e4 * axes[1])]}))
    turned = np.outer(2e4 * stations / BENDING, axes[1])
    shifted = np.outer(-2e4 * stations**2 / (2.0 * BENDING), axes[2])
    assert found.displacements[0, :, 3:] == pytest.approx(turned, rel=EXACT, abs=EXACT * np.abs(turned).max())
    assert found.displacements[0, :, :3] == pytest.approx(shifted, rel=EXACT, abs=EXACT * np.abs(shifted).max())
    assert found.end_forces[0, :, 3:] @ axes[1] == pytest.approx(2e4, rel=EXACT)


@pytest.mark.parametrize("cuts", CUTS)
@pytest.mark.parametrize("turn", TURNS)
def test_straight_patch_uniform_twist(cuts, turn):
    """theta(s) = T s / GJ at every node."""
    frame, axes, stations = cantilever(cuts, turn)
    found = answer(frame, nodal(frame, {len(cuts) - 1: [0, 0, 0, *(3e3 * axes[0])]}))
    exact = np.outer(3e3 * stations / TORSION, axes[0])
    assert found.displacements[0, :, 3:] == pytest.approx(exact, rel=EXACT, abs=EXACT * np.abs(exact).max())


@pytest.mark.parametrize("members", [1, 5])
def test_straight_guided_cantilever_printed_example(members):
    """NPS 6 Sch 40, L = 20 ft, E = 27.9e6 psi, I = 28.14 in4: 1 363 lbf move the guided end by 2.0 in.

    Textbook 12 E I D / L^3 (as in the guided cantilever method); by hand 12 x 27.9e6 x 28.14 x 2 / 240^3 = 1 363 lbf.
    Inches and pounds: this room takes any one consistent set.
    """
    points = np.outer(np.linspace(0.0, 240.0, members + 1), [1.0, 0.0, 0.0])
    guided = (False, False, False, True, True, True)
    frame = chain(points, {0: ANCHOR, members: guided}, section=(1e8, 27.9e6 * 28.14, 1e8))
    found = answer(frame, nodal(frame, {members: [0, 1363, 0, 0, 0, 0]}))
    assert found.displacements[0, -1, 1] == pytest.approx(2.0, rel=4e-4)  # the force is printed to four figures


def test_straight_cantilever_with_end_load():
    """P L^3 / 3EI and P L^2 / 2EI: 12 kN on 7.3 m (by formula, textbook)."""
    frame, axes, _ = cantilever(CUTS[2], TURNS[1])
    found = answer(frame, nodal(frame, {6: [*(1.2e4 * axes[2]), 0, 0, 0]}))
    tip = found.displacements[0, -1]
    assert tip[:3] @ axes[2] == pytest.approx(1.2e4 * LENGTH**3 / (3.0 * BENDING), rel=EXACT)
    assert tip[3:] @ axes[1] == pytest.approx(-1.2e4 * LENGTH**2 / (2.0 * BENDING), rel=EXACT)


@pytest.mark.parametrize("cuts", [CUTS[1], [0.0, 0.1, 0.5, 0.8, 1.0]])
def test_straight_fixed_ends_uniform_load(cuts):
    """Textbook: q L^4 / 384EI in the middle, q L^2 / 12 and q L / 2 at the ends."""
    stations = LENGTH * np.array(cuts)
    frame = chain(np.outer(stations, [0.6, 0.8, 0.0]), {0: ANCHOR, len(cuts) - 1: ANCHOR})
    found = answer(frame, uniform(frame, per_length=(0.0, 0.0, -850.0)))
    middle = found.displacements[0, cuts.index(0.5)]
    assert middle[2] == pytest.approx(-850.0 * LENGTH**4 / (384.0 * BENDING), rel=EXACT)
    assert found.reactions[0, :, 2] == pytest.approx(850.0 * LENGTH / 2.0, rel=EXACT)
    assert np.linalg.norm(found.reactions[0, 0, 3:]) == pytest.approx(850.0 * LENGTH**2 / 12.0, rel=EXACT)


def test_straight_growth_between_anchors():
    """The pipe is in compression, E A eps; it pushes its anchors apart, so the anchors push it together (by hand)."""
    frame = chain(np.outer([0.0, 1.7, 2.0, 7.3], [1.0, 0.0, 0.0]), {0: ANCHOR, 3: ANCHOR})
    found = answer(frame, uniform(frame, strain=2.2e-3))
    assert found.reactions[0, 0, :3] == pytest.approx([AXIAL * 2.2e-3, 0.0, 0.0], rel=EXACT, abs=1e-3)
    assert found.reactions[0, 1, :3] == pytest.approx([-AXIAL * 2.2e-3, 0.0, 0.0], rel=EXACT, abs=1e-3)


def test_straight_growth_of_a_free_pipe():
    """A free pipe grows by eps L and carries nothing; 1e-9 of E A eps is rounding (eps times length over strain)."""
    frame = chain(np.outer([0.0, 1.7, 2.0, 7.3], [0.6, 0.0, 0.8]), {0: ANCHOR})
    found = answer(frame, uniform(frame, strain=2.2e-3))
    assert found.displacements[0, :, :3] == pytest.approx(2.2e-3 * frame.points, rel=EXACT, abs=1e-14)
    assert np.abs(found.end_forces).max() < 1e-9 * AXIAL * 2.2e-3


def test_cross_product_of_cyclic_vectors():
    """Against numpy.cross, and against the matrix [v x]; the same operations, so only the last bit may differ."""
    left, right = np.random.default_rng(1).normal(size=(2, 5, 3))
    expected = np.cross(left, right)
    found = cross(cyclic(left.T), cyclic(right.T)).T
    assert found == pytest.approx(expected, rel=1e-14, abs=1e-14)
    assert np.einsum("pij,pj->pi", cross_matrices(left), right) == pytest.approx(expected, rel=1e-14, abs=1e-14)
