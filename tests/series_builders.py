"""Tables of invented joints and places for them, so that tests of selection read short.     (tests/series_builders.py)

`table_of` goes through the reader, as an import does; `placed` is a place of two states in service and a test.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from takeup.choose.selection.place import Place
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.reading import read_table

JOINT = {
    "name": "J 1",
    "kind": "single axial",
    "size_dn": "200",
    "pressure_bar": "16",
    "temperature_c": "300",
    "rated_cycles": "1000",
    "axial_compression_mm": "40",
    "axial_extension_mm": "10",
    "lateral_mm": "10",
    "angular_deg": "5",
    "axial_rate_n_per_mm": "200",
    "lateral_rate_n_per_mm": "400",
    "angular_rate_nm_per_deg": "30",
    "torsion_limit_nm": "2000",
    "torsion_rate_nm_per_deg": "50000",
    "effective_area_mm2": "46000",
    "length_mm": "600",
    "live_length_mm": "200",
    "weight_kg": "40",
    "test_pressure_bar": "24",
    "minimum_pressure_bar": "-1.01325",
    "price_index": "100",
}
"""A joint of round numbers, invented."""

GEOMETRY = {
    "inside_diameter_mm": "219",
    "convolution_height_mm": "22",
    "pitch_mm": "24",
    "convolutions": "8",
    "plies": "2",
    "ply_thickness_mm": "0.8",
    "material": "Alloy 321",
    "annealed": "no",
}
"""Bellows of DN 200, invented."""


def table_text_of(*rows: dict[str, str]) -> str:
    """Return a table as CSV; each row is `JOINT` with some cells said otherwise, numbered where it has no name."""
    full = [JOINT | {"name": f"J {number + 1}"} | row for number, row in enumerate(rows)]
    columns = list(dict.fromkeys(name for row in full for name in row))
    lines = [",".join(columns), *(",".join(row.get(name, "") for name in columns) for row in full)]
    return "\n".join(lines) + "\n"


def table_of(*rows: dict[str, str]) -> SeriesTable:
    """Return the table of `table_text_of`, read."""
    return read_table(table_text_of(*rows).encode(), "trial.csv", series="trial").table


def placed(**changes: object) -> Place:
    """Return a place: tested to 15 bar, 10 bar and 200 degC hot with 30 mm shorter, 5 mm longer on the coldest day."""
    base = Place(
        name="trial",
        size_dn=200.0,
        outside_diameter=0.2191,
        states=("test", "hot", "coldest day"),
        tests=np.array([True, False, False]),
        pressure=np.array([15e5, 10e5, 0.0]),
        temperature=np.array([20.0, 200.0, -10.0]),
        axial=np.array([0.0, -0.030, 0.005]),
        lateral=np.zeros(3),
        angular=np.zeros(3),
        cycles=1000.0,
        room=math.inf,
    )
    return replace(base, **changes)  # type: ignore[arg-type]  # any field by its name
