"""Geometric stiffness: energy of turned lengths, arms, arcs, rods.     (stability/test_geometric.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.unit.mechanics.builders import ANCHOR, arcs, chain, no_straights, rotation, supports
from tests.unit.mechanics.stability.columns import modes

from takeup.mechanics import Frame, Links
from takeup.mechanics.model import make_model
from takeup.mechanics.stability.geometric import arc_blocks, link_blocks, straight_blocks

ROUNDING = 1e-12  # sums of a dozen products of numbers of order one


def one(vector=(2.0, -1.0, 0.5), **offsets):
    """Return the model of one straight member from the origin."""
    frame = chain([np.zeros(3), vector], {0: ANCHOR})
    return make_model(replace(frame, straights=replace(frame.straights, **offsets)))


def turning(points, about):
    """Return the displacements of a small rigid rotation, flat."""
    about = np.array(about)
    return np.concatenate([np.concatenate([np.cross(about, point), about]) for point in points])


def test_straight_turned_as_a_whole_stores_force_times_length():
    """V = S L theta^2/2 for a rotation across the member, none about it nor for a shift (by hand)."""
    model = one()
    block = straight_blocks(model, np.array([3.0]))[0]
    axis, length = model.k.axis[:3, 0], model.k.length[0]
    across = np.cross(axis, [0.0, 0.0, 1.0])
    across /= np.linalg.norm(across)
    for about, expected in ((across, 3.0 * length), (axis, 0.0), (0.0 * axis, 0.0)):
        u = turning(model.frame.points, about)
        u[:3] += 0.7
        u[6:9] += 0.7
        assert u @ block @ u == pytest.approx(expected, abs=ROUNDING * 10.0)
    assert block == pytest.approx(block.T, abs=ROUNDING)


def test_straight_is_the_textbook_matrix():
    """S/30L [36, 3L, -36, 3L; 3L, 4L^2, -3L, -L^2; ...] for v and theta_z along x (Przemieniecki 1968, from memory)."""
    S, L = -7.0, 2.5
    block = straight_blocks(one((L, 0.0, 0.0)), np.array([S]))[0]
    book = np.array(
        [
            [36, 3 * L, -36, 3 * L],
            [3 * L, 4 * L**2, -3 * L, -(L**2)],
            [-36, -3 * L, 36, -3 * L],
            [3 * L, -(L**2), -3 * L, 4 * L**2],
        ]
    )
    plane = [1, 5, 7, 11]
    assert block[np.ix_(plane, plane)] == pytest.approx(S / (30.0 * L) * book, rel=ROUNDING)
    other = [2, 4, 8, 10]  # w and theta_y: the same with theta_y the other way round
    signs = np.array([1.0, -1.0, 1.0, -1.0])
    assert block[np.ix_(other, other)] == pytest.approx(S / (30.0 * L) * book * np.outer(signs, signs), rel=ROUNDING)
    for idle in (0, 3, 6, 9):  # neither stretch nor twist
        assert not block[idle].any()


def test_arms_in_line_turn_like_stiff_lengths():
    """Rigid links in line with the member add S o theta^2: turned as a whole it stores S times the nodes' distance."""
    e = np.array([2.0, -1.0, 0.5]) / np.linalg.norm([2.0, -1.0, 0.5])
    model = one(start_offset=0.4 * e[None], end_offset=-0.3 * e[None])
    block = straight_blocks(model, np.array([3.0]))[0]
    across = np.cross(e, [0.0, 0.0, 1.0])
    across /= np.linalg.norm(across)
    u = turning(model.frame.points, across)
    assert u @ block @ u == pytest.approx(3.0 * np.linalg.norm([2.0, -1.0, 0.5]), rel=ROUNDING)


def test_arms_are_the_limit_of_stiff_members():
    """A column with a rigid length at its foot buckles as with a member ten thousand times as stiff in its place.

    What is left of the difference is the flexibility of that member, 1e-4 of the column's times 1/4 of its length.
    """
    stiff = chain([(0, 0, 0), (1, 0, 0), *((1 + x, 0, 0) for x in np.linspace(0, 4, 9)[1:])], {0: ANCHOR})
    bending = stiff.straights.bending.copy()
    bending[0] *= 1e4
    stiff = replace(stiff, straights=replace(stiff.straights, bending=bending))
    points = np.delete(stiff.points, 1, axis=0)
    armed = chain(points, {0: ANCHOR})
    offset = np.zeros((8, 3))
    offset[0, 0] = 1.0
    armed = replace(armed, straights=replace(armed.straights, start_offset=offset))
    apart = modes(armed, -1.0).factors / modes(stiff, -1.0).factors - 1.0
    assert np.abs(apart).max() < 1e-4
    assert (apart > 0.0).all()


def circle(count, angle, radius, turn=(0.3, -0.7, 1.1)):
    """Return an arc in `count` arcs from the origin, anywhere in space."""
    at = np.linspace(0.0, angle, count + 1)
    matrix = rotation(turn)
    points = radius * np.stack([np.sin(at), 1.0 - np.cos(at), 0.0 * at], axis=1) @ matrix.T
    tangents = np.stack([np.cos(at), np.sin(at), 0.0 * at], axis=1) @ matrix.T
    return Frame(
        points=points,
        straights=no_straights(),
        arcs=arcs(range(count), range(1, count + 1), tangents[:-1], radius),
        supports=supports({0: ANCHOR}),
    )


def test_flat_arc_is_a_straight():
    """An arc of 1e-6 rad is a straight member, to the order of its angle."""
    model = make_model(circle(1, 1e-6, 2e6))
    straight = one(tuple(model.frame.points[1]))
    block, other = arc_blocks(model, np.array([3.0]))[0], straight_blocks(straight, np.array([3.0]))[0]
    assert np.abs(block - other).max() < 1e-5 * np.abs(other).max()


@pytest.mark.parametrize("about", [(0.0, 0.0, 1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)])
def test_arc_turned_as_a_whole(about):
    """2V/S = integral (theta^2 - (t.theta)^2) ds, t = (cos a, sin a, 0), a to A: R A, R (A/2 +- sin 2A/4) by hand."""
    R, A = 1.7, 1.2
    half = 0.25 * np.sin(2.0 * A)
    expected = {2: R * A, 1: R * (0.5 * A + half), 0: R * (0.5 * A - half)}[int(np.argmax(about))]
    frame = circle(1, A, R)
    u = turning(frame.points, rotation((0.3, -0.7, 1.1)) @ np.array(about))
    block = arc_blocks(make_model(frame), np.array([2.0]))[0]
    assert u @ block @ u == pytest.approx(2.0 * expected, rel=ROUNDING)
    assert block == pytest.approx(block.T, abs=ROUNDING)


def chords(count, angle, radius):
    """Return the same arc in straight members."""
    frame = circle(count, angle, radius)
    return chain(frame.points, {0: ANCHOR})


def test_arc_is_the_limit_of_chords():
    """Factors of many straight chords come nearer to that of arcs with order 2: h^2 quarters when h halves."""
    angle, radius = 1.9, 3.0
    exact = modes(circle(16, angle, radius), -1.0, count=2).factors
    apart = [
        np.abs(modes(chords(count, angle, radius), -1.0, count=2).factors / exact - 1.0).max() for count in (16, 32, 64)
    ]
    ratios = np.array(apart[:-1]) / apart[1:]
    assert ratios == pytest.approx(4.0, rel=0.05)  # the next order, h^4, is a hundredth of it or less
    assert apart[-1] < 1e-3


def test_rod_is_a_string():
    """T/L on what its ends move apart across it; nothing along it (string under tension, by hand)."""
    links = Links(
        start=np.array([0]),
        end=np.array([1]),
        start_arm=np.zeros((1, 3)),
        end_arm=np.zeros((1, 3)),
        force=np.array([9.0]),
    )
    block = link_blocks(np.array([[0.0, 0.0, 0.0], [3.0, 0.0, 0.0]]), links)[0]
    u = np.zeros(12)
    u[[1, 7, 2, 0, 6]] = 0.5, -0.5, 0.25, 4.0, -4.0
    assert u @ block @ u == pytest.approx(9.0 / 3.0 * (1.0 + 0.25**2), rel=ROUNDING)


def test_rods_beside_a_member_turn_with_it_as_one():
    """Four rods on arms around and along the line: turned as a whole they store T times the distance of their nodes.

    With radial arms r the points move r theta along the rods, which is no turn of them; only the lengths count.
    """
    radius, reach = 0.3, 0.2
    around = np.array([[0, radius, 0], [0, -radius, 0], [0, 0, radius], [0, 0, -radius]])
    along = np.array([reach, 0.0, 0.0])
    links = Links(
        start=np.zeros(4, dtype=np.int64),
        end=np.ones(4, dtype=np.int64),
        start_arm=around - along,
        end_arm=around + along,
        force=np.full(4, 5.0),
    )
    points = np.array([[0.0, 0.0, 0.0], [3.0, 0.0, 0.0]])
    blocks = link_blocks(points, links)
    u = turning(points, (0.0, 0.0, 1.0))
    assert u @ blocks.sum(axis=0) @ u == pytest.approx(4.0 * 5.0 * 3.0, rel=ROUNDING)
