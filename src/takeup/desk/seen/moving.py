"""A study with one hold or joint at another station, as the file would give it.     (desk/seen/moving.py)

What the file places by the name of what is moved follows it, as it will when the text is changed: other holds and
joints, loads, and lines that branch off there; zones are bound by places of the route alone. A hold that a rule
placed is moved by itself; anything else is moved before the rules, which then place their holds anew.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from takeup.choose.rules import resolve_rules
from takeup.desk.seen.marks import place_id
from takeup.desk.seen.outline import places_of_line
from takeup.errors import TakeupError
from takeup.line import SAME_STATION, Line, Load, Study, TakeUp, route_of, zones_of
from takeup.line.holding import ANCHORED_ENDS, Hold
from takeup.line.parts import Position
from takeup.line.reading.check_place import BESIDE_A_BEND, GREATEST_ELBOW, LEAST_ELBOW
from takeup.line.room import room_in
from takeup.line.ways import EVERY_WAY, shared_way

BY_HAND = "by hand"
_DISTANCES = (" + ", " - ")


class CannotStand(TakeupError):
    """Something cannot be where it was moved to; the message says why."""


def moved_study(read: Study, resolved: Study, place: str, station: float) -> Study:
    """Return a study, its rules resolved, with one thing at another station.

    Args:
        read: as read from the file.
        resolved: the same with every joint chosen and every rule turned into holds.
        place: id of what is moved.
        station: where it goes [m].

    Raises:
        CannotStand: it cannot stand there, or cannot be moved.
        OutOfRange: a rule's table does not cover what it is asked.
    """
    known = {one["id"]: (line, one) for line in resolved.lines for one in places_of_line(line)}
    if place not in known:
        raise CannotStand(f"there is no place {place}")
    line, one = known[place]
    if one["stays"]:
        raise CannotStand(f"{one['name']} is not moved: {one['stays']}")
    length = sum(leg.length for leg in line.legs)
    if not 0.0 <= station <= length:
        raise CannotStand(f"{one['name']} at {station:.4g} m is off the line, which runs from 0 m to {length:.6g} m")
    if one["placed_by"] != BY_HAND:
        moved = _with_places(resolved, line.name, {one["name"]: station})
    else:
        whole = _with_joints(read, resolved)
        shifted = _followers(whole, line.name, one["name"], station)
        shifts = {name: at - _at(whole.line(line.name))[name].station for name, at in shifted.items()}
        placed = _others_with(_with_places(whole, line.name, shifted), line.name, shifts)
        _stand(placed.line(line.name))
        moved = resolve_rules(placed)
    _stand(moved.line(line.name))
    _same_zones(resolved, moved)
    return moved


def _with_joints(read: Study, resolved: Study) -> Study:
    """Return a study as read, with the joints that were chosen."""
    lines = tuple(replace(line, takeups=resolved.line(line.name).takeups, choices=()) for line in read.lines)
    return replace(read, lines=lines)


def _followers(study: Study, line: str, name: str, station: float) -> dict[str, float]:
    """Return where everything goes that is placed by the name of what is moved, itself included."""
    at = _at(study.line(line))
    shift = station - at[name].station
    found, new = {name: station}, [name]
    for _ in range(len(at)):
        new = [other for other, position in at.items() if other not in found and _base(position) in new]
        found |= {other: at[other].station + shift for other in new}
    return found


def _at(line: Line) -> dict[str, Position]:
    """Return where every hold and joint of a line is, by its name."""
    things: list[Hold | TakeUp] = [*line.holds, *line.takeups]
    return {one.name: one.position for one in things}


def _base(position: Position) -> str:
    """Return the name that a position counts from; "" where it is a station."""
    for sign in _DISTANCES:
        name, sign_there, _ = position.words.partition(sign)
        if sign_there:
            return name.strip()
    return position.words


def _with_places(study: Study, name: str, places: dict[str, float]) -> Study:
    def placed(position: Position, thing: str) -> Position:
        return replace(position, station=places[thing]) if thing in places else position

    return replace(study, lines=tuple(_line(line, placed) if line.name == name else line for line in study.lines))


def _line(line: Line, placed: Callable[[Position, str], Position]) -> Line:
    holds = [replace(hold, position=placed(hold.position, hold.name)) for hold in line.holds]
    takeups = [replace(takeup, position=placed(takeup.position, takeup.name)) for takeup in line.takeups]
    return replace(
        line,
        holds=tuple(sorted(holds, key=lambda hold: hold.position.station)),
        takeups=tuple(sorted(takeups, key=lambda takeup: takeup.position.station)),
    )


def _others_with(study: Study, name: str, shifts: dict[str, float]) -> Study:
    """Return a study with the loads and branches moved that count from what is moved on a line.

    Args:
        study: with that moved.
        name: of the line.
        shifts: how far each thing on it is moved [m].
    """

    def follow(position: Position) -> Position:
        return replace(position, station=position.station + shifts.get(_base(position), 0.0))

    def load(one: Load) -> Load:
        if one.line != name:
            return one
        return replace(one, start=follow(one.start), end=None if one.end is None else follow(one.end))

    route = route_of(study.line(name))

    def branched(line: Line) -> Line:
        if line.branch is None or line.branch.of != name or not shifts.get(_base(line.branch.position), 0.0):
            return line
        branch = replace(line.branch, position=follow(line.branch.position))
        if not 0.0 <= branch.position.station <= route.length:
            raise CannotStand(f"{line.name} would leave {name} at {branch.position.station:.4g} m, where it is not")
        x, y, z = route.point(branch.position.station).tolist()
        return replace(line, branch=branch, start_at=(x, y, z))

    return replace(study, lines=tuple(map(branched, study.lines)), loads=tuple(map(load, study.loads)))


def _stand(line: Line) -> None:
    """Refuse joints without room, and two holds that hold the same way at one place, as the file's reader does."""
    for takeup in line.takeups:
        room = room_in(line, takeup.position.station, takeup.name)
        if room < takeup.data.length - SAME_STATION:
            raise CannotStand(
                f"{takeup.name}, {takeup.data.length:.4g} m long, has no room at {takeup.position.station:.4g} m: "
                f"there is {round(room, 3):.4g} m clear about it between bends, holds, fittings and other joints"
            )
        _has_its_bend(line, takeup)
    length = sum(leg.length for leg in line.legs)
    ends = [(end.name, at) for end, at in ((line.start, 0.0), (line.end, length)) if end.kind in ANCHORED_ENDS]
    holds, route = line.holds, route_of(line)
    for number, hold in enumerate(holds):
        at = hold.position.station
        by_station = hold.placed_by == BY_HAND and hold.position.on_bend is None
        if by_station and any(turn.radius and abs(turn.station - at) <= SAME_STATION for turn in route.turns):
            raise CannotStand(
                f"{hold.name} would stand at the very corner of a bend, at {at:.4g} m: say where in the text"
            )
        beside = [(name, EVERY_WAY) for name, station in ends if abs(station - at) < SAME_STATION]
        beside += [
            (other.name, way)
            for other in holds[number + 1 :]
            if abs(other.position.station - at) < SAME_STATION and (way := shared_way(hold, other, route)) is not None
        ]
        if beside:
            raise CannotStand(f"{hold.name} would stand at the same place as {beside[0][0]}, at {at:.4g} m")


def _has_its_bend(line: Line, takeup: TakeUp) -> None:
    """Refuse an elbow pressure balanced joint away from the bend that it is tied across, as the file's reader does."""
    size = line.section_at(takeup.position.station).pipe.size
    if takeup.kind != "elbow pressure balanced" or size is None:
        return
    middle, half, most = takeup.position.station, takeup.data.length / 2.0, BESIDE_A_BEND * size.outside_diameter
    turns = [turn for turn in route_of(line).turns if LEAST_ELBOW <= turn.angle <= GREATEST_ELBOW]
    away = min((max(turn.begin - middle, middle - turn.finish) - half for turn in turns), default=math.inf)
    if away > most + SAME_STATION:
        raise CannotStand(
            f"{takeup.name} would stand {away:.4g} m from the nearest bend of about 90 degrees: an elbow pressure "
            f"balanced joint is tied across one, at most {most:.4g} m away"
        )


def _same_zones(before: Study, after: Study) -> None:
    """Refuse a move after which states of the file name zones that are no more."""
    named = {change.zone for item in before.added for change in item.zones}
    lost = named - {zone.name for zone in zones_of(after).every}
    if lost:
        raise CannotStand(f"a state of the file names the zone {min(lost)}, which would be no more")


__all__ = ["CannotStand", "moved_study", "place_id"]
