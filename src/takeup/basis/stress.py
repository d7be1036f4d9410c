"""Bending stress range from movement, by the power piping code.     (basis/stress.py)

ASME B31.1 para. 104.8.3 eq. (17), eq. (13) in older editions, as printed to 2018 (number and form from memory; later
editions take each plane by itself, from memory, medium). The moment is the resultant of the three components of the
range, all with one intensification factor.
Limits: nominal dimensions; the code's allowable range is the user's datum, not computed here.
"""

from __future__ import annotations

import math

from takeup.errors import OutOfRange


def second_moment(outside_diameter: float, wall: float) -> float:
    """Return the second moment of area of a pipe.

        I = pi/64 (D^4 - d^4), d = D - 2 t

    Args:
        outside_diameter: D [m].
        wall: t, nominal wall [m].

    Returns:
        I [m4].
    """
    _check_pipe(outside_diameter, wall)
    return math.pi / 64 * (outside_diameter**4 - (outside_diameter - 2 * wall) ** 4)


def section_modulus(outside_diameter: float, wall: float) -> float:
    """Return the section modulus of a pipe.

        Z = 2 I / D

    Args:
        outside_diameter: D [m].
        wall: t, nominal wall [m].

    Returns:
        Z [m3].
    """
    return 2 * second_moment(outside_diameter, wall) / outside_diameter


def resultant_moment(first: float, second: float, third: float) -> float:
    """Return the resultant of three moment components.

        M_C = sqrt(M_x^2 + M_y^2 + M_z^2)              ASME B31.1 para. 104.8.4 (from memory)

    Args:
        first: M_x, range of the component between two states [N m].
        second: M_y, the same [N m].
        third: M_z, the same [N m].

    Returns:
        M_C [N m], zero or more.
    """
    return math.hypot(first, second, third)


def expansion_stress_range(intensification: float, moment_range: float, modulus_of_section: float) -> float:
    """Return the stress range that movement causes.

        S_E = i M_C / Z                                ASME B31.1 para. 104.8.3 eq. (17), older eq. (13)

    Args:
        intensification: i, one or more [-].
        moment_range: M_C, resultant of the moment range [N m].
        modulus_of_section: Z of the pipe [m3].

    Returns:
        S_E [Pa].

    Raises:
        OutOfRange: i below one, M_C below zero or Z not above zero.
    """
    if not (intensification >= 1 and moment_range >= 0 and modulus_of_section > 0):
        raise OutOfRange(
            f"i = {intensification:g}, M_C = {moment_range:g} N m, Z = {modulus_of_section:g} m3: ASME B31.1 104.8.3 "
            "needs i of one or more, a resultant moment and a section."
        )
    return intensification * moment_range / modulus_of_section


def _check_pipe(outside_diameter: float, wall: float) -> None:
    if not 0 < wall < outside_diameter / 2:
        raise OutOfRange(f"wall {wall:g} m is not between zero and half the outside diameter {outside_diameter:g} m.")
