"""Prices by size and by load: between sizes in proportion, of loads in brackets.     (choose/arrange/price_tables.py)

A size is a number: that of DN, or the outside diameter in millimetres of a copper tube, which has no DN. Outside the
sizes of a table there is no price, and asking for one is refused. A load past the last bracket has one, in proportion:
an anchor is mostly steel, and a search may ask for loads that nobody would build for.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import overload

import numpy as np
from numpy.typing import NDArray

from takeup.errors import OutOfRange

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class SizeTable:
    """Prices of one thing by size.

    Args:
        what: it is.
        sizes: rising.
        prices: of each size.
        place: where it stands, `file:line:column: `, before what is said of it; "" where it is of no file.
    """

    what: str
    sizes: tuple[float, ...]
    prices: tuple[float, ...]
    place: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        assert len(self.sizes) == len(self.prices) > 0, "a price for each size"
        assert all(less < more for less, more in pairwise(self.sizes)), "sizes rise"

    def at(self, size_dn: float) -> float:
        """Return the price of a size; between two sizes of the table in proportion.

        Raises:
            OutOfRange: The size is smaller or larger than every one of the table.
        """
        if not self.sizes[0] <= size_dn <= self.sizes[-1]:
            raise OutOfRange(
                f"{self.place}{self.what}: no price for size {size_dn:g}; the prices know sizes {self.sizes[0]:g} to "
                f"{self.sizes[-1]:g} (DN; of a tube without one, its outside diameter in mm). Add one to the price file"
            )
        after = bisect_left(self.sizes, size_dn)
        if self.sizes[after] == size_dn:
            return self.prices[after]
        low, high = self.sizes[after - 1], self.sizes[after]
        share = (size_dn - low) / (high - low)
        return (1.0 - share) * self.prices[after - 1] + share * self.prices[after]


@dataclass(frozen=True, kw_only=True, slots=True)
class Brackets:
    """Prices of anchors by the greatest force on them: each up to its limit [N]; both rise, prices need not."""

    limits: tuple[float, ...]
    prices: tuple[float, ...]

    def __post_init__(self) -> None:
        assert len(self.limits) == len(self.prices) > 0, "a price for each bracket"
        assert all(less < more for less, more in pairwise((0.0, *self.limits))), "limits rise, above zero"
        assert self.prices[0] > 0.0, "no anchor is free, or one past the last bracket would be"
        assert all(less <= more for less, more in pairwise(self.prices)), "no stronger anchor is cheaper"

    @overload
    def at(self, load: float) -> float: ...

    @overload
    def at(self, load: Floats) -> Floats: ...

    def at(self, load: float | Floats) -> float | Floats:
        """Return the price of anchors, never less for a greater load.

            price of the first bracket whose limit >= load;   last price x load / last limit   past the last

        Args:
            load: greatest force on each [N], of any shape; infinite ones have an infinite price.

        Raises:
            OutOfRange: A load is below zero, or no number.
        """
        loads = np.asarray(load, dtype=np.float64)
        if not (loads >= 0.0).all():
            raise OutOfRange("the load of an anchor is the size of a force, zero or above")
        bracket = np.searchsorted(self.limits, loads, side="left")
        within = np.append(self.prices, self.prices[-1])[bracket]
        found = np.where(bracket < len(self.limits), within, self.prices[-1] * (loads / self.limits[-1]))
        return np.asarray(found) if isinstance(load, np.ndarray) else float(found)

    def limit_of(self, load: float) -> float | None:
        """Return the limit of the bracket that a load falls in [N]; None past the last."""
        return next((limit for limit in self.limits if load <= limit), None)


def known(tables: Mapping[str, SizeTable], kind: str) -> SizeTable:
    """Return the table of a kind.

    Raises:
        OutOfRange: There is none.
    """
    if kind not in tables:
        raise OutOfRange(f"{kind}: the prices have none; they know {', '.join(tables)}. Add it to the price file")
    return tables[kind]


__all__ = ["Brackets", "SizeTable", "known"]
