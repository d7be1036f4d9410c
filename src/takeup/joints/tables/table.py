"""A series of joints by columns, in SI.     (joints/tables/table.py)

Numbers stand in arrays of one value a row, NaN where a cell is empty, so that a place is asked of all rows at once;
`data`, `hardware` and `shape` make the records of one row.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.bellows.geometry import Bellows, bellows
from takeup.joints.data import JointData, JointEnds, TakeUpKind
from takeup.joints.hardware import Balance, Pins, PinsLie, Rods
from takeup.joints.links import Hardware
from takeup.library import Friction, Source

Floats = NDArray[np.float64]
Derating = tuple[tuple[float, float], ...]
"""Temperature [degC] and the share of the rated pressure that is left there, rising in temperature."""

NUMBERS = (
    "size_dn",
    "pressure",
    "test_pressure",
    "minimum_pressure",
    "temperature",
    "rated_cycles",
    "life_exponent",
    "axial_compression",
    "axial_extension",
    "lateral",
    "angular",
    "axial_rate",
    "lateral_rate",
    "angular_rate",
    "torsion_rate",
    "torque",
    "effective_area",
    "length",
    "live_length",
    "centres",
    "drop",
    "weight",
    "price_index",
    "cold_share",
)
"""Arrays that every table has, in SI: [Pa], [degC], [m], [rad], [N/m], [N m/rad], [N m], [m2], [N]; DN, cycles, the
index and the exponent are plain. Rates are as the table states them; times `cold_share` they are those at room
temperature, where forces are greatest (1 where the bellows' material is not known)."""

GEOMETRY = (
    "inside_diameter",
    "height",
    "pitch",
    "convolutions",
    "plies",
    "ply_thickness",
    "crest_radius",
    "root_radius",
    "tangent_length",
    "collar_thickness",
    "collar_length",
)
"""Arrays of each bellows [m], as `Bellows` has them; NaN throughout where a row gives no geometry."""

RODS = ("rod_count", "rod_diameter", "rod_circle", "rod_gap", "rod_modulus", "rod_can_carry")
"""Arrays of rods: count, [m], [m], [m], [Pa], [N]; NaN throughout where a row has none."""

PINS = (
    "pin_spread",
    "pin_diameter",
    "plate_width",
    "plate_thickness",
    "plate_length",
    "plate_modulus",
    "pin_friction_low",
    "pin_friction_high",
    "pins_can_carry",
)
"""Arrays of plates and pins: [m] five times, [Pa], [-] twice, [N]; NaN throughout where a row has none."""

BALANCE = ("balance_axial_rate", "balance_effective_area", "balance_can_carry", "balance_can_be_pushed")
"""Arrays of balancing bellows: [N/m], [m2], [N], [N]; NaN throughout where a row has none."""

_SAME_SIZE = 0.5  # of sizes of joints, which are whole numbers


@dataclass(frozen=True, kw_only=True, slots=True)
class Provenance:
    """Where a table is from.

    Args:
        series: its name in line files.
        file: the name of the file it was imported from.
        sha256: of that file.
        dated: the date that its owner gives it; None where not said.
        whose: who certifies it; None where not said.
    """

    series: str
    file: str
    sha256: str
    dated: str | None
    whose: str | None

    @property
    def words(self) -> str:
        """As the papers print it."""
        called = self.series if "series" in self.series.casefold() else f"series {self.series}"
        return (
            f"{called}: {self.file}, SHA-256 {self.sha256[:16]}, "
            f"of {self.whose or 'an owner not said'}, dated {self.dated or 'not said'}"
        )


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class SeriesTable:
    """A series, n rows.

    Args:
        provenance: where it is from.
        names: of the joints, each once.
        kinds: as in a line file.
        ends: how each is joined to its pipe; None where not said.
        materials: of the bellows, as the library names it; "" where not said.
        annealed: whether the bellows are annealed after forming; None where not said.
        notes: what each row says of itself, such as whose it is; "" where nothing.
        derating: of each row; empty where the table has none.
        numbers: the arrays of `NUMBERS`, `GEOMETRY`, `RODS`, `PINS` and `BALANCE`, (n,).
    """

    provenance: Provenance
    names: tuple[str, ...]
    kinds: tuple[TakeUpKind, ...]
    ends: tuple[JointEnds | None, ...]
    materials: tuple[str, ...]
    annealed: tuple[bool | None, ...]
    notes: tuple[str, ...]
    derating: tuple[Derating, ...]
    numbers: Mapping[str, Floats]

    def __len__(self) -> int:
        """Return how many joints it has."""
        return len(self.names)

    @property
    def has_geometry(self) -> NDArray[np.bool_]:
        """Which rows give the geometry of their bellows, (n,)."""
        return np.isfinite(self.numbers["inside_diameter"])

    @property
    def clear(self) -> Floats:
        """What rods or plates of each leave for the pipe between them [m], (n,); infinite where it has none."""
        rods = self.numbers["rod_circle"] - self.numbers["rod_diameter"]
        plates = self.numbers["pin_spread"] - self.numbers["plate_thickness"]
        return np.fmin(np.where(np.isnan(rods), np.inf, rods), np.where(np.isnan(plates), np.inf, plates))

    def of_size(self, number: float) -> NDArray[np.bool_]:
        """Return which joints are of a size, by its number as the library gives it, (n,)."""
        return np.asarray(np.abs(self.numbers["size_dn"] - number) < _SAME_SIZE)

    def data(self, row: int) -> JointData:
        """Return the data of a joint, its rates at room temperature."""

        def said(name: str) -> float | None:
            return _said(float(self.numbers[name][row]))

        def number(name: str) -> float:
            return float(self.numbers[name][row])

        def rate(name: str) -> float | None:
            value = said(name)
            return None if value is None else value * number("cold_share")

        note = f"; {self.notes[row]}" if self.notes[row] else ""
        hangs = said("drop")
        note += "" if hangs is None else f"; hangs {hangs * 1e3:.5g} mm below the middle of its pipe"
        return JointData(
            axial_rate=number("axial_rate") * number("cold_share"),
            lateral_rate=rate("lateral_rate"),
            angular_rate=rate("angular_rate"),
            torsion_rate=rate("torsion_rate"),
            effective_area=number("effective_area"),
            length=number("length"),
            live_length=number("live_length"),
            weight=number("weight"),
            axial_compression=number("axial_compression"),
            axial_extension=number("axial_extension"),
            lateral=said("lateral"),
            angular=said("angular"),
            pressure=number("pressure"),
            test_pressure=said("test_pressure"),
            minimum_pressure=said("minimum_pressure"),
            temperature=number("temperature"),
            rated_cycles=said("rated_cycles"),
            source=f"{self.names[row]}, {self.provenance.words}{note}",
            torque=said("torque"),
            centres=said("centres"),
        )

    def hardware(self, row: int, pins: PinsLie | None = None) -> Hardware:
        """Return the rods, pins or balancing bellows of a joint, cold ones; nothing where it has none.

        Args:
            row: of the joint.
            pins: how its pins lie, which no table says; of no account where it has none.
        """
        return Hardware(rods=self._rods(row), pins=self._pins(row, pins), balance=self._balance(row))

    def _source(self, row: int) -> str:
        return f"{self.names[row]}, {self.provenance.words}"

    def _values(self, row: int, names: tuple[str, ...]) -> list[float]:
        return [float(self.numbers[name][row]) for name in names]

    def _rods(self, row: int) -> Rods | None:
        count, diameter, circle, gap, modulus, carries = self._values(row, RODS)
        if math.isnan(count):
            return None
        return Rods(
            count=int(count),
            diameter=diameter,
            circle=circle,
            gap=gap,
            length=float(self.numbers["length"][row]),
            modulus=modulus,
            expansion=None,
            can_carry=_said(carries),
            source=self._source(row),
        )

    def _pins(self, row: int, lie: PinsLie | None) -> Pins | None:
        spread, diameter, width, thickness, length, modulus, low, high, carries = self._values(row, PINS)
        if math.isnan(spread):
            return None
        assert lie is not None, "a line says how the pins of its joint lie"
        return Pins(
            along=lie.along,
            way=lie.way,
            spread=spread,
            diameter=diameter,
            width=width,
            thickness=thickness,
            length=float(self.numbers["length"][row]) if math.isnan(length) else length,
            modulus=modulus,
            expansion=None,
            friction=Friction(
                words="pin in its hole",
                low=low,
                high=high,
                source=Source(words=self._source(row), status="user's data"),
            ),
            can_carry=_said(carries),
            source=self._source(row),
        )

    def _balance(self, row: int) -> Balance | None:
        rate, area, carries, pushed = self._values(row, BALANCE)
        if math.isnan(rate):
            return None
        return Balance(
            axial_rate=rate * float(self.numbers["cold_share"][row]),
            effective_area=area,
            can_carry=_said(carries),
            can_be_pushed=_said(pushed),
            source=self._source(row),
        )

    def shapes(self, rows: NDArray[np.intp]) -> Bellows:
        """Return the geometry of each bellows of some rows; those must have one."""
        return bellows(**{name: self.numbers[name][rows] for name in GEOMETRY})


def _said(value: float) -> float | None:
    """Return a number, None where a cell is empty."""
    return None if math.isnan(value) else value


__all__ = ["BALANCE", "GEOMETRY", "NUMBERS", "PINS", "RODS", "Derating", "Floats", "Provenance", "SeriesTable"]
