"""The frame that may bow, in one state: finer, warm, with the rods that pull.  (study/bowing/fine.py)

Every bellows is in a dozen members, long pipe cut twice as short as for the loads; moduli are those of the state's
temperatures; what can only push or pull holds where it touches (held.py). A rod whose nut bears is a bar of E A/L on
its circle between the faces of its joint: it stretches, and neither bends nor twists. Its tension turns with it and is
told beside the members' effective forces, since it is no member of the line: S of a bellows is k x - P A_e as ever.
Plates, swing bars and the ties of a balancing bellows are bars too, always; a balance pulls with its own P A besides.
What bears sideways, the side of a plate in its pin or the shoulder of a swing bar, holds without a pull that turns.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.joints import KINDS
from takeup.line import State, TakeUp
from takeup.mechanics import Frame, Links, Straights, whole_parts
from takeup.study.causes import CAUSES, PRESET, PRESSURE
from takeup.study.contact_rows import Row
from takeup.study.held import supports_in
from takeup.study.model import SystemModel, model_of, walked_at, walked_share
from takeup.study.pieces import Piece
from takeup.study.records import JointMovement, Solved

Floats = NDArray[np.float64]
_NOTHING = 1.0  # N: rounding, and forces that bow nothing
_SIDE = 0.01  # m: the short bar that stands for what bears sideways
_PIN_SHARE = 0.01  # of a plate's length: the short bar that stands for a pin, whose pull then turns about it
_PINNED = 1e-9  # of E A L^2: what a bar bends and twists with, since a rod's own washers turn; no pivot may be zero


@dataclass(frozen=True, kw_only=True, slots=True)
class FineState:
    """The finer frame in one state.

    Args:
        model: at the state's temperatures; its frame has the bars of rods behind the straights of the lines.
        frame: the same with the supports of the state and stiff sleeves: what may bow.
        force: S of every member, none in bars, (members,) [N].
        rods: the contact rows of the rods that pull, q of them.
        places: of these rows among all contact rows, (q,).
        bars: the member of each, (q,).
        links: their tension; None where no rod pulls.
    """

    model: SystemModel
    frame: Frame
    force: Floats
    rods: tuple[Row, ...]
    places: NDArray[np.int64]
    bars: NDArray[np.int64]
    links: Links | None


def fine_model(solved: Solved) -> SystemModel:
    """Return the finer model of a study, at the moduli of the walk."""
    return model_of(solved.study, fine=True)


def fine_state(solved: Solved, cold: SystemModel, number: int) -> FineState:
    """Return what may bow in a state.

    Args:
        solved: the walk without friction.
        cold: the finer model, at the moduli of the walk.
        number: of the state.
    """
    places = _pulling(solved, number)
    rods = tuple(solved.run.ground.contacts.rows[place] for place in places)
    warm = _with_bars(_warmed(solved, cold, solved.states[number]), solved, rods)
    straights = len(cold.frame.straights.start)
    tension = solved.run.walk.forces[solved.run.way.arrivals[number], places]
    tension = tension + _balancing(solved, rods, number) + _preset(solved, rods)
    return FineState(
        model=warm,
        frame=replace(_with_stiff_sleeves(warm), supports=supports_in(solved, warm, number)),
        force=_forces(solved, warm, number, slice(None)),
        rods=rods,
        places=places,
        bars=np.arange(straights, straights + len(rods)),
        links=_links(solved, warm, rods, tension),
    )


def forces_by(solved: Solved, fine: FineState, number: int, cause: str) -> tuple[Floats, Links | None]:
    """Return what one cause brings of S of every member, (members,) [N], and of the rods' tension.

    Args:
        solved: the walk without friction.
        fine: the state.
        number: its number.
        cause: one of `CAUSES`.
    """
    place = CAUSES.index(cause)
    force = _forces(solved, fine.model, number, [place])
    if not fine.rods:
        return force, None
    run = solved.run
    parts = whole_parts(run.walk, run.way.arrivals[[number]]).row_forces[0]
    kinds = np.array(run.ground.causes.kinds)
    own = parts[: len(kinds)][kinds == place].sum(axis=0)[fine.places]
    if place == PRESSURE:
        own = own + _balancing(solved, fine.rods, number)
    if place == PRESET:
        own = own + _preset(solved, fine.rods)
    return force, _links(solved, fine.model, fine.rods, own)


def pulls(rods: Sequence[Row]) -> NDArray[np.bool_]:
    """Return which hardware is a bar whose pull turns with it, (q,)."""
    return np.array([row.length > 0.0 for row in rods], dtype=bool)


def less(links: Links | None, other: Links | None) -> Links | None:
    """Return links with the force of others taken off; both of the same rods."""
    if links is None or other is None:
        return links
    return replace(links, force=links.force - other.force)


def _pulling(solved: Solved, number: int) -> NDArray[np.int64]:
    """Return which contact rows are hardware of joints that bears in a state: rods may be slack."""
    run = solved.run
    sides = run.walk.sides[run.way.arrivals[number]]
    bears = [
        row.role != "hold" and (row.role != "rod" or bool(side))
        for row, side in zip(run.ground.contacts.rows, sides, strict=True)
    ]
    return np.flatnonzero(bears)


def _balancing(solved: Solved, rows: Sequence[Row], number: int) -> Floats:
    """Return the pull of pressure in the ties of balancing bellows, P A, nothing for other hardware, (q,) [N]."""
    pull = np.zeros(len(rows))
    for place, row in enumerate(rows):
        takeup, joint = _joint_of(solved, row)
        if row.role == "balance" and takeup.balance is not None:
            pull[place] = takeup.balance.effective_area * float(joint.pressure[number])
    return pull


def _preset(solved: Solved, rows: Sequence[Row]) -> Floats:
    """Return the pull of balancing bellows that were fitted extended, k_b x_0, nothing for other hardware, (q,) [N]."""
    pull = np.zeros(len(rows))
    for place, row in enumerate(rows):
        takeup, _ = _joint_of(solved, row)
        if row.role == "balance" and takeup.balance is not None:
            pull[place] = takeup.balance.axial_rate * takeup.preset
    return pull


def _joint_of(solved: Solved, row: Row) -> tuple[TakeUp, JointMovement]:
    """Return the joint that a row of hardware belongs to, and how it moves."""
    answer = next(item for item in solved.lines if item.line.name == row.line)
    takeup = next(item for item in answer.line.takeups if item.name == row.owner)
    return takeup, next(item for item in answer.joints if item.name == row.owner)


def _ends(solved: Solved, model: SystemModel, row: Row) -> tuple[int, int, Floats, Floats]:
    """Return both nodes of a joint's hardware in the finer model, and the arms from them to the ends of its bar."""
    coarse = next(line for line in solved.model.lines if line.line.name == row.line)
    line = next(line for line in model.lines if line.line.name == row.line)
    start, end = (
        line.node_at(float(coarse.stations[int(np.flatnonzero(coarse.nodes == node)[0])]))
        for node in (row.other, row.node)
    )
    half = 0.5 * _bar_length(row) * row.direction
    return start, end, np.array(row.other_arm) - half, np.array(row.arm) + half


def _links(solved: Solved, model: SystemModel, rods: Sequence[Row], tension: Floats) -> Links | None:
    if not rods:
        return None
    ends = [_ends(solved, model, row) for row in rods]
    return Links(
        start=np.array([end[0] for end in ends], dtype=np.int64),
        end=np.array([end[1] for end in ends], dtype=np.int64),
        start_arm=np.array([end[2] for end in ends]),
        end_arm=np.array([end[3] for end in ends]),
        force=np.where(pulls(rods), tension, 0.0),
    )


def _with_bars(model: SystemModel, solved: Solved, rods: Sequence[Row]) -> SystemModel:
    """Return the model with a bar for each rod behind its straights; members of arcs are numbered on."""
    links = _links(solved, model, rods, np.zeros(len(rods)))
    if links is None:
        return model
    members = model.frame.straights
    count = len(members.start)
    length = np.array([_bar_length(row) for row in rods])
    axial = length / np.array([row.compliance for row in rods])
    none = np.zeros((count, 3))
    straights = Straights(
        start=np.concatenate([members.start, links.start]),
        end=np.concatenate([members.end, links.end]),
        axial=np.concatenate([members.axial, axial]),
        bending=np.concatenate([members.bending, _PINNED * axial * length**2]),
        torsion=np.concatenate([members.torsion, _PINNED * axial * length**2]),
        start_offset=np.concatenate([none, links.start_arm]),
        end_offset=np.concatenate([none, links.end_arm]),
    )
    lines = tuple(
        replace(line, members=np.where(line.members < count, line.members, line.members + len(rods)))
        for line in model.lines
    )
    return replace(model, frame=replace(model.frame, straights=straights), lines=lines)


def _bar_length(row: Row) -> float:
    """Return the length of the bar that a row stands for; pins hold at a place, for which a short bar stands."""
    if row.length == 0.0:
        return _SIDE
    return _PIN_SHARE * row.length if row.role == "pin" else row.length


def _forces(solved: Solved, model: SystemModel, number: int, causes: slice | list[int]) -> Floats:
    """Return S of every member of the finer frame from some causes in a state, (members,) [N]."""
    force = np.zeros(model.frame.member_count)
    for answer, line in zip(solved.lines, model.lines, strict=True):
        middles = np.array([piece.middle for piece in line.pieces])
        whole = np.clip(np.searchsorted(answer.model.stations, middles) - 1, 0, len(answer.model.pieces) - 1)
        force[line.members] = answer.effective_forces[number, causes].sum(axis=0)[whole]
    return np.where(np.abs(force) < _NOTHING, 0.0, force)


def _warmed(solved: Solved, cold: SystemModel, state: State) -> SystemModel:
    """Return the model with the moduli of a state's temperatures, bellows of known metal included."""
    straight = len(cold.frame.straights.start)
    share = np.ones(cold.frame.member_count)
    known: dict[tuple[int, int], float] = {}
    for line in cold.lines:
        for member, piece in zip(line.members, line.pieces, strict=True):
            if piece.part == "bellows":
                share[member] = warm_share(solved, cold, piece, state)
                continue
            key = (id(piece.pipe.material), piece.zone)
            if key not in known:
                modulus = piece.pipe.material.modulus
                there = walked_at(solved.study, cold.zones, piece)
                known[key] = modulus.at(state.zones[piece.zone].temperature) / modulus.at(there)
            share[member] = known[key]
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


def warm_share(solved: Solved, model: SystemModel, piece: Piece, state: State) -> float:
    """Return how stiff a bellows is in a state, as a share of its rate in the walk; 1 where its metal is not known."""
    if piece.joint is None or piece.joint.bellows is None:
        return 1.0
    there = piece.joint.bellows.of.rate_share(state.zones[piece.zone].temperature)
    return there / walked_share(solved.study, model.zones, piece)


def _with_stiff_sleeves(model: SystemModel) -> Frame:
    """Return the frame with externally pressurised joints bending like the pipe beside them."""
    straights = model.frame.straights
    bending = straights.bending.copy()
    for line in model.lines:
        for place, piece in enumerate(line.pieces):
            if piece.part == "bellows" and piece.joint is not None and KINDS[piece.joint.kind].sleeved:
                beside = next(k for k in range(place, -1, -1) if line.pieces[k].part != "bellows")
                bending[line.members[place]] = straights.bending[line.members[beside]]
    return replace(model.frame, straights=replace(straights, bending=bending))


__all__ = ["FineState", "fine_model", "fine_state", "forces_by", "less", "pulls", "warm_share"]
