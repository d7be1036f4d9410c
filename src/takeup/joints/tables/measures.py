"""The units that may end the name of a column, by what it measures.     (joints/tables/measures.py)

Each measure has a unit of ours first, in which tables are stored, and those of other people's tables. Factors are those
of `units.py`. Pressures are gauge pressures; a temperature in kelvin is an absolute one.
"""

from __future__ import annotations

from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from takeup.units import ABSOLUTE_ZERO, UNITS, Kind, Unit

Measure = Literal[
    "size",
    "length",
    "pressure",
    "temperature",
    "rate",
    "angular rate",
    "torque",
    "area",
    "weight",
    "angle",
    "modulus",
    "force",
]


def _of(kind: Kind, spellings: dict[str, str]) -> dict[str, Unit]:
    return {suffix: UNITS[kind][spelling] for suffix, spelling in spellings.items()}


_KGF = UNITS["force"]["kgf"].factor

SUFFIXES: Final[dict[Measure, dict[str, Unit]]] = {
    "size": {"dn": Unit(factor=1.0), "nps": Unit(factor=1.0)},  # an NPS is looked up, not converted
    "length": _of("length", {one: one for one in ("mm", "cm", "m", "in", "ft")}),
    "pressure": _of(
        "pressure",
        {"bar": "barg", "barg": "barg", "psi": "psig", "psig": "psig", "kpa": "kPag", "mpa": "MPag"},
    )
    | {"kgf_per_cm2": Unit(factor=_KGF / 1e-4)},
    "temperature": _of("temperature", {"c": "degC", "f": "degF"}) | {"k": Unit(factor=1.0, zero=-ABSOLUTE_ZERO)},
    "rate": _of("force per length", {"n_per_mm": "N/mm", "kn_per_m": "kN/m", "lbf_per_in": "lbf/in"})
    | {"kgf_per_mm": Unit(factor=_KGF / 1e-3)},
    "angular rate": _of(
        "moment per angle",
        {
            "nm_per_deg": "N·m/deg",
            "nm_per_rad": "N·m/rad",
            "lbf_in_per_deg": "lbf·in/deg",
            "lbf_ft_per_deg": "lbf·ft/deg",
        },
    ),
    "torque": _of("moment", {"nm": "N·m", "lbf_in": "lbf·in", "lbf_ft": "lbf·ft"}),
    "area": _of("area", {one: one for one in ("mm2", "cm2", "m2", "in2")}),
    "weight": _of("weight", {"kg": "kg", "n": "N", "lb": "lb"}),
    "angle": _of("angle", {"deg": "deg", "rad": "rad"}),
    "modulus": _of("stress", {"mpa": "MPa", "gpa": "GPa", "psi": "psi", "ksi": "ksi"}),
    "force": _of("force", {"n": "N", "kn": "kN", "lbf": "lbf"}),
}
"""Of each measure, ours first. SI value = (number - zero) * factor."""

SHOWN: Final[dict[str, str]] = {
    "bar": "bar",
    "c": "°C",
    "n_per_mm": "N/mm",
    "nm_per_deg": "N·m/°",
    "nm": "N·m",
    "mm2": "mm²",
    "deg": "°",
    "mpa": "MPa",
    "n": "N",
    "dn": "",
}
"""Units of ours as people write them, where the suffix is not the unit."""


def ours(measure: Measure) -> str:
    """Return the suffix in which tables are stored."""
    return next(iter(SUFFIXES[measure]))


def in_ours(numbers: NDArray[np.float64], measure: Measure, suffix: str) -> NDArray[np.float64]:
    """Return numbers of a column in our unit; those that have it already stay as they are, to the last digit."""
    unit, own = SUFFIXES[measure][suffix], SUFFIXES[measure][ours(measure)]
    return numbers if unit == own else (numbers - unit.zero) * unit.factor / own.factor + own.zero


def in_si(numbers: NDArray[np.float64], measure: Measure) -> NDArray[np.float64]:
    """Return numbers in our unit as SI values; of a size, its DN."""
    own = SUFFIXES[measure][ours(measure)]
    return (numbers - own.zero) * own.factor


__all__ = ["SHOWN", "SUFFIXES", "Measure", "in_ours", "in_si", "ours"]
