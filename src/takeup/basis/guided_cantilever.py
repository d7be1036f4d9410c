"""A leg that is pushed sideways: force, stress and the length that it needs.     (basis/guided_cantilever.py)

Textbook beam: one end fixed, the other moved across without turning. It sizes loops and offsets before they are
analysed. In a loop the two legs act in series, so a single leg overstates the force several-fold.
Limits: straight leg, elastic, no help from the elbows; a loop or an offset is confirmed by analysis.
"""

from __future__ import annotations

import math

from takeup.errors import OutOfRange


def cantilever_force(modulus: float, second_moment: float, movement: float, length: float) -> float:
    """Return the force that moves the guided end across.

        F = 12 E I Delta / L^3                         textbook beam formula

    Args:
        modulus: E [Pa].
        second_moment: I of the pipe [m4].
        movement: Delta, sideways movement [m].
        length: L of the leg [m].

    Returns:
        F [N], with the sign of the movement.
    """
    return 12 * modulus * second_moment * movement / _checked(length) ** 3


def cantilever_stress(modulus: float, outside_diameter: float, movement: float, length: float) -> float:
    """Return the bending stress at both ends of the leg.

        S = 3 E D Delta / L^2                          textbook beam formula

    Args:
        modulus: E [Pa].
        outside_diameter: D of the pipe [m].
        movement: Delta, sideways movement [m].
        length: L of the leg [m].

    Returns:
        S [Pa], with the sign of the movement.
    """
    return 3 * modulus * outside_diameter * movement / _checked(length) ** 2


def cantilever_length(modulus: float, outside_diameter: float, movement: float, stress: float) -> float:
    """Return the length that keeps the bending stress at a given value.

        L = sqrt(3 E D Delta / S)                      textbook beam formula

    Args:
        modulus: E [Pa].
        outside_diameter: D of the pipe [m].
        movement: Delta, size of the sideways movement, zero or more [m].
        stress: S, the stress to be kept, above zero [Pa].

    Returns:
        L [m].

    Raises:
        OutOfRange: The movement is below zero or the stress not above zero.
    """
    if not (movement >= 0 and stress > 0):
        raise OutOfRange(f"movement {movement:g} m and stress {stress:g} Pa: give the size of each, above zero.")
    return math.sqrt(3 * modulus * outside_diameter * movement / stress)


def _checked(length: float) -> float:
    if not length > 0:
        raise OutOfRange(f"leg of {length:g} m: the length must be above zero.")
    return length
