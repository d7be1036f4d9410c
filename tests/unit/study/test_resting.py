"""Where contacts come to rest, against bounded least squares of another hand and by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import lsq_linear

from takeup.study.bowing.resting import rest_of


def problem(seed: int, size: int):
    """Return a positive G, R_0 and rooms of some contacts."""
    draw = np.random.default_rng(seed)
    shape = draw.normal(size=(size, size))
    return shape @ shape.T + 0.1 * np.eye(size), draw.normal(size=size), -draw.random(size), draw.random(size)


@settings(deadline=None, max_examples=40)
@given(seed=st.integers(0, 10_000), size=st.integers(1, 8))
def test_rest_is_the_least_of_the_energy_within_the_room(seed, size):
    """1/2 w G w + R w = 1/2 |L^T w + L^-1 R|^2 and a constant: a bounded least squares problem (by hand)."""
    stiffness, start, low, high = problem(seed, size)
    found = rest_of(stiffness, start, low, high)
    assert isinstance(found, np.ndarray)
    root = np.linalg.cholesky(stiffness)
    theirs = lsq_linear(root.T, -np.linalg.solve(root, start), bounds=(low, high), method="bvls", tol=1e-14).x
    assert found == pytest.approx(theirs, abs=1e-7)  # their tolerance, on energies of order one


def test_what_wants_to_bow_away_comes_to_rest_where_something_stops_it():
    """G = -1: beyond its critical load; pushed with 0.1 it goes on to the end of its room on that side."""
    stiffness, low, high = -np.eye(1), np.array([-0.002]), np.array([0.003])
    assert rest_of(stiffness, np.array([-0.1]), low, high) == pytest.approx([0.003])
    assert rest_of(stiffness, np.array([0.1]), low, high) == pytest.approx([-0.002])


def test_what_nothing_stops_is_said():
    found = rest_of(-np.eye(1), np.array([-0.1]), np.array([-1.0]), np.array([1.0]))
    assert isinstance(found, str)
    assert "nothing stops it within 1 m" in found


def test_a_pressed_contact_stays_until_it_is_drawn_off():
    """Pressed with 50 N, its foot on the low side: 30 N against it leave it there, 70 N move it by 20 N over 1 kN/m."""
    stiffness, low, high = 1000.0 * np.eye(1), np.zeros(1), np.array([1.0 / 3.0])
    assert rest_of(stiffness, np.array([50.0 - 30.0]), low, high) == pytest.approx([0.0])
    assert rest_of(stiffness, np.array([50.0 - 70.0]), low, high) == pytest.approx([0.02])


def test_no_contacts_are_at_rest():
    none = np.zeros(0)
    assert len(rest_of(np.zeros((0, 0)), none, none, none)) == 0
