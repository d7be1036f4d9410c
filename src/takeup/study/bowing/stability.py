"""At what factor on its effective forces a system bows out, state by state.     (study/bowing/stability.py)

The frame is the finer one of the state (fine.py), the rods that pull in it. A mode belongs to the run of pipe, to the
bellows or the spool of a joint, or to its rods, bars, plates or ties, whichever holds most of its elastic energy; the
ties of a balance are one bar from face to face, in the middle of the joint. An externally pressurised
joint bends like the pipe beside it, because guide rings keep its inner pipe in line; its bellows is looked at by
itself under vacuum.

    bellows by itself, ends held    |S| = 4 pi^2 EI/L_b^2,  EI = k_theta L_b         (Haringx; fixed-fixed strut)

A universal joint whose spool nothing holds gives way when the spool moves aside: both of its bellows then bow with one
end free to sway, at a quarter of that. Spring rates typed in are nominal at every temperature: their own fall with
temperature is not known to the tool. Those of a bellows by geometry fall as its modulus does. Friction never stabilises
and is not in it. Theory: docs/theory/stability.md.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from takeup.joints import KINDS
from takeup.line import State
from takeup.mechanics import (
    Factor,
    Links,
    Modes,
    NotAtRisk,
    NotFactored,
    NotHeld,
    NotVerified,
    Unstable,
    buckling,
    factorise,
)
from takeup.study.bowing.fine import FineState, fine_model, fine_state, forces_by, less, warm_share
from takeup.study.model import LineModel, SystemModel
from takeup.study.pieces import Piece, joint_spans
from takeup.study.records import JointMovement, LineAnswer, Shape, Solved, shapes_of

Floats = NDArray[np.float64]
_COUNTS = (4, 8, 16, 32)  # modes looked for, more where the last is still low
_FAR_ENOUGH = 6.0  # above every factor that is asked for: what lies beyond decides nothing
_NEAR_ONE = 1.2  # below it one decimal does not show on which side of one a factor stands
_NOTHING = 1.0  # N: rounding, and forces that bow nothing
_SWAYS = 0.5  # of the largest movement: a spool that moves so far is what moves
Part = Literal["run", "bellows", "spool", "rods", "bars", "plates", "ties"]
_HARDWARE: dict[str, Part] = {"rod": "rods", "bar": "bars", "pin": "plates", "balance": "ties"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Mode:
    """One way of bowing out.

    Args:
        factor: on the whole field of effective forces.
        line: that holds most of its energy.
        joint: of which a part holds most of it; None for the run of pipe.
        part: which part that is.
        sways: whether the spool of that joint moves aside, between its two bellows.
        share: of the energy that it holds.
        station: where it moves most [m].
        shapes: of every line, largest movement of all one.
    """

    factor: float
    line: str
    joint: str | None
    part: Part
    sways: bool
    share: float
    station: float
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class BellowsFactor:
    """The factor of one bellows by itself, its ends held; None where its own column is not compressed.

    `number` counts the bellows of a joint along the flow, from one; `of` is how many it has.
    """

    line: str
    joint: str
    number: int
    of: int
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


def factor_words(factor: float) -> str:
    """Return a load factor with one decimal; near one with as many as show on which side of one it stands.

    Args:
        factor: not below zero.
    """
    if factor >= _NEAR_ONE:
        return f"{factor:.1f}"
    written = (f"{factor:.{decimals}f}" for decimals in range(2, 10))
    return next((words for words in written if (float(words) < 1.0) == (factor < 1.0)), repr(factor))


def why_lost(item: StateStability) -> str:
    """Return why a state is no equilibrium to start from, in words: its lowest factor of all is at or below one.

    Args:
        item: of a state.

    Returns:
        The words; nothing where the lowest factor is above one, or where there is none.
    """
    if not item.modes or item.modes[0].factor > 1.0:
        return ""
    mode = item.modes[0]
    what = f"the run of {mode.line}" if mode.joint is None else f"the {mode.part} of {mode.joint}"
    return (
        f"the lowest load factor of this state is {factor_words(mode.factor)}, of {what}: at or below one the lines "
        f"bow out under the forces that they have, and a bow is not followed"
    )


def stability_of(solved: Solved) -> tuple[StateStability, ...]:
    """Return the stability of every state.

    Args:
        solved: the model's answer.
    """
    cold = fine_model(solved)
    found = [_of_state(solved, cold, number, state) for number, state in enumerate(solved.states)]
    at_risk = [number for number, item in enumerate(found) if item.modes]
    if at_risk:
        worst = min(at_risk, key=lambda number: found[number].modes[0].factor)
        found[worst] = replace(found[worst], bowing_pressure=_bowing_pressure(solved, cold, worst))
    return tuple(found)


def _of_state(solved: Solved, cold: SystemModel, number: int, state: State) -> StateStability:
    bellows = tuple(
        one for answer in solved.lines for joint in answer.joints for one in _by_itself(solved, answer, joint, number)
    )
    fine = fine_state(solved, cold, number)

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

    if not (fine.force < 0.0).any():
        return silent("nothing is compressed", told=True)
    factor = factorise(fine.frame)
    if not isinstance(factor, Factor):
        return silent("without the rests that would have to pull, nothing holds the line", told=False)
    found = _search(factor, fine.force, fine.links)
    if isinstance(found, NotAtRisk):
        return silent(found.because, told=True)
    if not isinstance(found, Modes):
        return silent(getattr(found, "because", "not held"), told=False)
    modes = tuple(_mode(fine, found, row) for row in range(len(found.factors)))
    return StateStability(
        state=state.name,
        modes=modes,
        bellows=bellows,
        searched=modes[-1].factor if len(modes) in _COUNTS else math.inf,
        bowing_pressure=None,
        because="",
        told=True,
    )


def _search(
    factor: Factor, force: Floats, links: Links | None
) -> Modes | NotAtRisk | Unstable | NotVerified | NotHeld | NotFactored:
    """Return the lowest modes, so many that the last of them is far enough, or that there are no more.

    A soft bellows has many modes below the first of the run, and the run must be told too.
    """
    found = buckling(factor, force, count=_COUNTS[0], links=links)
    for count in _COUNTS[1:]:
        if not isinstance(found, Modes) or len(found.factors) < count // 2 or found.factors[-1] >= _FAR_ENOUGH:
            break
        found = buckling(factor, force, count=count, links=links)
    return found


def owner_of(line: LineModel, piece: Piece) -> tuple[str, str | None, Part]:
    """Return what a piece belongs to in the words of a mode: line, joint, and which part of it."""
    joint = piece.joint
    if joint is None or (piece.part != "bellows" and joint.data.centres is None):
        return line.line.name, None, "run"
    if piece.part == "bellows":
        return line.line.name, joint.name, "bellows"
    first, last = joint_spans(joint).bellows[0], joint_spans(joint).bellows[-1]
    return (line.line.name, joint.name, "spool") if first[1] < piece.middle < last[0] else (line.line.name, None, "run")


def _mode(fine: FineState, found: Modes, row: int) -> Mode:
    energy, shape, model = found.energy[row], found.shapes[row], fine.model
    shares: dict[tuple[str, str | None, Part], float] = {}
    for line in model.lines:
        for place, piece in enumerate(line.pieces):
            key = owner_of(line, piece)
            shares[key] = shares.get(key, 0.0) + float(energy[line.members[place]])
    for rod, bar in zip(fine.rods, fine.bars, strict=True):
        of_rod: tuple[str, str | None, Part] = (rod.line, rod.owner, _HARDWARE[rod.role])
        shares[of_rod] = shares.get(of_rod, 0.0) + float(energy[bar])
    (name, joint, part), share = max(shares.items(), key=lambda item: item[1])
    chosen = next(line for line in model.lines if line.line.name == name)
    size = np.linalg.norm(shape[chosen.nodes, :3], axis=1)
    return Mode(
        factor=float(found.factors[row]),
        line=name,
        joint=joint,
        part=part,
        sways=_sways(chosen, joint, shape),
        share=share,
        station=float(chosen.stations[int(size.argmax())]),
        shapes=shapes_of(model, shape),
    )


def _sways(line: LineModel, joint: str | None, shape: Floats) -> bool:
    """Return whether the spool between the two bellows of a joint moves aside in a shape, (n, 6)."""
    spool = [
        place
        for place, piece in enumerate(line.pieces)
        if piece.joint is not None and piece.joint.name == joint and owner_of(line, piece)[2] == "spool"
    ]
    if not spool:
        return False
    nodes = line.nodes[[*spool, spool[-1] + 1]]
    along = line.route.direction(line.pieces[spool[0]].middle)
    moved = shape[nodes, :3] - np.outer(shape[nodes, :3] @ along, along)
    return bool(np.linalg.norm(moved, axis=1).max() >= _SWAYS)


def _by_itself(solved: Solved, answer: LineAnswer, joint: JointMovement, number: int) -> list[BellowsFactor]:
    """Return the factor of each bellows of a joint by itself, with the force that it carries in a state."""
    takeup = next(item for item in answer.line.takeups if item.name == joint.name)
    outside = KINDS[takeup.kind].sleeved
    places = [
        place
        for place, piece in enumerate(answer.model.pieces)
        if piece.part == "bellows" and piece.joint is not None and piece.joint.name == joint.name
    ]
    found = []  # under vacuum the thrust of a bellows with the line outside turns round, and so does its spring
    for count, place in enumerate(places, start=1):
        force = float(answer.effective_force[number, place]) * (-1.0 if outside else 1.0)
        factor = None
        if force < -_NOTHING and (outside or KINDS[takeup.kind].column_squirm):
            length = takeup.data.live_length
            warm = warm_share(solved, solved.model, answer.model.pieces[place], answer.states[number])
            factor = 4.0 * math.pi**2 * warm * answer.model.rates[joint.name].angular / length / -force
        found.append(
            BellowsFactor(line=answer.line.name, joint=joint.name, number=count, of=len(places), factor=factor)
        )
    return found


def _bowing_pressure(solved: Solved, cold: SystemModel, number: int) -> float | None:
    """Return the pressure at the lowest mode's joint, all pressures raised alike, at which the frame bows out [Pa].

    The load factor on the pressure's share of S alone, the rest of S staying as it is.
    """
    fine = fine_state(solved, cold, number)
    pressed, pulled = forces_by(solved, fine, number, "pressure")
    joints = [joint for answer in solved.lines for joint in answer.joints]
    if not joints or not (pressed < 0.0).any():
        return None
    pressure = max(float(joint.pressure[number]) for joint in joints)
    factor = factorise(fine.frame)
    if pressure <= 0.0 or not isinstance(factor, Factor):
        return None
    rest = fine.force - pressed, less(fine.links, pulled)
    found = buckling(factor, pressed, count=1, links=pulled, fixed=rest[0], fixed_links=rest[1])
    return float(found.factors[0]) * pressure if isinstance(found, Modes) else None
