"""What the pipe holds: density of the media; saturation temperature.     (library/media.py)

Water and steam follow IAPWS-IF97. Its program reports trouble as numbers near -1000 or below, so every result is
guarded. Condensate is water, at boiling point where it is hotter than that. Air and nitrogen are ideal gases: for
weight only. Thermal oil has the density that the user types, and no other.
A pressure is gauge; the program's own argument is absolute, in MPa.
Limits: 0 to 800 degC and 100 MPa for water and steam; -60 to 600 degC and 5 MPa absolute for the gases, where the
ideal gas is within about 10 % (from memory) and their weight hardly counts.
"""

from __future__ import annotations

import math
from typing import Literal, get_args

from takeup.errors import OutOfRange
from takeup.units import ABSOLUTE_ZERO, to_absolute, to_bar, to_mpa

Medium = Literal["water", "steam", "air", "nitrogen", "condensate", "thermal oil"]
MEDIA: tuple[Medium, ...] = get_args(Medium)
LIQUIDS: tuple[Medium, ...] = ("water", "condensate", "thermal oil")

GAS_CONSTANT_OF_AIR = 287.05  # J/(kg K), dry air; common practice
GAS_CONSTANT_OF_NITROGEN = 296.8  # J/(kg K): 8314.46/28.013
CRITICAL_PRESSURE = 22.064e6  # Pa, IAPWS-IF97
LEAST_SATURATION_PRESSURE = 611.213  # Pa, IAPWS-IF97 region 4 at 273.15 K
GREATEST_PRESSURE = 100e6  # Pa, IAPWS-IF97 regions 1 to 3
GREATEST_TEMPERATURE = 800.0  # degC, the same
TROUBLE = -1000.0  # the program's results at or below this are messages, not numbers
READING = 0.5  # K: a temperature this near to saturation was rounded to a whole degree, and means saturation
GAS_TEMPERATURES = (-60.0, 600.0)  # degC
GAS_GREATEST_PRESSURE = 5e6  # Pa absolute


def is_liquid(medium: Medium) -> bool:
    """Return whether a medium is a liquid, whose weight and static head count."""
    return medium in LIQUIDS


def density(medium: Medium, pressure: float, temperature: float, *, typed: float | None = None) -> float:
    """Return the density of the content.

    A temperature within half a kelvin of saturation on the wrong side is taken as saturated water or steam: a line
    "at 10 bar(g), 184 degC" is a line of saturated steam (184.12 degC), written in whole degrees. Condensate hotter
    than saturation is saturated water.

    Args:
        medium: What the pipe holds.
        pressure: Gauge pressure [Pa].
        temperature: Temperature [degC].
        typed: For thermal oil alone, and required there: the density that the user states [kg/m3].

    Returns:
        Density [kg/m3].

    Raises:
        OutOfRange: Outside the formulation, or steam that would be water, or water that would be steam; thermal oil
            without a density, or another medium with one.
    """
    if medium == "thermal oil" or typed is not None:
        return _typed(medium, typed)
    if medium == "air":
        return _ideal_gas("air", GAS_CONSTANT_OF_AIR, pressure, temperature)
    if medium == "nitrogen":
        return _ideal_gas("nitrogen", GAS_CONSTANT_OF_NITROGEN, pressure, temperature)
    if medium == "condensate":
        return density("water", pressure, _boiled(pressure, temperature))
    absolute = _checked_pressure(pressure)
    if not 0 <= temperature <= GREATEST_TEMPERATURE:
        raise OutOfRange(f"{medium} at {temperature:g} degC is outside 0 to 800 degC, the range of IAPWS-IF97.")
    quality = 0.0 if medium == "water" else 1.0
    excess = _excess(medium, pressure, temperature)
    if excess is None or excess > 0:
        return 1 / _ask("pt2v", to_mpa(absolute), temperature, medium)
    return 1 / _ask("px2v", to_mpa(absolute), quality, medium)


def saturation_temperature(pressure: float) -> float:
    """Return the temperature at which water boils.

    IAPWS-IF97, region 4 (backward equation).

    Args:
        pressure: Gauge pressure [Pa].

    Returns:
        Saturation temperature [degC].

    Raises:
        OutOfRange: Below the pressure at 0 degC or above the critical pressure.
    """
    absolute = to_absolute(pressure)
    if not LEAST_SATURATION_PRESSURE <= absolute <= CRITICAL_PRESSURE:
        raise OutOfRange(
            f"no saturation temperature at {to_bar(pressure):g} bar(g): water boils between 0.00611 and 220.64 bar(a)."
        )
    return _ask("px2t", to_mpa(absolute), 0.0, "saturation")


def _excess(medium: str, pressure: float, temperature: float) -> float | None:
    """Return how far the temperature is on the medium's own side of saturation [K]; None where it cannot boil.

    Between zero and minus half a kelvin the medium is read as saturated; further away it is refused.
    """
    if not LEAST_SATURATION_PRESSURE <= to_absolute(pressure) <= CRITICAL_PRESSURE:
        return None
    boiling = saturation_temperature(pressure)
    excess = temperature - boiling if medium == "steam" else boiling - temperature
    if excess < -READING:
        other, side = ("water", "below") if medium == "steam" else ("steam", "above")
        raise OutOfRange(
            f"{medium} at {to_bar(pressure):g} bar(g), {temperature:g} degC is {other}: the temperature is {side} "
            f"saturation, {boiling:.2f} degC (IAPWS-IF97). Correct pressure or temperature, or name the content."
        )
    return excess


def _checked_pressure(pressure: float) -> float:
    absolute = to_absolute(pressure)
    if not 0 < absolute <= GREATEST_PRESSURE:
        raise OutOfRange(f"{to_bar(pressure):g} bar(g) is outside 0 to 1000 bar(a), the range of IAPWS-IF97.")
    return absolute


def _ask(function: Literal["pt2v", "px2v", "px2t"], pressure: float, other: float, what: str) -> float:
    """Return the answer of the IAPWS-IF97 program at an absolute pressure [MPa]; raise when it is a message."""
    import seuif97  # type: ignore[import-untyped]  # the program ships no types

    result = float(getattr(seuif97, function)(pressure, other))
    if not result > TROUBLE:
        raise OutOfRange(f"{what} at {pressure:g} MPa(a) is outside IAPWS-IF97 (its program answered {result:g}).")
    return result


def _ideal_gas(name: str, gas_constant: float, pressure: float, temperature: float) -> float:
    """Return rho = p_abs / (R T), the ideal gas law [kg/m3]."""
    absolute = to_absolute(pressure)
    low, high = GAS_TEMPERATURES
    if not (0 <= absolute <= GAS_GREATEST_PRESSURE and low <= temperature <= high):
        raise OutOfRange(
            f"{name} at {to_bar(pressure):g} bar(g), {temperature:g} degC is outside 0 to 50 bar(a), {low:g} to "
            f"{high:g} degC, where it is taken as an ideal gas."
        )
    return absolute / (gas_constant * (temperature - ABSOLUTE_ZERO))


def _boiled(pressure: float, temperature: float) -> float:
    """Return the temperature of condensate: that of boiling where it would be hotter and can boil [degC]."""
    if not LEAST_SATURATION_PRESSURE <= to_absolute(pressure) <= CRITICAL_PRESSURE:
        return temperature
    return min(temperature, saturation_temperature(pressure))


def _typed(medium: str, typed: float | None) -> float:
    """Return the density that the user states for thermal oil; refuse silence there, and a density elsewhere."""
    if medium != "thermal oil":
        raise OutOfRange(f"the density of {medium} follows from its pressure and temperature. Leave the density out.")
    if typed is None:
        raise OutOfRange("thermal oil has no density in the library. State it, in kg/m3, with its source.")
    if not (math.isfinite(typed) and typed > 0):
        raise OutOfRange(f"a density of thermal oil of {typed:g} kg/m3 is not above zero.")
    return typed
