"""Design pressures against squirm: the column that bows, the convolutions that tilt.     (bellows/forms/squirm.py)

Pressure inside only. ASME VIII-1 App. 26 and EN 13445-3 cl. 14.5.2 for the column and for tilting in the plane; EJMA
for tilting and for the change to squirm of a yielding column. Each has its own yield strength of the formed metal, and
they must not be mixed. From memory; shapes are (n,) throughout.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.bellows.forms.remarks import Mask
from takeup.bellows.forms.stress import metal_area
from takeup.bellows.geometry import Array, Bellows, live_length, mean_diameter

COLUMN_SHARE = 0.34  # of pi f/(N^2 q); the elastic column has 2 pi f/(N^2 q), so the limit is 1/5.9 of it
AS_FORMED = 2.3  # ASME VIII-1 App. 26 (from memory): yield of the formed metal over that of the strip
ANNEALED = 0.75  # the same, annealed after forming
EJMA_SHARE = 0.67  # EJMA (from memory, medium): S_y of the formed bellows = 0.67 C_m S_y of the strip


def column_squirm(shape: Bellows, stiffness: Array) -> Array:
    """Return the design pressure against bowing of the column, both ends held.

        p_sc = 0.34 pi f / (N^2 q) = 0.34 pi K / (N q)                     (ASME VIII-1 App. 26, EJMA; from memory)

    Args:
        shape: the bellows.
        stiffness: f of one convolution [N/m], shape (n,).

    Returns:
        p_sc [Pa], shape (n,).
    """
    return COLUMN_SHARE * math.pi * stiffness / (shape.convolutions**2 * shape.pitch)


def elastic_column(shape: Bellows, stiffness: Array) -> Array:
    """Return the pressure at which an elastic column bows, both ends held.

        p_cr = 2 pi K / L_b,  L_b = N q

    Haringx, Philips Research Reports 7, 1952: an Euler strut under p pi D_m^2/4 (from memory).

    Returns:
        p_cr [Pa], shape (n,).
    """
    return 2.0 * math.pi * stiffness / (shape.convolutions * live_length(shape))


def bending_to_hoop(hoop: Array, bending: Array) -> Array:
    """Return delta = S4 / (3 S2), of one pressure [Pa], shape (n,) (ASME VIII-1 App. 26, from memory)."""
    return bending / (3.0 * hoop)


def interaction(delta: Array) -> Array:
    """Return alpha, by which bending lowers the pressure against tilting.

        alpha = 1 + 2 delta^2 + sqrt(1 - 2 delta^2 + 4 delta^4)            (ASME VIII-1 App. 26, from memory)

    Returns:
        alpha, shape (n,): 2 without bending.
    """
    return 1.0 + 2.0 * delta**2 + np.sqrt(1.0 - 2.0 * delta**2 + 4.0 * delta**4)


def yield_asme(yield_strength: Array, annealed: Mask) -> Array:
    """Return S_y*, yield of the formed metal where no test says.

        S_y* = 2.3 S_y as formed, 0.75 S_y annealed                        (ASME VIII-1 App. 26, from memory)

    Args:
        yield_strength: S_y of the strip at temperature [Pa], shape (n,).
        annealed: whether annealed after forming, shape (n,).

    Returns:
        S_y* [Pa], shape (n,).
    """
    return np.where(annealed, ANNEALED, AS_FORMED) * yield_strength


def yield_ejma(yield_strength: Array, material_factor: Array) -> Array:
    """Return the yield of the formed metal where no test says, as EJMA reckons it.

        S_y = 0.67 C_m S_y,strip                                           (EJMA, from memory, medium)

    Args:
        yield_strength: of the strip at temperature [Pa], shape (n,).
        material_factor: C_m, 1.5 annealed and 1.5 Y_sm to 3 as formed, shape (n,): `material_factor`.

    Returns:
        S_y [Pa], shape (n,).
    """
    return EJMA_SHARE * material_factor * yield_strength


def in_plane_asme(shape: Bellows, alpha: Array, formed_yield: Array) -> Array:
    """Return the design pressure against tilting of the convolutions, ASME and EN.

        p_si = (pi - 2) A S_y* / (D_m q sqrt(alpha))                       (ASME VIII-1 App. 26, from memory)

    Args:
        shape: the bellows.
        alpha: from `interaction`, shape (n,).
        formed_yield: S_y* from `yield_asme` [Pa], shape (n,).

    Returns:
        p_si [Pa], shape (n,).
    """
    return (math.pi - 2.0) * _area_ratio(shape) * formed_yield / np.sqrt(alpha)


def in_plane_ejma(shape: Bellows, alpha: Array, formed_yield: Array) -> Array:
    """Return the design pressure against tilting of the convolutions, EJMA.

        p_si = 1.3 A S_y / (K_r D_m q sqrt(alpha)),  K_r = 1               (EJMA, from memory)

    K_r, the pitch drawn out by movement over the pitch at rest, is that of a bellows at rest.

    Args:
        shape: the bellows.
        alpha: from `interaction`, shape (n,).
        formed_yield: S_y from `yield_ejma` [Pa], shape (n,).

    Returns:
        p_si [Pa], shape (n,).
    """
    return 1.3 * _area_ratio(shape) * formed_yield / np.sqrt(alpha)


def transition_ratio(shape: Bellows, stiffness: Array, formed_yield: Array) -> Array:
    """Return the L_b/D_b below which the column yields before it bows elastically.

        C_z = sqrt(4.72 f q^2 / (S_y D_b A))                               (EJMA, from memory, medium)

    Returns:
        C_z, shape (n,).
    """
    return np.sqrt(4.72 * stiffness * shape.pitch**2 / (formed_yield * shape.inside_diameter * metal_area(shape)))


def column_squirm_ejma(shape: Bellows, stiffness: Array, formed_yield: Array) -> Array:
    """Return the design pressure against bowing of the column, of short columns too.

        p = 0.87 A S_y / (D_b q) [1 - 0.73 L_b / (C_z D_b)] where L_b/D_b < C_z, else 0.34 pi f/(N^2 q)

    EJMA, from memory (medium). At L_b/D_b = C_z the two differ by 4 %.

    Args:
        shape: the bellows.
        stiffness: f, EJMA's, of one convolution [N/m], shape (n,).
        formed_yield: S_y from `yield_ejma` [Pa], shape (n,).

    Returns:
        p_sc [Pa], shape (n,).
    """
    slender = live_length(shape) / shape.inside_diameter
    limit = transition_ratio(shape, stiffness, formed_yield)
    whole = 0.87 * metal_area(shape) * formed_yield / (shape.inside_diameter * shape.pitch)
    pressure = np.where(slender < limit, whole * (1.0 - 0.73 * slender / limit), column_squirm(shape, stiffness))
    return np.where(np.isnan(limit), np.nan, pressure)


def _area_ratio(shape: Bellows) -> Array:
    """Return A/(D_m q), shape (n,)."""
    return metal_area(shape) / (mean_diameter(shape) * shape.pitch)


__all__ = [
    "ANNEALED",
    "AS_FORMED",
    "bending_to_hoop",
    "column_squirm",
    "column_squirm_ejma",
    "elastic_column",
    "in_plane_asme",
    "in_plane_ejma",
    "interaction",
    "transition_ratio",
    "yield_asme",
    "yield_ejma",
]
