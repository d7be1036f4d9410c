"""The columns of the series, in order, with what each is.     (joints/series/columns.py)

Names, order and units are a contract. What follows the bellows columns was added and may grow.
"""

from __future__ import annotations

from typing import Final

PROVENANCE: Final = "demonstration data, not any maker's"

JOINT_COLUMNS: Final[dict[str, str]] = {
    "name": "kind, size, pressure and travel in words; each stands once",
    "kind": "as in a line file; each kind has a table of its own",
    "size_dn": "nominal size DN, of EN 10220",
    "pressure_bar": "rated gauge pressure, inside the pipe",
    "temperature_c": "rated temperature of the metal",
    "rated_cycles": "cycles of the rated movement at the rated pressure and temperature",
    "axial_compression_mm": "rated shortening of the whole joint, by itself",
    "axial_extension_mm": "rated lengthening of the whole joint, by itself; both in one cycle are the rated range",
    "lateral_mm": "rated lateral movement of the ends, parallel, to one side, by itself",
    "angular_deg": "rated angle between the ends, to one side, by itself",
    "axial_rate_n_per_mm": "axial rate at the rated temperature; of a universal, of each bellows",
    "lateral_rate_n_per_mm": "lateral rate, ends parallel, likewise",
    "angular_rate_nm_per_deg": "angular rate, likewise",
    "torsion_limit_nm": "greatest torque",
    "effective_area_mm2": "thrust over pressure",
    "length_mm": "from weld end to weld end, as made",
    "live_length_mm": "of all convolutions; of a universal, of each bellows",
    "weight_kg": "of the whole joint, empty",
    "ends": "how it is joined to the pipe",
    "test_pressure_bar": "gauge pressure of the cold test",
    "price_index": "an invented index to tell cheap from dear; no price",
}
"""Of the joint, with its meaning."""

BELLOWS_COLUMNS: Final[tuple[str, ...]] = (
    "inside_diameter_mm",
    "convolution_height_mm",
    "pitch_mm",
    "convolutions",
    "plies",
    "ply_thickness_mm",
    "crest_radius_mm",
    "root_radius_mm",
    "tangent_length_mm",
    "collar_thickness_mm",
    "collar_length_mm",
    "material",
)
"""Of each bellows, named and meant as in a bellows file."""

MORE_COLUMNS: Final[dict[str, str]] = {
    "centres_mm": "of a universal: between the middles of its two bellows",
    "whole_axial_rate_n_per_mm": "of a universal: of the whole joint, half that of each bellows",
    "whole_lateral_rate_n_per_mm": "of a universal: of the whole joint, ends parallel",
    "provenance": f"on every row: {PROVENANCE}",
}

PIN_COLUMNS: Final[dict[str, str]] = {
    "pin_spread_mm": "between the middles of both plates",
    "pin_diameter_mm": "of a pin",
    "plate_width_mm": "of a plate, across its pull",
    "plate_thickness_mm": "of a plate",
    "plate_modulus_mpa": "of its steel",
    "pin_friction_low": "least coefficient of a pin in its hole",
    "pin_friction_high": "greatest",
    "pins_can_carry_n": "rated pull of both plates together",
}
"""Of plates and pins, in the table of hinges alone."""

BALANCE_COLUMNS: Final[dict[str, str]] = {
    "balance_axial_rate_n_per_mm": "of the balancing bellows, at the rated temperature",
    "balance_effective_area_mm2": "on which the pressure pulls the joint together",
    "balance_can_carry_n": "rated pull of all ties",
    "balance_can_be_pushed_n": "compression that they take",
}
"""Of balancing bellows, in the table of balanced joints alone."""

HOSE_COLUMNS: Final[dict[str, str]] = {
    "drop_mm": "how far it hangs, from the middle of the pipe to the lowest point of the hose",
}
"""Of hose loops, in their table alone."""

OWN_COLUMNS: Final[dict[str, dict[str, str]]] = {
    "hinged": PIN_COLUMNS,
    "in-line pressure balanced": BALANCE_COLUMNS,
    "braided hose loop": HOSE_COLUMNS,
}
"""Columns that the table of one kind has and others do not."""

COLUMNS: Final[tuple[str, ...]] = (*JOINT_COLUMNS, *BELLOWS_COLUMNS, *MORE_COLUMNS)
"""Of every table."""

FILES: Final[dict[str, str]] = {
    "single axial": "single_axial.csv",
    "externally pressurised": "externally_pressurised.csv",
    "universal": "universal.csv",
    "small-bore compensator": "small_bore.csv",
    "hinged": "hinged.csv",
    "in-line pressure balanced": "in_line_balanced.csv",
    "braided hose loop": "braided_hose.csv",
}
"""The file of each kind."""


def columns_of(kind: str) -> tuple[str, ...]:
    """Return the columns of the table of a kind: those of every table, its own before the last."""
    return (*COLUMNS[:-1], *OWN_COLUMNS.get(kind, {}), COLUMNS[-1])


__all__ = [
    "BALANCE_COLUMNS",
    "BELLOWS_COLUMNS",
    "COLUMNS",
    "FILES",
    "HOSE_COLUMNS",
    "JOINT_COLUMNS",
    "MORE_COLUMNS",
    "OWN_COLUMNS",
    "PIN_COLUMNS",
    "PROVENANCE",
    "columns_of",
]
