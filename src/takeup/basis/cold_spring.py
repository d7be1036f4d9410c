"""What cold spring does to the forces on anchors; it does nothing to the stress range.     (basis/cold_spring.py)

ASME B31.3 319.5.1, with two anchors and nothing between (from memory, high; ASME B31.1 119.10 the same, medium). Only
two thirds of a cold spring are credited hot, because it is never pulled as drawn; cold, all of it counts. In the stress
range there is no credit at all (319.2.4). Limits: these are the greatest forces to be expected, not the exact ones.
"""

from __future__ import annotations

from takeup.basis.codes import above_zero
from takeup.errors import OutOfRange

CREDITED = 2 / 3  # of the cold spring, in the hot force


def hot_reaction(reaction: float, cold_spring: float, hot_modulus: float, cold_modulus: float) -> float:
    """Return the greatest force or moment at an anchor when hot.

        R_m = R (1 - 2 C/3) E_m/E_a                    ASME B31.3 319.5.1(a) eq. (21)

    Args:
        reaction: R, from the whole range, with the cold modulus and no cold spring [N or N m].
        cold_spring: C, share of the growth that is pulled cold: 0 none, 1 all [-].
        hot_modulus: E_m, at the highest metal temperature [Pa].
        cold_modulus: E_a, at installation [Pa].

    Returns:
        R_m, with the sign of R [N or N m].
    """
    _checked(cold_spring)
    above_zero(hot_modulus=hot_modulus, cold_modulus=cold_modulus)
    return reaction * (1.0 - CREDITED * cold_spring) * hot_modulus / cold_modulus


def cold_reaction(
    reaction: float,
    cold_spring: float,
    *,
    hot_allowable: float,
    expansion_stress: float,
    hot_modulus: float,
    cold_modulus: float,
) -> float:
    """Return the greatest force or moment at an anchor when cold, at first or after the line has relaxed hot.

        R_a = C R or C_1 R, the greater,  C_1 = 1 - S_h E_a/(S_E E_m)        ASME B31.3 319.5.1(b) eq. (22)

    Args:
        reaction: R, as in `hot_reaction` [N or N m].
        cold_spring: C [-].
        hot_allowable: S_h [Pa].
        expansion_stress: S_E, the computed range [Pa].
        hot_modulus: E_m [Pa].
        cold_modulus: E_a [Pa].

    Returns:
        The size of R_a, with the sign of R; it acts the other way [N or N m].
    """
    _checked(cold_spring)
    above_zero(hot_allowable=hot_allowable, expansion_stress=expansion_stress)
    above_zero(hot_modulus=hot_modulus, cold_modulus=cold_modulus)
    relaxed = 1.0 - hot_allowable * cold_modulus / (expansion_stress * hot_modulus)
    return reaction * max(cold_spring, relaxed)


def _checked(cold_spring: float) -> None:
    if not 0.0 <= cold_spring <= 1.0:
        raise OutOfRange(f"cold spring {cold_spring:g} is not a share of the growth, from 0 to 1.")
