"""Thermal expansion: which table holds which material, and which table goes with a code.     (library/expansion.py)

Two generations of expansion tables differ by 2 to 6 %, so the table is always named and never a default. A table
prints its values by group of materials; expansion_groups.csv says which group a material belongs to, and on whose
word. Total expansion is strain from the reference temperature of the table: 70 degF (21.1 degC) in a table in degF,
20 degC in a metric one. Growth is a difference of two strains, in which the reference drops out.
Sign: growth is above zero, contraction below.
"""

from __future__ import annotations

from takeup.errors import OutOfRange
from takeup.library.records import Curve, Source, Status, UnknownName
from takeup.library.tables import Row, called, curve, rows, source_of, unknown
from takeup.units import from_degf

REFERENCE_DEGF = 70.0
REFERENCE_DEGC = 20.0
INCHES_PER_100_FEET = 1200.0
LAST_EDITION_OF_OLDER_TABLE = 2007
FIRST_EDITION_OF_B31_1 = 1955
LAST_POSSIBLE_EDITION = 2099

TE1 = "ASME BPVC II-D Table TE-1 (2001)"
OLDER = "ASME B31.1 to 2007"

FIRST_EDITIONS = {"ASME B31.1": FIRST_EDITION_OF_B31_1, "ASME B31.3": 1959, "EN 13480-3": 2002}
EUROPEAN = ("EN 10088-1", "EN 13941", "SEW 310")


def expansion_tables() -> tuple[str, ...]:
    """Return the names of the expansion tables, in the order of the data file."""
    return tuple(dict.fromkeys(row["table"] for row in rows("expansion_groups.csv")))


def tables_for(words: str) -> tuple[str, ...]:
    """Return the names of the expansion tables that hold a material, in the order of the data file.

    Raises:
        UnknownName: The library holds no such material.
    """
    name = called("material", words, rows("materials.csv"), key="material")["material"]
    return tuple(row["table"] for row in rows("expansion_groups.csv") if row["material"] == name)


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
    _check_edition("ASME B31.1", edition)
    return _american("ASME B31.1", edition)


def expansion_table_of(
    code: str, edition: int, material_words: str, *, hottest: float | None = None
) -> tuple[str, str]:
    """Return the expansion table that goes with a code, its edition and a material, and why.

    A US code takes the table that its edition printed or followed (to 2007 the older totals, later Table TE-1; that
    ASME B31.3 changed with ASME B31.1 is from memory). EN 13480-3 takes the European table of the material. Where the
    code's own table does not hold the material, the first table that does is taken, and the reason says so.

    Args:
        code: `ASME B31.1`, `ASME B31.3` or `EN 13480-3`.
        edition: Year of the edition, such as 2020.
        material_words: The material's name or alias.
        hottest: The highest temperature of the line [degC]: tables that end below it are passed over, where another
            reaches it. Not said: the range of the table is not looked at.

    Returns:
        The name of the table and the reason, to be printed with it.

    Raises:
        UnknownName: No such code or material.
        OutOfRange: The year cannot be that of an edition.
    """
    if code not in FIRST_EDITIONS:
        raise unknown("code", code, FIRST_EDITIONS)
    _check_edition(code, edition)
    held = tables_for(material_words)
    wanted = EUROPEAN if code.startswith("EN") else (_american(code, edition)[0],)
    first = [name for name in wanted if name in held]
    ordered = (*first, *(name for name in held if name not in first))
    reaching = [name for name in ordered if hottest is None or _reach(material_words, name) >= hottest] or ordered
    table = reaching[0]
    return table, _because(code, edition, material_words, table, held=bool(first), passed_over=table != ordered[0])


def expansion_of(name: str, table: str) -> Curve:
    """Return the expansion of a material by its own name from a table, as strain from the table's reference.

    Raises:
        UnknownName: There is no such table, or it does not hold the material; the message names those that do.
    """
    group = _group(name, table)
    chosen = [row for row in rows("expansion.csv") if (row["table"], row["group"]) == (table, group["group"])]
    if group["last_degf"]:
        chosen = [row for row in chosen if float(row["temperature_degf"]) <= float(group["last_degf"])]
    place, values = (
        "expansion.csv",
        {from_degf(float(row["temperature_degf"])): expansion_strain(row) for row in chosen},
    )
    if not chosen:
        metric = rows("expansion_metric.csv")
        chosen = [row for row in metric if (row["table"], row["group"]) == (table, group["group"])]
        place, values = "expansion_metric.csv", {float(row["temperature_degc"]): metric_strain(row) for row in chosen}
    sources = tuple(_joined(source_of(row), source_of(group)) for row in chosen)
    return curve(
        f"expansion of {name}", f"{table}, {place}, row {chosen[0]['row']} to {chosen[-1]['row']}", values, sources
    )


def expansion_strain(row: Row) -> float:
    """Return the total expansion of a row as strain [m/m] from 70 degF.

        eps = B (T - 70) 1e-6, where the row prints the mean coefficient B, else eps = C/1200

    Where a table prints both, B gives the more precise total: C is rounded to 0.1 in/100 ft.

    Args:
        row: A row of expansion.csv: B in 1e-6 per degF, C in inches per 100 ft.

    Returns:
        eps [m/m].
    """
    if row["mean_coefficient_1e6_per_degf"]:
        return float(row["mean_coefficient_1e6_per_degf"]) * 1e-6 * (float(row["temperature_degf"]) - REFERENCE_DEGF)
    return float(row["total_in_per_100ft"]) / INCHES_PER_100_FEET


def metric_strain(row: Row) -> float:
    """Return the total expansion of a metric row as strain [m/m] from 20 degC.

        eps = alpha (T - 20) 1e-6, alpha the mean coefficient from 20 degC; zero at 20 degC

    Args:
        row: A row of expansion_metric.csv: alpha in 1e-6 per K, empty at 20 degC alone.

    Returns:
        eps [m/m].
    """
    rise = float(row["temperature_degc"]) - REFERENCE_DEGC
    return float(row["mean_coefficient_1e6_per_k"]) * 1e-6 * rise if rise else 0.0


def _group(name: str, table: str) -> Row:
    if table not in expansion_tables():
        raise unknown("expansion table", table, expansion_tables())
    for row in rows("expansion_groups.csv"):
        if (row["material"], row["table"]) == (name, table):
            return row
    held = tables_for(name)
    raise UnknownName(f"expansion table {table!r} does not hold {name}; it is held by {', '.join(held)}", held)


def _joined(row: Source, group: Source) -> Source:
    """Return the source of a row for one material: read only where the row and its group both were read."""
    if group.status == "read":
        return row
    status: Status = "from memory"
    return Source(words=f"{row.words} (that it holds for this material: {group.words}, from memory)", status=status)


def _reach(words: str, table: str) -> float:
    name = called("material", words, rows("materials.csv"), key="material")["material"]
    return expansion_of(name, table).temperatures[-1]


def _check_edition(code: str, edition: int) -> None:
    if not FIRST_EDITIONS[code] <= edition <= LAST_POSSIBLE_EDITION:
        raise OutOfRange(f"edition {edition} cannot be an edition of {code}. Give its year, such as 2020.")


def _american(code: str, edition: int) -> tuple[str, str]:
    if edition <= LAST_EDITION_OF_OLDER_TABLE:
        return OLDER, f"{code}-{edition} is not later than 2007: its own older total expansions (from memory)"
    return TE1, f"{code}-{edition} is later than 2007: expansion follows Table TE-1 (from memory)"


def _because(code: str, edition: int, words: str, table: str, *, held: bool, passed_over: bool) -> str:
    european = code.startswith("EN")
    named = f"{code}:{edition}" if european else f"{code}-{edition}"
    if passed_over:
        return f"{named}: the table that would come first does not reach the hottest temperature; {table} does"
    if not held:
        lack = (
            f"no European table holds {words}" if european else f"{_american(code, edition)[0]} does not hold {words}"
        )
        return f"{named}: {lack}; {table} does"
    if european:
        return f"{named}: {table} is the European table of {words} in the library"
    return _american(code, edition)[1]
