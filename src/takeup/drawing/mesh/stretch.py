"""How far movements are drawn larger than they are: one round factor for every state.     (drawing/mesh/stretch.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from takeup.drawing.mesh.centre import centre_line
from takeup.drawing.reading import Results, number_of, records_of, vectors_of
from takeup.drawing.scale import round_down

SEEN = 0.05
"""Of the largest extent of the lines: so far the greatest movement is drawn, or a little less."""
LEFT = 0.75
"""Of the room that a joint has: so much of it may be taken up in a picture."""
_NOTHING = 1e-9  # a movement below a nanometre is none [m]


def greatest_movement(results: Results) -> float:
    """Return the greatest movement of any node of any line in any state [m]; 0 where nothing is solved."""
    sizes = [
        float(np.linalg.norm(np.array(vectors_of(shape, "displacement_mm")).reshape(-1, 3), axis=1).max(initial=0.0))
        for shape in records_of(results, "shapes")
    ]
    return max(sizes, default=0.0) / 1e3


def extent_of(results: Results) -> float:
    """Return the diagonal of the box round all lines as they lie [m]."""
    lines = [centre_line(line) for line in records_of(results, "lines")]
    points = np.concatenate([line.at(np.linspace(0.0, line.length, 65)) for line in lines])
    return float(np.linalg.norm(points.max(axis=0) - points.min(axis=0)))


def stretch_of(results: Results) -> int:
    """Return the factor by which movements are drawn, of the series 1, 2, 5, 10, 20, ...

    f u_max <= 0.05 extent,   f x <= 0.75 L_b,   f y <= 0.75 L

    with x the most that the bellows of a joint, of live length L_b together, are shortened in any state, and y the
    most that its ends move aside, L apart: more would push the ends through each other and the pipe through the anchor
    beside it, or lay the joint across the line. It is never below 1: a movement that is seen is drawn as it is, also
    where a joint has no room at all.
    """
    greatest = greatest_movement(results)
    if greatest < _NOTHING:
        return 1
    most = min([SEEN * extent_of(results) / greatest, *_rooms(results)])
    return math.floor(round_down(most)) if most > 1.0 else 1


def _rooms(results: Results) -> Iterator[float]:
    """Yield how many times the most that each joint shortens, and moves aside, goes into the room for it."""
    for takeup in records_of(results, "takeups"):
        movements = records_of(takeup, "movements")
        live = sum(number_of(span, "to_m") - number_of(span, "from_m") for span in records_of(takeup, "bellows"))
        apart = number_of(takeup, "live_to_m") - number_of(takeup, "live_from_m")
        shorter = max((-number_of(one, "axial_mm") / 1e3 for one in movements), default=0.0)
        aside = max((number_of(one, "lateral_mm") / 1e3 for one in movements), default=0.0)
        yield from (LEFT * room / most for room, most in ((live, shorter), (apart, aside)) if most > _NOTHING)


__all__ = ["LEFT", "SEEN", "extent_of", "greatest_movement", "stretch_of"]
