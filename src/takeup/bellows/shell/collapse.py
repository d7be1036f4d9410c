"""The pressure from outside at which a bellows folds, in whatever waves.     (bellows/shell/collapse.py)

Few waves fold the bellows as a whole and its welded ends count; many waves crumple walls and arcs of each convolution,
which in a wide thin bellows takes a fraction of that pressure and hardly feels the ends. So the first are asked of the
whole bellows, wave by wave, and the others of its first few convolutions, in steps of a quarter: between two steps the
pressure is within a per cent of the lower.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from takeup.bellows.geometry import Array, Bellows, chosen, thinned_thickness
from takeup.bellows.shell.buckling import buckling_pressure, stands
from takeup.bellows.shell.reference import Reference

_WHOLE = (4, 3, 5, 2, 6, 7, 8)
_MANY = (46, 37, 58, 30, 72, 24, 90, 19, 112, 15, 12, 10, 140, 175, 219, 274, 342, 428)
# the likely ones first: most of the others then only have to be seen to stand
_FEW = 3.0  # convolutions that crumple as many would
_SHORTEST = 1.7  # times sqrt(r t): half a wave shorter than that only stiffens the arcs


def collapse_pressure(shape: Bellows, modulus: Array, poisson: Array, of: Reference) -> Array:
    """Return the least pressure from outside at which whole bellows between welded ends fold, elastic.

    Args:
        shape: n bellows.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference.

    Returns:
        p [Pa], shape (n,).
    """
    answer = buckling_pressure(shape, modulus, poisson, of, harmonic=_WHOLE[0], outside=True)
    few = replace(shape, convolutions=np.minimum(shape.convolutions, _FEW))
    most = most_waves(shape)
    for some, waves in (*((shape, waves) for waves in _WHOLE[1:]), *((few, waves) for waves in _MANY)):
        rows = np.flatnonzero(most >= waves)
        case = (chosen(some, rows), modulus[rows], poisson[rows], of)
        rows = rows[~stands(*case, answer[rows], harmonic=waves, outside=True)]
        case = (chosen(some, rows), modulus[rows], poisson[rows], of)
        answer[rows] = buckling_pressure(*case, harmonic=waves, outside=True)
    return answer


def most_waves(shape: Bellows) -> Array:
    """Return how many waves round the axis are worth asking, pi R/(1.7 sqrt(r t)) with the tighter arc, shape (n,)."""
    arc = np.minimum(shape.crest_radius, shape.root_radius)
    half_wave = _SHORTEST * np.sqrt(arc * thinned_thickness(shape))
    return np.asarray(np.pi * (shape.inside_diameter / 2.0 + shape.height) / half_wave)


__all__ = ["collapse_pressure", "most_waves"]
