"""Pressure from outside: the equivalent cylinder and its elastic collapse.     (bellows/forms/external.py)

EN 13445-3 cl. 14.5.2 and ASME VIII-1 App. 26 replace the bellows by a cylinder with the same ring stiffness and then
ask their own rules for cylinders. Here its elastic collapse is computed by the published formulas of which the codes'
charts are made; yielding and out of roundness, which those charts also cover, are not: S2 has to be held against the
allowable stress as well. A bellows is soft along its axis, so the rings' own collapse is what is held against the
pressure. From memory (medium).
Shapes are (n,) throughout.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.bellows.forms.remarks import Note
from takeup.bellows.geometry import Array, Bellows, live_length, thinned_thickness

THINNEST_RATIO = 10.0  # D_eq/e_eq from which a cylinder counts as thin (ASME VIII-1 UG-28, from memory)
COLLAPSE_FACTOR = 3.0  # on elastic collapse (ASME VIII-1 UG-28, from memory)


def ring_second_moment(shape: Bellows) -> Array:
    """Return the second moment of area of one convolution about its own middle, parallel to the axis.

        I_xx = n t_p [(2 w - q)^3 / 48 + 0.4 q (w - 0.2 q)^2]              (EN 13445-3 cl. 14.5.2, from memory)

    Returns:
        I_xx [m4], shape (n,); low by 2 % for deep convolutions and 7 % at C1 = 0.55, the arcs' own part being left out.
    """
    walls = (2.0 * shape.height - shape.pitch) ** 3 / 48.0
    arcs = 0.4 * shape.pitch * (shape.height - 0.2 * shape.pitch) ** 2
    return shape.plies * thinned_thickness(shape) * (walls + arcs)


def equivalent_thickness(shape: Bellows, poisson: Array) -> Array:
    """Return the wall of a cylinder of the same ring stiffness.

        e_eq = (12 (1 - nu^2) I_xx / q)^(1/3)                              (EN 13445-3 cl. 14.5.2, from memory)

    Returns:
        e_eq [m], shape (n,).
    """
    return np.cbrt(12.0 * (1.0 - poisson**2) * ring_second_moment(shape) / shape.pitch)


def equivalent_diameter(shape: Bellows, poisson: Array) -> Array:
    """Return the outside diameter of that cylinder.

        D_eq = D_b + w + 2 e_eq                                            (EN 13445-3 cl. 14.5.2, from memory)

    Returns:
        D_eq [m], shape (n,).
    """
    return shape.inside_diameter + shape.height + 2.0 * equivalent_thickness(shape, poisson)


def collapse_long(thickness: Array, diameter: Array, modulus: Array, poisson: Array) -> Array:
    """Return the collapse pressure of a long cylinder, which its ends do not help.

        p = 2 E / (1 - nu^2) (e/D)^3           (Bryan, Proc. Cambridge Philosophical Society 6, 1888; from memory)

    Returns:
        p [Pa], shape (n,): on an equivalent cylinder 24 E I_xx/(q D^3), a ring's.
    """
    return 2.0 * modulus / (1.0 - poisson**2) * (thickness / diameter) ** 3


def collapse_short(thickness: Array, diameter: Array, length: Array, modulus: Array, poisson: Array) -> Array:
    """Return the collapse pressure of a cylinder that its ends help.

        p = 2.42 E (e/D)^2.5 / ((1 - nu^2)^0.75 [L/D - 0.45 sqrt(e/D)])

    Windenburg and Trilling, Transactions of the ASME 56, 1934 (from memory).

    Args:
        thickness: e [m], shape (n,).
        diameter: D [m], shape (n,).
        length: L between the held ends [m], shape (n,).
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).

    Returns:
        p [Pa], shape (n,); nan where L/D is not above 0.45 sqrt(e/D).
    """
    slim = thickness / diameter
    reach = length / diameter - 0.45 * np.sqrt(slim)
    top = 2.42 * modulus * slim**2.5 / (1.0 - poisson**2) ** 0.75
    return np.divide(top, reach, out=np.full_like(top, np.nan), where=reach > 0.0)


def critical_length(thickness: Array, diameter: Array, poisson: Array) -> Array:
    """Return the length past which the ends no longer help.

        L_c = 1.14 (1 - nu^2)^(1/4) D sqrt(D/e)            (Southwell; Windenburg and Trilling 1934; from memory)

    Returns:
        L_c [m], shape (n,).
    """
    return 1.14 * (1.0 - poisson**2) ** 0.25 * diameter * np.sqrt(diameter / thickness)


def cylinder_collapse(shape: Bellows, modulus: Array, poisson: Array) -> Array:
    """Return the elastic collapse pressure of the equivalent cylinder, N q long, as the codes would have it.

    The short form up to the critical length, the long one past it; they meet there within a tenth. It takes the
    cylinder to be as stiff along the axis as round it, which no bellows is: several times the rings' own.

    Returns:
        p [Pa], shape (n,); nan where the cylinder is not thin, or too short for the short form.
    """
    thickness, diameter = equivalent_thickness(shape, poisson), equivalent_diameter(shape, poisson)
    length = live_length(shape)
    short = collapse_short(thickness, diameter, length, modulus, poisson)
    long = collapse_long(thickness, diameter, modulus, poisson)
    pressure = np.where(length > critical_length(thickness, diameter, poisson), long, short)
    return np.where(diameter >= THINNEST_RATIO * thickness, pressure, np.nan)


def ring_collapse(shape: Bellows, modulus: Array, poisson: Array) -> Array:
    """Return the elastic collapse pressure of the convolutions as rings that the ends do not help.

        p = 24 E I_xx / (q D_eq^3)                         (a long cylinder of the equivalent wall)

    Returns:
        p [Pa], shape (n,); nan where the equivalent cylinder is not thin.
    """
    thickness, diameter = equivalent_thickness(shape, poisson), equivalent_diameter(shape, poisson)
    pressure = collapse_long(thickness, diameter, modulus, poisson)
    return np.where(diameter >= THINNEST_RATIO * thickness, pressure, np.nan)


def collapse_notes(shape: Bellows, poisson: Array) -> Iterator[Note]:
    """Yield which bellows have an equivalent cylinder outside the collapse formulas."""
    ratio = equivalent_diameter(shape, poisson) / equivalent_thickness(shape, poisson)

    def words(row: int) -> str:
        return (
            f"the equivalent cylinder for pressure from outside has D/e = {ratio[row]:.3g}, below {THINNEST_RATIO:g}: "
            "not thin, so no collapse pressure"
        )

    yield (ratio < THINNEST_RATIO, words)


__all__ = [
    "COLLAPSE_FACTOR",
    "collapse_long",
    "collapse_notes",
    "collapse_short",
    "critical_length",
    "cylinder_collapse",
    "equivalent_diameter",
    "equivalent_thickness",
    "ring_collapse",
    "ring_second_moment",
]
