"""Friction until it is walked: the adverse bound, the sum of mu N over what rubs.     (study/friction.py)

An anchor can be dragged, either way, by every rubbing hold between it and the take-up of the span beside it; without
a take-up in the span, by every rubbing hold of the span. N is the model's own force across the pipe, mu the high end
of the pair's range. The bound is added in the worst sense and never credited.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.line import SAME_STATION, Zone
from takeup.study.records import HoldLoads, Solved

Floats = NDArray[np.float64]


def friction_bounds(solved: Solved) -> dict[str, Floats]:
    """Return the friction bound on each anchor along the pipe, by name, (states,) [N].

    Args:
        solved: the model's answer.
    """
    rubbing = _rubbing(solved)
    return {
        hold.name: _bound(solved, hold, rubbing)
        for hold in solved.holds
        if hold.kind in ("main anchor", "intermediate anchor")
    }


def _rubbing(solved: Solved) -> list[tuple[float, Floats]]:
    """Return station and greatest friction force of every rubbing hold, (states,) [N]."""
    pairs = {hold.name: hold.friction for hold in solved.study.line.holds}
    forces = []
    for hold in solved.holds:
        pair = pairs.get(hold.name)
        if pair is not None:
            across = hold.local(hold.total)[:, 1:3]
            forces.append((hold.station, pair.high * np.linalg.norm(across, axis=1)))
    return forces


def _bound(solved: Solved, anchor: HoldLoads, rubbing: list[tuple[float, Floats]]) -> Floats:
    total = np.zeros(len(solved.states))
    for zone in solved.model.zones:
        if min(abs(zone.end - anchor.station), abs(zone.start - anchor.station)) < SAME_STATION:
            low, high = _stretch(solved, zone, anchor.station)
            for station, force in rubbing:
                if low < station < high:
                    total += force
    return total


def _stretch(solved: Solved, zone: Zone, station: float) -> tuple[float, float]:
    """Return the stretch of a zone from the anchor to the take-up, or to the zone's other end."""
    joints = [joint.station for joint in solved.joints if zone.start < joint.station < zone.end]
    if abs(zone.start - station) < SAME_STATION:
        return zone.start, min(joints, default=zone.end)
    return max(joints, default=zone.start), zone.end
