"""What lies round the pipe and under it: insulation, its cladding, friction pairs.     (library/surroundings.py)

All are exact look-ups; a thickness is always the user's. A user's own density or friction range never comes here; the
reader makes the record.
"""

from __future__ import annotations

from functools import cache

from takeup.errors import OutOfRange
from takeup.library.records import Cladding, Friction, Insulation
from takeup.library.tables import plain, rows, source_of, unknown
from takeup.units import to_mm


def insulation(kind: str, thickness: float) -> Insulation:
    """Return insulation of a tabulated kind.

    Args:
        kind: Its name, such as `mineral wool`.
        thickness: Thickness of the layer [m].

    Raises:
        UnknownName: The table holds no such kind.
        OutOfRange: The thickness is not above zero.
    """
    if not thickness > 0:
        raise OutOfRange(
            f"insulation of {to_mm(thickness):g} mm is not above zero. Leave bare pipe without insulation."
        )
    for row in rows("insulation.csv"):
        if plain(row["kind"]) == plain(kind):
            density = float(row["density_kg_per_m3"])
            return Insulation(kind=row["kind"], thickness=thickness, density=density, source=source_of(row))
    raise unknown("insulation", kind, insulation_kinds())


def insulation_kinds() -> tuple[str, ...]:
    """Return the names of the tabulated kinds of insulation."""
    return tuple(row["kind"] for row in rows("insulation.csv"))


def cladding(kind: str, thickness: float) -> Cladding:
    """Return the sheet round the insulation, of a tabulated metal.

    Args:
        kind: Its name, such as `aluminium`.
        thickness: Thickness of the sheet [m].

    Raises:
        UnknownName: The table holds no such kind.
        OutOfRange: The thickness is not above zero.
    """
    if not thickness > 0:
        raise OutOfRange(f"cladding of {to_mm(thickness):g} mm is not above zero. Leave it out where there is none.")
    for row in rows("cladding.csv"):
        if plain(row["kind"]) == plain(kind):
            density = float(row["density_kg_per_m3"])
            return Cladding(kind=row["kind"], thickness=thickness, density=density, source=source_of(row))
    raise unknown("cladding", kind, cladding_kinds())


def cladding_kinds() -> tuple[str, ...]:
    """Return the names of the tabulated metals of cladding."""
    return tuple(row["kind"] for row in rows("cladding.csv"))


@cache
def friction(words: str) -> Friction:
    """Return the range of friction of a pair, such as `PTFE on steel`.

    Raises:
        UnknownName: The table holds no such pair.
    """
    for row in rows("friction.csv"):
        if plain(row["pair"]) == plain(words):
            low, high = float(row["low"]), float(row["high"])
            return Friction(words=row["pair"], low=low, high=high, source=source_of(row))
    raise unknown("friction pair", words, friction_pairs())


def friction_pairs() -> tuple[str, ...]:
    """Return the names of the friction pairs."""
    return tuple(row["pair"] for row in rows("friction.csv"))
