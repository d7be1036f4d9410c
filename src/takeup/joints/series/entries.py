"""The demonstration series as it stands in the tables.     (joints/series/entries.py)

An entry gives the data of a joint and the bellows that it has. Every one says what it is: demonstration data, not any
maker's.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from takeup.bellows.duty import Metal
from takeup.bellows.forms.stiffness import torsion_rate
from takeup.bellows.geometry import Bellows, bellows
from takeup.joints.data import JointData
from takeup.joints.series.columns import FILES, PROVENANCE
from takeup.joints.series.inputs import SERIES_KINDS, SeriesKind, series_inputs
from takeup.joints.series.metals import metal_at
from takeup.library.tables import Row, rows, unknown
from takeup.units import STANDARD_GRAVITY, bar, mm


@dataclass(frozen=True, kw_only=True, slots=True)
class SeriesEntry:
    """A joint of the demonstration series.

    Args:
        name: in the tables.
        kind: as in a line file.
        size: DN.
        data: of the joint, rates raised to room temperature.
        shape: of each of its bellows, of length 1.
        metal: of it at the rated temperature, of length 1.
        material: its name.
        ends: how it is joined to the pipe.
        price_index: invented; no price.
        provenance: what these data are.
    """

    name: str
    kind: SeriesKind
    size: int
    data: JointData
    shape: Bellows
    metal: Metal
    material: str
    ends: str
    price_index: float
    provenance: str


@cache
def entries(kind: SeriesKind | None = None) -> tuple[SeriesEntry, ...]:
    """Return the joints of a kind, or all, in the order of the tables."""
    kinds = SERIES_KINDS if kind is None else (kind,)
    return tuple(_entry(row) for each in kinds for row in rows(FILES[each], "takeup.joints.series"))


def entry(name: str) -> SeriesEntry:
    """Return the joint of this name.

    Raises:
        UnknownName: The series has none; the nearest names come first.
    """
    found = _by_name().get(name)
    if found is None:
        raise unknown("joint of the demonstration series", name, _by_name())
    return found


@cache
def _by_name() -> dict[str, SeriesEntry]:
    return {one.name: one for one in entries()}


def _entry(row: Row) -> SeriesEntry:
    assert row["provenance"] == PROVENANCE, "every row says what it is"
    shape, metal = _shape(row), _metal_at(float(row["temperature_c"]))
    return SeriesEntry(
        name=row["name"],
        kind=next(kind for kind in SERIES_KINDS if kind == row["kind"]),
        size=int(row["size_dn"]),
        data=_data(row, shape, metal),
        shape=shape,
        metal=metal,
        material=row["material"],
        ends=row["ends"],
        price_index=float(row["price_index"]),
        provenance=row["provenance"],
    )


def _data(row: Row, shape: Bellows, metal: Metal) -> JointData:
    """Return the data of a joint: rates at room temperature, where forces are greatest.

    k_cold = k E_o / E_b                                               (linear elasticity)
    """
    cold = float(metal.cold_modulus[0] / metal.modulus[0])
    centres = _length(row, "centres_mm")
    angular = _said(row, "angular_deg")
    return JointData(
        axial_rate=float(row["axial_rate_n_per_mm"]) * 1e3 * cold,
        lateral_rate=float(row["lateral_rate_n_per_mm"]) * 1e3 * cold,
        angular_rate=float(row["angular_rate_nm_per_deg"]) * 180.0 / math.pi * cold,
        torsion_rate=float(torsion_rate(shape, metal.cold_modulus, metal.poisson)[0]),
        effective_area=float(row["effective_area_mm2"]) * 1e-6,
        length=mm(float(row["length_mm"])),
        live_length=mm(float(row["live_length_mm"])),
        weight=float(row["weight_kg"]) * STANDARD_GRAVITY,
        axial_compression=mm(float(row["axial_compression_mm"])),
        axial_extension=mm(float(row["axial_extension_mm"])),
        lateral=_length(row, "lateral_mm"),
        angular=None if angular is None else math.radians(angular),
        pressure=bar(float(row["pressure_bar"])),
        test_pressure=bar(float(row["test_pressure_bar"])),
        minimum_pressure=None,
        temperature=float(row["temperature_c"]),
        rated_cycles=float(row["rated_cycles"]),
        source=f"{row['name']}: {PROVENANCE}",
        torque=float(row["torsion_limit_nm"]),
        centres=centres,
    )


@cache
def _metal_at(temperature: float) -> Metal:
    """Return the metal of the series at a temperature [degC], of length 1."""
    return metal_at(series_inputs(), temperature, 1)


def _said(row: Row, column: str) -> float | None:
    return float(row[column]) if row[column] else None


def _length(row: Row, column: str) -> float | None:
    value = _said(row, column)
    return None if value is None else mm(value)


def _shape(row: Row) -> Bellows:
    return bellows(
        inside_diameter=mm(float(row["inside_diameter_mm"])),
        height=mm(float(row["convolution_height_mm"])),
        pitch=mm(float(row["pitch_mm"])),
        convolutions=float(row["convolutions"]),
        plies=float(row["plies"]),
        ply_thickness=mm(float(row["ply_thickness_mm"])),
        crest_radius=mm(float(row["crest_radius_mm"])),
        root_radius=mm(float(row["root_radius_mm"])),
        tangent_length=mm(float(row["tangent_length_mm"])),
        collar_thickness=mm(float(row["collar_thickness_mm"])),
        collar_length=mm(float(row["collar_length_mm"])),
    )


__all__ = ["SeriesEntry", "entries", "entry"]
