"""What the run says of each line: loads of its holds side by side, movements of its joints.     (study/sides.py)

A hold's load is what its support reacts with, reversed; a spring hanger also carries the load that it is set to. It
is split by the side that brings it: the piece before the hold, the piece beyond it, and all else at the place.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from takeup.line import State, Study
from takeup.study.holding import Holding
from takeup.study.loads import WEIGHT, piece_pressures
from takeup.study.model import LineModel, SystemModel
from takeup.study.records import HoldLoads, JointMovement, LineAnswer
from takeup.study.run import Run

Floats = NDArray[np.float64]


def line_answers(
    study: Study, model: SystemModel, states: tuple[State, ...], runs: Sequence[Run]
) -> tuple[LineAnswer, ...]:
    """Return the answer of each line.

    Args:
        study: the file.
        model: of its lines.
        states: in order.
        runs: with rigid anchors, and, where a structure gives, a second with its springs.
    """
    answers: dict[str, LineAnswer] = {}
    for line in reversed(model.lines):  # a line stands after its main, so its branches have their answers already
        own = [item.name for item in study.lines if item.branch is not None and item.branch.of == line.line.name]
        branches = tuple(answers[name] for name in own)
        answers[line.line.name] = _line_answer(study, line, (states, branches), runs)
    return tuple(answers[line.line.name] for line in model.lines)


def _line_answer(
    study: Study, line: LineModel, known: tuple[tuple[State, ...], tuple[LineAnswer, ...]], runs: Sequence[Run]
) -> LineAnswer:
    states, branches = known
    rigid, moving = runs[0], runs[-1]
    starts, ends = rigid.starts[:, :, line.members], rigid.ends[:, :, line.members]
    displacements = moving.displacements[:, :, line.nodes].sum(axis=1)
    return LineAnswer(
        study=study,
        line=line.line,
        model=line,
        states=states,
        displacements=displacements,
        holds=tuple(_hold_loads(line, row, states, runs) for row in range(len(line.holds))),
        joints=tuple(_joint_movements(line, states, displacements, moving.ends[:, :, line.members])),
        effective_forces=_axial_force(line, starts, ends),
        end_moments=np.stack([starts[..., 3:], ends[..., 3:]], axis=3),
        branches=branches,
    )


def _hold_loads(line: LineModel, row: int, states: tuple[State, ...], runs: Sequence[Run]) -> HoldLoads:
    hold, rigid = line.holds[row], runs[0]
    sides = np.zeros((*rigid.starts.shape[:2], 3, 6))
    place = int(np.argmin(np.abs(line.stations - hold.station)))
    if place > 0:
        sides[:, :, 0] = _held_part(hold, -rigid.ends[:, :, line.members[place - 1]])
    if place < len(line.pieces):
        sides[:, :, 1] = _held_part(hold, -rigid.starts[:, :, line.members[place]])
    there = np.array([hold.acts_in(state) for state in states])
    sides *= there[:, None, None, None]
    sides[:, :, 2] = _total(line, row, states, rigid) - sides[:, :, 0] - sides[:, :, 1]
    flexible = _total(line, row, states, runs[1]) if len(runs) > 1 else None
    return HoldLoads(
        name=hold.name, kind=hold.kind, station=hold.station, axes=hold.axes, sides=sides, flexible=flexible
    )


def _total(line: LineModel, row: int, states: tuple[State, ...], run: Run) -> Floats:
    """Return the load of a hold on the structure by cause, (states, causes, 6), global axes."""
    hold = line.holds[row]
    total = -run.reactions[:, :, line.supports[row]]
    for number, state in enumerate(states):
        if hold.acts_in(state) and not hold.is_locked_in(state):
            total[number, WEIGHT, 2] -= hold.lift
    return np.asarray(total)


def _held_part(hold: Holding, forces: Floats) -> Floats:
    """Return only the components that the hold takes: what passes along the pipe is not its load."""
    takes = hold.loads_held()
    if takes.all():
        return forces
    local = np.concatenate([forces[..., :3] @ hold.axes.T, forces[..., 3:] @ hold.axes.T], axis=-1) * takes
    return np.concatenate([local[..., :3] @ hold.axes, local[..., 3:] @ hold.axes], axis=-1)


def _joint_movements(
    line: LineModel, states: tuple[State, ...], displacements: Floats, ends: Floats
) -> list[JointMovement]:
    return [
        _movement(line, states, place, (displacements[:, place : place + 2], ends[:, :, place]))
        for place, piece in enumerate(line.pieces)
        if piece.part == "bellows"
    ]


def _movement(line: LineModel, states: tuple[State, ...], place: int, answer: tuple[Floats, Floats]) -> JointMovement:
    """Return the movement of one bellows from the displacements of its ends, (states, 2, 6), and its end forces."""
    ends_move, forces = answer
    piece = line.pieces[place]
    assert piece.joint is not None, "a bellows belongs to a joint"
    axes = line.route.axes(piece.joint.position.station)
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
        torque=forces.sum(axis=1)[:, 3:] @ axes[0],
        spring=line.axial[place] / length * (axial + piece.joint.preset),
        pressure=np.array([piece_pressures(line, state)[place] for state in states]),
    )


def _axial_force(line: LineModel, starts: Floats, ends: Floats) -> Floats:
    """Return the effective force in the middle of each piece, tension positive, (states, causes, p)."""
    directions = np.array([line.route.direction(piece.middle) for piece in line.pieces])
    return np.asarray(((ends - starts)[..., :3] * directions).sum(axis=-1) / 2.0)
