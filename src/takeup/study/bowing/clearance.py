"""A run that does not lie straight in its guides, bowed by its thrust.     (study/bowing/clearance.py)

    u_0 = (clearance + L/1000) x shape of the lowest mode of the run        L: between the holds either side of its bow
    (K + K_G) v = -K_G u_0,   every guide, rest and stop a contact with the gap that the walk leaves it

The contacts are condensed: with all of them held, one solve tells what each has to give for each to move. Where they
come to rest is found from where the line lies (resting.py), what the walk presses them with included; a bow either way
is looked at, and where two modes are a pair, a bow level and a bow upright. Where the lowest factor of all modes is at
or below one, nothing is followed: what holds the contacts would hide that the lines have no equilibrium to start from.
The bow has no stress; S is that of the state; the sag of the state is not bowed further. Friction helps nobody. L/1000
is a common tolerance of straightness (from memory). Theory: docs/theory/stability.md.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.mechanics import Modes, NotAtRisk, NotHeld, buckling
from takeup.study.bowing.contacts import GUIDES, Room, Way, bowed, room_of
from takeup.study.bowing.fine import FineState, fine_model, fine_state
from takeup.study.bowing.offsets import offset_of
from takeup.study.bowing.stability import Mode, StateStability, why_lost
from takeup.study.model import LineModel
from takeup.study.records import Solved

Floats = NDArray[np.float64]
CROOKED = 1.0 / 1000.0  # of the length that bows: common tolerance of straightness (from memory)
ENOUGH = 10.0  # a load factor beyond which second order is left out: EN 1993-1-1, 5.2.1 (from memory)
_PAIR = 1.01  # load factors nearer to one another belong to a pair
_PLANE = 0.01  # of their size: two shapes that move in one direction are no pair there
_ACROSS = 0.5  # of the way of a bow: a hold that holds so much of it ends the length that bows


@dataclass(frozen=True, kw_only=True, slots=True)
class GuideForce:
    """One guide in a bowed run.

    Args:
        line: of the guide.
        name: of the guide.
        force: across the pipe, what the walk brings and what the bow adds, the worse of both ways [N].
        touches: whether it touches in the worse of both ways.
        moved: how far the pipe moves in it, the worse of both ways [m].
    """

    line: str
    name: str
    force: float
    touches: bool
    moved: float


@dataclass(frozen=True, kw_only=True, slots=True)
class BowedJoint:
    """One joint in a bowed run: all that it moves in the state, with the bow [m], [rad], resultants."""

    line: str
    name: str
    axial: float
    lateral: float
    angular: float


@dataclass(frozen=True, kw_only=True, slots=True)
class BowedRun:
    """What a bow becomes in one state.

    Args:
        state: its name.
        number: of the state.
        line: of the run that bows.
        station: where it bows most [m].
        factor: load factor of its mode, guides holding.
        bow: clearance and L/1000 together [m].
        clearance: the greatest of the line's guides [m].
        length: L [m].
        grown: the largest further movement of the line, the worse of both ways [m].
        amplification: of the bow: 1 + grown/bow.
        all_open: the lowest factor with every guide that has clearance left out; None where it was not asked or could
            not be told; zero where nothing else holds the line.
        guides: every guide of the state.
        joints: every joint; the worse of both ways.
        stable: whether it comes to rest; never where the lowest factor of all modes is at or below one.
        because: why it does not, or how the all-open factor stands.
    """

    state: str
    number: int
    line: str
    station: float
    factor: float
    bow: float
    clearance: float
    length: float
    grown: float
    amplification: float
    all_open: float | None
    guides: tuple[GuideForce, ...]
    joints: tuple[BowedJoint, ...]
    stable: bool
    because: str


def asks_for_bow(solved: Solved, stability: Sequence[StateStability]) -> bool:
    """Whether a bow has to be looked at: a guide has clearance, or the run's lowest factor is below ten.

    Args:
        solved: the walk without friction.
        stability: of its states.
    """
    return _largest_clearance(solved) > 0.0 or _lowest(stability) < ENOUGH


def clearance_of(solved: Solved, stability: Sequence[StateStability]) -> tuple[BowedRun, ...]:
    """Return what a bow becomes in the state with the lowest factor of the run and in the pressure test.

    Args:
        solved: the walk without friction.
        stability: of its states.
    """
    if not asks_for_bow(solved, stability):
        return ()
    runs = {number: modes for number, item in enumerate(stability) if (modes := _run_modes(item))}
    if not runs:
        return ()
    worst = min(runs, key=lambda number: runs[number][0].factor)
    tests = [number for number in runs if solved.states[number].kind == "test"]
    cold = fine_model(solved)
    chosen = list(dict.fromkeys([worst, *tests]))
    return tuple(_of_state(solved, fine_state(solved, cold, number), number, stability[number]) for number in chosen)


def _run_modes(item: StateStability) -> list[Mode]:
    return [mode for mode in item.modes if mode.part == "run"]


def _lowest(stability: Sequence[StateStability]) -> float:
    return min((mode.factor for item in stability for mode in _run_modes(item)), default=np.inf)


def _largest_clearance(solved: Solved) -> float:
    return max((hold.clearance for line in solved.study.lines for hold in line.holds), default=0.0)


def bow_of(line: LineModel, mode: Mode, clearance: float) -> tuple[float, float]:
    """Return the size of the bow and the length that it lies in [m].

        clearance + L/1000                                                 (L/1000: tolerance, from memory)

    Args:
        line: that bows.
        mode: its mode.
        clearance: of its guides [m].
    """
    shape = next(item for item in mode.shapes if item.line == mode.line)
    place = int(np.argmax(np.linalg.norm(shape.movements, axis=1)))
    way = shape.movements[place] / np.linalg.norm(shape.movements[place])
    stations = [
        hold.station
        for hold in line.holds
        if any(holds and abs(float(axis @ way)) > _ACROSS for holds, axis in zip(hold.held[:3], hold.axes, strict=True))
    ]
    low = max((one for one in stations if one < mode.station), default=0.0)
    high = min((one for one in stations if one > mode.station), default=float(line.stations[-1]))
    return clearance + CROOKED * (high - low), high - low


def _of_state(solved: Solved, fine: FineState, number: int, item: StateStability) -> BowedRun:
    modes = _run_modes(item)
    mode = modes[0]
    line = next(one for one in fine.model.lines if one.line.name == mode.line)
    clearance = max((hold.clearance for hold in line.line.holds), default=0.0)
    bow, length = bow_of(line, mode, clearance)
    room = room_of(solved, fine, number)
    ways: list[Way] = []
    because = why_lost(item)
    for shape in () if because else _bows(fine, line, modes, bow):
        bent = bowed(fine, room, shape)
        if isinstance(bent, str):
            ways, because = [], bent
            break
        ways += bent
    grown = max((float(np.linalg.norm(way.moved[:, :3], axis=1).max()) for way in ways), default=np.nan)
    all_open, words = _all_open(solved, fine, number)
    return BowedRun(
        state=solved.states[number].name,
        number=number,
        line=mode.line,
        station=mode.station,
        factor=mode.factor,
        bow=bow,
        clearance=clearance,
        length=length,
        grown=grown,
        amplification=1.0 + grown / bow,
        all_open=all_open,
        guides=_guides(fine, room, ways),
        joints=tuple(_joints(solved, fine, number, [way.bow + way.moved for way in ways])),
        stable=not because,
        because=because or words,
    )


def _bows(fine: FineState, line: LineModel, modes: Sequence[Mode], size: float) -> list[Floats]:
    """Return the bows of the lowest mode, (n, 6) each: of a pair those that bow level and upright where it bows most.

    Any two shapes that span a pair are its modes, so what the search found has no direction of its own.
    """
    first = _shape(fine, modes[0])
    pair = [mode for mode in modes[1:] if mode.line == modes[0].line and mode.factor <= _PAIR * modes[0].factor]
    if pair:
        other = _shape(fine, pair[0])
        node = line.node_at(modes[0].station)
        across = line.route.axes(modes[0].station)[1:]
        both = np.stack([across @ first[node, :3], across @ other[node, :3]], axis=1)
        if abs(np.linalg.det(both)) > _PLANE * float(np.linalg.norm(both)) ** 2:
            mixed = [a * first + b * other for a, b in np.linalg.inv(both).T]
            return [size * shape / np.linalg.norm(shape[:, :3], axis=1).max() for shape in mixed]
    return [size * first]


def _shape(fine: FineState, mode: Mode) -> Floats:
    """Return the shape of a mode in the nodes of the frame, (n, 6)."""
    shape = np.zeros((len(fine.frame.points), 6))
    for line, own in zip(fine.model.lines, mode.shapes, strict=True):
        shape[line.nodes, :3] = own.movements
        shape[line.nodes, 3:] = own.turns
    return shape


def _guides(fine: FineState, room: Room, ways: Sequence[Way]) -> tuple[GuideForce, ...]:
    found = []
    for support in dict.fromkeys(room.support.tolist()):
        holding = fine.model.holds[support]
        if holding.kind not in GUIDES:
            continue
        own = np.flatnonzero(room.support == support)
        line = room.rows[own[0]].line
        forces = [float(np.linalg.norm(way.given[own])) for way in ways]
        node = fine.frame.supports.node[support]
        moved = [float(np.linalg.norm(way.moved[node, :3])) for way in ways]
        worst = max(forces, default=np.nan)
        found.append(
            GuideForce(line=line, name=holding.name, force=worst, touches=worst > 1.0, moved=max(moved, default=np.nan))
        )
    return tuple(found)


def _joints(solved: Solved, fine: FineState, number: int, shapes: Sequence[Floats]) -> list[BowedJoint]:
    """Return the movement of every joint with the bow in it: of both ways the one that moves it more."""
    found = []
    for answer, line in zip(solved.lines, fine.model.lines, strict=True):
        for joint in answer.joints if shapes else ():
            ways = [offset_of(line, joint.name, shape[line.nodes]) for shape in shapes]
            every = [
                BowedJoint(
                    line=answer.line.name,
                    name=joint.name,
                    axial=float(joint.axial[number]) + way.axial,
                    lateral=float(np.linalg.norm(joint.lateral[number] + way.lateral)),
                    angular=float(np.linalg.norm(joint.angular[number] + way.angular)),
                )
                for way in ways
            ]
            found.append(max(every, key=lambda one: one.lateral + one.angular))
    return found


def _all_open(solved: Solved, fine: FineState, number: int) -> tuple[float | None, str]:
    """Return the lowest factor with the guides that have clearance left out, and words where there is none.

    A guide that carries weight in the state goes on carrying it.
    """
    loose = {
        (line.line.name, hold.name) for line in fine.model.lines for hold in line.line.holds if hold.clearance > 0.0
    }
    if not loose:
        return None, ""
    held = fine.frame.supports.held.copy()
    sides = solved.run.walk.sides[solved.run.way.arrivals[number]]
    for row, side in zip(solved.run.ground.contacts.rows, sides, strict=True):
        if row.hold is not None and (row.line, row.owner) in loose and not side:
            component = int(np.abs(fine.frame.supports.axes[row.hold] @ row.direction).argmax())
            held[row.hold, component] = False
    frame = replace(fine.frame, supports=replace(fine.frame.supports, held=held))
    found = buckling(frame, fine.force, count=1, links=fine.links)
    if isinstance(found, Modes):
        return float(found.factors[0]), ""
    if isinstance(found, NotAtRisk):
        return None, f"with its loose guides left out: {found.because}"
    if isinstance(found, NotHeld):
        return 0.0, "nothing but guides with clearance holds the line"
    return None, f"with its loose guides left out it is not told: {found.because}"


__all__ = ["CROOKED", "ENOUGH", "BowedJoint", "BowedRun", "GuideForce", "asks_for_bow", "bow_of", "clearance_of"]
