"""Walks against OpenSees: a straight line, a bent one, rubs in a plane.     (contact/test_walk_against_opensees.py)

Twelve supports rub in each; pressure in the joints and heat go up and down in six steps each, then up again: 36 steps.
OpenSees is told the same numbers and nothing of ours takes part: its members, its springs, Newton's method on the
whole frame at the end of each part of a step.

Its contacts are springs of stiffness K. So ours is walked twice: with the same springs (a row that gives 1/K; a rub
against a node of its own on springs), which must be what OpenSees finds; and rigid, as users have it, which the first
must come to as K grows, by A/(K + c): c is what a pipe answers at a support, of the order of E A/pitch, 4e8 N/m, here.
From K = 1e11 to 1e12 N/m that is by ten, to a few per cent; nine to eleven is asked for.

OpenSees sees the end of a part only. Where nothing turns back within a step, one part is exact; else the difference
falls with the number of parts, and each test says which. Its slider in a plane keeps the slip of an iteration of
Newton's that a later one takes back to sticking; where its supports stick again in such a way it is no oracle, off
by hundreds of newtons at one number of parts and exact at the next. The cases with sliders are those without it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

import numpy as np
import pytest
from tests.oracles.opensees import ABSENT, is_there, opensees
from tests.unit.mechanics.builders import ANCHOR, AXIAL, chain, nodal, uniform
from tests.unit.mechanics.contact.contacts import causes, gaps, rests, rubs

from takeup.mechanics import ContactProblem, Frame, Gaps, Loads, Rubs, Steps, Supports, answers_of, condense, walk

if not is_there():
    pytest.skip(ABSENT, allow_module_level=True)

LEG, PITCH, JOINT_LENGTH = 6, 3.0, 1.0  # supports a leg; spacing and joint [m]
MU, WEIGHT, GROWTH, JOINT = 0.3, 850.0, 1.0e-3, 3.0e5  # friction, N/m, strain when hot, rate of a joint [N/m]
SUPPORTS = range(1, 2 * LEG + 1)  # nodes of the straight line
SPRING = 1e9  # of the contacts, where both have them [N/m]
EQUAL = 1e-6  # [N]: OpenSees stops at 1e-5 N out of balance, and its last iteration is a hundred times better
UP, DOWN = np.linspace(0.0, 1.0, 7)[1:], np.linspace(1.0, 0.0, 7)[1:]
FULL, NONE = np.ones(6), np.zeros(6)
EARLY = np.concatenate([UP, FULL, DOWN, NONE, UP, FULL])  # what is put on first, and taken off first
LATE = np.concatenate([NONE, UP, FULL, DOWN, NONE, UP])
ORDERS = {"pressure first": (EARLY, LATE), "heat first": (LATE, EARLY)}  # pressure, heat
CYCLE = 23  # step at whose end pressure and heat are off again
ALWAYS, NEVER = np.ones(36), np.zeros(36)
LIFT = np.concatenate([NONE, [0, 0, 0.5, 1, 0.5, 0], NONE, [0, 0, 1, 0, 0.5, 0], NONE, [0.3, 0.6, 0.9, 0.6, 0.3, 0]])


class Line(NamedTuple):
    """A frame with its contacts and loads."""

    frame: Frame
    gaps: Gaps
    rubs: Rubs
    causes: Loads


class Both(NamedTuple):
    """What both find: forces at the anchors (s, anchors, 6), of gap rows (s, g), of friction (s, t, 2)."""

    reactions: np.ndarray
    forces: np.ndarray
    friction: np.ndarray


def straight(told, *, rested=True, lift=0.0, wind=0.0) -> Line:
    """Return anchor, six supports, a joint, six supports, anchor; weight, pressure, heat, a lift at 4, wind at each."""
    x = np.concatenate([np.arange(LEG + 1) * PITCH, LEG * PITCH + JOINT_LENGTH + np.arange(LEG + 1) * PITCH])
    frame = chain(np.outer(x, [1.0, 0.0, 0.0]), {0: ANCHOR, 2 * LEG + 1: ANCHOR})
    frame.straights.axial[LEG] = JOINT * JOINT_LENGTH
    pushed = nodal(frame, dict.fromkeys(SUPPORTS, (0, wind, 0, 0, 0, 0)))
    loaded = causes(*loads(frame, 5.0e4), nodal(frame, {4: (0, 0, lift, 0, 0, 0)}), pushed)
    return Line(frame, gaps(*rests(SUPPORTS if rested else ())), rubs(*told), loaded)


def bent() -> Line:
    """Return two legs at right angles, a joint in each, a corner that nothing holds; weight, pressure, heat, a lift.

    Every support is a rest, a guide with 2 mm on either side and a rub along the pipe with a constant normal force.
    """
    along = np.concatenate([[0.0], np.cumsum([PITCH] * 3 + [JOINT_LENGTH] + [PITCH] * 3)])
    first = np.outer(along, [1.0, 0.0, 0.0])
    second = first[-1] + np.outer(along[-1] - along[-2::-1], [0.0, 1.0, 0.0])
    corner = len(along) - 1
    frame = chain(np.concatenate([first, second]), {0: ANCHOR, 2 * corner: ANCHOR})
    frame.straights.axial[joints(frame)] = JOINT * JOINT_LENGTH
    nodes = [node for node in range(1, 2 * corner) if node != corner]
    x, y = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    ways = [(x, y) if node < corner else (y, x) for node in nodes]
    guides = [
        {"node": node, "direction": across, "plus": 0.002, "minus": 0.002}
        for node, (_, across) in zip(nodes, ways, strict=True)
    ]
    told = [
        {"node": node, "along": way, "mu": MU, "by": [], "constant": 2000.0 + 100.0 * node}
        for node, (way, _) in zip(nodes, ways, strict=True)
    ]
    loaded = causes(*loads(frame, 1.0e4), nodal(frame, {4: (0, 0, 6000.0, 0, 0, 0)}))
    return Line(frame, gaps(*rests(nodes), *guides), rubs(*told), loaded)


def joints(frame) -> np.ndarray:
    """Return the members that are joints."""
    return np.flatnonzero(np.isclose(np.linalg.norm(np.diff(frame.points, axis=0), axis=1), JOINT_LENGTH))


def loads(frame, push) -> tuple[Loads, Loads, Loads]:
    """Return weight, pressure (a pair of forces at each joint) and growth, each at its full amount."""
    heat = uniform(frame, strain=GROWTH)
    heat.strain[0, joints(frame)] = 0.0
    pairs = {}
    for member in joints(frame):
        way = (frame.points[member + 1] - frame.points[member]) / JOINT_LENGTH
        pairs |= {member: (*(-push * way), 0, 0, 0), member + 1: (*(push * way), 0, 0, 0)}
    return uniform(frame, per_length=(0, 0, -WEIGHT)), nodal(frame, pairs), heat


def sprung(line, stiff) -> Line:
    """Return the line with its contacts on springs: rows that give, and a node on springs under each rub."""
    frame, told, count = line.frame, line.rubs, len(line.rubs.node)
    fresh, old = len(frame.points) + np.arange(count), frame.supports
    free = np.zeros((count, 6), dtype=bool)
    free[:, :3] = (told.directions != 0.0).any(axis=1)
    supports = Supports(
        node=np.concatenate([old.node, fresh]),
        axes=np.concatenate([old.axes, np.tile(np.eye(3), (count, 1, 1))]),
        held=np.concatenate([old.held, ~free]),
        spring=np.concatenate([old.spring, stiff * free]),
    )
    points = np.concatenate([frame.points, frame.points[told.node]])
    forces = np.pad(line.causes.nodal, ((0, 0), (0, count), (0, 0)))
    return Line(
        replace(frame, points=points, supports=supports),
        replace(line.gaps, compliance=np.full(len(line.gaps.node), 1.0 / stiff)),
        replace(told, other=fresh),
        replace(line.causes, nodal=forces),
    )


def ours(line, amounts, *, stiff=None, parts=1) -> Both:
    """Return our walk at the ends of whole steps, each walked in equal parts, rigid or on springs."""
    problem = condense(*(line if stiff is None else sprung(line, stiff)))
    assert isinstance(problem, ContactProblem), problem
    before = np.concatenate([np.zeros((1, amounts.shape[1])), amounts[:-1]])
    share = np.arange(1, parts + 1)[:, None] / parts
    cut = (before[:, None] + share * (amounts - before)[:, None]).reshape(-1, amounts.shape[1])
    found = walk(problem, Steps(amounts=cut))
    assert found.converged.all(), found.because
    reactions = answers_of(found).reactions[:, : len(line.frame.supports.node)]
    return Both(*(values[parts - 1 :: parts] for values in (reactions, found.forces, found.friction)))


def theirs(line, amounts, *, stiff=SPRING, parts=1) -> Both:
    """Return what OpenSees finds."""
    found = opensees(*line, amounts, stiff=stiff, parts=parts)
    return Both(found.reactions, found.forces, found.friction)


def apart(one: Both, other: Both) -> float:
    """Return the largest difference of a force at an anchor, of a gap row or of friction [N]."""
    return max(float(np.abs(a - b)[..., :3].max(initial=0.0)) for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize("order", ORDERS)
def test_residual_in_the_anchors_by_hand_and_both(order):
    """What is left in the anchors after a full cycle, with its sign, for both orders of pressure and heat.

    By hand. Normal forces are constant, f_i = mu N_i at x_i from the anchor of its leg, l long. Heat off last moves
    every support of a leg toward its anchor, so that friction on the leg points away from it, s = 1; pressure taken off
    last moves them toward the joint, s = -1. With J the pull of the joint on either leg, u the movement of the end of a
    leg away from its anchor,

        EA u = J l + s sum f x,   J = -rate (u + u')   so   J = -rate s (sum f x + sum f' x') / (EA + 2 rate l)
        on the pipe at its start -(J + s sum f), at its end J + s sum f'

    All slip in the end, as 50 kN is more than twice the sum of friction of a leg and what the joint pulls.
    Whether contacts give makes no difference then. On the way, some supports stick.
    """
    normal = 6000.0 + 250.0 * (np.arange(2 * LEG) % 7)
    told = [{"node": node, "along": (1, 0, 0), "mu": MU, "by": [], "constant": normal[node - 1]} for node in SUPPORTS]
    line = straight(told, rested=False)
    amounts = np.stack([NEVER, *ORDERS[order], NEVER, NEVER], axis=1)
    here, there = ours(line, amounts), theirs(line, amounts)
    friction, length, sign = MU * normal, LEG * PITCH, 1.0 if order == "pressure first" else -1.0
    place = np.minimum(line.frame.points[1:-1, 0], line.frame.points[-1, 0] - line.frame.points[1:-1, 0])
    pull = -JOINT * sign * (friction * place).sum() / (AXIAL + 2.0 * JOINT * length)
    left = [-(pull + sign * friction[:LEG].sum()), pull + sign * friction[LEG:].sum()]
    assert np.sign(left).tolist() == [-sign, sign]
    assert here.reactions[CYCLE, :, 0] == pytest.approx(left, abs=EQUAL)
    assert there.reactions[CYCLE, :, 0] == pytest.approx(left, abs=EQUAL)
    assert apart(ours(line, amounts, stiff=SPRING), there) < EQUAL
    assert apart(here, there) > 10.0  # some stick on the way: else the path would prove no more than its end


def test_normal_force_that_changes_along():
    """Rests under weight and a lift that takes more than half of one's load and gives it back, in heat and cold.

    Nothing turns back within a step: one part and four are as good.
    """
    told = [{"node": node, "along": (1, 0, 0), "mu": MU, "by": [node - 1]} for node in SUPPORTS]
    line = straight(told, lift=1500.0)
    amounts = np.stack([ALWAYS, *ORDERS["pressure first"], LIFT, NEVER], axis=1)
    here = ours(line, amounts, stiff=SPRING)
    assert here.forces[:, 3].min() < 0.5 * here.forces[:, 3].max()
    for parts in (1, 4):
        assert apart(here, theirs(line, amounts, parts=parts)) < EQUAL


@pytest.mark.parametrize("order", ORDERS)
def test_bent_line_with_guides_and_a_rest_that_lifts(order):
    """Guides close and open while rubs turn, within steps: the difference falls with the number of parts.

    Theirs sees an event late by up to a part of a step. Friction that sticks then is off by what a support would take
    in that time, at most its limit, 990 N, over 128 parts: 8 N. Sixteen parts would allow 62 N; a difference that is no
    matter of parts would not fall as they grow.
    """
    line = bent()
    amounts = np.stack([ALWAYS, *ORDERS[order], LIFT], axis=1)
    here = ours(line, amounts, stiff=SPRING)
    few, many = (apart(here, theirs(line, amounts, parts=parts)) for parts in (16, 128))
    assert (here.forces[:, : 2 * LEG] == 0.0).any()
    assert (here.forces[:, 2 * LEG :] != 0.0).sum() > 100
    assert few < 990.0 / 16
    assert many < 990.0 / 128
    assert many < 0.5 * few


def test_friction_in_a_plane():
    """Heat along and wind across turn friction in the planes of the rests; Coulomb's circle, normal forces as found.

    Both take the direction at the end of each part, an approximation of first order, and walk the same parts; but ours
    cuts a part once more where a contact changes or friction turns by more than 0.1 rad, theirs does not. So whole
    steps leave some per cent of the 800 N there are, and what is left falls faster than the parts: measured 13, 0.14
    and 0.05 N. The last must be below twice that, 1/8000 of the friction: one coefficient off by that would show.
    """
    told = [{"node": node, "along": (1, 0, 0), "across": (0, 1, 0), "mu": MU, "by": [node - 1]} for node in SUPPORTS]
    line = straight(told, wind=400.0)
    wind = np.concatenate([NONE, UP, FULL, FULL, DOWN, NONE])
    amounts = np.stack([ALWAYS, EARLY, LATE, NEVER, wind], axis=1)
    amounts = np.concatenate([[[1.0, 0.0, 0.0, 0.0, 0.0]], amounts])
    left = []
    for parts in (1, 4, 8):
        here = ours(line, amounts, stiff=SPRING, parts=parts)
        left.append(apart(here, theirs(line, amounts, parts=parts)))
    assert np.abs(here.friction[..., 1]).max() > 400.0
    assert left[0] > 1.0 > left[1] > left[2]
    assert left[2] < 0.1


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("kind", ["straight", "bent"])
def test_springs_of_contacts_vanish_as_they_grow_stiff(order, kind):
    """Ours on springs comes to ours without: what stands between OpenSees' answers and the rigid walk.

    A/(1e12 + c) is below a newton where A/(1e9 + c) is the friction of a support at most, 990 N: A < 1.4e12 N2/m.
    """
    if kind == "bent":
        line, amounts = bent(), np.stack([ALWAYS, *ORDERS[order], LIFT], axis=1)
    else:
        told = [{"node": node, "along": (1, 0, 0), "mu": MU, "by": [node - 1]} for node in SUPPORTS]
        line, amounts = straight(told, lift=1500.0), np.stack([ALWAYS, *ORDERS[order], LIFT, NEVER], axis=1)
    rigid = ours(line, amounts)
    soft, stiff = (apart(rigid, ours(line, amounts, stiff=stiff)) for stiff in (1e11, 1e12))
    assert 9.0 < soft / stiff < 11.0
    assert stiff < 1.0
