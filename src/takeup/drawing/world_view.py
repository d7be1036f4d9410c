"""The line as it lies: plan or elevation to scale, with signs, names and dimensions.     (drawing/world_view.py)"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.colour import colour_of
from takeup.drawing.dimensioning import placed_dimension
from takeup.drawing.joint_signs import balance_beyond
from takeup.drawing.labels import TYPE, Box, Label, LineOfWords, Taken, place_label, place_labels
from takeup.drawing.lettering import folded
from takeup.drawing.places import Place
from takeup.drawing.projection import DOWN, Frame, Looking, centre_strokes, extent_of, pipe_items
from takeup.drawing.reading import Record, maybe_number, number_of, record_of, records_of, text_of, vectors_of
from takeup.drawing.route import along, joined_legs
from takeup.drawing.scale import choose_scale
from takeup.drawing.sheet import Item, Point, Polyline, Stroke, Text, View
from takeup.drawing.signs import SMALL, bend_of, drawing_order, moved_signs, sign_of
from takeup.drawing.symbols import REACH, arrow
from takeup.drawing.titles import north_arrow, view_heading
from takeup.edge import Units

_SAME = 1e-6
_FLAT = 1e-3  # a leg is seen flat when so little of its length is lost: its true length is stated
_HEAD = 15.0  # room for the title of the view and its scale bar [mm]
_ASIDE = (34.0, 24.0)  # room for words and dimensions left and right, above and below [mm]
LEAST_ASIDE = (16.0, 11.0)  # and where the words may be tried closer
_LOST = 40.0  # what a dimension costs that finds no place, as labels cost
_STUB = 8.0  # a line that leaves is shown so far [mm]
_STUB_PEN = Stroke(width=0.5, ink="grey")
_MOST_OFF = 12.0  # a sign stands at most so far off its place where there are many [mm]
_LITTLE_OFF = 5.0  # and so far before it is made small
_BRIEFLY = frozenset({"anchor", "joint", "item", "branch", "end"})
_WIDEST = 46.0  # names longer than this on paper go on another line [mm]


@dataclass(frozen=True, kw_only=True, slots=True)
class Drawn:
    """A view, and how badly its words stand: 0 when all of them are there, close by and crossed by nothing."""

    view: View
    crowd: float


def world_view(
    line: Record,
    places: tuple[Place, ...],
    looking: Looking,
    room: Box,
    units: Units,
    *,
    scale: int | None = None,
    brief: bool = False,
) -> Drawn:
    """Return a view of one line in a room of the sheet.

    Args:
        line: The line of the results.
        places: Its places.
        looking: The way to look.
        room: Left, top, right, bottom [mm].
        units: Of its lengths.
        scale: The denominator; None for the largest that leaves room for words.
        brief: Whether places have their names alone and signs no colour: a section beside it has stations and uses.
    """
    frame = frame_for((line,), looking, room, scale)
    heading, taken = headed(frame, room, units)
    items: list[Item] = [*heading]
    taken.strokes += centre_strokes(frame, line)
    items += pipe_items(frame, line)
    spots, size = _near_spots(frame, line, places) if brief else (spots_of(frame, line, places), 1.0)
    items += stubs(frame, spots, taken)
    items += _signs(frame, spots, taken, size, brief=brief)
    line = joined_legs(line)
    items += _flow(frame, line, taken, units)
    dimensions, lost = _dimensions(frame, line, taken, units, brief=brief)
    if brief:
        names, crowd = _brief_names(frame, spots, taken, units, sum(place.sort in _BRIEFLY for place in places))
    else:
        names, crowd = _names(frame, line, spots, taken, units)
    view = View(title=units.tell(title_of(looking)), scale=frame.scale, items=(*items, *dimensions, *names))
    return Drawn(view=view, crowd=crowd + _LOST * lost)


def title_of(looking: Looking) -> str:
    """Return the title of a view."""
    return looking.words[0].upper() + looking.words[1:]


def headed(frame: Frame, room: Box, units: Units) -> tuple[tuple[Item, ...], Taken]:
    """Return the title of a view with its scale, the north arrow of a plan, and the room that they take."""
    heading, box = view_heading(title_of(frame.looking), frame.scale, (room[0], room[1]), units)
    taken = Taken(room=room, words=[box])
    if frame.looking is not DOWN:
        return heading, taken
    north, box = north_arrow((room[2] - 8.0, room[1] + 10.0))
    taken.words.append(box)
    return (*heading, *north), taken


def frame_for(lines: Sequence[Record], looking: Looking, room: Box, scale: int | None = None) -> Frame:
    """Return the view set in the middle of its room, at a scale or at the largest that leaves room for words."""
    least, greatest = extent_of(lines, looking)
    scale = scale or scale_within(lines, looking, room, _ASIDE)
    middle = ((least[0] + greatest[0]) / 2.0, (least[1] + greatest[1]) / 2.0)
    origin = ((room[0] + room[2]) / 2.0, (room[1] + _HEAD + room[3]) / 2.0)
    return Frame(looking=looking, origin=origin, zero=middle, scale=scale)


def scale_within(lines: Sequence[Record], looking: Looking, room: Box, aside: tuple[float, float] = LEAST_ASIDE) -> int:
    """Return the denominator of the largest scale at which lines fit into a room, with so much beside them [mm]."""
    least, greatest = extent_of(lines, looking)
    wide, high = room[2] - room[0] - 2.0 * aside[0], room[3] - room[1] - _HEAD - 2.0 * aside[1]
    return choose_scale((greatest[0] - least[0], greatest[1] - least[1]), (wide, high))


def spots_of(frame: Frame, line: Record, places: tuple[Place, ...], size: float = 1.0) -> dict[Place, Point]:
    """Return where on the sheet each sign of a size stands: at its place, or moved along its leg off its neighbours."""
    spots = {place: frame.paper(place.at) for place in places}
    for leg in records_of(joined_legs(line), "legs"):
        start, end = number_of(leg, "start_m"), number_of(leg, "end_m")
        on_leg = tuple(place for place in places if start - _SAME <= place.station <= end + _SAME)
        for place, move in moved_signs(on_leg, frame.scale, size).items():
            spots[place] = frame.paper(along(place.at, place.along, move * frame.scale / 1000.0))
    return spots


def _near_spots(frame: Frame, line: Record, places: tuple[Place, ...]) -> tuple[dict[Place, Point], float]:
    """Return where signs stand of as many places as have room near where they are, each sort whole, and their size.

    Without that a row of signs that is longer than its leg would reach out of the view. They are small where whole
    ones would stand off their places; then joints go, at last all but both ends.
    """
    anchors = tuple(place for place in places if place.sort != "joint")
    for kept, size, off in ((places, 1.0, _LITTLE_OFF), (places, SMALL, _MOST_OFF), (anchors, 1.0, _MOST_OFF)):
        spots = spots_of(frame, line, kept, size)
        if all(math.dist(at, frame.paper(place.at)) <= off for place, at in spots.items()):
            return spots, size
    ends = tuple(place for place in (places[0], places[-1]) if place.sort in _BRIEFLY)
    return spots_of(frame, line, ends), 1.0


def stubs(frame: Frame, spots: dict[Place, Point], taken: Taken) -> list[Item]:
    """Return the first stretch of every line that leaves this one, where it is seen."""
    items: list[Item] = []
    for place, at in spots.items():
        if place.sort == "branch" and math.hypot(*frame.looking.flat(place.axis)) > _SAME:
            way = frame.heading(place.axis)
            end = (at[0] + _STUB * way[0], at[1] + _STUB * way[1])
            items.append(Polyline(points=(at, end), stroke=_STUB_PEN))
            taken.strokes.append((at, end))
    return items


def sign_box(at: Point, size: float = 1.0) -> Box:
    """Return the box that a sign takes [mm], of a size against that of the legend."""
    reach = size * REACH
    return at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach


def _signs(frame: Frame, spots: dict[Place, Point], taken: Taken, size: float, *, brief: bool) -> list[Item]:
    """Return the signs; only those that get a number beside them here are coloured."""
    items: list[Item] = []
    for place in drawing_order(tuple(spots)):
        said = place.use is not None and place.sort != "guide" and not brief
        fill = colour_of(place.use.value) if place.use is not None and said else "#ffffff"
        way, axis = frame.heading(place.along), frame.heading(place.axis)
        corner = None if place.corner is None else frame.paper(place.corner)
        sign = sign_of(place, spots[place], way, axis, scale=frame.scale, fill=fill, corner=corner, size=size)
        if sign is not None:
            items.append(sign)
            taken.signs.append(sign_box(spots[place], size))
        bend = bend_of(place, corner, frame.scale)
        if bend is not None:
            taken.signs.append(sign_box(balance_beyond(spots[place], bend)))
    return items


def _flow(frame: Frame, line: Record, taken: Taken, units: Units) -> list[Item]:
    """Return an arrow in the way of the flow beside the longest leg that is seen, with the word."""
    found = flow_arrow(frame, line, taken)
    if found is None:
        return []
    head, at, way = found
    return [head, *place_label(((units.tell("flow"), False),), at, taken, along=way)]


def flow_arrow(frame: Frame, line: Record, taken: Taken) -> tuple[Polyline, Point, Point] | None:
    """Return an arrow in the way of the flow on the longest leg that is seen, its place and its way; None without room.

    Args:
        frame: The view on the sheet.
        line: The line, its legs joined.
        taken: What is on the sheet already; the arrow is added to it.
    """
    points = [frame.paper(point) for point in vectors_of(line, "points")]
    lengths = [math.dist(start, end) for start, end in pairwise(points)]
    longest = lengths.index(max(lengths))
    if lengths[longest] < 2.0 * REACH:
        return None
    start, end = points[longest], points[longest + 1]
    way = ((end[0] - start[0]) / lengths[longest], (end[1] - start[1]) / lengths[longest])
    for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8):
        at = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        box = (at[0] - 2.4, at[1] - 2.4, at[0] + 2.4, at[1] + 2.4)
        if all(box[0] >= o[2] or o[0] >= box[2] or box[1] >= o[3] or o[1] >= box[3] for o in taken.signs):
            taken.signs.append(box)
            return arrow(at, way, 4.2), at, way
    return None


def _dimensions(frame: Frame, line: Record, taken: Taken, units: Units, *, brief: bool) -> tuple[list[Item], int]:
    """Return the length of each leg that is seen in its true length, and how many found no place.

    Where names stand alone there is none: lengths would take their places.
    """
    items: list[Item] = []
    lost = 0
    if brief:
        return items, lost
    points = vectors_of(line, "points")
    middle = tuple(sum(axis) / len(points) for axis in zip(*points, strict=True))
    centre = frame.paper((middle[0], middle[1], middle[2]))
    for number, leg in enumerate(records_of(line, "legs")):
        start, end = frame.paper(points[number]), frame.paper(points[number + 1])
        length = number_of(leg, "length_m")
        if abs(math.dist(start, end) * frame.scale / 1000.0 - length) > _FLAT * length:
            continue  # foreshortened: dimensioned where it is seen flat
        found = placed_dimension((start, end), units.length.text(length, 2), centre, taken)
        lost += found is None
        if found is not None:
            items.append(found)
    return items, lost


def _names(
    frame: Frame, line: Record, spots: dict[Place, Point], taken: Taken, units: Units
) -> tuple[list[Item], float]:
    """Return the labels and how badly they stand: anchors and joints first, corners and ends, then guides leg by leg.

    A group of guides has one label, beside whichever of it has room.
    """
    rank = {"anchor": 0, "joint": 0, "item": 1, "branch": 1, "corner": 2, "end": 2}
    places = tuple(spots)
    labels = [
        Label(lines=_label(line, place, units), spots=(spots[place],), along=frame.heading(place.along))
        for place in sorted((p for p in places if p.sort in rank), key=lambda p: (rank[p.sort], p.station))
    ]
    labels += [
        Label(
            lines=_group_words(group, units),
            spots=tuple(spots[place] for place in from_the_middle(group)),
            along=frame.heading(group[0].along),
        )
        for group in groups_of(line, places)
    ]
    found, crowd = place_labels(labels, taken)
    return [item for label in found for item in label], crowd


def _brief_names(
    frame: Frame, spots: dict[Place, Point], taken: Taken, units: Units, count: int
) -> tuple[list[Item], float]:
    """Return the names of the ends, anchors and joints and of what is built in, and how badly they stand.

    Names without room, of so many in all, are counted on the sheet; the ends of the line come first, since it is known
    by them.
    """
    named = [place for place in spots if place.sort in _BRIEFLY]
    ends = {named[0], named[-1]} if named else set()
    named.sort(key=lambda place: (place not in ends, place.sort not in {"anchor", "joint"}, place.station))
    labels = [
        Label(
            lines=tuple((words, place.sort in {"anchor", "joint"}) for words in _called(place, units)),
            spots=(spots[place],),
            along=frame.heading(place.along),
        )
        for place in named
    ]
    found, crowd = place_labels(labels, taken)
    items = [item for label in found for item in label]
    missing = count - sum(bool(label) for label in found)
    if missing:
        said = units.tell(f"{missing} names left out for want of room: see the section")
        items.append(Text(at=(taken.room[0] + 3.0, taken.room[3] - 1.5), words=said, size=2.2, ink="grey"))
    return items, crowd


def _called(place: Place, units: Units) -> tuple[str, ...]:
    """Return the name of a place on as many lines as it needs."""
    return folded(units.tell(place.name) if place.sort == "branch" else place.name, TYPE, _WIDEST)


def from_the_middle(group: tuple[Place, ...]) -> list[Place]:
    """Return a group, the middle ones first."""
    middle = (len(group) - 1) / 2.0
    return [group[k] for k in sorted(range(len(group)), key=lambda k: abs(k - middle))]


def _label(line: Record, place: Place, units: Units) -> tuple[LineOfWords, ...]:
    names = _called(place, units)
    if place.sort in {"item", "branch"}:
        return (
            *((name, False) for name in names),
            (units.tell(f"station {units.length.text(place.station, 2)}"), False),
        )
    if place.sort in {"corner", "end"}:
        radii = [
            maybe_number(bend, "radius_mm")
            for bend in records_of(line, "bends")
            if abs(number_of(bend, "station_m") - place.station) < _SAME
        ]
        radius = radii[0] if radii else None
        turn = ((f"R {units.small.text(radius, 0)}", False),) if radius else ()
        if place.kind == "branch":
            turn = ((units.tell(f"leaves {text_of(record_of(line, 'branch'), 'of')}"), False),)
        return (*((name, False) for name in names), *turn)
    station = ((units.tell(f"station {units.length.text(place.station, 2)}"), False),)
    use = ((units.tell(place.says), False),) if place.says else ()
    return (*((name, True) for name in names), *station, *use)


def groups_of(line: Record, places: tuple[Place, ...]) -> tuple[tuple[Place, ...], ...]:
    """Return guides and rests of one kind together, those on one leg between the same anchors."""
    cuts = [number_of(leg, "end_m") for leg in records_of(line, "legs")[:-1]]
    cuts += [place.station for place in places if place.sort == "anchor"]
    groups: dict[tuple[int, str], list[Place]] = defaultdict(list)
    for place in places:
        if place.sort == "guide":
            groups[sum(cut < place.station for cut in cuts), place.kind].append(place)
    return tuple(tuple(group) for group in groups.values())


def _group_words(group: tuple[Place, ...], units: Units) -> tuple[LineOfWords, ...]:
    """Return how many of a kind there are, and how far apart."""
    kind = group[0].kind
    if len(group) == 1:
        return ((units.tell(f"{kind} at {units.length.text(group[0].station, 2)}"), False),)
    gaps = [b.station - a.station for a, b in pairwise(group)]
    near, far = (units.length.figures(gap, 2) for gap in (min(gaps), max(gaps)))
    apart = units.length.named(near if near == far else f"{near} to {far}") + " apart"
    return ((units.tell(f"{len(group)} {kind}s"), False), (units.tell(apart), False))
