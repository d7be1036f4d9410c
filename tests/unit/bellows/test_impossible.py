"""Shapes that no bellows can have, each with its reason, and those at the edge that can.     (test_impossible.py)"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.bellows.geometry import bellows, wall
from takeup.bellows.impossible import impossible

DN200 = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "ply_thickness": 0.001}


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"height": 0.018, "pitch": 0.036, "crest_radius": 0.0105, "root_radius": 0.0105}, "the radii overlap"),
        ({"crest_radius": 0.014, "root_radius": 0.008}, "the radii overlap"),
        ({"height": 0.010, "crest_radius": 0.010, "root_radius": 0.004}, "flat wall of negative length"),
        ({"crest_radius": 0.0118, "root_radius": 0.001}, "walls of neighbouring crests cross"),
        ({"root_radius": 0.0118, "crest_radius": 0.001}, "walls of neighbouring roots cross"),
        ({"plies": 5, "ply_thickness": 0.0025}, "walls of neighbouring crests cross"),
        ({"crest_radius": 0.0004}, "crest radius 0.4 mm is less than half the 1 mm of all plies"),
        ({"root_radius": 0.0004}, "root radius 0.4 mm is less than half the 1 mm of all plies"),
        ({"plies": 3, "root_radius": 0.0014}, "less than half the 3 mm of all plies"),
        ({"height": 0.0}, "height is 0 mm: it must be above zero"),
        ({"pitch": -0.024, "crest_radius": 0.006, "root_radius": 0.006}, "pitch is -24 mm"),
        ({"inside_diameter": 0.0}, "inside diameter is 0 mm"),
        ({"ply_thickness": -0.001}, "ply thickness is -1 mm"),
        ({"crest_radius": 0.0}, "crest radius is 0 mm"),
        ({"root_radius": -0.001}, "root radius is -1 mm"),
        ({"plies": 1.5}, "plies is 1.5: it must be a whole number from 1"),
        ({"plies": 0}, "plies is 0"),
        ({"convolutions": 7.5}, "convolutions is 7.5"),
        ({"convolutions": 0}, "convolutions is 0"),
        ({"tangent_length": -0.01}, "tangent length is -10 mm: it must not be below zero"),
        ({"collar_thickness": -0.001}, "collar thickness is -1 mm"),
        ({"collar_length": -0.001}, "collar length is -1 mm"),
        ({"height": np.nan}, "height is nan mm"),
        ({"plies": np.nan}, "plies is nan"),
        ({"tangent_length": np.nan}, "tangent length is nan mm"),
    ],
)
def test_impossible_shape_is_said_to_be(change, says):
    reasons = impossible(bellows(**DN200 | change), 0)
    assert any(says in reason for reason in reasons), reasons


def test_every_size_that_is_wrong_is_told():
    reasons = impossible(bellows(**DN200 | {"height": 0.0, "plies": 1.5, "tangent_length": -1.0}), 0)
    assert len(reasons) == 3


def test_only_the_row_asked_for_is_looked_at():
    shape = bellows(**DN200 | {"height": [0.022, 0.0]})
    assert not impossible(shape, 0)
    assert impossible(shape, 1)


@pytest.mark.parametrize(
    "change",
    [
        {},
        {"height": 0.018, "pitch": 0.036},  # arcs that just meet
        {"height": 0.005},  # shallow: the arcs turn less than a right angle
        {"crest_radius": 0.0115, "root_radius": 0.002},  # outer sides of crests that just touch: 11.5 + 0.5 = 12 mm
        {"crest_radius": 0.0005, "root_radius": 0.0005},  # inner sides of no radius
        {"crest_radius": 0.0068, "root_radius": 0.0065},  # re-entrant
        {"height": 0.2},  # very deep
        {"plies": 5, "ply_thickness": 0.0024},  # twelve millimetres of plies on radii of six
    ],
)
def test_shape_at_the_edge_can_be(change):
    assert impossible(bellows(**DN200 | change), 0) == ()


@given(
    height=st.floats(0.002, 0.05),
    pitch=st.floats(0.004, 0.05),
    thickness=st.floats(0.0002, 0.004),
    crest=st.floats(0.02, 2.2),
    root=st.floats(0.02, 2.2),
)
def test_what_can_be_has_a_wall_and_sides_that_keep_apart(height, pitch, thickness, crest, root):
    """Checked on points of the two faces: nowhere beyond the planes of root and crest, which mirror them.

    Half the pitch lies between the planes; the far faces of the arcs come nearest to the other plane. A thousandth of
    the pitch for the spacing of the points.
    """
    shape = bellows(
        inside_diameter=0.3,
        height=height,
        pitch=pitch,
        ply_thickness=thickness,
        crest_radius=crest * pitch / 4.0,
        root_radius=root * pitch / 4.0,
    )
    if impossible(shape, 0):
        return
    line = wall(shape)
    assert line.length[0] >= 0.0
    turn = np.linspace(0.0, line.angle[0], 200)
    crest_face = pitch / 2.0 - (shape.crest_radius[0] + thickness / 2.0) * np.sin(turn)
    root_face = (shape.root_radius[0] + thickness / 2.0) * np.sin(turn)
    assert crest_face.min() > -1e-3 * pitch
    assert root_face.max() < (0.5 + 1e-3) * pitch
