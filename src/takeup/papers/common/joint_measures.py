"""How what is certified of a joint is written: one table for the papers and the terminal. (common/joint_measures.py)

A weight has no measure of `Units` that fits here: it is what a crane lifts and what tables of joints give, kilograms or
pounds, where `Units.weight` is the force of it. A torque is in newton metres, for kilonewtons would show none of a
small one.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import Final, Literal

from takeup.edge import Measure, System, Units
from takeup.joints.tables.column import Column
from takeup.units import UNITS

WeightIn = Literal["N", "kg"]
"""What a weight's number is in before it is written: newtons in results.json, kilograms in a comparison."""

_PRINTED: Final = MappingProxyType({"si": "kg", "us": "lb"})


def measure_of(column: Column, units: Units, weight_in: WeightIn = "N") -> Measure:
    """Return how a quantity is written.

    Args:
        column: that a table of joints has for it; but for a weight its number is in the unit of this column.
        units: to write in.
        weight_in: what a weight's number is in.
    """
    return {
        None: units.of_check(""),
        "size": units.of_check(""),
        "length": units.small,
        "pressure": units.pressure,
        "temperature": units.temperature,
        "rate": units.rate,
        "angular rate": units.angular_rate,
        "torque": torque_measure(units),
        "area": units.area,
        "weight": _weight(units.system, weight_in).marked(units.force.mark),
        "angle": units.of_check("deg"),
        "modulus": units.stress,
        "force": units.force,
    }[column.measure]


def torque_measure(units: Units) -> Measure:
    """Return how a torque of a joint is written."""
    return Measure(unit="N·m", mark=units.force.mark) if units.system == "si" else units.moment


def _weight(system: System, weight_in: WeightIn) -> Measure:
    """Return how a weight is written; pounds are shown without the decimals that converting adds."""
    sizes, unit = UNITS["weight"], _PRINTED[system]
    us = system == "us"
    size = sizes[unit].factor / sizes[weight_in].factor
    return Measure(unit=unit, size=size, grouped=us, rounded=2 if us else None)


__all__ = ["WeightIn", "measure_of", "torque_measure"]
