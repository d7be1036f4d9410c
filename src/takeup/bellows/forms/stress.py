"""Stresses of an unreinforced U-shape from pressure and movement, and their range.     (bellows/forms/stress.py)

Forms of EJMA 8th to 10th edition, ASME VIII-1 Mandatory App. 26 and EN 13445-3 cl. 14.5.2, from memory: high, but S1
and the end convolution medium. Shapes are (n,) throughout. Sign: a stress has the sign of the pressure or movement that
makes it; pressure from outside gives stresses below zero.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.bellows.geometry import Array, Bellows, mean_diameter, stack_thickness, thinned_thickness

PRESSURE_SHARE = 0.7  # of S3 + S4 in the range for life: yielding evens it out (EJMA and ASME, from memory)


def metal_area(shape: Bellows) -> Array:
    """Return the metal area of one convolution, cut along the axis.

        A = [(pi - 2) q/2 + 2 w] n t_p                     (ASME VIII-1 App. 26, from memory; EJMA prints 0.571 q + 2 w)

    Returns:
        A [m2], shape (n,).
    """
    return ((math.pi - 2.0) / 2.0 * shape.pitch + 2.0 * shape.height) * shape.plies * thinned_thickness(shape)


def collar_diameter(shape: Bellows) -> Array:
    """Return the mean diameter of the collar.

        D_c = D_b + 2 n t + t_c                                            (EN 13445-3 cl. 14.5.2, from memory)

    Returns:
        D_c [m], shape (n,).
    """
    return shape.inside_diameter + 2.0 * stack_thickness(shape) + shape.collar_thickness


def tangent_share(shape: Bellows) -> Array:
    """Return how far the pressure on a short tangent is carried by the tangent itself.

        k = L_t / (1.5 sqrt(D_b t)), at most 1                  (ASME VIII-1 App. 26, from memory, medium)

    Returns:
        k, shape (n,).
    """
    return np.minimum(shape.tangent_length / (1.5 * np.sqrt(shape.inside_diameter * shape.ply_thickness)), 1.0)


def tangent_stress(shape: Bellows, pressure: Array, modulus: Array, collar_modulus: Array) -> Array:
    """Return the hoop stress of the end tangent, helped by a collar where there is one.

        S1 = p (D_b + n t)^2 L_t E_b k / (2 [n t E_b L_t (D_b + n t) + t_c k E_c L_c D_c])

    ASME VIII-1 App. 26 and EN 13445-3 cl. 14.5.2, from memory (form high, symbols medium).

    Args:
        shape: the bellows.
        pressure: p [Pa], shape (n,).
        modulus: E_b [Pa], shape (n,).
        collar_modulus: E_c [Pa], shape (n,); of no account without a collar.

    Returns:
        S1 [Pa], shape (n,); nan where there is no tangent.
    """
    diameter = shape.inside_diameter + stack_thickness(shape)
    top = pressure * diameter**2 * shape.tangent_length * modulus * tangent_share(shape)
    return _quotient(top, 2.0 * _hoop_stiffness(shape, modulus, collar_modulus), shape.tangent_length > 0.0)


def collar_stress(shape: Bellows, pressure: Array, modulus: Array, collar_modulus: Array) -> Array:
    """Return the hoop stress of the collar.

        S1' = p D_c^2 L_t E_c k / (2 [n t E_b L_t (D_b + n t) + t_c k E_c L_c D_c])

    ASME VIII-1 App. 26 and EN 13445-3 cl. 14.5.2, from memory (form high, symbols medium). Arguments as for
    `tangent_stress`.

    Returns:
        S1' [Pa], shape (n,); nan where there is no collar on a tangent.
    """
    top = pressure * collar_diameter(shape) ** 2 * shape.tangent_length * collar_modulus * tangent_share(shape)
    there = (shape.tangent_length > 0.0) & (shape.collar_thickness > 0.0) & (shape.collar_length > 0.0)
    return _quotient(top, 2.0 * _hoop_stiffness(shape, modulus, collar_modulus), there)


def hoop_stress(shape: Bellows, pressure: Array) -> Array:
    """Return the hoop membrane stress of an inner convolution, mean over its metal.

        S2 = p D_m q / (2 A)                                               (EJMA form, from memory; K_r = 1)

    EJMA multiplies by K_r, the pitch drawn out by movement over the pitch at rest; ASME and EN do not.

    Returns:
        S2 [Pa], shape (n,).
    """
    return pressure * mean_diameter(shape) * shape.pitch / (2.0 * metal_area(shape))


def end_hoop_stress(shape: Bellows, pressure: Array) -> Array:
    """Return the hoop membrane stress of an end convolution with its tangent and collar.

        S2,E = p [q D_m + L_t (D_b + n t)] / (2 [A + n t_p L_t + t_c L_c])  (ASME VIII-1 App. 26, from memory, medium)

    Returns:
        S2,E [Pa], shape (n,); the same as S2 where there is no tangent.
    """
    load = shape.pitch * mean_diameter(shape) + shape.tangent_length * (shape.inside_diameter + stack_thickness(shape))
    collar = shape.collar_thickness * shape.collar_length
    metal = metal_area(shape) + shape.plies * thinned_thickness(shape) * shape.tangent_length + collar
    return pressure * load / (2.0 * metal)


def pressure_membrane(shape: Bellows, pressure: Array) -> Array:
    """Return the meridional membrane stress of pressure.

        S3 = p w / (2 n t_p)                                               (EJMA form, from memory)

    Returns:
        S3 [Pa], shape (n,).
    """
    return pressure * shape.height / (2.0 * shape.plies * thinned_thickness(shape))


def pressure_bending(shape: Bellows, pressure: Array, cp: Array) -> Array:
    """Return the meridional bending stress of pressure.

        S4 = p / (2 n) (w / t_p)^2 Cp                                      (EJMA form, from memory)

    Returns:
        S4 [Pa], shape (n,).
    """
    return pressure / (2.0 * shape.plies) * (shape.height / thinned_thickness(shape)) ** 2 * cp


def movement_membrane(shape: Bellows, modulus: Array, movement: Array, cf: Array) -> Array:
    """Return the meridional membrane stress of movement.

        S5 = E t_p^2 e / (2 w^3 Cf)                                        (EJMA form, from memory)

    Args:
        shape: the bellows.
        modulus: E [Pa], shape (n,).
        movement: e, equivalent axial movement of one convolution [m], shape (n,).
        cf: Cf, shape (n,).

    Returns:
        S5 [Pa], shape (n,).
    """
    return modulus * thinned_thickness(shape) ** 2 * movement / (2.0 * shape.height**3 * cf)


def movement_bending(shape: Bellows, modulus: Array, movement: Array, cd: Array) -> Array:
    """Return the meridional bending stress of movement.

        S6 = 5 E t_p e / (3 w^2 Cd)                                        (EJMA form, from memory)

    Arguments as `movement_membrane`, with Cd for Cf.

    Returns:
        S6 [Pa], shape (n,).
    """
    return 5.0 * modulus * thinned_thickness(shape) * movement / (3.0 * shape.height**2 * cd)


def stress_range(pressure_stress: Array, movement_stress: Array) -> Array:
    """Return the stress range that the life curves ask for.

        S_t = 0.7 |S3 + S4| + |S5 + S6|                                    (EJMA form, from memory)

    A range has no sign: the magnitude of the pressure part is taken, so pressure from outside counts as from inside.

    Args:
        pressure_stress: S3 + S4 [Pa], shape (n,).
        movement_stress: S5 + S6 of the whole range of movement [Pa], shape (n,).

    Returns:
        S_t [Pa], shape (n,).
    """
    return PRESSURE_SHARE * np.abs(pressure_stress) + np.abs(movement_stress)


def _hoop_stiffness(shape: Bellows, modulus: Array, collar_modulus: Array) -> Array:
    """Return n t E_b L_t (D_b + n t) + t_c k E_c L_c D_c, shape (n,); the collar's part is 0 without a collar."""
    stack = stack_thickness(shape)
    collar = shape.collar_thickness * shape.collar_length
    tangent = stack * modulus * shape.tangent_length * (shape.inside_diameter + stack)
    helped = collar * tangent_share(shape) * collar_modulus * collar_diameter(shape)
    return tangent + np.where(collar > 0.0, helped, 0.0)


def _quotient(top: Array, bottom: Array, there: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> Array:
    return np.divide(top, bottom, out=np.full_like(bottom, np.nan), where=there)


__all__ = [
    "PRESSURE_SHARE",
    "collar_diameter",
    "collar_stress",
    "end_hoop_stress",
    "hoop_stress",
    "metal_area",
    "movement_bending",
    "movement_membrane",
    "pressure_bending",
    "pressure_membrane",
    "stress_range",
    "tangent_share",
    "tangent_stress",
]
