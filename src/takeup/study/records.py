"""What the model answers: loads on holds and movements of joints, by line, state and cause.     (study/records.py)

Forces and moments are those on the structure, in global axes. Movements of a joint are in its local axes and count
from its length as set. Index order is always state, then cause, then side (before, beyond, other), then component.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.line import ANCHORED_ENDS, Line, State, Study, Zones
from takeup.line.holding import ANCHORS
from takeup.study.model import LineModel, SystemModel
from takeup.study.run import Run

Floats = NDArray[np.float64]
NO_FRICTION = "no friction"


@dataclass(frozen=True, kw_only=True, slots=True)
class HoldLoads:
    """Loads of one hold or anchored end on the structure.

    Args:
        name: of the hold.
        kind: of the hold.
        station: [m].
        axes: its own axes as rows, (3, 3).
        sides: what the line before it, the line beyond it and all else there (a branch, a load of the user's, a second
            hold) bring, (states, causes, 3, 6) [N], [N m].
        flexible: the same summed over sides where the structures behind anchors give, (states, causes, 6); None where
            all are rigid.
        open_by: how far its contacts are from touching, the nearest of them, (states,) [m]; zero where one touches, and
            where it has none.
    """

    name: str
    kind: str
    station: float
    axes: Floats
    sides: Floats
    flexible: Floats | None
    open_by: Floats

    @property
    def takes_moments(self) -> bool:
        """Whether it holds rotations: an anchor, or an end that holds like one."""
        return self.kind in (*ANCHORED_ENDS, *ANCHORS)

    @property
    def parts(self) -> Floats:
        """Sum over sides, (states, causes, 6)."""
        return np.asarray(self.sides.sum(axis=2))

    @property
    def total(self) -> Floats:
        """Sum over sides and causes, (states, 6)."""
        return np.asarray(self.sides.sum(axis=(1, 2)))

    def local(self, forces: Floats) -> Floats:
        """Return force and moment vectors (..., 6) in its own axes."""
        return np.concatenate([forces[..., :3] @ self.axes.T, forces[..., 3:] @ self.axes.T], axis=-1)


@dataclass(frozen=True, kw_only=True, slots=True)
class JointMovement:
    """Movements of one joint in each state, its local axes.

    Args:
        name: of the take-up.
        station: of its middle [m].
        axial: extension from the set length, (states,) [m].
        lateral: offset of its ends along y and z, their mean direction taken out, (states, 2) [m].
        angular: rotation between its ends about y and z, (states, 2) [rad].
        torsion: twist between its ends, (states,) [rad].
        torque: (states,) [N m].
        spring: axial force of the bellows' own spring, tension positive, (states,) [N].
        pressure: gauge in its middle, (states,) [Pa].
        rods: tension of each of its rods, with rigid anchors, (states, rods) [N]; zero where a rod is slack.
        ties: pull in the ties of its balancing bellows, all together, (states,) [N]; None where it has none.
        plates: force in both of its plates or bars: along the joint, tension positive, across it, along the pins,
            (states, 2, 3) [N]; None where it has none.
    """

    name: str
    station: float
    axial: Floats
    lateral: Floats
    angular: Floats
    torsion: Floats
    torque: Floats
    spring: Floats
    pressure: Floats
    rods: Floats
    ties: Floats | None
    plates: Floats | None


@dataclass(frozen=True, kw_only=True, slots=True)
class LineAnswer:
    """The model's answer for one line; the other lines of the study are in it as far as they push and pull.

    Args:
        study: the file, its lines resolved.
        line: this line.
        model: what it is in the frame.
        states: in order.
        displacements: of its cuts, (states, p + 1, 6) [m], [rad]; with the structures behind anchors giving.
        holds: along the flow.
        joints: along the flow.
        effective_forces: S in the middle of each piece by cause, (states, causes, p) [N].
        end_moments: on both ends of each piece by cause, (states, causes, p, 2, 3) [N m].
        pressures: gauge, in the middle of each piece, (states, p) [Pa].
        branches: the answers of the lines that leave this one.
        scenario: with which friction it was walked, in words.
    """

    study: Study
    line: Line
    model: LineModel
    states: tuple[State, ...]
    displacements: Floats
    holds: tuple[HoldLoads, ...]
    joints: tuple[JointMovement, ...]
    effective_forces: Floats
    end_moments: Floats
    pressures: Floats
    branches: tuple[LineAnswer, ...]
    scenario: str

    @property
    def effective_force(self) -> Floats:
        """S in the middle of each piece, all causes, (states, p) [N]."""
        return np.asarray(self.effective_forces.sum(axis=1))


@dataclass(frozen=True, kw_only=True, slots=True)
class Solved:
    """The model's whole answer in one walk.

    Args:
        study: the file, its lines resolved.
        model: of all its lines.
        states: in order.
        scenario: with which friction it was walked, in words.
        run: the walk itself, with rigid anchors.
        lines: the answer line by line.
        residual: (states,).
        verified: (states,).
        condition: estimate of the condition number of the scaled matrix.
        because: why a state is refused; empty when all are verified.
    """

    study: Study
    model: SystemModel
    states: tuple[State, ...]
    scenario: str
    run: Run
    lines: tuple[LineAnswer, ...]
    residual: Floats
    verified: NDArray[np.bool_]
    condition: float
    because: str

    @property
    def zones(self) -> Zones:
        """The zones of the study."""
        return self.model.zones


@dataclass(frozen=True, kw_only=True, slots=True)
class Shape:
    """How one line moves in a shape: name, stations (q,) [m], places (q, 3) [m], movements and turns (q, 3)."""

    line: str
    stations: Floats
    places: Floats
    movements: Floats
    turns: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class FreeMotion:
    """A motion that nothing resists: what moves and how, in words, and the shape of every line.

    The largest movement of all is one. Where nothing moves aside, because a straight line turns about its own axis,
    movements are zero and the turn is one.
    """

    words: str
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Unsolved:
    """Lines that the model cannot answer: not held, or too ill-conditioned; `because` says which, in words.

    Args:
        study: the file, its lines resolved.
        model: of all its lines.
        states: in order.
        because: why there is no answer.
        free: the motions that `because` tells, each once; empty where the lines are held.
    """

    study: Study
    model: SystemModel
    states: tuple[State, ...]
    because: tuple[str, ...]
    free: tuple[FreeMotion, ...]

    @property
    def zones(self) -> Zones:
        """The zones of the study."""
        return self.model.zones


def shapes_of(model: SystemModel, moved: Floats) -> tuple[Shape, ...]:
    """Return how every line moves.

    Args:
        model: of the lines.
        moved: movements and turns of the nodes of its frame, (n, 6).
    """
    return tuple(
        Shape(
            line=line.line.name,
            stations=line.stations,
            places=line.points,
            movements=np.asarray(moved[line.nodes, :3]),
            turns=np.asarray(moved[line.nodes, 3:]),
        )
        for line in model.lines
    )
