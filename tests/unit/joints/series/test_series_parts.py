"""Lengths, masses and the invented index of the series, by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from takeup.bellows.geometry import bellows
from takeup.joints.series.inputs import series_inputs
from takeup.joints.series.parts import built, pipe_of, price_index, required_wall
from takeup.joints.sizing.masses import bellows_mass, tube_mass

ONE = np.ones(1)


def a_bellows():
    """Return a bellows whose walls are parallel: the meridian is 2 pi r + 2 (w - 2 r), r = q/4."""
    return bellows(
        inside_diameter=0.2191,
        height=0.03,
        pitch=0.03,
        convolutions=8,
        plies=2,
        ply_thickness=1e-3,
        tangent_length=0.01,
        collar_thickness=2e-3,
        collar_length=0.01,
    )


def test_mass_of_a_bellows_hand_calculation():
    """D_m 251.1 mm, t_p 0.93410 mm, s = 2 pi 7.5 + 2 (30 - 15) = 77.124 mm, N s = 616.99 mm.

    Convolutions 616.99 x 251.1 x 1.86820 = 289 432 mm3, tangents 2 x 10 x 221.1 x 2 = 8 844, collars
    2 x 10 x 225.1 x 2 = 9 004; times pi 7900 kg/m3: 7.6261 kg (by hand).
    """
    assert bellows_mass(a_bellows(), 7900.0) == pytest.approx([7.6261], rel=1e-4)  # five figures of the hand


def test_mass_of_a_tube_hand_calculation():
    """219.1 x 6.3 mm, 1 m: pi 212.8 x 6.3 mm2 = 4211.7 mm2, at 7850 kg/m3 33.06 kg (by hand)."""
    assert float(tube_mass(0.2191, 6.3e-3, 1.0, 7850.0)) == pytest.approx(33.06, rel=1e-3)  # four figures of the hand


def test_wall_for_pressure_hand_calculation():
    """20 bar on 1016 mm at 100 MPa: 2 x 1016 / 202 = 10.059 mm (EN 13480-3 cl. 6.1, from memory)."""
    assert required_wall(2e6, 1.016, 100e6) == pytest.approx(10.059e-3, rel=1e-4)  # five figures of the hand


def test_pipe_has_the_first_wall_that_is_thick_enough():
    """DN 1000: 10.059 + 1 mm asks for 12.5 mm at 20 bar; at 6 bar EN 253's 11 mm is thick enough (EN 10220)."""
    ends = series_inputs().pipe
    assert [pipe_of(ends, 1000, pressure).wall for pressure in (6e5, 20e5)] == pytest.approx([0.011, 0.0125])
    assert pipe_of(ends, 50, 20e5).wall == pytest.approx(2.9e-3)


def test_stub_and_clearance_hand_calculation():
    """DN 200: 40 + 21.91 mm, up to 65 mm; 3 mm round the pipe. DN 1000: 40 + 101.6, up to 145; 10.16, up to 11 mm."""
    small, large = (pipe_of(series_inputs().pipe, size, 6e5) for size in (200, 1000))
    assert (small.stub, small.clearance) == pytest.approx((0.065, 0.003))
    assert (large.stub, large.clearance) == pytest.approx((0.145, 0.011))


def test_single_axial_is_bellows_and_two_stubs():
    pipe, shape = pipe_of(series_inputs().pipe, 200, 6e5), a_bellows()
    made = built("single axial", shape, pipe, 7900.0, spool=0.0 * ONE, range_=0.0 * ONE)
    assert made.length == pytest.approx([0.24 + 0.13])
    stubs = float(tube_mass(0.2191, 4.5e-3, 0.13, 7850.0))
    assert made.weight == pytest.approx(bellows_mass(shape, 7900.0) + stubs)


def test_universal_is_two_bellows_spool_and_stubs():
    pipe, shape = pipe_of(series_inputs().pipe, 200, 6e5), a_bellows()
    made = built("universal", shape, pipe, 7900.0, spool=0.3 * ONE, range_=0.0 * ONE)
    assert made.length == pytest.approx([0.48 + 0.3 + 0.13])
    tubes = float(tube_mass(0.2191, 4.5e-3, 0.43, 7850.0))
    assert made.weight == pytest.approx(2.0 * bellows_mass(shape, 7900.0) + tubes)


def test_housing_and_rings_hand_calculation():
    """Bore 219.1 + 60 + 4 + 6 = 289.1 mm; wall 4.5 x 289.1/219.1 = 5.94, up to 6 mm; rings 12 mm thick, three of them.

    Housing 240 + 50 + 36 = 326 mm: 301.1 x 6 mm tube, 14.23 kg. Inner pipe 252 mm: 6.003 kg. Rings between 219.1 and
    301.1 mm: 3 x 12 mm of pi/4 (301.1^2 - 219.1^2) = 33 503 mm2, 9.468 kg. Stubs 130 mm: 3.097 kg. In all 32.80 kg
    (by hand).
    """
    pipe, shape = pipe_of(series_inputs().pipe, 200, 6e5), a_bellows()
    made = built("externally pressurised", shape, pipe, 7900.0, spool=0.0 * ONE, range_=0.05 * ONE)
    assert made.length == pytest.approx([0.326 + 0.13])
    assert made.other_mass == pytest.approx([32.80], rel=1e-3)  # four figures of the hand


def test_price_index_hand_calculation():
    """6 x 7.6261 + 1.5 x 3.097 + 4 x 2 x 8 x 0.2511 + 10 x 2 pi 0.2191 = 80.24 (by hand; the rule is invented)."""
    pipe, shape = pipe_of(series_inputs().pipe, 200, 6e5), a_bellows()
    made = built("single axial", shape, pipe, 7900.0, spool=0.0 * ONE, range_=0.0 * ONE)
    assert price_index(made, shape, 1) == pytest.approx([80.24], rel=1e-3)  # four figures of the hand
    assert made.seams == pytest.approx([2.0 * math.pi * 0.2191])
