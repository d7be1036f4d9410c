"""Loads of the user's own: where each acts, and how.     (line/read_loads.py)

A load acts at a place or along a stretch of one line; places are the names of that line's corners, ends, holds, items
and take-ups, or stations. Loads that share a name act together.
"""

from __future__ import annotations

from takeup.line.conditions import Load
from takeup.line.faultbook import FaultBook
from takeup.line.fields import nearest
from takeup.line.parts import Position, Vector
from takeup.line.positions import SAME_PLACE, locate
from takeup.line.read_ends import vector
from takeup.line.records import Line
from takeup.line.schema_users import LoadItem
from takeup.line.yaml_places import Path

LOADS: Path = ("loads",)
NOTHING: Vector = (0.0, 0.0, 0.0)
POINT_KEYS = ("at", "force", "moment")
SPREAD_KEYS = ("from", "to", "force_per_length")


def read_loads(book: FaultBook, lines: tuple[Line | None, ...], names: tuple[str, ...]) -> tuple[Load, ...]:
    """Read the loads.

    Args:
        book: where faults go.
        lines: the lines as read, None where one is unsound: no load on it is placed.
        names: of the lines, sound or not.
    """
    known = {line.name: line for line in lines if line is not None}
    loads = []
    for index in range(book.size(LOADS)):
        path = (*LOADS, index)
        item = book.sound(LoadItem, path)
        if item is None:
            continue
        if item.on not in names:
            book.add(
                (*path, "on"),
                f"'{item.on}' is no line of this file; they are: {', '.join(names)}{nearest(item.on, names)}",
            )
        load = _load(book, item, path, known.get(item.on)) if _is_whole(book, item, path) else None
        loads.extend([load] if load else [])
    return tuple(loads)


def places_of(line: Line) -> dict[str, float]:
    """Return the named places of a line and their stations [m]: holds, take-ups, corners and ends, middles of items."""
    station = 0.0
    places = {hold.name: hold.position.station for hold in line.holds}
    places |= {takeup.name: takeup.position.station for takeup in line.takeups}
    places[line.start.name] = 0.0
    for leg in line.legs:
        station += leg.length
        places[leg.to.name] = station
    return places | {item.name: (item.start + item.end) / 2.0 for item in line.items}


def _is_whole(book: FaultBook, item: LoadItem, path: Path) -> bool:
    """Note a load that is neither wholly a point load nor wholly a spread one."""
    point = [key for key in POINT_KEYS if book.has((*path, key))]
    spread = [key for key in SPREAD_KEYS if book.has((*path, key))]
    if bool(point) == bool(spread):
        found = f"found {', '.join((*point, *spread))}" if point else "neither is there"
        book.add(
            path,
            "a load acts 'at' a place, with 'force' or 'moment', or 'from' one place 'to' another, with "
            f"'force_per_length'; {found}",
        )
        return False
    missing = [key for key in SPREAD_KEYS if key not in spread] if spread else []
    if point and "at" not in point:
        missing = ["at"]
    for key in missing:
        book.add(path, f"a load with '{(point or spread)[0]}' needs '{key}' beside it")
    if point == ["at"]:
        book.add(path, "a load 'at' a place needs 'force', 'moment' or both")
        return False
    if not missing and not any((*(item.force or ()), *(item.moment or ()), *(item.force_per_length or ()))):
        book.add(path, "this load is nothing: all its numbers are zero")
    return not missing


def _load(book: FaultBook, item: LoadItem, path: Path, line: Line | None) -> Load | None:
    """Return the load, or None where its places are unsound or its line is."""
    if line is None:
        return None
    if item.force_per_length is None:
        start, end = _position(book, line, item.at, (*path, "at")), None
    else:
        start = _position(book, line, item.start, (*path, "from"))
        end = _position(book, line, item.end, (*path, "to"))
        if start is not None and end is not None and end.station - start.station < SAME_PLACE:
            book.add(
                (*path, "to"),
                f"'{end.words}', at {end.station:.6g} m, is not past '{start.words}', at {start.station:.6g} m",
            )
    if start is None:
        return None
    return Load(
        name=item.name,
        line=line.name,
        start=start,
        end=end,
        force=vector(item.force_per_length or item.force) or NOTHING,
        moment=vector(item.moment) or NOTHING,
        duration=item.acts,
        source=item.source,
    )


def _position(book: FaultBook, line: Line, words: str | None, path: Path) -> Position | None:
    assert words is not None, "the load is whole"
    length = sum(leg.length for leg in line.legs)
    station = book.attempt(path, lambda: locate(words, places_of(line), length))
    return None if station is None else Position(words=words, station=station)
