"""At what factor on its effective forces a system bows out, state by state.     (study/stability.py)

The frame is that of the study with every bellows in a dozen members, moduli at the state's temperatures, supports of
the state; what can only push or pull is left out where it would have to do the other. A mode belongs to the run of pipe
or to the bellows that holds most of its elastic energy. An externally pressurised joint bends like the pipe beside it,
because guide rings keep its inner pipe in line; its bellows is looked at by itself under vacuum.

    bellows by itself, ends held    |S| = 4 pi^2 EI/L_b^2,  EI = k_theta L_b         (Haringx; fixed-fixed strut)

Spring rates are nominal at every temperature: their own fall with temperature is not known to the tool. Friction never
stabilises and is not in it. Theory: docs/theory/stability.md.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.joints import KINDS
from takeup.line import State, TakeUp
from takeup.mechanics import (
    Factor,
    Frame,
    Modes,
    NotAtRisk,
    NotFactored,
    NotHeld,
    NotVerified,
    Unstable,
    buckling,
    factorise,
)
from takeup.study.causes import CAUSES
from takeup.study.held import supports_in
from takeup.study.model import SystemModel, model_of, walked_at
from takeup.study.records import JointMovement, LineAnswer, Solved

Floats = NDArray[np.float64]
_COUNTS = (4, 8, 16, 32)  # modes looked for, more where the last is still low
_FAR_ENOUGH = 6.0  # above every factor that is asked for: what lies beyond decides nothing
_NOTHING = 1.0  # N: rounding, and forces that bow nothing


@dataclass(frozen=True, kw_only=True, slots=True)
class Shape:
    """How one line moves in a mode: name, stations (q,) [m], places (q, 3) [m] and movements (q, 3)."""

    line: str
    stations: Floats
    places: Floats
    movements: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Mode:
    """One way of bowing out.

    Args:
        factor: on the whole field of effective forces.
        line: that holds most of its energy.
        joint: the bellows that holds most of it; None for the run of pipe.
        share: of the energy that it holds.
        station: where it moves most [m].
        shapes: of every line, largest movement of all one.
    """

    factor: float
    line: str
    joint: str | None
    share: float
    station: float
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class BellowsFactor:
    """The factor of one bellows by itself, its ends held; None where its own column is not compressed."""

    line: str
    joint: str
    factor: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class StateStability:
    """What one state's stability is.

    Args:
        state: its name.
        modes: the smallest factors first; empty where nothing is at risk or nothing could be told.
        bellows: each by itself.
        searched: no mode below this factor is missing; infinite where there are no more.
        bowing_pressure: in the state with the lowest factor of all: the greatest gauge pressure at a joint at which the
            line would bow out, all pressures raised alike, temperatures kept [Pa]; None elsewhere, and where pressure
            does not bring it about.
        because: why there are no modes.
        told: whether the answer is one; False where it could not be verified.
    """

    state: str
    modes: tuple[Mode, ...]
    bellows: tuple[BellowsFactor, ...]
    searched: float
    bowing_pressure: float | None
    because: str
    told: bool


def stability_of(solved: Solved) -> tuple[StateStability, ...]:
    """Return the stability of every state.

    Args:
        solved: the model's answer.
    """
    cold = model_of(solved.study, fine=True)
    found = [_of_state(solved, cold, number, state) for number, state in enumerate(solved.states)]
    at_risk = [number for number, item in enumerate(found) if item.modes]
    if at_risk:
        worst = min(at_risk, key=lambda number: found[number].modes[0].factor)
        found[worst] = replace(found[worst], bowing_pressure=_bowing_pressure(solved, cold, worst))
    return tuple(found)


def _of_state(solved: Solved, cold: SystemModel, number: int, state: State) -> StateStability:
    bellows = tuple(_by_itself(answer, joint, number) for answer in solved.lines for joint in answer.joints)
    model = _warmed(solved, cold, state)
    force = _forces(solved, model, number, causes=slice(None))

    def silent(because: str, *, told: bool) -> StateStability:
        return StateStability(
            state=state.name,
            modes=(),
            bellows=bellows,
            searched=math.inf,
            bowing_pressure=None,
            because=because,
            told=told,
        )

    if not (force < 0.0).any():
        return silent("nothing is compressed", told=True)
    factor = factorise(_frame(solved, model, number))
    if not isinstance(factor, Factor):
        return silent("without the rests that would have to pull, nothing holds the line", told=False)
    found = _search(factor, force)
    if isinstance(found, NotAtRisk):
        return silent(found.because, told=True)
    if not isinstance(found, Modes):
        return silent(getattr(found, "because", "not held"), told=False)
    modes = tuple(_mode(model, found, row) for row in range(len(found.factors)))
    return StateStability(
        state=state.name,
        modes=modes,
        bellows=bellows,
        searched=modes[-1].factor if len(modes) in _COUNTS else math.inf,
        bowing_pressure=None,
        because="",
        told=True,
    )


def _search(factor: Factor, force: Floats) -> Modes | NotAtRisk | Unstable | NotVerified | NotHeld | NotFactored:
    """Return the lowest modes, so many that the last of them is far enough, or that there are no more.

    A soft bellows has many modes below the first of the run, and the run must be told too.
    """
    found = buckling(factor, force, count=_COUNTS[0])
    for count in _COUNTS[1:]:
        if not isinstance(found, Modes) or len(found.factors) < count // 2 or found.factors[-1] >= _FAR_ENOUGH:
            break
        found = buckling(factor, force, count=count)
    return found


def _forces(solved: Solved, model: SystemModel, number: int, *, causes: slice | list[int]) -> Floats:
    """Return S of every member of the finer frame from some causes in a state, (members,) [N]."""
    force = np.zeros(model.frame.member_count)
    for answer, line in zip(solved.lines, model.lines, strict=True):
        middles = np.array([piece.middle for piece in line.pieces])
        whole = np.clip(np.searchsorted(answer.model.stations, middles) - 1, 0, len(answer.model.pieces) - 1)
        force[line.members] = answer.effective_forces[number, causes].sum(axis=0)[whole]
    return np.where(np.abs(force) < _NOTHING, 0.0, force)


def _warmed(solved: Solved, cold: SystemModel, state: State) -> SystemModel:
    """Return the model with the moduli of a state's temperatures; bellows keep their nominal rates."""
    straight = len(cold.frame.straights.start)
    share = np.ones(cold.frame.member_count)
    for line in cold.lines:
        for member, piece in zip(line.members, line.pieces, strict=True):
            if piece.part != "bellows":
                modulus = piece.pipe.material.modulus
                share[member] = modulus.at(state.zones[piece.zone].temperature) / modulus.at(
                    walked_at(solved.study, cold.zones, piece)
                )
    members, arcs = cold.frame.straights, cold.frame.arcs
    first, last = share[:straight], share[straight:]
    frame = replace(
        cold.frame,
        straights=replace(
            members, axial=members.axial * first, bending=members.bending * first, torsion=members.torsion * first
        ),
        arcs=replace(arcs, axial=arcs.axial * last, bending=arcs.bending * last, torsion=arcs.torsion * last),
    )
    return replace(cold, frame=frame)


def _frame(solved: Solved, model: SystemModel, number: int) -> Frame:
    return replace(_with_stiff_sleeves(model), supports=supports_in(solved, model, number))


def _with_stiff_sleeves(model: SystemModel) -> Frame:
    """Return the frame with externally pressurised joints bending like the pipe beside them."""
    straights = model.frame.straights
    bending = straights.bending.copy()
    for line in model.lines:
        for place, piece in enumerate(line.pieces):
            if piece.part == "bellows" and piece.joint is not None and not KINDS[piece.joint.kind].column_squirm:
                beside = next(k for k in range(place, -1, -1) if line.pieces[k].part != "bellows")
                bending[line.members[place]] = straights.bending[line.members[beside]]
    return replace(model.frame, straights=replace(straights, bending=bending))


def _mode(model: SystemModel, found: Modes, row: int) -> Mode:
    energy, shape = found.energy[row], found.shapes[row]
    shares: dict[tuple[str, str | None], float] = {}
    for line in model.lines:
        for place, piece in enumerate(line.pieces):
            own = piece.joint.name if piece.part == "bellows" and piece.joint is not None else None
            key = (line.line.name, own)
            shares[key] = shares.get(key, 0.0) + float(energy[line.members[place]])
    (name, joint), share = max(shares.items(), key=lambda item: item[1])
    chosen = next(line for line in model.lines if line.line.name == name)
    size = np.linalg.norm(shape[chosen.nodes, :3], axis=1)
    return Mode(
        factor=float(found.factors[row]),
        line=name,
        joint=joint,
        share=share,
        station=float(chosen.stations[int(size.argmax())]),
        shapes=tuple(
            Shape(
                line=line.line.name,
                stations=line.stations,
                places=line.points,
                movements=np.asarray(shape[line.nodes, :3]),
            )
            for line in model.lines
        ),
    )


def _by_itself(answer: LineAnswer, joint: JointMovement, number: int) -> BellowsFactor:
    takeup = next(item for item in answer.line.takeups if item.name == joint.name)
    force = column_force(takeup, float(joint.pressure[number]), float(joint.spring[number]))
    factor = None
    if force < 0.0:
        length = takeup.data.live_length
        factor = 4.0 * math.pi**2 * answer.model.rates[joint.name].angular / length / -force
    return BellowsFactor(line=answer.line.name, joint=joint.name, factor=factor)


def column_force(takeup: TakeUp, pressure: float, spring: float) -> float:
    """Return the effective force of a bellows as a column, tension positive [N].

    Pressure inside: S = k x - P A_e. Where the line's pressure is outside the bellows its sign turns round, and so does
    that of the spring, because the bellows is drawn out as the joint shortens.
    """
    inside = spring - pressure * takeup.data.effective_area
    return inside if KINDS[takeup.kind].column_squirm else -inside


def _bowing_pressure(solved: Solved, cold: SystemModel, number: int) -> float | None:
    """Return the pressure at the lowest mode's joint, all pressures raised alike, at which the frame bows out [Pa].

    The load factor on the pressure's share of S alone, the rest of S staying as it is.
    """
    model = _warmed(solved, cold, solved.states[number])
    factor = factorise(_frame(solved, model, number))
    pressed = _forces(solved, model, number, causes=[CAUSES.index("pressure")])
    rest = _forces(solved, model, number, causes=slice(None)) - pressed
    joints = [joint for answer in solved.lines for joint in answer.joints]
    if not joints or not (pressed < 0.0).any():
        return None
    pressure = max(float(joint.pressure[number]) for joint in joints)
    if pressure <= 0.0 or not isinstance(factor, Factor):
        return None
    found = buckling(factor, pressed, count=1, fixed=rest)
    return float(found.factors[0]) * pressure if isinstance(found, Modes) else None
