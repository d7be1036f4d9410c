"""How long the spool of a universal joint must be for a wanted lateral movement.     (joints/sizing/spool.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.forms.movement import universal_lateral_equivalent
from takeup.errors import OutOfRange
from takeup.joints.sizing.within import above_zero, not_below_zero

_TOUCHING = 1.5  # K_u of two bellows that touch: its greatest
_HALVINGS = 50  # of metres: below rounding


@dataclass(frozen=True, kw_only=True, slots=True)
class EachBellows:
    """Each bellows of a universal joint: mean diameter D_m [m], live length L_b [m], convolutions N."""

    mean_diameter: float
    live_length: float
    convolutions: int


def spool_length(each: EachBellows, lateral: float, allowed: float, compression: float = 0.0) -> float:
    """Return the shortest spool between two bellows for a lateral movement.

    The least L_u - 2 L_b with e_y <= e in e_y = K_u D_m y / (2 N (L_u - L_b - x/2)) (EJMA, from memory). e_y falls as
    L_u grows, and K_u <= 1.5, so the answer lies between 2 L_b and L_b + x/2 + 1.5 D_m y/(2 N e).

    Args:
        each: of the two bellows.
        lateral: y of the joint's ends [m].
        allowed: e, the axial movement of one convolution that is left for it [m].
        compression: x of the whole joint meanwhile [m].

    Returns:
        The spool between the two bellows [m]; 0 where they may touch.

    Raises:
        OutOfRange: A size is not above zero, or the compression leaves no length of bellows.
    """
    diameter = above_zero(each.mean_diameter, "the mean diameter")
    length, count = above_zero(each.live_length, "the live length"), above_zero(each.convolutions, "convolutions", "")
    movement, limit = not_below_zero(lateral, "the lateral movement"), above_zero(allowed, "the movement allowed")
    shortened = not_below_zero(compression, "the compression")
    if shortened >= 2.0 * length:
        raise OutOfRange(f"a compression of {shortened:g} m leaves nothing of two bellows of {length:g} m")

    def over(overall: float) -> float:
        values = (np.array([value]) for value in (movement, diameter, count))
        ends = {"length": length, "overall": overall, "axial": -shortened}
        found = universal_lateral_equivalent(*values, **{key: np.array([value]) for key, value in ends.items()})
        return float(found[0]) - limit

    least = 2.0 * length
    if over(least) <= 0.0:
        return 0.0
    most = length + shortened / 2.0 + _TOUCHING * diameter * movement / (2.0 * count * limit)
    low, high = least, most
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if over(middle) > 0.0 else (low, middle)
    return high - least


__all__ = ["EachBellows", "spool_length"]
