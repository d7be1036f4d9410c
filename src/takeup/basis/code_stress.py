"""Longitudinal stress by code: sustained, occasional, and the range from movement.     (basis/code_stress.py)

ASME B31.1 and EN 13480-3: one i, the resultant of the three moments, and P D/(4 t) for pressure. The axial force does
not enter, so where it is not that of closed ends (a joint, a rod, a pipe held at both ends) look at it apart.
ASME B31.3: each plane with its own i, and the axial force in the wall, which holds that of pressure. All from memory,
high for the form, medium for the numbers of the equations.
Which wall: B31.1 and EN the nominal one; B31.3 the nominal less allowances for sustained and occasional loads (320.1)
and the nominal for the range (319.3.5). Limits: creep is not covered; EN 12.3.5 and 12.3.6 are not either.
Moments, forces and pressures may be arrays, alike in shape: many states, or pairs of them, of one component at once.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from takeup.basis.codes import Code, Factors, Moments, above_zero, not_below_zero
from takeup.basis.stress import section_modulus
from takeup.errors import OutOfRange

Floats = NDArray[np.float64]

SUSTAINED_SHARE = 0.75  # of i under loads that stay; the product is not below one
OCCASIONS: dict[Code, dict[str, float]] = {
    "ASME B31.1": {"up to 8 h at a time and 800 h a year": 1.15, "up to 1 h at a time and 80 h a year": 1.20},
    "ASME B31.3": {"wind or earthquake": 1.33},
    "EN 13480-3": {
        "more than 10 % of the time": 1.0,
        "up to 10 % of the time": 1.15,
        "up to 1 % of the time": 1.2,
        "exceptional": 1.3,
        "safe shutdown earthquake": 1.8,
    },
}


def sustained_stress(
    code: Code,
    *,
    factors: Factors,
    moments: Moments,
    pressure: float | Floats,
    axial_force: float | Floats,
    outside_diameter: float,
    wall: float,
    allowance: float,
    modulus_of_section: float | None = None,
) -> Floats:
    """Return the longitudinal stress from pressure, weight and other loads that stay.

        B31.1 104.8.1     S_L = P D/(4 t) + 0.75 i M_A/Z,  0.75 i >= 1         EN 13480-3 12.3.2 the same: sigma_1
        B31.3 320.2       S_L = sqrt((|S_a| + S_b)^2 + (2 S_t)^2),  S_a = F_a/A,  S_t = M_t/(2 Z),
                          S_b = sqrt((I_i M_i)^2 + (I_o M_o)^2)/Z,  I = 0.75 i >= 1

    Args:
        code: The basis of design.
        factors: Of the component, `STRAIGHT_PIPE` on straight pipe.
        moments: M_A, from loads that stay [N m].
        pressure: P, gauge, zero or more; B31.3 has it in the axial force [Pa].
        axial_force: F_a in the metal of the wall, that of pressure included, tension above zero; B31.3 alone [N].
        outside_diameter: D [m].
        wall: t, nominal [m].
        allowance: Corrosion, erosion and threads, taken off the wall in B31.3 [m].
        modulus_of_section: Z, where it is not that of the pipe (a branch) [m3].

    Returns:
        S_L [Pa], to be held against S_h (f_h).
    """
    not_below_zero(pressure=_least(pressure), allowance=allowance)
    if code == "ASME B31.3":
        left = wall - allowance
        z = _section(outside_diameter, left, modulus_of_section)
        share_in = max(1.0, SUSTAINED_SHARE * factors.in_plane)
        share_out = max(1.0, SUSTAINED_SHARE * factors.out_of_plane)
        bending = _root(share_in * moments.in_plane, share_out * moments.out_of_plane) / z
        return _combined(axial_force / _metal(outside_diameter, left), bending, moments.torsion / (2.0 * z))
    z = _section(outside_diameter, wall, modulus_of_section)
    share = max(1.0, SUSTAINED_SHARE * _single(factors))
    return pressure * outside_diameter / (4.0 * wall) + share * _resultant(moments) / z


def occasional_stress(
    code: Code,
    *,
    sustained: float | Floats,
    factors: Factors,
    moments: Moments,
    axial_force: float | Floats,
    outside_diameter: float,
    wall: float,
    allowance: float,
    modulus_of_section: float | None = None,
) -> Floats:
    """Return the longitudinal stress with loads that come and go, wind or earthquake.

        B31.1 104.8.2     P D/(4 t) + 0.75 i M_A/Z + 0.75 i M_B/Z              EN 13480-3 12.3.3 the same: sigma_2
        B31.3 302.3.6     the sustained stress plus that of the occasional load, by the formula of 320.2

    Args:
        code: The basis of design.
        sustained: From `sustained_stress`, with the greatest pressure that goes with the occasion [Pa].
        factors: Of the component.
        moments: M_B, from the occasional load alone [N m].
        axial_force: From the occasional load alone, in B31.3 [N].
        outside_diameter: D [m].
        wall: t, nominal [m].
        allowance: As in `sustained_stress` [m].
        modulus_of_section: Z, where it is not that of the pipe [m3].

    Returns:
        The stress [Pa], to be held against `occasional_limit`.
    """
    not_below_zero(sustained_stress=_least(sustained))
    return sustained + sustained_stress(
        code,
        factors=factors,
        moments=moments,
        pressure=0.0,
        axial_force=axial_force,
        outside_diameter=outside_diameter,
        wall=wall,
        allowance=allowance,
        modulus_of_section=modulus_of_section,
    )


def occasional_limit(code: Code, hot_allowable: float, occasion: str) -> float:
    """Return what the stress with an occasional load is held against.

        k S_h; k = 1.15 or 1.20 in B31.1 104.8.2, 1.33 in B31.3 302.3.6, 1.0 to 1.8 in EN 13480-3 12.3.3

    Args:
        code: The basis of design.
        hot_allowable: S_h (f_h) at the temperature of the occasion [Pa].
        occasion: One of `OCCASIONS[code]`.

    Returns:
        k S_h [Pa].
    """
    above_zero(hot_allowable=hot_allowable)
    if occasion not in OCCASIONS[code]:
        raise OutOfRange(f"{occasion!r} is no occasion of {code}: {'; '.join(OCCASIONS[code])}.")
    return OCCASIONS[code][occasion] * hot_allowable


def expansion_stress(
    code: Code,
    *,
    factors: Factors,
    moments: Moments,
    axial_force: float | Floats,
    outside_diameter: float,
    wall: float,
    modulus_of_section: float | None = None,
) -> Floats:
    """Return the stress range from growth and other movement.

        B31.1 104.8.3     S_E = i M_C/Z                                        EN 13480-3 12.3.4 the same: sigma_3
        B31.3 319.4.4     S_E = sqrt((|S_a| + S_b)^2 + 4 S_t^2),  S_a = i_a F_a/A,  S_t = M_t/(2 Z),
                          S_b = sqrt((i_i M_i)^2 + (i_o M_o)^2)/Z

    Args:
        code: The basis of design.
        factors: Of the component.
        moments: M_C, range of each component between two states [N m].
        axial_force: F_a, range of the force in the wall, in B31.3 alone [N].
        outside_diameter: D [m].
        wall: t, nominal in every code [m].
        modulus_of_section: Z, where it is not that of the pipe [m3].

    Returns:
        S_E [Pa], to be held against `allowable_range`.
    """
    z = _section(outside_diameter, wall, modulus_of_section)
    if code == "ASME B31.3":
        bending = _root(factors.in_plane * moments.in_plane, factors.out_of_plane * moments.out_of_plane) / z
        twist = factors.torsion * moments.torsion / (2.0 * z)
        return _combined(factors.axial * axial_force / _metal(outside_diameter, wall), bending, twist)
    return _single(factors) * _resultant(moments) / z


def _combined(axial: float | Floats, bending: Floats, shear: float | Floats) -> Floats:
    return _root(np.abs(axial) + bending, 2.0 * shear)


def _root(*parts: float | Floats) -> Floats:
    """Return the root of the sum of squares."""
    return np.sqrt(sum(np.square(part) for part in parts))


def _least(values: float | Floats) -> float:
    return float(np.min(values))


def _single(factors: Factors) -> float:
    """Return the one i of ASME B31.1 and of EN 13480-3 Table H.1, the greater of the two planes."""
    return max(factors.in_plane, factors.out_of_plane)


def _resultant(moments: Moments) -> Floats:
    """Return sqrt(M_i^2 + M_o^2 + M_t^2), ASME B31.1 104.8.4 (from memory)."""
    return _root(moments.in_plane, moments.out_of_plane, moments.torsion)


def _metal(outside_diameter: float, wall: float) -> float:
    return math.pi * (outside_diameter - wall) * wall


def _section(outside_diameter: float, wall: float, given: float | None) -> float:
    of_pipe = section_modulus(outside_diameter, wall)  # refuses a wall that the allowance has used up
    if given is None:
        return of_pipe
    above_zero(modulus_of_section=given)
    return given
