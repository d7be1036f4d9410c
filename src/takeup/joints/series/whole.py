"""Joints of the series put together whole: bellows, ends, and what hinges and balanced ones have more.

(joints/series/whole.py) Shapes are (n,) for n joints of one kind, size and class.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

import numpy as np

from takeup.bellows.geometry import Array, Bellows, live_length
from takeup.joints.series.balance import SPOOLS, WIDER, balance_mass, spool_length, ties_of
from takeup.joints.series.hinge import hinges
from takeup.joints.series.inputs import PressureClass, SeriesInputs, SeriesKind
from takeup.joints.series.metals import density_of
from takeup.joints.series.parts import Built, Pipe, built

BELLOWS: Final[dict[SeriesKind, float]] = {"universal": 2.0, "in-line pressure balanced": 1.0 + WIDER}
"""Bellows of a joint that are formed, a wider one by its diameter; one where a kind is not named."""


def put_together(
    inputs: SeriesInputs,
    kind: SeriesKind,
    shape: Bellows,
    of: PressureClass,
    pipe: Pipe,
    *,
    spool: Array,
    range_: Array,
) -> Built:
    """Return joints put together of n bellows.

    Args:
        inputs: of the series.
        kind: of the joints.
        shape: each of their bellows; of balanced ones that of the line.
        of: their class.
        pipe: of their ends.
        spool: length between the bellows of a universal; of no account to others [m], (n,).
        range_: axial movement to leave room for in a housing [m], (n,).
    """
    density = density_of(inputs)
    made = built(kind, shape, pipe, density, spool=spool, range_=range_)
    round_ = math.pi * pipe.outside_diameter
    if kind == "hinged":
        return replace(made, other_mass=made.other_mass + hinges(inputs, shape, of, pipe).mass)
    if kind == "in-line pressure balanced":
        own, other = balance_mass(shape, pipe, density)
        return Built(
            length=made.length + live_length(shape) + SPOOLS * spool_length(pipe),
            bellows_mass=made.bellows_mass + own,
            other_mass=made.other_mass + other + ties_of(inputs, shape, of, pipe).mass,
            seams=np.full(len(shape), (4.0 + 2.0 * WIDER) * round_),
        )
    return made


__all__ = ["BELLOWS", "put_together"]
