"""Holds against their neighbours: two at one place must hold different ways.     (line/reading/placed_holds.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.line.holding import ANCHORED_ENDS, Hold
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.read_ends import NEARLY_ALONG, along
from takeup.line.route import Route, centre_line
from takeup.line.ways import EVERY_WAY, shared_way
from takeup.reading.yaml_places import Path

HOLD_PATH = 4  # lines, number, holds, number


@dataclass(frozen=True, kw_only=True, slots=True)
class PlacedHold:
    """A hold, the place in the file where its position was typed, and what was said of it.

    Args:
        hold: the hold.
        path: of its position.
        named: whether the user gave it a name.
        whole: whether it says all that its kind needs; its ways are not judged otherwise.
    """

    hold: Hold
    path: Path
    named: bool = True
    whole: bool = True


def check_placed(book: FaultBook, placed: list[PlacedHold], layout: Layout) -> None:
    """Note planar guides that leave the pipe's own way free, and holds that take the same way at one place."""
    route = centre_line(layout.start_at, layout.legs)
    sound: list[PlacedHold] = []
    for one in (one for one in placed if one.whole):
        flow = route.direction(one.hold.position.station)
        if one.hold.kind == "planar guide" and one.hold.along is not None:
            x, y, z = flow
            if abs(along(one.hold.along, (x, y, z))) > NEARLY_ALONG:
                book.add(
                    (*one.path[:HOLD_PATH], "free_along"),
                    "this way runs along the pipe here, within 10 degrees; a planar guide leaves a way across it free",
                )
                continue
        sound.append(one)
    _check_apart(book, sound, route)
    _check_ends(book, placed, layout)
    _check_default_names(book, placed)


def _check_apart(book: FaultBook, placed: list[PlacedHold], route: Route) -> None:
    """Note holds at one place that take the same way; `placed` is in the order of stations."""
    for number, first in enumerate(placed):
        for second in placed[number + 1 :]:
            if second.hold.position.station - first.hold.position.station >= SAME_PLACE:
                break
            shared = shared_way(first.hold, second.hold, route)
            if shared is not None:
                later, earlier = sorted((first, second), key=lambda one: book.line_of(one.path), reverse=True)
                _note_shared(book, later, earlier.hold.name, shared)


def _check_ends(book: FaultBook, placed: list[PlacedHold], layout: Layout) -> None:
    """Note holds that stand where an end holds the line already."""
    for one in placed:
        for end, station in ((layout.start, 0.0), (layout.end, layout.length)):
            if end.kind in ANCHORED_ENDS and abs(one.hold.position.station - station) < SAME_PLACE:
                noun = "end" if end.kind == "continues" else end.kind
                _note_shared(book, one, f"the {noun} {end.name}", EVERY_WAY)


def _note_shared(book: FaultBook, one: PlacedHold, other: str, way: str) -> None:
    why = "" if way == EVERY_WAY else f", and both hold it {way}"
    book.add(one.path, f"this hold stands at the same place as {other}, at {one.hold.position.station:.6g} m{why}")


def _check_default_names(book: FaultBook, placed: list[PlacedHold]) -> None:
    """Note holds without names of their own that would be called the same."""
    called: dict[str, PlacedHold] = {}
    for one in sorted((one for one in placed if not one.named), key=lambda one: book.line_of(one.path)):
        first = called.setdefault(one.hold.name, one)
        if first is not one:
            book.add(
                one.path,
                f"this hold and the one at line {book.line_of(first.path)} would both be called '{one.hold.name}'; "
                "give one of them a 'name'",
            )
