"""Movements of whole joints turned into axial movement of one convolution.     (bellows/forms/movement.py)

EJMA, ASME VIII-1 App. 26 and EN 14917 alike; from memory (high), and each follows from beam theory with
E I = K L_b D_m^2/8. Movements in two planes are combined to their resultants first. Shapes are (n,) throughout.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.bellows.geometry import Array, Bellows, live_length, mean_diameter


def axial_equivalent(axial: Array, convolutions: Array) -> Array:
    """Return e_x = X/N [m] (EJMA, from memory); X of the whole bellows, shape (n,)."""
    return axial / convolutions


def angular_equivalent(angle: Array, diameter: Array, convolutions: Array) -> Array:
    """Return the movement of the outermost fibre of a convolution when the ends turn.

        e_theta = theta D_m / (2 N)                                        (EJMA, from memory)

    Args:
        angle: theta between the ends [rad], shape (n,).
        diameter: D_m [m], shape (n,).
        convolutions: N, shape (n,).

    Returns:
        e_theta [m], shape (n,).
    """
    return angle * diameter / (2.0 * convolutions)


def lateral_equivalent(lateral: Array, diameter: Array, convolutions: Array, length: Array, axial: Array) -> Array:
    """Return the movement of the outermost fibre of the end convolution when the ends move across.

        e_y = 3 D_m y / (N (L_b + x))                                      (EJMA, from memory)

    Args:
        lateral: y [m], shape (n,).
        diameter: D_m [m], shape (n,).
        convolutions: N, shape (n,).
        length: L_b [m], shape (n,).
        axial: x, extension above zero, compression below [m], shape (n,).

    Returns:
        e_y [m], shape (n,); nan where no length is left.
    """
    return _over(3.0 * diameter * lateral, convolutions * (length + axial))


def universal_factor(length: Array, overall: Array) -> Array:
    """Return how the two bellows of a universal joint share what a hinge in their middles would do.

        K_u = (3 L_u^2 - 3 L_b L_u) / (3 L_u^2 - 6 L_b L_u + 4 L_b^2)      (EJMA, from memory)

    Args:
        length: L_b of one bellows [m], shape (n,).
        overall: L_u, over both bellows, from outer end to outer end [m], shape (n,).

    Returns:
        K_u, shape (n,): 1.5 where the bellows touch, 1 far apart; nan where they would overlap.
    """
    value = _over(3.0 * overall**2 - 3.0 * length * overall, _universal_denominator(length, overall))
    return np.where(overall >= 2.0 * length, value, np.nan)


def universal_lateral_equivalent(
    lateral: Array, diameter: Array, convolutions: Array, *, length: Array, overall: Array, axial: Array
) -> Array:
    """Return the movement of the outermost fibre of the end convolution of a universal joint.

        e_y = K_u D_m y / (2 N (L_u - L_b + x/2))                          (EJMA, from memory)

    Args:
        lateral: y of the joint's ends [m], shape (n,).
        diameter: D_m [m], shape (n,).
        convolutions: N of each bellows, shape (n,).
        length: L_b of one bellows [m], shape (n,).
        overall: L_u, over both bellows [m], shape (n,).
        axial: x of the joint, extension above zero [m], shape (n,).

    Returns:
        e_y [m], shape (n,).
    """
    below = 2.0 * convolutions * (overall - length + axial / 2.0)
    return universal_factor(length, overall) * _over(diameter * lateral, below)


def universal_lateral_force(stiffness: Array, diameter: Array, equivalent: Array, overall: Array) -> Array:
    """Return the force across that a universal joint needs.

        V = f D_m e_y / (2 L_u)                                            (EJMA, from memory)

    Args:
        stiffness: f of one convolution [N/m], shape (n,).
        diameter: D_m [m], shape (n,).
        equivalent: e_y with no axial movement [m], shape (n,).
        overall: L_u over both bellows [m], shape (n,).

    Returns:
        V [N], shape (n,).
    """
    return stiffness * diameter * equivalent / (2.0 * overall)


def compressed(axial: Array, angular: Array, lateral: Array) -> Array:
    """Return e_c = e_y + e_theta + e_x [m] of the side that closes, e_x of compression (EJMA), shape (n,)."""
    return lateral + angular + axial


def extended(axial: Array, angular: Array, lateral: Array) -> Array:
    """Return e_e = e_y + e_theta - e_x [m] of the side that opens, e_x of compression (EJMA), shape (n,)."""
    return lateral + angular - axial


def resultant(one: Array, other: Array) -> Array:
    """Return the resultant of movements in two planes at right angles, shape (n,)."""
    return np.hypot(one, other)


def combined(shape: Bellows, axial: Array, angle: Array, lateral: Array) -> Array:
    """Return the greatest axial movement of one convolution of a single bellows under all movements at once.

        e = max(e_c, |e_e|)                                                (EJMA, from memory)

    Axial movement is a range that may be either way; the compression, which leaves e_y the shorter length, is greater.

    Args:
        shape: the bellows.
        axial: X, not below zero [m], shape (n,).
        angle: theta [rad], shape (n,).
        lateral: y [m], shape (n,).

    Returns:
        e [m], shape (n,); nan where one of them is, or where compression leaves no length.
    """
    diameter, convolutions = mean_diameter(shape), shape.convolutions
    across = lateral_equivalent(lateral, diameter, convolutions, live_length(shape), -axial)
    e_x = axial_equivalent(axial, convolutions)
    e_theta = angular_equivalent(angle, diameter, convolutions)
    return np.asarray(np.maximum(compressed(e_x, e_theta, across), np.abs(extended(e_x, e_theta, across))))


def _universal_denominator(length: Array, overall: Array) -> Array:
    return 3.0 * overall**2 - 6.0 * length * overall + 4.0 * length**2


def _over(top: Array, bottom: Array) -> Array:
    top, bottom = np.broadcast_arrays(top, bottom)
    return np.asarray(np.divide(top, bottom, out=np.full(bottom.shape, math.nan), where=bottom > 0.0))


__all__ = [
    "angular_equivalent",
    "axial_equivalent",
    "combined",
    "compressed",
    "extended",
    "lateral_equivalent",
    "resultant",
    "universal_factor",
    "universal_lateral_equivalent",
    "universal_lateral_force",
]
