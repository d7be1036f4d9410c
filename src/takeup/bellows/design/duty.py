"""What a bellows to be designed must do, and what it may be made from.     (bellows/design/duty.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.library.tables import rows

DesignCurve: TypeAlias = Literal["ASME design", "EN design"]
DESIGN_CURVES: tuple[DesignCurve, ...] = ("ASME design", "EN design")
FULL_VACUUM = 101_325.0
"""Pressure of the atmosphere above none inside [Pa]."""

_PLIES = (1, 2, 3, 4)  # common practice, no source; the codes go to five


@dataclass(frozen=True, kw_only=True, slots=True)
class Stock:
    """What a bellows may be made from.

    Args:
        thicknesses: of one ply as bought, rising [m].
        plies: numbers of plies, rising.
        words: whose stock it is.
    """

    thicknesses: tuple[float, ...]
    plies: tuple[int, ...]
    words: str


def own_stock() -> Stock:
    """Return the thicknesses of data/stock.csv in one to four plies: common practice, no source."""
    found = rows("stock.csv", "takeup.bellows")
    return Stock(
        thicknesses=tuple(float(row["ply_thickness_mm"]) / 1e3 for row in found),
        plies=_PLIES,
        words="thicknesses and plies of bellows/data/stock.csv: common practice, no source",
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class DesignDuty:
    """What is asked of one bellows; the metals are records of one bellows, shape (1,).

    Args:
        inside_diameter: D_b [m].
        tangent_length: L_t at each end, 0 for none [m].
        pressure: inside above outside [Pa]; below zero from outside.
        test_pressure: magnitude, in the sense of the pressure [Pa]; nan where there is none.
        vacuum: whether the inside may be empty of all pressure.
        temperature: of the metal [degC].
        axial: range of the whole bellows [m]. lateral: ends parallel [m]. angular: between the ends [rad].
        cycles: wanted.
        curve: of design life.
        metal: at the temperature, with allowable stress and yield strength.
        cold_metal: at room temperature, for the test, with the stress allowed there.
        density: of the metal [kg/m3].
        stock: to make it from.
        most_outside_diameter: limit [m]; infinite where there is none.
        most_length: limit of all convolutions and tangents together [m]; infinite where there is none.
    """

    inside_diameter: float
    tangent_length: float
    pressure: float
    test_pressure: float
    vacuum: bool
    temperature: float
    axial: float
    lateral: float
    angular: float
    cycles: float
    curve: DesignCurve
    metal: Metal
    cold_metal: Metal
    density: float
    stock: Stock
    most_outside_diameter: float = np.inf
    most_length: float = np.inf


def many(metal: Metal, count: int) -> Metal:
    """Return the metal of one bellows as that of so many."""
    arrays = {name: np.repeat(getattr(metal, name), count) for name in Metal.__dataclass_fields__ if name != "family"}
    return Metal(**arrays, family=metal.family * count)


def asked(duty: DesignDuty, count: int, *, pressure: float | None = None) -> Duty:
    """Return what is asked of so many bellows, at another pressure where one is given."""
    values = {
        "pressure": duty.pressure if pressure is None else pressure,
        "temperature": duty.temperature,
        "axial": duty.axial,
        "lateral": duty.lateral,
        "angular": duty.angular,
        "cycles": duty.cycles,
    }
    return Duty(**{name: np.full(count, value) for name, value in values.items()})


__all__ = ["DESIGN_CURVES", "FULL_VACUUM", "DesignCurve", "DesignDuty", "Stock", "asked", "many", "own_stock"]
