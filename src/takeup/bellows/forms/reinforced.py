"""Ring-reinforced U-shapes: the part of the published forms that is known here.     (bellows/forms/reinforced.py)

EJMA and ASME VIII-1 App. 26, from memory: medium throughout. Known: how convolution and integral ring share the hoop
load, the height the ring leaves free, the meridional stresses and the stiffness over that height, the column. Not
known, and not here: equalising rings and their bending, rings with fasteners, end reinforcement, the life curve,
and whether the rings bear at all as the bellows opens. Shapes are (n,) throughout.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.bellows.forms.stress import metal_area
from takeup.bellows.geometry import Array, Bellows, mean_diameter, thinned_thickness
from takeup.units import PA_PER_PSI

PRESSURE_SHARE = 0.85  # of the pressure stress on the free height


def ring_ratio(shape: Bellows, modulus: Array, ring_area: Array, ring_modulus: Array) -> Array:
    """Return how many times the ring's stiffness the convolution has in hoop.

        R = A E_b / (A_r E_r)                                              (EJMA, integral ring, from memory, medium)

    Returns:
        R, shape (n,).
    """
    return metal_area(shape) * modulus / (ring_area * ring_modulus)


def ringed_hoop_stress(shape: Bellows, pressure: Array, ratio: Array) -> Array:
    """Return the hoop stress of the convolution beside its ring.

        S2 = H / (2 A) R / (R + 1),  H = p D_m q                           (EJMA, from memory, medium)

    Returns:
        S2 [Pa], shape (n,).
    """
    return _hoop_load(shape, pressure) / (2.0 * metal_area(shape)) * ratio / (ratio + 1.0)


def ring_stress(shape: Bellows, pressure: Array, ratio: Array, ring_area: Array) -> Array:
    """Return the hoop stress of the ring.

        S2' = H / (2 A_r) 1 / (R + 1),  H = p D_m q                        (EJMA, from memory, medium)

    Returns:
        S2' [Pa], shape (n,).
    """
    return _hoop_load(shape, pressure) / (2.0 * ring_area) / (ratio + 1.0)


def contact_share(pressure: Array) -> Array:
    """Return how far up the wall the ring bears.

        C_r = 0.3 - (100 / (0.6 p^1.5 + 320))^2, psi                       (EJMA, from memory, medium)

    Args:
        pressure: p, inside, not below zero [Pa], shape (n,).

    Returns:
        C_r, shape (n,), 0.202 to 0.3; nan where the pressure is below zero.
    """
    psi = np.where(pressure >= 0.0, pressure, np.nan) / PA_PER_PSI
    return 0.3 - (100.0 / (0.6 * psi**1.5 + 320.0)) ** 2


def free_height(shape: Bellows, share: Array) -> Array:
    """Return the height left free, w - 4 C_r r_m with r_m = q/4 [m] (EJMA, from memory, medium), shape (n,)."""
    return shape.height - share * shape.pitch


def ringed_pressure_stress(shape: Bellows, pressure: Array, free: Array, cp: Array) -> tuple[Array, Array]:
    """Return the meridional stresses of pressure, membrane and bending.

        S3 = 0.85 p h / (2 n t_p),  S4 = 0.85 p / (2 n) (h / t_p)^2 Cp,  h the free height

    EJMA, from memory (medium).

    Returns:
        S3, S4 [Pa], shape (n,) each.
    """
    slim = free / thinned_thickness(shape)
    share = PRESSURE_SHARE * pressure / (2.0 * shape.plies)
    return share * slim, share * slim**2 * cp


def ringed_stiffness(shape: Bellows, modulus: Array, free: Array, cf: Array) -> Array:
    """Return the axial stiffness of one convolution with its ring.

        f = 1.7 D_m E_b t_p^3 n / (h^3 Cf),  h the free height             (EJMA, from memory, medium)

    Returns:
        f [N/m], shape (n,).
    """
    return 1.7 * mean_diameter(shape) * modulus * shape.plies * (thinned_thickness(shape) / free) ** 3 / cf


def ringed_column_squirm(shape: Bellows, stiffness: Array) -> Array:
    """Return the design pressure against bowing of a ringed column.

        p_sc = 0.3 pi f / (N^2 q)                                          (EJMA, from memory, medium)

    Returns:
        p_sc [Pa], shape (n,).
    """
    return 0.3 * math.pi * stiffness / (shape.convolutions**2 * shape.pitch)


def _hoop_load(shape: Bellows, pressure: Array) -> Array:
    """Return H = p D_m q [N], shape (n,)."""
    return pressure * mean_diameter(shape) * shape.pitch


__all__ = [
    "contact_share",
    "free_height",
    "ring_ratio",
    "ring_stress",
    "ringed_column_squirm",
    "ringed_hoop_stress",
    "ringed_pressure_stress",
    "ringed_stiffness",
]
