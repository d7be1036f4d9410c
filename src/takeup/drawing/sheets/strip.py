"""Stations along the line: its profile, and under it station, spacing and name of each place. (drawing/sheets/strip.py)

Across is the station along the pipe. Every station is an ordinate and every stretch between two anchors a dimension,
so that a writer can make real ones of them; the spacing row says how far every place is from the one before it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.cut import Part
from takeup.drawing.labels import Box, spread
from takeup.drawing.lettering import CAPITALS, UPWARDS, shortened, width_of
from takeup.drawing.route import elevation_at, profile_of
from takeup.drawing.scale import exaggeration
from takeup.drawing.sheet import Dimension, Item, Ordinate, Point, Polyline, Stroke, Text, View
from takeup.drawing.sheets.about import Scribe
from takeup.drawing.sheets.heading import HEIGHT, heading
from takeup.drawing.sheets.pens import LINE, MATCH, PIPE, TYPE
from takeup.drawing.sheets.plan import Beyond, name_of
from takeup.drawing.sheets.scales import Scale, scale_for
from takeup.drawing.signs import drawing_order, moved_signs, sign_of

Paper = Callable[[float, float], Point]
APART = 4.5  # two lines of words read upwards stand at least so far apart [mm]
_LEFT, _RIGHT = 33.0, 12.0  # room for heads of rows and figures of levels [mm]
_FAN = 7.0  # between the ticks and their words [mm]
_NAMES = 16.0  # least height of the row of names [mm]
SHORT, WHOLE = 54.0, 80.0  # greatest height of it, under a plan and on a sheet of its own [mm]
_SPANS = 13.0  # room over the profile for the dimensions between anchors [mm]
_UNDER = 6.0  # between the profile and its axis [mm]
_LEVEL = 1e-6
_FLAT = 12.0  # height of a level profile [mm]
_TALLEST = 34.0
_REACH = 0.05  # the slope of the profile at a place is taken over so much either side [m]
_OFF = 4.6  # words of a match line stand so far off it, clear of a sign beside it [mm]
_FINE = Stroke(width=0.13, ink="grey")
_BESIDE = 9.5  # figures of levels stand so far before the profile [mm]
_FIGURES = 4.4  # two figures of elevation stand at least so far apart [mm]


@dataclass(frozen=True, kw_only=True, slots=True)
class Rows:
    """Heights of the rows under the profile [mm]."""

    station: float
    spacing: float
    name: float

    @property
    def height(self) -> float:
        """Height of all with the fan over them."""
        return _FAN + self.station + self.spacing + self.name


def rows_of(part: Part, scribe: Scribe, most: float) -> Rows:
    """Return the heights that the words of a part need, the names at most so much."""
    figures = max(width_of(scribe.chainage(place.station), TYPE, bold=True) for place in part.places) + 3.4
    names = max(width_of(name_of(place, scribe), TYPE, bold=True) for place in part.places) + 3.4
    return Rows(station=figures, spacing=figures, name=min(max(names, _NAMES), most))


def room_for(part: Part) -> float:
    """Return the least width of a strip with all places of a part [mm]."""
    return _LEFT + APART * max(1, len(part.places) - 1) + _RIGHT


def height_for(part: Part, wide: float, scribe: Scribe, most: float = SHORT) -> float:
    """Return the height of a strip in a room so wide [mm], its names at most so high."""
    rise, scale = _rise(part), _scale(part, wide, scribe)
    tall = 1000.0 * rise / scale.ratio
    tall = min(max(tall, _FLAT if rise < _LEVEL else 18.0), _TALLEST)
    return HEIGHT + _SPANS + tall + _UNDER + rows_of(part, scribe, most).height + 3.0


def _rise(part: Part) -> float:
    levels = [z for _, z in profile_of(part.line)]
    return max(levels) - min(levels)


def _scale(part: Part, wide: float, scribe: Scribe) -> Scale:
    return scale_for((part.end - part.start, 0.0), (wide - _LEFT - _RIGHT, 1.0), scribe.units.system)


def strip_view(part: Part, room: Box, scribe: Scribe, beyond: tuple[Beyond, ...], most: float = SHORT) -> View:
    """Return the strip of a part in a room of the sheet.

    Args:
        part: A line or a part of it.
        room: Left, top, right, bottom [mm].
        scribe: Words and units.
        beyond: Where it goes on, on which sheet.
        most: Greatest height of its names [mm].
    """
    profile, rows = profile_of(part.line), rows_of(part, scribe, most)
    low, high = min(z for _, z in profile), max(z for _, z in profile)
    wide = room[2] - room[0]
    scale = _scale(part, wide, scribe)
    base = room[3] - rows.height - 1.5
    foot = base - _UNDER
    tall = foot - room[1] - HEIGHT - _SPANS
    needed = 1000.0 * (high - low) / tall
    if needed > scale.ratio:  # a steep line is held back by the height
        scale = scale_for((part.end - part.start, high - low), (wide - _LEFT - _RIGHT, tall), scribe.units.system)
    factor = exaggeration(high - low, scale.ratio, tall)
    left = room[0] + _LEFT

    def paper(station: float, elevation: float) -> Point:
        return (
            left + 1000.0 * (station - part.start) / scale.ratio,
            foot - 1000.0 * factor * (elevation - low) / scale.ratio,
        )

    more = scribe.text("same_scale") if factor == 1 else scribe.text("exaggerated", factor=factor)
    title = scribe.text("strip")
    items: list[Item] = [*heading(title, scale, (room[0], room[1]), scribe, more)[0]]
    items += _levels(profile, paper, room, scribe)
    items.append(Polyline(points=tuple(paper(*pair) for pair in profile), stroke=PIPE))
    items += _signs(part, paper, profile, scale)
    items += _spans(part, paper(part.start, high)[1], left, scale, scribe)
    items += _band(part, (paper, profile), base, (left, room[2] - _RIGHT, rows), scribe)
    items += _match(part, (paper, profile), base, beyond, scribe)
    return View(title=title, scale=scale.ratio, items=tuple(items), zero=paper(0.0, 0.0))


def _levels(profile: tuple[Point, ...], paper: Paper, room: Box, scribe: Scribe) -> list[Item]:
    """Return thin level lines at the lowest, the highest and the levels where the line runs level, with figures."""
    runs = [a for (_, a), (_, b) in pairwise(profile) if abs(a - b) < _LEVEL]
    wanted = sorted({round(z, 3) for z in (min(z for _, z in profile), max(z for _, z in profile), *runs)})
    side, end = room[0] + _LEFT, paper(profile[-1][0], 0.0)[0]
    items: list[Item] = []
    last = None
    for level in wanted:
        y = paper(0.0, level)[1]
        if last is not None and last - y < _FIGURES:
            continue
        last = y
        words = scribe.chainage(level)
        items.append(Text(at=(side - _BESIDE, y + CAPITALS * TYPE / 2.0), words=words, size=TYPE, anchor="end"))
        items.append(Polyline(points=((side, y), (end, y)), stroke=_FINE))
    assert last is not None, "a profile has a level"
    words = scribe.units.span.named(scribe.text("elevation"))
    items.append(Text(at=(room[0] + 3.0, last - 4.6), words=words, size=TYPE, ink="grey"))
    return items


def _signs(part: Part, paper: Paper, profile: tuple[Point, ...], scale: Scale) -> list[Item]:
    """Return the signs on the profile."""
    moves = moved_signs(part.places, scale.ratio)
    items: list[Item] = []
    for place in drawing_order(part.places):
        station = min(max(place.station + moves.get(place, 0.0) * scale.ratio / 1000.0, part.start), part.end)
        near = (max(station - _REACH, part.start), station, min(station + _REACH, part.end))
        ends = [paper(there, elevation_at(profile, there)) for there in near]
        slope = math.dist(ends[0], ends[2])
        way = ((ends[2][0] - ends[0][0]) / slope, (ends[2][1] - ends[0][1]) / slope)
        sign = sign_of(place, ends[1], way, way, scale=scale.ratio)
        if sign is not None:
            items.append(sign)
    return items


def _spans(part: Part, top: float, left: float, scale: Scale, scribe: Scribe) -> list[Item]:
    """Return the dimensions from anchor to anchor over the profile; one too short for its words has them below only."""
    anchors = [place.station for place in part.places if place.sort == "anchor"]
    items: list[Item] = []
    for one, other in pairwise(sorted(set(anchors))):
        start, end = (left + 1000.0 * (station - part.start) / scale.ratio for station in (one, other))
        words = scribe.length(other - one)
        if width_of(words, TYPE) + 3.0 <= end - start:
            items.append(Dimension(start=(start, top), end=(end, top), offset=-8.5, words=words, size=TYPE))
    return items


def _band(
    part: Part,
    drawn: tuple[Paper, tuple[Point, ...]],
    base: float,
    room: tuple[float, float, Rows],
    scribe: Scribe,
) -> list[Item]:
    """Return the axis with its ticks and, under it, the rows of station, spacing and name."""
    (paper, profile), (left, right, rows) = drawn, room
    tops = (base + _FAN, base + _FAN + rows.station, base + _FAN + rows.station + rows.spacing, base + rows.height)
    head = left - _LEFT + 3.0
    items: list[Item] = []
    unit = scribe.units.span.named
    heads = (unit(scribe.text("station")), unit(scribe.text("spacing")), scribe.text("place"))
    for words, y in zip(heads, tops[:-1], strict=True):
        items.append(Text(at=(head, y + 4.4), words=words, size=TYPE, ink="grey"))
    ticks = [paper(place.station, elevation_at(profile, place.station)) for place in part.places]
    items.append(Polyline(points=((ticks[0][0], base), (ticks[-1][0], base)), stroke=LINE))
    xs = spread(tuple(x for x, _ in ticks), APART, left, right)
    items += [Polyline(points=((head, y), (xs[-1] + 6.0, y)), stroke=LINE) for y in tops[:-1]]
    for place, x, tick in zip(part.places, xs, ticks, strict=True):
        strong = place.sort in {"anchor", "joint", "item"}
        way = (
            (tick[0], tick[1] + 3.4),
            (tick[0], base + 1.4),
            (x, base + _FAN - 1.2),
            (x, base + _FAN),
        )
        words = scribe.chainage(place.station)
        items.append(Ordinate(points=way, words=words, size=TYPE, bold=strong))
        items.append(Polyline(points=((tick[0], base - 0.9), (tick[0], base + 0.9)), stroke=LINE))
        items.append(Polyline(points=((x, tops[1]), (x, tops[2])), stroke=_FINE))
        name = shortened(name_of(place, scribe), TYPE * 1.05, rows.name - 2.4)
        items.append(_upright(x, tops[2], name, bold=strong))
    for (one, x), (other, x_other) in pairwise(zip(part.places, xs, strict=True)):
        gap = other.station - one.station
        items.append(_upright((x + x_other) / 2.0, tops[1], scribe.chainage(gap), bold=False))
    return items


def _upright(x: float, top: float, words: str, *, bold: bool) -> Text:
    """Return words read upwards that hang under a line of the band."""
    at = (x + CAPITALS * TYPE / 2.0, top + 1.2)
    return Text(at=at, words=words, size=TYPE, anchor="end", rotation=UPWARDS, bold=bold)


def _match(
    part: Part, drawn: tuple[Paper, tuple[Point, ...]], base: float, beyond: tuple[Beyond, ...], scribe: Scribe
) -> list[Item]:
    """Return a match line at every end that goes on, with the sheet on which it does."""
    (paper, profile), items = drawn, list[Item]()
    for other in beyond:
        x, y = paper(other.station, elevation_at(profile, other.station))
        items.append(Polyline(points=((x, y - 6.5), (x, base + 0.9)), stroke=MATCH))
        aside = -_OFF if other.station == part.before else CAPITALS * TYPE + _OFF
        words = scribe.text("see_sheet", number=other.sheet)
        items.append(Text(at=(x + aside, base), words=words, size=TYPE, rotation=UPWARDS))
    return items
