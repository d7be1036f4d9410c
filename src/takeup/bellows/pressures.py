"""How much pressure bellows bear, criterion by criterion.     (bellows/pressures.py)

Every criterion of `acceptance` grows in proportion to pressure, so that the criterion at one pascal gives the pressure
at which it is full. All standards' criteria are listed; the least of them is the limit, and its name says whose
it is. Movement and life are no part of this: bellows/envelope.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms import acceptance, published
from takeup.bellows.geometry import Array, Bellows


@dataclass(frozen=True, kw_only=True, slots=True)
class PressureLimit:
    """The greatest pressure of one criterion at temperature.

    Args:
        name: of the criterion. source: whose it is.
        outside: whether the pressure is from outside.
        pressure: magnitude [Pa], shape (n,); nan where it does not apply or lacks a datum.
    """

    name: str
    source: str
    outside: bool
    pressure: Array


@dataclass(frozen=True, kw_only=True, slots=True)
class PressureLimits:
    """All pressure limits of n bellows.

    Args:
        criteria: for pressure inside, then from outside.
        inside: the least for pressure inside [Pa], shape (n,); nan where no criterion is known.
        inside_by: its name and source; "" where none is known.
        outside: the same from outside, a magnitude. outside_by: its name and source.
    """

    criteria: tuple[PressureLimit, ...]
    inside: Array
    inside_by: tuple[str, ...]
    outside: Array
    outside_by: tuple[str, ...]


def pressure_limits(shape: Bellows, metal: Metal) -> PressureLimits:
    """Return the greatest pressures of bellows at the temperature of their metal.

    Args:
        shape: n bellows.
        metal: at temperature; without an allowable stress or a yield strength the criteria that need it are nan.
    """
    criteria = (*_criteria(shape, metal, outside=False), *_criteria(shape, metal, outside=True))
    inside, inside_by = _least(tuple(one for one in criteria if not one.outside), len(shape))
    outside, outside_by = _least(tuple(one for one in criteria if one.outside), len(shape))
    return PressureLimits(criteria=criteria, inside=inside, inside_by=inside_by, outside=outside, outside_by=outside_by)


def _criteria(shape: Bellows, metal: Metal, *, outside: bool) -> tuple[PressureLimit, ...]:
    """Return the criteria for one sense of pressure: capacity over demand of one pascal."""
    unstated = np.full(len(shape), np.nan)
    one_pascal = Duty(
        pressure=np.full(len(shape), -1.0 if outside else 1.0),
        **dict.fromkeys(("temperature", "axial", "lateral", "angular", "cycles"), unstated),
    )
    limits = acceptance(published(shape, metal, one_pascal), metal, one_pascal)
    found = (
        PressureLimit(
            name=limit.name,
            source=limit.source,
            outside=outside,
            pressure=np.asarray(limit.capacity / limit.demand),
        )
        for limit in limits
        if limit.unit == "Pa"
    )
    wrong_sense = ("column squirm", "in-plane squirm") if outside else ("collapse, pressure from outside",)
    return tuple(one for one in found if one.name not in wrong_sense)


def _least(criteria: tuple[PressureLimit, ...], count: int) -> tuple[Array, tuple[str, ...]]:
    """Return the least of some criteria and what it is called, shape (n,) each."""
    every = np.array([np.where(np.isnan(one.pressure), np.inf, one.pressure) for one in criteria])
    first = every.argmin(axis=0)
    least = every[first, np.arange(count)]
    known = np.isfinite(least)
    names = tuple(
        f"{criteria[number].name} ({criteria[number].source})" if there else ""
        for number, there in zip(first.tolist(), known.tolist(), strict=True)
    )
    return np.where(known, least, np.nan), names


__all__ = ["PressureLimit", "PressureLimits", "pressure_limits"]
