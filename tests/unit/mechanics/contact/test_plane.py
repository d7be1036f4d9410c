"""Friction in a plane: closed forms, laws on random frames, an independent solution.     (contact/test_plane.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from benchmarks.walk import forty_steps, problem_of
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.mechanics.builders import ANCHOR, BENDING, chain, moved, nodal, rotation, uniform
from tests.unit.mechanics.contact.contacts import causes, condensed, gaps, rests, rubs
from tests.unit.mechanics.contact.test_walk import random_line

from takeup.mechanics import Steps, answers_of, condense, parts_of, uniqueness_shown, walk
from takeup.mechanics.contact import jump as jumps
from takeup.mechanics.contact import walk as walks
from takeup.mechanics.contact.jump import jump
from takeup.mechanics.contact.position import Path
from takeup.mechanics.contact.rows import second_tangents
from takeup.mechanics.contact.scaled import scaled
from takeup.mechanics.contact.sweeps import swept

LIMIT = 1e-9  # what a walk verifies, of the largest
HEIGHT, MU, WEIGHT = 3.0, 0.2, 5.0e3


def block():
    """Return a block at the foot of an upright cantilever, k = 3 EI/h^3 both ways: weight, pulls along x and y."""
    frame = chain([[0.0, 0, HEIGHT], [0.0, 0, 0.0]], {0: ANCHOR})
    rub = {"node": 1, "along": (1.0, 0, 0), "across": (0, 1.0, 0), "mu": MU, "by": [0]}
    pull = [nodal(frame, {1: way}) for way in ((0, 0, -1.0, 0, 0, 0), (1.0, 0, 0, 0, 0, 0), (0, 1.0, 0, 0, 0, 0))]
    return condensed(frame, rests([1]), [rub], *pull)


def limit_of_block(problem):
    """Return L: the rest takes a share of the weight, the pipe above the remainder."""
    return MU * walk(problem, Steps(amounts=np.array([[WEIGHT, 0.0, 0.0]]))).forces[0, 0]


def test_block_turned_in_its_direction_draws_a_tractrix():
    """A block on a string: the pull moves along y, the string of length L/k first lies along x.

    Tractrix (textbook): tan(angle/2) = tan(angle_0/2) exp(-s k/L), angle between string and pull, angle_0 = 90 degrees,
    s k = growth of the pull. Two hundred steps over 4 L: each turns friction by 1 degree at most; first order, 1 %.
    """
    problem = block()
    limit = limit_of_block(problem)
    pull = np.linspace(0.0, 4.0 * limit, 201)[1:]
    first = np.array([[WEIGHT, 0.0, 0.0], [WEIGHT, 2.0 * limit, 0.0]])
    then = np.stack([np.full(200, WEIGHT), np.full(200, 2.0 * limit), pull], axis=1)
    found = walk(problem, Steps(amounts=np.concatenate([first, then])))
    assert found.converged.all(), found.because
    friction = -found.friction[2:, 0]
    angle = np.arctan2(friction[:, 0], friction[:, 1])
    assert np.hypot(*friction.T) == pytest.approx(limit, rel=LIMIT)
    assert angle == pytest.approx(2.0 * np.arctan(np.exp(-pull / limit)), abs=0.01 * np.pi / 2.0)


def test_block_to_and_fro_on_a_slanted_line():
    """Pulled to and fro with P > L along a line slanting to the tangents: a line it stays, as in one dimension.

    By hand: friction L against the slip, slip 2 (P - L)/k each half way, work 2 L (P - L)/k.
    """
    problem = block()
    limit, way = limit_of_block(problem), np.array([np.cos(0.7), np.sin(0.7)])
    pull = np.array([0.0, 3.0, -3.0, 3.0, 0.0]) * limit
    amounts = np.concatenate([np.full((5, 1), WEIGHT), pull[:, None] * way], axis=1)
    found = walk(problem, Steps(amounts=amounts))
    stiff = 3.0 * BENDING / HEIGHT**3
    assert found.friction[1:4, 0] @ way == pytest.approx(limit * np.array([-1.0, 1.0, -1.0]), rel=LIMIT)
    assert found.friction[:, 0] @ [-way[1], way[0]] == pytest.approx(0.0, abs=1e-9 * limit)
    assert found.slip[2:4, 0] @ way == pytest.approx(4.0 * limit / stiff * np.array([-1.0, 1.0]), rel=1e-9)
    assert found.dissipated[2:4] == pytest.approx(4.0 * limit**2 / stiff, rel=1e-9)
    slips = [event.fraction for event in found.events if event.step == 2 and event.what == "slips"]
    assert slips == pytest.approx([1.0 / 3.0], rel=1e-9)  # 2 L of the 6 L from one end to the other


def plane_line(seed, mu=0.2):
    """Return a random line (test_walk.py) whose supports rub in their plane."""
    frame, rows, told, load, steps = random_line(seed)
    rng = np.random.default_rng(seed + 77)
    planes = [rub | {"across": (-rub["along"][1], rub["along"][0], 0.0), "mu": rng.uniform(0.05, mu)} for rub in told]
    return frame, rows, planes, load, steps


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_plane_rubs_obey_the_laws_of_contact(seed):
    """No tension in a rest, friction in its cone, work never given back, balance, parts add up.

    Where a walk is given up, it says so, and uniqueness is not shown.
    """
    frame, rows, told, load, steps = plane_line(seed)
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    found = walk(problem, steps)
    if not found.converged.all():
        assert "step" in found.because[-1]
        assert not uniqueness_shown(problem)
        return
    answers, parts = answers_of(found), parts_of(found)
    assert answers.residual == pytest.approx(0.0, abs=LIMIT)
    largest = np.abs(found.forces).max()
    push = found.forces[:, : len(told)]
    assert (push >= -LIMIT * largest).all()
    limit = np.array([rub["mu"] for rub in told]) * np.abs(push)
    size = np.hypot(found.friction[:, :, 0], found.friction[:, :, 1])
    assert (size <= limit + LIMIT * largest).all()
    slides = found.rubbing == 2
    assert size[slides] == pytest.approx(limit[slides], abs=1e-8 * largest)
    assert (found.dissipated >= -1e-9 * max(1.0, found.dissipated.max())).all()
    for whole, split in ((answers.end_forces, parts.end_forces), (answers.reactions, parts.reactions)):
        assert split.sum(axis=1) == pytest.approx(whole, rel=0.0, abs=LIMIT * np.abs(whole).max())
    assert parts.row_forces.sum(axis=1) == pytest.approx(found.forces, rel=0.0, abs=LIMIT * largest)


def gentle_line(angle=0.0, matrix=None):
    """Return a level line with a bend on five rests, warmed, blown at and cooled; tangents turned by an angle."""
    turn = np.eye(3) if matrix is None else matrix
    points = np.array([[0.0, 0, 0], [4, 0, 0], [8, 0, 0], [12, 1, 0], [13, 5, 0], [13, 9, 0], [13, 13, 0]])
    frame = chain(points, {0: ANCHOR, 6: ANCHOR})
    along, across = (np.cos(angle), np.sin(angle), 0.0), (-np.sin(angle), np.cos(angle), 0.0)
    rows = [row | {"direction": turn @ np.array(row["direction"])} for row in rests(range(1, 6))]
    rows += [{"node": 3, "direction": turn @ np.array([0.6, 0.8, 0]), "plus": 0.004, "minus": 0.006}]
    told = [
        {"node": node, "along": turn @ np.array(along), "across": turn @ np.array(across), "mu": 0.3, "by": [node - 1]}
        for node in range(1, 6)
    ]
    load = causes(
        uniform(frame, per_length=(0, 0, -850.0)),
        uniform(frame, strain=1e-3),
        uniform(frame, per_length=(200.0, -150.0, 0)),
    )
    load = replace(load, per_length=load.per_length @ turn.T)
    frame = frame if matrix is None else moved(frame, matrix, (5.0, -2.0, 1.0))
    return frame, rows, told, load


GENTLE = np.array([[1.0, 0, 0], [1, 1, 0], [1, 1, 1], [1, 0.2, -0.5], [1, 0.2, 0.5]])


def walked_gently(*, increments=False, **more) -> tuple[np.ndarray, np.ndarray, list]:
    frame, rows, told, load = gentle_line(**more)
    found = walk(condense(frame, gaps(*rows), rubs(*told), load), Steps(amounts=GENTLE), increments=increments)
    assert found.converged.all(), found.because
    vectors = np.einsum("stk,tkj->stj", found.friction, np.array([[rub["along"], rub["across"]] for rub in told]))
    return found.forces, vectors, [(event.kind, event.index, event.what) for event in found.events]


@pytest.mark.parametrize(("increments", "limit"), [(True, 1e-9), (False, 1e-5)])
def test_turned_tangents_and_frames_make_no_difference(increments, limit):
    """Tangents turned in their plane, and the whole line turned in space, give the same forces and friction.

    Both are the same path in other axes. Increments have one answer, to what Newton's method leaves: 1e-9. On a path
    that is followed what comes to rest sticks and slips by turns in legs of 1e-10 whose order rounding decides: 4e-6.
    """
    forces, friction, events = walked_gently(increments=increments)
    largest = np.abs(forces).max()
    matrix = rotation([0.3, -0.5, 0.8])
    for more, back in (({"angle": 0.9}, np.eye(3)), ({"matrix": matrix}, matrix)):
        other, rubbed, what = walked_gently(increments=increments, **more)
        assert other == pytest.approx(forces, abs=limit * largest)
        assert rubbed @ back == pytest.approx(friction, abs=limit * largest)
        assert {event for event in what if event[0] == "gap"} == {event for event in events if event[0] == "gap"}


def small_steps(problem, gap, mu, amounts, cuts):
    """Return forces (gap rows, first tangents, second) after many implicit steps, each by projected sweeps.

    Unknown are forces alone; springs of the regularisation are taken out by an inverse. Row by row, pair by pair
    (block Gauss-Seidel), the force that closes the gap, or stops the slip, is projected onto what is admitted, until a
    sweep changes no force by more than 1e-9 of the largest.
    """
    g, t = len(gap), len(mu)
    out = np.linalg.inv(np.eye(len(problem.rate)) - problem.compliance * problem.rate)
    w, unit = out @ problem.compliance, out @ problem.moved
    rows = w.shape[0]
    second = second_tangents(problem)
    pairs = [[g + rub] if second[rub] < 0 else [g + rub, int(second[rub])] for rub in range(t)]
    soft = np.array([np.linalg.eigvalsh(w[np.ix_(pair, pair)])[-1] for pair in pairs])
    force, place, at = np.zeros(rows), np.zeros(rows), np.zeros(amounts.shape[1])
    for end in amounts:
        for part in np.linspace(0.0, 1.0, cuts + 1)[1:]:
            free = unit @ (at + part * (end - at))
            for _ in range(20_000):
                before = force.copy()
                for row in range(g):
                    q = free[row] - w[row] @ force
                    most, least = (q - gap[row, 0]) / w[row, row], (q + gap[row, 1]) / w[row, row]
                    force[row] = max(0.0, force[row] + most) + min(0.0, force[row] + least)
                for rub, pair in enumerate(pairs):
                    push = force[pair] + (free[pair] - w[pair] @ force - place[pair]) / soft[rub]
                    force[pair] = push * min(1.0, mu[rub] * abs(force[rub]) / max(np.linalg.norm(push), 1e-300))
                if np.abs(force - before).max() <= 1e-9 * np.abs(force).max():
                    break
            else:
                raise AssertionError("sweeps did not settle")
            place = free - w @ force
        at = end
    return force


def test_plane_friction_against_projected_sweeps():
    """Ten small implicit steps a step, each by block Gauss-Seidel on forces alone: nothing is shared but W and U.

    First order in the small steps, and the walk itself to first order in legs of 0.1 rad. Seen: 3.3 % of the
    largest force with two, 0.5 % with five, 0.14 % with ten, which is about what first and second order would leave.
    """
    frame, rows, told, load = gentle_line()
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    found = walk(problem, Steps(amounts=GENTLE))
    gap = np.array([[min(row["plus"], 10.0), min(row["minus"], 10.0)] for row in rows])
    force = small_steps(problem, gap, np.full(5, 0.3), GENTLE, 10)
    largest = np.abs(found.forces[-1]).max()
    assert found.forces[-1] == pytest.approx(force[:6], abs=0.003 * largest)
    assert -found.friction[-1].T.reshape(-1) == pytest.approx(force[6:], abs=0.003 * largest)


def test_blocks_while_plane_rubs_stick(monkeypatch):
    """Three hundred readings of a ripple: once it has slipped both ways all stick, and blocks give what steps give."""
    frame, rows, told, load = gentle_line()
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    ripple = 1.0 + 1e-3 * np.sin(np.arange(300) / 7.0)
    amounts = np.stack([np.ones(302), np.concatenate([[0.0, 1.0], ripple]), np.zeros(302)], axis=1)
    found = walk(problem, Steps(amounts=amounts))
    calls = []
    monkeypatch.setattr(walks, "block_of", lambda *told: calls.append(told))
    single = walk(problem, Steps(amounts=amounts))
    assert found.converged.all()
    assert len(calls) > 200  # steps that were part of a block, or might have been
    largest = np.abs(single.forces).max()
    assert found.forces == pytest.approx(single.forces, abs=LIMIT * largest)
    assert found.friction == pytest.approx(single.friction, abs=LIMIT * largest)


@pytest.mark.parametrize("mu", [0.3, 0.01])
def test_wind_on_fifty_plane_rubs(mu):
    """The line of the benchmark under wind: every step is found and verified, held by friction or by guides."""
    steps = forty_steps(windy=True)
    problem = problem_of(plane=True)
    found = walk(problem, Steps(amounts=steps.amounts[:20]), mu=mu)
    assert found.converged.all(), found.because
    assert found.held.all()
    assert found.error.max() <= LIMIT
    assert answers_of(found).residual == pytest.approx(0.0, abs=LIMIT)
    assert any(event.kind == "gap" for event in found.events) == (mu < 0.1)  # 768 N of wind a rest, mu 6 800 N
    assert (found.dissipated >= -1e-9 * found.dissipated.max()).all()


def walked_hard(monkeypatch, seed, mu):
    """Return a walk of a random line with much friction, and (share of a step, found) of each increment tried.

    Sweeps and steps without damping are kept out of it: they find nearly all that the others do not.
    """
    tried = []
    monkeypatch.setattr(jumps, "_undamped", lambda *_told: None)

    def noted(at, path, *, by_sweeps=False):
        if by_sweeps:
            return False
        span = at.span
        tried.append((span, jump(at, path)))
        return tried[-1][1]

    monkeypatch.setattr(walks, "jump", noted)
    frame, rows, told, load, steps = plane_line(seed, mu)
    return walk(condense(frame, gaps(*rows), rubs(*told), load), steps), tried


def test_steps_are_halved_where_friction_is_not_found_at_once(monkeypatch):
    """Friction up to 1 on bent lines (found among five hundred): not at once, but in halves or quarters."""
    found, tried = walked_hard(monkeypatch, 448, 1.0)
    assert found.converged.all(), found.because
    assert (1.0, False) in tried
    assert any(span < 1.0 and good for span, good in tried)


@pytest.mark.parametrize("kept_out", ["sweeps", "undamped"])
def test_sweeps_or_no_damping_find_what_neither_legs_nor_damping_do(monkeypatch, kept_out):
    """The same line with either of the two: whole steps, none of them halved."""
    if kept_out == "sweeps":
        monkeypatch.setattr(walks, "_by_sweeps", lambda *_told: False)
    else:
        monkeypatch.setattr(jumps, "_undamped", lambda *_told: None)
    monkeypatch.setattr(walks, "_in_halves", lambda *_told: False)
    frame, rows, told, load, steps = plane_line(448, 1.0)
    found = walk(condense(frame, gaps(*rows), rubs(*told), load), steps)
    assert found.converged.all(), found.because
    assert found.error.max() <= LIMIT


def test_friction_without_an_answer_says_where(monkeypatch):
    """Friction up to 1 on slopes (found among five hundred) may jam: halved five times, then given up, with the step.

    Steps before it stand; uniqueness was not shown.
    """
    found, tried = walked_hard(monkeypatch, 287, 1.0)
    assert not found.converged.any()
    assert "step 0: did not converge" in found.because[-1]
    assert min(span for span, _ in tried) == 1.0 / 32.0
    assert not uniqueness_shown(found.problem)


def test_increments_are_the_implicit_steps_of_the_sweeps(monkeypatch):
    """Each step at once, by its end: the increments that the sweeps take, and so their forces.

    Sweeps end when one changes nothing by more than 1e-9, and converge linearly: 1.3e-6 is seen, 1e-5 allowed.
    """
    frame, rows, told, load = gentle_line()
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    gap = np.array([[min(row["plus"], 10.0), min(row["minus"], 10.0)] for row in rows])
    monkeypatch.setattr(walks, "follow", lambda *_told, **_more: False)  # at once, or not at all
    for count in (1, 2, 5):
        ends = np.concatenate([np.zeros((1, 3)), GENTLE])
        share = np.arange(1, count + 1)[None, :, None] / count
        fine = (ends[:-1, None] * (1.0 - share) + ends[1:, None] * share).reshape(-1, 3)
        found = walk(problem, Steps(amounts=fine), increments=True)
        assert found.converged.all(), found.because
        force = small_steps(problem, gap, np.full(5, 0.3), GENTLE, count)
        largest = np.abs(found.forces[-1]).max()
        assert found.forces[-1] == pytest.approx(force[:6], abs=1e-5 * largest)
        assert -found.friction[-1].T.reshape(-1) == pytest.approx(force[6:], abs=1e-5 * largest)


@pytest.mark.parametrize("lines", [(1, 3), (0, 1, 2, 3, 4)])
def test_increments_of_rubs_of_one_tangent_beside_those_of_two(monkeypatch, lines):
    """Pins and directional anchors rub along one line: at once as well, against the same sweeps; what slides, slides.

    Sweeps end when one changes nothing by more than 1e-9, and converge linearly: 1e-5 is allowed, as above.
    """
    frame, rows, told, load = gentle_line()
    told = [
        {key: value for key, value in rub.items() if key != "across" or number not in lines}
        for number, rub in enumerate(told)
    ]
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    gap = np.array([[min(row["plus"], 10.0), min(row["minus"], 10.0)] for row in rows])
    p = scaled(problem, problem.rubs.mu)
    at = walks.begin(p, problem.start, np.ones(p.gaps, dtype=bool))
    for amounts in GENTLE:
        at.reach = max(at.reach, float(np.abs(p.moved @ amounts).max()))
        assert jump(at, Path(p.moved @ amounts - at.moved, np.zeros(p.gaps)))
        at.force_scale = max(at.force_scale, float(np.abs(at.s.forces(at.y, at.foot)).max()))
    expected = small_steps(problem, gap, np.full(5, 0.3), GENTLE, 1)
    force = at.s.forces(at.y, at.foot) / p.scale
    assert force[: len(expected)] == pytest.approx(expected, abs=1e-5 * np.abs(expected).max())
    state = at.state[6:]
    assert (np.abs(state) == 2).any()
    monkeypatch.setattr(walks, "follow", lambda *_told, **_more: False)  # and so in a walk that has planes
    found = walk(problem, Steps(amounts=GENTLE), increments=True)
    if len(lines) < len(told):
        assert found.converged.all(), found.because
        assert found.forces[-1] == pytest.approx(expected[:6], abs=1e-5 * np.abs(expected).max())


@pytest.mark.parametrize("cooled", [0.2, -0.2])
def test_sweeps_alone_come_near_an_increment(cooled):
    """One step from nothing with feet that move, guides pressed on either side: what the increment has, nearly.

    Sweeps end where one changes nothing by more than 1e-7, and converge linearly: 1e-3 of the largest is allowed.
    """
    frame, rows, told, load = gentle_line()
    rows[5] |= {"plus": 1e-4, "minus": 1e-4}
    told[2] |= {"by": [2, 5]}  # pressed by the guide as well, on whichever side
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    amounts, feet = np.array([1.0, -cooled, 0.5]), np.array([-2e-3, 1e-3, 0.0, 1e-3, 2e-3, 0.0])
    found = walk(problem, Steps(amounts=amounts[None], feet=feet[None]), increments=True)
    assert found.converged.all(), found.because
    assert found.forces[0, 5] * cooled > 0.0
    p = scaled(problem, problem.rubs.mu)
    at = walks.begin(p, problem.start, np.ones(p.gaps, dtype=bool))
    at.moved, at.foot = p.moved @ amounts, feet / p.scale[: p.gaps]
    *_, last = swept(at, np.zeros(len(p.scale)), np.zeros(len(p.scale)))
    expected = found.row_forces[0] * p.scale
    assert last == pytest.approx(expected, abs=1e-3 * np.abs(expected).max())
