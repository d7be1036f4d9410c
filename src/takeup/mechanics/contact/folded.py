"""A step of Newton's method on the laws of contact, the straight ones taken out.     (mechanics/contact/folded.py)

Which gap rows are shut seldom changes, and until it does their laws are straight, and so are those of ties. They are
solved once for all steps of a walk that share them,

    A_ss dz_s = -e_s - A_sc dz_c

and what is left to solve at each step are the rows that rub: of a line on rests two in three, in less than a third of
the time. The step is that of the whole system, to rounding.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.contact.laws import Found, Laws
from takeup.mechanics.contact.pieces import times
from takeup.mechanics.contact.ways import Folded, Known, Ways
from takeup.mechanics.frame import Floats

_KEPT = 4  # of a walk: it goes to and fro between few, and each is as large as the compliance


def newton_step(laws: Laws, found: Found, known: Known) -> Floats:
    """Return how the forces with the springs' own change in a step of Newton's method, (r,).

    Slopes of rubs that slide are those of |u| f = L u (laws.py).

    Args:
        laws: the laws.
        found: what they say where the step begins.
        known: of the walk; what is made here is put into it.

    Raises:
        numpy.linalg.LinAlgError: the slopes are singular.
    """
    folded = _folded(laws, found, known)
    off = times(folded.inverse, found.wrong[folded.straight])
    _last_way(laws, folded, off)
    slope, step = np.empty((len(folded.curved), len(folded.curved) + 1)), np.empty(len(found.wrong))
    for rows, block in laws.rub_slopes(found, folded.ways, folded.column, as_it_stands=False):
        slope[folded.column[rows]] = block
    left = -found.wrong[folded.curved] - slope[:, -1]
    turn = np.asarray(np.linalg.solve(slope[:, :-1], left), dtype=np.float64)
    step[folded.curved] = turn
    step[folded.straight] = times(folded.follows, turn) - off
    return step


def _folded(laws: Laws, found: Found, known: Known) -> Folded:
    key = found.side.tobytes()
    if key not in known:
        if len(known) >= _KEPT:
            del known[next(iter(known))]
        known[key] = _fold(laws, found)
    return known[key]


def _fold(laws: Laws, found: Found) -> Folded:
    p, rows = laws.p, len(found.wrong)
    curved = np.sort(np.concatenate([of.rows.reshape(-1) for of in laws.rubbing]))
    straight = np.setdiff1d(np.arange(rows), curved)
    slope, column = laws.straight(found), np.full(rows, -1)
    column[curved] = np.arange(len(curved))
    inverse = np.linalg.inv(slope[np.ix_(straight, straight)])
    follows = -inverse @ slope[np.ix_(straight, curved)]
    change = np.zeros((rows, len(curved) + 1))
    change[straight, :-1] = follows
    change[curved, column[curved]] = 1.0
    lost = np.ascontiguousarray(p.w[:, straight])
    moves = np.concatenate([p.w[:, curved] + lost @ follows, np.zeros((rows, 1))], axis=1)
    grows = change[: p.gaps] - p.rate[: p.gaps, None] * moves[: p.gaps]
    return Folded(
        straight=straight,
        curved=curved,
        column=column,
        inverse=inverse,
        follows=follows,
        lost=lost,
        ways=Ways(moves=moves, grows=grows),
    )


def _last_way(laws: Laws, folded: Folded, off: Floats) -> None:
    """Write the last way in place: straight laws come right."""
    p, ways = laws.p, folded.ways
    moved, change = -times(folded.lost, off), np.zeros(len(p.rate))
    change[folded.straight] = -off
    ways.moves[:, -1] = moved
    ways.grows[:, -1] = change[: p.gaps] - p.rate[: p.gaps] * moved[: p.gaps]


__all__ = ["newton_step"]
