"""Member end forces: every member in balance, every case by itself.     (tests/unit/mechanics/test_recover.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.unit.mechanics.builders import answer
from tests.unit.mechanics.test_assembly import random_chain, whole_matrix, with_everything

from takeup.mechanics import Loads, recover
from takeup.mechanics.model import make_model


def random_loads(frame, cases, seed=11):
    """Return random growth, line loads and nodal loads."""
    random, count = np.random.default_rng(seed), frame.member_count
    return Loads(
        strain=1e-3 * random.normal(size=(cases, count)),
        per_length=1e3 * random.normal(size=(cases, count, 3)),
        nodal=1e3 * random.normal(size=(cases, len(frame.points), 6)),
    )


def arms(frame):
    """Return, for each member, start node and end node positions, and where the resultant of its load acts."""
    model = make_model(frame)
    line, bends = frame.straights, frame.arcs
    start = frame.points[np.concatenate([line.start, bends.start])]
    end = frame.points[np.concatenate([line.end, bends.end])]
    offset = np.zeros((len(line.start), 3)) if line.start_offset is None else line.start_offset
    middle = frame.points[line.start] + offset + model.k.chord.T / 2.0
    sagging = frame.points[bends.start] + model.arcs.first_moment / model.arcs.length[:, None]
    length = np.concatenate([model.k.length, model.arcs.length])
    return start, end, np.concatenate([middle, sagging]), length


@pytest.mark.parametrize("frame", [random_chain(9), with_everything()], ids=["chain", "mixed"])
def test_recover_every_member_is_in_balance(frame):
    """Forces and moments about the origin of each member with its load sum to zero; 1e-9 of the largest is rounding."""
    loads = random_loads(frame, 3)
    found = answer(frame, loads)
    start, end, middle, length = arms(frame)
    push = loads.per_length * length[None, :, None]
    force = found.start_forces[..., :3] + found.end_forces[..., :3] + push
    moment = found.start_forces[..., 3:] + found.end_forces[..., 3:]
    for place, part in ((start, found.start_forces[..., :3]), (end, found.end_forces[..., :3]), (middle, push)):
        moment = moment + np.cross(place, part)
    largest = np.abs(found.end_forces).max()
    assert force == pytest.approx(0.0, abs=1e-10 * largest)
    assert moment == pytest.approx(0.0, abs=1e-9 * largest)  # lever arms of about ten metres


@pytest.mark.parametrize("frame", [random_chain(9), with_everything()], ids=["chain", "mixed"])
def test_recover_forces_are_those_of_the_matrix(frame):
    """At nodes without holds, the member forces of any displacements sum to K u, K from the members' own matrices."""
    model = make_model(frame)
    u = np.random.default_rng(2).normal(size=(6, 1, len(frame.points)))
    forces = recover.forces_at_rest(model, Loads(strain=np.zeros((1, frame.member_count))))
    assert not forces.any()
    out = -recover.recover(model, np.zeros_like(u), u, forces)[:, 0].T
    matrix, _ = whole_matrix(frame)
    moved = u[:, 0].T.copy()
    for node, axes in zip(model.rotated, model.rotation, strict=True):
        moved[node] = np.concatenate([axes[0] @ moved[node, :3], axes[1] @ moved[node, 3:]])
    other = (matrix @ moved.ravel()).reshape(-1, 6)
    plain = ~np.isin(np.arange(len(frame.points)), frame.supports.node)
    assert out[plain] == pytest.approx(other[plain], rel=1e-11, abs=1e-13 * np.abs(other).max())
    assert pytest.approx(out, abs=1e-12 * np.abs(out).max()) == recover.sums_at_nodes(model, forces)[:, 0].T


@pytest.mark.parametrize("frame", [random_chain(700), with_everything()], ids=["chain", "mixed"])
def test_recover_cases_together_equal_cases_alone(frame):
    """Seven cases at once (more than one piece of the members) and each by itself: only rounding between them."""
    loads = random_loads(frame, 7)
    together = answer(frame, loads)
    for case in range(7):
        one = slice(case, case + 1)
        alone = answer(frame, Loads(strain=loads.strain[one], per_length=loads.per_length[one], nodal=loads.nodal[one]))
        for name in ("end_forces", "reactions"):
            part = getattr(alone, name)[0]
            assert getattr(together, name)[case] == pytest.approx(part, abs=1e-9 * np.abs(part).max())


def test_recover_cases_add_up():
    """Growth, weight and nodal loads apart sum to all at once (linear); 1e-9 of the largest is rounding."""
    frame = with_everything()
    loads = random_loads(frame, 1)
    parts = (
        Loads(strain=loads.strain),
        Loads(strain=0.0 * loads.strain, per_length=loads.per_length),
        Loads(strain=0.0 * loads.strain, nodal=loads.nodal),
    )
    whole = answer(frame, loads).reactions
    assert sum(answer(frame, part).reactions for part in parts) == pytest.approx(whole, abs=1e-9 * np.abs(whole).max())
