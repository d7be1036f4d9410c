"""Free motions that the contacts of a step leave, in numbers and words.     (mechanics/contact/loose.py)

The ties left in a contact set are held by nothing else. Moving what they hold on to, in a combination that changes no
force of theirs, moves connected parts as rigid bodies: exactly the motions that closed gaps and sticking rubs leave.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.contact.active_set import HELD, REG, ContactSet
from takeup.mechanics.contact.rows import ContactProblem
from takeup.mechanics.frame import Floats, Frame, NotHeld
from takeup.mechanics.held import _canonical, _connected_parts, _in_words, _place

_FREE = 1e-9  # singular values of order one belong to motions that something resists
_STILL = 1e-7  # of the largest motion: a part that moves less stands still


def free_of_contact(problem: ContactProblem, s: ContactSet) -> NotHeld:
    """Return the motions that nothing but ties resists.

    Args:
        problem: the problem.
        s: a contact set with ties in place.
    """
    ties = np.flatnonzero(s.kind == REG)
    answer = np.eye(len(ties)) + s.spring[ties][:, None] * s.t[np.ix_(ties, ties)]
    _, size, right = np.linalg.svd(answer)
    free = size <= max(_FREE, float(size[-1]))
    y = s.t[:, ties] @ right[free].T  # (r, k)
    force = np.where((s.kind == HELD)[:, None], y, 0.0)
    moved = np.where((s.kind == HELD)[:, None], s.p.give[:, None] * force, y)
    inner = (force - s.p.rate[:, None] * moved) / s.p.scale[:, None]
    inner[ties] = right[free].T / s.p.scale[ties][:, None]
    causes = problem.moved.shape[1]
    shapes = -np.tensordot(inner.T, problem.units.displacements[causes:], axes=1)
    return told_by_part(problem.frame, shapes)


def told_by_part(frame: Frame, shapes: Floats) -> NotHeld:
    """Return rigid motions part by part, in words, told as `free_motions` tells them.

    Args:
        frame: whose parts they are.
        shapes: the motions, rigid in each part, (k, n, 6).
    """
    motions: list[Floats] = []
    words: list[str] = []
    lowest: list[int] = []
    parts = _connected_parts(frame)
    for nodes in parts:
        points = frame.points[nodes]
        centre = points.mean(axis=0)
        size = max(float(np.linalg.norm(points - centre, axis=1).max()), 1e-12)
        first = shapes[:, nodes[0]]
        shift = first[:, :3] + np.cross(first[:, 3:], centre - points[0])
        rigid = np.concatenate([shift, first[:, 3:] * size], axis=1)
        largest = float(np.abs(shapes).max()) or 1.0
        _, value, basis = np.linalg.svd(rigid / largest)
        for motion in _canonical(basis[: int((value > _STILL).sum())]):
            turn = motion[3:] / size
            shape = np.zeros((len(frame.points), 6))
            shape[nodes, :3] = motion[:3] + np.cross(turn, points - centre)
            shape[nodes, 3:] = turn
            motions.append(shape)
            words.append(_place(nodes, len(parts)) + _in_words(motion[:3], turn, centre))
            lowest.append(int(nodes[0]))
    return NotHeld(motions=np.array(motions), words=tuple(words), parts=tuple(lowest))
