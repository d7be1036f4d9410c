"""Nominal pipe sizes and wall thicknesses: exact look-up or refusal.     (library/sizes.py)

A look-up by tolerance can return the neighbouring pipe (139.7 mm is not NPS 5), so there is none: a size is named
DN 200 or NPS 8, a wall by its schedule. Source: ASME B36.10M, welded and seamless wrought steel pipe.
"""

from __future__ import annotations

import re
from functools import cache

from takeup.errors import OutOfRange
from takeup.library.records import PipeSize, Source
from takeup.library.tables import plain, rows, source_of, unknown
from takeup.units import mm, to_mm


@cache
def pipe_sizes() -> tuple[PipeSize, ...]:
    """Return every size of the table, the smallest first."""
    return tuple(
        PipeSize(
            dn=row["dn"],
            nps=row["nps"],
            nps_inch=float(row["nps_inch"]),
            outside_diameter=mm(float(row["outside_diameter_mm"])),
            source=source_of(row),
        )
        for row in rows("pipe_sizes.csv")
    )


def pipe_size(words: str) -> PipeSize:
    """Return the size called `DN 200`, `DN200`, `NPS 8` or `NPS 3 1/2`.

    Raises:
        UnknownName: The table holds no size of this name.
    """
    name = re.sub(r"^(dn|nps) ?(?=[0-9])", r"\1 ", plain(words))
    for size in pipe_sizes():
        if name in {plain(size.dn), plain(size.nps)}:
            return size
    known = [size.nps if name.startswith("nps") else size.dn for size in pipe_sizes()]
    raise unknown("pipe size", words, known)


def schedules(size: PipeSize) -> tuple[str, ...]:
    """Return the schedules in which this size is tabulated."""
    return tuple(row["schedule"] for row in rows("pipe_walls.csv") if row["nps"] == size.nps)


def wall_thickness(size: PipeSize, words: str) -> float:
    """Return the nominal wall [m] of a schedule: `40`, `schedule 40`, `Sch 40`, `STD`, `XS`, `XXS`.

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


def _wall(size: PipeSize, words: str) -> tuple[float, Source]:
    name = re.sub(r"^(schedule|sch)\.? ?", "", plain(words))
    for row in rows("pipe_walls.csv"):
        if row["nps"] == size.nps and plain(row["schedule"]) == name:
            return mm(float(row["wall_mm"])), source_of(row)
    raise unknown(f"schedule for {size.dn}", words, schedules(size))
