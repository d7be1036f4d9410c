"""What the run says of each line: loads of its holds side by side, movements of its joints.     (study/sides.py)

A hold's load is split by the side that brings it: the piece before the hold, the piece beyond it, and all else there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.joints.links import part_of_plates
from takeup.line import State
from takeup.study.causes import piece_pressures
from takeup.study.holding import Holding
from takeup.study.model import LineModel
from takeup.study.records import HoldLoads, JointMovement, LineAnswer
from takeup.study.run import Run

Floats = NDArray[np.float64]


def line_answers(runs: Sequence[Run], scenario: str) -> tuple[LineAnswer, ...]:
    """Return the answer of each line.

    Args:
        runs: with rigid anchors, and, where a structure gives, a second with its springs.
        scenario: with which friction they were walked.
    """
    study, model = runs[0].ground.study, runs[0].ground.model
    answers: dict[str, LineAnswer] = {}
    for line in reversed(model.lines):  # a line stands after its main, so its branches have their answers already
        own = [item.name for item in study.lines if item.branch is not None and item.branch.of == line.line.name]
        branches = tuple(answers[name] for name in own)
        answers[line.line.name] = _line_answer(line, branches, runs, scenario)
    return tuple(answers[line.line.name] for line in model.lines)


def _line_answer(line: LineModel, branches: tuple[LineAnswer, ...], runs: Sequence[Run], scenario: str) -> LineAnswer:
    rigid, moving = runs[0], runs[-1]
    states = rigid.way.states
    starts, ends = rigid.starts[:, :, line.members], rigid.ends[:, :, line.members]
    displacements = moving.displacements[:, line.nodes]
    nearest = _open_by(rigid)
    return LineAnswer(
        study=rigid.ground.study,
        line=line.line,
        model=line,
        states=states,
        displacements=displacements,
        holds=tuple(_hold_loads(line, row, states, (runs, nearest)) for row in range(len(line.holds))),
        joints=tuple(_joint_movements(line, runs, displacements)),
        effective_forces=_axial_force(line, starts, ends),
        end_moments=np.stack([starts[..., 3:], ends[..., 3:]], axis=3),
        pressures=np.array([piece_pressures(line, state) for state in states]),
        branches=branches,
        scenario=scenario,
    )


def _hold_loads(line: LineModel, row: int, states: tuple[State, ...], found: tuple[Sequence[Run], Floats]) -> HoldLoads:
    """Return the loads of a hold from the runs, and from how far each hold's contacts are from touching."""
    (runs, nearest), hold = found, line.holds[row]
    rigid = runs[0]
    sides = np.zeros((*rigid.starts.shape[:2], 3, 6))
    place = int(np.argmin(np.abs(line.stations - hold.station)))
    if place > 0:
        sides[:, :, 0] = _held_part(hold, -rigid.ends[:, :, line.members[place - 1]])
    if place < len(line.pieces):
        sides[:, :, 1] = _held_part(hold, -rigid.starts[:, :, line.members[place]])
    there = np.array([hold.acts_in(state) for state in states])
    sides *= there[:, None, None, None]
    support = line.supports[row]
    sides[:, :, 2] = rigid.loads[:, :, support] - sides[:, :, 0] - sides[:, :, 1]
    flexible = runs[1].loads[:, :, support] if len(runs) > 1 else None
    return HoldLoads(
        name=hold.name,
        kind=hold.kind,
        station=hold.station,
        axes=hold.axes,
        sides=sides,
        flexible=flexible,
        open_by=nearest[:, support],
    )


def _open_by(run: Run) -> Floats:
    """Return how far the contacts of every hold are from touching, the nearest of them, (states, h) [m]."""
    steps, walk = run.way.arrivals, run.walk
    rows = [(number, row) for number, row in enumerate(run.ground.contacts.rows) if row.hold is not None]
    nearest = np.full((len(steps), len(run.ground.model.holds)), np.inf)
    for number, row in rows:
        moved = walk.movements[steps, number]
        gap = np.minimum(row.gap[0] - moved, row.gap[1] + moved)
        own = np.where(walk.sides[steps, number] != 0, 0.0, np.maximum(gap, 0.0))
        nearest[:, row.hold] = np.minimum(nearest[:, row.hold], own)
    return np.where(np.isinf(nearest), 0.0, nearest)


def _held_part(hold: Holding, forces: Floats) -> Floats:
    """Return only the components that the hold takes: what passes along the pipe is not its load."""
    takes = hold.loads_held()
    if takes.all():
        return forces
    local = np.concatenate([forces[..., :3] @ hold.axes.T, forces[..., 3:] @ hold.axes.T], axis=-1) * takes
    return np.concatenate([local[..., :3] @ hold.axes, local[..., 3:] @ hold.axes], axis=-1)


def _joint_movements(line: LineModel, runs: Sequence[Run], displacements: Floats) -> list[JointMovement]:
    """Return the movement of every joint, along the flow."""
    states, ends = runs[0].way.states, runs[-1].ends[:, :, line.members]
    found = []
    for name, own in bellows_places(line).items():
        joint = _movement(line, states, own, displacements, ends)
        ties = _pull_of_ties(runs[0], line, joint)
        plates = _forces_of_plates(runs[0], line, name)
        found.append(replace(joint, rods=_rod_tensions(runs[0], line, name), ties=ties, plates=plates))
    return found


def _rod_tensions(run: Run, line: LineModel, joint: str) -> Floats:
    """Return the tension of each rod of a joint, (states, rods) [N]."""
    rows = run.ground.contacts.rows
    own = [k for k, row in enumerate(rows) if row.role == "rod" and row.line == line.line.name and row.owner == joint]
    return np.asarray(run.walk.forces[run.way.arrivals][:, own])


def _forces_of_plates(run: Run, line: LineModel, joint: str) -> Floats | None:
    """Return the force in both plates or bars of a joint, (states, 2, 3) [N]; None where it has none.

    What a row holds in the middle between them, each holds half of.
    """
    forces = run.walk.forces[run.way.arrivals]
    plates = np.zeros((len(forces), 2, 3))
    own = [
        (number, row.plus)
        for number, row in enumerate(run.ground.contacts.rows)
        if row.role in ("pin", "bar") and (row.line, row.owner) == (line.line.name, joint)
    ]
    for number, name in own:
        which, way, share = part_of_plates(name)
        plates[:, which, way] += share * forces[:, number, None]
    return plates if own else None


def _pull_of_ties(run: Run, line: LineModel, joint: JointMovement) -> Floats | None:
    """Return the pull in the ties of a balancing bellows, (states,) [N]; None where there is none.

        F = P A_b + k_b (x + x_0)                                          (first principles)

    P is the pressure in the joint, A_b and k_b are those of the balancing bellows, x is how far the joint has
    lengthened between its faces, as the walk without friction has it, and x_0 its preset.
    """
    takeup = next(item for item in line.line.takeups if item.name == joint.name)
    if takeup.balance is None:
        return None
    own = next(
        number
        for number, row in enumerate(run.ground.contacts.rows)
        if (row.role, row.line, row.owner) == ("balance", line.line.name, joint.name)
    )
    spring = run.walk.forces[run.way.arrivals, own] + takeup.balance.axial_rate * takeup.preset
    return np.asarray(spring + takeup.balance.effective_area * joint.pressure)


def bellows_places(line: LineModel) -> dict[str, list[int]]:
    """Return the pieces that are bellows, by the name of their joint."""
    places: dict[str, list[int]] = {}
    for place, piece in enumerate(line.pieces):
        if piece.part == "bellows" and piece.joint is not None:
            places.setdefault(piece.joint.name, []).append(place)
    return places


def _movement(
    line: LineModel, states: tuple[State, ...], places: list[int], displacements: Floats, ends: Floats
) -> JointMovement:
    """Return the movement of one joint, what its spring pulls and the pressure in it."""
    first = places[0]
    joint = line.pieces[first].joint
    assert joint is not None, "a bellows belongs to a joint"
    moved = bellows_moved(line, places, displacements)
    live = sum(line.pieces[place].end - line.pieces[place].start for place in places)
    return JointMovement(
        name=joint.name,
        station=joint.position.station,
        axial=moved.axial,
        lateral=moved.lateral,
        angular=moved.angular,
        torsion=moved.torsion,
        torque=ends[:, :, first].sum(axis=1)[:, 3:] @ line.route.direction(joint.position.station),
        spring=line.axial[first] / live * (moved.axial + joint.preset),
        pressure=np.array([piece_pressures(line, state)[places].mean() for state in states]),
        rods=np.zeros((len(states), 0)),
        ties=None,
        plates=None,
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class BellowsMoved:
    """How the bellows of a joint are moved, in its local axes, s times.

    Args:
        axial: longer positive, (s,) [m].
        lateral: about y and z, (s, 2) [m].
        angular: about y and z, (s, 2) [rad].
        torsion: (s,) [rad].
    """

    axial: Floats
    lateral: Floats
    angular: Floats
    torsion: Floats


def bellows_moved(line: LineModel, places: list[int], displacements: Floats) -> BellowsMoved:
    """Return the movement of one joint from its first bellows' beginning to its last one's end.

    A universal's lateral movement is that of its outer ends against one another, across their mean direction.

    Args:
        line: the joint's line.
        places: its pieces that are bellows.
        displacements: of the cuts of the line, (s, p + 1, 6).
    """
    first, last = places[0], places[-1]
    joint = line.pieces[first].joint
    assert joint is not None, "a bellows belongs to a joint"
    outer = displacements[:, [first, last + 1]]
    axes = line.route.axes(joint.position.station)
    shift = (outer[:, 1, :3] - outer[:, 0, :3]) @ axes.T
    turn = outer[..., 3:] @ axes.T
    mean, between = turn.mean(axis=1), turn[:, 1] - turn[:, 0]
    length = line.pieces[last].end - line.pieces[first].start
    before, beyond = displacements[:, places, :3], displacements[:, [place + 1 for place in places], :3]
    return BellowsMoved(
        axial=stretch_of_bellows(before, beyond, axes),
        lateral=np.stack([shift[:, 1] - length * mean[:, 2], shift[:, 2] + length * mean[:, 1]], axis=1),
        angular=between[:, 1:],
        torsion=between[:, 0],
    )


def stretch_of_bellows(before: Floats, beyond: Floats, axes: Floats) -> Floats:
    """Return how much longer the bellows of a joint are together, (s,) [m]; a spool between them is not one.

    Args:
        before: movement of the beginning of each bellows, (s, b, 3).
        beyond: of its end, (s, b, 3).
        axes: of the joint.
    """
    return np.asarray(((beyond - before) @ axes[0]).sum(axis=1))


def _axial_force(line: LineModel, starts: Floats, ends: Floats) -> Floats:
    """Return the effective force in the middle of each piece, tension positive, (states, causes, p)."""
    directions = np.array([line.route.direction(piece.middle) for piece in line.pieces])
    return np.asarray(((ends - starts)[..., :3] * directions).sum(axis=-1) / 2.0)
