"""Bends and mitres by code: flexibility, intensification, flanges and pressure.     (basis/bends.py)

The characteristic h decides all of it: k = 1.65/h and i of h^(2/3) for a smooth bend, k = 1.52/h^(5/6) for a mitre
(ASME B31.1 Table D-1, B31.3 Table D300, EN 13480-3 Annex H; from memory, high for the two of ASME, medium for EN).
ASME B31.1 has one i for every moment, so torsion takes it too; EN 13480-3 is used the same way by `code_stress.py`.
Limits: D/T to 100, mitre angle to 22.5 degrees, constant wall. No factor is ever below one.
"""

from __future__ import annotations

import math

from takeup.basis.codes import CLAUSES, Code, Factors, above_zero, not_below_zero
from takeup.basis.flexibility import (
    LEAST_FACTOR,
    bend_flexibility_factor,
    flexibility_characteristic,
    in_plane_intensification,
    out_of_plane_intensification,
)
from takeup.errors import OutOfRange

GREATEST_SLENDERNESS = 100.0  # D/T for which the factors were shown to hold, note (1) of Table D300
GREATEST_MITRE_ANGLE = math.radians(22.5)
LEAST_CROTCH_WALLS = 6.0  # B >= 6 T, room for the welds of a closely spaced mitre, Table D-1
FLANGE_EXPONENTS = {0: 0.0, 1: 1 / 6, 2: 1 / 3}  # by number of flanged ends


def bend_factors(
    code: Code,
    *,
    bend_radius: float,
    mean_radius: float,
    wall: float,
    flanged_ends: int = 0,
    pressure: float | None = None,
    modulus: float | None = None,
) -> Factors:
    """Return the factors of a smooth bend or welding elbow.

        h = T R1/r2^2,  k = 1.65/h,  i_in = 0.9/h^(2/3),  i_out = 0.75/h^(2/3)     (B31.1: i = 0.9/h^(2/3) alone)

    Args:
        code: The basis of design.
        bend_radius: R1, radius of the centre line [m].
        mean_radius: r2, mean radius of the pipe wall [m].
        wall: T, nominal wall of the bend [m].
        flanged_ends: 0, 1 or 2 ends with a flange or a part as stiff.
        pressure: P, gauge, when its stiffening is to be credited [Pa].
        modulus: E, with the pressure [Pa].

    Returns:
        The factors, none below one.

    Raises:
        OutOfRange: No bend, D/T above 100, or the corrections are asked outside their range.
    """
    check_slenderness(mean_radius, wall)
    h = flexibility_characteristic(bend_radius, mean_radius, wall)
    softer = stiffer = flange_correction(h, flanged_ends)
    softer /= pressure_on_flexibility(bend_radius, mean_radius, wall, pressure, modulus)
    stiffer /= pressure_on_intensification(bend_radius, mean_radius, wall, pressure, modulus)
    in_plane = max(LEAST_FACTOR, in_plane_intensification(h) * stiffer)
    one = code == "ASME B31.1"
    return Factors(
        flexibility=max(LEAST_FACTOR, bend_flexibility_factor(h) * softer),
        in_plane=in_plane,
        out_of_plane=in_plane if one else max(LEAST_FACTOR, out_of_plane_intensification(h) * stiffer),
        torsion=1.0 if code == "ASME B31.3" else in_plane,
        rule=f"{code} {CLAUSES[code]['bends']}, welding elbow or pipe bend",
        status="from memory",
    )


def mitre_factors(
    code: Code,
    *,
    half_angle: float,
    spacing: float | None,
    mean_radius: float,
    wall: float,
    flanged_ends: int = 0,
    pressure: float | None = None,
    modulus: float | None = None,
) -> Factors:
    """Return the factors of a mitre bend.

        h = T R1/r2^2,  k = 1.52/h^(5/6),  i_in = i_out = 0.9/h^(2/3)       R1 from `mitre_bend_radius`

    With R1 this is h = cot(theta)/2 s T/r2^2 closely and h = (1 + cot(theta))/2 T/r2 widely spaced, as printed.

    Args:
        code: The basis of design.
        half_angle: theta, half the angle between neighbouring mitre axes [rad]: 0.1963 for 4 cuts in 90 degrees.
        spacing: s, distance of the cuts on the centre line [m]; None for a single cut, which is widely spaced.
        mean_radius: r2, mean radius of the pipe wall [m].
        wall: T, nominal wall [m].
        flanged_ends: 0, 1 or 2 ends with a flange.
        pressure: P, gauge, when its stiffening is to be credited [Pa].
        modulus: E, with the pressure [Pa].

    Returns:
        The factors; k over the arc of R1.

    Raises:
        OutOfRange: theta above 22.5 degrees, no room for the welds, D/T above 100, or as for a bend.
    """
    check_slenderness(mean_radius, wall)
    radius = mitre_bend_radius(half_angle, spacing, mean_radius)
    close = _closely_spaced(half_angle, spacing, mean_radius)
    if spacing is not None and close:
        _check_crotch(half_angle, spacing, mean_radius, wall)
    h = wall * radius / mean_radius**2
    correction = flange_correction(h, flanged_ends)
    flexibility = mitre_flexibility_factor(h) * correction
    flexibility /= pressure_on_flexibility(radius, mean_radius, wall, pressure, modulus)
    i = in_plane_intensification(h) * correction
    i = max(LEAST_FACTOR, i / pressure_on_intensification(radius, mean_radius, wall, pressure, modulus))
    return Factors(
        flexibility=max(LEAST_FACTOR, flexibility),
        in_plane=i,
        out_of_plane=i,
        torsion=1.0 if code == "ASME B31.3" else i,
        rule=f"{code} {CLAUSES[code]['mitres']}, {'closely' if close else 'widely'} spaced mitre bend",
        status="from memory",
    )


def mitre_bend_radius(half_angle: float, spacing: float | None, mean_radius: float) -> float:
    """Return the radius of the bend that a mitre is taken for.

        R1 = s cot(theta)/2               closely spaced, s < r2 (1 + tan(theta))
        R1 = r2 (1 + cot(theta))/2        widely spaced and single

    Args:
        half_angle: theta [rad].
        spacing: s [m]; None for a single cut.
        mean_radius: r2 [m].

    Returns:
        R1 [m].
    """
    above_zero(mean_radius=mean_radius, **({} if spacing is None else {"spacing": spacing}))
    if not 0.0 < half_angle <= GREATEST_MITRE_ANGLE + 1e-9:  # 22.5 degrees written as radians may round up
        raise OutOfRange(f"mitre half angle {math.degrees(half_angle):g} deg is not above zero and at most 22.5 deg.")
    cot = 1.0 / math.tan(half_angle)
    if spacing is not None and _closely_spaced(half_angle, spacing, mean_radius):
        return spacing * cot / 2.0
    return mean_radius * (1.0 + cot) / 2.0


def mitre_flexibility_factor(characteristic: float) -> float:
    """Return k of a mitre bend, k = 1.52 / h^(5/6), not below 1; h [-] above zero."""
    above_zero(characteristic=characteristic)
    return max(LEAST_FACTOR, 1.52 / math.pow(characteristic, 5 / 6))


def flange_correction(characteristic: float, flanged_ends: int) -> float:
    """Return what flanges at the ends of a bend multiply k and i by.

        c = h^(1/6) one end flanged,  h^(1/3) both     note (7) of Table D300, note (3) of Table D-1

    Args:
        characteristic: h, to 1, where the chart of the appendix ends [-].
        flanged_ends: 0, 1 or 2.

    Returns:
        c [-], one without flanges.
    """
    if flanged_ends not in FLANGE_EXPONENTS:
        raise OutOfRange(f"{flanged_ends} flanged ends: a bend has 0, 1 or 2.")
    if flanged_ends and characteristic > 1.0:
        raise OutOfRange(f"h = {characteristic:g} is above 1, where the correction for flanged ends stops.")
    return math.pow(characteristic, FLANGE_EXPONENTS[flanged_ends])


def pressure_on_flexibility(
    bend_radius: float, mean_radius: float, wall: float, pressure: float | None, modulus: float | None
) -> float:
    """Return what pressure divides k by: 1 + 6 (P/E) (r2/T)^(7/3) (R1/r2)^(1/3), or one without pressure."""
    ratio = _pressure_ratio(pressure, modulus)
    return 1.0 + 6.0 * ratio * math.pow(mean_radius / wall, 7 / 3) * math.pow(bend_radius / mean_radius, 1 / 3)


def pressure_on_intensification(
    bend_radius: float, mean_radius: float, wall: float, pressure: float | None, modulus: float | None
) -> float:
    """Return what pressure divides i by: 1 + 3.25 (P/E) (r2/T)^(5/2) (R1/r2)^(2/3), or one without pressure."""
    ratio = _pressure_ratio(pressure, modulus)
    return 1.0 + 3.25 * ratio * math.pow(mean_radius / wall, 5 / 2) * math.pow(bend_radius / mean_radius, 2 / 3)


def check_slenderness(mean_radius: float, wall: float) -> None:
    """Refuse a pipe whose D/T is above 100, or no pipe; radius and wall in metres."""
    above_zero(mean_radius=mean_radius, wall=wall)
    slenderness = 2.0 * mean_radius / wall + 1.0
    if slenderness > GREATEST_SLENDERNESS:
        raise OutOfRange(f"D/T = {slenderness:.0f} is above 100, to which the factors of the codes were shown to hold.")


def _pressure_ratio(pressure: float | None, modulus: float | None) -> float:
    if pressure is None and modulus is None:
        return 0.0
    if pressure is None or modulus is None:
        raise OutOfRange("the stiffening by pressure needs both the pressure and the modulus.")
    not_below_zero(pressure=pressure)
    above_zero(modulus=modulus)
    return pressure / modulus


def _closely_spaced(half_angle: float, spacing: float | None, mean_radius: float) -> bool:
    return spacing is not None and spacing < mean_radius * (1.0 + math.tan(half_angle))


def _check_crotch(half_angle: float, spacing: float, mean_radius: float, wall: float) -> None:
    """Refuse a mitre whose segments are shorter at the crotch than six walls, B = s - 2 r_o tan(theta)."""
    crotch = spacing - 2.0 * (mean_radius + wall / 2.0) * math.tan(half_angle)
    if crotch < LEAST_CROTCH_WALLS * wall:
        raise OutOfRange(f"segment of {crotch:.4g} m at the crotch is shorter than six walls, {6 * wall:.4g} m.")
