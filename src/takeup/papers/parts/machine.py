"""The list of parts for other programs: a row for each of the results, a column for a key.   (papers/parts/machine.py)

Words of ours are English here in every language, as the names of the columns are, so that a program finds them again.
"""

from __future__ import annotations

from collections.abc import Mapping

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, text_of, texts_of
from takeup.edge import Measure, Units
from takeup.papers.frame import Cell, Field, Grid, Head
from takeup.papers.parts.listed import prices_of, rows_of

_WORDS = (
    "line",
    "group",
    "what",
    "size",
    "nps",
    "to_size",
    "to_nps",
    "material",
    "cladding",
    "series",
    "joint",
    "ends",
)
_LENGTHS = (
    "outside_diameter", "wall", "radius", "thickness", "cladding", "diameter", "length",
)  # fmt: skip
_NUMBERS = ("angle_deg", "cuts", "flanged_ends")
_SOURCE = ("name", "source", "unit", "file", "sha256")


def machine_grid(results: Results, head: Head) -> Grid:
    """Return every row of the results' list of parts, in the units of the paper."""
    prices = prices_of(results)
    rows = [_cells(head.units, row, prices) for row in rows_of(results)]
    fields = _fields(head.units)
    return Grid(fields=fields, rows=tuple(tuple(row[field.key] for field in fields) for row in rows))


def _fields(units: Units) -> tuple[Field, ...]:
    return tuple(
        Field(head=key, key=key, unit=unit)
        for key, unit in (
            *((key, "") for key in _WORDS),
            *((f"{key}_size" if key == "cladding" else key, units.small.unit) for key in _LENGTHS),
            *((key, "") for key in _NUMBERS),
            ("weight", units.weight.unit),
            ("spring_rate", units.rate.unit),
            ("spring_cold_load", units.weight.unit),
            ("quantity", ""),
            ("unit", ""),
            ("names", ""),
            ("only_in", ""),
            ("design_load", units.force.unit),
            ("design_state", ""),
            ("price_each", ""),
            ("cost", ""),
            ("priced_by", ""),
            ("price_because", ""),
            *((f"prices_{key}", "") for key in _SOURCE),
        )
    )


def _cells(units: Units, row: Record, prices: Record) -> Mapping[str, Cell]:
    price, spring = record_of(row, "price"), record_of(row, "spring")
    measured = text_of(row, "unit") == "m"
    count, each = number_of(row, "count"), maybe_number(price, "each")
    long = units.span.number(1.0) if measured else 1.0
    lengths = {f"{key}_size" if key == "cladding" else key: _in(units.small, row, f"{key}_mm") for key in _LENGTHS}
    return {
        **{key: text_of(row, key) for key in _WORDS},
        **lengths,
        **{key: maybe_number(row, key) for key in _NUMBERS},
        "weight": _in(units.weight, row, "weight_n"),
        "spring_rate": _in(units.rate, spring, "rate_n_per_mm"),
        "spring_cold_load": _in(units.weight, spring, "cold_load_n"),
        "quantity": count * long,
        "unit": units.span.unit if measured else "piece",
        "names": "; ".join(texts_of(row, "names")),
        "only_in": "; ".join(texts_of(row, "only_in")),
        "design_load": _in(units.force, row, "design_n"),
        "design_state": text_of(row, "design_state"),
        "price_each": None if each is None else each / long,
        "cost": maybe_number(price, "cost"),
        "priced_by": text_of(price, "by"),
        "price_because": text_of(price, "because"),
        **{f"prices_{key}": text_of(prices, key) for key in _SOURCE},
    }


def _in(measure: Measure, record: Record, key: str) -> float | None:
    value = maybe_number(record, key)
    return None if value is None else measure.number(value)


__all__ = ["machine_grid"]
