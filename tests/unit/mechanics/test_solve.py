"""The solve: in equilibrium, verified, or refused; never wrong.     (tests/unit/mechanics/test_solve.py)"""

from __future__ import annotations

import importlib

import numpy as np
import pytest
from tests.unit.mechanics.builders import ANCHOR, AXIAL, BENDING, answer, chain, nodal, rotation, uniform
from tests.unit.mechanics.test_assembly import random_chain, whole_matrix, with_everything
from tests.unit.mechanics.test_recover import arms, random_loads

from takeup.mechanics import Factor, Loads, NotFactored, NotHeld, factorise, solve


@pytest.mark.parametrize("frame", [random_chain(30), with_everything()], ids=["chain", "mixed"])
def test_solve_reactions_balance_all_loads(frame):
    """Reactions and loads: forces sum to zero, and so do moments about the origin; 1e-8 of the largest, arms of ten."""
    loads = random_loads(frame, 4)
    found = answer(frame, loads)
    _, _, middle, length = arms(frame)
    push, held = loads.per_length * length[None, :, None], frame.points[frame.supports.node]
    force = found.reactions[..., :3].sum(axis=1) + push.sum(axis=1) + loads.nodal[..., :3].sum(axis=1)
    moment = found.reactions[..., 3:].sum(axis=1) + loads.nodal[..., 3:].sum(axis=1)
    for place, part in ((held, found.reactions[..., :3]), (middle, push), (frame.points, loads.nodal[..., :3])):
        moment = moment + np.cross(place, part).sum(axis=1)
    largest = np.abs(found.reactions).max()
    assert force == pytest.approx(0.0, abs=1e-9 * largest)
    assert moment == pytest.approx(0.0, abs=1e-8 * largest)


def test_solve_reciprocity():
    """Maxwell-Betti: load A does on the movements of load B the work that B does on those of A."""
    frame = with_everything()
    loads = random_loads(frame, 2)
    both = answer(frame, Loads(strain=0.0 * loads.strain, nodal=loads.nodal)).displacements
    one, other = (loads.nodal[0] * both[1]).sum(), (loads.nodal[1] * both[0]).sum()
    assert one == pytest.approx(other, rel=1e-10)  # rounding of a sum of some thirty terms


def test_solve_refuses_a_mechanism():
    assert isinstance(factorise(chain([[0.0, 0, 0], [1, 0, 0]], {})), NotHeld)


def beam(length, members, both_ends):
    """Return an unguided pipe on one or two anchors, and its exact deflection under 850 N/m at the node told.

    q L^4/8EI at the end of a cantilever, q L^4/384EI in the middle of a fixed beam (textbook).
    """
    points = np.outer(np.linspace(0.0, length, members + 1), [0.6, 0.8, 0.0])
    holds = {0: ANCHOR, members: ANCHOR} if both_ends else {0: ANCHOR}
    exact = -850.0 * length**4 / ((384.0 if both_ends else 8.0) * BENDING)
    return chain(points, holds), members // 2 if both_ends else members, exact


@pytest.mark.parametrize("members", [50, 200, 1_000, 5_000, 10_000, 20_000, 50_000])
@pytest.mark.parametrize("both_ends", [False, True])
def test_solve_kilometre_of_short_members_is_right_or_refused(members, both_ends):
    """A kilometre without guides in members of 20 m to 20 mm: what is called solved is right to 1e-7.

    The correction limit of 1e-8 promises the displacement to about that, ten times allowed. The condition number is
    about (members)^4/16, from 1e5 to beyond 1e16, where Cholesky has no figure left: some of these must be refused.
    """
    frame, node, exact = beam(1_000.0, members, both_ends)
    factor = factorise(frame)
    if isinstance(factor, NotFactored):
        assert members >= 20_000
        assert "too ill-conditioned" in factor.because
        return
    assert isinstance(factor, Factor)
    found = solve(factor, uniform(frame, per_length=(0.0, 0.0, -850.0)))
    if found.solved.all():
        assert found.displacements[0, node, 2] == pytest.approx(exact, rel=1e-7)
        assert found.because == ""
    else:
        assert "not verified: residual" in found.because
    assert found.solved.all() or members >= 1_000  # twenty-metre and five-metre members are no excuse
    assert not found.solved.all() or members <= 10_000  # where no figure is left, it must come


def test_solve_short_member_in_a_moving_line_is_verified():
    """An L of 80 m and 60 m swings by 0.18 m with 30 mm of pipe in it: 12 EI/L^3 = 2.7e12 N/m.

    A displacement there is rounded by 1e-17 m, 3e-5 N, and forces are some 1e3 N or N m: only forces that never see a
    rounded displacement can balance to 1e-12.
    """
    points = [[0.0, 0, 0], [80, 0, 0], [80, 30, 0], [80, 30.03, 0], [80, 60, 0]]
    frame = chain(points, {0: ANCHOR, 4: ANCHOR})
    found = answer(frame, uniform(frame, strain=2.2e-3))
    assert np.abs(found.displacements[0, 2:4, :3]).max() > 0.05
    assert found.residual[0] < 1e-12


def test_solve_condition_is_a_lower_bound_of_the_right_size():
    """Against numpy.linalg.cond of the scaled matrix: never above it; within ten below where the load bends a beam."""
    frame = chain(np.outer(np.linspace(0.0, 60.0, 31), [1.0, 0.0, 0.0]), {0: ANCHOR, 30: ANCHOR})
    matrix, free = whole_matrix(frame)
    inside = matrix[free][:, free].toarray()
    scale = 1.0 / np.sqrt(np.diagonal(inside))
    true = np.linalg.cond(inside * scale[:, None] * scale)
    found = answer(frame, uniform(frame, per_length=(0.0, 0.0, -850.0))).condition
    assert true / 10.0 < found <= true * (1.0 + 1e-9)


def test_solve_straight_pipe_between_anchors_is_verified():
    """Nothing moves and E A eps is everywhere: displacements are rounding, and must not be called unsolved for it."""
    random = np.random.default_rng(4)
    stations = np.concatenate([[0.0], np.cumsum(random.uniform(0.5, 6.0, size=60))])
    frame = chain(np.outer(stations, [0.48, 0.6, 0.64]), {0: ANCHOR, 60: ANCHOR})
    found = answer(frame, uniform(frame, strain=2.2e-3))
    assert np.abs(found.displacements).max() < 1e-9 * 2.2e-3 * stations[-1]
    assert np.linalg.norm(found.reactions[0, 0, :3]) == pytest.approx(AXIAL * 2.2e-3, rel=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_solve_straight_pipe_with_an_askew_hold_is_verified(seed):
    """The same with a hold in axes of its own, whose rotation rounds anew in each pass: the steps never settle.

    About one in ten of such pipes would be refused if the last step were measured against nothing but rounding.
    """
    random = np.random.default_rng(seed)
    points = np.outer(np.concatenate([[0.0], np.cumsum(random.uniform(0.5, 6.0, size=3))]), [0.48, 0.6, 0.64])
    skew = {1: (False, True, True, False, False, False)}
    frame = chain(points, {0: ANCHOR, 3: ANCHOR, **skew}, axes={1: rotation(random.normal(size=3))})
    found = answer(frame, uniform(frame, strain=2.2e-3))
    assert np.abs(found.displacements).max() < 1e-12  # metres; E A eps L is 2 MN times some metres


def test_solve_free_growth_is_verified():
    """Nothing resists: forces are rounding of E A eps, and balance all the same."""
    frame = chain(np.cumsum(np.random.default_rng(6).normal(size=(60, 3)), axis=0), {0: ANCHOR})
    found = answer(frame, uniform(frame, strain=2.2e-3))
    relative = found.displacements[0, :, :3] - 2.2e-3 * (frame.points - frame.points[0])
    assert np.abs(relative).max() < 1e-10  # metres, of some 20 mm
    assert np.abs(found.reactions).max() < 1e-8 * AXIAL * 2.2e-3


@pytest.mark.parametrize(("members", "guide"), [(2, 1), (3, 1), (9, 4), (30, 29)])
def test_solve_free_growth_through_a_guide_is_verified(members, guide):
    """A riser on one anchor grows through a guide: each pass leaves a smaller nothing, half of it out of balance."""
    points = np.outer(np.linspace(0.0, 20.0, members + 1), [0.0, 0.0, 1.0])
    frame = chain(points, {0: ANCHOR, guide: (True, True, False, False, False, False)})
    found = answer(frame, uniform(frame, strain=2.2e-3))
    assert found.displacements[0, -1, 2] == pytest.approx(0.044, rel=1e-12)  # 2.2e-3 x 20 m
    assert np.abs(found.end_forces).max() < 1e-9 * AXIAL * 2.2e-3


def test_solve_without_loads_rests():
    frame = random_chain(5)
    found = answer(frame, nodal(frame, {}))
    assert not found.displacements.any()
    assert not found.reactions.any()


def test_solve_load_on_an_anchor_goes_into_it():
    frame = random_chain(5)
    found = answer(frame, nodal(frame, {0: [1e3, 0, 0, 0, 0, 0]}))
    assert found.reactions[0, 0, 0] == -1e3
    assert not found.displacements.any()


def test_solve_a_wrong_factor_is_refused():
    """With the factor of a matrix a third as stiff, each pass overshoots: refused after eight."""
    frame = random_chain(12)
    other = chain(frame.points, {0: ANCHOR, 6: (False, True, True, False, False, False), 12: ANCHOR}, (3e8, 4e6, 9e7))
    right, wrong = factorise(frame), factorise(other)
    mixed = Factor(model=right.model, cholesky=wrong.cholesky, diagonal=right.diagonal, condition=right.condition)
    found = solve(mixed, uniform(frame, 2.2e-3, (0.0, 0.0, -850.0)))
    assert not found.solved.any()
    assert found.because.startswith("not verified: residual")


def test_solve_limits_are_those_promised():
    """docs/theory/solver.md: 1e-9 of the largest member end force, 1e-8 of the displacement."""
    module = importlib.import_module("takeup.mechanics.solve")
    assert (module.RESIDUAL_LIMIT, module.CORRECTION_LIMIT) == (1e-9, 1e-8)


@pytest.mark.parametrize("limit", ["RESIDUAL_LIMIT", "CORRECTION_LIMIT"])
def test_solve_either_limit_refuses_alone(monkeypatch, limit):
    """With a limit that nothing can meet, a good answer is refused, and says so."""
    monkeypatch.setattr(importlib.import_module("takeup.mechanics.solve"), limit, -1.0)
    frame = random_chain(12)
    found = solve(factorise(frame), uniform(frame, 2.2e-3, (0.0, 0.0, -850.0)))
    assert not found.solved.any()
    assert "(limit -1e+00)" in found.because


def test_solve_refuses_what_is_not_a_number():
    frame = random_chain(12)
    assert not solve(factorise(frame), uniform(frame, strain=np.nan)).solved.any()
