"""What a page needs to move a thing along a line: its corners, holds, take-ups and ends.     (desk/seen/outline.py)"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.desk.interface import Corner, LineOutline, Place, StateRow
from takeup.desk.seen.marks import place_id
from takeup.desk.seen.trips import hottest
from takeup.line import Line, State, Study, TakeUp, route_of, states_of
from takeup.line.holding import End, Hold
from takeup.line.reading.read_doubles import HALVES
from takeup.units import to_bar

_AN_END = "it is an end of the route; change the route in the text"


def outlines_of(study: Study) -> list[LineOutline]:
    """Return every line of a study.

    Args:
        study: its lines resolved: no rule left in them.
    """
    return [_outline(line) for line in study.lines]


def _outline(line: Line) -> LineOutline:
    route = route_of(line)
    names = [line.start.name, *(leg.to.name for leg in line.legs)]
    corners = [
        Corner(name=name, station_m=station)
        for name, station in zip(names, route.corners.tolist(), strict=True)
        if name
    ]
    places = sorted(places_of_line(line), key=lambda place: (place["station_m"], place["id"]))
    pipe = line.pipe
    about = f"{line.medium}, {pipe.size.dn} × {1e3 * pipe.wall:.4g} mm, {pipe.material.name}"
    return LineOutline(name=line.name, about=about, length_m=route.length, corners=corners, places=places)


def places_of_line(line: Line) -> Iterator[Place]:
    """Yield the ends, holds and take-ups of a line."""
    length = sum(leg.length for leg in line.legs)
    doubles = {name for name in map(_double_of, line.takeups) if name}
    for end, station in ((line.start, 0.0), (line.end, length)):
        yield _end(line, end, station)
    for hold in line.holds:
        yield _hold(line, hold, doubles)
    for takeup in line.takeups:
        yield _takeup(line, takeup)


def _end(line: Line, end: End, station: float) -> Place:
    return Place(
        id=place_id(line.name, end.name),
        name=end.name,
        line=line.name,
        what="end",
        kind=end.kind,
        station_m=station,
        from_m=station,
        to_m=station,
        placed_by="by hand",
        stays=_AN_END,
    )


def _hold(line: Line, hold: Hold, doubles: set[str]) -> Place:
    station, stays = hold.position.station, ""
    if hold.position.on_bend is not None:
        stays = f"it stands on a bend, at its {hold.position.on_bend}; change its place in the text"
    elif hold.name.removesuffix(" base") in doubles and hold.name.endswith(" base"):
        stays = f"it is the base of {hold.name.removesuffix(' base')}; change that in the text"
    return Place(
        id=place_id(line.name, hold.name),
        name=hold.name,
        line=line.name,
        what="hold",
        kind=hold.kind,
        station_m=station,
        from_m=station,
        to_m=station,
        placed_by=hold.placed_by,
        stays=stays,
    )


def _takeup(line: Line, takeup: TakeUp) -> Place:
    middle, half, double = takeup.position.station, takeup.data.length / 2.0, _double_of(takeup)
    return Place(
        id=place_id(line.name, takeup.name),
        name=takeup.name,
        line=line.name,
        what="takeup",
        kind=takeup.written_as,
        station_m=middle,
        from_m=middle - half,
        to_m=middle + half,
        placed_by="by hand",
        stays=f"it is half of {double}; change that in the text" if double else "",
    )


def _double_of(takeup: TakeUp) -> str:
    """Return the name of the double that a take-up is half of; "" where it is whole."""
    name, found, half = takeup.name.rpartition(", ")
    return name if found and half in HALVES and takeup.written_as != takeup.kind else ""


def state_rows(states: tuple[State, ...]) -> list[StateRow]:
    """Return the states of a walk, each at what its hottest zone is at."""
    rows = []
    for state in states:
        pressure, temperature = hottest(state)
        content = ", ".join(dict.fromkeys(zone.content for zone in state.zones))
        rows.append(
            StateRow(name=state.name, pressure_bar=to_bar(pressure), temperature_c=temperature, content=content)
        )
    return rows


def states_named(study: Study) -> list[StateRow]:
    """Return the states of a study's walk."""
    return state_rows(states_of(study))


__all__ = ["outlines_of", "places_of_line", "state_rows", "states_named"]
