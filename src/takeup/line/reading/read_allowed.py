"""Where a line may be held, what is kept clear, room for loops, series.     (line/reading/read_allowed.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np

from takeup.errors import InputError, TakeupError
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.store import load_table
from takeup.line.allowed import Allowed, LoopRoom, MayHold
from takeup.line.parts import station_words
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.positions import SAME_PLACE, locate
from takeup.line.reading.schema_allowed import LoopRoomItem, MayHoldItem
from takeup.reading.yaml_places import Path

_ALONG = 0.05  # sine of an angle with the pipe below which a loop would lie along it
_MOST = 2_000  # places on one line: beyond, the step is a slip of the pen


def read_allowed(book: FaultBook, base: Path, layout: Layout | None, holds: Mapping[str, float]) -> Allowed:
    """Return what the building allows on a line; without a sound route nothing is judged but its form.

    Args:
        book: where faults go.
        base: of the line.
        layout: of it.
        holds: stations of its named holds [m].
    """
    series = tuple(_series(book, (*base, "takeups_from")))
    if layout is None:
        return Allowed(series=series)
    places = dict(holds) | layout.places
    may: dict[float, MayHold] = {}
    for index in range(book.size((*base, "may_hold"))):
        for one in _may_hold(book, layout, places, (*base, "may_hold", index)):
            may.setdefault(round(one.station, 6), one)
    clear = []
    for index in range(book.size((*base, "keep_clear"))):
        stretch = _stretch(book, layout, places, (*base, "keep_clear", index))
        clear += [] if stretch is None else [stretch]
    rooms = []
    for index in range(book.size((*base, "loop_room"))):
        room = _loop_room(book, layout, places, (*base, "loop_room", index))
        rooms += [] if room is None else [room]
    return Allowed(
        may_hold=tuple(may[station] for station in sorted(may)),
        keep_clear=tuple(sorted(clear)),
        loop_room=tuple(rooms),
        series=series,
    )


def _series(book: FaultBook, path: Path) -> Iterator[SeriesTable]:
    for index in range(book.size(path)):
        name = book.words((*path, index))
        try:
            yield load_table(name, book.folder)
        except InputError as error:
            book.add((*path, index), f"the series cannot be read: {error.faults[0]}")
        except TakeupError as error:
            book.add((*path, index), str(error))


def _may_hold(book: FaultBook, layout: Layout, places: Mapping[str, float], path: Path) -> Iterator[MayHold]:
    item = book.sound(MayHoldItem, path)
    if item is None:
        return
    if (item.at is None) == (item.every is None):
        which = "neither is there" if item.at is None else "both are there"
        book.add(path, f"places that may hold are given 'at' positions or 'every' so far; {which}")
        return
    if item.between is not None and item.every is None:
        book.add((*path, "between"), "this belongs to 'every'; leave it out, or 'at'", at_key=True)
        return
    force = None if item.can_carry is None else item.can_carry.force
    moment = None if item.can_carry is None else item.can_carry.moment
    for number, words in enumerate(item.at or ()):
        where = (*path, "at", number) if book.size((*path, "at")) else (*path, "at")
        station = _at(book, layout, places, words, where)
        if station is None:
            continue
        why = _cannot_stand(layout, station)
        if why:
            book.add(where, f"no anchor can stand at '{words}': {why}")
        else:
            yield MayHold(words=words, station=station, can_carry=force, can_carry_moment=moment)
    if item.every is not None:
        for station in _steps(book, layout, places, item, path):
            if not _cannot_stand(layout, station):
                yield MayHold(words=station_words(station), station=station, can_carry=force, can_carry_moment=moment)


def _steps(
    book: FaultBook, layout: Layout, places: Mapping[str, float], item: MayHoldItem, path: Path
) -> Iterator[float]:
    """Yield places at equal distances; those on bends, fittings and at the ends are passed over."""
    assert item.every is not None, "the caller has looked"
    stretch: tuple[float, float] | None = (0.0, layout.length)
    if item.between is not None:
        stretch = _stretch(book, layout, places, (*path, "between"))
    if stretch is None:
        return
    begin, finish = stretch
    count = math.floor((finish - begin) / item.every + SAME_PLACE)
    if count > _MOST:
        book.add((*path, "every"), f"that makes {count} places; at most {_MOST} are taken")
        return
    yield from (begin + number * item.every for number in range(count + 1))


def _cannot_stand(layout: Layout, station: float) -> str:
    """Return why no anchor can stand at a station; "" where one can."""
    if not SAME_PLACE < station < layout.length - SAME_PLACE:
        return "it is an end of the line"
    if layout.bend_at(station) is not None or layout.on_arc(station):
        return "it is on a bend"
    item = layout.item_at(station)
    return "" if item is None else f"{item.name} is there"


def _stretch(book: FaultBook, layout: Layout, places: Mapping[str, float], path: Path) -> tuple[float, float] | None:
    """Return the stations of a stretch, the first one before the second; None, and a fault, where it is none."""
    words = [book.words((*path, number)) for number in range(book.size(path))]
    found = [_at(book, layout, places, word, (*path, number)) for number, word in enumerate(words)]
    if len(found) != len("ab") or None in found:
        return None
    begin, finish = (float(one) for one in found if one is not None)
    if finish - begin < SAME_PLACE:
        book.add(path, f"'{words[1]}' is not past '{words[0]}'")
        return None
    return begin, finish


def _at(book: FaultBook, layout: Layout, places: Mapping[str, float], words: str, path: Path) -> float | None:
    return book.attempt(path, lambda: locate(words, places, layout.length))


def _loop_room(book: FaultBook, layout: Layout, places: Mapping[str, float], path: Path) -> LoopRoom | None:
    item = book.sound(LoopRoomItem, path)
    if item is None:
        return None
    stretch = (0.0, layout.length) if item.between is None else _stretch(book, layout, places, (*path, "between"))
    if stretch is None:
        return None
    across = [np.linalg.norm(np.cross(leg.direction, item.towards)) for leg in layout.legs]
    if max(float(one) for one in across) < _ALONG:
        book.add((*path, "towards"), "this lies along every leg of the line; a loop goes out across it")
    return LoopRoom(towards=item.towards, depth=item.depth, start=stretch[0], end=stretch[1])


__all__ = ["read_allowed"]
