"""What thrust does to a joint that has moved sideways.     (study/bowing/second_order.py)

A bellows under P A_e that stands askew pushes further askew, a rod that pulls draws back. For pin-like bellows

    dF = P A_e y (1/L_rod - 1/L_centres)             by hand; rods alone would have the wrong sign

In the model it is the difference between the equilibrium of the displaced lines and that of the lines as drawn: with
the first-order answer u of a state as the shape that the effective forces S and the rods' tension T find,

    (K + K_G(S, T)) v = -K_G(S, T) u + f(shortening)     v: what the second order adds

on the finer frame of the state (fine.py), what touches in it being held. Members, and rods as strings, reach less far
by theta^2/2; S and T follow the answer. The reactions of v are what holds feel beyond the first order, without any
difference of large numbers. All joints of a state act together; friction is not in it. Theory and proof:
docs/theory/stability.md.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.line import SAME_STATION, TakeUp
from takeup.mechanics import Answer
from takeup.study.bowing.displaced import displaced, fine_displacements
from takeup.study.bowing.fine import FineState, fine_model, fine_state
from takeup.study.bowing.offsets import offset_of
from takeup.study.model import LineModel
from takeup.study.records import JointMovement, LineAnswer, Solved
from takeup.study.sides import bellows_places

Floats = NDArray[np.float64]
LEAST_MOVED = 0.5e-3  # m sideways: fitting leaves more than that (common practice, no source)
_LEAST_PRESSED = 1e3  # Pa
_ALIKE, _GIVES, _WHOLE = 0.05, 0.01, 0.02  # of force, offset and thrust: less is not worth a word
_SEEN = 0.01  # of the largest: a hold that feels less is not listed


@dataclass(frozen=True, kw_only=True, slots=True)
class SwingForce:
    """What the second order adds at one joint in one state.

    Args:
        state: its name.
        number: of the state.
        line: of the joint.
        joint: its name.
        lateral: how far its bellows' outer ends are offset, first order [m].
        grown: how much further they are in the displaced equilibrium [m]; NaN where there is none.
        force: what the line beyond the joint has to push it with, along the offset, beyond the first order [N]; below
            zero where the joint pushes on; NaN where there is no equilibrium.
        vector: that force, global, (3,) [N].
        by_hand: P A_e y (1/L_rod - 1/L_centres) [N].
        formula: the same in numbers.
        holds: what each hold feels beyond the first order, on the structure: line, name, force (3,) [N].
        stable: whether there is an equilibrium.
        because: why the hand formula and the model differ, or why there is no equilibrium.
    """

    state: str
    number: int
    line: str
    joint: str
    lateral: float
    grown: float
    force: float
    vector: Floats
    by_hand: float
    formula: str
    holds: tuple[tuple[str, str, Floats], ...]
    stable: bool
    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class _Swing:
    """One joint that swings in a state: its line, data, movement, tension of its rods, and its pressure."""

    answer: LineAnswer
    takeup: TakeUp
    joint: JointMovement
    tension: float
    number: int

    @property
    def lateral(self) -> float:
        """Offset of its ends [m]."""
        return float(np.linalg.norm(self.joint.lateral[self.number]))

    @property
    def way(self) -> Floats:
        """Unit vector of the offset, global, (3,)."""
        axes = self.answer.model.route.axes(self.joint.station)
        return np.asarray(self.joint.lateral[self.number] @ axes[1:] / self.lateral)

    @property
    def drawn_back(self) -> float | None:
        """Length of the rods that pull, or of the bars, which always bear [m]; None where nothing draws back."""
        if self.takeup.pins is not None:
            return self.takeup.pins.length
        return self.takeup.rods.length if self.takeup.rods is not None and self.tension > 0.0 else None

    @property
    def effective_force(self) -> float:
        """S of its first bellows [N]."""
        place = bellows_places(self.answer.model)[self.takeup.name][0]
        return float(self.answer.effective_force[self.number, place])

    @property
    def thrust(self) -> float:
        """P A_e [N]."""
        return float(self.joint.pressure[self.number]) * self.takeup.data.effective_area


def swing_force(thrust: float, lateral: float, *, rods: float | None, centres: float) -> float:
    """Return the force that swings a joint with pin-like bellows further, or back where it is above zero.

        dF = P A_e y (1/L_rod - 1/L_centres)                               (first principles)

    Args:
        thrust: P A_e [N].
        lateral: y [m].
        rods: L_rod, between the nuts [m]; None where no rod pulls: 1/L_rod is none.
        centres: L_centres, between the middles of both bellows [m].

    Returns:
        What the line has to add to hold it at y [N]; below zero where the joint pushes on by itself.
    """
    drawn_back = 0.0 if rods is None else 1.0 / rods
    return thrust * lateral * (drawn_back - 1.0 / centres)


def second_order_of(solved: Solved) -> tuple[SwingForce, ...]:
    """Return what the second order adds at every joint with rods or with two bellows that moves sideways at pressure.

    Args:
        solved: the walk without friction.
    """
    swings = [_swings(solved, number) for number in range(len(solved.states))]
    if not any(swings):
        return ()
    cold = fine_model(solved)
    moved = fine_displacements(solved, cold)
    found: list[SwingForce] = []
    for number, own in enumerate(swings):
        if own:
            found += _of_state(fine_state(solved, cold, number), own, moved[number])
    return tuple(found)


def _swings(solved: Solved, number: int) -> list[_Swing]:
    tension: dict[tuple[str, str], float] = {}
    forces = solved.run.walk.forces[solved.run.way.arrivals[number]]
    for row, force in zip(solved.run.ground.contacts.rows, forces, strict=True):
        if row.role in ("rod", "bar"):
            tension[row.line, row.owner] = tension.get((row.line, row.owner), 0.0) + float(force)
    found = []
    for answer in solved.lines:
        for joint in answer.joints:
            takeup = next(item for item in answer.line.takeups if item.name == joint.name)
            pulled = tension.get((answer.line.name, joint.name), 0.0)
            swing = _Swing(answer=answer, takeup=takeup, joint=joint, tension=pulled, number=number)
            sways = takeup.data.centres is not None or pulled > 0.0
            pressed = abs(float(joint.pressure[number])) > _LEAST_PRESSED
            if sways and pressed and swing.lateral >= LEAST_MOVED:
                found.append(swing)
    return found


def _of_state(fine: FineState, swings: list[_Swing], moved: Floats) -> list[SwingForce]:
    found = displaced(fine, moved)
    if isinstance(found, str):
        return [_without(swing, found) for swing in swings]
    return [_with(fine, swing, found) for swing in swings]


def _with(fine: FineState, swing: _Swing, answer: Answer) -> SwingForce:
    vector = _through(fine, swing, answer)
    force, lateral = float(vector @ swing.way), swing.lateral
    grown = float(np.linalg.norm(swing.joint.lateral[swing.number] + _offset(fine, swing, answer))) - lateral
    by_hand, formula = _hand(swing)
    return SwingForce(
        state=swing.answer.states[swing.number].name,
        number=swing.number,
        line=swing.answer.line.name,
        joint=swing.takeup.name,
        lateral=lateral,
        grown=grown,
        force=force,
        vector=vector,
        by_hand=by_hand,
        formula=formula,
        holds=_felt(fine, answer),
        stable=True,
        because=_why_apart(swing, force, by_hand, grown),
    )


def _without(swing: _Swing, because: str) -> SwingForce:
    by_hand, formula = _hand(swing)
    return SwingForce(
        state=swing.answer.states[swing.number].name,
        number=swing.number,
        line=swing.answer.line.name,
        joint=swing.takeup.name,
        lateral=swing.lateral,
        grown=np.nan,
        force=np.nan,
        vector=np.full(3, np.nan),
        by_hand=by_hand,
        formula=formula,
        holds=(),
        stable=False,
        because=because,
    )


def _line(fine: FineState, swing: _Swing) -> LineModel:
    return next(line for line in fine.model.lines if line.line.name == swing.answer.line.name)


def _through(fine: FineState, swing: _Swing, answer: Answer) -> Floats:
    """Return the force that the line beyond a joint adds at its far face, global, (3,).

    What is beyond the face alone: rods end on the face, so the member behind it carries the whole of it. A joint whose
    far face is an end of its line is asked at its near face.
    """
    line = _line(fine, swing)
    joint = swing.takeup.position.station
    half = swing.takeup.data.length / 2.0
    beyond = [k for k, piece in enumerate(line.pieces) if piece.start >= joint + half - SAME_STATION]
    before = [k for k, piece in enumerate(line.pieces) if piece.end <= joint - half + SAME_STATION]
    if beyond:
        return np.asarray(-answer.start_forces[0, line.members[beyond[0]], :3])
    assert before, "a joint is not all of a line"
    return np.asarray(answer.end_forces[0, line.members[before[-1]], :3])


def _offset(fine: FineState, swing: _Swing, answer: Answer) -> Floats:
    """Return how much further the outer ends of a joint's bellows are offset in its axes y and z, (2,) [m]."""
    line = _line(fine, swing)
    return offset_of(line, swing.takeup.name, answer.displacements[0, line.nodes]).lateral


def _felt(fine: FineState, answer: Answer) -> tuple[tuple[str, str, Floats], ...]:
    """Return what each hold feels beyond the first order, on the structure; those that feel little left out."""
    loads = -answer.reactions[0, :, :3]
    size = np.linalg.norm(loads, axis=1)
    seen = np.flatnonzero(size >= max(_SEEN * float(size.max(initial=0.0)), 1.0))
    owner = {int(row): line.line.name for line in fine.model.lines for row in line.supports}
    return tuple((owner[int(row)], fine.model.holds[row].name, loads[row]) for row in seen)


def _hand(swing: _Swing) -> tuple[float, str]:
    """Return the hand formula's force, and the formula in numbers."""
    data, length = swing.takeup.data, swing.drawn_back
    centres = data.live_length / 1.2 if data.centres is None else data.centres
    force = swing_force(swing.thrust, swing.lateral, rods=length, centres=centres)
    drawn = "0" if length is None else f"1/{length:.3f} m"
    pushed = f"1.2/{data.live_length:.3f} m" if data.centres is None else f"1/{centres:.3f} m"
    words = f"{swing.thrust / 1e3:.2f} kN x {swing.lateral * 1e3:.2f} mm x ({drawn} - {pushed})"
    return force, words


def _apart(after: float, before: float) -> str:
    """Return two offsets in millimetres with as many decimals as show them apart, one at least, four at most."""
    for decimals in range(1, 5):
        words = f"{after * 1e3:.{decimals}f} mm", f"{before * 1e3:.{decimals}f} mm"
        if words[0] != words[1]:
            break
    return " instead of ".join(words)


def _why_apart(swing: _Swing, force: float, by_hand: float, grown: float) -> str:
    """Return why the model's force is not that of the hand formula, in words; nothing where they agree."""
    if abs(force - by_hand) <= _ALIKE * max(abs(force), abs(by_hand)):
        return ""
    data, reasons = swing.takeup.data, []
    share = data.live_length / (3.0 * data.centres) if data.centres is not None else None
    if share is not None:
        reasons.append(f"its bellows are {data.live_length * 1e3:.0f} mm long and no pins, which takes {share:.0%} off")
    else:
        reasons.append("its one bellows bends as a beam")
    if abs(grown) > _GIVES * swing.lateral:
        there = by_hand * (1.0 + grown / swing.lateral)
        reasons.append(
            "the lines give: in the displaced equilibrium it is offset by "
            f"{_apart(swing.lateral + grown, swing.lateral)}; there the formula gives {there:+.0f} N, its springs "
            "carry part"
        )
    if swing.drawn_back is not None and abs(swing.tension / swing.thrust - 1.0) > _WHOLE:
        what = "rods" if swing.takeup.pins is None else "bars"
        reasons.append(f"its {what} pull with {swing.tension / 1e3:.1f} kN, not with the whole thrust")
    carried = swing.effective_force
    if abs(carried / swing.thrust + 1.0) > _WHOLE:
        reasons.append(f"its bellows carry an effective force of {carried / 1e3:+.1f} kN, springs and line in it")
    others = sum(1 for takeup in swing.answer.line.takeups if takeup.data.centres is not None or takeup.rods)
    if others > 1:
        reasons.append("other joints move with it")
    return "the model differs: " + "; ".join(reasons)


__all__ = ["LEAST_MOVED", "SwingForce", "second_order_of", "swing_force"]
