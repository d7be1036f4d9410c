"""The joints' part of results.json: their data and their hardware, as given.     (results/joint_data.py)"""

from __future__ import annotations

from takeup.joints import Balance, Pins, Rates, Rods
from takeup.line import TakeUp
from takeup.results.plain import Json
from takeup.units import to_bar, to_deg, to_mm, to_mm2, to_mpa, to_n_per_mm, to_nm_per_deg


def joint_data_part(item: TakeUp, rates: Rates) -> Json:
    """Return the data of a joint, with the rates that the model uses."""
    data = item.data
    return {
        "axial_rate_n_per_mm": to_n_per_mm(rates.axial),
        "lateral_rate_n_per_mm": to_n_per_mm(rates.lateral),
        "angular_rate_nm_per_deg": to_nm_per_deg(rates.angular),
        "torsion_rate_nm_per_deg": to_nm_per_deg(rates.torsion),
        "rate_scatter": data.rate_scatter,
        "effective_area_mm2": to_mm2(data.effective_area),
        "length_mm": to_mm(data.length),
        "live_length_mm": to_mm(data.live_length),
        "centres_mm": None if data.centres is None else to_mm(data.centres),
        "weight_n": data.weight,
        "axial_compression_mm": to_mm(data.axial_compression),
        "axial_extension_mm": to_mm(data.axial_extension),
        "lateral_mm": None if data.lateral is None else to_mm(data.lateral),
        "angular_deg": None if data.angular is None else to_deg(data.angular),
        "torque_nm": data.torque,
        "pressure_bar": to_bar(data.pressure),
        "test_pressure_bar": None if data.test_pressure is None else to_bar(data.test_pressure),
        "minimum_pressure_bar": None if data.minimum_pressure is None else to_bar(data.minimum_pressure),
        "temperature_c": data.temperature,
        "rated_cycles": data.rated_cycles,
        "rods": _rods(item.rods),
        "pins": _pins(item.pins),
        "balance": _balance(item.balance),
    }


def _rods(rods: Rods | None) -> Json:
    if rods is None:
        return None
    return {
        "count": rods.count,
        "diameter_mm": to_mm(rods.diameter),
        "circle_mm": to_mm(rods.circle),
        "gap_mm": to_mm(rods.gap),
        "length_mm": to_mm(rods.length),
        "modulus_mpa": to_mpa(rods.modulus),
        "expansion_per_k": rods.expansion,
        "can_carry_n": rods.can_carry,
        "yield_strength_mpa": None if rods.yield_strength is None else to_mpa(rods.yield_strength),
        "source": rods.source,
    }


def _pins(pins: Pins | None) -> Json:
    if pins is None:
        return None
    rubs = pins.friction
    return {
        "along": list(pins.along),
        "way": pins.way,
        "spread_mm": to_mm(pins.spread),
        "diameter_mm": to_mm(pins.diameter),
        "width_mm": to_mm(pins.width),
        "thickness_mm": to_mm(pins.thickness),
        "length_mm": to_mm(pins.length),
        "modulus_mpa": to_mpa(pins.modulus),
        "expansion_per_k": pins.expansion,
        "friction_low": None if rubs is None else rubs.low,
        "friction_high": None if rubs is None else rubs.high,
        "friction_source": None if rubs is None else rubs.source.words,
        "can_carry_n": pins.can_carry,
        "yield_strength_mpa": None if pins.yield_strength is None else to_mpa(pins.yield_strength),
        "source": pins.source,
    }


def _balance(balance: Balance | None) -> Json:
    if balance is None:
        return None
    return {
        "axial_rate_n_per_mm": to_n_per_mm(balance.axial_rate),
        "effective_area_mm2": to_mm2(balance.effective_area),
        "can_carry_n": balance.can_carry,
        "can_be_pushed_n": balance.can_be_pushed,
        "source": balance.source,
    }
