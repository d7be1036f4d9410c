"""A bellows as a member: its rates come out, pressure runs it out.     (tests/unit/mechanics/test_bellows.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.unit.mechanics.builders import ANCHOR, answer, chain, nodal, uniform

from takeup.joints import angular_rate
from takeup.mechanics import bellows_section, pressure_strain

# EJMA forms for a single bellows (from memory, checked by beam theory): D_m 250 mm, L 240 mm, K 200 N/mm.
MEAN_DIAMETER, LENGTH, RATE = 0.250, 0.240, 200e3
AREA = math.pi / 4.0 * MEAN_DIAMETER**2
SECTION = bellows_section(
    axial_rate=RATE, angular_rate=angular_rate(RATE, AREA), torsion_rate=4.0e5, live_length=LENGTH
)


def bellows(members, holds):
    """Return a bellows along y in so many members."""
    return chain(np.outer(np.linspace(0.0, LENGTH, members + 1), [0.0, 1.0, 0.0]), holds(members), section=SECTION)


def test_bellows_angular_rate_printed_example():
    """K D_m^2/8 = 200e3 x 0.0625 / 8 = 1 562.5 N m/rad, 27.27 N m/deg."""
    assert angular_rate(RATE, AREA) == pytest.approx(1562.5, rel=1e-12)
    assert math.radians(angular_rate(RATE, AREA)) == pytest.approx(27.27, rel=2e-4)  # four printed figures


@pytest.mark.parametrize("members", [1, 12])
def test_bellows_lateral_rate_printed_example(members):
    """Ends kept parallel: 12 k_theta/L^2 = 1.5 K D_m^2/L^2 = 325.5 N/mm (four printed figures), however divided.

    Twelve members against one: 12^3 in stiffness costs 1e-16 x 2e3, and refinement takes it back.
    """
    frame = bellows(members, lambda last: {0: ANCHOR, last: (False, True, False, True, True, True)})
    found = answer(frame, nodal(frame, {members: [1e4, 0, 0, 0, 0, 0]}))
    rate = 1e4 / found.displacements[0, -1, 0]
    assert rate == pytest.approx(1.5 * RATE * MEAN_DIAMETER**2 / LENGTH**2, rel=1e-10)
    assert rate == pytest.approx(12.0 * 1562.5 / LENGTH**2, rel=1e-10)
    assert rate == pytest.approx(325.5e3, rel=2e-4)


@pytest.mark.parametrize("members", [1, 12])
def test_bellows_axial_angular_and_torsion_rate(members):
    """A free end under 1 kN, 10 N m and 10 N m moves by F/k_x, M/k_theta and T/k_t (by hand)."""
    frame = bellows(members, lambda _: {0: ANCHOR})
    found = answer(frame, nodal(frame, {members: [0, 1e3, 0, 10, 10, 0]}))
    tip = found.displacements[0, -1]
    assert tip[[1, 3, 4]] == pytest.approx([1e3 / RATE, 10 / 1562.5, 10 / 4.0e5], rel=1e-10)


def test_bellows_pressure_runs_a_free_bellows_out():
    """10 bar on A_e = 49 087 mm2 is 49.09 kN; a free end runs out by P A_e / k_x = 0.2454 m (by hand)."""
    frame = bellows(1, lambda _: {0: ANCHOR})
    found = answer(frame, uniform(frame, strain=pressure_strain(1e6, AREA, SECTION.axial)))
    assert found.displacements[0, -1, 1] == pytest.approx(0.2454, rel=2e-4)  # four figures by hand
    assert np.abs(found.end_forces).max() < 1e-6  # newtons: rounding of 49 kN


def test_bellows_pressure_pushes_anchors_apart():
    """Between anchors each feels P A_e = 49 087 N, away from the bellows; the anchors push back (by hand)."""
    frame = bellows(1, lambda last: {0: ANCHOR, last: ANCHOR})
    found = answer(frame, uniform(frame, strain=pressure_strain(1e6, AREA, SECTION.axial)))
    assert found.reactions[0, :, 1] == pytest.approx([49_087, -49_087], rel=1e-5)  # five figures by hand
