"""Which points of a row are kept, so that it looks the same with fewer.     (drawing/mesh/thin.py)"""

from __future__ import annotations

import numpy as np

from takeup.drawing.mesh.solid import Floats

_FURTHEST = 24
"""At most so many points are left out in a row: faces stay short, and are told apart by their depth."""


def kept_of(points: Floats, levels: Floats, slack: tuple[float, float]) -> list[int]:
    """Return the numbers of the points that are kept, the first and the last among them.

    From a point the next one kept is the furthest so that no point between is off the straight by more than is allowed,
    and the level has not changed by more either: a face between two of them has one colour.

    Args:
        points: (n, 3) [m].
        levels: at each point, (n,).
        slack: allowed off the straight [m], and of change in the unit of `levels`.
    """
    kept, here = [0], 0
    while here < len(points) - 1:
        beyond = here + 1
        last = min(len(points) - 1, here + _FURTHEST)
        while beyond < last and _straight(points, levels, (here, beyond + 1), slack):
            beyond += 1
        kept.append(beyond)
        here = beyond
    return kept


def _straight(points: Floats, levels: Floats, span: tuple[int, int], slack: tuple[float, float]) -> bool:
    start, end = span
    inner = points[start + 1 : end] - points[start]
    chord = points[end] - points[start]
    length = float(np.linalg.norm(chord))
    if length == 0.0:
        return False
    way = chord / length
    along = inner @ way
    off = np.linalg.norm(inner - np.outer(along, way), axis=1)
    level = np.abs(levels[start + 1 : end + 1] - levels[start])
    onward = (along > 0.0).all() and (along < length).all()
    return bool(onward and (off <= slack[0]).all() and (level <= slack[1]).all())


__all__ = ["kept_of"]
