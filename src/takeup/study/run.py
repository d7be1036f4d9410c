"""One walk of the model: what is found in every state, told apart by cause.     (study/run.py)

Loads of a hold are the reactions of what the frame holds, the forces of its contacts, and the friction of what rubs
there. Each cause's part is the answer of the line with the contacts as they are in that state; "contact" is what gaps
and clearances add, "friction" what rubs. They sum to the whole.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.mechanics import WholeWalk, whole_answers, whole_parts, whole_reactions
from takeup.study.causes import CAUSES, CONTACT, FRICTION, IMPOSED, WEIGHT
from takeup.study.course import Course
from takeup.study.way import Ground, Way

Floats = NDArray[np.float64]
RESIDUAL_LIMIT = 1e-9  # of the largest member end force


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """Answers of all states, by cause where it says so, and how well each state verified.

    Args:
        ground: what was walked on.
        way: that was walked.
        walk: as mechanics has it.
        displacements: (states, n, 6).
        starts: on each member's start, (states, causes, m, 6).
        ends: on each member's end, (states, causes, m, 6).
        loads: of each hold on the structure, (states, causes, h, 6).
        residual: (states,).
        verified: (states,).
        condition: of the factorised frame.
        because: why a state is refused.
    """

    ground: Ground
    way: Way
    walk: WholeWalk
    displacements: Floats
    starts: Floats
    ends: Floats
    loads: Floats
    residual: Floats
    verified: NDArray[np.bool_]
    condition: float
    because: str


def run_of(ground: Ground, way: Way, walk: WholeWalk) -> Run:
    """Return what a walk finds in every state.

    Args:
        ground: what was walked on.
        way: that was walked; every step of it is held.
        walk: its answer.
    """
    steps = way.arrivals
    answers, parts = whole_answers(walk, steps), whole_parts(walk, steps)
    kinds = np.array([*ground.causes.kinds, IMPOSED, CONTACT, FRICTION])
    gather = (np.arange(len(CAUSES))[:, None] == kinds).astype(float)
    reactions = -np.einsum("kc,sc...->sk...", gather, parts.reactions)
    loads = reactions + _of_rows(ground, np.einsum("kc,scg->skg", gather, parts.row_forces))
    loads[:, FRICTION] += _of_rubs(ground, walk.friction[steps])
    loads[:, WEIGHT] += _of_springs(ground, way.course)[steps]
    limit = walk.converged[steps] & (answers.residual <= RESIDUAL_LIMIT)
    return Run(
        ground=ground,
        way=way,
        walk=walk,
        displacements=answers.displacements,
        starts=np.einsum("kc,sc...->sk...", gather, parts.start_forces),
        ends=np.einsum("kc,sc...->sk...", gather, parts.end_forces),
        loads=loads,
        residual=answers.residual,
        verified=limit,
        condition=walk.problem.condition,
        because="; ".join(walk.because),
    )


def totals_of(ground: Ground, course: Course, walk: WholeWalk) -> Floats:
    """Return the whole load of each hold on the structure in every step, (s, h, 6), without any member forces.

    Args:
        ground: what was walked on.
        course: at the end of every step.
        walk: its answer.
    """
    total = -whole_reactions(walk) + _of_rows(ground, walk.forces) + _of_rubs(ground, walk.friction)
    return np.asarray(total + _of_springs(ground, course))


def _of_springs(ground: Ground, course: Course) -> Floats:
    """Return what springs are set to, which they carry beside what their rate adds, (k, h, 6)."""
    loads = np.zeros((len(course.settled), len(ground.model.holds), 6))
    for row, hold in enumerate(ground.model.holds):
        if hold.lift:
            loads[:, row, 2] = -hold.lift * (1.0 if hold.only_in is None else course.is_in(hold.only_in))
    return loads


def _of_rows(ground: Ground, forces: Floats) -> Floats:
    """Return what contact rows put on the structures of holds, (..., g) -> (..., h, 6)."""
    loads = np.zeros((*forces.shape[:-1], len(ground.model.holds), 6))
    for number, row in enumerate(ground.contacts.rows):
        if row.hold is not None:
            first = 3 if row.turns else 0
            loads[..., row.hold, first : first + 3] += forces[..., number, None] * row.direction
    return loads


def _of_rubs(ground: Ground, friction: Floats) -> Floats:
    """Return what friction puts on the structures of holds, (s, t, 2) -> (s, h, 6)."""
    loads = np.zeros((len(friction), len(ground.model.holds), 6))
    for number, rub in enumerate(ground.contacts.rubs):
        if rub.hold is None:
            continue  # pins of a joint rub within the line
        pulls = friction[:, number, : len(rub.tangents)] @ rub.tangents
        loads[:, rub.hold, :3] -= pulls
    return loads
