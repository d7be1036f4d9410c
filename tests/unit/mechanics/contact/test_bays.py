"""Bays: a frame cut where it is held whole walks as the undivided frame does, and what is known is not asked again."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.mechanics.builders import ANCHOR, PINNED, chain, uniform
from tests.unit.mechanics.contact.contacts import causes, gaps, rests, rubs

from takeup.mechanics import (
    Loads,
    Memory,
    NotHeld,
    Steps,
    WholeProblem,
    answers_of,
    condense,
    condense_whole,
    displacements_of,
    parts_of,
    reactions_of,
    uniqueness_shown,
    walk,
    walk_whole,
    whole_answers,
    whole_displacements,
    whole_parts,
    whole_reactions,
    whole_uniqueness_shown,
)
from takeup.mechanics.contact.bays import bays_of

ALIKE = 1e-7  # of the largest: both walks are verified to 1e-9, and a soft line makes more of what that leaves
BAYS, EACH = 3, 5


def line_of_bays(seed, *, bays=BAYS, plane=True):
    """Return frame, rows, rubs, causes and steps of a bent line on rests that rub, anchored after every few nodes.

    Heat and a load aside act in one bay each, weight in all; the second bay is rigidly moved at its end.
    """
    rng = np.random.default_rng(seed)
    count = bays * EACH + 1
    points = np.cumsum(rng.normal(size=(count, 3)) * [2.0, 2.0, 0.1] + [3.0, 0.0, 0.0], axis=0)
    frame = chain(points, {number * EACH: ANCHOR for number in range(bays + 1)})
    free = [node for node in range(count) if node % EACH]
    rows, told = rests(free), []
    for place, node in enumerate(free):
        angle = rng.uniform(0.0, 6.3)
        along, across = (np.cos(angle), np.sin(angle), 0.0), (-np.sin(angle), np.cos(angle), 0.0)
        rub = {"node": node, "along": along, "mu": float(rng.uniform(0.05, 0.2)), "by": [place]}
        told.append(rub | {"across": across} if plane else rub)
    way = rng.normal(size=3)
    row = {"node": free[-1], "direction": way / np.linalg.norm(way), "plus": 0.002, "minus": 0.004}
    rows.append(row | {"other": free[-2], "compliance": 1e-7})
    members, cases = count - 1, [uniform(frame, per_length=(0, 0, -850.0))]
    for bay in range(bays):
        own = slice(bay * EACH, (bay + 1) * EACH)
        strain, push = np.zeros((1, members)), np.zeros((1, members, 3))
        strain[:, own], push[:, own] = 1e-3, 150.0 * rng.normal(size=(1, EACH, 3))
        cases += [Loads(strain=strain), Loads(strain=np.zeros((1, members)), per_length=push)]
    load = causes(*cases)
    imposed = np.zeros((len(load.strain) + 1, bays + 1, 6))
    imposed[-1, 1, 1] = 0.01
    load = Loads(
        strain=np.vstack([load.strain, np.zeros((1, members))]),
        per_length=np.concatenate([load.per_length, np.zeros((1, members, 3))]),
        imposed=imposed,
    )
    amounts = np.cumsum(rng.normal(size=(6, len(load.strain))) * 0.7, axis=0)
    amounts[:, 0] = 1.0
    return frame, gaps(*rows), rubs(*told), load, Steps(amounts=amounts)


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10_000), way=st.sampled_from([(True, True), (True, False), (False, False)]))
def test_bays_walk_as_the_undivided_frame(seed, way):
    """Forces, movements, friction, slip, member forces, reactions, parts and balance: all of them, to rounding.

    In increments with rubs in a plane and on a line, and from change to change with rubs on a line.
    """
    increments, plane = way
    frame, own_gaps, own_rubs, load, steps = line_of_bays(seed, plane=plane)
    problem, whole = (make(frame, own_gaps, own_rubs, load) for make in (condense, condense_whole))
    assert isinstance(whole, WholeProblem)
    assert len(whole.bays) == BAYS
    one = walk(problem, steps, increments=increments)
    found = walk_whole(whole, steps, increments=increments)
    if not (one.converged.all() and found.converged.all()):
        return
    size, reach = np.abs(one.forces).max(), np.abs(one.movements).max()
    assert found.forces == pytest.approx(one.forces, rel=0.0, abs=ALIKE * size)
    assert found.friction == pytest.approx(one.friction, rel=0.0, abs=ALIKE * size)
    assert found.movements == pytest.approx(one.movements, rel=0.0, abs=ALIKE * reach)
    assert found.slip == pytest.approx(one.slip, rel=0.0, abs=ALIKE * reach)
    assert found.dissipated == pytest.approx(one.dissipated, rel=0.0, abs=ALIKE * size * reach)
    assert (found.sides == one.sides).all()
    assert (found.error <= 1e-9).all()
    answers, other = whole_answers(found), answers_of(one)
    parts, apart = whole_parts(found), parts_of(one)
    for field in ("displacements", "start_forces", "end_forces", "reactions"):
        mine, theirs = getattr(answers, field), getattr(other, field)
        assert mine == pytest.approx(theirs, rel=0.0, abs=ALIKE * np.abs(theirs).max()), field
    for field in ("start_forces", "end_forces", "reactions", "row_forces"):
        mine, theirs = getattr(parts, field), getattr(apart, field)
        assert mine == pytest.approx(theirs, rel=0.0, abs=ALIKE * np.abs(theirs).max()), field
    assert (answers.residual <= 1e-9).all()
    assert whole_reactions(found) == pytest.approx(reactions_of(one), rel=0.0, abs=ALIKE * size)
    nodes = np.array([2, EACH, 2 * EACH + 1])
    assert whole_displacements(found, nodes) == pytest.approx(displacements_of(one, nodes), rel=0.0, abs=ALIKE * reach)


@pytest.mark.parametrize("seed", [1, 2])
def test_bays_follow_rubs_in_a_plane_as_the_undivided_frame_to_the_length_of_its_legs(seed: int):
    """From change to change the path of a plane rub is chords, cut where anything changes: in a bay, in that bay alone.

    Each is good to first order in its legs of 0.1 rad; seen: 0.2 % of the largest force, here a hundredth.
    """
    frame, own_gaps, own_rubs, load, steps = line_of_bays(seed)
    one = walk(condense(frame, own_gaps, own_rubs, load), steps)
    found = walk_whole(condense_whole(frame, own_gaps, own_rubs, load), steps)
    assert found.friction == pytest.approx(one.friction, rel=0.0, abs=0.01 * np.abs(one.forces).max())


def test_what_is_shown_of_the_whole_is_shown_of_each_bay():
    """A bay may choose its own weights, so that more can be shown bay by bay, and never less."""
    for seed in range(6):
        frame, own_gaps, own_rubs, load, _ = line_of_bays(seed)
        slight = replace(own_rubs, mu=0.1 * own_rubs.mu)
        if uniqueness_shown(condense(frame, own_gaps, slight, load)):
            assert whole_uniqueness_shown(condense_whole(frame, own_gaps, slight, load))


@pytest.mark.parametrize("increments", [False, True])
def test_what_is_remembered_of_a_bay_is_what_would_be_found_again(*, increments: bool):
    """Two lines that differ in their last bay: the second is walked with the memory of the first, and without any.

    Every number is the same to the last bit, and two of its three bays were not worked out again.
    """
    frame, own_gaps, own_rubs, load, steps = line_of_bays(3)
    points = frame.points.copy()
    points[-3, 1] += 0.5
    memory, found = Memory(), []
    for known in (memory, Memory()):
        for own in (frame, replace(frame, points=points)) if known is memory else (replace(frame, points=points),):
            whole = condense_whole(own, own_gaps, own_rubs, load, known)
            assert isinstance(whole, WholeProblem)
            done = walk_whole(whole, steps, increments=increments)
            found.append((done, whole_answers(done), whole_parts(done)))
    for remembered, anew in zip(found[1], found[2], strict=True):
        for field in fields(anew):
            mine, theirs = getattr(remembered, field.name), getattr(anew, field.name)
            if isinstance(theirs, np.ndarray):
                assert np.array_equal(mine, theirs, equal_nan=True), field.name
    assert found[1][0].events == found[2][0].events
    assert not np.array_equal(found[0][0].forces, found[1][0].forces)
    for shelf in (memory.problems, memory.walks, memory.answers, memory.parts):
        assert (shelf.asked, shelf.found) == (2 * BAYS, BAYS - 1)


def test_memory_tells_apart_what_differs_in_one_number():
    """Friction, an amount of a step, a gap: nothing is found where one of them differs by the last bit."""
    frame, own_gaps, own_rubs, load, steps = line_of_bays(4, bays=1)
    memory = Memory()

    def walked(own_gaps=own_gaps, own_rubs=own_rubs, steps=steps, mu=None):
        return walk_whole(condense_whole(frame, own_gaps, own_rubs, load, memory), steps, mu=mu)

    walked()
    walked()
    assert memory.walks.found == 1
    other = steps.amounts.copy()
    other[2, 1] = np.nextafter(other[2, 1], np.inf)
    walked(steps=replace(steps, amounts=other))
    walked(mu=np.nextafter(own_rubs.mu, 1.0))
    plus = own_gaps.gap_plus.copy()
    plus[-1] = np.nextafter(plus[-1], 1.0)
    walked(own_gaps=replace(own_gaps, gap_plus=plus))
    assert memory.walks.found == 1


def test_memory_forgets_what_was_asked_for_longest_ago():
    """Room for one problem only: the first is gone after the second, and what is held stays within one."""
    memory = Memory()
    lines = [line_of_bays(seed, bays=1) for seed in (1, 2)]
    condense_whole(*lines[0][:4], memory)
    memory.problems.limit = memory.problems.held
    for line in (lines[1], lines[1], lines[0]):
        condense_whole(*line[:4], memory)
    assert (memory.problems.asked, memory.problems.found, len(memory.problems.known)) == (4, 1, 1)


def test_only_nodes_held_whole_by_one_support_cut_a_frame():
    """A pinned node passes bending on; a row from one side to the other, or a rub that it presses, joins two bays."""
    frame, own_gaps, own_rubs, load, _ = line_of_bays(0)

    def count(own=frame, rows=own_gaps, told=own_rubs):
        return len(bays_of(own, rows, told, load))

    assert count() == BAYS
    held = frame.supports.held.copy()
    held[1] = PINNED
    assert count(replace(frame, supports=replace(frame.supports, held=held))) == BAYS - 1
    other = own_gaps.other.copy()
    other[0] = 2 * EACH + 1  # from the first bay to the last
    assert count(rows=replace(own_gaps, other=other)) == BAYS - 1
    pressed = own_rubs.pressed_by.copy()
    pressed[0] = len(own_rubs.node) - 1
    assert count(told=replace(own_rubs, pressed_by=pressed)) == BAYS - 1


def test_what_a_bay_is_not_held_by_is_said_as_of_the_whole():
    """The last bay ends in the air on a hinge: the whole frame's own words and motions, and no bay's."""
    frame, _, _, load, _ = line_of_bays(5)
    members = np.arange(len(frame.straights.start)) != 2 * EACH
    kept = {name: getattr(frame.straights, name)[members] for name in ("start", "end", "axial", "bending", "torsion")}
    loose = replace(frame, straights=replace(frame.straights, **kept))
    held = frame.supports.held.copy()
    held[-1] = False
    loose = replace(loose, supports=replace(frame.supports, held=held))
    fewer = Loads(strain=load.strain[:, members], per_length=load.per_length[:, members], imposed=load.imposed)
    no_gaps = gaps(*rests([1, 2]))
    one, whole = (make(loose, no_gaps, rubs(), fewer) for make in (condense, condense_whole))
    assert isinstance(one, NotHeld)
    assert isinstance(whole, NotHeld)
    assert (whole.words, whole.parts) == (one.words, one.parts)
