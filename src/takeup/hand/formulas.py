"""The formulas of the hand calculation, one function each.     (hand/formulas.py)"""

from __future__ import annotations

import math

TEXTBOOK = "first principles"
ANCHOR_SOURCE = "EJMA, anchor loads (from memory)"


def effective_area(mean_diameter: float) -> float:
    """Return the effective area of a bellows.

        A_e = pi/4 D_m^2                                    EJMA (from memory)

    Args:
        mean_diameter: D_m, mean of root and crest [m].
    """
    return math.pi / 4.0 * mean_diameter**2


def pressure_thrust(pressure: float, area: float) -> float:
    """Return the force that a pressurised unrestrained bellows puts on its anchors.

        F_p = P A_e                                         EJMA, anchor loads (from memory)

    Args:
        pressure: P, gauge [Pa]; below zero under vacuum.
        area: A_e [m2].

    Returns:
        F_p [N], above zero when it pushes the anchors apart.
    """
    return pressure * area


def free_growth(strain: float, length: float) -> float:
    """Return the growth of a length that nothing holds.

        dL = eps(T) L, eps from installation temperature    first principles

    Args:
        strain: eps [m/m].
        length: L [m].
    """
    return strain * length


def spring_force(rate: float, movement: float) -> float:
    """Return the force of a joint's spring, F = k x [N]."""
    return rate * movement


def friction_force(coefficient: float, weight_per_length: float, length: float) -> float:
    """Return the friction of a length of pipe drawn over its supports.

        F_f = mu w L                                        EJMA, anchor loads (from memory)

    Args:
        coefficient: mu.
        weight_per_length: w [N/m].
        length: L [m].
    """
    return coefficient * weight_per_length * length


def restrained_force(modulus: float, wall_area: float, strain: float) -> float:
    """Return the compression in a pipe that is held at both ends.

        F = E A eps                                         textbook

    Args:
        modulus: E [Pa].
        wall_area: A, of the metal [m2].
        strain: eps, hindered [m/m].
    """
    return modulus * wall_area * strain


def guided_cantilever_force(modulus: float, second_moment: float, movement: float, length: float) -> float:
    """Return the force that bends a leg sideways, its ends kept parallel.

        F = 12 E I d / L^3                                  textbook

    Args:
        modulus: E [Pa].
        second_moment: I [m4].
        movement: d [m].
        length: L [m].
    """
    return 12.0 * modulus * second_moment * movement / length**3


def main_anchor_force(*, thrust: float, spring: float, friction: float) -> float:
    """Return the load of a main anchor, F = P A_e + k x + friction [N]; EJMA, anchor loads (from memory)."""
    return thrust + spring + friction


def weight_along(weight_per_length: float, slope: float, length: float) -> float:
    """Return the part of a length's weight that acts along a sloping run, w L sin(slope) [N].

    Args:
        weight_per_length: w [N/m].
        slope: rise over length, the sine of its angle.
        length: L [m].
    """
    return weight_per_length * length * slope


def pipe_second_moment(outside: float, wall: float) -> float:
    """Return pi/64 (D^4 - d^4) [m4], the hand's own."""
    return math.pi / 64.0 * (outside**4 - (outside - 2.0 * wall) ** 4)


def pipe_wall_area(outside: float, wall: float) -> float:
    """Return pi/4 (D^2 - d^2) [m2], the hand's own."""
    return math.pi / 4.0 * (outside**2 - (outside - 2.0 * wall) ** 2)
