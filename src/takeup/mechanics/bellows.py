"""A bellows as a member: one uniform beam with the bellows' own three rates.     (mechanics/bellows.py)

A bellows of live length L with angular rate k_theta (moment per radian) behaves in bending as a beam of
EI = k_theta L: its lateral rate, ends kept parallel, comes out as 12 k_theta / L^2 (EJMA form, check by beam
theory in tests). Stretch and twist have rates of their own, so EA = k_x L and GJ = k_t L. One member is exact
while the bellows stays straight; it is split where it must be able to bow.
"""

from __future__ import annotations

from typing import NamedTuple


class BellowsSection(NamedTuple):
    """Section stiffness of a bellows member: EA [N], EI [N m2], GJ [N m2]."""

    axial: float
    bending: float
    torsion: float


def bellows_section(
    *, axial_rate: float, angular_rate: float, torsion_rate: float, live_length: float
) -> BellowsSection:
    """Return the beam that has the bellows' rates.

    Args:
        axial_rate: k_x [N/m].
        angular_rate: k_theta [N m/rad].
        torsion_rate: k_t [N m/rad].
        live_length: L [m].

    Returns:
        EA = k_x L, EI = k_theta L, GJ = k_t L.
    """
    return BellowsSection(axial_rate * live_length, angular_rate * live_length, torsion_rate * live_length)


def pressure_strain(pressure: float, effective_area: float, axial: float) -> float:
    """Return the strain by which pressure would run the bellows out if nothing held it.

        eps = P A_e / EA, so that the member's force is S = k_x x - P A_e

    Args:
        pressure: P, gauge, mean over the bellows [Pa].
        effective_area: A_e [m2].
        axial: EA of the member [N].
    """
    return pressure * effective_area / axial
