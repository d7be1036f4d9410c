"""How a joint is set when fitted: preset, nut gaps, shipping bars.     (joints/sizing/setting.py)"""

from __future__ import annotations

from takeup.errors import OutOfRange
from takeup.joints.sizing.within import not_below_zero

SHIPPING_BARS = (
    "Shipping bars hold the joint at its length on the way. They are no restraint: they come out once anchors, guides "
    "and supports stand, and before any pressure (EJMA, safety; from memory)."
)


def preset(movement: float, installed: float, coldest: float, hottest: float) -> float:
    """Return how far a joint is drawn out when it is fitted, so that hot and cold it is moved alike.

        X_pre = X (1/2 - (T_i - T_min)/(T_max - T_min))                    (EJMA, from memory)

    Args:
        movement: X, by which the joint shortens from T_min to T_max [m].
        installed: T_i at which it is fitted, in degrees as the others.
        coldest: T_min.
        hottest: T_max.

    Returns:
        X_pre [m], above zero: drawn out.

    Raises:
        OutOfRange: The installation is not between the coldest and the hottest, or these are not apart.
    """
    if not coldest < hottest:
        raise OutOfRange(f"the hottest, {hottest:g}, is not above the coldest, {coldest:g}")
    if not coldest <= installed <= hottest:
        raise OutOfRange(f"the installation at {installed:g} is not between {coldest:g} and {hottest:g}")
    return not_below_zero(movement, "the movement") * (0.5 - (installed - coldest) / (hottest - coldest))


def nut_gaps(extension: float, compression: float, drawn_out: float = 0.0) -> tuple[float, float]:
    """Return the gaps of limit nuts as fitted: outer nuts against running out, inner nuts against closing up.

        X_e - X_pre and X_c + X_pre                                        (first principles)

    The nuts bear where the joint, counted from its neutral length, has used up its rating.

    Args:
        extension: X_e rated, from the neutral length [m].
        compression: X_c rated, from the neutral length [m].
        drawn_out: X_pre, by which it is fitted longer than neutral, or below zero shorter [m].

    Returns:
        Outer gap, inner gap [m].

    Raises:
        OutOfRange: It is fitted beyond one of its ratings.
    """
    outer = not_below_zero(extension, "the rated extension") - drawn_out
    inner = not_below_zero(compression, "the rated compression") + drawn_out
    if min(outer, inner) < 0.0:
        raise OutOfRange(f"fitted {drawn_out:g} m longer than neutral the joint is beyond its rating already")
    return outer, inner


__all__ = ["SHIPPING_BARS", "nut_gaps", "preset"]
