"""Take-ups whose joint comes from a series: where they stand, with how much room.     (line/reading/read_choices.py)"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from takeup.errors import InputError, TakeupError
from takeup.joints import KINDS, PinsLie
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.store import load_table
from takeup.library import PipeSize, size_number
from takeup.line.choices import Choice
from takeup.line.parts import Position, Vector
from takeup.line.reading.check_place import room_at
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.pin_ways import across_the_pipe
from takeup.line.reading.placed_holds import PlacedHold
from takeup.line.reading.positions import SAME_PLACE, locate
from takeup.line.reading.read_fitting import read_fitting
from takeup.line.reading.schema_choices import ChoiceItem
from takeup.line.room import room_about
from takeup.reading.fields import listed, nearest
from takeup.reading.yaml_places import Path
from takeup.units import to_mm

_ROUNDING = 1e-9  # rods that touch the pipe but for rounding leave room (choose/selection/screen.py)


@dataclass(frozen=True, kw_only=True, slots=True)
class PlacedChoice:
    """A choice, where it stands in the file, and the size of the pipe there; None where that is unsound."""

    choice: Choice
    path: Path
    size: PipeSize | None


def read_choice(
    book: FaultBook, item: ChoiceItem, layout: Layout | None, holds: tuple[PlacedHold, ...], path: Path
) -> PlacedChoice | None:
    """Return a place for a joint of a series; None where something is wrong with it."""
    table = _table(book, item, path)
    _check_answer(book, item, path)
    if layout is None:
        return None
    places = {one.hold.name: one.hold.position.station for one in holds} | layout.places
    station = book.attempt((*path, "at"), lambda: locate(item.at, places, layout.length))
    if station is None or table is None:
        return None
    stations = [one.hold.position.station for one in holds]
    room = room_at(layout, stations, station)
    if room <= SAME_PLACE:
        found = f"there is no room for a joint at {station:.6g} m: a bend, a fitting or a hold is there"
        book.add((*path, "at"), found)
        return None
    pins = _pins(book, item, layout.legs[layout.leg_at(station)].direction, path)
    choice = Choice(
        name=item.name,
        kind=item.kind,
        position=Position(words=item.at, station=station),
        table=table,
        joint=item.joint,
        rank=None if item.joint is not None else (item.rank or "price"),
        room=room,
        preset=item.preset or 0.0,
        misalignment=_misalignment(item),
        ends=item.ends,
        fitting=read_fitting(item),
        pins=pins,
    )
    return PlacedChoice(choice=choice, path=path, size=layout.section_at(station).pipe.size)


def _pins(book: FaultBook, item: ChoiceItem, pipe: Vector, path: Path) -> PinsLie | None:
    """Return how the pins of a joint lie; note where nobody says, or where it has none."""
    pinned = KINDS[item.kind].pins != "none"
    if item.pins is None:
        if pinned and not book.has((*path, "pins")):
            book.add(path, f"the kind {item.kind} needs 'pins': how they lie, such as {{ along: upright }}")
        return None
    if not pinned:
        book.add((*path, "pins"), f"the kind {item.kind} has no pins; leave this key out", at_key=True)
        return None
    lie = item.pins.along
    across = book.attempt((*path, "pins", "along"), lambda: across_the_pipe(lie, pipe))
    return None if across is None else PinsLie(along=across, way=lie.words)


def choices_with_room(
    book: FaultBook, placed: Sequence[PlacedChoice], faces: Sequence[tuple[float, float]]
) -> tuple[Choice, ...]:
    """Return places for joints with the room that other joints leave; note a named joint that does not fit.

    A joint that is named takes what its table says that it is long. Between two places that are both left to be
    selected, each has half of what lies between.

    Args:
        book: where faults go.
        placed: of a line.
        faces: stations at which the joints of the line begin and end whose data are typed in [m].
    """
    found = []
    for one in placed:
        station = one.choice.position.station
        taken = [_taken(one.choice, other.choice) for other in placed if other is not one]
        choice = replace(one.choice, room=min(one.choice.room, room_about(station, [*faces, *taken])))
        if choice.room <= SAME_PLACE:
            book.add((*one.path, "at"), f"another joint is at {station:.6g} m")
        else:
            _check_joint(book, choice, one.path)
            _check_size(book, replace(one, choice=choice))
        found.append(choice)
    return tuple(sorted(found, key=lambda choice: choice.position.station))


def _taken(choice: Choice, other: Choice) -> tuple[float, float]:
    """Return from where to where a place for a joint takes room from another, as stations [m]."""
    station = other.position.station
    if other.joint in other.table.names:
        half = float(other.table.numbers["length"][other.table.names.index(other.joint)]) / 2.0
        return station - half, station + half
    if choice.joint is not None:
        return station, station
    return ((choice.position.station + station) / 2.0,) * 2


def _table(book: FaultBook, item: ChoiceItem, path: Path) -> SeriesTable | None:
    try:
        return load_table(item.series, book.folder)
    except InputError as error:
        book.add((*path, "from"), f"the series cannot be read: {error.faults[0]}")
    except TakeupError as error:
        book.add((*path, "from"), str(error))
    return None


def _check_answer(book: FaultBook, item: ChoiceItem, path: Path) -> None:
    """Note a joint that is neither named nor to be selected, or both."""
    if item.select is False:
        said = book.words((*path, "select"))
        book.add((*path, "select"), f"'{said}' leaves the joint open: say yes, or name one under 'joint'")
    elif item.joint is None and item.select is None:
        book.add(path, "a joint of a series is named under 'joint', or 'select: true' selects one; neither is there")
    elif item.joint is not None and item.select:
        book.add((*path, "select"), "the joint is named already; leave this key out, or 'joint'", at_key=True)
    if item.joint is not None and item.rank is not None:
        book.add((*path, "rank"), "the joint is named, and nothing is ranked; leave this key out", at_key=True)


def _check_joint(book: FaultBook, choice: Choice, path: Path) -> None:
    """Note a joint that its series does not have, of another kind, or too long for its place."""
    table = choice.table
    if choice.kind not in table.kinds:
        kinds = listed(tuple(dict.fromkeys(table.kinds)))
        book.add((*path, "kind"), f"{table.provenance.series} has no joint of the kind {choice.kind}; {kinds}")
        return
    if choice.joint is None:
        return
    if choice.joint not in table.names:
        hint = nearest(choice.joint, table.names)
        book.add((*path, "joint"), f"{table.provenance.series} has no joint '{choice.joint}'{hint}")
        return
    row = table.names.index(choice.joint)
    if table.kinds[row] != choice.kind:
        book.add((*path, "kind"), f"{choice.joint} is of the kind {table.kinds[row]}")
    length = float(table.numbers["length"][row])
    if length > choice.room + SAME_PLACE:
        book.add(
            (*path, "at"),
            f"{choice.joint} is {to_mm(length):.5g} mm long, and there is room for {to_mm(choice.room):.5g} mm at "
            f"{choice.position.station:.6g} m",
        )


def _check_size(book: FaultBook, placed: PlacedChoice) -> None:
    """Note a named joint of another size than the pipe it is to stand in, or whose rods stand within that pipe."""
    choice, size = placed.choice, placed.size
    table = choice.table
    if size is None or choice.joint not in table.names:
        return
    row, at = table.names.index(choice.joint), f"at {choice.position.station:.6g} m"
    if not table.of_size(size_number(size))[row]:
        found = f"{choice.joint} is of the size {table.numbers['size_dn'][row]:g}, and the pipe {at} is {size.dn}"
        book.add((*placed.path, "joint"), found)
    elif table.clear[row] < size.outside_diameter * (1.0 - _ROUNDING):
        clear, outside = to_mm(float(table.clear[row])), to_mm(size.outside_diameter)
        found = (
            f"the rods or plates of {choice.joint} leave {clear:.5g} mm, and the pipe {at} is {outside:.5g} mm outside"
        )
        book.add((*placed.path, "joint"), found)


def _misalignment(item: ChoiceItem) -> tuple[float, float]:
    found = item.misalignment
    return (0.0, 0.0) if found is None else (found.lateral or 0.0, found.angular or 0.0)


__all__ = ["PlacedChoice", "choices_with_room", "read_choice"]
