"""How far the ends of a joint are out of line with one another in a shape of its line.     (study/bowing/offsets.py)

As in sides.py, of any frame of the lines: the lateral offset is that of the outer ends of its bellows against one
another, their mean direction taken out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.study.model import LineModel
from takeup.study.sides import bellows_places, stretch_of_bellows

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Offset:
    """Movement of one joint: axial [m], lateral about its axes y and z, (2,) [m], angular, (2,) [rad]."""

    axial: float
    lateral: Floats
    angular: Floats


def offset_of(line: LineModel, name: str, shape: Floats) -> Offset:
    """Return how far a shape moves the ends of a joint against one another.

    Args:
        line: of the joint, in any frame.
        name: of the joint.
        shape: movements of the line's cuts, (p + 1, 6).
    """
    places = bellows_places(line)[name]
    joint = line.pieces[places[0]].joint
    assert joint is not None, "a bellows belongs to a joint"
    axes = line.route.axes(joint.position.station)
    first, last = shape[places[0]], shape[places[-1] + 1]
    shift, turns = (last[:3] - first[:3]) @ axes.T, np.stack([first[3:], last[3:]]) @ axes.T
    mean, between = turns.mean(axis=0), turns[1] - turns[0]
    length = line.pieces[places[-1]].end - line.pieces[places[0]].start
    before, beyond = shape[None, places, :3], shape[None, [place + 1 for place in places], :3]
    return Offset(
        axial=float(stretch_of_bellows(before, beyond, axes)[0]),
        lateral=np.array([shift[1] - length * mean[2], shift[2] + length * mean[1]]),
        angular=between[1:],
    )


__all__ = ["Offset", "offset_of"]
