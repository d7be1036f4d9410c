"""From a resolved study to its answer: one factorisation, every state and cause at once.     (study/solve.py)"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.line import State, Study, states_of
from takeup.mechanics import Answer, Factor, NotHeld, factorise, solve
from takeup.study.loads import load_cases, member_pressures
from takeup.study.model import LineModel, model_of
from takeup.study.records import CAUSES, HoldLoads, JointMovement, Solved, Unsolved

Floats = NDArray[np.float64]


def solve_study(study: Study) -> Solved | Unsolved:
    """Return the model's answer to every state of a study.

    Args:
        study: its line resolved: no rule left in it.
    """
    model = model_of(study)
    states = states_of(study)
    factor = factorise(model.frame)
    if isinstance(factor, NotHeld):
        return Unsolved(study=study, model=model, states=states, because=tuple(f"the line {w}" for w in factor.words))
    if not isinstance(factor, Factor):
        return Unsolved(study=study, model=model, states=states, because=(factor.because,))
    answer = solve(factor, load_cases(study, model, states))
    return _solved(study, model, states, answer)


def _solved(study: Study, model: LineModel, states: tuple[State, ...], answer: Answer) -> Solved:
    split = (len(states), len(CAUSES))
    starts = answer.start_forces.reshape(*split, -1, 6)
    ends = answer.end_forces.reshape(*split, -1, 6)
    displacements = answer.displacements.reshape(*split, -1, 6).sum(axis=1)
    return Solved(
        study=study,
        model=model,
        states=states,
        displacements=displacements,
        holds=_hold_loads(model, starts, ends),
        joints=_joint_movements(model, states, displacements, ends),
        effective_force=_axial_force(model, starts, ends).sum(axis=1),
        end_moments=np.stack([starts[..., 3:], ends[..., 3:]], axis=3),
        residual=answer.residual.reshape(split).max(axis=1),
        verified=np.asarray(answer.solved.reshape(split).all(axis=1)),
        condition=answer.condition,
        because=answer.because,
    )


def _hold_loads(model: LineModel, starts: Floats, ends: Floats) -> tuple[HoldLoads, ...]:
    """Return what each hold carries: the reverse of what the members' ends receive from it, side by side."""
    before, beyond = _members_at_nodes(model)
    loads = []
    for row, (name, kind, station) in enumerate(model.holds):
        node = int(model.frame.supports.node[row])
        sides = np.zeros((*starts.shape[:2], 2, 6))
        if node in before:
            sides[:, :, 0] = -ends[:, :, before[node]]
        if node in beyond:
            sides[:, :, 1] = -starts[:, :, beyond[node]]
        sides = _held_part(model, row, sides)
        loads.append(HoldLoads(name=name, kind=kind, station=station, axes=model.frame.supports.axes[row], sides=sides))
    return tuple(loads)


def _members_at_nodes(model: LineModel) -> tuple[dict[int, int], dict[int, int]]:
    """Return the member that ends, and the member that starts, at each node."""
    frame = model.frame
    starts = np.concatenate([frame.straights.start, frame.arcs.start])
    ends = np.concatenate([frame.straights.end, frame.arcs.end])
    before = {int(node): member for member, node in enumerate(ends)}
    beyond = {int(node): member for member, node in enumerate(starts)}
    return before, beyond


def _held_part(model: LineModel, row: int, sides: Floats) -> Floats:
    """Return only the components that the hold holds: what passes along the pipe is not its load."""
    held = model.frame.supports.held[row]
    if held.all():
        return sides
    axes = model.frame.supports.axes[row]
    local = np.concatenate([sides[..., :3] @ axes.T, sides[..., 3:] @ axes.T], axis=-1) * held
    return np.concatenate([local[..., :3] @ axes, local[..., 3:] @ axes], axis=-1)


def _joint_movements(
    model: LineModel, states: tuple[State, ...], displacements: Floats, ends: Floats
) -> tuple[JointMovement, ...]:
    movements = []
    for member, piece in enumerate(model.pieces):
        if piece.part != "bellows" or piece.joint is None:
            continue
        start = int(model.frame.straights.start[member])
        axes = model.route.axes(piece.joint.position.station)
        movements.append(_movement(model, states, displacements[:, start : start + 2], (member, axes, ends)))
    return tuple(movements)


def _movement(
    model: LineModel, states: tuple[State, ...], ends_move: Floats, place: tuple[int, Floats, Floats]
) -> JointMovement:
    """Return the movement of one bellows from the displacements of its two ends, (states, 2, 6)."""
    member, axes, forces = place
    piece = model.pieces[member]
    assert piece.joint is not None, "a bellows belongs to a joint"
    shift = (ends_move[:, 1, :3] - ends_move[:, 0, :3]) @ axes.T
    turn = ends_move[..., 3:] @ axes.T
    mean, between = turn.mean(axis=1), turn[:, 1] - turn[:, 0]
    length = piece.end - piece.start
    lateral = np.stack([shift[:, 1] - length * mean[:, 2], shift[:, 2] + length * mean[:, 1]], axis=1)
    axial = shift[:, 0]
    return JointMovement(
        name=piece.joint.name,
        station=piece.joint.position.station,
        axial=axial,
        lateral=lateral,
        angular=between[:, 1:],
        torsion=between[:, 0],
        torque=forces.sum(axis=1)[:, member, 3:] @ axes[0],
        spring=model.axial[member] / length * (axial + piece.joint.preset),
        pressure=np.array([member_pressures(model, state)[member] for state in states]),
    )


def _axial_force(model: LineModel, starts: Floats, ends: Floats) -> Floats:
    """Return the effective force in the middle of each member, tension positive, (states, causes, m)."""
    directions = np.array([model.route.direction((piece.start + piece.end) / 2.0) for piece in model.pieces])
    return np.asarray(((ends - starts)[..., :3] * directions).sum(axis=-1) / 2.0)
