"""Friction at its worst, whatever came first: the sum of mu N over what rubs.     (study/friction.py)

An anchor can be dragged, either way, by every rubbing hold between it and the take-up of the span beside it; without
a take-up in the span, or with one whose rods or pins may pass friction on, by every rubbing hold of the span; and by
those of every branch that leaves it there, as far as the branch's own first take-up or anchor. N is the model's own
force across the pipe, mu the high end of the pair's range. The bound is added in the worst sense to the walk without
friction, and never credited; a walk with friction has its own.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.line import SAME_STATION, Stretch, anchor_stations, stretches_of
from takeup.line.holding import ANCHORED_ENDS, ANCHORS
from takeup.study.records import NO_FRICTION, HoldLoads, LineAnswer

Floats = NDArray[np.float64]


def friction_bounds(answer: LineAnswer) -> dict[str, Floats]:
    """Return the friction bound on each anchor along the pipe, by name, (states,) [N].

    Args:
        answer: the model's answer; the bounds are zero where it was walked with friction.
    """
    rubbing = _rubbing(answer) if answer.scenario == NO_FRICTION else []
    permanent = {name for name, _ in anchor_stations(answer.line)}
    return {
        hold.name: _bound(answer, hold, rubbing)
        for hold in answer.holds
        if hold.kind in (*ANCHORED_ENDS, *ANCHORS) and hold.name in permanent
    }


def _rubbing(answer: LineAnswer) -> list[tuple[float, Floats]]:
    """Return station and greatest friction force of every rubbing hold, (states,) [N]."""
    pairs = {hold.name: hold.friction for hold in answer.line.holds}
    forces = []
    for hold in answer.holds:
        pair = pairs.get(hold.name)
        if pair is not None:
            along, force = answer.model.route.direction(hold.station), hold.total[:, :3]
            across = force - (force @ along)[:, None] * along  # what presses: the force across the pipe
            forces.append((hold.station, pair.high * np.linalg.norm(across, axis=1)))
    return forces


def _bound(answer: LineAnswer, anchor: HoldLoads, rubbing: list[tuple[float, Floats]]) -> Floats:
    total = np.zeros(len(answer.states))
    for stretch in stretches_of(answer.line):
        if min(abs(stretch.end - anchor.station), abs(stretch.start - anchor.station)) < SAME_STATION:
            low, high = _stretch(answer, stretch, anchor.station)
            for station, force in rubbing:
                if low < station < high:
                    total += force
            total += _dragged_by_branches(answer, low, high)
    return total


def _dragged_by_branches(answer: LineAnswer, low: float, high: float) -> Floats:
    """Return the friction of the branches that leave between two stations, as far as their own first anchor."""
    total = np.zeros(len(answer.states))
    for branch in answer.branches:
        place = branch.line.branch
        if place is not None and low < place.position.station < high:
            start, end = _stretch(branch, stretches_of(branch.line)[0], 0.0)
            for station, force in _rubbing(branch):
                if start < station < end:
                    total += force
            total += _dragged_by_branches(branch, start, end)
    return total


def _stretch(answer: LineAnswer, stretch: Stretch, station: float) -> tuple[float, float]:
    """Return the stretch of a span from the anchor to the take-up, or to the span's other end."""
    joints = [
        joint.station
        for joint in answer.joints
        if stretch.start < joint.station < stretch.end and joint.rods.shape[1] == 0 and joint.plates is None
    ]
    if abs(stretch.start - station) < SAME_STATION:
        return stretch.start, min(joints, default=stretch.end)
    return max(joints, default=stretch.start), stretch.end
