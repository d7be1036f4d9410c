"""Holds that come and go: temporary anchors, locked hangers, shipping bars.     (mechanics/contact/presence.py)

A row that is absent is free whatever its gaps. One that is put in takes hold where the point stands: its foot moves
there, so that the gap it has is its stated gap and nothing is pressed. One that is taken out lets its force go in
proportion to the step; if nothing else holds the frame, ties do until something does (step.py).
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.contact.active_set import HELD, SLIP
from takeup.mechanics.contact.plane import follow_pressure, hold, pressed
from takeup.mechanics.contact.position import Position
from takeup.mechanics.contact.step import gap_bound, tie_all
from takeup.mechanics.contact.walked import Steps
from takeup.mechanics.frame import Flags, Floats, Integers


def presence(steps: Steps, gaps: int) -> Flags:
    """Return whether each gap row exists in each step, (s, g).

    Args:
        steps: what is walked.
        gaps: how many gap rows there are.
    """
    if steps.present is None:
        return np.ones((len(steps.amounts), gaps), dtype=bool)
    return steps.present


def told_feet(steps: Steps, gaps: int) -> Floats:
    """Return how far the foot of each gap row has moved since the row was last put in, (s, g).

    Args:
        steps: what is walked.
        gaps: how many gap rows there are.
    """
    if steps.feet is None:
        return np.zeros((len(steps.amounts), gaps))
    present = presence(steps, gaps)
    feet = steps.feet.copy()
    for step, gap in np.argwhere(present[1:] & ~present[:-1]).tolist():
        feet[step + 1 :, gap] = steps.feet[step + 1 :, gap] - steps.feet[step, gap]
    return feet


def put_in(at: Position, gaps: Integers) -> None:
    """Let rows take hold where they stand.

    Args:
        at: where the walk stands.
        gaps: the rows.
    """
    s = at.s
    for gap in gaps.tolist():
        force = float(s.forces(at.y, at.foot)[gap])  # not zero only where nothing held the frame but ties
        at.foot = at.foot.copy()
        at.foot[gap] += at.y[gap]
        at.y[gap] = 0.0
        at.present[gap] = True
        if s.p.idle[gap]:
            continue
        if (s.p.gap[:, gap] == 0.0).any() and s.close(gap, 1.0 if s.p.gap[0, gap] == 0.0 else -1.0):
            at.y[gap] = force
        at.bound[:, gap] = gap_bound(s, gap)
    at.pressed = pressed(s)
    for rub in np.flatnonzero(s.p.press[:, gaps].any(axis=1) & at.pressed).tolist():
        _stick(at, rub)
    _told_not_found(at, gaps)


def _stick(at: Position, rub: int) -> None:
    """Make what is pressed anew stick, without force."""
    s, row = at.s, at.s.p.gaps + rub
    if s.p.second[rub] >= 0:
        at.slides[rub] = False
        hold(at, rub)
    elif s.kind[row] == SLIP:
        force = s.slip[row] * float(s.limits(at.y)[rub])
        if s.stick(row, float(at.y[row])):
            at.y[row] = force


def take_out(at: Position, gaps: Integers) -> Floats | None:
    """Make rows free under the force they have; return how it is let go over the step, (r,), None where none has any.

    Args:
        at: where the walk stands.
        gaps: the rows.
    """
    s = at.s
    told = np.zeros(len(at.y))
    for gap in gaps.tolist():
        at.present[gap] = False
        at.bound[:, gap] = np.inf, -np.inf
        if s.kind[gap] != HELD:
            continue
        force = float(at.y[gap])
        place = float(s.x[gap]) + float(s.p.give[gap]) * force
        if not s.open(gap):
            tie_all(at)
            if not s.open(gap):
                at.trouble = f"gap row {gap} can not be taken out"
                return None
        s.x[gap], at.y[gap], told[gap] = force, place, -force
    at.pressed = pressed(s)
    _told_not_found(at, gaps)
    return told if told.any() else None


def gone(at: Position, gaps: Integers) -> None:
    """End the step in which rows were taken out: what is left of their force is rounding.

    Args:
        at: where the walk stands.
        gaps: the rows.
    """
    at.s.x[gaps] = 0.0
    at.pressed = pressed(at.s)
    follow_pressure(at)
    at.unsure = True


def _told_not_found(at: Position, gaps: Integers) -> None:
    """Note the new state of rows that were put in or taken out: it is no event, since it was told."""
    at.seen[gaps] = at.state[gaps]
    at.unsure = True
