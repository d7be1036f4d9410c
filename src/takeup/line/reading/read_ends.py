"""The ends of a line: capacity, stiffness, equipment.     (line/reading/read_ends.py)

An end that holds the line may say what it carries, how stiff it is and how far it settles; equipment may also say how
far it moves its nozzle and what it allows there. A free, blind or closed end carries nothing into the ground.
"""

from __future__ import annotations

import math

from takeup.line.holding import ANCHORED_ENDS, End, EndKind, Growth, Nozzle, Stiffness
from takeup.line.parts import Vector
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.schema_ends import EndKeys, GrowthItem, NozzleItem, StiffnessItem
from takeup.reading.yaml_places import Path

HELD_KEYS = ("can_carry", "can_carry_moment", "stiffness", "settlement")
EQUIPMENT_KEYS = ("growth", "nozzle")
ONE_BY_ONE = "each component"

NEARLY_ALONG = math.cos(math.radians(10.0))
"""Directions less than ten degrees apart are one: no axis can be made square to the other from them with any care."""


def read_end(book: FaultBook, item: EndKeys, path: Path, *, name: str, kind: EndKind, into: Vector) -> End:
    """Read one end of a line.

    Args:
        book: where faults go.
        item: the item of the route that says what the end is.
        path: of the item.
        name: of the end.
        kind: what it is.
        into: unit direction from the end into the line.
    """
    _check_keys(book, kind, path)
    return End(
        name=name,
        kind=kind,
        can_carry=item.can_carry,
        can_carry_moment=item.can_carry_moment,
        stiffness=stiffness(item.stiffness),
        settlement=vector(item.settlement),
        growth=_growth(item.growth),
        nozzle=_nozzle(book, item.nozzle, (*path, "nozzle"), into),
    )


def check_no_end(book: FaultBook, path: Path) -> None:
    """Note keys of an end on an item of the route that is none."""
    for keys, words in ((HELD_KEYS, "an anchor carries"), (EQUIPMENT_KEYS, "equipment has a nozzle")):
        for key in keys:
            if book.has((*path, key)):
                book.add((*path, key), f"only {words}; this corner is none", at_key=True)


def stiffness(item: StiffnessItem | None) -> Stiffness | None:
    """Return how the structure behind an anchor gives; None is rigid."""
    if item is None:
        return None
    first, second, third = item.force
    fourth, fifth, sixth = item.moment
    return Stiffness(force=(first, second, third), moment=(fourth, fifth, sixth), source=item.source)


def vector(parts: list[float] | None) -> Vector | None:
    """Return three numbers as a vector; the model has counted them."""
    if parts is None:
        return None
    x, y, z = parts
    return (x, y, z)


def along(first: Vector, second: Vector) -> float:
    """Return the part of a unit direction along another."""
    return math.fsum(a * b for a, b in zip(first, second, strict=True))


def _check_keys(book: FaultBook, kind: EndKind, path: Path) -> None:
    for key in HELD_KEYS:
        if kind not in ANCHORED_ENDS and book.has((*path, key)):
            book.add((*path, key), f"a {kind} end carries nothing into the ground; leave '{key}' out", at_key=True)
    for key in EQUIPMENT_KEYS:
        if kind != "equipment" and book.has((*path, key)):
            book.add((*path, key), f"only equipment has '{key}'; this end says '{kind}'", at_key=True)


def _growth(item: GrowthItem | None) -> Growth | None:
    if item is None:
        return None
    x, y, z = item.movement
    return Growth(movement=(x, y, z), source=item.source)


def _nozzle(book: FaultBook, item: NozzleItem | None, path: Path, into: Vector) -> Nozzle | None:
    if item is None:
        return None
    if item.up is not None and abs(along(item.up, into)) > NEARLY_ALONG:
        book.add(
            (*path, "up"), "this direction runs along the pipe at the nozzle, within 10 degrees; z stands across it"
        )
    if item.limit is not None and item.rule == ONE_BY_ONE:
        book.add((*path, "limit"), "each component has its own limit; leave 'limit' out", at_key=True)
    if item.limit == 0.0:
        book.add((*path, "limit"), f"'{book.words((*path, 'limit'))}' must be above 0")
    force_x, force_y, force_z = item.force
    moment_x, moment_y, moment_z = item.moment
    return Nozzle(
        force=(force_x, force_y, force_z),
        moment=(moment_x, moment_y, moment_z),
        up=item.up,
        rule=item.rule,
        limit=1.0 if item.limit is None else item.limit,
        source=item.source,
    )
