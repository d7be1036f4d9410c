"""Pipe materials: expansion by edition, modulus, density, Poisson's ratio.     (library/materials.py)

Two generations of expansion tables differ by 2 to 6 %, so the table is always named and never a default. Total
expansion is strain from 70 degF (21.1 degC). Where a table prints both the mean coefficient B and the total C, the
total is B (T - 70), the more precise of the two: C is rounded to 0.1 in/100 ft.
Sign: growth is above zero, contraction below.
"""

from __future__ import annotations

from functools import cache

from takeup.errors import OutOfRange
from takeup.library.records import Curve, Material, Source
from takeup.library.tables import Row, plain, rows, source_of, unknown
from takeup.units import from_degf

REFERENCE_DEGF = 70.0
INCHES_PER_100_FEET = 1200.0
LAST_EDITION_OF_OLDER_TABLE = 2007
FIRST_EDITION_OF_B31_1 = 1955
LAST_POSSIBLE_EDITION = 2099
PA_PER_GPA = 1e9

TE1 = "ASME BPVC II-D Table TE-1 (2001)"
OLDER = "ASME B31.1 to 2007"


def expansion_tables() -> tuple[str, ...]:
    """Return the names of the expansion tables, in the order of the data file."""
    return tuple(dict.fromkeys(row["table"] for row in rows("expansion.csv")))


def expansion_table_for(edition: int) -> tuple[str, str]:
    """Return the expansion table that goes with an edition of ASME B31.1, and why.

    Editions to 2007 printed total expansions of their own; later ones follow Table TE-1 (from memory).

    Args:
        edition: Year of the edition, such as 2020.

    Returns:
        The name of the table and the reason, to be printed with it.

    Raises:
        OutOfRange: The year cannot be that of an edition.
    """
    if not FIRST_EDITION_OF_B31_1 <= edition <= LAST_POSSIBLE_EDITION:
        raise OutOfRange(f"edition {edition} cannot be an edition of ASME B31.1. Give its year, such as 2020.")
    if edition <= LAST_EDITION_OF_OLDER_TABLE:
        return OLDER, f"ASME B31.1-{edition} is not later than 2007: its own older total expansions (from memory)"
    return TE1, f"ASME B31.1-{edition} is later than 2007: expansion follows Table TE-1 (from memory)"


@cache
def material(words: str, *, expansion_table: str) -> Material:
    """Return a pipe material with one of the expansion tables.

    Args:
        words: The material's name, such as `ASTM A106 B`.
        expansion_table: One of `expansion_tables()`.

    Raises:
        UnknownName: The library holds no such material or no such table.
    """
    if expansion_table not in expansion_tables():
        raise unknown("expansion table", expansion_table, expansion_tables())
    for row in rows("materials.csv"):
        if plain(row["material"]) == plain(words):
            return Material(
                name=row["material"],
                expansion=_expansion(row["material"], expansion_table),
                modulus=_modulus(row["material"]),
                density=float(row["density_kg_per_m3"]),
                poisson=float(row["poisson"]),
                density_source=source_of(row),
                poisson_source=source_of(row),
            )
    raise unknown("material", words, (row["material"] for row in rows("materials.csv")))


def expansion_strain(row: Row) -> float:
    """Return the total expansion of a row as strain [m/m] from 70 degF.

        eps = B (T - 70) 1e-6, where the row prints the mean coefficient B, else eps = C/1200

    Args:
        row: A row of expansion.csv: B in 1e-6 per degF, C in inches per 100 ft.

    Returns:
        eps [m/m].
    """
    if row["mean_coefficient_1e6_per_degf"]:
        return float(row["mean_coefficient_1e6_per_degf"]) * 1e-6 * (float(row["temperature_degf"]) - REFERENCE_DEGF)
    return float(row["total_in_per_100ft"]) / INCHES_PER_100_FEET


def _expansion(name: str, table: str) -> Curve:
    chosen = [row for row in rows("expansion.csv") if row["material"] == name and row["table"] == table]
    return _curve(
        f"expansion of {name}",
        f"{table}, expansion.csv, row {chosen[0]['row']} to {chosen[-1]['row']}",
        {from_degf(float(row["temperature_degf"])): expansion_strain(row) for row in chosen},
        tuple(source_of(row) for row in chosen),
    )


def _modulus(name: str) -> Curve:
    chosen = [row for row in rows("modulus.csv") if row["material"] == name]
    return _curve(
        f"modulus of {name}",
        f"modulus.csv, row {chosen[0]['row']} to {chosen[-1]['row']}",
        {float(row["temperature_degc"]): float(row["modulus_gpa"]) * PA_PER_GPA for row in chosen},
        tuple(source_of(row) for row in chosen),
    )


def _curve(what: str, table: str, values: dict[float, float], sources: tuple[Source, ...]) -> Curve:
    """Return the curve; its own source names the sources of its rows, and is read only where all of them are."""
    all_read = all(source.status == "read" for source in sources)
    words = "; ".join(dict.fromkeys(source.words for source in sources))
    return Curve(
        what=what,
        temperatures=tuple(values),
        values=tuple(values.values()),
        statuses=tuple(source.status for source in sources),
        source=Source(words=words, status="read" if all_read else "from memory"),
        row_sources=sources,
        table=table,
    )
