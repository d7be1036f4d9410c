"""Nominal pipe sizes and wall thicknesses: exact look-up or refusal.     (library/sizes.py)

A look-up by tolerance can return the neighbouring pipe (139.7 mm is not NPS 5), so there is none: a size is named
DN 200, NPS 8 or copper 54 mm, a wall by its schedule or its tabulated thickness. The same DN can be another pipe in
another table: DN 65 is 73.0 mm in ASME B36.10M and 76.1 mm in EN 10220. So a size belongs to a table, `size_tables()`
names them, and a name without a table is read in ASME B36.10M; copper is tabulated in EN 1057 alone.
Walls: a size of ASME B36.10M also has the schedules 5S to 80S of ASME B36.19M, whose letter S names that standard;
its outside diameters are the same, but for 0.1 mm in print at NPS 10 and 12. EN 10220 has no schedules but preferred
thicknesses (`6.3 mm`), and for each size the usual walls `normal seamless`, `normal welded` and `EN 253`.
"""

from __future__ import annotations

import re
from functools import cache

from takeup.errors import OutOfRange
from takeup.library.records import PipeSize, Source, UnknownName
from takeup.library.tables import plain, rows, source_of, unknown
from takeup.units import mm, to_mm

B36_10M = "ASME B36.10M"
B36_19M = "ASME B36.19M"
EN_1057 = "EN 1057"

NEAREST = 3  # names in a refusal


def size_tables() -> tuple[str, ...]:
    """Return the names of the tables of sizes: ASME B36.10M, ASME B36.19M, EN 10220, EN 1057 (copper)."""
    return tuple(dict.fromkeys(row["table"] for row in rows("pipe_sizes.csv")))


@cache
def pipe_sizes(table: str = B36_10M) -> tuple[PipeSize, ...]:
    """Return every size of a table, the smallest first.

    Raises:
        UnknownName: There is no such table.
    """
    if table not in size_tables():
        raise unknown("table of pipe sizes", table, size_tables())
    return tuple(
        PipeSize(
            dn=row["dn"],
            nps=row["nps"],
            nps_inch=float(row["nps_inch"]),
            outside_diameter=mm(float(row["outside_diameter_mm"])),
            source=source_of(row),
            table=row["table"],
        )
        for row in rows("pipe_sizes.csv")
        if row["table"] == table
    )


def pipe_size(words: str, *, table: str | None = None) -> PipeSize:
    """Return the size called `DN 200`, `DN200`, `NPS 8`, `NPS 3 1/2`, `copper 54 mm` or `54 mm copper`.

    Args:
        words: The name of the size.
        table: One of `size_tables()`: the same DN may have another outside diameter in another table. Not said, it
            is ASME B36.10M, or EN 1057 where the words say copper.

    Raises:
        UnknownName: The table holds no size of this name; the numerically nearest sizes come first. Or there is no
            such table.
    """
    name = _plain_size(words)
    chosen = table or (EN_1057 if name.startswith("copper") else B36_10M)
    for size in pipe_sizes(chosen):
        if name in {plain(size.dn), plain(size.nps)}:
            return size
    raise _unknown_size(words, name, chosen)


BESIDE = 0.75
"""Added to the number of a tube that is also the number of a DN [mm]."""
_BOTH = (6.0, 8.0, 10.0, 15.0)  # EN 1057 diameters that are DN of EN ISO 6708 as well


def size_number(size: PipeSize) -> float:
    """Return the number of a size: that of its DN, else its outside diameter in mm: a copper tube has no DN.

    By it a size is priced, and told from that of a joint of a series. A tube of 6, 8, 10 or 15 mm is not of DN 6, 8, 10
    or 15: `BESIDE` is added to it, so that no joint of a series, which are by DN, is taken to fit it.
    """
    number = size.dn.removeprefix("DN ")
    if number.isdecimal():
        return float(number)
    diameter = to_mm(size.outside_diameter)
    return diameter + BESIDE if round(diameter, 6) in _BOTH else diameter


def schedules(size: PipeSize) -> tuple[str, ...]:
    """Return the schedules, or the names of the walls, in which this size is tabulated."""
    return tuple(row["schedule"] for row in _walls(size))


def wall_thickness(size: PipeSize, words: str) -> float:
    """Return the nominal wall [m] of a schedule: `40`, `schedule 40`, `Sch 40`, `10S`, `STD`, `XS`, `XXS`.

    For a size of EN 10220 or EN 1057: a tabulated thickness such as `6.3 mm`; for EN 10220 also `normal seamless`,
    `normal welded` or `EN 253`.

    Raises:
        UnknownName: The table holds no such schedule for this size.
    """
    return _wall(size, words)[0]


def wall_source(size: PipeSize, words: str) -> Source:
    """Return the source of the wall that `wall_thickness` returns for the same words."""
    return _wall(size, words)[1]


def check_wall(size: PipeSize, wall: float) -> float:
    """Return a typed-in wall [m] unchanged when a pipe of this size can have it.

    Raises:
        OutOfRange: The wall is not above zero, or not below half the outside diameter.
    """
    limit = size.outside_diameter / 2
    if not 0 < wall < limit:
        raise OutOfRange(
            f"wall {to_mm(wall):g} mm is not between zero and {to_mm(limit):g} mm, half the outside diameter of "
            f"{size.dn}. Give the nominal wall, or a schedule: {', '.join(schedules(size))}."
        )
    return wall


def _plain_size(words: str) -> str:
    """Return the words in the form of the table: `dn 200`, `nps 8`, `copper 54 mm`."""
    name = re.sub(r"^(dn|nps) ?(?=[0-9])", r"\1 ", plain(words))
    copper = re.fullmatch(r"(?:copper ?)?([0-9.]+) ?mm(?: ?copper)?", name)
    return f"copper {copper[1]} mm" if copper and "copper" in name else name


def _walls(size: PipeSize) -> tuple[dict[str, str], ...]:
    tables = {size.table, B36_19M} if size.table == B36_10M else {size.table}
    return tuple(row for row in rows("pipe_walls.csv") if row["table"] in tables and row["size"] in {size.dn, size.nps})


def _wall(size: PipeSize, words: str) -> tuple[float, Source]:
    name = re.sub(r"^(schedule|sch)\.? ?", "", plain(words))
    name = re.sub(r"(?<=[0-9]) ?mm$", " mm", name)
    for row in _walls(size):
        if plain(row["schedule"]) == name:
            return mm(float(row["wall_mm"])), source_of(row)
    raise unknown(f"schedule for {size.dn}", words, schedules(size))


def _unknown_size(words: str, name: str, table: str) -> UnknownName:
    """Return the refusal of a size, with the nearest sizes first where the words hold a number.

    Nearest in what the words seem to mean: inches of NPS, an outside diameter in mm, or the number of a DN.
    """
    by_inch = name.startswith("nps") or name.endswith(("in", "inch", '"'))
    known = {size.nps if by_inch else size.dn: size for size in pipe_sizes(table)}
    asked = _number(name)
    if asked is None:
        return unknown("pipe size", words, known)

    def away(key: str) -> float:
        size = known[key]
        if by_inch:
            return abs(size.nps_inch - asked)
        of_it = to_mm(size.outside_diameter) if name.endswith("mm") else _number(plain(size.dn))
        assert of_it is not None, "every size of the tables has a number in its name"
        return abs(of_it - asked)

    ordered = tuple(sorted(known, key=away))
    hint = " or ".join(ordered[:NEAREST])
    return UnknownName(f"unknown pipe size {words!r} in {table}: did you mean {hint}?", ordered)


def _number(name: str) -> float | None:
    """Return the number in a name: `nps 3 1/2` is 3.5, `dn 200` is 200, `copper 54 mm` is 54; None without one."""
    found = re.fullmatch(
        r'[a-z ]*(?P<whole>[0-9]+(?:[.][0-9]+)?)?(?: ?(?P<top>[0-9]+)/(?P<low>[1-9][0-9]*))?[a-z" ]*', name
    )
    if found is None or not (found["whole"] or found["top"]):
        return None
    return float(found["whole"] or 0) + int(found["top"] or 0) / int(found["low"] or 1)
