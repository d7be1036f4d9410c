"""Tubes, boxes and forms are closed, turned outside out, and as large as they should be. (drawing/mesh/)"""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
import trimesh

from takeup.drawing.mesh.boxes import box, post
from takeup.drawing.mesh.holds import _KINDS, hold_solid, upright
from takeup.drawing.mesh.profile import FORMS, HOUSED, bellows_form
from takeup.drawing.mesh.solid import joined
from takeup.drawing.mesh.sweep import tube
from takeup.drawing.mesh.thin import kept_of
from takeup.drawing.mesh.tones import tone_of

AXES = np.eye(3)


def mesh(shape) -> trimesh.Trimesh:
    """A shape of ours as another library reads it."""
    solid = joined("x", "pipe", [shape])
    return trimesh.Trimesh(solid.vertices, solid.triangles, process=False)


def polygon(sides: int) -> float:
    """Area of a regular polygon in a circle of radius one: n/2 sin(2 pi/n)."""
    return sides / 2.0 * np.sin(2.0 * np.pi / sides)


def test_straight_tube_has_the_volume_of_its_prism():
    """By hand: a polygon of 12 sides in a circle of 0.1 m, 3 m long."""
    made = mesh(tube(np.array([[0.0, 0, 0], [1, 0, 0], [3, 0, 0]]), np.full(3, 0.1), 12))
    assert made.is_watertight
    assert made.is_winding_consistent
    assert made.volume == pytest.approx(3.0 * 0.01 * polygon(12), rel=1e-12)  # plane faces, exact but for rounding


def test_mitred_tube_keeps_its_section_and_its_middle():
    """By hand: cut by planes through the axes, each leg has its length along the axis: 2 m + 1.5 m."""
    points = np.array([[0.0, 0, 0], [2, 0, 0], [2, 1.5, 0]])
    vertices, quads = tube(points, np.full(3, 0.1), 16)
    assert mesh((vertices, quads)).volume == pytest.approx(
        3.5 * 0.01 * polygon(16), rel=1e-12
    )  # exact but for rounding
    assert np.allclose(vertices[:48].reshape(3, 16, 3).mean(axis=1), points, atol=1e-12)
    assert mesh((vertices, quads)).is_watertight


@pytest.mark.parametrize("form", [*FORMS.values(), HOUSED, bellows_form(6, 8)], ids=[*FORMS, "housed", "bellows"])
def test_forms_are_closed_and_turned_outside_out(form):
    points = np.outer([share for share, _ in form], [0.3, 0.2, -0.4])
    made = mesh(tube(points, np.array([over for _, over in form]) * 0.1, 10))
    assert made.is_watertight
    assert made.is_winding_consistent
    assert made.volume > 0.0
    assert [share for share, _ in form] == sorted(share for share, _ in form)
    assert (form[0], form[-1]) == ((0.0, 1.0), (1.0, 1.0))


def test_bellows_has_its_waves():
    """Crests are where the radius is greater than on either side."""
    radii = [over for _, over in bellows_form(7, 8)][3:-3]
    crests = [n for n in range(1, len(radii) - 1) if radii[n - 1] < radii[n] > radii[n + 1]]
    assert len(crests) == 7


def test_tube_that_runs_back_is_closed():
    points = np.array([[0.0, 0, 0], [1, 0, 0], [0.6, 0, 0], [2, 0, 0]])
    vertices, quads = tube(points, np.full(4, 0.1), 8)
    assert mesh((vertices, quads)).is_watertight
    assert np.isfinite(vertices).all()


def test_upright_tube_and_twisted_route_are_closed():
    points = np.array([[0.0, 0, 0], [0, 0, 4], [0, 3, 4], [2, 3, 4], [2, 3, 1]])
    made = mesh(tube(points, np.full(5, 0.05), 12))
    assert made.is_watertight
    assert made.volume == pytest.approx(12.0 * 0.0025 * polygon(12), rel=1e-12)  # legs of 4 + 3 + 2 + 3 m


def test_box_and_post_have_their_volumes():
    axes = upright(np.array([[1.0, 1.0, 0.2]] * 3))
    made = mesh(box(np.array([3.0, 1, 2]), axes, (-1.0, -0.5, 0.0), (1.0, 0.5, 0.25)))
    assert (made.is_watertight, made.is_winding_consistent) == (True, True)
    assert made.volume == pytest.approx(2.0 * 1.0 * 0.25, rel=1e-12)  # exact but for rounding
    assert mesh(post(np.zeros(3), axes, 0.2, 1.0, 2.5)).volume == pytest.approx(1.5 * 0.04 * polygon(12), rel=1e-12)
    assert np.allclose(axes @ axes.T, AXES, atol=1e-15)
    assert np.linalg.det(axes) == pytest.approx(1.0)


@pytest.mark.parametrize("kind", _KINDS)
def test_every_hold_is_a_closed_solid(kind):
    solid = hold_solid("H", kind, np.array([5.0, 2, 1]), upright(np.array([[0.0, 1.0, 0.0]] * 3)), 0.1)
    assert solid is not None
    edges = Counter()
    for a, b, c in solid.triangles.tolist():
        edges.update([(a, b), (b, c), (c, a)])
    assert all(edges[b, a] == count == 1 for (a, b), count in edges.items())  # each edge once either way


def test_hold_that_holds_nothing_by_itself_has_no_solid():
    assert hold_solid("H", "continues", np.zeros(3), AXES, 0.1) is None


def test_straight_and_even_points_are_left_out():
    """By hand: with the fifth of nine points 0.5 m off, 3 x 0.5/4 = 0.375 m is off on either side: within 0.4 m."""
    points = np.zeros((9, 3))
    points[:, 0] = np.arange(9.0)
    assert kept_of(points, np.zeros(9), (1e-6, 1e-6)) == [0, 8]
    points[4, 2] = 0.5
    assert kept_of(points, np.zeros(9), (0.4, 1e-6)) == [0, 4, 8]
    assert kept_of(points, np.arange(9.0), (1.0, 0.5)) == list(range(9))  # every step changes the colour


def test_colours_only_darken():
    """Luminance by the weights of Rec. 709 (from memory) falls all the way, so that grey print keeps the order."""
    tones = tone_of(np.linspace(0.0, 1.0, 33))
    luminance = tones**2.2 @ np.array([0.2126, 0.7152, 0.0722])
    assert (np.diff(luminance) < 0.0).all()
