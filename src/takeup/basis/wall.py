"""The wall that pressure asks of straight pipe.     (basis/wall.py)

ASME B31.1 104.1.2, B31.3 304.1.2, EN 13480-3 6.1; from memory, high. The answer holds the allowances and not the
mill's tolerance: the wall to be ordered is the answer over (1 - tolerance), 12.5 % for most seamless pipe.
Limits: pressure inside; thin walls, t < D/6 in the codes of ASME and D/d to 1.7 in EN; bends and branches are not
covered, nor pressure from outside.
"""

from __future__ import annotations

from takeup.basis.codes import Code, above_zero, not_below_zero
from takeup.errors import OutOfRange

THIN_WALL = 1 / 6  # t/D, below which the formulas of ASME hold
GREATEST_PRESSURE = 0.385  # P/(S E), above which B31.3 asks for special consideration
GREATEST_DIAMETER_RATIO = 1.7  # D_o/D_i of EN
GREATEST_COEFFICIENT = 0.7


def required_wall(
    code: Code,
    *,
    pressure: float,
    outside_diameter: float,
    allowable: float,
    weld_factor: float,
    allowance: float,
    coefficient: float | None = None,
    creep_weld_factor: float = 1.0,
) -> float:
    """Return the least wall of straight pipe under pressure, allowances included.

        B31.1, B31.3      t = P D/(2 (S E W + P Y)) + c
        EN 13480-3        e = p D/(2 f z + p) + c

    Args:
        code: The basis of design.
        pressure: P, gauge, zero or more [Pa].
        outside_diameter: D [m].
        allowable: S (f), at the design temperature, without weld factor [Pa].
        weld_factor: E (z), quality of the longitudinal weld, to 1 [-].
        allowance: c (A), corrosion, erosion and threads, zero or more [m].
        coefficient: Y, from Table 304.1.1 or 104.1.2(A): 0.4 for steel to 482 degC; for ASME alone, needed there [-].
        creep_weld_factor: W, 1 below the creep range; for ASME alone [-].

    Returns:
        The wall, before the mill's tolerance [m].
    """
    above_zero(outside_diameter=outside_diameter, allowable=allowable, weld_factor=weld_factor)
    above_zero(creep_weld_factor=creep_weld_factor)
    not_below_zero(pressure=pressure, allowance=allowance)
    if max(weld_factor, creep_weld_factor) > 1.0:
        raise OutOfRange(f"weld factors {weld_factor:g} and {creep_weld_factor:g}: neither is above one.")
    if code == "EN 13480-3":
        return (
            _european(pressure, outside_diameter, allowable * weld_factor, coefficient, creep_weld_factor) + allowance
        )
    if coefficient is None or not 0.0 <= coefficient <= GREATEST_COEFFICIENT:
        raise OutOfRange(f"{code}: the coefficient Y must be stated, from 0 to 0.7.")
    if pressure > GREATEST_PRESSURE * allowable * weld_factor:
        raise OutOfRange(f"P/(S E) = {pressure / (allowable * weld_factor):.3g} is above 0.385: not covered.")
    strength = allowable * weld_factor * creep_weld_factor
    wall = pressure * outside_diameter / (2.0 * (strength + pressure * coefficient))
    if not wall < THIN_WALL * outside_diameter:
        raise OutOfRange(f"wall of {wall * 1e3:.2f} mm is not below D/6, where the formula of {code} stops.")
    return wall + allowance


def _european(pressure: float, outside_diameter: float, strength: float, coefficient: float | None, w: float) -> float:
    if coefficient is not None or w != 1.0:
        raise OutOfRange("EN 13480-3 6.1 has no coefficient Y and no factor W.")
    wall = pressure * outside_diameter / (2.0 * strength + pressure)
    if outside_diameter > GREATEST_DIAMETER_RATIO * (outside_diameter - 2.0 * wall):
        raise OutOfRange(f"wall of {wall * 1e3:.2f} mm makes D/d more than 1.7, where EN 13480-3 eq. (6.1-1) stops.")
    return wall
