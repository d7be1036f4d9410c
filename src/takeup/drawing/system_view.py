"""All lines of a study as they lie, to one scale, each branch meeting its main.     (drawing/system_view.py)

Names only: stations, dimensions and guides have their words on the sheet of each line. A sign is coloured only where
its name, and with it the number of its use, found room.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from takeup.drawing.colour import colour_of
from takeup.drawing.labels import TYPE, Box, Label, LineOfWords, Taken, place_label, place_labels
from takeup.drawing.lettering import folded
from takeup.drawing.places import Place
from takeup.drawing.projection import Frame, Looking, centre_strokes, pipe_items
from takeup.drawing.reading import Record, nominal_size, record_of, text_of, vectors_of
from takeup.drawing.route import joined_legs
from takeup.drawing.sheet import Item, Point, Text, View
from takeup.drawing.signs import drawing_order, sign_of
from takeup.drawing.symbols import REACH
from takeup.drawing.world_view import Drawn, frame_for, headed, sign_box, spots_of, title_of
from takeup.edge import Units

Shown = dict[Place, Point]
_WIDEST = 40.0  # names longer than this on paper go on another line [mm]
_RANK = {"anchor": 0, "joint": 0, "item": 1, "end": 2}
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)  # where along its longest leg a line may be named


def system_view(
    lines: Sequence[Record],
    places: Sequence[tuple[Place, ...]],
    looking: Looking,
    room: Box,
    units: Units,
    *,
    scale: int | None = None,
) -> Drawn:
    """Return a view of all lines in a room of the sheet.

    Args:
        lines: The lines of the results.
        places: Of each line.
        looking: The way to look.
        room: Left, top, right, bottom [mm].
        units: Of the scale bar and the sizes.
        scale: The denominator; None for the largest that leaves room for words.
    """
    frame = frame_for(lines, looking, room, scale)
    heading, taken = headed(frame, room, units)
    items: list[Item] = [*heading]
    spots: Shown = {}
    for line, own in zip(lines, places, strict=True):
        taken.strokes += centre_strokes(frame, line)
        items += pipe_items(frame, line)
        spots |= {place: at for place, at in spots_of(frame, line, own).items() if place.sort != "corner"}
    taken.signs += [sign_box(at) for place, at in spots.items() if place.sort != "end"]
    words = [item for line in lines for item in _line_name(frame, line, taken, units)]
    named, crowd = _names(frame, spots, taken, units)
    words += [item for label in named.values() for item in label]
    items += _signs(frame, spots, named)
    missing = sum(not label for label in named.values())
    if missing:
        said = units.tell(f"{missing} names left out for want of room: see the sheets of the lines")
        words.append(Text(at=(room[0] + 3.0, room[3] - 1.5), words=said, size=2.2, ink="grey"))
    view = View(title=units.tell(f"{title_of(looking)}: all lines"), scale=frame.scale, items=(*items, *words))
    return Drawn(view=view, crowd=crowd)


def _line_name(frame: Frame, line: Record, taken: Taken, units: Units) -> tuple[Item, ...]:
    """Return the name of a line beside the longest of its legs that is seen."""
    points = [frame.paper(point) for point in vectors_of(joined_legs(line), "points")]
    start, end = max(pairwise(points), key=lambda leg: math.dist(*leg))
    length = math.dist(start, end)
    way = (1.0, 0.0) if length < REACH else ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    size = nominal_size(record_of(line, "pipe"), units)
    medium = units.tell(text_of(line, "medium"))
    words = ((units.tell(f"line {text_of(line, 'name')}"), True), (f"{size}, {medium}", False))
    for near in (True, False):
        for share in _SHARES:
            at = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
            label = place_label(words, at, taken, along=way, near=near)
            if label:
                return label
    return ()


def _names(frame: Frame, spots: Shown, taken: Taken, units: Units) -> tuple[dict[Place, tuple[Item, ...]], float]:
    """Return the label of everything that is named here, the most important first, and how badly they stand."""
    named = sorted((p for p in spots if p.sort in _RANK), key=lambda p: _RANK[p.sort])
    labels = [Label(lines=_label(p, units), spots=(spots[p],), along=frame.heading(p.along)) for p in named]
    found, crowd = place_labels(labels, taken)
    return dict(zip(named, found, strict=True)), crowd


def _label(place: Place, units: Units) -> tuple[LineOfWords, ...]:
    strong = place.sort in {"anchor", "joint"}
    use = ((units.tell(place.says), False),) if place.says else ()
    return (*((name, strong) for name in folded(place.name, TYPE, _WIDEST)), *use)


def _signs(frame: Frame, spots: Shown, named: dict[Place, tuple[Item, ...]]) -> list[Item]:
    items: list[Item] = []
    for place in drawing_order(tuple(spots)):
        if place.sort == "end" and place.kind == "branch":
            continue  # its main bears the sign
        fill = colour_of(place.use.value) if place.use is not None and named.get(place) else "#ffffff"
        way, axis = frame.heading(place.along), frame.heading(place.axis)
        corner = None if place.corner is None else frame.paper(place.corner)
        sign = sign_of(place, spots[place], way, axis, scale=frame.scale, fill=fill, corner=corner)
        if sign is not None:
            items.append(sign)
    return items
