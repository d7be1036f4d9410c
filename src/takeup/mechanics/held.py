"""Is the frame held? Rigid-body motions that no support resists.     (mechanics/held.py)

Members join their nodes in all six directions (a bellows too: its torsion rate is finite), so the only mechanisms are
rigid-body motions of connected parts. For each part the supports' held and sprung directions are mapped onto its
six rigid-body motions; the null space of that small matrix is exactly the set of free motions. No hidden soft
spring, and no guess from a small pivot, which a long flexible line would raise as a false alarm.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.frame import Floats, Frame, Integers, NotHeld

_RANK_LIMIT = 1e-9  # singular values are of order one when a direction is held, of order 1e-16 when it is free


def free_motions(frame: Frame) -> NotHeld | None:
    """Return the free rigid-body motions of a frame, or None when every part is held.

    Args:
        frame: the frame.
    """
    motions: list[Floats] = []
    words: list[str] = []
    for nodes in _connected_parts(frame):
        centre = frame.points[nodes].mean(axis=0)
        size = max(float(np.linalg.norm(frame.points[nodes] - centre, axis=1).max()), 1e-12)
        for motion in _null_space(_constraints(frame, nodes, centre, size)):
            shape = np.zeros((len(frame.points), 6))
            shape[nodes, :3] = motion[:3] + np.cross(motion[3:] / size, frame.points[nodes] - centre)
            shape[nodes, 3:] = motion[3:] / size
            largest = np.abs(shape[:, :3]).max()
            motions.append(shape / largest if largest > _RANK_LIMIT else shape)
            words.append(_in_words(motion, centre))
    if not motions:
        return None
    return NotHeld(motions=np.array(motions), words=tuple(words))


def _connected_parts(frame: Frame) -> list[Integers]:
    """Return the nodes of each part that members connect."""
    count = len(frame.points)
    starts = np.concatenate([frame.straights.start, frame.arcs.start])
    ends = np.concatenate([frame.straights.end, frame.arcs.end])
    reached = np.zeros(count, dtype=bool)
    reached[np.minimum(starts, ends)[np.abs(ends - starts) == 1]] = True
    if reached[:-1].all():
        return [np.arange(count)]
    from scipy.sparse import coo_array  # noqa: PLC0415  only branched frames pay for this import
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415

    graph = coo_array((np.ones(len(starts)), (starts, ends)), shape=(count, count))
    number, label = connected_components(graph, directed=False)
    return [np.flatnonzero(label == part) for part in range(number)]


def _constraints(frame: Frame, nodes: Integers, centre: Floats, size: float) -> Floats:
    """Return one row per held or sprung direction: its movement under the six rigid-body motions, (q, 6).

    Rotations are scaled by the part's size, so that all entries are of order one.
    """
    supports = frame.supports
    here = np.isin(supports.node, nodes)
    resists = (supports.held | (supports.spring > 0.0))[here]
    axes = supports.axes[here]
    arm = (frame.points[supports.node[here]] - centre) / size
    translation = np.concatenate([axes, np.cross(arm[:, None, :], axes)], axis=2)  # n.(t + w x r) = n.t + w.(r x n)
    rotation = np.concatenate([np.zeros_like(axes), axes], axis=2)
    rows = np.concatenate([translation, rotation], axis=1)
    return np.asarray(rows[resists])


def _null_space(rows: Floats) -> Floats:
    """Return an orthonormal basis of the motions that `rows` (q, 6) leave free, (k, 6)."""
    if len(rows) == 0:
        return np.eye(6)
    if len(rows) > 6:
        rows = np.linalg.qr(rows, mode="r")
    _, values, basis = np.linalg.svd(rows)
    rank = int((values > _RANK_LIMIT).sum())
    return np.asarray(basis[rank:])


def _in_words(motion: Floats, centre: Floats) -> str:
    """Return a motion as a sentence fragment."""
    shift, turn = motion[:3], motion[3:]
    if np.linalg.norm(turn) < _RANK_LIMIT:
        return f"can move freely along ({_numbers(shift)})"
    axis = turn / np.linalg.norm(turn)
    if np.linalg.norm(shift - axis * (shift @ axis)) < _RANK_LIMIT:
        return f"can turn freely about the direction ({_numbers(axis)}) through ({_numbers(centre)}) m"
    return f"can turn freely about the direction ({_numbers(axis)}), moving along ({_numbers(shift)})"


def _numbers(vector: Floats) -> str:
    """Return a vector in three decimals, without negative zeros."""
    return ", ".join(f"{value + 0.0:.3g}" for value in np.round(vector, 6))
