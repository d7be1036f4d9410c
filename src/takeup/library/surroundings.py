"""What lies round the pipe and under it: insulation and friction pairs.     (library/surroundings.py)

Both are exact look-ups. A user's own density or friction range never comes here; the reader makes the record.
"""

from __future__ import annotations

from functools import cache

from takeup.errors import OutOfRange
from takeup.library.records import Friction, Insulation
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
    raise unknown("insulation", kind, (row["kind"] for row in rows("insulation.csv")))


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
