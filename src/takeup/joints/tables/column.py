"""What a column of a table is: of numbers with their limits, or of words.     (joints/tables/column.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.joints.data import TakeUpKind
from takeup.joints.tables.measures import SHOWN, Measure, ours


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """A column of numbers.

    Args:
        name: without its unit.
        field: of `SeriesTable.numbers`.
        meaning: in words.
        measure: what it measures; None for a plain number.
        needed: kinds whose rows cannot be without.
        spared: kinds whose rows cannot have it, though all others need it.
        above: least value, itself excluded, in our unit; None where there is none.
        least: least value, in our unit.
        most: greatest value, in our unit.
        whole: whether it is a whole number.
    """

    name: str
    field: str
    meaning: str
    measure: Measure | None = None
    needed: tuple[TakeUpKind, ...] = ()
    spared: tuple[TakeUpKind, ...] = ()
    above: float | None = None
    least: float | None = None
    most: float | None = None
    whole: bool = False

    @property
    def ours(self) -> str:
        """Its name with our unit."""
        return self.name if self.measure is None else f"{self.name}_{ours(self.measure)}"

    @property
    def unit(self) -> str:
        """Our unit as people write it; "" for a plain number."""
        suffix = "" if self.measure is None else ours(self.measure)
        return SHOWN.get(suffix, suffix)

    @property
    def limits(self) -> str:
        """What values may be, in our unit."""
        low = f"above {self.above:g}" if self.above is not None else ""
        low = f"from {self.least:g}" if self.least is not None else low
        words = " ".join(part for part in (low, "" if self.most is None else f"up to {self.most:g}") if part)
        return f"{words} {self.unit}".rstrip() if words else ""

    def broken(self, value: float) -> str:
        """Return which limit a value in our unit breaks, in words; empty when none."""
        mark = f" {self.unit}" if self.unit else ""
        if self.above is not None and value <= self.above:
            return f"it must be above {self.above:g}{mark}"
        if self.least is not None and value < self.least:
            return f"it must not be below {self.least:g}{mark}"
        if self.most is not None and value > self.most:
            return f"it is above {self.most:g}{mark}{'; is its unit right?' if mark else ''}"
        return "it must be a whole number" if self.whole and value != round(value) else ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Words:
    """A column of words: `known` ones only, any where there are none; `needed` and `measure` as of numbers."""

    name: str
    meaning: str
    needed: tuple[TakeUpKind, ...] = ()
    known: tuple[str, ...] = ()
    measure: Measure | None = None

    @property
    def ours(self) -> str:
        """Its name with our unit."""
        return self.name if self.measure is None else f"{self.name}_{ours(self.measure)}"


__all__ = ["Column", "Words"]
