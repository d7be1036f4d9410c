"""What a size must be for its formula to hold.     (joints/sizing/within.py)"""

from __future__ import annotations

import math

from takeup.errors import OutOfRange


def above_zero(value: float, what: str, unit: str = "m") -> float:
    """Return a value that has to be a number above zero.

    Raises:
        OutOfRange: It is not.
    """
    if not (math.isfinite(value) and value > 0.0):
        raise OutOfRange(f"{what} is {value:g} {unit}; it must be above zero")
    return value


def not_below_zero(value: float, what: str, unit: str = "m") -> float:
    """Return a value that has to be a number, zero or above.

    Raises:
        OutOfRange: It is not.
    """
    if not (math.isfinite(value) and value >= 0.0):
        raise OutOfRange(f"{what} is {value:g} {unit}; it must not be below zero")
    return value


__all__ = ["above_zero", "not_below_zero"]
