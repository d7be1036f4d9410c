"""One line of the file: its pipe, route, holds, take-ups, conditions and zones.     (line/reading/read_line.py)"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import get_args

from takeup.library import Material
from takeup.line.conditions import Medium, ZoneRule
from takeup.line.parts import Position, Section, UserValue
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.names import Names
from takeup.line.reading.positions import SAME_PLACE, locate
from takeup.line.reading.read_allowed import read_allowed
from takeup.line.reading.read_branch import Main
from takeup.line.reading.read_conditions import ConditionSet, read_set, says_own
from takeup.line.reading.read_holds import read_holds
from takeup.line.reading.read_pipe import Stock, read_insulation, read_pipe
from takeup.line.reading.read_route import Beginning, read_route
from takeup.line.reading.read_takeups import read_takeups
from takeup.line.reading.schema_conditions import OwnDesignItem
from takeup.line.reading.schema_line import ZoneItem
from takeup.line.reading.schema_pipe import DensityItem
from takeup.line.records import Line, TakeUp
from takeup.reading.yaml_places import Path

LINES: Path = ("lines",)
MEDIA: tuple[Medium, ...] = get_args(Medium)
THERMAL_OIL = "thermal oil"


@dataclass(frozen=True, kw_only=True, slots=True)
class ReadLine:
    """A line as read: what could be judged of it, and the record where all of it is sound.

    Args:
        name: its name.
        path: where in the file it stands.
        line: the record; None where a part of it is unsound.
        main: what branches need of it; None where its route is unsound.
        medium: what flows in it.
        sets: its conditions and those of its zones.
        materials: of its pipes.
        bellows: materials of its joints' bellows whose modulus is tabulated.
    """

    name: str
    path: Path
    line: Line | None
    main: Main | None
    medium: Medium | None
    sets: tuple[ConditionSet, ...]
    materials: tuple[Material, ...]
    bellows: tuple[Material, ...]


def read_lines(book: FaultBook, names: Names, stock: Stock, conditions: ConditionSet) -> tuple[ReadLine, ...]:
    """Read the lines in the order of the file; a line may leave one that stands before it."""
    found: list[ReadLine] = []
    for index in range(book.size(LINES)):
        mains = {one.name: one.main for one in found if one.name}
        found.append(_read_line(book, names, (*LINES, index), (stock, conditions, mains)))
    return tuple(found)


def _hottest(book: FaultBook, base: Path, conditions: ConditionSet) -> float | None:
    """Return the highest design temperature of a line [degC]: the tables of its materials should reach it.

    A branch may be one zone with the line that it leaves, so it counts every line of the file.
    """
    alone = not book.has((*base, "route", 0, "of"))
    lines: list[Path] = [base] if alone else [(*LINES, index) for index in range(book.size(LINES))]
    own = [book.has((*line, "design")) for line in lines]
    found = [conditions.design.condition.temperature] if conditions.design and not all(own) else []
    for line in lines:
        zones = [(*line, "zones", number) for number in range(book.size((*line, "zones")))]
        for path in (line, *zones):
            item = book.sound(OwnDesignItem, (*path, "design"))
            found += [item.temperature] if item else []
    return max(found, default=None)


def _read_line(
    book: FaultBook, names: Names, base: Path, context: tuple[Stock, ConditionSet, Mapping[str, Main | None]]
) -> ReadLine:
    stock, conditions, mains = context
    stock = replace(stock, hottest=_hottest(book, base, conditions))
    name = book.words((*base, "name"))
    if name:
        names.claim(name, (*base, "name"))
    pipe = read_pipe(book, (*base, "pipe"), stock)
    begin = Beginning(
        line=name,
        many=book.size(LINES) > 1,
        pipe=pipe,
        insulation=read_insulation(book, (*base, "insulation")),
        stock=stock,
        mains=mains,
    )
    layout = read_route(book, names, (*base, "route"), begin)
    holds = read_holds(book, names, (*base, "holds"), layout)
    joints = read_takeups(book, names, (*base, "takeups"), layout, holds.placed)
    takeups = joints.takeups
    every = sorted((*(one.hold for one in holds.placed), *joints.bases), key=lambda hold: hold.position.station)
    own = read_set(book, base, conditions)
    zones, sets = _zones(book, names, (*base, "zones"), layout, own)
    medium = next((medium for medium in MEDIA if medium == book.words((*base, "medium"))), None)
    density = _medium_density(book, base, medium)
    main = None
    if layout is not None:
        stations = {hold.name: hold.position.station for hold in every}
        main = Main(layout=layout, holds=stations, takeups=takeups)
    allowed = read_allowed(book, base, layout, {hold.name: hold.position.station for hold in every})
    sections = _sections(layout)
    line = None
    if layout is not None and sections is not None and medium is not None:
        line = Line(
            name=name,
            medium=medium,
            medium_density=density,
            sections=sections,
            items=layout.items,
            start=layout.start,
            branch=layout.branch,
            start_at=layout.start_at,
            legs=layout.legs,
            end=layout.end,
            holds=tuple(every),
            rules=holds.rules,
            takeups=takeups,
            choices=joints.choices,
            allowed=allowed,
            conditions=own.conditions if says_own(book, base) else None,
            zones=zones,
        )
    parts = [pipe, *(section.pipe for section in (layout.sections if layout else ()))]
    return ReadLine(
        name=name,
        path=base,
        line=line,
        main=main,
        medium=medium,
        sets=(own, *sets),
        materials=tuple({part.steel.material.name: part.steel.material for part in parts if part.steel}.values()),
        bellows=_of_bellows(takeups),
    )


def _of_bellows(takeups: tuple[TakeUp, ...]) -> tuple[Material, ...]:
    """Return the materials of the library that bellows by geometry are made of, each once."""
    found = [takeup.bellows.of.library_material for takeup in takeups if takeup.bellows is not None]
    return tuple({one.name: one for one in found if one is not None}.values())


def _sections(layout: Layout | None) -> tuple[Section, ...] | None:
    """Return the sections of a line, or None where a pipe is unsound."""
    found = []
    for section in layout.sections if layout else ():
        pipe = section.pipe.pipe
        if pipe is None:
            return None
        found.append(Section(start=section.start, end=section.end, pipe=pipe, insulation=section.insulation))
    return tuple(found) if found else None


def _medium_density(book: FaultBook, base: Path, medium: Medium | None) -> UserValue | None:
    """Return the density that is typed in for a medium without one of its own."""
    path = (*base, "medium_density")
    if medium == THERMAL_OIL and not book.has(path):
        book.add(base, f"{THERMAL_OIL} needs the key 'medium_density': its density with a source", at_key=True)
    if medium is not None and medium != THERMAL_OIL and book.has(path):
        book.add(path, f"the density of {medium} follows from its pressure and temperature; leave it out", at_key=True)
    item = book.sound(DensityItem, path)
    return UserValue(value=item.value, source=item.source) if item else None


def _zones(
    book: FaultBook, names: Names, zones: Path, layout: Layout | None, own: ConditionSet
) -> tuple[tuple[ZoneRule, ...], tuple[ConditionSet, ...]]:
    """Return the zones of the user's own in the order of their stations, and their conditions."""
    rules: list[tuple[Path, ZoneRule]] = []
    sets: list[ConditionSet] = []
    for index in range(book.size(zones)):
        path = (*zones, index)
        sets.append(read_set(book, path, own))
        item = book.sound(ZoneItem, path)
        if item is None:
            continue
        names.claim(item.name, (*path, "name"))
        position = _zone_place(book, item.place, (*path, "from"), layout)
        if position is not None:
            conditions = sets[-1].conditions if says_own(book, path) else None
            rules.append((path, ZoneRule(name=item.name, position=position, conditions=conditions)))
    rules.sort(key=lambda one: one[1].position.station)
    for (_, first), (path, second) in pairwise(rules):
        if second.position.station - first.position.station < SAME_PLACE:
            book.add((*path, "from"), f"the zone {first.name} begins at the same place")
    return tuple(rule for _, rule in rules), tuple(sets)


def _zone_place(book: FaultBook, words: str, path: Path, layout: Layout | None) -> Position | None:
    if layout is None:
        return None
    station = book.attempt(path, lambda: locate(words, layout.places, layout.length))
    if station is None:
        return None
    if not SAME_PLACE < station < layout.length - SAME_PLACE:
        book.add(path, f"'{words}' is an end of the line, and a zone of its own begins between its ends")
        return None
    return Position(words=words, station=station)
