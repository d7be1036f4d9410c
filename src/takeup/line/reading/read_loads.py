"""Loads of the user's own: where each acts, and how.     (line/reading/read_loads.py)

A load acts at a place or along a stretch of one line; places are the names of that line's corners, ends, holds, items
and take-ups, or stations. Loads that share a name act together.
"""

from __future__ import annotations

from takeup.line.conditions import Load
from takeup.line.parts import Position, Vector
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.positions import SAME_PLACE, locate
from takeup.line.reading.read_branch import Main
from takeup.line.reading.read_ends import vector
from takeup.line.reading.read_line import ReadLine
from takeup.line.reading.schema_users import LoadItem
from takeup.reading.fields import listed, nearest
from takeup.reading.yaml_places import Path

LOADS: Path = ("loads",)
NOTHING: Vector = (0.0, 0.0, 0.0)
POINT_KEYS = ("at", "force", "moment")
SPREAD_KEYS = ("from", "to", "force_per_length")


def read_loads(book: FaultBook, lines: tuple[ReadLine, ...]) -> tuple[Load, ...]:
    """Read the loads; a load on a line without a sound route is not placed."""
    names = tuple(line.name for line in lines if line.name)
    loads = []
    for index in range(book.size(LOADS)):
        path = (*LOADS, index)
        item = book.sound(LoadItem, path)
        if item is None:
            continue
        main = next((line.main for line in lines if line.name == item.on), None)
        if item.on not in names:
            book.add(
                (*path, "on"),
                f"'{item.on}' is no line of this file; {listed(names)}{nearest(item.on, names)}",
            )
        if _is_whole(book, item, path) and main is not None:
            load = _load(book, item, path, main)
            loads.extend([load] if load else [])
    return tuple(loads)


def _places(main: Main) -> dict[str, float]:
    """Return the named places of a line and their stations [m], its holds and take-ups among them."""
    takeups = {takeup.name: takeup.position.station for takeup in main.takeups}
    return dict(main.holds) | takeups | main.layout.places


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


def _load(book: FaultBook, item: LoadItem, path: Path, main: Main) -> Load | None:
    """Return the load, or None where its places are unsound."""
    if item.force_per_length is None:
        start, end = _position(book, main, item.at, (*path, "at")), None
    else:
        start = _position(book, main, item.start, (*path, "from"))
        end = _position(book, main, item.end, (*path, "to"))
        if start is not None and end is not None and end.station - start.station < SAME_PLACE:
            book.add(
                (*path, "to"),
                f"'{end.words}', at {end.station:.6g} m, is not past '{start.words}', at {start.station:.6g} m",
            )
    if start is None:
        return None
    return Load(
        name=item.name,
        line=item.on,
        start=start,
        end=end,
        force=vector(item.force_per_length or item.force) or NOTHING,
        moment=vector(item.moment) or NOTHING,
        duration=item.acts,
        source=item.source,
    )


def _position(book: FaultBook, main: Main, words: str | None, path: Path) -> Position | None:
    assert words is not None, "the load is whole"
    station = book.attempt(path, lambda: locate(words, _places(main), main.layout.length))
    return None if station is None else Position(words=words, station=station)
