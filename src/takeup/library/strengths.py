"""Strength of strip for bellows: yield, 1 % proof strength and allowable stress.     (library/strengths.py)

Looked up by the names of `library/materials.py`. ASME's tables stand in US units (strengths_us.csv), EN's in metric
ones (strengths.csv). Beside the materials' own tables EN 13445-3 gives an allowable from the 1 % proof strength. Every
row is from memory and says how far it may be out; a rating says so. A material without rows is refused, never guessed.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from takeup.library.records import Curve
from takeup.library.tables import called, curve, rows, source_of, unknown
from takeup.units import PA_PER_PSI, from_degf

EN_ALLOWABLE = "EN 13445-3, Rp1.0/1.5"
"""EN 13445-3 cl. 6.5, austenitic steel with 30 % elongation (from memory): f = Rp1.0/1.5."""

_EN_SAFETY = 1.5
_PA_PER_MPA = 1e6
_PA_PER_KSI = 1e3 * PA_PER_PSI
_YIELD = ("yield strength", "0.2 % proof strength")
_PROOF = "1.0 % proof strength"
_ALLOWABLE = "allowable stress"


@cache
def yield_strength(words: str) -> Curve:
    """Return the yield strength [Pa] against temperature: ASME's table, or EN's 0.2 % proof strength.

    Args:
        words: The material's name or alias.

    Raises:
        UnknownName: The library holds no such material, or no yield strength of it.
    """
    name = _name(words)
    for quantity in _YIELD:
        if name in _holding(quantity):
            return _curve(name, quantity, "")
    raise unknown("material with a yield strength", words, [each for held in _YIELD for each in _holding(held)])


@cache
def proof_strength(words: str) -> Curve:
    """Return EN's 1 % proof strength [Pa] against temperature.

    Raises:
        UnknownName: The library holds no such material, or no 1 % proof strength of it.
    """
    name = _name(words)
    if name not in _holding(_PROOF):
        raise unknown("material with a 1.0 % proof strength", words, _holding(_PROOF))
    return _curve(name, _PROOF, "")


def allowable_tables(words: str) -> tuple[str, ...]:
    """Return the tables that hold an allowable stress of a material, empty where none does."""
    name = _name(words)
    own = tuple(dict.fromkeys(row["table"] for row in _every(_ALLOWABLE) if row["material"] == name))
    return (*own, *((EN_ALLOWABLE,) if name in _holding(_PROOF) else ()))


@cache
def allowable_stress(words: str, basis_table: str) -> Curve:
    """Return the allowable stress [Pa] against temperature by one table.

        f = Rp1.0 / 1.5 where the table is `EN_ALLOWABLE`                  (EN 13445-3 cl. 6.5, from memory)

    Args:
        words: The material's name or alias.
        basis_table: One of `allowable_tables(words)`.

    Raises:
        UnknownName: The library holds no such material, or the table does not hold it.
    """
    if basis_table not in allowable_tables(words):
        raise unknown(f"table of the allowable stress of {_name(words)}", basis_table, allowable_tables(words))
    if basis_table == EN_ALLOWABLE:
        proof = proof_strength(words)
        values = tuple(value / _EN_SAFETY for value in proof.values)
        return replace(proof, what=f"allowable stress of {_name(words)}", values=values)
    return _curve(_name(words), _ALLOWABLE, basis_table)


def fatigue_family(words: str) -> str:
    """Return the family of the life curves of bellows that a material belongs to, "" where none is known.

    Raises:
        UnknownName: The library holds no such material.
    """
    name = _name(words)
    return next((row["family"] for row in rows("fatigue_families.csv") if row["material"] == name), "")


def _name(words: str) -> str:
    return called("material", words, rows("materials.csv"), key="material")["material"]


def _every(quantity: str) -> tuple[dict[str, str], ...]:
    both = (*rows("strengths_us.csv"), *rows("strengths.csv"))
    return tuple(row for row in both if row["quantity"] == quantity)


def _holding(quantity: str) -> tuple[str, ...]:
    """Return the materials with this quantity, in the order of the files."""
    return tuple(dict.fromkeys(row["material"] for row in _every(quantity)))


def _curve(name: str, quantity: str, table: str) -> Curve:
    """Return the curve of one quantity; of one table, or of the only one where none is named."""
    chosen = [row for row in _every(quantity) if row["material"] == name and table in ("", row["table"])]
    metric = "strength_mpa" in chosen[0]
    values = {
        float(row["temperature_degc"]) if metric else from_degf(float(row["temperature_degf"])): (
            float(row["strength_mpa"]) * _PA_PER_MPA if metric else float(row["strength_ksi"]) * _PA_PER_KSI
        )
        for row in chosen
    }
    file = "strengths.csv" if metric else "strengths_us.csv"
    place = f"{file}, row {chosen[0]['row']} to {chosen[-1]['row']}"
    return curve(f"{quantity} of {name}", place, values, tuple(source_of(row) for row in chosen))


__all__ = [
    "EN_ALLOWABLE",
    "allowable_stress",
    "allowable_tables",
    "fatigue_family",
    "proof_strength",
    "yield_strength",
]
