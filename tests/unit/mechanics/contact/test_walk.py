"""Walks of random frames: laws, independent solutions, order.     (contact/test_walk.py)"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.mechanics.builders import ANCHOR, answer, chain, moved, nodal, rotation, uniform
from tests.unit.mechanics.contact.contacts import causes, condensed, gaps, rests, rubs

from takeup.mechanics import Loads, Steps, answers_of, condense, parts_of, uniqueness_shown, walk

LIMIT = 1e-9  # what a walk verifies, of the largest


def random_line(seed, *, friction=True):
    """Return frame, rows, rubs, unit causes and steps of a bent line between anchors, all at random."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(5, 12))
    points = np.cumsum(rng.normal(size=(count, 3)) * [2.0, 2.0, 0.4] + [3.0, 0.0, 0.0], axis=0)
    frame = chain(points, {0: ANCHOR, count - 1: ANCHOR} if rng.random() < 0.7 else {0: ANCHOR})
    rows = rests(range(1, count - 1))
    for _ in range(int(rng.integers(1, 5))):
        way = rng.normal(size=3)
        node = int(rng.integers(1, count - 1))
        row = {"node": node, "direction": way / np.linalg.norm(way), "plus": float(rng.choice([0.001, 0.01]))}
        row["minus"] = float(rng.choice([0.002, np.inf]))
        if rng.random() < 0.5:
            row |= {"other": (node + 2) % count, "compliance": float(10 ** rng.uniform(-8, -6))}
        if rng.random() < 0.3:
            row["arm"] = rng.normal(size=3) * 0.3
        rows.append(row)
    told = []
    for number in range(count - 2):
        angle = rng.uniform(0.0, 6.3)
        if friction:
            along = (np.cos(angle), np.sin(angle), 0.0)
            told.append({"node": number + 1, "along": along, "mu": rng.uniform(0.05, 0.2), "by": [number]})
    odd = Loads(strain=1e-3 * rng.normal(size=(1, count - 1)), per_length=150.0 * rng.normal(size=(1, count - 1, 3)))
    load = causes(uniform(frame, per_length=(0, 0, -850.0)), uniform(frame, strain=1e-3), odd)
    amounts = np.concatenate([np.ones((6, 1)), np.cumsum(rng.normal(size=(6, 2)), axis=0)], axis=1)
    return frame, rows, told, load, Steps(amounts=amounts)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_walk_obeys_the_laws_of_contact(seed):
    """No force inside a gap or of the wrong sign, friction in its cone, work never given back, parts add up.

    Where a walk is given up, it says so, and uniqueness is not shown.
    """
    frame, rows, told, load, steps = random_line(seed)
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    found = walk(problem, steps)
    if not found.converged.all():
        assert "did not converge" in found.because[-1]
        assert not uniqueness_shown(problem)
        return
    answers, parts = answers_of(found), parts_of(found)
    assert answers.residual == pytest.approx(0.0, abs=LIMIT)
    largest = np.abs(found.forces).max()
    room = np.array([row["plus"] for row in rows]) - found.movements
    give = np.array([row.get("compliance", 0.0) for row in rows])
    assert (found.forces[:, : len(told)] >= -LIMIT * largest).all()  # rests only push
    assert (room + give * np.maximum(found.forces, 0.0) >= -1e-10).all()  # m; movements are of centimetres
    assert (found.forces[(room > 1e-8) & (found.sides == 0)] == 0.0).all()
    limit = np.array([rub["mu"] for rub in told]) * np.abs(found.forces[:, : len(told)])
    assert (np.abs(found.friction[:, :, 0]) <= limit + LIMIT * largest).all()
    assert (found.dissipated >= -1e-12 * max(1.0, found.dissipated.max())).all()
    for whole, split in ((answers.end_forces, parts.end_forces), (answers.reactions, parts.reactions)):
        assert split.sum(axis=1) == pytest.approx(whole, rel=0.0, abs=LIMIT * np.abs(whole).max())
    assert parts.row_forces.sum(axis=1) == pytest.approx(found.forces, rel=0.0, abs=LIMIT * largest)


def test_walks_of_random_lines_converge():
    """Friction on steep bends may have no answer; of a hundred lines one is given up; at most three may."""
    given_up = 0
    for seed in range(100):
        frame, rows, told, load, steps = random_line(seed)
        given_up += not walk(condense(frame, gaps(*rows), rubs(*told), load), steps).converged.all()
    assert given_up <= 3


def lemke(matrix, offset):
    """Return z >= 0 with w = M z + q >= 0 and z w = 0 (Cottle, Pang, Stone: Lemke's method), for small M."""
    count = len(offset)
    table = np.concatenate([np.eye(count), -matrix, -np.ones((count, 1)), offset[:, None]], axis=1)
    basis = list(range(count))
    if (offset >= 0.0).all():
        return np.zeros(count)
    row, enters = int(np.argmin(offset)), 2 * count
    for _ in range(500):
        leaves = basis[row]
        table[row] /= table[row, enters]
        others = np.arange(count) != row
        table[others] -= table[others, enters][:, None] * table[row]
        basis[row] = enters
        if leaves == 2 * count:
            break
        enters = leaves + count if leaves < count else leaves - count
        column = table[:, enters]
        ratio = np.where(column > 1e-11, table[:, -1] / np.where(column > 1e-11, column, 1.0), np.inf)
        row = int(np.argmin(ratio))
        assert np.isfinite(ratio[row])
    found = np.zeros(2 * count + 1)
    found[basis] = table[:, -1]
    return found[count : 2 * count]


@pytest.mark.parametrize("seed", range(25))
def test_frictionless_walk_against_lemke(seed):
    """Each step without friction is a linear complementarity problem of its own: Lemke's method on dense matrices.

    Rows and unit answers are made here anew: forces at points with arms, movements by the answers of `solve`.
    """
    frame, rows, _, load, steps = random_line(seed, friction=False)
    found = walk(condense(frame, gaps(*rows), rubs(), load), steps)
    assert found.converged.all(), found.because
    push = np.zeros((len(rows), len(frame.points), 6))
    for number, row in enumerate(rows):
        way = np.array(row["direction"])
        push[number, row["node"], :3] += way
        push[number, row["node"], 3:] += np.cross(row.get("arm", np.zeros(3)), way)
        if "other" in row:
            push[number, row["other"], :3] -= way
    units = answer(frame, Loads(strain=np.zeros((len(rows), frame.member_count)), nodal=push)).displacements
    free = answer(frame, load).displacements
    give = np.einsum("rni,cni->rc", push, units) + np.diag([row.get("compliance", 0.0) for row in rows])
    alone = np.einsum("rni,cni->rc", push, free) @ steps.amounts.T
    scale = 1e6  # forces in MN make the two halves of Lemke's table alike
    both = np.block([[give, -give], [-give, give]]) * scale
    far = 10.0  # in place of an infinite gap [m]
    plus = np.minimum([row["plus"] for row in rows], far)
    minus = np.minimum([row["minus"] for row in rows], far)
    for step in range(len(steps.amounts)):
        z = lemke(both, np.concatenate([plus - alone[:, step], minus + alone[:, step]])) * scale
        expected = z[: len(rows)] - z[len(rows) :]
        assert found.forces[step] == pytest.approx(expected, rel=1e-6, abs=1e-6 * np.abs(expected).max())  # Lemke's own


@pytest.mark.parametrize("seed", range(5))
def test_friction_against_many_small_steps(seed):
    """Four hundred small implicit steps a step, each a linear complementarity problem solved by Lemke's method.

    Unknown are both sides of every gap, friction either way, and the size of the slip g:
    f1 >= 0 with g - slip >= 0, f2 >= 0 with g + slip >= 0, g >= 0 with mu N - f1 - f2 >= 0, each with its product zero.
    What changes within a small step is mistaken by its length: 0.2 per cent of the largest force is allowed
    (forty small steps: 2.4 per cent, so the error goes with the step).
    """
    frame, rows, told, load, steps = random_line(seed)
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    found = walk(problem, Steps(amounts=steps.amounts[:3]))
    assert found.converged.all(), found.because
    scale, g, t = 1e6, len(rows), len(told)  # forces in MN make the parts of the table alike
    out = np.linalg.inv(np.eye(g + t) - problem.compliance * problem.rate)  # springs of the regularisation taken out
    w = scale * (out @ problem.compliance + np.diag([*(row.get("compliance", 0.0) for row in rows), *np.zeros(t)]))
    unit, one, mu = out @ problem.moved, np.eye(t), np.diag([rub["mu"] for rub in told])
    presses = np.array([[float(row in rub["by"]) for row in range(g)] for rub in told])
    n, f, zero = w[:, :g], w[:, g:], np.zeros((t, t))
    matrix = np.block(
        [
            [n[:g], -n[:g], f[:g], -f[:g], np.zeros((g, t))],
            [-n[:g], n[:g], -f[:g], f[:g], np.zeros((g, t))],
            [n[g:], -n[g:], f[g:], -f[g:], one],
            [-n[g:], n[g:], -f[g:], f[g:], one],
            [mu @ presses, mu @ presses, -one, -one, zero],
        ]
    )
    plus, minus = (np.minimum([row[side] for row in rows], 10.0) for side in ("plus", "minus"))
    place, at = np.zeros(t), np.zeros(3)
    for end in steps.amounts[:3]:
        for part in np.linspace(0.0, 1.0, 401)[1:]:
            free = unit @ (at + part * (end - at))
            slip = free[g:] - place
            nudge = 1e-9 * np.sqrt(np.arange(1.0, 2 * g + 3 * t + 1))  # against ties, which Lemke's method may cycle on
            z = lemke(matrix, nudge + np.concatenate([plus - free[:g], minus + free[:g], -slip, slip, np.zeros(t)]))
            force = np.concatenate([z[:g] - z[g : 2 * g], z[2 * g : 2 * g + t] - z[2 * g + t : 2 * g + 2 * t]])
            place = free[g:] - w[g:] @ force
        at = end
    largest = np.abs(found.forces[-1]).max()
    assert found.forces[-1] == pytest.approx(scale * force[:g], abs=0.002 * largest)
    assert -found.friction[-1, :, 0] == pytest.approx(scale * force[g:], abs=0.002 * largest)


@pytest.mark.parametrize("seed", range(6))
def test_rotated_line_gives_rotated_answers(seed):
    frame, rows, told, load, steps = random_line(seed)
    matrix = rotation([0.3, -0.5, 0.8])
    first = walk(condense(frame, gaps(*rows), rubs(*told), load), steps)
    turned = [
        row | {name: matrix @ np.array(row[name]) for name in ("direction", "arm") if name in row} for row in rows
    ]
    along = [rub | {"along": matrix @ np.array(rub["along"])} for rub in told]
    push = replace(load, per_length=load.per_length @ matrix.T)
    other = walk(condense(moved(frame, matrix, (5.0, -2.0, 1.0)), gaps(*turned), rubs(*along), push), steps)
    largest = np.abs(first.forces).max()
    assert other.forces == pytest.approx(first.forces, abs=1e-7 * largest)  # conditioning of a bent line, 1e5
    assert other.friction == pytest.approx(first.friction, abs=1e-7 * largest)
    assert [event.what for event in first.events] == [event.what for event in other.events]


@pytest.mark.parametrize("seed", range(6))
def test_order_of_rows_makes_no_difference(seed):
    """Rows and rubs in another order give the same forces, although ties are then met in another order."""
    frame, rows, told, load, steps = random_line(seed)
    rng = np.random.default_rng(seed)
    order = rng.permutation(len(rows))
    place = np.argsort(order)
    shuffled = rng.permutation(len(told))
    again = [told[one] | {"by": [int(place[told[one]["by"][0]])]} for one in shuffled]
    first = walk(condense(frame, gaps(*rows), rubs(*told), load), steps)
    other = walk(condense(frame, gaps(*[rows[one] for one in order]), rubs(*again), load), steps)
    largest = np.abs(first.forces).max()
    assert other.forces[:, place] == pytest.approx(first.forces, abs=1e-8 * largest)
    assert other.friction[:, np.argsort(shuffled)] == pytest.approx(first.friction, abs=1e-8 * largest)


def symmetric_line():
    """Return a line symmetric about its middle on rests that rub, anchored there: every event comes in pairs."""
    frame = chain(np.outer(np.arange(-6, 7) * 4.0, [1.0, 0, 0]), {6: ANCHOR})
    nodes = [*range(6), *range(7, 13)]
    told = [{"node": node, "along": (1.0, 0, 0), "mu": 0.25, "by": [row]} for row, node in enumerate(nodes)]
    weight, heat = uniform(frame, per_length=(0, 0, -850.0)), uniform(frame, strain=1e-3)
    return frame, condensed(frame, rests(nodes), told, weight, heat)


def test_events_that_coincide_leave_symmetry():
    """Twelve supports slip in six pairs, each pair at one load, and the anchor between them feels nothing."""
    _, problem = symmetric_line()
    found = walk(problem, Steps(amounts=np.array([[1.0, 0], [1, 1], [1, -0.5], [1, 0]])))
    assert found.converged.all(), found.because
    assert found.friction[:, :6, 0] == pytest.approx(-found.friction[:, :5:-1, 0], abs=1e-8)
    assert answers_of(found).reactions[:, 0, 0] == pytest.approx(0.0, abs=1e-6)  # N, of some thousand
    slips = [event for event in found.events if event.step == 1 and event.what == "slips"]
    assert sorted(event.index for event in slips) == list(range(12))
    for one, other in zip(slips[::2], slips[1::2], strict=True):
        assert {one.index, other.index} in [{row, 11 - row} for row in range(6)]
        assert one.fraction == pytest.approx(other.fraction, abs=1e-9)


def test_steps_cut_small_change_nothing():
    """On straight paths nothing is jumped over: forty small steps end where one large step does, block by block."""
    _, problem = symmetric_line()
    corners = np.array([[0.0, 0], [1, 0], [1, 1], [1, -0.5], [1, 0.3]])
    coarse = walk(problem, Steps(amounts=corners[1:]))
    share = np.linspace(0.0, 1.0, 301)[1:, None]
    fine = walk(
        problem,
        Steps(amounts=np.concatenate([a + share * (b - a) for a, b in pairwise(corners)])),
    )
    assert fine.converged.all()
    largest = np.abs(coarse.forces).max()
    assert fine.forces[299::300] == pytest.approx(coarse.forces, abs=LIMIT * largest)
    assert fine.friction[299::300] == pytest.approx(coarse.friction, abs=LIMIT * largest)
    assert fine.dissipated.sum() == pytest.approx(coarse.dissipated.sum(), rel=1e-9)
    assert fine.slip.reshape(4, 300, -1).sum(axis=1) == pytest.approx(coarse.slip.reshape(4, -1), abs=1e-12)


def test_blocks_with_feet_that_move():
    """A stop whose foot moves a little each step, many steps: force EA (e - c/L) in each, by hand."""
    length, force = 8.0, 1.1e9
    frame = chain([[0.0, 0, 0], [length, 0, 0]], {0: ANCHOR})
    problem = condensed(frame, [{"node": 1, "direction": (1.0, 0, 0), "plus": 0.002}], (), uniform(frame, strain=1e-3))
    feet = np.linspace(0.0, 0.004, 200)[:, None]
    found = walk(problem, Steps(amounts=np.ones((200, 1)), feet=feet))
    assert found.converged.all()
    assert found.forces[:, 0] == pytest.approx(force * (1e-3 - (0.002 + feet[:, 0]) / length), rel=LIMIT)


def test_friction_of_several_coefficients_from_one_problem():
    """The same condensed problem without friction, with its own, with more: the growing rod's triangle scales."""
    _, problem = symmetric_line()
    amounts = np.array([[1.0, 0], [1, 1]])
    none, own, more = (walk(problem, Steps(amounts=amounts), mu=mu) for mu in (0.0, None, 0.5))
    assert (none.friction == 0.0).all()
    assert more.friction[1] == pytest.approx(2.0 * own.friction[1], rel=LIMIT)


def test_what_does_not_converge_says_where():
    """A gap at an anchor that is moved through it cannot be held: the frame does not give."""
    frame = chain([[0.0, 0, 0], [3.0, 0, 0]], {0: ANCHOR})
    imposed = np.zeros((1, 1, 6))
    imposed[0, 0, 0] = 0.01
    load = replace(uniform(frame), imposed=imposed)
    problem = condense(frame, gaps({"node": 0, "direction": (1.0, 0, 0), "plus": 0.005}), rubs(), load)
    found = walk(problem, Steps(amounts=np.array([[0.4], [1.0]])))
    assert found.converged.tolist() == [True, False]
    assert "step 1" in found.because[0]


def test_push_without_friction_is_felt_at_once():
    frame = chain(np.outer(np.arange(4) * 2.0, [1.0, 0, 0]), {0: ANCHOR})
    problem = condensed(frame, rests([3]), (), nodal(frame, {3: (0, 0, 1.0, 0, 0, 0)}))
    found = walk(problem, Steps(amounts=np.array([[10.0], [-10.0]])))
    assert found.forces[:, 0] == pytest.approx([0.0, 10.0], abs=1e-9)


def test_uniqueness_is_shown_where_friction_cannot_press():
    """On a straight line friction along it changes no normal force: shown for any coefficient."""
    _, problem = symmetric_line()
    assert uniqueness_shown(problem)
    assert uniqueness_shown(problem, mu=2.0)


def test_uniqueness_is_not_shown_where_friction_presses():
    """A slanting strut on a floor jams: dragged against its slope, friction presses it on. Two answers from mu on where

    pushing along the floor lifts the foot as much as the floor's reaction: mu W_nt = W_nn (by hand, Painleve's rod).
    The criterion is sufficient, no more: it gives up at about an eighth of that.
    """
    frame = chain([[0.0, 0, 2.0], [1.0, 0, 0]], {0: ANCHOR})
    rub = {"node": 1, "along": (1.0, 0, 0), "mu": 0.3, "by": [0]}
    problem = condensed(frame, rests([1]), [rub], uniform(frame))
    taken_out = np.linalg.inv(np.eye(2) - problem.compliance * problem.rate) @ problem.compliance
    critical = float(abs(taken_out[0, 0] / taken_out[0, 1]))
    assert uniqueness_shown(problem, mu=0.1 * critical)
    assert not uniqueness_shown(problem, mu=1.01 * critical)
