"""Holds that come and go, against closed forms.     (contact/test_presence.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.unit.mechanics.builders import ANCHOR, AXIAL, BENDING, chain, nodal, uniform
from tests.unit.mechanics.contact.contacts import condensed, rests

from takeup.mechanics import Steps, answers_of, parts_of, walk
from takeup.mechanics.contact.walk_forces import reactions_of

TIGHT = 1e-9  # forces are verified to 1e-9 of the largest
LENGTH, MEMBERS, GROWTH = 8.0, 4, 1e-3


def anchor_rows(node):
    """Return the six rows of a temporary anchor."""
    held = {"node": node, "plus": 0.0, "minus": 0.0}
    return [held | {"direction": way, "turns": turns} for turns in (False, True) for way in np.eye(3)]


def straight(holds, *, members=MEMBERS):
    return chain(np.outer(np.linspace(0.0, LENGTH, members + 1), [1.0, 0.0, 0.0]), holds)


def walked(problem, amounts, present, **more):
    """Return a walk that converged and balances."""
    found = walk(problem, Steps(amounts=np.array(amounts, dtype=float), present=np.array(present, dtype=bool), **more))
    assert found.converged.all(), found.because
    answers = answers_of(found)
    assert answers.residual[found.held] == pytest.approx(0.0, abs=TIGHT)
    assert reactions_of(found)[found.held] == pytest.approx(answers.reactions[found.held], abs=0.0)
    parts = parts_of(found).reactions[found.held].sum(axis=1)
    size = np.abs(answers.reactions[found.held]).max(initial=0.0)
    assert parts == pytest.approx(answers.reactions[found.held], rel=0.0, abs=TIGHT * max(size, 1.0))
    return found


def test_temporary_anchor_at_half_heat():
    """Free end held from half heat on: full heat gives EA e/2; let go: none, and it stands e L/2 beyond its foot.

    Held once more while hot and cooled to nothing: -EA e, all of it heat and contact, none of it feet.
    """
    frame = straight({0: ANCHOR})
    problem = condensed(frame, anchor_rows(MEMBERS), (), uniform(frame, strain=GROWTH))
    there = np.array([False, True, False, True])[:, None] & np.ones(6, dtype=bool)
    found = walked(problem, [[0.5], [1.0], [1.0], [0.0]], there)
    force = AXIAL * GROWTH
    assert found.forces[:, 0] == pytest.approx([0.0, 0.5 * force, 0.0, -force], rel=TIGHT, abs=1e-6)
    assert found.forces[:, 1:] == pytest.approx(0.0, abs=1e-6)  # N, N m, beside a thrust of 10^6
    assert found.movements[:, 0] == pytest.approx([0.004, 0.0, 0.004, 0.0], abs=1e-12)  # e L/2 = 4 mm
    assert found.sides[:, 0].tolist() == [0, 1, 0, -1]  # by the sign of its force
    assert found.events == ()  # told, not found
    parts = parts_of(found).row_forces[[1, 3], :, 0]  # heat, feet, contact, friction
    assert parts[0] == pytest.approx([force, 0.0, -0.5 * force, 0.0], rel=TIGHT, abs=1e-6)
    assert parts[1] == pytest.approx([0.0, 0.0, -force, 0.0], rel=TIGHT, abs=1e-6)


def test_temporary_anchors_are_all_that_holds():
    """No support at all: an anchor at either end by turns; between, nothing holds, and that is said.

    At the start A. B put in at half heat: EA e/2 at full heat. A taken out: no force. B taken out under a side load:
    not held. A put in there: it takes the whole side load, and its moment about A is load times length.
    """
    frame = straight({})
    side = nodal(frame, {MEMBERS: (0, 1.0, 0, 0, 0, 0)})
    problem = condensed(frame, anchor_rows(0) + anchor_rows(MEMBERS), (), uniform(frame, strain=GROWTH), side)
    who = np.array([[True, False], [True, True], [False, True], [False, False], [True, False]])
    amounts = [[0.5, 0], [1, 0], [1, 0], [1, 10], [1, 10]]
    found = walked(problem, amounts, np.repeat(who, 6, axis=1))
    assert found.held.tolist() == [True, True, True, False, True]
    assert "not held" in found.because[0]
    half = 0.5 * AXIAL * GROWTH
    assert found.forces[[0, 1, 2, 4], 0] == pytest.approx([0.0, -half, 0.0, 0.0], rel=TIGHT, abs=1e-6)
    assert found.forces[[0, 1, 2, 4], 6] == pytest.approx([0.0, half, 0.0, 0.0], rel=TIGHT, abs=1e-6)
    assert found.movements[2, 0] == pytest.approx(-0.5 * GROWTH * LENGTH, rel=1e-9)
    assert found.forces[4, 1] == pytest.approx(10.0, rel=1e-7)  # forces of 10^6 went before it in the same walk
    assert found.forces[4, 5] == pytest.approx(10.0 * LENGTH, rel=1e-7)


def test_locked_spring_hanger_under_test_water():
    """Cantilever on a spring k: locked under its weight W, the lock takes all the water Q; let go, k and c share it.

    c = 3 EI/L^3. Movement at the spring W/(k + c), the same while locked, (W + Q)/(k + c) when let go full, and
    W/(k + c) again when emptied.
    """
    rate, weight, water = 2.0e5, 4.0e3, 9.0e3
    frame = straight({0: ANCHOR, MEMBERS: np.zeros(6, dtype=bool)})
    spring = frame.supports.spring.copy()
    spring[1, 2] = rate
    frame = replace(frame, supports=replace(frame.supports, spring=spring))
    lock = {"node": MEMBERS, "direction": (0, 0, -1.0), "plus": 0.0, "minus": 0.0}
    problem = condensed(frame, [lock], (), nodal(frame, {MEMBERS: (0, 0, -1.0, 0, 0, 0)}))
    amounts = [[weight], [weight + water], [weight], [weight + water], [weight + water], [weight]]
    found = walked(problem, amounts, [[False], [True], [False], [True], [False], [False]])
    assert found.forces[:, 0] == pytest.approx([0.0, water, 0.0, water, 0.0, 0.0], rel=TIGHT, abs=1e-6)
    total = rate + 3.0 * BENDING / LENGTH**3
    low = answers_of(found).displacements[:, MEMBERS, 2]
    full = weight + water
    assert low == pytest.approx(-np.array([weight, weight, weight, weight, full, weight]) / total, rel=TIGHT)


def test_contacts_met_while_a_hold_lets_go_are_events():
    """A hold at the tip takes P; let go, the tip goes down s P/c at fraction s, and meets a stop after gap g at g c/P.

    From there the stop takes what is left: P - g c in the end.
    """
    load, gap = 6.0e3, 0.02
    frame = straight({0: ANCHOR})
    hold = {"node": MEMBERS, "direction": (0, 0, -1.0), "plus": 0.0, "minus": 0.0}
    stop = {"node": MEMBERS, "direction": (0, 0, -1.0), "plus": gap, "minus": np.inf}
    problem = condensed(frame, [hold, stop], (), nodal(frame, {MEMBERS: (0, 0, -1.0, 0, 0, 0)}))
    found = walked(problem, [[load], [load]], [[True, True], [False, True]])
    stiff = 3.0 * BENDING / LENGTH**3
    assert found.forces[0] == pytest.approx([load, 0.0], rel=TIGHT)
    assert found.forces[1] == pytest.approx([0.0, load - gap * stiff], rel=TIGHT)
    event = found.events[-1]
    assert (event.step, event.kind, event.index, event.what) == (1, "gap", 1, "closes")
    assert event.fraction == pytest.approx(gap * stiff / load, rel=1e-9)


@pytest.mark.parametrize("plane", [False, True])
def test_rest_put_in_presses_with_what_comes_after(plane):
    """A rest put in under load W carries nothing; more weight D presses it with its share of D, and limits friction.

    Taken out while dragged: its friction goes with its force, and nothing is left on the rub.
    """
    frame = chain([[0.0, 0, 3.0], [0.0, 0, 0.0]], {0: ANCHOR})
    across = {"across": (0, 1.0, 0)} if plane else {}
    rub = {"node": 1, "along": (1.0, 0, 0), "mu": 0.2, "by": [0], **across}
    ways = ((0, 0, -1.0, 0, 0, 0), (1.0, 0, 0, 0, 0, 0))
    problem = condensed(frame, rests([1]), [rub], *[nodal(frame, {1: way}) for way in ways])
    amounts = [[5e3, 0], [5e3, 0], [9e3, 0], [9e3, 2e3], [9e3, 2e3]]
    found = walked(problem, amounts, [[False], [True], [True], [True], [False]])
    assert found.forces[:, 0] == pytest.approx([0.0, 0.0, 4e3, 4e3, 0.0], rel=TIGHT, abs=1e-6)  # the foot is rigid
    assert found.friction[3, 0] == pytest.approx([-0.2 * 4e3, 0.0], rel=TIGHT, abs=1e-6)
    assert found.friction[4] == pytest.approx(0.0, abs=1e-6)
    assert found.rubbing[:, 0].tolist() == [0, 1, 1, 2, 0]


def test_blocks_end_where_presence_changes():
    """A record of two hundred readings, an anchor put in at the fiftieth and taken out at the hundred and twentieth.

    Force EA (e - e_put) in each, with e_put the heat of the reading before it was put in.
    """
    frame = straight({0: ANCHOR})
    problem = condensed(frame, anchor_rows(MEMBERS), (), uniform(frame, strain=GROWTH))
    heat = 0.6 + 0.4 * np.sin(np.arange(200) / 11.0)
    there = (np.arange(200) >= 50) & (np.arange(200) < 120)
    found = walked(problem, heat[:, None], np.repeat(there[:, None], 6, axis=1))
    expected = np.where(there, AXIAL * GROWTH * (heat - heat[49]), 0.0)
    assert found.forces[:, 0] == pytest.approx(expected, rel=1e-8, abs=1e-3)  # N, of 10^6


def test_foot_of_a_hold_put_in_late_moves_from_then_on():
    """A stop without clearance put in at step 1 whose foot has moved 1 mm before and moves 2 mm on: EA 2 mm/L pulls.

    That force is all of it the part of the feet.
    """
    frame = straight({0: ANCHOR})
    hold = {"node": MEMBERS, "direction": (1.0, 0, 0), "plus": 0.0, "minus": 0.0}
    problem = condensed(frame, [hold], (), uniform(frame, strain=GROWTH))
    feet = np.array([[0.001], [0.003], [0.003]])
    found = walked(problem, [[0.0], [0.0], [1.0]], [[False], [True], [True]], feet=feet)
    pull = -AXIAL * 0.002 / LENGTH
    assert found.forces[:, 0] == pytest.approx([0.0, pull, pull + AXIAL * GROWTH], rel=TIGHT, abs=1e-6)
    assert parts_of(found).row_forces[2, :, 0] == pytest.approx([AXIAL * GROWTH, pull, 0.0, 0.0], rel=TIGHT, abs=1e-4)
