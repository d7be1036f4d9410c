"""Facts with their sources: the records that the library's tables become.     (library/records.py)

A `Source` says where a number came from and whether it was read there or recalled; papers print it.
Look-ups are exact or they refuse (`OutOfRange`, or KeyError-free `UnknownName` with the nearest names).
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from typing import Literal

from takeup.errors import OutOfRange, TakeupError

Status = Literal["read", "from memory", "user's data"]


class UnknownName(TakeupError, LookupError):
    """A name that a table does not hold; `known` lists what it does hold, nearest first."""

    def __init__(self, message: str, known: tuple[str, ...]) -> None:
        self.known = known
        super().__init__(message)


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """Where a fact came from: standard, edition, table; and whether it was read or is from memory."""

    words: str
    status: Status


@dataclass(frozen=True, kw_only=True, slots=True)
class PipeSize:
    """A nominal size: `dn` ("DN 200"), `nps` ("NPS 8"), outside diameter [m]; `nps_inch` as a number.

    `table` is the table of sizes it belongs to. A copper tube has no nominal size but its outside diameter: `dn` and
    `nps` are both "copper 54 mm", and `nps_inch` is the outside diameter in inches. A rule for steel pipe sizes asks
    for `table` first.
    """

    dn: str
    nps: str
    nps_inch: float
    outside_diameter: float
    source: Source
    table: str = "ASME B36.10M"


@dataclass(frozen=True, kw_only=True, slots=True)
class Curve:
    """A tabulated property against temperature [degC], linear between rows; refuses outside them.

    `statuses` says of each row whether it was read or recalled, `row_sources` where it stands (empty when `source`
    speaks for every row). `source` names the table as a whole; `table` is where a person finds its last row.
    """

    what: str
    temperatures: tuple[float, ...]
    values: tuple[float, ...]
    statuses: tuple[Status, ...]
    source: Source
    row_sources: tuple[Source, ...] = ()
    table: str = ""

    def __post_init__(self) -> None:
        lengths = {len(self.temperatures), len(self.values), len(self.statuses)}
        assert len(lengths) == 1, "a row has a temperature, a value and a status"
        assert len(self.row_sources) in {0, len(self.values)}, "every row has a source, or the table speaks for all"
        assert list(self.temperatures) == sorted(set(self.temperatures)), "temperatures rise from row to row"

    def at(self, temperature: float, *, asked: str = "temperature") -> float:
        """Return the value at a temperature, linear between the two rows beside it.

        Args:
            temperature: Temperature [degC].
            asked: What this temperature is, as the message calls it ("design temperature").

        Returns:
            The property, in the unit of the curve.

        Raises:
            OutOfRange: The temperature is outside the rows of the table.
        """
        low, high = self._rows_beside(temperature, asked)
        if low == high:
            return self.values[low]
        share = (temperature - self.temperatures[low]) / (self.temperatures[high] - self.temperatures[low])
        return self.values[low] + share * (self.values[high] - self.values[low])

    def status_at(self, temperature: float) -> Status:
        """Return "from memory" (or "user's data") when a row beside this temperature is, else "read"."""
        beside = {self.statuses[row] for row in self._rows_beside(temperature, "temperature")}
        return "from memory" if "from memory" in beside else "user's data" if "user's data" in beside else "read"

    def sources_at(self, temperature: float) -> tuple[Source, ...]:
        """Return the sources of the one or two rows that the value at this temperature rests on."""
        if not self.row_sources:
            return (self.source,)
        beside = (self.row_sources[row] for row in self._rows_beside(temperature, "temperature"))
        return tuple(dict.fromkeys(beside))

    def _rows_beside(self, temperature: float, asked: str) -> tuple[int, int]:
        """Return the numbers of the rows below and above; the same one twice when the temperature is a row's."""
        first, last = self.temperatures[0], self.temperatures[-1]
        if not first <= temperature <= last:
            side, end, limit = ("below", "first", first) if temperature < first else ("above", "last", last)
            place = f" ({self.table})" if self.table else ""
            message = (
                f"{asked} {temperature:g} degC is {side} {limit:.4g} degC, the {end} row for {self.what}{place}. "
                f"Choose a material tabulated to {temperature:g} degC, or another {asked}."
            )
            raise OutOfRange(message)
        high = bisect_left(self.temperatures, temperature)
        return (high, high) if self.temperatures[high] == temperature else (high - 1, high)


@dataclass(frozen=True, kw_only=True, slots=True)
class Material:
    """A material: expansion [m/m], modulus [Pa], density [kg/m3], Poisson's ratio.

    Expansion is strain from the reference temperature of its table, 21.1 degC (70 degF) or 20 degC: growth is a
    difference of two strains, in which the reference drops out.
    """

    name: str
    expansion: Curve
    modulus: Curve
    density: float
    poisson: float
    density_source: Source
    poisson_source: Source


@dataclass(frozen=True, kw_only=True, slots=True)
class Cladding:
    """Sheet round the insulation: thickness [m], density of the metal with its source [kg/m3]."""

    kind: str
    thickness: float
    density: float
    source: Source


@dataclass(frozen=True, kw_only=True, slots=True)
class Insulation:
    """Insulation round the pipe: thickness [m], density with its source [kg/m3]; the sheet round it, if any."""

    kind: str
    thickness: float
    density: float
    source: Source
    cladding: Cladding | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Friction:
    """A friction pair or the user's range: coefficient between `low` and `high`."""

    words: str
    low: float
    high: float
    source: Source
