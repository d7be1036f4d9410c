"""Joints: their typed-in data, and whether each fits where it is put.     (line/reading/read_takeups.py)

A joint lies in one straight leg, clear of bends, of fittings, of holds and of other joints. A double is read as two
joints with an anchor base between (read_doubles.py), one from a series as a choice (read_choices.py).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from takeup.joints import WRITTEN_KINDS, ComputedBellows, JointData
from takeup.line.choices import Choice
from takeup.line.holding import Hold
from takeup.line.parts import Position
from takeup.line.reading.check_joint import check_circle, check_joint, check_spread
from takeup.line.reading.check_place import check_place
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.names import Names
from takeup.line.reading.placed_holds import PlacedHold
from takeup.line.reading.positions import SAME_PLACE, locate
from takeup.line.reading.read_bellows import AXIAL, NEEDED, check_answers, read_bellows, read_ratings
from takeup.line.reading.read_choices import PlacedChoice, choices_with_room, read_choice
from takeup.line.reading.read_doubles import HALVES, base_of, halves_of, kind_in_model, of_each_half
from takeup.line.reading.read_fitting import OF_ADVICE, check_ends, check_liner, check_words, read_fitting
from takeup.line.reading.read_hardware import read_balance, read_pins, read_rods
from takeup.line.reading.schema_choices import ChoiceItem
from takeup.line.reading.schema_takeups import MisalignmentItem, TakeUpItem
from takeup.line.records import TakeUp
from takeup.reading.yaml_places import Path


@dataclass(frozen=True, kw_only=True, slots=True)
class Joints:
    """The joints of a line in the order of their stations, the anchor bases of its doubles, and what series leave."""

    takeups: tuple[TakeUp, ...]
    bases: tuple[Hold, ...]
    choices: tuple[Choice, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Placed:
    """A take-up as written, and its place in the file; of a double, with the data of each half.

    `begin` and `finish` are the stations of its faces [m].
    """

    takeup: TakeUp
    item: TakeUpItem
    path: Path
    begin: float
    finish: float

    @property
    def is_double(self) -> bool:
        """Whether two joints with a base between are written as one."""
        return WRITTEN_KINDS[self.item.kind].halves is not None


def read_takeups(
    book: FaultBook, names: Names, takeups: Path, layout: Layout | None, holds: tuple[PlacedHold, ...]
) -> Joints:
    """Read the joints; without a sound route no position is judged. They come in the order of their stations."""
    placed: list[_Placed] = []
    choices: list[PlacedChoice] = []
    for index in range(book.size(takeups)):
        path = (*takeups, index)
        if book.takeup_model(path) is ChoiceItem:
            choices += _choice(book, names, layout, holds, path)
            continue
        check_answers(book, path)
        item = book.sound(TakeUpItem, path)
        if item is None:
            continue
        _claim(names, item, (*path, "name"))
        check_words(book, item, path)
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
    return Joints(
        takeups=tuple(joint for one in placed for joint in (halves_of(one.takeup) if one.is_double else (one.takeup,))),
        bases=tuple(base_of(one.takeup, one.item.base) for one in placed if one.is_double),
        choices=choices_with_room(book, choices, [(one.begin, one.finish) for one in placed]),
    )


def _choice(
    book: FaultBook, names: Names, layout: Layout | None, holds: tuple[PlacedHold, ...], path: Path
) -> list[PlacedChoice]:
    item = book.sound(ChoiceItem, path)
    if item is None:
        return []
    names.claim(item.name, (*path, "name"))
    check_words(book, item, path)
    found = read_choice(book, item, layout, holds, path)
    return [] if found is None else [found]


def _claim(names: Names, item: TakeUpItem, path: Path) -> None:
    """Take the names of a joint; those of the parts of a double too."""
    names.claim(item.name, path)
    if WRITTEN_KINDS[item.kind].halves is not None:
        for name in (*(f"{item.name}, {half}" for half in HALVES), f"{item.name} base"):
            names.claim(name, path)


def _placed(
    book: FaultBook,
    layout: Layout,
    holds: tuple[PlacedHold, ...],
    read: tuple[TakeUpItem, JointData, ComputedBellows | None],
    path: Path,
) -> _Placed | None:
    item, data, made = read
    places = {one.hold.name: one.hold.position.station for one in holds} | layout.places
    station = book.attempt((*path, "at"), lambda: locate(item.at, places, layout.length))
    if station is None:
        return None
    takeup = TakeUp(
        name=item.name,
        kind=kind_in_model(item.kind),
        position=Position(words=item.at, station=station),
        data=data,
        bellows=made,
        preset=item.preset or 0.0,
        misalignment=_misalignment(book, item.misalignment, (*path, "misalignment")),
        rods=read_rods(item.rods, data),
        pins=read_pins(book, item.pins, data, layout.legs[layout.leg_at(station)].direction, (*path, "pins")),
        balance=read_balance(item.balance),
        ends=item.ends,
        fitting=read_fitting(item),
        written_as=item.kind,
    )
    check_liner(book, item.liner, data.length, (*path, "liner"))
    check_ends(book, item, layout.section_at(station), path)
    size = layout.section_at(station).pipe.size
    outside = size.outside_diameter if size else None
    check_circle(book, item.rods, outside, (*path, "rods"))
    check_spread(book, item.pins, outside, (*path, "pins"))
    check_place(book, layout, holds, takeup, path, whole=item.data.length)
    half = item.data.length / 2.0
    return _Placed(takeup=takeup, item=item, path=path, begin=station - half, finish=station + half)


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
    values = item.data.model_dump(exclude=set(OF_ADVICE)) | dict(ratings)
    kind = WRITTEN_KINDS[item.kind]
    if "axial" not in kind.rated:
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
    if any(values[key] is None for key in (*NEEDED, *AXIAL)):
        return None
    data = JointData(**values)
    return data if kind.halves is None else of_each_half(data, item.base)
