"""Several supports at a node, and supports that move: against the same thing said otherwise, and beam formulas.

(tests/unit/mechanics/test_supports.py)
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.mechanics.builders import (
    ANCHOR,
    AXIAL,
    BENDING,
    PINNED,
    answer,
    chain,
    nodal,
    rotation,
    rows,
    uniform,
)

from takeup.mechanics import Factor, Loads, NotHeld, factorise, solve
from takeup.mechanics.held import free_motions
from takeup.mechanics.model import make_model
from takeup.mechanics.recover import start_of
from takeup.mechanics.supports import settle

FREE = (False,) * 6
ONE = (True, False, False, False, False, False)
UP = (False, False, True, False, False, False)
GUIDE = (False, True, True, False, False, False)
LEGS = np.array([[0.0, 0, 0], [4, 0, 0], [7, 0, 0], [7, 5, 0], [7, 5, 3], [9, 6, 3]])
ASKEW = rotation((0.3, -0.8, 0.5)).T


def held_by(*told):
    """Return a space pipe held by these supports and an anchor at its start."""
    return replace(chain(LEGS, {}), supports=rows((0, ANCHOR), *told))


def loaded(frame, imposed=None):
    """Return growth and weight on a frame."""
    return replace(uniform(frame, 2.2e-3, (0.0, 120.0, -850.0)), imposed=imposed)


def same(one, other, names=("displacements", "start_forces", "end_forces")):
    """Hold two answers together: two roads to one matrix of condition 1e5 or less, 1e-9 leaves two figures."""
    for name in names:
        left, right = getattr(one, name), getattr(other, name)
        assert left == pytest.approx(right, rel=1e-9, abs=1e-9 * np.abs(right).max())


def test_supports_two_rows_in_one_frame_are_one_support():
    """A guide and a hanger of the same axes, against one support holding both: same pipe, reactions split by axis."""
    apart = held_by((3, (False, True, *FREE[2:]), ASKEW), (3, UP, ASKEW), (5, ANCHOR))
    whole = held_by((3, GUIDE, ASKEW), (5, ANCHOR))
    one, other = answer(apart, loaded(apart)), answer(whole, loaded(whole))
    same(one, other)
    force = other.reactions[0, 1, :3]
    assert one.reactions[0, 1, :3] == pytest.approx(ASKEW[1] * (ASKEW[1] @ force), rel=1e-9, abs=1e-6)
    assert one.reactions[0, 2, :3] == pytest.approx(ASKEW[2] * (ASKEW[2] @ force), rel=1e-9, abs=1e-6)


def test_supports_of_a_span_of_global_axes_rotate_nothing():
    """Two askew rows that together hold x and y: unknowns stay in the global axes."""
    flat = rotation((0.0, 0.0, 0.7)).T
    frame = held_by((3, ONE), (3, ONE, flat), (5, ANCHOR))
    assert len(make_model(frame).rotated) == 0
    assert settle(frame.supports).held[-1].tolist() == [True, True, False, False, False, False]
    whole = held_by((3, (True, True, *FREE[2:])), (5, ANCHOR))
    one, other = answer(frame, loaded(frame)), answer(whole, loaded(whole))
    same(one, other)
    # both rows lie in the plane: a in x, b at 0.7 rad, a x + b (cos, sin) = (Rx, Ry) has one solution (by hand)
    b = other.reactions[0, 1, 1] / np.sin(0.7)
    a = other.reactions[0, 1, 0] - b * np.cos(0.7)
    assert one.reactions[0, 1] == pytest.approx([a, 0, 0, 0, 0, 0], rel=1e-8, abs=1e-5)
    assert one.reactions[0, 2] == pytest.approx([b * np.cos(0.7), b * np.sin(0.7), 0, 0, 0, 0], rel=1e-8, abs=1e-5)


@pytest.mark.parametrize("more", [False, True])
def test_supports_skew_rows_are_the_limit_of_equal_stiff_springs(more):
    """A guide across an askew pipe and a hanger along z: held directions neither orthogonal nor parallel.

    With one more row they hold four directions in three dimensions, which statics can not share out: the limit of equal
    springs can. Answers differ by the springs' compliance: ten times stiffer, ten times nearer; at 1e11 N/m against
    frames of some 1e6 N/m the rest is 1e-4 or less.
    """
    tilted = rotation((0.9, 0.2, -0.4))
    firm = [(3, GUIDE, ASKEW), (3, UP)] + [(3, ONE, tilted)] * more
    frame = held_by(*firm, (5, ANCHOR))
    exact = answer(frame, loaded(frame)).reactions[0]
    error = []
    for rate in (1e10, 1e11):
        soft = [(3, FREE, ASKEW, [0, rate, rate, 0, 0, 0]), (3, FREE, np.eye(3), [0, 0, rate, 0, 0, 0])]
        soft += [(3, FREE, tilted, [rate, 0, 0, 0, 0, 0])] * more
        sprung = held_by(*soft, (5, ANCHOR))
        error.append(np.abs(answer(sprung, loaded(sprung)).reactions[0] - exact).max() / np.abs(exact).max())
    assert error[1] < 1e-4
    assert error[0] / error[1] == pytest.approx(10.0, rel=0.02)  # the next term is 1e-3 of the first


def test_supports_of_one_direction_share_it_equally():
    """Two, three rows hold z at node 3: each gives a half, a third (least sum of squares, by hand)."""
    whole = held_by((3, UP), (5, ANCHOR))
    total = answer(whole, loaded(whole)).reactions[0, 1]
    for count in (2, 3):
        frame = held_by(*[(3, UP)] * count, (5, ANCHOR))
        assert answer(frame, loaded(frame)).reactions[0, 1 : 1 + count] == pytest.approx(
            np.tile(total / count, (count, 1)), rel=1e-9, abs=1e-6
        )


def test_supports_nearly_parallel_count_as_one_direction():
    """1e-5 rad apart: one held direction, not two; the other stays free."""
    frame = held_by((3, ONE), (3, ONE, rotation((0.0, 0.0, 1e-5)).T), (5, ANCHOR))
    assert settle(frame.supports).held[-1].sum() == 1
    assert answer(frame, loaded(frame)).displacements[0, 3, 1] != pytest.approx(0.0, abs=1e-6)


def test_supports_springs_of_several_rows_add():
    """Three springs along x of 1, 2 and 3 MN/m as rows against one of 6 MN/m; each row bears its part (by hand)."""
    told = [(5, FREE, np.eye(3), [rate, 0, 0, 0, 0, 0]) for rate in (1e6, 2e6, 3e6)]
    frame, whole = held_by(*told), held_by((5, FREE, np.eye(3), [6e6, 0, 0, 0, 0, 0]))
    one, other = answer(frame, loaded(frame)), answer(whole, loaded(whole))
    same(one, other)
    for row, part in enumerate((1, 2, 3), start=1):
        assert one.reactions[0, row] == pytest.approx(other.reactions[0, 1] * part / 6.0, rel=1e-9, abs=1e-6)


def test_supports_springs_in_askew_axes_at_a_held_node():
    """A hold along z and an askew set of springs at one node, against the springs at the far end of a stub.

    The stub, 1 mm of pipe, grows by 2e-6 m and is far stiffer than any spring: 2e-3 of the reaction is generous. The
    last line is exact: rate times movement in the springs' own axes.
    """
    rates = [2e5, 3e5, 1e5, 4e4, 6e4, 5e4]
    frame = held_by((5, UP), (5, FREE, ASKEW, rates))
    points = np.vstack([LEGS, LEGS[-1] + [1e-3, 0.0, 0.0]])
    stub = replace(
        chain(points, {}),
        supports=rows((0, ANCHOR), (5, UP), (6, FREE, ASKEW, rates)),
    )
    one, other = answer(frame, loaded(frame)), answer(stub, loaded(stub))
    assert one.reactions == pytest.approx(other.reactions, abs=2e-3 * np.abs(other.reactions).max())
    move = one.displacements[0, 5]
    local = np.concatenate([ASKEW @ move[:3], ASKEW @ move[3:]]) * rates
    assert one.reactions[0, 2] == pytest.approx(
        -np.concatenate([local[:3] @ ASKEW, local[3:] @ ASKEW]), rel=1e-9, abs=1e-7
    )


directions = st.integers(0, 10**6)


@settings(max_examples=60)
@given(seed=directions, count=st.integers(2, 4))
def test_supports_rows_add_up_and_keep_to_what_they_hold(seed, count):
    """Random holds and springs, random axes, at one node: what they give balances it, each along its own directions.

    Against the same frame with an extra node load equal to the reactions and no supports there: same displacements.
    """
    random = np.random.default_rng(seed)
    told = []
    for _ in range(count):
        held = random.random(6) < 0.3
        told.append((3, held, rotation(random.normal(size=3)), 1e5 * random.random(6) * (random.random(6) < 0.3)))
    frame, bare = held_by(*told, (5, PINNED)), held_by((5, PINNED))
    imposed = np.zeros((1, count + 2, 6))
    found = solve(factorise(frame), loaded(frame, imposed))
    assert found.solved.all(), found.because
    force = np.zeros((1, 6, 6))
    force[0, 3] = found.reactions[0, 1:-1].sum(axis=0)
    if not settle(frame.supports).held[-1].all():  # a node held in all directions moves by rounding only
        same(found, answer(bare, replace(loaded(bare), nodal=force)), ("displacements",))
    for (_, held, axes, rates), given_ in zip(told, found.reactions[0, 1:-1], strict=True):
        local = np.concatenate([axes @ given_[:3], axes @ given_[3:]])
        idle = ~held & (rates == 0.0)
        assert local[idle] == pytest.approx(0.0, abs=1e-9 * max(np.abs(local).max(), 1.0))


def test_supports_together_hold_what_none_holds_alone():
    """A part that three rows at one node hold; without one of them the words say what moves."""
    frame = chain(LEGS, {})
    three = [(0, ONE, np.roll(np.eye(3), turn, axis=0)) for turn in range(3)]
    turns = (0, (False, False, False, True, True, True), ASKEW)
    assert free_motions(replace(frame, supports=rows(*three, turns))) is None
    loose = free_motions(replace(frame, supports=rows(three[0], three[2], turns)))
    assert isinstance(loose, NotHeld)
    assert loose.words == ("can move freely along (0, 0, 1)",)  # rolled by one, the first axis is z
    assert loose.parts == (0,)


# --- supports that move ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("members", [1, 4])
def test_supports_settled_end_of_a_fixed_beam(members):
    """One end of a fixed beam of 6 m along x settles by 8 mm: f = 12 EI d/L^3 and 6 EI d/L^2 (textbook).

    The settled end hangs on the beam, so its support pulls it down and the other one holds up; moments about the other
    end balance, 2 M_y + L f = 0, so M_y = -6 EI d/L^2 at both (by hand).
    """
    length, sink = 6.0, 8e-3
    frame = chain(np.outer(np.linspace(0.0, length, members + 1), [1.0, 0, 0]), {0: ANCHOR, members: ANCHOR})
    imposed = np.zeros((1, 2, 6))
    imposed[0, 1, 2] = -sink
    found = answer(frame, replace(nodal(frame, {}), imposed=imposed))
    force, moment = 12.0 * BENDING * sink / length**3, 6.0 * BENDING * sink / length**2
    assert found.reactions[0, 0] == pytest.approx([0, 0, force, 0, -moment, 0], rel=1e-9, abs=1e-6)
    assert found.reactions[0, 1] == pytest.approx([0, 0, -force, 0, -moment, 0], rel=1e-9, abs=1e-6)
    assert found.displacements[0, -1] == pytest.approx([0, 0, -sink, 0, 0, 0], abs=1e-15)


def test_supports_settled_middle_of_a_continuous_beam():
    """Two spans of 5 m on three pins, the middle one settles by 6 mm: R = 48 EI d/(2 L)^3 = 6 EI d/L^3 (textbook)."""
    length, sink = 5.0, 6e-3
    pin = (True, True, True, True, False, False)
    frame = chain(np.outer([0.0, 5.0, 10.0], [1.0, 0, 0]), {0: pin, 1: GUIDE, 2: GUIDE})
    imposed = np.zeros((1, 3, 6))
    imposed[0, 1, 2] = -sink
    found = answer(frame, replace(nodal(frame, {}), imposed=imposed))
    force = 6.0 * BENDING * sink / length**3
    assert found.reactions[0, :, 2] == pytest.approx([force / 2.0, -force, force / 2.0], rel=1e-9)


def test_supports_turned_end_of_a_fixed_beam():
    """An end turned by 1 mrad about y: 4 EI/L there, 2 EI/L at the other, 6 EI/L^2 across (textbook)."""
    length, turn = 6.0, 1e-3
    frame = chain(np.outer([0.0, length], [1.0, 0, 0]), {0: ANCHOR, 1: ANCHOR})
    imposed = np.zeros((1, 2, 6))
    imposed[0, 1, 4] = turn
    found = answer(frame, replace(nodal(frame, {}), imposed=imposed))
    assert found.reactions[0, 1, 4] == pytest.approx(4.0 * BENDING * turn / length, rel=1e-9)
    assert found.reactions[0, 0, 4] == pytest.approx(2.0 * BENDING * turn / length, rel=1e-9)
    assert abs(found.reactions[0, 1, 2]) == pytest.approx(6.0 * BENDING * turn / length**2, rel=1e-9)


@pytest.mark.parametrize("axes", [np.eye(3), ASKEW])
def test_supports_spring_whose_foot_moves(axes):
    """A bar of 2 m, anchored, on a spring along it whose foot moves by 5 mm: series stiffness, by hand.

    F = d/(1/k + L/EA), the bar's end moves by F L/EA.
    """
    rate, shift = 4e6, 5e-3
    frame = chain(np.outer([0.0, 2.0], axes[0]), {0: ANCHOR, 1: FREE}, axes={1: axes}, springs={1: [rate] + [0] * 5})
    imposed = np.zeros((1, 2, 6))
    imposed[0, 1, 0] = shift
    found = answer(frame, replace(nodal(frame, {}), imposed=imposed))
    force = shift / (1.0 / rate + 2.0 / AXIAL)
    assert found.reactions[0, 1, :3] @ axes[0] == pytest.approx(force, rel=1e-10)
    assert found.reactions[0, 0, :3] @ axes[0] == pytest.approx(-force, rel=1e-10)
    assert found.displacements[0, 1, :3] @ axes[0] == pytest.approx(force * 2.0 / AXIAL, rel=1e-10)


def test_supports_moved_as_one_body_strain_nothing():
    """All supports, askew ones, shared ones and springs, moved by one rigid motion: the pipe follows without force.

    Forces of the steep start are some 1e8 N; 1e-12 of them is rounding.
    """
    shift, turn = np.array([0.02, -0.03, 0.01]), np.array([2e-3, 1e-3, -4e-3])
    tilted = rotation((0.5, 0.1, -0.2)).T
    told = [(2, GUIDE, ASKEW), (2, ONE, tilted), (4, FREE, ASKEW, [1e5, 2e5, 3e5, 1e3, 2e3, 3e3]), (5, ANCHOR, tilted)]
    frame = held_by(*told)
    node, axes = frame.supports.node, frame.supports.axes
    body = np.concatenate([shift + np.cross(turn, frame.points), np.tile(turn, (len(frame.points), 1))], axis=1)
    imposed = np.einsum("sij,skj->ski", axes, body[node].reshape(-1, 2, 3)).reshape(1, -1, 6)
    found = answer(frame, replace(nodal(frame, {}), imposed=imposed))
    assert found.displacements[0] == pytest.approx(body, abs=1e-12)
    assert np.abs(found.end_forces).max() < 1e-4
    assert np.abs(found.reactions).max() < 1e-4


def test_supports_imposed_movement_adds_to_loads():
    """Settlement, foot movement and loads together are their sum (linear), on askew and shared supports."""
    frame = held_by((2, GUIDE, ASKEW), (2, ONE, np.eye(3), [0, 2e5, 0, 0, 0, 0]), (5, ANCHOR))
    imposed = 1e-3 * np.random.default_rng(3).normal(size=(1, 4, 6))
    both = answer(frame, loaded(frame, imposed))
    load, move = answer(frame, loaded(frame)), answer(frame, replace(nodal(frame, {}), imposed=imposed))
    for name in ("displacements", "reactions", "end_forces"):
        total = getattr(load, name) + getattr(move, name)
        assert getattr(both, name) == pytest.approx(total, rel=1e-9, abs=1e-9 * np.abs(total).max())


def test_supports_imposed_movement_does_the_work_of_reactions():
    """Reciprocity: reactions to loads, times the movement, are the work of the loads on its displacements, negative.

    Loads P move u_P with supports at rest (reactions R_P); supports moved by d give u_d without loads:
    R_P.d + P.u_d = 0 (Betti; a sprung foot counts with its force as a reaction).
    """
    frame = held_by((2, GUIDE, ASKEW), (2, ONE, np.eye(3), [0, 2e5, 0, 0, 0, 0]), (5, ANCHOR))
    imposed = 1e-3 * np.random.default_rng(3).normal(size=(1, 4, 6))
    imposed *= frame.supports.held | (frame.supports.spring > 0.0)
    force = np.random.default_rng(4).normal(size=(1, 6, 6)) * 1e3
    loads = Loads(strain=np.zeros((1, 5)), nodal=force)
    reactions = answer(frame, loads).reactions[0]
    moved = answer(frame, replace(nodal(frame, {}), imposed=imposed)).displacements
    local = np.einsum("sij,skj->ski", frame.supports.axes, reactions.reshape(-1, 2, 3)).reshape(-1, 6)
    assert (local * imposed[0]).sum() == pytest.approx(-(force * moved).sum(), rel=1e-9)


def test_supports_of_one_direction_must_move_alike():
    """Two rows hold z of node 3: moved alike they are one; moved apart the case is refused, the other one stands."""
    frame, whole = held_by((3, UP), (3, UP), (5, ANCHOR)), held_by((3, UP), (5, ANCHOR))
    alike, alone = np.zeros((1, 4, 6)), np.zeros((1, 3, 6))
    alike[0, 1:3, 2] = alone[0, 1, 2] = -5e-3
    same(answer(frame, loaded(frame, alike)), answer(whole, loaded(whole, alone)))
    apart = np.concatenate([alike, alike])
    apart[1, 2, 2] = -4e-3
    factor, one = factorise(frame), loaded(frame)
    assert isinstance(factor, Factor)
    found = solve(factor, Loads(strain=np.tile(one.strain, (2, 1)), imposed=apart))
    assert found.solved.tolist() == [True, False]
    assert (
        found.because
        == "load case 1: support 1 and others at its node move what they hold together to different places"
    )


def test_supports_skew_rows_may_move_each_along_its_own_direction():
    """Skew rows at one node with any movements: independent directions never disagree; each n.u = d (by definition)."""
    frame = held_by((3, GUIDE, ASKEW), (3, ONE), (5, ANCHOR))
    imposed = 1e-3 * np.random.default_rng(8).normal(size=(1, 4, 6))
    found = answer(frame, loaded(frame, imposed))
    move = found.displacements[0, 3, :3]
    assert ASKEW[1:] @ move == pytest.approx(imposed[0, 1, 1:3], rel=1e-12)
    assert move[0] == pytest.approx(imposed[0, 2, 0], rel=1e-12)


def test_supports_moved_beside_short_members_are_verified():
    """A settled anchor 30 mm from an elbow: 12 EI/L^3 = 2.7e12 N/m, yet the pipe's forces are some kN, and balance.

    Every member is in balance to 1e-12 of that. Forces added to those of the steep start, 4e10 N, would be out by its
    rounding, 1e-7 N or 5e-11 (measured): they are made anew after the first pass.
    """
    points = [[0.0, 0, 0], [0, 0.03, 0], [40, 0.03, 0], [40, 30, 0], [40, 30.03, 0]]
    frame = chain(points, {0: ANCHOR, 4: ANCHOR})
    imposed = np.zeros((1, 2, 6))
    imposed[0, 0] = [0.01, -0.02, -0.015, 1e-3, 2e-3, -1e-3]
    found = answer(frame, replace(uniform(frame, 2.2e-3), imposed=imposed))
    assert np.abs(found.end_forces[..., :3]).max() < 1e5
    assert found.residual[0] < 1e-12
    sums = found.start_forces + found.end_forces
    assert np.abs(sums[..., :3]).max() < 1e-12 * np.abs(found.end_forces).max()


def test_supports_start_has_springs_stretched_by_held_nodes():
    """One support takes a node up by 4 mm, the spring of another, its foot up by 1 mm, pulls it: k (1 - 4) mm."""
    frame = held_by((3, UP), (3, FREE, np.eye(3), [0, 0, 2e5, 0, 0, 0]), (5, ANCHOR))
    imposed = np.zeros((1, 4, 6))
    imposed[0, 1, 2], imposed[0, 2, 2] = 4e-3, 1e-3
    pull = start_of(make_model(frame), loaded(frame, imposed)).pull
    assert pull[:, 0, 0] == pytest.approx([0, 0, 2e5 * -3e-3, 0, 0, 0], abs=1e-9)
    found = answer(frame, loaded(frame, imposed))
    assert found.reactions[0, 2] == pytest.approx([0, 0, -600.0, 0, 0, 0], abs=1e-9)
    assert found.displacements[0, 3, 2] == pytest.approx(4e-3, rel=1e-12)
