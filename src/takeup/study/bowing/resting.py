"""Where contacts come to rest when what presses them wants to bow away.     (study/bowing/resting.py)

    R = R_0 + G w;   R = 0 inside the room, R >= 0 at its low end, R <= 0 at its high end;   G positive where open

The conditions of the least of 1/2 w G w + R_0 w over the room that each contact has. G need not be positive: a run
whose guides do not touch yet may be beyond its critical load, and moves until something stops it. So the least is
sought downhill, coordinate by coordinate, from the place where the line lies: that is where the run goes. What is open
is then solved exactly, and every condition verified.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
FAR = 1.0  # m: a contact that moves so far has nothing that stops it
_MOST_TRIES, _SWEEPS = 400, 25  # tries to solve exactly, each after so many sweeps
_ROOM = 1e-9  # of the largest room: within it a contact is at an end
_FORCE = 1e-7  # of the largest force: rounding


def rest_of(stiffness: Floats, start: Floats, low: Floats, high: Floats) -> Floats | str:
    """Return where contacts come to rest, (n,) [m], or why they do not.

    Args:
        stiffness: G, symmetric, (n, n) [N/m].
        start: R_0, what each has to give where it lies, (n,) [N].
        low: room backward, not above zero, (n,) [m].
        high: room forward, not below zero, (n,) [m].
    """
    w, given = np.zeros(len(start)), start.copy()
    for _ in range(_MOST_TRIES if len(start) else 0):
        for _ in range(_SWEEPS):
            _sweep(stiffness, (low, high), w, given)
        found = _exactly(stiffness, start, (low, high), w)
        if found is not None:
            return found
    if not len(start):
        return w
    if (np.abs(w) >= FAR).any():
        return f"the run bows away: nothing stops it within {FAR:g} m"
    return f"contacts did not settle within {_MOST_TRIES * _SWEEPS} sweeps"


def _sweep(stiffness: Floats, room: tuple[Floats, Floats], w: Floats, given: Floats) -> None:
    """Move each contact in turn to where its own energy is least; `w` and `given` change in place."""
    low, high = room
    own = stiffness.diagonal()
    for k in range(len(w)):
        if own[k] > 0.0:
            there = min(max(w[k] - given[k] / own[k], low[k]), high[k])
        else:
            there = high[k] if given[k] < 0.0 else low[k]
        if there != w[k]:
            given += stiffness[:, k] * (there - w[k])
            w[k] = there


def _exactly(stiffness: Floats, start: Floats, room: tuple[Floats, Floats], near: Floats) -> Floats | None:
    """Return the place of rest with what is open solved for; None where it is none."""
    low, high = room
    tight = _ROOM * float((high - low).max())
    opened = (near > low + tight) & (near < high - tight)
    w = np.where(opened, near, np.where(near <= low + tight, low, high))
    if (np.abs(w[~opened]) >= FAR).any():
        return None
    if opened.any():
        free = stiffness[np.ix_(opened, opened)]
        if np.linalg.eigvalsh(free).min() <= 0.0:
            return None
        w[opened] = np.linalg.solve(free, -(start[opened] + stiffness[np.ix_(opened, ~opened)] @ w[~opened]))
    given = start + stiffness @ w
    largest = _FORCE * max(float(np.abs(given).max()), float(np.abs(start).max()), 1.0)
    outside = opened & ((w < low - tight) | (w > high + tight))
    pulls = ~opened & (high > low) & np.where(w <= low, given < -largest, given > largest)
    return None if outside.any() or pulls.any() else w


__all__ = ["FAR", "rest_of"]
