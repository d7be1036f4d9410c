"""The metals of the bellows of a table, from the library.     (joints/tables/metals.py)"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from takeup.bellows.reading.metals import ROOM_TEMPERATURE
from takeup.errors import OutOfRange
from takeup.joints.tables.stated import Stated
from takeup.joints.tables.table import Floats
from takeup.library import Material, UnknownName, material, tables_for


@dataclass(frozen=True, kw_only=True, slots=True)
class Metals:
    """Of n rows: as the library names them, "" where not said; moduli at the rated temperature and at 20 °C [Pa].

    NaN where a row names no material.
    """

    names: tuple[str, ...]
    modulus: Floats
    cold_modulus: Floats
    poisson: Floats


def metals_of(said: Stated) -> Metals:
    """Return the metals; a name that the library has not, or a temperature that it does not tabulate, is noted."""
    words, temperatures = said.said("material"), said.number("temperature").tolist()
    names = []
    numbers = np.full((3, said.rows), np.nan)
    for row, (word, temperature) in enumerate(zip(words, temperatures, strict=True)):
        found = _found(word, temperature) if word else ("", (np.nan, np.nan, np.nan), ("", ""))
        names.append(found[0])
        numbers[:, row] = found[1]
        if found[2][1]:
            said.note(row, *found[2])
    return Metals(names=tuple(names), modulus=numbers[0], cold_modulus=numbers[1], poisson=numbers[2])


_Found = tuple[str, tuple[float, float, float], tuple[str, str]]


@cache
def _found(word: str, temperature: float) -> _Found:
    """Return name, modulus, cold modulus and Poisson's ratio, then the column at fault and what is wrong with it."""
    nothing = (np.nan, np.nan, np.nan)
    try:
        one = _material(word)
    except UnknownName as error:
        return word, nothing, ("material", f"{error}; leave the cell empty for a metal of which nothing is known")
    if np.isnan(temperature):
        return one.name, nothing, ("", "")
    try:
        hot = one.modulus.at(temperature, asked="rated temperature")
    except OutOfRange as error:
        return one.name, nothing, ("temperature", str(error))
    return one.name, (hot, one.modulus.at(ROOM_TEMPERATURE), one.poisson), ("", "")


@cache
def _material(word: str) -> Material:
    return material(word, expansion_table=tables_for(word)[0])


__all__ = ["Metals", "metals_of"]
