"""Stiffness of a convolution and of a whole bellows by the published forms.     (bellows/forms/stiffness.py)

One convolution has f, a whole bellows K = f/N. Bent and turned, a bellows is a beam whose bending stiffness follows
from K; in torsion it is a thin tube of changing radius, exact for any meridian. Shapes are (n,) throughout.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.bellows.geometry import (
    Array,
    Bellows,
    live_length,
    mean_diameter,
    root_middle_radius,
    thinned_thickness,
    wall,
)

_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(12)  # on an arc: smooth, and exact to rounding there


def stiffness_ejma(shape: Bellows, modulus: Array, cf: Array) -> Array:
    """Return the axial stiffness of one convolution, all plies, as EJMA prints it.

        f = 1.7 D_m E_b t_p^3 n / (w^3 Cf)                                 (EJMA, from memory)

    Returns:
        f [N/m], shape (n,).
    """
    return 1.7 * _bending(shape, modulus) / cf


def stiffness_pi(shape: Bellows, modulus: Array, poisson: Array, cf: Array) -> Array:
    """Return the axial stiffness of one convolution, all plies, as ASME and EN print it.

        f = pi / (2 (1 - nu^2)) D_m E_b t_p^3 n / (w^3 Cf)                 (ASME VIII-1 App. 26, from memory)

    Returns:
        f [N/m], shape (n,); 1.5 % above EJMA's at nu = 0.3.
    """
    return math.pi / (2.0 * (1.0 - poisson**2)) * _bending(shape, modulus) / cf


def whole_stiffness(shape: Bellows, stiffness: Array) -> Array:
    """Return the axial stiffness of a whole bellows, K = f/N [N/m], from that of one convolution, shape (n,)."""
    return stiffness / shape.convolutions


def angular_rate(shape: Bellows, whole: Array) -> Array:
    """Return the moment that bends a whole bellows by one radian between its ends.

        K_ang = K D_m^2 / 8                                                (EJMA form, from memory)

    Args:
        shape: the bellows.
        whole: K of the whole bellows [N/m], shape (n,).

    Returns:
        K_ang [N m/rad], shape (n,).
    """
    return whole * mean_diameter(shape) ** 2 / 8.0


def lateral_rate(shape: Bellows, whole: Array) -> Array:
    """Return the force that moves the ends of a whole bellows across, without turning them.

        K_lat = 1.5 K D_m^2 / L_b^2                                        (EJMA form, from memory)

    Returns:
        K_lat [N/m], shape (n,): 12 K_ang / L_b^2, that of a beam.
    """
    return 1.5 * whole * mean_diameter(shape) ** 2 / live_length(shape) ** 2


def effective_area(shape: Bellows) -> Array:
    """Return the area on which pressure pushes the ends apart, A_e = pi D_m^2/4 [m2] (EJMA form), shape (n,)."""
    return math.pi / 4.0 * mean_diameter(shape) ** 2


def torsion_rate(shape: Bellows, modulus: Array, poisson: Array) -> Array:
    """Return the torque that twists a whole bellows by one radian between its ends.

        k_t = 1 / integral(ds / (2 pi G n t_p r^3)),  G = E / (2 (1 + nu))  (thin tube, first principles)

    The integral goes along the meridian of all convolutions, with its own radii and walls.

    Returns:
        k_t [N m/rad], shape (n,); nan where the arcs overlap.
    """
    shear = modulus / (2.0 * (1.0 + poisson))
    giving = shape.convolutions * 2.0 * _half_torsion(shape)
    return 2.0 * math.pi * shear * shape.plies * thinned_thickness(shape) / giving


def torsion_rate_about(shape: Bellows, modulus: Array, poisson: Array) -> Array:
    """Return the torsion rate with every radius taken as D_m/2.

        k_t = pi G n t_p D_m^3 / (4 N (0.571 q + 2 w))                     (thin tube on the mean diameter)

    Returns:
        k_t [N m/rad], shape (n,); above the exact one, most for a high convolution on a small bore.
    """
    shear = modulus / (2.0 * (1.0 + poisson))
    length = (math.pi - 2.0) / 2.0 * shape.pitch + 2.0 * shape.height
    stack = shape.plies * thinned_thickness(shape)
    return math.pi * shear * stack * mean_diameter(shape) ** 3 / (4.0 * shape.convolutions * length)


def _bending(shape: Bellows, modulus: Array) -> Array:
    """Return D_m E_b t_p^3 n / w^3 [N/m], shape (n,)."""
    return mean_diameter(shape) * modulus * shape.plies * (thinned_thickness(shape) / shape.height) ** 3


def _half_torsion(shape: Bellows) -> Array:
    """Return the integral of ds/r^3 over half a convolution [1/m2], shape (n,): root arc, wall, crest arc."""
    straight, low = wall(shape), root_middle_radius(shape)
    high = low + shape.height
    drop = 1.0 - np.cos(straight.angle)
    root_end, crest_end = low + shape.root_radius * drop, high - shape.crest_radius * drop
    flat = straight.length * (root_end + crest_end) / (2.0 * root_end**2 * crest_end**2)
    return (
        _arc_torsion(low, shape.root_radius, straight.angle)
        + flat
        + _arc_torsion(high, -shape.crest_radius, straight.angle)
    )


def _arc_torsion(start: Array, rise: Array, angle: Array) -> Array:
    """Return the integral of ds/r^3 over an arc, r = start + rise (1 - cos psi), ds = |rise| dpsi, shape (n,)."""
    total = np.zeros_like(start)
    for point, weight in zip(_POINTS, _WEIGHTS, strict=True):
        psi = angle * (1.0 + point) / 2.0
        total += weight / (start + rise * (1.0 - np.cos(psi))) ** 3
    return total * np.abs(rise) * angle / 2.0


__all__ = [
    "angular_rate",
    "effective_area",
    "lateral_rate",
    "stiffness_ejma",
    "stiffness_pi",
    "torsion_rate",
    "torsion_rate_about",
    "whole_stiffness",
]
