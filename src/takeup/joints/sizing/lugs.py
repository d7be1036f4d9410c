"""Lugs that rods pull on: bent as a cantilever off the pipe.     (joints/sizing/lugs.py)

Plain bending of a plate, or of two gussets, fixed at the pipe's wall. What the lug does to that wall is not covered: a
line load of F e on a thin shell needs a method of its own.
"""

from __future__ import annotations

import math

from takeup.joints.sizing.within import above_zero, not_below_zero

GUSSETS = 2


def lug_stress(force: float, arm: float, width: float, thickness: float) -> float:
    """Return the bending stress at the root of a lug plate that stands across the pipe.

        S = 6 F e / (b t^2)                                                (first principles: beam)

    Args:
        force: F of the rod [N].
        arm: e, from the pipe's wall to the rod's middle [m].
        width: b of the plate, round the pipe [m].
        thickness: t of the plate, along the pipe [m].

    Returns:
        S [Pa].
    """
    section = above_zero(width, "the lug's width") * above_zero(thickness, "the lug's thickness") ** 2 / 6.0
    return not_below_zero(force, "the rod's force", "N") * above_zero(arm, "the lug's arm") / section


def lug_thickness(force: float, arm: float, width: float, allowable: float) -> float:
    """Return the thickness that a lug plate needs.

        t = sqrt(6 F e / (b S))                                            (first principles: beam)

    Args:
        force: F of the rod [N].
        arm: e, from the pipe's wall to the rod's middle [m].
        width: b of the plate, round the pipe [m].
        allowable: S [Pa].

    Returns:
        t [m].
    """
    moment = not_below_zero(force, "the rod's force", "N") * above_zero(arm, "the lug's arm")
    return math.sqrt(
        6.0 * moment / (above_zero(width, "the lug's width") * above_zero(allowable, "the allowable stress", "Pa"))
    )


def gusset_stress(force: float, arm: float, height: float, thickness: float) -> float:
    """Return the bending stress at the root of two gussets that stand along the pipe, either side of the rod.

        S = 6 F e / (2 t h^2)                                              (first principles: beam)

    Args:
        force: F of the rod [N].
        arm: e, from the pipe's wall to the rod's middle [m].
        height: h of a gusset at its root, along the pipe [m].
        thickness: t of each [m].

    Returns:
        S [Pa].
    """
    return lug_stress(force, arm, GUSSETS * above_zero(thickness, "the gusset's thickness"), height)


__all__ = ["GUSSETS", "gusset_stress", "lug_stress", "lug_thickness"]
