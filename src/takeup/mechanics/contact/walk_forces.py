"""Member forces and reactions of a walk, and their parts by cause.     (mechanics/contact/walk_forces.py)

A step is a superposition of verified unit answers, amounts of causes and forces of rows. Its parts are answers of one
linear system: the frame with the rows that are closed at the end of the step as supports (with their compliance), all
rubs free, and

    cause      its amount, closed rows brought to zero movement
    feet       the feet of closed rows moved as told: growth of a rod, settlement
    contact    closed rows brought to where they are: gaps taken up, holds that took hold on the way
    friction   the friction of all rubs, sticking or not, as forces

which add up to the step, since it satisfies the same equations. Where the frame would be loose without what sticks,
sticking rubs hold too: they then carry part of each cause, and friction is what is left.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.loosely import is_beyond
from takeup.mechanics.contact.presence import told_feet
from takeup.mechanics.contact.rows import ContactProblem, second_tangents
from takeup.mechanics.contact.walked import Walk
from takeup.mechanics.frame import Flags, Floats, Integers

_LOOSE = 1e-9  # of the largest: a singular value of the scaled system this small is a motion nothing resists
_ZERO = 1e-9  # of the loads: where all forces are this small, they are rounding, and the loads are the measure


@dataclass(frozen=True, kw_only=True, slots=True)
class StepAnswers:
    """Steps of a walk, k of them.

    Args:
        steps: which, (k,).
        displacements: (k, n, 6) [m], [rad], global axes.
        start_forces: force and moment on each member's start, (k, members, 6) [N], [N m], global axes.
        end_forces: the same at its end.
        reactions: of each support on the frame, (k, supports, 6); contacts are not among them.
        residual: force out of balance at any node, from member end forces, reactions, contacts and friction, over the
            largest member end force, (k,).
    """

    steps: Integers
    displacements: Floats
    start_forces: Floats
    end_forces: Floats
    reactions: Floats
    residual: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class StepParts:
    """Parts of steps, k of them: by each of c causes, then feet, then contact, then friction; they add up to the step.

    Args:
        steps: which, (k,).
        start_forces: (k, c + 3, members, 6).
        end_forces: (k, c + 3, members, 6).
        reactions: (k, c + 3, supports, 6).
        row_forces: of the gap rows, signs as in `Walk.forces`, (k, c + 3, g).
        sticking_holds: whether the frame is loose without what sticks, so that sticking rubs hold in every part, (k,).
    """

    steps: Integers
    start_forces: Floats
    end_forces: Floats
    reactions: Floats
    row_forces: Floats
    sticking_holds: Flags


def answers_of(walk: Walk, steps: Integers | None = None) -> StepAnswers:
    """Return displacements, member end forces and reactions of steps, with the proof of balance.

    Args:
        walk: the walk.
        steps: which steps; None for all. A step that is not held gives NaN.
    """
    chosen = np.arange(len(walk.forces)) if steps is None else steps
    units = walk.problem.units
    amounts = np.concatenate([walk.steps.amounts[chosen], -walk.row_forces[chosen]], axis=1)
    supports = len(walk.problem.frame.supports.node)
    start, end = _combined(amounts, units.start_forces), _combined(amounts, units.end_forces)
    reactions = _combined(amounts, units.reactions[:, :supports])
    return StepAnswers(
        steps=chosen,
        displacements=_combined(amounts, units.displacements),
        start_forces=start,
        end_forces=end,
        reactions=reactions,
        residual=_residual(walk, chosen, start, end, reactions),
    )


def reactions_of(walk: Walk, steps: Integers | None = None) -> Floats:
    """Return the reactions of supports alone, (k, supports, 6) [N], [N m], without any member: for many combinations.

    Args:
        walk: the walk.
        steps: which steps; None for all. A step that is not held gives NaN.
    """
    chosen = np.arange(len(walk.forces)) if steps is None else steps
    amounts = np.concatenate([walk.steps.amounts[chosen], -walk.row_forces[chosen]], axis=1)
    return _combined(amounts, walk.problem.units.reactions[:, : len(walk.problem.frame.supports.node)])


def displacements_of(walk: Walk, nodes: Integers) -> Floats:
    """Return the displacements of a few nodes at the end of every step, (s, len(nodes), 6), without member forces.

    Args:
        walk: the walk.
        nodes: which.
    """
    amounts = np.concatenate([walk.steps.amounts, -walk.row_forces], axis=1)
    return _combined(amounts, np.ascontiguousarray(walk.problem.units.displacements[:, nodes]))


def _combined(amounts: Floats, units: Floats) -> Floats:
    """Return linear combinations of unit fields, (..., q) and (q, i, 6) -> (..., i, 6)."""
    return np.asarray((amounts @ units.reshape(len(units), -1)).reshape(*amounts.shape[:-1], *units.shape[1:]))


def _residual(walk: Walk, chosen: Integers, start: Floats, end: Floats, reactions: Floats) -> Floats:
    """Return what is out of balance at nodes over the largest member end force, (k,); moments over the mean length."""
    problem = walk.problem
    frame, rows = problem.frame, problem.rows
    out = np.zeros((len(frame.points), len(chosen), 6))
    for nodes, force in (
        (np.concatenate([frame.straights.start, frame.arcs.start]), -start),
        (np.concatenate([frame.straights.end, frame.arcs.end]), -end),
        (frame.supports.node, reactions),
    ):
        np.add.at(out, nodes, force.transpose(1, 0, 2))
    if problem.causes.nodal is not None:
        out += _combined(walk.steps.amounts[chosen], problem.causes.nodal).transpose(1, 0, 2)
    forces = -_true_forces(walk)[chosen]
    for side in range(2):
        pushed = forces.T[:, :, None] * rows.vector[:, side][:, None, :]
        np.add.at(out, rows.node[:, side], pushed)
    length = np.linalg.norm(frame.points[frame.straights.end] - frame.points[frame.straights.start], axis=1)
    measure = np.array([1.0, 1.0, 1.0, *[1.0 / float(length.mean() if len(length) else 1.0)] * 3])
    largest = np.maximum(*(np.abs(force * measure).max(axis=(1, 2), initial=0.0) for force in (start, end)))
    units = np.abs(problem.units.end_forces * measure).max(axis=(1, 2), initial=0.0)
    loads = np.abs(np.concatenate([walk.steps.amounts[chosen], walk.row_forces[chosen]], axis=1)) @ units
    whole = np.where(largest > _ZERO * loads, largest, loads)
    return np.asarray(np.abs(out * measure).max(axis=(0, 2), initial=0.0) / np.where(whole == 0.0, 1.0, whole))


def _true_forces(walk: Walk) -> Floats:
    """Return the forces of all rows without the springs of the regularisation, (s, r)."""
    second = second_tangents(walk.problem)
    two = np.flatnonzero(second >= 0)
    ties = np.zeros((len(walk.forces), len(walk.problem.rate) - walk.forces.shape[1] - len(second) - len(two)))
    return np.concatenate([walk.forces, -walk.friction[:, :, 0], -walk.friction[:, two, 1], ties], axis=1)


class _Held(NamedTuple):
    """What holds in the parts of a step: what is `closed`, all `rows`, whether what sticks is one, and the system."""

    closed: Flags
    rows: Flags
    sticking: bool
    matrix: Floats


def parts_of(walk: Walk, steps: Integers | None = None) -> StepParts:
    """Return what causes, feet, contact and friction put into member end forces, reactions and contact forces of steps.

    Args:
        walk: the walk.
        steps: which steps; None for all. A step that is not held gives NaN.
    """
    chosen = np.arange(len(walk.forces)) if steps is None else steps
    problem, causes = walk.problem, walk.steps.amounts.shape[1]
    rows, supports = len(problem.rate), len(problem.frame.supports.node)
    amounts = np.full((len(chosen), causes + 3, causes + rows), np.nan)
    forces = np.full((len(chosen), causes + 3, walk.forces.shape[1]), np.nan)
    sticking = np.zeros(len(chosen), dtype=bool)
    true, feet = _true_forces(walk), told_feet(walk.steps, walk.forces.shape[1])
    systems: dict[bytes, _Held] = {}
    divided: dict[int, list[_Divided]] = {}
    for place, step in enumerate(chosen):
        if walk.held[step]:
            held = _held_in(walk, int(step), systems)
            sticking[place] = held.sticking
            one = _divided(walk, int(step), held, true=true[step], feet=feet[step])
            divided.setdefault(id(held), []).append(one._replace(place=place))
    for alike in divided.values():  # of one system: solved together
        inner = _solved(alike[0].held.matrix, np.concatenate([one.right for one in alike], axis=1))
        for one, own in zip(alike, np.split(inner, len(alike), axis=1), strict=True):
            amounts[one.place], forces[one.place] = _parts_of_step(walk, int(chosen[one.place]), one, own)
    units = problem.units
    return StepParts(
        steps=chosen,
        start_forces=_combined(amounts, units.start_forces),
        end_forces=_combined(amounts, units.end_forces),
        reactions=_combined(amounts, units.reactions[:, :supports]),
        row_forces=forces,
        sticking_holds=sticking,
    )


def _held_in(walk: Walk, step: int, known: dict[bytes, _Held]) -> _Held:
    """Return what holds in the parts of a step.

    Args:
        walk: the walk.
        step: the step.
        known: what holds where the same rows are closed; added to. What sticks is not the same there: it is not kept.
    """
    problem, g = walk.problem, walk.forces.shape[1]
    closed = np.zeros(len(problem.rate), dtype=bool)
    closed[:g] = walk.sides[step] != 0
    key = closed.tobytes()
    if key in known:
        return known[key]
    held = _Held(closed, closed, sticking=False, matrix=_system(problem, closed))
    if not _is_loose(held.matrix, closed, problem):
        known[key] = held
        return held
    sticks = np.flatnonzero(walk.rubbing[step] == 1)
    rows = closed.copy()
    second = second_tangents(problem)[sticks]
    rows[np.concatenate([g + sticks, second[second >= 0]])] = True
    return _Held(closed, rows, sticking=True, matrix=_system(problem, rows))


class _Divided(NamedTuple):
    """What each part of a step asks of a system: movement `alone`, what is `told`, and the `right` side, (r, c + 3)."""

    held: _Held
    alone: Floats
    told: Floats
    right: Floats
    place: int = -1


def _divided(walk: Walk, step: int, held: _Held, *, true: Floats, feet: Floats) -> _Divided:
    """Return what each part of a step asks."""
    problem, given = walk.problem, walk.steps.amounts[step]
    count, causes, g = len(problem.rate), len(given), walk.forces.shape[1]
    closed = held.closed
    give = np.zeros(count)
    give[:g] = 0.0 if problem.gaps.compliance is None else problem.gaps.compliance
    moved = problem.moved @ given - problem.compliance @ walk.row_forces[step]
    alone = np.concatenate([problem.moved * given, np.zeros((count, 3))], axis=1)
    told = np.zeros((count, causes + 3))
    told[:g, causes] = np.where(closed[:g], feet, 0.0)
    told[:, causes + 1] = np.where(closed, moved - give * true, 0.0) - told[:, causes]
    told[:, causes + 2] = np.where(held.rows, np.where(closed, 0.0, moved), true)
    share = np.where(held.rows, 1.0, problem.rate)[:, None]
    return _Divided(held, alone, told, told - share * alone)


def _parts_of_step(walk: Walk, step: int, of: _Divided, inner: Floats) -> tuple[Floats, Floats]:
    """Return the amounts of unit answers in each part, (c + 3, c + r), and the forces of its gap rows."""
    problem, given, g = walk.problem, walk.steps.amounts[step], walk.forces.shape[1]
    causes = len(given)
    away = of.alone - problem.compliance @ inner
    amounts = np.zeros((causes + 3, causes + len(problem.rate)))
    amounts[np.arange(causes), np.arange(causes)] = given
    amounts[:, causes:] = -inner.T
    held = of.held.rows[:, None]
    forces = np.where(held, inner + problem.rate[:, None] * away, of.told)  # an open row's is what is told
    return amounts, forces[:g].T


def _solved(matrix: Floats, right: Floats) -> Floats:
    """Return the solution; of a system that leaves something open, the smallest: its sum is the step's all the same."""
    try:
        return np.asarray(np.linalg.solve(matrix, right))
    except np.linalg.LinAlgError:
        return np.asarray(np.linalg.lstsq(matrix, right, rcond=None)[0])


def _system(problem: ContactProblem, held: Flags) -> Floats:
    """Return what is told of each row by the forces, springs left in: movement where held, true force elsewhere."""
    give = np.zeros(len(held))
    g = len(problem.gaps.node)
    give[:g] = 0.0 if problem.gaps.compliance is None else problem.gaps.compliance
    share = np.where(held, 1.0 - give * problem.rate, problem.rate)
    own = np.where(held, -give, 1.0)
    return np.asarray(np.diag(own) - share[:, None] * problem.compliance)


def _is_loose(matrix: Floats, held: Flags, problem: ContactProblem) -> bool:
    """Whether a system is singular, scaled to square roots of energy."""
    size = np.sqrt(np.diag(problem.compliance))
    size = np.where(size > 0.0, size, 1.0)
    scaled = matrix * np.where(held, 1.0 / size, size)[:, None] / size
    return is_beyond(scaled, 1.0 / _LOOSE)
