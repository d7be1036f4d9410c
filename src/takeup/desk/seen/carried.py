"""What rods, plates, bars and ties of a joint carry at the end of one step of a trip.     (desk/seen/carried.py)

Forces are those of results.json, with rigid anchors, and each is over what the checks `rods`, `pins` and `balance_ties`
hold it against: a rod against what one can carry; plates and bars, twice the more loaded, against what both can; ties
together against what all can, and pushed under vacuum against what they take of that. Where nobody said what that is
there is no use, and the words say so. What would come should an anchor let go, what a caught run adds, and whether a
pushed plate bows out, is of the checks alone.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.checks.outcome import use_of
from takeup.desk.interface import HardwareLook, RodLook
from takeup.desk.seen.figures import unsigned_nought
from takeup.desk.seen.marks import JointMark
from takeup.desk.seen.trips import Trip
from takeup.joints import KINDS, Balance
from takeup.joints.links import part_of_plates
from takeup.study.causes import piece_pressures
from takeup.study.contact_rows import Row
from takeup.units import to_kn, to_mm

_PINNED, _TIES = {"pin", "bar"}, "ties"
_UNSAID = "; capacity not stated"
_SEEN = 5e-5  # m: less of a gap is written as 0.0 mm
_NOTHING = 1.0  # Pa below nought: no vacuum


def parts_of(mark: JointMark) -> list[str]:
    """Return what a joint has beside its bellows, as looks name it: every rod, then plates, bars or ties."""
    roles = {row.role for _, row in mark.hardware}
    names = [row.plus for _, row in mark.rods]
    return names + [name for name, own in ((_plates(mark), _PINNED), (_TIES, {"balance"})) if roles & own]


def _plates(mark: JointMark) -> str:
    return "bars" if KINDS[mark.takeup.kind].pins == "swing" else "plates"


def rods_at(trip: Trip, mark: JointMark, step: int) -> list[RodLook]:
    """Return every rod of a joint at the end of a step.

    Args:
        trip: the walk.
        mark: of the joint.
        step: one that has an answer.
    """
    rods = mark.takeup.rods
    limit = None if rods is None else rods.can_carry
    return [_rod(trip, rod, limit, step) for rod in mark.rods]


def _rod(trip: Trip, rod: tuple[int, Row], limit: float | None, step: int) -> RodLook:
    (number, row), walk = rod, trip.rigid
    engaged, tension = bool(walk.sides[step, number]), float(walk.forces[step, number])
    open_by = 0.0 if engaged else max(row.gap[0] - float(walk.movements[step, number]), 0.0)
    return RodLook(
        name=row.plus,
        tension_kn=to_kn(tension) + 0.0,
        engaged=engaged,
        gap_mm=to_mm(open_by) + 0.0,
        capacity_kn=None if limit is None else to_kn(limit),
        use=_use(tension, limit),
        words=_beside(to_kn(tension), limit) if engaged else _slack(open_by, limit),
    )


def _use(force: float, limit: float | None) -> float | None:
    """Return force over what can be carried; None where that is not said or is nothing at all."""
    use = None if limit is None else use_of(force, limit)
    return use if use is None or math.isfinite(use) else None


def _beside(force: float, limit: float | None) -> str:
    """Return a force [kN] beside what can be carried [N], in words."""
    return f"{unsigned_nought(force, 1)} kN" + (f" of {to_kn(limit):.4g} kN" if limit is not None else _UNSAID)


def _slack(open_by: float, limit: float | None) -> str:
    away = "" if open_by < _SEEN else f", nuts {to_mm(open_by):.1f} mm off"
    return f"slack{away}" + ("" if limit is not None else _UNSAID)


def hardware_at(trip: Trip, mark: JointMark, step: int) -> list[HardwareLook]:
    """Return plates or bars, and ties of the balancing bellows, at the end of a step; nothing of other joints.

    Args:
        trip: the walk.
        mark: of the joint.
        step: one that has an answer.
    """
    found = []
    pins, balance = mark.takeup.pins, mark.takeup.balance
    if pins is not None and any(row.role in _PINNED for _, row in mark.hardware):
        most = _most_of_plates(trip, mark, step)
        words = f"twice {_beside(to_kn(most), pins.can_carry)}"
        found.append(_look(_plates(mark), 2.0 * most, pins.can_carry, words))
    if balance is not None:
        found += [_ties(trip, mark, balance, number, step) for number, row in mark.hardware if row.role == "balance"]
    return found


def _most_of_plates(trip: Trip, mark: JointMark, step: int) -> float:
    """Return the force in the more loaded plate or bar [N]; what holds in the middle, each holds half of."""
    plates = np.zeros((2, 3))
    for number, row in mark.hardware:
        if row.role in _PINNED:
            which, way, share = part_of_plates(row.plus)
            plates[which, way] += share * float(trip.rigid.forces[step, number])
    return float(np.linalg.norm(plates, axis=1).max())


def _ties(trip: Trip, mark: JointMark, balance: Balance, number: int, step: int) -> HardwareLook:
    """Return the ties of a balancing bellows.

    F = P A_b + k_b (x + x_0), as study/sides.py has it for whole studies        (first principles)
    """
    pressure = float(piece_pressures(mark.model, trip.way.here[step])[mark.places].mean())
    spring = float(trip.rigid.forces[step, number]) + balance.axial_rate * mark.takeup.preset
    pull = spring + balance.effective_area * pressure
    if pull < 0.0 and pressure < -_NOTHING:
        words = f"pushed: {_beside(to_kn(-pull), balance.can_be_pushed)}"
        return {**_look(_TIES, -pull, balance.can_be_pushed, words), "force_kn": to_kn(pull)}
    words = _beside(to_kn(pull), balance.can_carry) if pull >= 0.0 else "nothing pulls them"
    return _look(_TIES, pull, balance.can_carry, words)


def _look(name: str, force: float, limit: float | None, words: str) -> HardwareLook:
    return HardwareLook(
        name=name,
        force_kn=to_kn(force) + 0.0,
        capacity_kn=None if limit is None else to_kn(limit),
        use=_use(force, limit),
        words=words,
    )


__all__ = ["hardware_at", "parts_of", "rods_at"]
