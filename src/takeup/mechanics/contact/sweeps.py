"""Contact forces by sweeps over the rows, as a beginning for Newton's method.     (mechanics/contact/sweeps.py)

Where Newton's method goes round in circles (jump.py) a slow method that seldom fails is asked first: unknown are the
true forces alone, and with the springs of the regularisation taken out,

    m = m0' - W' f,    W' = (1 - W k)^-1 W,  m0' = (1 - W k)^-1 m0

row by row, of a rub one or two together (block Gauss-Seidel), the force that closes the gap, or stops the slip, is
projected onto what is admitted. It converges linearly and need not be driven to the end: what closes and what slides is
all that is wanted. Not where only contacts hold the frame: there is no W' then.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.mechanics.contact.loosely import is_beyond
from takeup.mechanics.contact.position import Position
from takeup.mechanics.frame import Floats

SWEEPS = (50, 200, 1000)  # before Newton's method is asked again, one after the other
_SETTLED = 1e-7  # of the largest force: a sweep that changes less is the last
_LOOSE = 1e10  # condition of what takes the springs out: beyond, only contacts hold the frame


def swept(at: Position, z: Floats, start: Floats) -> Iterator[Floats]:
    """Yield forces with the springs' own, (r,), nearer and nearer to all laws; none where only contacts hold the frame.

    Args:
        at: where the increment ends, forces apart.
        z: forces with the springs' own, to begin with, (r,).
        start: movement of all rows at the beginning of the increment, (r,).
    """
    p = at.s.p
    out = np.eye(len(z)) - p.w * p.rate
    if len(z) == 0 or is_beyond(out, _LOOSE):
        return
    unsprung = np.linalg.inv(out)
    w, free = unsprung @ p.w, unsprung @ at.moved
    moved = at.moved - p.w @ z
    force = z + p.rate * moved
    force[p.gaps + p.rubs + len(p.planes) :] = 0.0
    moved = free - w @ force
    soft = _softness(at, w)
    for count in SWEEPS:
        for _ in range(count):
            before = force.copy()
            _sweep_gaps(at, w, force, moved)
            _sweep_rubs(at, w, soft, (force, moved, start))
            if np.abs(force - before).max() <= _SETTLED * max(float(np.abs(force).max()), 1e-300):
                break
        yield np.asarray(force - p.rate * moved)


def _softness(at: Position, w: Floats) -> list[tuple[int, list[int], float]]:
    """Return every rub that can have friction, its one or two rows, and their greatest compliance."""
    p = at.s.p
    rows = {rub: [p.gaps + rub, int(p.second[rub])] for rub in at.planes.tolist()}
    rows |= {rub: [p.gaps + rub] for rub in p.lines.tolist()}
    return [(rub, own, float(np.linalg.eigvalsh(w[np.ix_(own, own)])[-1])) for rub, own in rows.items()]


def _sweep_gaps(at: Position, w: Floats, force: Floats, moved: Floats) -> None:
    p = at.s.p
    for gap in range(p.gaps):
        if not at.present[gap]:
            new = float(at.s.x[gap])
        elif p.idle[gap]:
            continue
        else:
            give = float(w[gap, gap] + p.give[gap])
            alone = float(moved[gap] - at.foot[gap] + w[gap, gap] * force[gap])
            new = max(0.0, (alone - p.gap[0, gap]) / give) + min(0.0, (alone - p.gap[1, gap]) / give)
        if new != force[gap]:
            moved -= w[:, gap] * (new - force[gap])
            force[gap] = new


def _sweep_rubs(
    at: Position, w: Floats, soft: list[tuple[int, list[int], float]], told: tuple[Floats, Floats, Floats]
) -> None:
    force, moved, start = told
    p = at.s.p
    for rub, pair, stiff in soft:
        limit = float(p.press[rub] @ np.abs(force[: p.gaps]) + p.constant[rub])
        push = force[pair] + (moved[pair] - start[pair]) / stiff
        size = float(np.linalg.norm(push))
        change = push * min(1.0, limit / size if size > 0.0 else 1.0) - force[pair]
        if change.any():
            moved -= w[:, pair] @ change
            force[pair] += change
