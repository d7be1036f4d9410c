"""A line as it lies: signs, names, stations, dimensions, and where it goes on. (drawing/sheets/plan.py)"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.arrangement import first_good
from takeup.drawing.cut import Part, legs_of
from takeup.drawing.dimensioning import placed_chain, placed_dimension
from takeup.drawing.joint_signs import balance_beyond
from takeup.drawing.labels import Box, Label, LineOfWords, Taken, place_label, place_labels
from takeup.drawing.layout import chosen_view
from takeup.drawing.places import Place
from takeup.drawing.projection import DOWN, EAST, Frame, Looking, centre_strokes, extent_of, single_line
from takeup.drawing.reading import Record, maybe_number, number_of, record_of, records_of, text_of
from takeup.drawing.route import joined_legs, on_legs
from takeup.drawing.sheet import Item, Point, Polyline, View
from takeup.drawing.sheets.about import Scribe
from takeup.drawing.sheets.folding import name_lines
from takeup.drawing.sheets.heading import HEIGHT, heading, north_arrow
from takeup.drawing.sheets.pens import AWAY, MATCH, PIPE, TYPE
from takeup.drawing.sheets.scales import Scale, next_scale, scale_for
from takeup.drawing.signs import bend_of, drawing_order, sign_of
from takeup.drawing.world_view import Drawn, flow_arrow, from_the_middle, groups_of, sign_box, spots_of, stubs

TURNED = Looking(words="plan, north to the right", right=(0.0, 1.0, 0.0), up=(-1.0, 0.0, 0.0))
_NORTHWARDS = (0.0, 1.0, 0.0)
_RATHER = 1.5  # a plan so much higher than wide is turned
_ASIDE = (22.0, 14.0)  # least room for words left and right, above and below [mm]
_WIDEST = 58.0  # names longer than this go on another line [mm]
_TRIES = 3
_FOR_STEP, _LOST = 20.0, 40.0  # what a smaller scale and a dimension without a place cost [mm of leaders]
_FLAT = 1e-3  # a leg is seen flat when so little of its length is lost: its true length is stated
_SAME = 1e-6
_TOGETHER = 1e-3  # places so near to one another are one [m]
_BREAK = 9.0  # half a match line, and the pipe that is shown beyond it [mm]
_STRONG = 3.0  # how much more it counts that an anchor or a joint has no name
_RANK = {"anchor": 0, "joint": 0, "item": 1, "branch": 1, "corner": 2, "end": 2}


@dataclass(frozen=True, kw_only=True, slots=True)
class Beyond:
    """Where a part is cut, and on which sheet it goes on."""

    station: float
    sheet: int


def scale_of(part: Part, looking: Looking, room: Box, scribe: Scribe) -> Scale:
    """Return the largest standard scale at which a part fits into a room with its words."""
    least, greatest = extent_of((part.line,), looking)
    wide, high = room[2] - room[0] - 2.0 * _ASIDE[0], room[3] - room[1] - HEIGHT - 2.0 * _ASIDE[1]
    return scale_for((greatest[0] - least[0], greatest[1] - least[1]), (wide, high), scribe.units.system)


def plan_view(part: Part, looking: Looking, room: Box, scribe: Scribe, beyond: tuple[Beyond, ...]) -> View:
    """Return the view of a part at the largest scale at which its words stand well.

    Args:
        part: A line or a part of it.
        looking: The way to look.
        room: Left, top, right, bottom [mm].
        scribe: Words and units.
        beyond: Where it goes on, on which sheet.
    """
    scales = [scale_of(part, looking, room, scribe)]
    for _ in range(_TRIES - 1):
        scales.append(next_scale(scales[-1], scribe.units.system))
    tried = (
        (_drawn(part, (looking, scale), room, scribe, beyond), _FOR_STEP * number)
        for number, scale in enumerate(dict.fromkeys(scales))
    )
    return first_good(tried)[1]


def looking_at(line: Record) -> Looking:
    """Return the way to look at a line: as `chosen_view` has it, a plan turned where it runs rather north than east."""
    chosen = chosen_view(line)
    if chosen is not DOWN:
        return chosen
    least, greatest = extent_of((line,), DOWN)
    return TURNED if greatest[1] - least[1] > _RATHER * (greatest[0] - least[0]) else DOWN


def title_of(looking: Looking, scribe: Scribe) -> str:
    """Return the title of a view."""
    if looking in {DOWN, TURNED}:
        return scribe.text("plan")
    return scribe.text("looking_east" if looking is EAST else "looking_north")


def framed(lines: tuple[Record, ...], looking: Looking, room: Box, scale: Scale) -> Frame:
    """Return the view set in the middle of its room."""
    least, greatest = extent_of(lines, looking)
    middle = ((least[0] + greatest[0]) / 2.0, (least[1] + greatest[1]) / 2.0)
    origin = ((room[0] + room[2]) / 2.0, (room[1] + HEIGHT + room[3]) / 2.0)
    return Frame(looking=looking, origin=origin, zero=middle, scale=scale.ratio)


def headed(frame: Frame, scale: Scale, room: Box, scribe: Scribe, title: str) -> tuple[list[Item], Taken]:
    """Return the heading of a view and the north arrow of a plan, and the room that they take."""
    items, box = heading(title, scale, (room[0], room[1]), scribe)
    taken = Taken(room=room, words=[box])
    if frame.looking not in {DOWN, TURNED}:
        return [*items], taken
    north, box = north_arrow((room[2] - 14.0, room[1] + 17.0), frame.heading(_NORTHWARDS), scribe)
    taken.words.append(box)
    return [*items, *north], taken


def _drawn(part: Part, seen: tuple[Looking, Scale], room: Box, scribe: Scribe, beyond: tuple[Beyond, ...]) -> Drawn:
    """Return the view at a scale, and how badly its words stand."""
    looking, scale = seen
    frame = framed((part.line,), looking, room, scale)
    title = title_of(looking, scribe)
    items, taken = headed(frame, scale, room, scribe, title)
    taken.strokes += centre_strokes(frame, part.line)
    items += single_line(frame, part.line, PIPE)
    spots = spots_of(frame, part.line, part.places)
    items += stubs(frame, spots, taken)
    items += match_lines(frame, part, beyond, taken, scribe)
    items += signs(frame, spots, taken)
    items += _flow(frame, part, taken, scribe)
    dimensions, lost = _dimensions(frame, part, taken, scribe)
    names, crowd = _names(frame, part, spots, taken, scribe)
    origin = frame.paper((0.0, 0.0, 0.0))
    view = View(title=title, scale=scale.ratio, items=(*items, *dimensions, *names), zero=origin)
    return Drawn(view=view, crowd=crowd + _LOST * lost)


def signs(frame: Frame, spots: dict[Place, Point], taken: Taken) -> list[Item]:
    """Return the signs of places, white inside."""
    items: list[Item] = []
    for place in drawing_order(tuple(spots)):
        way, axis = frame.heading(place.along), frame.heading(place.axis)
        corner = None if place.corner is None else frame.paper(place.corner)
        sign = sign_of(place, spots[place], way, axis, scale=frame.scale, corner=corner)
        if sign is not None:
            items.append(sign)
            taken.signs.append(sign_box(spots[place]))
        bend = bend_of(place, corner, frame.scale)
        if bend is not None:
            taken.signs += [sign_box(balance_beyond(spots[place], bend)), sign_box(_between(spots[place], bend.at))]
    return items


def _between(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0


def match_lines(frame: Frame, part: Part, beyond: tuple[Beyond, ...], taken: Taken, scribe: Scribe) -> list[Item]:
    """Return a line across the pipe wherever it goes on, on another sheet, the pipe beyond it dashed."""
    items: list[Item] = []
    for other in beyond:
        point, direction = on_legs(part.line, other.station)
        at, way = frame.paper(point), frame.heading(direction)
        out = -1.0 if other.station == part.before else 1.0
        end = (at[0] + out * _BREAK * way[0], at[1] + out * _BREAK * way[1])
        ends = tuple((at[0] - side * _BREAK * way[1], at[1] + side * _BREAK * way[0]) for side in (-1.0, 1.0))
        items += [Polyline(points=(at, end), stroke=AWAY), Polyline(points=ends, stroke=MATCH)]
        taken.strokes += [(at, end), (ends[0], ends[1])]
        words = (
            (scribe.text("match_line"), True),
            (scribe.station(other.station), False),
            (scribe.text("see_sheet", number=other.sheet), False),
        )
        items += place_label(words, ends[0], taken, along=way, size=TYPE)
    return items


def _flow(frame: Frame, part: Part, taken: Taken, scribe: Scribe) -> list[Item]:
    found = flow_arrow(frame, joined_legs(part.line), taken)
    if found is None:
        return []
    head, at, way = found
    return [head, *place_label(((scribe.text("flow"), False),), at, taken, along=way, size=TYPE)]


def _dimensions(frame: Frame, part: Part, taken: Taken, scribe: Scribe) -> tuple[list[Item], int]:
    """Return what is between anchors and corners on each leg that is seen in its true length, and the leg itself.

    The second is how many found no place.
    """
    points = [start for _, start, _ in legs_of(part)]
    east, north, up = (sum(axis) / len(points) for axis in zip(*points, strict=True))
    centre = frame.paper((east, north, up))
    items: list[Item] = []
    lost = 0
    for leg, start, end in legs_of(part):
        if abs(math.dist(frame.paper(start), frame.paper(end)) * frame.scale / 1000.0 - number_of(leg, "length_m")) > (
            _FLAT * number_of(leg, "length_m")
        ):
            continue  # foreshortened: dimensioned where it is seen flat
        stations = _marked(part, leg)
        chain = [
            ((_on(frame, part, one), _on(frame, part, other)), scribe.length(other - one))
            for one, other in pairwise(stations)
        ]
        if not chain:
            continue
        found = placed_chain(chain, centre, taken, size=TYPE)
        if not found:
            each = [placed_dimension(ends, words, centre, taken, size=TYPE) for ends, words in chain]
            found = tuple(item for item in each if item is not None)
            lost += len(chain) - len(found)
        items += found
        if len(chain) > 1 and not any(abs(cut - stations[at]) < _SAME for cut in part.cuts for at in (0, -1)):
            whole = placed_dimension(
                (_on(frame, part, stations[0]), _on(frame, part, stations[-1])),
                scribe.length(stations[-1] - stations[0]),
                centre,
                taken,
                size=TYPE,
            )
            items += [] if whole is None else [whole]
    return items, lost


def _on(frame: Frame, part: Part, station: float) -> Point:
    return frame.paper(on_legs(part.line, station)[0])


def _marked(part: Part, leg: Record) -> list[float]:
    """Return the stations of a leg between which it is dimensioned: its ends where they are not cut, and anchors."""
    start, end = number_of(leg, "start_m"), number_of(leg, "end_m")
    ends = [station for station in (start, end) if not any(abs(station - cut) < _SAME for cut in part.cuts)]
    stations = (place.station for place in part.places if place.sort == "anchor")
    anchors = [station for station in stations if start - _SAME <= station <= end + _SAME]
    found: list[float] = []
    for station in sorted([*ends, *anchors]):
        if not found or station - found[-1] > _TOGETHER:
            found.append(station)
    return found


def _names(
    frame: Frame, part: Part, spots: dict[Place, Point], taken: Taken, scribe: Scribe
) -> tuple[list[Item], float]:
    """Return the labels and how badly they stand: anchors and joints first, corners and ends, then guides together.

    Where room is short anchors and joints have their names alone and guides their number: the stations have the rest.
    """
    shown = sorted((p for p in spots if p.sort in _RANK), key=lambda p: (_RANK[p.sort], p.station))
    labels = [
        Label(
            lines=(words := label_of(part.line, place, scribe)),
            spots=(spots[place],),
            along=frame.heading(place.along),
            size=TYPE,
            short=words[:-1] if place.sort in {"anchor", "joint"} else (),
            weight=_STRONG if place.sort in {"anchor", "joint"} else 1.0,
        )
        for place in shown
    ]
    labels += [
        Label(
            lines=(words := group_words(group, scribe)),
            spots=tuple(spots[place] for place in from_the_middle(group)),
            along=frame.heading(group[0].along),
            size=TYPE,
            short=words[:1] if len(group) > 1 else (),
        )
        for group in groups_of(part.line, part.places)
    ]
    found, crowd = place_labels(labels, taken)
    return [item for label in found for item in label], crowd


def label_of(line: Record, place: Place, scribe: Scribe) -> tuple[LineOfWords, ...]:
    """Return what a place is called, and where it is or what it does."""
    strong = place.sort in {"anchor", "joint"}
    names = tuple((name, strong) for name in name_lines(name_of(place, scribe), TYPE, _WIDEST))
    if place.sort not in {"corner", "end"}:
        return (*names, (scribe.station(place.station), False))
    if place.kind == "branch":
        return (*names, (scribe.text("leaves_line", line=text_of(record_of(line, "branch"), "of")), False))
    radius = next(
        (
            maybe_number(bend, "radius_mm")
            for bend in records_of(line, "bends")
            if abs(number_of(bend, "station_m") - place.station) < _SAME
        ),
        None,
    )
    return (*names, (f"R {scribe.small(radius, 0)}", False)) if radius else names


def name_of(place: Place, scribe: Scribe) -> str:
    """Return the name of a place; where another line leaves, which one."""
    if place.sort == "branch":
        return scribe.text("line_leaves", line=place.name.removesuffix(" leaves"))
    return scribe.name(place)


def group_words(group: tuple[Place, ...], scribe: Scribe) -> tuple[LineOfWords, ...]:
    """Return how many of a kind there are, and how far apart."""
    kind = scribe.kind(group[0].kind)
    if len(group) == 1:
        names = name_lines(scribe.name(group[0]), TYPE, _WIDEST)
        return (*((name, False) for name in names), (scribe.station(group[0].station), False))
    gaps = [other.station - one.station for one, other in pairwise(group)]
    near, far = (scribe.units.length.figures(gap, 2) for gap in (min(gaps), max(gaps)))
    reach = near if near == far else scribe.text("from_to", near=near, far=far)
    return (
        (scribe.text("so_many", count=len(group), kind=kind), False),
        (scribe.text("apart", gap=scribe.units.length.named(reach)), False),
    )
