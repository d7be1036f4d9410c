"""Equilibrium of the displaced frame, second order.     (mechanics/stability/second_order.py)

    (K + K_G(S)) u = f - K_G(S) u_0          u_0: initial shape without stress, as a bow

`second_order` solves it with refinement and verifies it like any answer: the residual, with K_G (u + u_0) among the end
forces, is within 1e-9 of the largest of them. Where S depends on the answer, or members shorten as they turn,

    S = S(answer),     extra strain = -(1/L) integral( theta^2/2 + theta_0 theta ds )

are found by mixed fixed-point steps. Negative pivots, or no end of the steps: `Unstable`, with the reason. Limits:
small rotations; S constant along a member; contacts are the caller's. Theory and proof: docs/theory/stability.md.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from takeup.mechanics.frame import Answer, Floats, Frame, Loads, NotHeld
from takeup.mechanics.model import Model, to_global_axes
from takeup.mechanics.ordering import inner_loads, outer_answer
from takeup.mechanics.recover import (
    add_springs,
    feet,
    forces_at_rest,
    recover,
    spring_forces,
    start_of,
    strike_held,
    sums_at_nodes,
    support_reactions,
)
from takeup.mechanics.solve import (
    CORRECTION_LIMIT,
    RESIDUAL_LIMIT,
    Factor,
    NotFactored,
    _applied,
    _because,
    _relative_correction,
    _residual,
    factorise,
    solve,
)
from takeup.mechanics.stability.buckling import NotVerified, Unstable, buckled, no_number
from takeup.mechanics.stability.geometric import Geometric, Links, geometric_forces, geometric_stiffness
from takeup.mechanics.stability.shifted import Shifted, elastic_matrix, factor_shifted, geometric_matrix

Rule = Callable[[Answer], Floats]
STEP_LIMIT = (
    1e-9  # how far S, or EA times the extra strain, may be from what the answer tells, over the largest of both
)
_MOST_PASSES = 8
_MOST_STEPS = 80
_MIXED = 4  # steps back that are mixed


@dataclass(frozen=True, kw_only=True, slots=True)
class SecondOrder:
    """The verified answer in the displaced state.

    Args:
        answer: displacements beyond the initial shape; end forces and reactions with those of K_G.
        effective_force: S of each member, (members,) [N].
        amplification: largest translation, initial shape included, over that of the linear answer, (c,); not a number
            where that is zero.
        steps: number of steps taken; one where S is given and nothing shortens.
    """

    answer: Answer
    effective_force: Floats
    amplification: Floats
    steps: int


def second_order(
    frame: Factor | Frame,
    loads: Loads,
    effective_force: Floats | Rule,
    *,
    bow: Floats | None = None,
    links: Links | None = None,
    shortening: bool = False,
) -> SecondOrder | Unstable | NotVerified | NotHeld | NotFactored:
    """Return the answer to the loads with geometric stiffness.

    Args:
        frame: the frame with the supports that hold, or its factor.
        loads: c load cases; one where S depends on the answer or members shorten.
        effective_force: S of each member, tension positive, (members,) [N]; or what tells it from an answer.
        bow: initial shape without stress, (n, 6) [m], [rad], global axes.
        links: rods and links whose force turns with them.
        shortening: whether members shorten as they turn.
    """
    factor = factorise(frame) if isinstance(frame, Frame) else frame
    if not isinstance(factor, Factor):
        return factor
    linear = solve(factor, loads)
    force = np.zeros(factor.model.frame.member_count) if callable(effective_force) else effective_force
    wrong = no_number(force, links)
    if wrong is not None:
        return wrong
    initial = np.zeros((len(factor.model.frame.points), 6)) if bow is None else bow
    rule = effective_force if callable(effective_force) else None
    found = _steps(factor, loads, (force, rule), (initial, links), shortening=shortening)
    if not isinstance(found, SecondOrder):
        return found
    before, after = (
        np.linalg.norm((one.displacements + initial)[..., :3], axis=2).max(axis=1) for one in (linear, found.answer)
    )
    return replace(found, amplification=after / np.where(before > 0.0, before, np.nan))


def _steps(
    factor: Factor,
    loads: Loads,
    tension: tuple[Floats, Rule | None],
    shape: tuple[Floats, Links | None],
    *,
    shortening: bool,
) -> SecondOrder | Unstable | NotVerified:
    """Return the end of the steps S -> S(answer), which begin with no S at all where it is to be found.

    A step that leads beyond the critical load, or further from S = S(answer), is halved.

    Args:
        factor: the factorised frame.
        loads: the loads.
        tension: S where it is given, and what tells it from an answer.
        shape: initial shape; links.
        shortening: whether members shorten.
    """
    force, rule = tension
    extra = np.zeros(len(force)) if shortening else None
    moving = rule is not None or shortening
    states: list[Floats] = []
    answers: list[Floats] = []
    least, why = np.inf, ""
    for step in range(1, _MOST_STEPS + 1):
        answer, told = _with_force(factor, loads, force, shape, extra)
        if isinstance(answer, Unstable) and moving and states:
            why = f"; at the last, {answer.because}"
        elif not isinstance(answer, Answer):
            return answer
        elif not answer.solved.all():
            return NotVerified(because=answer.because)
        else:
            there = force if rule is None else rule(answer)
            left = float(np.abs(there - force).max())
            if extra is not None and told is not None:
                left = max(left, _as_force(factor, answer, shape[0], told))
            if not moving or left <= STEP_LIMIT * np.abs(there).max():
                return SecondOrder(answer=answer, effective_force=force, amplification=np.ones(1), steps=step)
            if left < least or rule is None:
                least, extra = left, told
                states, answers = [*states[-_MIXED:], force], [*answers[-_MIXED:], there]
                force = _mixed(np.array(states), np.array(answers))
                continue
        force = 0.5 * (force + states[-1])
    return Unstable(because=f"diverges: forces and their answer are {least:.3g} N apart after {_MOST_STEPS} steps{why}")


def _as_force(factor: Factor, answer: Answer, bow: Floats, extra: Floats) -> float:
    """Return how far the strains of shortening are from those of the answer, times EA [N]."""
    axial = np.concatenate([factor.model.frame.straights.axial, factor.model.frame.arcs.axial])
    return float(np.abs(_by_caller(factor, axial) * (shortened(factor, answer, bow) - extra)).max())


def _mixed(states: Floats, answers: Floats) -> Floats:
    """Return the next state (Anderson 1965): that mix of the last answers whose steps cancel best in least squares."""
    steps = answers - states
    if len(steps) == 1:
        return np.asarray(answers[-1])
    weights = np.linalg.lstsq(np.diff(steps, axis=0).T, steps[-1], rcond=1e-8)[0]
    return np.asarray(answers[-1] - weights @ np.diff(answers, axis=0))


def _by_caller(factor: Factor, inner: Floats) -> Floats:
    """Return values of members, (..., members), in the caller's order."""
    if factor.numbering is None:
        return inner
    outer = np.empty_like(inner)
    outer[..., factor.numbering.member] = inner
    return outer


def axial_forces(factor: Factor, answer: Answer) -> Floats:
    """Return the mean force along each member, tension positive, (c, members) [N].

        mean of t.F along the member = d.(F_end - F_start) / 2L          d: chord, L: length

    Args:
        factor: the factorised frame.
        answer: its answer.
    """
    model = factor.model
    chord = np.concatenate([model.k.chord, model.arcs.chord], axis=1)
    per_length = chord / (2.0 * np.concatenate([model.k.length, model.arcs.length]))
    if factor.numbering is not None:  # members that are turned inside have their chord turned
        per_length = np.where(factor.numbering.turned, -per_length, per_length)
    pull = (answer.end_forces - answer.start_forces)[..., :3]
    return np.asarray(np.einsum("im,cmi->cm", _by_caller(factor, per_length), pull))


def shortened(factor: Factor, answer: Answer, bow: Floats) -> Floats:
    """Return the strain by which members that turn reach less far than their bow did, of one case, (members,).

        -(1/L) integral( theta^2/2 + theta_0 theta ds ),   theta across the member's tangent

    Args:
        factor: the factorised frame.
        answer: displacements of its first case count.
        bow: initial shape, (n, 6).
    """
    model, numbering = factor.model, factor.numbering
    unit = geometric_stiffness(model, np.ones(model.frame.member_count))
    shapes = np.stack([answer.displacements[0], bow])
    if numbering is not None:
        shapes = shapes[:, numbering.node]
    moved = np.ascontiguousarray(shapes.transpose(2, 0, 1))
    both = np.concatenate([moved[:, :, unit.start], moved[:, :, unit.end]])  # (12, 2, members)
    need = geometric_forces(unit, moved[:, :1]).reshape(12, -1)
    length = np.concatenate([model.k.length, model.arcs.length])
    return _by_caller(factor, -((0.5 * both[:, 0] + both[:, 1]) * need).sum(axis=0) / length)


def _with_force(
    factor: Factor, loads: Loads, force: Floats, shape: tuple[Floats, Links | None], extra: Floats | None
) -> tuple[Answer | Unstable | NotVerified, Floats | None]:
    """Return the answer with the geometric stiffness of given forces, and the strain of shortening in it.

    Args:
        factor: the factorised frame.
        loads: the loads.
        force: S, (members,).
        shape: initial shape; links.
        extra: strain of shortening to begin with, (members,); None where members do not shorten.
    """
    model, numbering, (bow, links) = factor.model, factor.numbering, shape
    blocks = geometric_stiffness(model, force, numbering, links)
    shifted = factor_shifted(elastic_matrix(model), geometric_matrix(model, blocks), 1.0)
    if shifted is None:
        return NotVerified(because="the matrix with geometric stiffness is singular: the load is critical"), None
    if shifted.below:
        return buckled(shifted.below), None

    def answer_to(case: Loads) -> Answer:
        inside = case if numbering is None else inner_loads(case, numbering)
        initial = (bow if numbering is None else bow[numbering.node]).T[:, None]
        answer = _refined(factor, shifted, inside, blocks, np.ascontiguousarray(initial))
        return answer if numbering is None else outer_answer(answer, numbering)

    if extra is None:
        return answer_to(loads), None
    told = shortened(factor, answer_to(replace(loads, strain=loads.strain + extra)), bow)
    return answer_to(replace(loads, strain=loads.strain + told)), told


def _refined(factor: Factor, shifted: Shifted, loads: Loads, blocks: Geometric, initial: Floats) -> Answer:
    """Return the answer in the numbering of the model; the loop is that of solve.py, with K_G (u + u_0) beside F."""
    model = factor.model
    applied = _applied(model, loads)
    u, forces, pull, torn = start_of(model, loads)
    members = forces.shape[-1]
    out = applied - sums_at_nodes(model, forces) - _sums(model, blocks, u + initial)
    add_springs(model, out, pull)
    free = strike_held(model, out)
    for passed in range(_MOST_PASSES):
        step = to_global_axes(model, _inverse(shifted, free))
        u += step
        if passed == 0 and loads.imposed is not None:
            step, forces, pull = u, forces_at_rest(model, loads), feet(model, loads)
        out = recover(model, applied, step, forces) - _sums(model, blocks, u + initial)
        given = -out
        if len(model.sprung):
            pull += spring_forces(model, step[:, :, model.frame.supports.node[model.sprung]])
            add_springs(model, out, pull)
        free = strike_held(model, out)
        whole = forces + geometric_forces(blocks, u + initial)[..., :members]
        residual = _residual(model, loads, free, whole)
        correction = _relative_correction(factor, loads, step, u)
        solved = np.asarray((residual <= RESIDUAL_LIMIT) & (correction <= CORRECTION_LIMIT))
        if passed and solved.all():
            break
    reactions, solved = support_reactions(model, given, pull), solved & (torn < 0)
    return Answer(
        displacements=u.transpose(1, 2, 0),
        start_forces=whole[0].transpose(1, 2, 0),
        end_forces=whole[1].transpose(1, 2, 0),
        reactions=reactions.transpose(1, 2, 0),
        residual=residual,
        last_correction=correction,
        condition=factor.condition,
        solved=solved,
        because=_because(factor.condition, residual, correction, solved, torn),
    )


def _inverse(shifted: Shifted, free: Floats) -> Floats:
    """Return (K + K_G)^-1 of what is out of balance, (6, c, n)."""
    _, cases, count = free.shape
    rows = free.transpose(1, 2, 0).reshape(cases, 6 * count)
    return np.ascontiguousarray(shifted.solve(rows).reshape(cases, count, 6).transpose(2, 0, 1))


def _sums(model: Model, blocks: Geometric, moved: Floats) -> Floats:
    """Return what K_G asks of every node, (6, c, n), global axes."""
    forces = geometric_forces(blocks, moved)
    total = np.zeros((len(model.frame.points), 6, moved.shape[1]))
    np.add.at(total, blocks.start, forces[0].transpose(2, 0, 1))
    np.add.at(total, blocks.end, forces[1].transpose(2, 0, 1))
    return np.ascontiguousarray(total.transpose(1, 2, 0))
