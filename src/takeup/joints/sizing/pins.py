"""Pins of hinges and gimbals: double shear and bearing.     (joints/sizing/pins.py)

Each of the two plates pulls on a pin of its own with half the thrust; the pin sits in a fork, so that two sections
carry it. Plates that the line also bends pull unequally: then the model's pull of the worse plate governs.
"""

from __future__ import annotations

import math

from takeup.joints.sizing.within import above_zero, not_below_zero

PLATES = 2
SECTIONS = 2


def plate_pull(thrust: float) -> float:
    """Return the pull of each plate, F = P A_e / 2 [N], under a thrust P A_e [N] alone  (first principles)."""
    return not_below_zero(thrust, "the thrust", "N") / PLATES


def pin_shear(pull: float, diameter: float) -> float:
    """Return the mean shear stress of a pin in a fork.

        tau = F / (2 pi d^2/4)                                             (first principles)

    Args:
        pull: F of the plate [N].
        diameter: d of the pin [m].

    Returns:
        tau [Pa].
    """
    area = math.pi / 4.0 * above_zero(diameter, "the pin's diameter") ** 2
    return not_below_zero(pull, "the plate's pull", "N") / (SECTIONS * area)


def pin_bearing(pull: float, diameter: float, thickness: float) -> float:
    """Return the pressure of a pin on its hole.

        p = F / (d t)                                                      (common practice, no source)

    Args:
        pull: F of the plate [N].
        diameter: d of the pin [m].
        thickness: t of the plate [m].

    Returns:
        p [Pa].
    """
    area = above_zero(diameter, "the pin's diameter") * above_zero(thickness, "the plate's thickness")
    return not_below_zero(pull, "the plate's pull", "N") / area


def plate_stress(pull: float, width: float, thickness: float) -> float:
    """Return the tensile stress of a plate or bar away from its holes.

        S = F / (w t)                                                      (first principles)

    Args:
        pull: F of the plate [N].
        width: w of the plate, across its pull [m].
        thickness: t of the plate [m].

    Returns:
        S [Pa].
    """
    area = above_zero(width, "the plate's width") * above_zero(thickness, "the plate's thickness")
    return not_below_zero(pull, "the plate's pull", "N") / area


def net_stress(pull: float, width: float, thickness: float, hole: float) -> float:
    """Return the mean tensile stress of a plate or bar either side of the hole of a pin.

        S = F / ((w - d) t)                                                (first principles)

    Args:
        pull: F of the plate [N].
        width: w of the plate, across its pull [m].
        thickness: t of the plate [m].
        hole: d, diameter of the hole [m].

    Returns:
        S [Pa].

    Raises:
        OutOfRange: The hole leaves nothing of the plate.
    """
    left = above_zero(width - above_zero(hole, "the hole's diameter"), "what the hole leaves of the plate's width")
    return plate_stress(pull, left, thickness)


def pin_diameter(pull: float, *, shear: float, bearing: float, thickness: float) -> float:
    """Return the diameter that a pin needs.

        d = max(sqrt(2 F / (pi tau)), F / (p t))

    Args:
        pull: F of the plate [N].
        shear: tau that is allowed [Pa].
        bearing: p that is allowed [Pa].
        thickness: t of the plate [m].

    Returns:
        d [m].
    """
    force = not_below_zero(pull, "the plate's pull", "N")
    by_shear = math.sqrt(SECTIONS * force / (math.pi * above_zero(shear, "the allowable shear", "Pa")))
    held = above_zero(bearing, "the allowable bearing", "Pa") * above_zero(thickness, "the plate's thickness")
    return max(by_shear, force / held)


__all__ = ["net_stress", "pin_bearing", "pin_diameter", "pin_shear", "plate_pull", "plate_stress"]
