"""Materials of the user's own.     (line/reading/read_materials.py)

The library makes the record and refuses what no material can be; here the rows are put in order of the file, and the
temperature of reference becomes a row of its own.
"""

from __future__ import annotations

from itertools import pairwise

from takeup.library import Material, UnknownName, tables_for, user_material
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.schema_users import MaterialItem
from takeup.reading.yaml_places import Path

MATERIALS: Path = ("materials",)
REFERENCE = 21.1
"""Temperature from which the total expansion of a table counts [degC]: 70 degF, as the library's own tables."""

SAME_TEMPERATURE = 1e-9


def read_materials(book: FaultBook) -> dict[str, Material]:
    """Return the user's materials by the names that pipes call them by; unsound ones are left out."""
    found: dict[str, Material] = {}
    taken: dict[str, Path] = {}
    for index in range(book.size(MATERIALS)):
        path = (*MATERIALS, index)
        item = book.sound(MaterialItem, path)
        if item is None:
            continue
        is_own = _is_own(book, item.name, taken, (*path, "name"))
        ordered = _in_order(book, item, path)
        made = _material(book, item, path) if ordered else None
        if made is not None and is_own:
            found[item.name] = made
    return found


def _is_own(book: FaultBook, name: str, taken: dict[str, Path], path: Path) -> bool:
    """Note a name that another material has, the user's or the library's."""
    first = taken.setdefault(name, path)
    if first != path:
        book.add(
            path, f"there is a material '{name}' already, at line {book.line_of(first)}; give this one its own name"
        )
        return False
    if _in_library(name):
        book.add(path, f"the library holds '{name}' itself; give your material a name of its own")
        return False
    return True


def _in_library(name: str) -> bool:
    try:
        return tables_for(name) != ()
    except UnknownName:
        return False


def _in_order(book: FaultBook, item: MaterialItem, path: Path) -> bool:
    """Note rows that are not at a higher temperature than the one before."""
    sound = True
    for key, temperatures in (
        ("expansion", [row.at for row in item.expansion]),
        ("modulus", [row.at for row in item.modulus]),
    ):
        for number, (before, after) in enumerate(pairwise(temperatures), start=1):
            if after <= before:
                sound = False
                row = (*path, key, number, "at")
                book.add(row, f"'{book.words(row)}' is not above the temperature of the row before it")
    return sound


def _material(book: FaultBook, item: MaterialItem, path: Path) -> Material | None:
    reference = REFERENCE if item.expansion_from is None else item.expansion_from
    expansion = {row.at: row.total for row in item.expansion}
    for number, row in enumerate(item.expansion):
        place = (*path, "expansion", number, "total")
        if abs(row.at - reference) < SAME_TEMPERATURE and row.total != 0.0:
            book.add(place, f"'{book.words(place)}' is not zero at the temperature of reference, {reference:g} degC")
            return None
    expansion[reference] = 0.0
    return book.attempt(
        path,
        lambda: user_material(
            item.name,
            expansion=sorted(expansion.items()),
            modulus=[(row.at, row.value) for row in item.modulus],
            density=item.density,
            poisson=item.poisson,
            source=item.source,
        ),
    )
