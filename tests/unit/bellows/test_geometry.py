"""The shape of a bellows: wall, lengths, thinning.     (bellows/test_geometry.py)"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from takeup.bellows.geometry import (
    bellows,
    chosen,
    live_length,
    mean_diameter,
    metal_length,
    root_middle_radius,
    stack_thickness,
    thinned_thickness,
    wall,
)

DN200 = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "ply_thickness": 0.001}


def test_parallel_walls_by_hand():
    """Radii q/4 = 6 mm: a right angle, length w - 2 r = 10 mm; metal 2 (10 + pi 6) = 57.699 mm (check values C5).

    C5's metal area is 54.889 mm2 over t_p 0.95129 mm: 57.699 mm; five figures printed.
    """
    shape = bellows(**DN200, convolutions=8)
    assert np.degrees(wall(shape).angle) == pytest.approx(90.0, rel=1e-12)
    assert wall(shape).length == pytest.approx(0.010, rel=1e-12)
    assert metal_length(shape) == pytest.approx(0.020 + 2.0 * np.pi * 0.006, rel=1e-12)
    assert metal_length(shape) * thinned_thickness(shape) == pytest.approx(54.889e-6, rel=2e-5)
    assert thinned_thickness(shape) == pytest.approx(0.95129e-3, rel=1e-5)
    assert mean_diameter(shape) == pytest.approx(0.242, rel=1e-12)
    assert live_length(shape) == pytest.approx(0.192, rel=1e-12)
    assert root_middle_radius(shape) == pytest.approx(0.110, rel=1e-12)


def test_stack_of_plies_by_hand():
    """Three plies of 0.6 mm: stack 1.8 mm, D_m = 219 + 22 + 1.8 mm, middle of the root (219 + 1.8)/2 mm."""
    shape = bellows(**DN200 | {"ply_thickness": 0.0006}, plies=3)
    assert stack_thickness(shape) == pytest.approx(0.0018, rel=1e-12)
    assert mean_diameter(shape) == pytest.approx(0.2428, rel=1e-12)
    assert root_middle_radius(shape) == pytest.approx(0.1104, rel=1e-12)
    assert thinned_thickness(shape) == pytest.approx(0.0006 * np.sqrt(219.0 / 242.8), rel=1e-12)


@given(
    height=st.floats(0.005, 0.05),
    pitch=st.floats(0.005, 0.05),
    crest=st.floats(0.1, 1.9),
    root=st.floats(0.1, 1.9),
)
def test_arcs_and_wall_reach_the_crest(height, pitch, crest, root):
    """Root arc, wall and crest arc end to end span half the pitch and the whole height, whatever the slope.

    Across (r_1 + r_2)(1 - cos) + L sin = w, along (r_1 + r_2) sin + L cos = q/2 (drawn by hand); rounding of lengths.
    """
    crest, root = crest * pitch / 4.0, root * pitch / 4.0
    shape = bellows(
        inside_diameter=0.2, height=height, pitch=pitch, ply_thickness=0.001, crest_radius=crest, root_radius=root
    )
    line, both = wall(shape), crest + root
    assume(not np.isnan(line.length[0]))
    sine, cosine = np.sin(line.angle[0]), np.cos(line.angle[0])
    assert both * (1.0 - cosine) + line.length[0] * sine == pytest.approx(height, rel=1e-6)
    assert both * sine + line.length[0] * cosine == pytest.approx(pitch / 2.0, rel=1e-6)


@pytest.mark.parametrize(("radius", "slope"), [(0.005, "splayed"), (0.006, "parallel"), (0.0065, "re-entrant")])
def test_walls_are_splayed_parallel_or_re_entrant_by_their_radii(radius, slope):
    """Radii below a quarter of the pitch of 24 mm, equal to it, above it."""
    angle = np.degrees(wall(bellows(**DN200, crest_radius=radius, root_radius=radius)).angle[0])
    found = "parallel" if angle == pytest.approx(90.0, abs=1e-9) else "splayed" if angle < 90.0 else "re-entrant"
    assert found == slope


def test_wall_of_no_length_is_one():
    """Height 18, pitch 36, radii 9 mm: the arcs just meet; written in decimals, the square is rounding either side."""
    shape = bellows(inside_diameter=0.219, height=0.018, pitch=0.036, ply_thickness=0.001)
    assert wall(shape).length == pytest.approx(0.0, abs=1e-12)
    assert not np.isnan(wall(shape).length[0])


def test_arcs_that_overlap_have_no_wall():
    shape = bellows(**DN200 | {"height": 0.018, "pitch": 0.036}, crest_radius=0.0105, root_radius=0.0105)
    assert np.isnan(wall(shape).length[0])
    assert np.isnan(metal_length(shape)[0])


def test_numbers_and_arrays_fit_one_another():
    shape = bellows(**DN200 | {"height": [0.02, 0.022, 0.024]}, plies=2)
    assert len(shape) == 3
    assert shape.plies.tolist() == [2.0, 2.0, 2.0]
    assert shape.crest_radius.tolist() == [0.006] * 3
    assert chosen(shape, np.array([False, True, True])).height.tolist() == [0.022, 0.024]
