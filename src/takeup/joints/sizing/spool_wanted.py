"""The spool that a universal joint needs for the movements found, and the one it has. (joints/sizing/spool_wanted.py)

What one convolution may move is what the joint's own rated axial movement gives it, X = 2 N e; axial movement takes off
its share, and the spool has to be long enough for the rest:

    e_left = (X - |x|)/(2 N)                                               (EJMA, from memory)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from takeup.bellows.geometry import mean_diameter
from takeup.errors import OutOfRange
from takeup.joints.computed import JointBellows
from takeup.joints.data import JointData
from takeup.joints.sizing.spool import EachBellows, spool_length

_NOTHING = 1e-12  # m


@dataclass(frozen=True, kw_only=True, slots=True)
class SpoolWanted:
    """The longest spool that any state asks for.

    Args:
        number: of that state, in the order given.
        lateral: of the ends in it [m].
        axial: of the joint in it [m], extension above zero.
        allowed: of one convolution that is left for lateral movement [m].
        needed: spool [m]; None where no spool is long enough, for axial movement takes all that is allowed.
        built: spool of the joint [m].
    """

    number: int
    lateral: float
    axial: float
    allowed: float
    needed: float | None
    built: float


def spool_wanted(data: JointData, bellows: JointBellows, moved: Sequence[tuple[float, float]]) -> SpoolWanted | None:
    """Return the longest spool that the movements of any state ask for; None of a joint without a spool.

    Args:
        data: with its rated axial movement.
        bellows: each of both.
        moved: axial and lateral movement in each state [m].
    """
    if data.centres is None:
        return None
    each = EachBellows(
        mean_diameter=float(mean_diameter(bellows.shapes(1))[0]),
        live_length=bellows.live_length,
        convolutions=round(bellows.convolutions),
    )
    rated, built = max(data.axial_compression, data.axial_extension), data.centres - bellows.live_length
    found = [_in_state(each, number, one, rated, built) for number, one in enumerate(moved)]
    return max(found, key=lambda one: (math.inf if one.needed is None else one.needed, one.lateral), default=None)


def _in_state(each: EachBellows, number: int, moved: tuple[float, float], rated: float, built: float) -> SpoolWanted:
    axial, lateral = moved
    allowed = (rated - abs(axial)) / (2.0 * each.convolutions)
    needed: float | None = 0.0
    if lateral > _NOTHING:
        try:
            needed = spool_length(each, lateral, allowed, max(-axial, 0.0))
        except OutOfRange:
            needed = None
    return SpoolWanted(number=number, lateral=lateral, axial=axial, allowed=allowed, needed=needed, built=built)


__all__ = ["SpoolWanted", "spool_wanted"]
