"""Boxes and posts in the axes of a place.     (drawing/mesh/boxes.py)"""

from __future__ import annotations

import numpy as np

from takeup.drawing.mesh.solid import Faces, Floats
from takeup.drawing.mesh.sweep import tube

_CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=float)
_SIDES = np.array([[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]], dtype=np.int64)
_ROUND = 12  # sides of a post


def box(
    at: Floats, axes: Floats, low: tuple[float, float, float], high: tuple[float, float, float]
) -> tuple[Floats, Faces]:
    """Return a box between two corners.

    Args:
        at: place that the corners count from, (3,) [m].
        axes: right-handed unit vectors as rows, (3, 3).
        low: its least corner along the axes [m].
        high: its greatest [m].
    """
    local = np.array(low) + _CORNERS * (np.array(high) - np.array(low))
    return at + local @ axes, _SIDES.copy()


def post(at: Floats, axes: Floats, radius: float, low: float, high: float) -> tuple[Floats, Faces]:
    """Return a round post along the third axis.

    Args:
        at: place that it counts from, (3,) [m].
        axes: right-handed unit vectors as rows, (3, 3).
        radius: of it [m].
        low: where it begins along the third axis [m].
        high: where it ends [m].
    """
    points = at + np.outer([low, high], axes[2])
    return tube(points, np.array([radius, radius]), _ROUND, up=axes[0])


__all__ = ["box", "post"]
