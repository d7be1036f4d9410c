"""Is the frame held? Rigid-body motions that no support resists.     (mechanics/held.py)

Members join their nodes in all six directions (a bellows too: its torsion rate is finite), so the only mechanisms are
rigid-body motions of connected parts. For each part the supports' held and sprung directions are mapped onto its
six rigid-body motions; the null space of that small matrix is exactly the set of free motions. No hidden soft
spring, and no guess from a small pivot, which a long flexible line would raise as a false alarm.

The free motions are told one way only: pure translations first, along the global axes where possible, then turns about
the simplest axes (reduced row echelon form), each cleared of the free translations.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.frame import Floats, Frame, Integers, NotHeld
from takeup.mechanics.model import as_slice
from takeup.mechanics.supports import settle

_RANK_LIMIT = 1e-9  # singular values are of order one when a direction is held, of order 1e-16 when it is free


def free_motions(frame: Frame) -> NotHeld | None:
    """Return the free rigid-body motions of a frame, or None when every part is held.

    Args:
        frame: the frame.
    """
    motions: list[Floats] = []
    words: list[str] = []
    lowest: list[int] = []
    parts = _connected_parts(frame)
    for nodes in parts:
        if _has_anchor(frame, nodes):
            continue
        points = frame.points[nodes]
        centre = points.mean(axis=0)
        size = max(float(np.linalg.norm(points - centre, axis=1).max()), 1e-12)
        for motion in _canonical(_null_space(_constraints(frame, nodes, centre, size))):
            turn = motion[3:] / size
            shape = np.zeros((len(frame.points), 6))
            shape[nodes, :3] = motion[:3] + np.cross(turn, points - centre)
            shape[nodes, 3:] = turn
            largest = np.abs(shape[:, :3]).max()
            motions.append(shape / largest if largest > _RANK_LIMIT else shape)
            words.append(_place(nodes, len(parts)) + _in_words(motion[:3], turn, centre))
            lowest.append(int(nodes[0]))
    return NotHeld(motions=np.array(motions), words=tuple(words), parts=tuple(lowest)) if motions else None


def _place(nodes: Integers, parts: int) -> str:
    """Return which part moves, as the beginning of a sentence fragment; nothing where the frame is in one part."""
    if parts == 1:
        return ""
    return f"in the part of node {nodes[0]} ({len(nodes)} node{'s' if len(nodes) > 1 else ''}) "


def _connected_parts(frame: Frame) -> list[Integers]:
    """Return the nodes of each part that members connect."""
    count = len(frame.points)
    if _is_run(frame):
        return [np.arange(count)]
    starts = np.concatenate([frame.straights.start, frame.arcs.start])
    ends = np.concatenate([frame.straights.end, frame.arcs.end])
    reached = np.zeros(count, dtype=bool)
    reached[np.minimum(starts, ends)[np.abs(ends - starts) == 1]] = True
    if reached[:-1].all():
        return [np.arange(count)]
    label = lowest_connected(count, starts, ends)
    return [np.flatnonzero(label == lowest) for lowest in np.unique(label)]


def _is_run(frame: Frame) -> bool:
    """Whether the straights alone join every node to the next."""
    count, start, end = len(frame.points), as_slice(frame.straights.start), as_slice(frame.straights.end)
    return (
        isinstance(start, slice) and isinstance(end, slice) and (start, end) == (slice(0, count - 1), slice(1, count))
    )


def lowest_connected(count: int, starts: Integers, ends: Integers) -> Integers:
    """Return for each node the lowest node that members connect it with, (n,).

    Every round hands the lower label across each member to the label's own node, then lets labels follow labels; a
    round without a change is the end, and each round but the last lowers at least one of `count` labels.
    """
    label = np.arange(count)
    for _ in range(count):
        lower = np.minimum(label[starts], label[ends])
        before = label.copy()
        for nodes in (starts, ends):
            np.minimum.at(label, before[nodes], lower)
        label = label[label]
        if (label == before).all():
            break
    return label


def _has_anchor(frame: Frame, nodes: Integers) -> bool:
    """Whether one support of a part resists all six directions, which settles the matter."""
    supports = frame.supports
    whole = supports.node[(supports.held | (supports.spring > 0.0)).all(axis=1)]
    part = as_slice(nodes)
    if isinstance(part, slice):
        return bool(((whole >= part.start) & (whole < part.stop)).any())
    return bool(np.isin(whole, nodes).any())


def _constraints(frame: Frame, nodes: Integers, centre: Floats, size: float) -> Floats:
    """Return one row per held or sprung direction: its movement under the six rigid-body motions, (q, 6).

    Rotations are scaled by the part's size, so that all entries are of order one.
    """
    supports, holding = frame.supports, settle(frame.supports)
    sprung = (supports.spring > 0.0) & ~supports.held
    node = np.concatenate([holding.node, supports.node])
    axes = np.concatenate([holding.axes, np.repeat(supports.axes[:, None], 2, axis=1)])
    resists = np.concatenate([holding.held, sprung])
    here = np.isin(node, nodes)
    shifts, turns = axes[here, 0], axes[here, 1]
    arm = (frame.points[node[here]] - centre) / size
    translation = np.concatenate([shifts, np.cross(arm[:, None, :], shifts)], axis=2)  # n.(t + w x r) = n.t + w.(r x n)
    rotation = np.concatenate([np.zeros_like(turns), turns], axis=2)
    rows = np.concatenate([translation, rotation], axis=1)
    return np.asarray(rows[resists[here]])


def _null_space(rows: Floats) -> Floats:
    """Return an orthonormal basis of the motions that `rows` (q, 6) leave free, (k, 6)."""
    triangle = np.linalg.qr(np.concatenate([rows, np.zeros((6, 6))]), mode="r")  # at least six rows
    _, values, basis = np.linalg.svd(triangle)
    return np.asarray(basis[values <= _RANK_LIMIT])


def _canonical(basis: Floats) -> Floats:
    """Return the same motions, told the one way the header describes, (k, 6)."""
    turns_first = _echelon(np.concatenate([basis[:, 3:], basis[:, :3]], axis=1))
    turning = np.abs(turns_first[:, :3]).max(axis=1, initial=0.0) > _RANK_LIMIT
    shifts = turns_first[~turning, 3:]
    shifts /= np.linalg.norm(shifts, axis=1)[:, None]
    onto = np.linalg.qr(shifts.T).Q
    plain = [np.concatenate([shift, np.zeros(3)]) for shift in shifts]
    return np.array(plain + [_cleared(row[:3], row[3:], onto @ onto.T) for row in turns_first[turning]]).reshape(-1, 6)


def _echelon(rows: Floats) -> Floats:
    """Return the reduced row echelon form of independent rows, (k, columns)."""
    rows = np.array(rows)  # a copy, reduced in place
    done = 0
    for column in range(rows.shape[1]):
        if done == len(rows):
            break
        pivot = done + int(np.argmax(np.abs(rows[done:, column])))
        if abs(rows[pivot, column]) <= _RANK_LIMIT:
            rows[done:, column] = 0.0
            continue
        rows[[done, pivot]] = rows[[pivot, done]]
        rows[done] /= rows[done, column]
        others = np.arange(len(rows)) != done
        rows[others] -= rows[others, column, None] * rows[done]
        done += 1
    return rows


def _cleared(turn: Floats, shift: Floats, free: Floats) -> Floats:
    """Return a turn without the free translations in it, and without advance along its axis where they allow that.

    Args:
        turn: its direction, (3,).
        shift: its translation at the part's centre, (3,).
        free: projector onto the free translations, (3, 3).
    """
    shift = shift - free @ shift
    along = free @ turn
    if np.linalg.norm(along) > _RANK_LIMIT:
        shift = shift - along * (turn @ shift) / (along @ turn)
    return np.asarray(np.concatenate([shift, turn]) / np.linalg.norm(turn))


def _in_words(shift: Floats, turn: Floats, centre: Floats) -> str:
    """Return a motion as a sentence fragment; `shift` is that of the part's centre.

    The axis goes through its point nearest to the centre, c + (turn x shift)/|turn|^2.
    """
    rate = float(np.linalg.norm(turn))
    if rate == 0.0:
        return f"can move freely along ({_numbers(shift)})"
    axis = turn / rate
    place = centre + np.cross(turn, shift) / rate**2
    words = f"can turn freely about the direction ({_numbers(axis)}) through ({_numbers(place)}) m"
    advance = float(shift @ axis) / rate
    if abs(advance) * rate <= _RANK_LIMIT:
        return words
    return f"{words}, advancing {advance:.3g} m a radian"


def _numbers(vector: Floats) -> str:
    """Return a vector in three figures, without negative zeros."""
    return ", ".join(f"{value + 0.0:.3g}" for value in np.round(vector, 6))
