"""A tube along a row of points, closed at both ends, mitred where it turns.     (drawing/mesh/sweep.py)

Each stretch between two points is a straight tube. Where two stretches meet, both are cut by the plane that halves the
turn, so that they fit and stay as wide as they are; the middle of every ring is its point. Rings are not twisted
against each other: from stretch to stretch the frame turns only as far as the tube does.
"""

from __future__ import annotations

import numpy as np

from takeup.drawing.mesh.solid import Faces, Floats, cross

_SAME = 1e-9
_BACK = -0.5  # cosine of a turn that is no bend: the tube runs back into itself, and its rings are not mitred


def tube(points: Floats, radii: Floats, sides: int, up: Floats | None = None) -> tuple[Floats, Faces]:
    """Return the vertices of a tube, ring by ring and then the middles of both caps, and its quads.

    Args:
        points: its centre line, (n, 3) [m]; two may be one, where the radius jumps.
        radii: at each point, (n,) [m].
        sides: of each ring.
        up: what its first ring is turned to, (3,); the most upward way where None.
    """
    ways = _ways(points)
    first = _across(ways[0], up)
    angles = 2.0 * np.pi * np.arange(sides) / sides
    rings = np.empty((len(points), sides, 3))
    frame = np.outer(np.cos(angles), first) + np.outer(np.sin(angles), cross(ways[0], first))
    if len(ways) == 1 or (np.einsum("ij,ij->i", ways[:-1], ways[1:]) >= 1.0 - _SAME).all():
        rings[:] = points[:, None, :] + radii[:, None, None] * frame
        return np.concatenate([rings.reshape(-1, 3), points[[0, -1]]]), _quads(len(points), sides)
    for number in range(len(points)):
        before, beyond = ways[max(number - 1, 0)], ways[min(number, len(ways) - 1)]
        normal = before + beyond
        offset = frame
        if before @ beyond > _BACK and before @ beyond < 1.0 - _SAME:
            offset = frame - np.outer(frame @ normal, before) / (before @ normal)
            frame = _turned(frame, before, beyond)
        rings[number] = points[number] + radii[number] * offset
    vertices = np.concatenate([rings.reshape(-1, 3), points[[0, -1]]])
    return vertices, _quads(len(points), sides)


def _ways(points: Floats) -> Floats:
    """Return the unit direction of every stretch; of one without length, that of the stretch before it."""
    steps = np.diff(points, axis=0)
    lengths = np.linalg.norm(steps, axis=1)
    real = np.flatnonzero(lengths > _SAME)
    assert len(real), "a tube has a length"
    nearest = real[np.clip(np.searchsorted(real, np.arange(len(steps)), side="right") - 1, 0, len(real) - 1)]
    return np.asarray(steps[nearest] / lengths[nearest][:, None])


def _across(way: Floats, up: Floats | None) -> Floats:
    """Return a unit vector square to a direction: the most upward one, or the most northward of an upright tube."""
    wanted = np.array([0.0, 0.0, 1.0]) if up is None else up
    if abs(wanted @ way) > 1.0 - _SAME:
        wanted = np.array([0.0, 1.0, 0.0])
    across = wanted - (wanted @ way) * way
    return np.asarray(across / np.linalg.norm(across))


def _turned(frame: Floats, before: Floats, beyond: Floats) -> Floats:
    """Return a frame turned as one direction turns into another, and no further (Rodrigues)."""
    axis = cross(before, beyond)
    cosine = before @ beyond
    return np.asarray(
        frame * cosine + cross(axis, frame) + np.outer(frame @ axis, axis) / (1.0 + cosine)
    )  # sin and cos of the turn are |axis| and `cosine`; (1 - cos)/sin^2 is 1/(1 + cos)


def _quads(rings: int, sides: int) -> Faces:
    """Return the faces between rings, then those of both caps as triangles."""
    around = np.arange(sides)
    beside = (around + 1) % sides
    starts = (np.arange(rings - 1) * sides)[:, None]
    wall = np.stack([starts + around, starts + beside, starts + sides + beside, starts + sides + around], axis=-1)
    last, middle = (rings - 1) * sides, rings * sides
    ends = [
        np.stack([beside, around, np.full(sides, middle), np.full(sides, middle)], axis=-1),
        np.stack([last + around, last + beside, np.full(sides, middle + 1), np.full(sides, middle + 1)], axis=-1),
    ]
    return np.concatenate([wall.reshape(-1, 4), *ends])


__all__ = ["tube"]
