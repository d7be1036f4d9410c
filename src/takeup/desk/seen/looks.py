"""Every hold and joint at the end of one step of a trip.     (desk/seen/looks.py)

The numbers are those of results.json: the load of a hold on the structure, the movement of a joint from its set length.
Use of a hold is the greater of its force and its moment over what it can carry; at equipment it is that of the nozzle's
own rule. Use of a joint is the greatest of its movements from the neutral length over its rating, what installation may
leave out of line counted in; that of its rods and other hardware is told beside it (seen/carried.py). The bound of
friction, which checks add to the walk without it, is in none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

import numpy as np

from takeup.checks.joint_movement import HELD, UNSEEN_ANGULAR, UNSEEN_AXIAL, UNSEEN_LATERAL, combined_use
from takeup.checks.nozzle_limits import combined
from takeup.checks.outcome import use_of
from takeup.desk.interface import HoldLook, TakeupLook
from takeup.desk.seen.carried import hardware_at, rods_at
from takeup.desk.seen.marks import AtNozzle, HoldMark, JointMark
from takeup.desk.seen.trips import Trip
from takeup.drawing.reading import use_words
from takeup.joints import KINDS
from takeup.mechanics.frame import Floats
from takeup.study.sides import bellows_moved
from takeup.units import to_deg, to_kn, to_mm


def holds_at(trip: Trip, marks: Iterable[HoldMark], step: int) -> list[HoldLook]:
    """Return holds at the end of a step.

    Args:
        trip: the walk.
        marks: of the holds.
        step: one that has an answer.
    """
    return [_hold(trip, mark, step) for mark in marks]


def _hold(trip: Trip, mark: HoldMark, step: int) -> HoldLook:
    load = trip.loads[step, mark.support]
    force, moment = (math.sqrt(float(part @ part)) for part in (load[:3], load[3:]))
    contact, gap = _contact(trip, mark, step)
    use = _use(mark, load, force, moment)
    return HoldLook(
        id=mark.id,
        force_kn=to_kn(force),
        along_kn=to_kn(float(load[:3] @ mark.holding.axes[0])) + 0.0,
        moment_knm=to_kn(moment),
        capacity_kn=None if mark.capacity is None else to_kn(mark.capacity),
        use=use if use is None or math.isfinite(use) else None,
        contact=contact,
        words=_said(trip, mark, step, (force, moment, gap), contact),
    )


def _use(mark: HoldMark, load: Floats, force: float, moment: float) -> float | None:
    """Return how full a hold is; None where nobody said what it can carry."""
    if mark.nozzle is not None:
        return _nozzle_use(mark.nozzle, load)
    pairs = ((force, mark.capacity), (moment, mark.moment))
    return max((use_of(demand, limit) for demand, limit in pairs if limit is not None), default=None)


def _nozzle_use(at: AtNozzle, load: Floats) -> float:
    sizes = np.abs(np.concatenate([at.axes @ load[:3], at.axes @ load[3:]]))
    limits = (*at.nozzle.force, *at.nozzle.moment)
    uses = [use_of(float(size), limit) for size, limit in zip(sizes, limits, strict=True)]
    return float(combined(np.array([uses]), at.nozzle)[0])


def _contact(trip: Trip, mark: HoldMark, step: int) -> tuple[str, float]:
    """Return whether any contact of a hold bears, and how far the nearest is from it [m]."""
    present, walk = trip.way.steps.present, trip.rigid
    nearest, there = math.inf, False
    for number, row in mark.rows:
        if present is not None and not present[step, number]:
            continue
        there = True
        if walk.sides[step, number]:
            return "bears", 0.0
        moved = float(walk.movements[step, number])
        nearest = min(nearest, row.gap[0] - moved, row.gap[1] + moved)
    return ("free", max(nearest, 0.0)) if there else ("", 0.0)


def _said(trip: Trip, mark: HoldMark, step: int, sizes: tuple[float, float, float], contact: str) -> str:
    """Return how a hold stands, in words."""
    force, moment, gap = sizes
    if not mark.holding.acts_in(trip.way.here[step]):
        return "not there in this state"
    if contact == "free":
        return f"free: {to_mm(gap):.1f} mm from bearing"
    words = f"{to_kn(force):.1f} kN" + (f" of {to_kn(mark.capacity):.4g} kN" if mark.capacity is not None else "")
    if mark.nozzle is not None:
        words += f", as the nozzle's limits go by {mark.nozzle.nozzle.rule}"
    elif mark.moment is not None:
        words += f", {to_kn(moment):.2f} kN m of {to_kn(mark.moment):.4g} kN m"
    elif mark.capacity is None:
        words += "; what it can carry is not stated"
    return f"bears: {words}" if contact else words


def joints_at(trip: Trip, marks: Iterable[JointMark], step: int) -> list[TakeupLook]:
    """Return joints at the end of a step.

    Args:
        trip: the walk.
        marks: of the joints.
        step: one that has an answer.
    """
    return [_joint(trip, mark, step) for mark in marks]


def _joint(trip: Trip, mark: JointMark, step: int) -> TakeupLook:
    moved = bellows_moved(mark.model, mark.places, trip.moved[step : step + 1, mark.model.nodes])
    axial = float(moved.axial[0])
    lateral, angular = (math.hypot(*part[0].tolist()) for part in (moved.lateral, moved.angular))
    takeup = mark.takeup
    use, words = _joint_use(mark, (axial + takeup.preset, lateral, angular))
    return TakeupLook(
        id=mark.id,
        axial_mm=to_mm(axial) + 0.0,
        lateral_mm=to_mm(lateral),
        angular_deg=to_deg(angular),
        length_mm=to_mm(takeup.data.length + takeup.preset + axial),
        use=use,
        words=words,
        rods=rods_at(trip, mark, step),
        hardware=hardware_at(trip, mark, step),
    )


def _joint_use(mark: JointMark, neutral: tuple[float, float, float]) -> tuple[float | None, str]:
    """Return how full a joint's movements from the neutral length make it, as the check adds them up, and the words."""
    takeup, data = mark.takeup, mark.takeup.data
    axial, lateral, angular = neutral[0], neutral[1] + takeup.misalignment[0], neutral[2] + takeup.misalignment[1]
    kind = KINDS[takeup.kind]
    held = HELD * data.live_length * kind.bellows if kind.pins != "none" else 0.0  # what pins give needs no rating
    way = "longer" if axial > 0.0 else "shorter"
    room = data.axial_extension if axial > 0.0 else data.axial_compression
    asked = (
        (abs(axial), room, f"{to_mm(abs(axial)):.1f}{_of(room, to_mm)} mm {way}", max(held, UNSEEN_AXIAL)),
        (lateral, data.lateral, f"{to_mm(lateral):.1f}{_of(data.lateral, to_mm)} mm aside", max(held, UNSEEN_LATERAL)),
        (angular, data.angular, f"{to_deg(angular):.2f}{_of(data.angular, to_deg)}°", UNSEEN_ANGULAR),
    )
    uses = [(use_of(value, limit), said) for value, limit, said, _ in asked if limit]
    unrated = [said for value, limit, said, least in asked if not limit and value > least]
    total, _ = combined_use(axial, lateral, angular, takeup)
    parts = [words for use, words in uses if use > 0.0]
    if unrated:
        parts.append(f"no rating for {' and '.join(unrated)}")
    if math.isfinite(total) and len([use for use, _ in uses if use > 0.0]) > 1:
        parts.append(f"together {use_words(total)}")
    use = total if uses and math.isfinite(total) else max((use for use, _ in uses), default=None)
    return use, "; ".join(parts) or "at its neutral length"


def _of(limit: float | None, shown: Callable[[float], float]) -> str:
    """Return a rating as the end of a number, " of 60"; nothing where there is none."""
    return f" of {shown(limit):.4g}" if limit else ""


__all__ = ["holds_at", "joints_at"]
