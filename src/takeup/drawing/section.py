"""The developed long-section: station against elevation, and a band that names every place.     (drawing/section.py)

Horizontal is the station along the pipe, so that a vertical leg shows as a slope of one in one at equal scales. Under
the profile each hold, take-up and corner has a tick, its station, its use and its name, pushed apart where they crowd.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from takeup.drawing.colour import colour_of
from takeup.drawing.labels import Box, spread
from takeup.drawing.lettering import shortened, width_of
from takeup.drawing.places import Place
from takeup.drawing.reading import Record, text_of, use_words
from takeup.drawing.route import elevation_at, profile_of
from takeup.drawing.scale import choose_scale, exaggeration
from takeup.drawing.sheet import Item, Point, Polyline, Stroke, Text, View
from takeup.drawing.signs import drawing_order, moved_signs, sign_of
from takeup.drawing.titles import view_heading
from takeup.edge import System, Units

_TYPE = 2.4
_LEVEL = 1e-6  # a rise below a micrometre is none [m]
_FIGURES = 3.0  # two figures of elevation stand at least so far apart [mm]
_APART = 3.4  # two lines of words read upwards stand at least so far apart [mm]
HEAD = 17.0  # over a section with a title [mm]
NEXT_HEAD = 8.0  # over one that goes on from a row over it [mm]
_LEFT: dict[System, float] = {"si": 26.0, "us": 32.0}  # room for the figures of the elevations [mm]
_RIGHT = 10.0
_REACH = 0.05  # the slope of the profile at a place is taken over so much either side [m]
_FAN = 8.0  # between the ticks and their words [mm]
_USE = 11.5  # height of the row of uses [mm]
_NAMES = (14.0, 40.0)  # least and greatest height of the row of names [mm]
_STATIONS: dict[System, float] = {"si": 13.0, "us": 22.5}
_PIPE = Stroke(width=0.6)
_FINE = Stroke(width=0.13, ink="grey")
_RULE = Stroke(width=0.18)


def _rows(places: tuple[Place, ...], units: Units) -> dict[str, float]:
    """Return the rows of the band with their heights [mm]: that of uses only where there are any."""
    widest = max((width_of(place.name, _TYPE * 1.05) for place in places), default=0.0)
    use = {"use": _USE} if any(place.use is not None for place in places) else {}
    return {"station": _STATIONS[units.system], **use, "name": min(max(widest + 3.0, _NAMES[0]), _NAMES[1])}


def band_height(places: tuple[Place, ...], units: Units) -> float:
    """Return the height of the band under the profile [mm]."""
    return _FAN + sum(_rows(places, units).values())


def height_for(places: tuple[Place, ...], units: Units, tall: float, head: float = HEAD) -> float:
    """Return the height of a section whose profile is so tall on paper, with so much over it [mm]."""
    return head + 8.0 + tall + band_height(places, units)


def width_for(length: float, scale: int, units: Units) -> float:
    """Return the width of a section of a line of some length [m] at a scale [mm]."""
    return _LEFT[units.system] + 1000.0 * length / scale + _RIGHT


def room_for_names(places: tuple[Place, ...]) -> float:
    """Return how long on paper a profile is under which all places can be named [mm]."""
    return _APART * max(0, len(places) - 1)


def unowned(line: Record, places: tuple[Place, ...]) -> tuple[Place, ...]:
    """Return places by their names without the line's own, which says nothing on its own sheet."""
    owner = f" of {text_of(line, 'name')}"
    return tuple(replace(place, name=place.name.removesuffix(owner)) for place in places)


@dataclass(frozen=True, kw_only=True, slots=True)
class SectionFrame:
    """A section laid on the sheet: where station nought at its lowest elevation falls [mm], and to which scales.

    Args:
        left: of the first station [mm].
        foot: of the lowest elevation [mm].
        wide: room for the profile [mm].
        base: top of the band [mm].
        low: the lowest elevation [m].
        start: the first station [m].
        scale: denominator of that of stations.
        factor: how many times as large elevations are drawn.
    """

    left: float
    foot: float
    wide: float
    base: float
    low: float
    start: float
    scale: int
    factor: int

    def paper(self, station: float, elevation: float) -> Point:
        """Return where a station at an elevation falls on the sheet [mm]."""
        above = 1000.0 * self.factor * (elevation - self.low) / self.scale
        return self.left + 1000.0 * (station - self.start) / self.scale, self.foot - above


def section_frame(
    line: Record, places: tuple[Place, ...], room: Box, units: Units, *, head: float = HEAD, scale: int | None = None
) -> SectionFrame:
    """Return how the section of a line, or of a part of it, is laid in a room of the sheet.

    Args:
        line: The line of the results, or what is between two stations of it.
        places: Its places.
        room: Left, top, right, bottom [mm].
        units: Of stations and elevations.
        head: Room for the title [mm].
        scale: The denominator of that of stations; None for the largest that fits.
    """
    profile = profile_of(line)
    low, high = min(z for _, z in profile), max(z for _, z in profile)
    left, band = room[0] + _LEFT[units.system], band_height(unowned(line, places), units)
    wide = room[2] - _RIGHT - left
    tall = room[3] - room[1] - head - 8.0 - band
    scale = scale or choose_scale((profile[-1][0] - profile[0][0], high - low), (wide, tall))
    base = room[3] - band
    factor = exaggeration(high - low, scale, tall)
    return SectionFrame(
        left=left, foot=base - 7.0, wide=wide, base=base, low=low, start=profile[0][0], scale=scale, factor=factor
    )


def section_view(
    line: Record,
    places: tuple[Place, ...],
    room: Box,
    units: Units,
    *,
    scale: int | None = None,
    goes_on: bool = False,
) -> View:
    """Return the section of a line, or of a part of it, in a room of the sheet.

    Args:
        line: The line of the results, or what is between two stations of it.
        places: Its places.
        room: Left, top, right, bottom [mm].
        units: Of stations and elevations.
        scale: The denominator of that of stations; None for the largest that fits.
        goes_on: Whether it goes on from a row over it, whose title and scale are its own; else it has a title.
    """
    profile, own = profile_of(line), unowned(line, places)
    head = NEXT_HEAD if goes_on else HEAD
    frame = section_frame(line, places, room, units, head=head, scale=scale)
    more = "elevations to the same scale" if frame.factor == 1 else f"elevations exaggerated {frame.factor} times"
    title = "Developed long-section: station along the pipe against elevation"
    heading: tuple[Item, ...] = ()
    if not goes_on:
        heading, _ = view_heading(title, frame.scale, (room[0], room[1]), units, more, most=room[2] - room[0] - 16.0)
    items: list[Item] = [*heading, *_levels(profile, frame, room, units, head)]
    items.append(Polyline(points=tuple(frame.paper(*pair) for pair in profile), stroke=_PIPE))
    shown = _that_fit(own, int(frame.wide / _APART) + 1)
    ticks = tuple(frame.paper(place.station, elevation_at(profile, place.station)) for place in shown)
    items += _signs(places, frame, profile)
    items += _band(shown, ticks, frame.base, (frame.left, frame.left + frame.wide), (_rows(own, units), units))
    if len(shown) < len(places):
        words = units.tell(f"{len(places) - len(shown)} guides and rests not named for want of room: see the tables")
        items.append(Text(at=(room[0] + 3.0, room[3] - 1.0), words=words, size=2.2, ink="grey"))
    return View(title=units.tell(title), scale=frame.scale, items=tuple(items))


def _levels(profile: tuple[Point, ...], frame: SectionFrame, room: Box, units: Units, over: float) -> list[Item]:
    """Return thin level lines at the lowest, the highest and the levels where the line runs level, with figures."""
    runs = [a for (_, a), (_, b) in pairwise(profile) if abs(a - b) < _LEVEL]
    wanted = sorted({round(z, 3) for z in (min(z for _, z in profile), max(z for _, z in profile), *runs)})
    head, side = units.length.named(units.tell("elevation")), room[0] + _LEFT[units.system]
    items: list[Item] = [Text(at=(room[0] + 3.0, room[1] + over - 0.5), words=head, size=2.2, ink="grey")]
    last = None
    for level in wanted:
        y = frame.paper(frame.start, level)[1]
        if last is not None and last - y < _FIGURES:
            continue
        last = y
        words = units.length.figures(level, 2)
        items.append(Text(at=(side - 5.0, y + 0.9), words=words, size=_TYPE, anchor="end"))
        items.append(Polyline(points=((side - 4.0, y), (room[2] - 4.0, y)), stroke=_FINE))
    return items


def _that_fit(places: tuple[Place, ...], most: int) -> tuple[Place, ...]:
    """Return the places that the band has room to name: guides and rests are thinned out evenly where it has not."""
    guides = [place for place in places if place.sort == "guide"]
    others = len(places) - len(guides)
    keep = max(0, most - others)
    if keep >= len(guides):
        return places
    kept = {guides[number * len(guides) // keep].station for number in range(keep)}
    return tuple(place for place in places if place.sort != "guide" or place.station in kept)


def section_spots(
    places: tuple[Place, ...], frame: SectionFrame, profile: tuple[Point, ...]
) -> dict[Place, tuple[Point, Point]]:
    """Return where the sign of each place stands on the profile, and the way of the profile there."""
    moves, found = moved_signs(places, frame.scale), {}
    for place in places:
        first = profile[0][0]
        station = min(max(place.station + moves.get(place, 0.0) * frame.scale / 1000.0, first), profile[-1][0])
        ends = [
            frame.paper(there, elevation_at(profile, there))
            for there in (max(station - _REACH, first), station, min(station + _REACH, profile[-1][0]))
        ]
        slope = math.hypot(ends[2][0] - ends[0][0], ends[2][1] - ends[0][1])
        way = ((ends[2][0] - ends[0][0]) / slope, (ends[2][1] - ends[0][1]) / slope)
        found[place] = (ends[1], way)
    return found


def _signs(places: tuple[Place, ...], frame: SectionFrame, profile: tuple[Point, ...]) -> list[Item]:
    """Return the signs on the profile, without colour: it stands by the number in the band."""
    spots = section_spots(places, frame, profile)
    found = [sign_of(place, *spots[place], spots[place][1], scale=frame.scale) for place in drawing_order(places)]
    return [sign for sign in found if sign is not None]


def _band(
    places: tuple[Place, ...],
    ticks: tuple[Point, ...],
    base: float,
    ends: tuple[float, float],
    said: tuple[dict[str, float], Units],
) -> list[Item]:
    """Return the ticks with their leaders and, under them, the rows of station, use and name."""
    (rows, units), tops = said, [base + _FAN]
    for height in rows.values():
        tops.append(tops[-1] + height)
    at = dict(zip(rows, tops, strict=False))
    left, right = ends[0] - _LEFT[units.system] + 3.0, ends[1] + 6.0
    items: list[Item] = [Polyline(points=((left, y), (right, y)), stroke=_RULE) for y in tops]
    items.append(Polyline(points=((ends[0], base), (max(x for x, _ in ticks), base)), stroke=_RULE))
    for name, top in at.items():
        words = units.length.named(units.tell(name)) if name == "station" else units.tell(name)
        items.append(Text(at=(left, top + 3.2), words=words, size=2.2, ink="grey"))
    xs = spread(tuple(x for x, _ in ticks), _APART, ends[0], ends[1])
    for place, x, tick in zip(places, xs, ticks, strict=True):
        items.append(Polyline(points=((tick[0], tick[1] + 3.0), (tick[0], base)), stroke=_FINE))
        points = ((tick[0], base), (tick[0], base + 1.6), (x, base + _FAN - 1.0), (x, base + _FAN))
        items.append(Polyline(points=points, stroke=_FINE))
        items.append(Polyline(points=((tick[0], base - 0.8), (tick[0], base + 0.8)), stroke=_RULE))
        items += _column(place, x, at, (rows["name"], units))
    return items


def _column(place: Place, x: float, tops: dict[str, float], said: tuple[float, Units]) -> list[Item]:
    """Return the words under one tick, read upwards, names in a room of some height."""
    room, units = said
    foot = x + 0.36 * _TYPE
    strong = place.sort in {"anchor", "joint", "item"}
    words = units.length.figures(place.station, 2)
    station = Text(at=(foot, tops["station"] + 1.2), words=words, size=_TYPE, anchor="end", rotation=-90.0, bold=strong)
    called = units.tell(place.name) if place.sort == "branch" else place.name
    name = Text(
        at=(foot, tops["name"] + 1.2),
        words=shortened(called, _TYPE * 1.05, room - 2.0),
        size=_TYPE, anchor="end", rotation=-90.0, bold=strong,
    )  # fmt: skip
    if place.use is None:
        return [station, name]
    figure = Text(
        at=(foot, tops["use"] + 4.2),
        words=units.force.parted(use_words(place.use.value)),
        size=_TYPE,
        anchor="end",
        rotation=-90.0,
        bold=strong,
    )
    y = tops["use"] + 1.0
    corners = ((x - 1.1, y), (x + 1.1, y), (x + 1.1, y + 2.2), (x - 1.1, y + 2.2))
    swatch = Polyline(points=corners, stroke=_RULE, closed=True, fill=colour_of(place.use.value))
    return [station, name, swatch, figure]
