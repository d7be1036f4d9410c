"""How great a stress range may be, and how many cycles count.     (basis/allowable.py)

S_A = f (1.25 S_c + 0.25 S_h), with what the sustained stress leaves of S_h added on request (ASME B31.1 102.3.2(B),
B31.3 302.3.5(d), EN 13480-3 12.1.3; from memory, high for ASME, medium for EN). The codes of ASME allow S_c and S_h to
count to 138 MPa (20 ksi) only (from memory, medium). EN prints f in steps, 1.0 to 7000 cycles, 0.9 to 14 000 and so on;
the formula behind the steps is used. Limits: 1 to 1e8 cycles; creep is not covered.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from takeup.basis.codes import Code, above_zero, not_below_zero
from takeup.errors import OutOfRange

GREATEST_ALLOWABLE = 138e6  # Pa, printed as 20 ksi (138 MPa): more does not count in the range of the ASME codes
MOST_CYCLES = 1e8
PLAIN_FACTOR = 1.0
FERROUS_FACTOR = 1.2  # B31.3: ferrous, tensile strength to 517 MPa, to 371 degC


def cycle_factor(code: Code, cycles: float, *, greatest: float = PLAIN_FACTOR) -> float:
    """Return the stress range factor.

        f = 6.0 N^(-0.2), not above 1.0         B31.1 102.3.2(B), B31.3 eq. (1c), EN 13480-3 12.1.3 (U)

    Args:
        code: The basis of design.
        cycles: N, equivalent full cycles [-].
        greatest: f_m; 1.2 in B31.3 for ferrous pipe of to 517 MPa tensile strength below 371 degC, else 1.0 [-].

    Returns:
        f [-].
    """
    if greatest != PLAIN_FACTOR and not (code == "ASME B31.3" and greatest == FERROUS_FACTOR):
        raise OutOfRange(f"greatest factor {greatest:g}: {code} knows 1.0{', 1.2' if code == 'ASME B31.3' else ''}.")
    if not 1.0 <= cycles <= MOST_CYCLES:
        raise OutOfRange(f"{cycles:g} cycles are not within 1 to 1e8, for which the factor is printed.")
    return min(greatest, 6.0 * math.pow(cycles, -0.2))


def equivalent_cycles(full_cycles: float, others: Iterable[tuple[float, float]]) -> float:
    """Return the number of full cycles that do as much damage as a mixture.

        N = N_E + sum r_i^5 N_i,  r_i = S_i/S_E        B31.3 302.3.5(d) eq. (1d), B31.1 102.3.2(B) eq. (2)

    Args:
        full_cycles: N_E, cycles of the greatest range [-].
        others: (r_i, N_i), share of the greatest range, 0 to 1, and its number [-].

    Returns:
        N [-].
    """
    not_below_zero(full_cycles=full_cycles)
    total = full_cycles
    for share, number in others:
        not_below_zero(number_of_cycles=number)
        if not 0.0 <= share <= 1.0:
            raise OutOfRange(f"range of {share:g} times the greatest: the greatest is the one to refer to.")
        total += share**5 * number
    return total


def allowable_range(
    code: Code,
    *,
    cold_allowable: float,
    hot_allowable: float,
    cycles: float,
    sustained: float | None = None,
    greatest_factor: float = PLAIN_FACTOR,
    cold_modulus: float | None = None,
    hot_modulus: float | None = None,
) -> float:
    """Return the allowable stress range.

        B31.1, B31.3      S_A = f (1.25 S_c + 0.25 S_h), and + f (S_h - S_L) where the sustained stress is given
        EN 13480-3        f_a = U (1.25 f_c + 0.25 f_h) E_h/E_c, and + (f_h - sigma_1) where it is: 12.3.4

    Nothing is added where the sustained stress is not below S_h, as the codes have it.

    Args:
        code: The basis of design.
        cold_allowable: S_c (f_c), basic allowable stress at the lowest temperature of the cycle [Pa].
        hot_allowable: S_h (f_h), at the highest [Pa].
        cycles: N, equivalent full cycles [-].
        sustained: S_L (sigma_1) at the same place, the greatest over the states, for the added part [Pa].
        greatest_factor: f_m, see `cycle_factor` [-].
        cold_modulus: E_c, needed by EN and by no other [Pa].
        hot_modulus: E_h, the same [Pa].

    Returns:
        The allowable range [Pa].
    """
    above_zero(cold_allowable=cold_allowable, hot_allowable=hot_allowable)
    left = 0.0
    if sustained is not None:
        not_below_zero(sustained_stress=sustained)
    f = cycle_factor(code, cycles, greatest=greatest_factor)
    if code == "EN 13480-3":
        if cold_modulus is None or hot_modulus is None:
            raise OutOfRange("EN 13480-3 12.1.3 needs the modulus cold and hot.")
        above_zero(cold_modulus=cold_modulus, hot_modulus=hot_modulus)
        if sustained is not None:
            left = max(0.0, hot_allowable - sustained)
        return f * (1.25 * cold_allowable + 0.25 * hot_allowable) * hot_modulus / cold_modulus + left
    cold, hot = min(GREATEST_ALLOWABLE, cold_allowable), min(GREATEST_ALLOWABLE, hot_allowable)
    if sustained is not None:
        left = max(0.0, hot - sustained)
    return f * (1.25 * cold + 0.25 * hot + left)
