"""Joints: their typed-in data, and whether each fits where it is put.     (line/reading/read_takeups.py)

A joint lies in one straight leg, clear of bends, of fittings, of holds and of other joints.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from takeup.joints import KINDS, ComputedBellows, JointData
from takeup.line.parts import Position
from takeup.line.reading.check_joint import check_circle, check_joint
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.names import Names
from takeup.line.reading.placed_holds import PlacedHold
from takeup.line.reading.positions import SAME_PLACE, locate
from takeup.line.reading.read_bellows import AXIAL, NEEDED, check_answers, read_bellows, read_ratings
from takeup.line.reading.read_hardware import read_balance, read_pins, read_rods
from takeup.line.reading.schema_takeups import MisalignmentItem, TakeUpItem
from takeup.line.records import TakeUp
from takeup.reading.yaml_places import Path


@dataclass(frozen=True, kw_only=True, slots=True)
class PlacedTakeUp:
    """A take-up and its place in the file."""

    takeup: TakeUp
    path: Path

    @property
    def begin(self) -> float:
        """Station of the face nearer the start [m]."""
        return self.takeup.position.station - self.takeup.data.length / 2

    @property
    def finish(self) -> float:
        """Station of the face nearer the end [m]."""
        return self.takeup.position.station + self.takeup.data.length / 2


def read_takeups(
    book: FaultBook, names: Names, takeups: Path, layout: Layout | None, holds: tuple[PlacedHold, ...]
) -> tuple[TakeUp, ...]:
    """Read the joints; without a sound route no position is judged. They come in the order of their stations."""
    placed: list[PlacedTakeUp] = []
    for index in range(book.size(takeups)):
        path = (*takeups, index)
        check_answers(book, path)
        item = book.sound(TakeUpItem, path)
        if item is None:
            continue
        names.claim(item.name, (*path, "name"))
        made, ratings = _made(book, item, path)
        data = _data(item, made, ratings)
        if data is None:
            continue
        check_joint(book, item, data, path)
        if layout is not None:
            one = _placed(book, layout, holds, (item, data, made), path)
            placed.extend([one] if one else [])
    placed.sort(key=lambda one: one.begin)
    for first, second in pairwise(placed):
        if second.begin < first.finish - SAME_PLACE:
            book.add(
                (*second.path, "at"),
                f"this joint begins at {second.begin:.6g} m, inside {first.takeup.name}, "
                f"which ends at {first.finish:.6g} m",
            )
    return tuple(one.takeup for one in placed)


def _placed(
    book: FaultBook,
    layout: Layout,
    holds: tuple[PlacedHold, ...],
    read: tuple[TakeUpItem, JointData, ComputedBellows | None],
    path: Path,
) -> PlacedTakeUp | None:
    item, data, made = read
    places = {one.hold.name: one.hold.position.station for one in holds} | layout.places
    station = book.attempt((*path, "at"), lambda: locate(item.at, places, layout.length))
    if station is None:
        return None
    takeup = TakeUp(
        name=item.name,
        kind=item.kind,
        position=Position(words=item.at, station=station),
        data=data,
        bellows=made,
        preset=item.preset or 0.0,
        misalignment=_misalignment(book, item.misalignment, (*path, "misalignment")),
        rods=read_rods(item.rods, data),
        pins=read_pins(book, item.pins, data, (*path, "pins")),
        balance=read_balance(item.balance),
    )
    size = layout.section_at(station).pipe.size
    check_circle(book, item.rods, size.outside_diameter if size else None, (*path, "rods"))
    one = PlacedTakeUp(takeup=takeup, path=path)
    _check_room(book, layout, one)
    for other in holds:
        if one.begin + SAME_PLACE < other.hold.position.station < one.finish - SAME_PLACE:
            station = other.hold.position.station
            book.add(
                (*path, "at"),
                f"{other.hold.name} holds the line at {station:.6g} m, inside this joint, "
                f"which reaches from {one.begin:.6g} m to {one.finish:.6g} m",
            )
    return one


def _check_room(book: FaultBook, layout: Layout, one: PlacedTakeUp) -> None:
    """Note a joint that reaches past the straight part of its leg, or over a fitting."""
    over = [item for item in layout.items if item.start + SAME_PLACE < one.finish and one.begin < item.end - SAME_PLACE]
    for item in over:
        book.add(
            (*one.path, "at"),
            f"this joint reaches from {one.begin:.6g} m to {one.finish:.6g} m, over {item.name}, "
            f"which fills the line from {item.start:.6g} m to {item.end:.6g} m",
        )
    if over:
        return
    begin, finish = layout.straight_at(one.takeup.position.station)
    if one.begin < begin - SAME_PLACE or one.finish > finish + SAME_PLACE:
        book.add(
            (*one.path, "at"),
            f"this joint reaches from {one.begin:.6g} m to {one.finish:.6g} m; "
            f"the straight part of its leg runs from {begin:.6g} m to {finish:.6g} m",
        )


def _misalignment(book: FaultBook, item: MisalignmentItem | None, path: Path) -> tuple[float, float]:
    if item is None:
        return (0.0, 0.0)
    if item.lateral is None and item.angular is None:
        book.add(path, "there must be 'lateral', 'angular' or both; neither is there", at_key=True)
    return (item.lateral or 0.0, item.angular or 0.0)


def _made(book: FaultBook, item: TakeUpItem, path: Path) -> tuple[ComputedBellows | None, Mapping[str, float | None]]:
    """Return the bellows of a joint that is given by its geometry, and the rated movements that are left to it."""
    made = None
    if item.bellows is not None:
        made = read_bellows(book, item.bellows, item.data.temperature, path)
    if made is None:
        return None, {}
    ratings, words = read_ratings(book, made, item, path)
    return (replace(made, notes=(*made.notes, words)) if words else made), ratings


def _data(item: TakeUpItem, made: ComputedBellows | None, ratings: Mapping[str, float | None]) -> JointData | None:
    """Return the data of a joint, with what a geometry gives; None where something is neither typed in nor given.

    Movements that a kind does not take count as none where they are not rated; the braid of a hose loop carries its
    thrust, so that it has no effective area.
    """
    values = item.data.model_dump() | dict(ratings)
    if "axial" not in KINDS[item.kind].rated:
        values |= {key: values[key] or 0.0 for key in AXIAL}
    if item.kind == "braided hose loop":
        values["effective_area"] = 0.0
    if made is not None:
        values |= {
            "axial_rate": made.shell.axial,
            "lateral_rate": made.shell.lateral,
            "angular_rate": made.shell.angular,
            "torsion_rate": made.shell.torsion,
            "effective_area": made.shell.effective_area,
            "live_length": made.of.live_length,
        }
    return None if any(values[key] is None for key in (*NEEDED, *AXIAL)) else JointData(**values)
