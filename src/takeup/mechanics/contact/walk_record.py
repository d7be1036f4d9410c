"""Many steps at once, as long as no contact changes.     (mechanics/contact/walk_record.py)

While statuses stay, forces and gaps are linear in the loads: a block of steps is one matrix product. It is good up to
the first step in which a bound would be passed, or a slip turn back; that step is walked on its own (step.py).
A record of a plant is mostly such blocks.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.active_set import HELD, REG
from takeup.mechanics.contact.pieces import times
from takeup.mechanics.contact.plane import sliding as sliding_in_plane
from takeup.mechanics.contact.position import Position
from takeup.mechanics.frame import Floats, Integers

_SLACK = 1e-12  # of the largest force, or movement: rounding of a bound that is met
LONGEST = 512  # steps a block: its dozen arrays of 150 rows stay in the second-level cache


@dataclass(frozen=True, kw_only=True, slots=True)
class Block:
    """Steps without a change of contact, m of them, scaled rows.

    Args:
        force: of every row, (m, r).
        moved: movement of every row, (m, r).
        slip: in each step, (m, r).
        dissipated: in each step, (m,) [J].
        y: what follows at the end of the last, (r,).
        apart: what the condensed equations leave, at most, (m,).
    """

    force: Floats
    moved: Floats
    slip: Floats
    dissipated: Floats
    y: Floats
    apart: Floats


def block_of(at: Position, amounts: Floats, feet: Floats) -> Block | None:
    """Return the steps from where the walk stands up to the first in which a contact changes; None if that is the next.

    Args:
        at: where the walk stands.
        amounts: of the causes at the end of each step, (m, c).
        feet: of the gap rows at the end of each step, (m, g).
    """
    s, p, g = at.s, at.s.p, at.s.p.gaps
    if (s.kind == REG).any() or len(sliding_in_plane(at)):
        return None
    change = np.concatenate([amounts - at.amounts, feet - at.foot], axis=1)
    causes = np.flatnonzero(change.any(axis=0))
    change = change[:, causes]
    speed = _speeds(at, causes, amounts.shape[1])
    y = at.y + change @ speed.y
    limit = (y[:, :g] * (s.side * (s.kind[:g] == HELD))) @ p.press.T + p.constant
    good = _good_steps(at, y, limit)
    if good == 0:
        return None
    y, feet, limit = y[:good], feet[:good], limit[:good]
    force, sliding = np.where(s.kind == HELD, y, s.x), np.flatnonzero(s.slip)
    force[:, sliding] = s.slip[sliding] * limit[:, p.rub_of[sliding]]
    place = np.where(s.kind == HELD, s.x + p.give * force, y)
    place[:, :g] += feet
    slip = np.zeros_like(y)
    slip[:, sliding] = np.diff(y[:, sliding], axis=0, prepend=at.y[None, sliding])
    before = np.concatenate([s.limits(at.y)[None], limit[:-1]])[:, p.rub_of[sliding]]
    middle = 0.5 * (before + limit[:, p.rub_of[sliding]])
    return Block(
        force=force,
        moved=place,
        slip=slip,
        dissipated=np.asarray((np.abs(slip[:, sliding]) * middle).sum(axis=1)),
        y=y[-1],
        apart=_apart(at) + np.abs(change[:good]) @ np.abs(speed.apart).max(axis=1, initial=0.0),
    )


class _Speeds(NamedTuple):
    """How y changes with causes and feet, (k, r), and what that leaves of the condensed equations, (k, r)."""

    y: Floats
    apart: Floats


def _speeds(at: Position, chosen: Integers, causes: int) -> _Speeds:
    """Return how y changes with chosen causes and feet, numbered one after the other."""
    s, p, g = at.s, at.s.p, at.s.p.gaps
    y, apart, none = np.zeros((len(chosen), len(at.y))), np.zeros((len(chosen), len(at.y))), np.zeros(len(at.y))
    for place, cause in enumerate(chosen):
        moved = p.moved[:, cause] if cause < causes else np.zeros(len(at.y))
        foot = np.zeros(g)
        if cause >= causes:
            foot[cause - causes] = 1.0
        y[place], _ = s.corrected(s.answer(moved, foot), moved, foot, x=none, constant=none[: p.rubs])
        force = np.where(s.kind == HELD, y[place], 0.0)
        sliding = np.flatnonzero(s.slip)
        force[sliding] = s.slip[sliding] * s.limit_speeds(y[place])[p.rub_of[sliding]]
        follows = np.where(s.kind == HELD, p.give * force, y[place])
        follows[:g] += foot
        apart[place] = follows - moved + times(p.w, force - p.rate * follows)
    return _Speeds(y, apart)


def _apart(at: Position) -> float:
    """Return what the condensed equations leave where the walk stands."""
    force = at.s.forces(at.y, at.foot)
    moved = at.s.movements(at.y, at.foot, force)
    return float(np.abs(moved - at.moved + times(at.s.p.w, force - at.s.p.rate * moved)).max(initial=0.0))


def _good_steps(at: Position, y: Floats, limit: Floats) -> int:
    """Return how many steps pass no bound and turn no slip back."""
    s, p, g = at.s, at.s.p, at.s.p.gaps
    slack = np.where(s.kind == HELD, _SLACK * at.force_scale, _SLACK * at.reach)
    bad = ((y > at.bound[0] + slack) | (y < at.bound[1] - slack)).any(axis=1)
    if p.rubs:
        rubs = slice(g, g + p.rubs)
        sticks = s.kind[rubs] == HELD
        sticks[p.planes] = ~at.slides[p.planes]
        size = np.abs(y[:, rubs])
        pair = np.stack([g + p.planes, p.second[p.planes]])
        size[:, p.planes] = np.hypot(*np.moveaxis(np.where(s.kind[pair] == HELD, y[:, pair], s.x[pair]), 0, 1))
        bad |= ((size > limit + slack[rubs]) & sticks).any(axis=1)
        sliding = np.flatnonzero((s.slip[rubs] != 0.0) & at.pressed) + g
        back = np.diff(y[:, sliding], axis=0, prepend=at.y[None, sliding]) * s.slip[sliding] < -slack[sliding]
        bad |= back.any(axis=1)
    return int(np.argmax(bad)) if bad.any() else len(bad)
