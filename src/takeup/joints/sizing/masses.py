"""Masses of the parts that joints are made of, by geometry.     (joints/sizing/masses.py)

Density times volume; nothing is rounded up to what is in stock, and no weld is counted. Tubes and bellows take arrays,
so that whole series are weighed at once; shapes are (n,) for n of them.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.bellows.forms.stress import collar_diameter
from takeup.bellows.geometry import (
    Array,
    Bellows,
    mean_diameter,
    metal_length,
    stack_thickness,
    thinned_thickness,
)
from takeup.joints.sizing.within import above_zero, not_below_zero

ACROSS_FLATS, NUT_HEIGHT = 1.5, 0.8  # of the thread's diameter (ISO 4032, rounded, from memory)


def bellows_mass(shape: Bellows, density: float) -> Array:
    """Return the mass of the metal of one bellows, its collars with it.

        m = rho pi [N s D_m n t_p + 2 L_t (D_b + n t) n t + 2 L_c (D_b + 2 n t + t_c) t_c]         (first principles)

    s is the true length of the meridian of one convolution; each tangent has the thickness as bought and a collar.

    Args:
        shape: n bellows.
        density: rho [kg/m3].

    Returns:
        m [kg], shape (n,).
    """
    stack = stack_thickness(shape)
    convolved = shape.convolutions * metal_length(shape) * mean_diameter(shape) * shape.plies * thinned_thickness(shape)
    tangents = 2.0 * shape.tangent_length * (shape.inside_diameter + stack) * stack
    collars = 2.0 * shape.collar_length * collar_diameter(shape) * shape.collar_thickness
    return density * math.pi * (convolved + tangents + collars)


def tube_mass(outside_diameter: Array | float, wall: Array | float, length: Array | float, density: float) -> Array:
    """Return the mass of a tube: an end, a spool, a liner, a cover, a housing.

        m = rho pi (D - e) e L                                             (first principles)

    Args:
        outside_diameter: D [m], shape (n,).
        wall: e [m], shape (n,).
        length: L [m], shape (n,).
        density: rho [kg/m3].

    Returns:
        m [kg], shape (n,).
    """
    return np.asarray(density * math.pi * (outside_diameter - wall) * wall * length)


def housing_length(live: Array | float, travel: Array | float, rings: Array | float) -> Array:
    """Return the length of the housing of an externally pressurised joint, from outside to outside.

        L_h = N q + X + rings                                              (first principles)

    The bellows at rest, room for the movement that draws its inner ring along, and the rings that close it and guide.

    Args:
        live: N q [m], shape (n,).
        travel: X to leave room for [m], shape (n,).
        rings: thickness of all rings together [m], shape (n,).

    Returns:
        L_h [m], shape (n,).
    """
    return np.asarray(live + travel + rings)


def ring_mass(outside: float, inside: float, thickness: float, density: float) -> float:
    """Return the mass of a flat ring: of a gimbal, round an end, of a housing.

        m = rho pi/4 (D^2 - d^2) t                                         (first principles)

    Args:
        outside: D [m].
        inside: d [m].
        thickness: t along the pipe [m].
        density: rho [kg/m3].

    Returns:
        m [kg].
    """
    hole, edge = not_below_zero(inside, "the ring's hole"), above_zero(outside, "the ring's diameter")
    face = above_zero(edge**2 - hole**2, "the ring's face", "m2")
    return density * math.pi / 4.0 * face * above_zero(thickness, "the ring's thickness")


def plate_mass(length: float, width: float, thickness: float, density: float, *, holes: float = 0.0) -> float:
    """Return the mass of a flat plate: of a hinge, a bar, a lug, a foot.

        m = rho (L b - A) t                                                (first principles)

    Args:
        length: L [m].
        width: b [m].
        thickness: t [m].
        density: rho [kg/m3].
        holes: A of all holes in it [m2].

    Returns:
        m [kg].
    """
    whole = above_zero(length, "the plate's length") * above_zero(width, "the plate's width")
    face = above_zero(whole - not_below_zero(holes, "the holes", "m2"), "what the holes leave of the plate", "m2")
    return density * face * above_zero(thickness, "the plate's thickness")


def rod_mass(diameter: float, length: float, density: float) -> float:
    """Return the mass of a round rod or a pin.

        m = rho pi d^2/4 L                                                 (first principles)

    Args:
        diameter: d [m].
        length: L [m].
        density: rho [kg/m3].

    Returns:
        m [kg].
    """
    area = math.pi / 4.0 * above_zero(diameter, "the diameter") ** 2
    return density * area * above_zero(length, "the length")


def nut_mass(thread: float, density: float) -> float:
    """Return the mass of a hexagon nut.

        m = rho (sqrt(3)/2 s^2 - pi d^2/4) h,  s = 1.5 d, h = 0.8 d        (first principles; ISO 4032, from memory)

    Args:
        thread: d [m].
        density: rho [kg/m3].

    Returns:
        m [kg].
    """
    size = above_zero(thread, "the thread's diameter")
    face = math.sqrt(3.0) / 2.0 * (ACROSS_FLATS * size) ** 2 - math.pi / 4.0 * size**2
    return density * face * NUT_HEIGHT * size


__all__ = [
    "ACROSS_FLATS",
    "NUT_HEIGHT",
    "bellows_mass",
    "housing_length",
    "nut_mass",
    "plate_mass",
    "ring_mass",
    "rod_mass",
    "tube_mass",
]
