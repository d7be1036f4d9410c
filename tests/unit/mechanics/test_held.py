"""Mechanisms: found from the holds alone, and told one way.     (tests/unit/mechanics/test_held.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from tests.unit.mechanics.builders import ANCHOR, PINNED, chain, rotation, straights, supports

from takeup.mechanics import Factor, NotHeld, factorise
from takeup.mechanics.held import _canonical, free_motions, lowest_connected

GUIDE = (False, True, True, False, False, False)
PIPE = np.outer([0.0, 2.0, 4.0, 6.0, 8.0], [1.0, 0.0, 0.0])  # its centre is at (4, 0, 0)
ALONG, ABOUT_X = "can move freely along (1, 0, 0)", "can turn freely about the direction (1, 0, 0) through (4, 0, 0) m"


def words(frame):
    """Return the free motions of a frame in words."""
    motions = free_motions(frame)
    assert isinstance(motions, NotHeld)
    return motions.words


def test_held_one_guide_leaves_four_motions():
    """The guide is at (2, 0, 0): sliding, rolling, and two turns about axes through the guide (by inspection)."""
    assert words(chain(PIPE, {1: GUIDE})) == (
        ALONG,
        ABOUT_X,
        "can turn freely about the direction (0, 1, 0) through (2, 0, 0) m",
        "can turn freely about the direction (0, 0, 1) through (2, 0, 0) m",
    )


def test_held_two_guides_leave_sliding_and_rolling():
    assert words(chain(PIPE, {1: GUIDE, 3: GUIDE})) == (ALONG, ABOUT_X)


def test_held_three_guides_leave_the_same_motions():
    assert words(chain(PIPE, {0: GUIDE, 1: GUIDE, 3: GUIDE})) == (ALONG, ABOUT_X)


def test_held_nothing_leaves_six_motions():
    found = words(chain(PIPE, {}))
    assert len(found) == 6
    assert found[:3] == (ALONG, "can move freely along (0, 1, 0)", "can move freely along (0, 0, 1)")


def test_held_two_pins_leave_rolling():
    assert words(chain(PIPE, {0: PINNED, 4: PINNED})) == (ABOUT_X,)


def test_held_guide_of_an_oblique_pipe_slides_along_it():
    """A pipe at 45 degrees in plan: the free direction is (1, 1, 0)/sqrt(2) = (0.707, 0.707, 0)."""
    matrix = rotation((0.0, 0.0, np.pi / 4.0))
    frame = chain(PIPE @ matrix.T, {1: GUIDE, 3: GUIDE}, axes={1: matrix.T, 3: matrix.T})
    assert words(frame)[0] == "can move freely along (0.707, 0.707, 0)"
    assert words(frame)[1].startswith("can turn freely about the direction (0.707, 0.707, 0) through (2.83, 2.83, 0) m")


def test_held_turns_of_an_oblique_pipe_are_cleared_of_sliding():
    """The same pipe on one guide at (1.41, 1.41, 0): the axis of each turn is where it moves nothing along the pipe.

    Turning about x through (_, y, 0) moves the centre (2.83, 2.83, 0) up only, so y is the guide's 1.41, and the axis
    is shown at its point nearest to the centre, (2.83, 1.41, 0); about y and z likewise (by hand).
    """
    matrix = rotation((0.0, 0.0, np.pi / 4.0))
    assert words(chain(PIPE @ matrix.T, {1: GUIDE}, axes={1: matrix.T})) == (
        "can move freely along (0.707, 0.707, 0)",
        "can turn freely about the direction (1, 0, 0) through (2.83, 1.41, 0) m",
        "can turn freely about the direction (0, 1, 0) through (1.41, 2.83, 0) m",
        "can turn freely about the direction (0, 0, 1) through (1.41, 1.41, 0) m",
    )


def test_held_screw_is_told_with_its_advance():
    """A skew roller beside a pipe that may slide and roll.

    At (0, 1, 0) the roller holds (1, 0, 1)/sqrt(2): with rolling r about x and shift s along x, s + r = 0. At
    (0, 0, 0) y, z and the turns about y and z are held. So the pipe screws: one metre back for a radian (by hand).
    """
    points = [[0.0, 0.0, 0.0], [0.0, 1.0, 0.0]]
    half = np.sqrt(0.5)
    skew = [[half, 0.0, half], [0.0, 1.0, 0.0], [-half, 0.0, half]]
    frame = chain(points, {0: (False, True, True, False, True, True), 1: (True, *[False] * 5)}, axes={1: skew})
    assert words(frame) == (
        "can turn freely about the direction (1, 0, 0) through (0, 0, 0) m, advancing -1 m a radian",
    )


def test_held_turn_sheds_its_advance_where_a_free_translation_allows():
    """Free: along (1, 1, 0), and a screw about x that advances by -1. Adding one of the former leaves a pure turn.

    (-1, 0, 0) + (1, 1, 0) = (0, 1, 0), square to the axis (by hand).
    """
    shift, turn = _canonical(np.array([[1.0, 1, 0, 0, 0, 0], [-1.0, 0, 0, 1, 0, 0]]))
    assert shift == pytest.approx([np.sqrt(0.5), np.sqrt(0.5), 0, 0, 0, 0])
    assert turn == pytest.approx([0, 1, 0, 1, 0, 0], abs=1e-15)


@pytest.mark.parametrize("holds", [{1: GUIDE}, {}, {0: PINNED, 4: PINNED}, {2: (False, False, True) + (False,) * 3}])
def test_held_motions_respect_the_holds_and_are_of_size_one(holds):
    """Each motion leaves held directions alone; its largest translation is one, or none (a turn about the pipe)."""
    frame = chain(PIPE, holds)
    motions = free_motions(frame).motions
    for motion in motions:
        for node, flags in holds.items():
            assert motion[node][np.array(flags)] == pytest.approx(0.0, abs=1e-12)
        largest = np.abs(motion[:, :3]).max()
        assert largest == pytest.approx(1.0) or largest < 1e-9


def test_held_free_motions_strain_nothing():
    """Between neighbours: du = w x d, dw = 0, for every motion of a guided dog-leg."""
    points = np.array([[0.0, 0, 0], [3, 0, 0], [3, 2, 0], [3, 2, 5]])
    for motion in free_motions(chain(points, {1: GUIDE})).motions:
        turn = motion[0, 3:]
        assert np.diff(motion[:, 3:], axis=0) == pytest.approx(0.0, abs=1e-12)
        assert np.diff(motion[:, :3], axis=0) == pytest.approx(np.cross(turn, np.diff(points, axis=0)), abs=1e-12)


def test_held_by_springs_is_held():
    frame = chain(PIPE, {0: GUIDE, 4: GUIDE}, springs={0: [1e-3, 0, 0, 1e-3, 0, 0]})
    assert free_motions(frame) is None
    assert isinstance(factorise(frame), Factor)


def test_held_anchor_is_enough():
    assert free_motions(chain(PIPE, {3: ANCHOR})) is None


def test_held_a_part_that_nothing_joins_is_named():
    """Two pipes, one anchored: the other has its six motions."""
    frame = chain(PIPE, {0: ANCHOR})
    frame = replace(frame, straights=straights([0, 1, 3], [1, 2, 4]))
    found = factorise(frame)
    assert isinstance(found, NotHeld)
    assert len(found.words) == 6
    assert np.abs(found.motions[:, :3]).max() == 0.0  # the anchored part stays


def test_held_a_node_that_nothing_joins_is_named():
    frame = chain(PIPE, {0: ANCHOR})
    frame = replace(frame, straights=straights([0, 1, 2], [1, 2, 3]))
    assert len(words(frame)) == 6


def test_held_branch_from_distant_nodes():
    """A branch that joins node 4 to node 1 is part of the whole."""
    frame = chain(np.vstack([PIPE[:4], [[2.0, 3.0, 0.0]]]), {0: ANCHOR})
    frame = replace(frame, straights=straights([0, 1, 2, 1], [1, 2, 3, 4]), supports=supports({4: ANCHOR}))
    assert free_motions(frame) is None


@pytest.mark.parametrize("seed", range(8))
def test_held_connected_parts_against_scipy(seed):
    """The same parts as scipy.sparse.csgraph.connected_components on random graphs."""
    random = np.random.default_rng(seed)
    count = 40
    starts, ends = random.integers(0, count, size=(2, int(random.integers(5, 60))))
    graph = coo_array((np.ones(len(starts)), (starts, ends)), shape=(count, count))
    _, label = connected_components(graph, directed=False)
    lowest = np.array([np.flatnonzero(label == part).min() for part in label])
    assert (lowest_connected(count, starts, ends) == lowest).all()
