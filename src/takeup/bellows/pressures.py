"""How much pressure bellows bear, criterion by criterion.     (bellows/pressures.py)

Every criterion of `acceptance` grows in proportion to pressure, so that the criterion at one pascal gives the pressure
at which it is full. All standards' criteria are listed; the least of them is the limit, and its name says whose
it is. Where one of them lacks a datum there is no limit, since that one might be the least: only the least of the
others, under a name of its own. Movement and life are no part of this: bellows/envelope.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms import acceptance, published
from takeup.bellows.forms.limits import COLLAPSE
from takeup.bellows.geometry import Array, Bellows

_BEYOND = "outside the range of the published form"


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
class LeastPressure:
    """The least of the criteria of one sense of pressure, for n bellows.

    Args:
        limit: of all criteria that apply [Pa], shape (n,); nan where one of them could not be reckoned.
        reckoned: of those that could be [Pa], shape (n,); nan where none could.
        by: name and source of that one; "" where there is none.
        lacks: why a criterion that applies could not be reckoned, in words; "" where all could.
    """

    limit: Array
    reckoned: Array
    by: tuple[str, ...]
    lacks: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class PressureLimits:
    """All pressure limits of n bellows.

    Args:
        criteria: for pressure inside, then from outside.
        from_inside: the least for pressure inside.
        from_outside: the same from outside, a magnitude.
    """

    criteria: tuple[PressureLimit, ...]
    from_inside: LeastPressure
    from_outside: LeastPressure

    @property
    def inside(self) -> Array:
        """Return the limit for pressure inside [Pa], shape (n,); nan where a criterion could not be reckoned."""
        return self.from_inside.limit

    @property
    def outside(self) -> Array:
        """Return the limit for pressure from outside [Pa], shape (n,), likewise."""
        return self.from_outside.limit

    @property
    def inside_by(self) -> tuple[str, ...]:
        """Return name and source of the least that could be reckoned for pressure inside."""
        return self.from_inside.by

    @property
    def outside_by(self) -> tuple[str, ...]:
        """Return the same for pressure from outside."""
        return self.from_outside.by


def pressure_limits(shape: Bellows, metal: Metal, *, folding: Array | None = None) -> PressureLimits:
    """Return the greatest pressures of bellows at the temperature of their metal.

    Args:
        shape: n bellows.
        metal: at temperature; without an allowable stress or a yield strength the criteria that need it are nan.
        folding: pressure from outside at which the shell folds, elastic [Pa], shape (n,), nan where not computed; then
            collapse is that of the rings alone.
    """
    inside = _criteria(shape, metal, outside=False, folding=folding)
    outside = _criteria(shape, metal, outside=True, folding=folding)
    return PressureLimits(
        criteria=(*inside, *outside),
        from_inside=_least(inside, shape, metal),
        from_outside=_least(outside, shape, metal),
    )


def _criteria(shape: Bellows, metal: Metal, *, outside: bool, folding: Array | None) -> tuple[PressureLimit, ...]:
    """Return the criteria for one sense of pressure: capacity over demand of one pascal."""
    unstated = np.full(len(shape), np.nan)
    one_pascal = Duty(
        pressure=np.full(len(shape), -1.0 if outside else 1.0),
        **dict.fromkeys(("temperature", "axial", "lateral", "angular", "cycles"), unstated),
    )
    limits = acceptance(published(shape, metal, one_pascal), metal, one_pascal, folding=folding)
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
    wrong_sense = ("column squirm", "in-plane squirm") if outside else (COLLAPSE,)
    return tuple(one for one in found if one.name not in wrong_sense)


def _least(criteria: tuple[PressureLimit, ...], shape: Bellows, metal: Metal) -> LeastPressure:
    """Return the least of the criteria of one sense of pressure."""
    count = len(shape)
    every = np.array([np.where(np.isnan(one.pressure), np.inf, one.pressure) for one in criteria])
    first = every.argmin(axis=0)
    least = every[first, np.arange(count)]
    known = np.isfinite(least)
    lacks = _lacks(criteria, shape, metal)
    complete = np.array([not words for words in lacks], dtype=bool)
    return LeastPressure(
        limit=np.where(known & complete, least, np.nan),
        reckoned=np.where(known, least, np.nan),
        by=tuple(
            f"{criteria[number].name} ({criteria[number].source})" if there else ""
            for number, there in zip(first.tolist(), known.tolist(), strict=True)
        ),
        lacks=lacks,
    )


def _lacks(criteria: tuple[PressureLimit, ...], shape: Bellows, metal: Metal) -> tuple[str, ...]:
    """Return for each bellows why some criteria that apply to it could not be reckoned."""
    said: list[dict[str, list[str]]] = [{} for _ in range(len(shape))]
    folds = np.zeros(len(shape), dtype=bool)
    for one in criteria:
        folds |= ~np.isnan(one.pressure) if one.name == COLLAPSE else False
    for one in criteria:
        missing = np.isnan(one.pressure)
        if one.name.startswith("S1"):
            missing &= shape.tangent_length > 0.0
        if one.name == COLLAPSE:
            missing &= ~folds
        for row in np.flatnonzero(missing).tolist():
            names = said[row].setdefault(_why(one.name, metal, row), [])
            if one.name not in names:
                names.append(one.name)
    return tuple(
        ", ".join(f"{why} ({', '.join(names)})" if why == _BEYOND else why for why, names in one.items())
        for one in said
    )


def _why(name: str, metal: Metal, row: int) -> str:
    """Return why a criterion could not be reckoned for one bellows."""
    if name.startswith("S") and np.isnan(metal.allowable[row]):
        return "allowable stress not stated"
    if "squirm" in name and np.isnan(metal.yield_strength[row]):
        return "yield strength not stated"
    return _BEYOND


__all__ = ["LeastPressure", "PressureLimit", "PressureLimits", "pressure_limits"]
