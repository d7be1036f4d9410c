"""The strains of the shell, and the energy that they store.     (bellows/shell/strains.py)

A point at depth zeta moves as u = u_0 + zeta b: the middle surface by (U, W) along the radius and the axis and V round
it, the normal turns by beta along the meridian and gamma round it. All vary as cos(m theta), V and gamma as
sin(m theta); m = 0 is the axisymmetric shell, whose V and gamma are left out. With ' = d/ds, S = sin psi, C = cos psi:

    e_s = (stretch + zeta bend)/(1 + zeta k_1)           stretch = U' S + W' C,  bend = beta'
    e_t = (hoop + zeta hoop_bend)/(1 + zeta k_2)         hoop = (U + m V)/r,  hoop_bend = (beta S + m gamma)/r
    g_sn = shear/(1 + zeta k_1)                          shear = U' C - W' S + beta
    g_tn = cross/(1 + zeta k_2)                          cross = (-m (U C - W S) - V C)/r + gamma
    g_st = (slip + zeta slip_bend)/(1 + zeta k_2) + (drag + zeta drag_bend)/(1 + zeta k_1)
           slip = (-m (U S + W C) - V S)/r,  slip_bend = (-m beta - gamma S)/r,  drag = V',  drag_bend = gamma'

which are the strains of a solid in cylindrical coordinates with straight normals (first principles). A normal also gets
shorter or longer, which a plane wall does not feel and a curved one does: section.py puts it in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.shell.meridian import Places
from takeup.bellows.shell.section import Section, worth

U, W, B, V, G = range(5)  # what moves: radially, along the axis, turning (beta), round the axis, turning (gamma)
SHEAR_SHARE = 5.0 / 6.0  # of a rectangular section that carries shear (Reissner)

Row: TypeAlias = dict[tuple[int, int], Array]  # by (what moves, 0 for its value or 1 for its slope d/ds): coefficient
Term: TypeAlias = tuple[Array, Row, Row]  # a weight on the square of one strain, or on twice the product of two


@dataclass(frozen=True, kw_only=True, slots=True)
class Strains:
    """Rows of the strains at places, named as in the module's header; coefficients of shape (e, g)."""

    stretch: Row
    hoop: Row
    bend: Row
    hoop_bend: Row
    shear: Row


def strains(at: Places, harmonic: int) -> Strains:
    """Return the rows of the strains that every harmonic has."""
    per_radius, sine, cosine = 1.0 / at.radius, at.sine, at.cosine
    one = np.ones_like(sine)
    hoop: Row = {(U, 0): per_radius}
    hoop_bend: Row = {(B, 0): sine * per_radius}
    if harmonic:
        hoop[V, 0] = hoop_bend[G, 0] = harmonic * per_radius
    return Strains(
        stretch={(U, 1): sine, (W, 1): cosine},
        hoop=hoop,
        bend={(B, 1): one},
        hoop_bend=hoop_bend,
        shear={(U, 1): cosine, (W, 1): -sine, (B, 0): one},
    )


def energy(at: Places, wall: Section, modulus: Array, poisson: Array, harmonic: int) -> Iterator[Term]:
    """Yield the terms of twice the energy on an area r ds dtheta of one ply.

    Args:
        at: places, (e, g).
        wall: its integrals over the depth.
        modulus: E [Pa], shape (e, 1).
        poisson: nu, shape (e, 1).
        harmonic: m.

    Yields:
        (weight, strain, strain): weights of shape (e, g) or (e, 1).
    """
    plate = modulus / (1.0 - poisson**2)
    shear = modulus / (2.0 * (1.0 + poisson))
    rows = strains(at, harmonic)
    four = (rows.stretch, rows.hoop, rows.bend, rows.hoop_bend)
    for (left, right), cost in worth(wall, poisson).items():
        yield plate * cost, four[left], four[right]
    yield SHEAR_SHARE * shear * wall.along[0], rows.shear, rows.shear
    if harmonic:
        yield from _round_energy(at, wall, shear, harmonic)


def _round_energy(at: Places, wall: Section, shear: Array, harmonic: int) -> Iterator[Term]:
    """Yield the terms of the shear strains that only harmonics from one have."""
    m, per_radius, sine, cosine = float(harmonic), 1.0 / at.radius, at.sine, at.cosine
    one = np.ones_like(sine)
    cross: Row = {
        (U, 0): -m * cosine * per_radius,
        (W, 0): m * sine * per_radius,
        (V, 0): -cosine * per_radius,
        (G, 0): one,
    }
    slip: Row = {(U, 0): -m * sine * per_radius, (W, 0): -m * cosine * per_radius, (V, 0): -sine * per_radius}
    slip_bend: Row = {(B, 0): -m * per_radius, (G, 0): -sine * per_radius}
    drag: Row = {(V, 1): one}
    drag_bend: Row = {(G, 1): one}
    along, around = wall.along, wall.around
    yield SHEAR_SHARE * shear * around[0], cross, cross
    yield shear * around[0], slip, slip
    yield shear * around[1], slip, slip_bend
    yield shear * around[2], slip_bend, slip_bend
    yield shear * along[0], drag, drag
    yield shear * along[1], drag, drag_bend
    yield shear * along[2], drag_bend, drag_bend
    yield shear * wall.plain, slip, drag
    yield shear * wall.plain_second, slip_bend, drag_bend


__all__ = ["SHEAR_SHARE", "B", "G", "Row", "Strains", "Term", "U", "V", "W", "energy", "strains"]
