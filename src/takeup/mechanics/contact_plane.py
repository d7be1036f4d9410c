"""Friction in a plane: the circular cone, and sliding along a curve.     (mechanics/contact_plane.py)

A rub with two tangents slides against its friction f, of size L = mu N. Over one increment, all at its end,

    f = L u / |u|,   u = f + slip                      (in rows scaled to one another, so that the sum makes sense)

which says that f lies along the slip and has the size L (the projection on the cone). Newton's method on all sliding
rubs together; the friction of the others and what is closed follow linearly. A rub sticks where |u| < L.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.contact_set import ContactSet
from takeup.mechanics.frame import Flags, Floats, Integers

_PASSES = 25
_SETTLED = 1e-13  # of the largest force: the last correction of Newton's method, which is quadratic


def slide_on(s: ContactSet, y: Floats, step: Floats, sliding: Flags) -> tuple[Floats | None, Integers]:
    """Return how the friction of sliding plane rubs changes over an increment, (r,), and which of them would stick.

    The first is None where Newton's method did not converge.

    Args:
        s: the contact set.
        y: what follows, before the increment, (r,).
        step: its change while their friction stays, (r,).
        sliding: which plane rubs slide, (t,).
    """
    p = s.p
    rubs = np.flatnonzero(sliding)
    rows = np.stack([p.gaps + rubs, p.second[rubs]])  # (2, k)
    flat = rows.reshape(-1)
    own = s.t[np.ix_(flat, flat)]
    limits = (p.press[rubs] * s.side) @ s.t[: p.gaps, flat]  # (k, 2k)
    base = (p.press[rubs] * s.side) @ (y + step)[: p.gaps] + p.constant[rubs]
    start = s.x[flat]
    change = np.zeros(len(flat))
    size = max(float(np.abs(start).max()), float(np.abs(base).max()), 1e-300)
    for _ in range(_PASSES):
        slip = step[flat] + own @ change
        u = (start + change + slip).reshape(2, -1)
        length = np.maximum(np.hypot(*u), 1e-300)
        limit = np.maximum(base + limits @ change, 0.0)
        way = u / length
        wrong = start + change - (limit * way).reshape(-1)
        jacobian = _jacobian(own, limits, way, limit / length)
        move = np.linalg.solve(jacobian, -wrong)
        change = change + move
        if np.abs(move).max() <= _SETTLED * size:
            whole = np.zeros(len(y))
            whole[flat] = change
            return whole, rubs[length < limit * (1.0 - 1e-12)]
    return None, np.zeros(0, dtype=np.int64)


def _jacobian(own: Floats, limits: Floats, way: Floats, ratio: Floats) -> Floats:
    """Return how f - L u/|u| changes with f: I - w dL - (L/|u|) (I - w w^T)(I + T), (2k, 2k)."""
    count = way.shape[1]
    one = np.eye(2 * count)
    whole = (one + own).reshape(2, count, -1)
    along = np.einsum("ik,ikj->kj", way, whole)
    across = whole - way[:, :, None] * along
    matrix = one.reshape(2, count, -1) - way[:, :, None] * limits - ratio[:, None] * across
    return np.asarray(matrix.reshape(2 * count, 2 * count))


def meets_cone(
    s: ContactSet, y: Floats, speed: Floats, rubs: Integers, *, limits: tuple[Floats, Floats], still: float
) -> Floats:
    """Return when the friction of sticking plane rubs meets its cone, (k,); inf where it never does.

    Args:
        s: the contact set.
        y: what follows, (r,).
        speed: how fast it changes, (r,).
        rubs: the sticking plane rubs, (k,).
        limits: limit of friction of all rubs, and how fast it changes, (t,) each.
        still: rates this small are rounding.
    """
    p = s.p
    rows = np.stack([p.gaps + rubs, p.second[rubs]])
    force, rate = y[rows], speed[rows]
    limit, growth = limits[0][rubs], limits[1][rubs]
    size = np.hypot(*force)
    outward = np.where(size > 0.0, (force * rate).sum(axis=0) / np.maximum(size, 1e-300), np.hypot(*rate)) - growth
    a = (rate * rate).sum(axis=0) - growth * growth
    b = (force * rate).sum(axis=0) - limit * growth
    c = np.maximum(limit * limit - size * size, 0.0)  # a t^2 + 2 b t = c
    with np.errstate(divide="ignore", invalid="ignore"):
        root = np.sqrt(np.maximum(b * b + a * c, 0.0))
        time = np.where(b > 0.0, c / (b + root), np.where(a > 0.0, (root - b) / a, np.inf))
    time = np.where(b * b + a * c < 0.0, np.inf, time)
    return np.where((limit - size <= 1e-13 * limit) & (outward > still), 0.0, time)
