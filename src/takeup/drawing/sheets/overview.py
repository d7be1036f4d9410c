"""All lines of a study as they lie, or a long line with the sheets that show it.     (drawing/sheets/overview.py)"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.arrangement import first_good
from takeup.drawing.cut import Part
from takeup.drawing.labels import Box, Label, LineOfWords, Taken, place_label, place_labels
from takeup.drawing.places import Place
from takeup.drawing.projection import Frame, Looking, centre_strokes, extent_of, single_line
from takeup.drawing.reading import Record, nominal_size, record_of, text_of, vectors_of
from takeup.drawing.route import joined_legs, on_legs
from takeup.drawing.sheet import Item, Point, Polyline, View
from takeup.drawing.sheets.about import Scribe
from takeup.drawing.sheets.folding import name_lines
from takeup.drawing.sheets.heading import HEIGHT
from takeup.drawing.sheets.pens import MATCH, PIPE, TYPE
from takeup.drawing.sheets.plan import framed, headed, name_of, signs
from takeup.drawing.sheets.scales import Scale, next_scale, scale_for
from takeup.drawing.symbols import REACH
from takeup.drawing.world_view import Drawn, spots_of

_ASIDE = (24.0, 16.0)
_WIDEST = 52.0
_MOST_SIGNS = 24  # with more anchors and joints only the ends are shown: the sheets of the parts have them
_BREAK = 6.0
_TRIES = 3
_FOR_STEP = 20.0
_RANK = {"anchor": 0, "joint": 0, "item": 1, "end": 2}  # corners are named last, and all of them or none
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)


@dataclass(frozen=True, kw_only=True, slots=True)
class Whole:
    """A line with its places and its parts, and the sheets that show each: as it lies, its stations, its isometric."""

    line: Record
    places: tuple[Place, ...]
    parts: tuple[Part, ...]
    sheets: tuple[tuple[int, int, int], ...]


def overview(lines: tuple[Whole, ...], looking: Looking, room: Box, scribe: Scribe) -> tuple[View, tuple[Place, ...]]:
    """Return the view of all lines at the largest scale at which its words stand well, and the places with a sign.

    Args:
        lines: The lines.
        looking: The way to look.
        room: Left, top, right, bottom [mm].
        scribe: Words and units.
    """
    shown = _shown(lines)
    least, greatest = extent_of([whole.line for whole in lines], looking)
    wide, high = room[2] - room[0] - 2.0 * _ASIDE[0], room[3] - room[1] - HEIGHT - 2.0 * _ASIDE[1]
    system = scribe.units.system
    scales = [scale_for((greatest[0] - least[0], greatest[1] - least[1]), (wide, high), system)]
    for _ in range(_TRIES - 1):
        scales.append(next_scale(scales[-1], system))
    tried = (
        (_drawn(lines, shown, (looking, scale), room, scribe), _FOR_STEP * number)
        for number, scale in enumerate(dict.fromkeys(scales))
    )
    return first_good(tried)[1], shown


def _shown(lines: tuple[Whole, ...]) -> tuple[Place, ...]:
    """Return the places that are shown: anchors, joints, things in the line and ends; of many only the ends."""
    found = tuple(place for whole in lines for place in whole.places if place.sort not in {"guide", "corner"})
    if sum(place.sort in {"anchor", "joint"} for place in found) <= _MOST_SIGNS:
        return tuple(place for place in found if not (place.sort == "end" and place.kind == "branch"))
    ends = {id(whole.places[at]) for whole in lines for at in (0, -1)}
    corners = tuple(place for whole in lines for place in whole.places if place.sort == "corner")
    return (*(place for place in found if id(place) in ends or place.sort == "branch"), *corners)


def _drawn(
    lines: tuple[Whole, ...], shown: tuple[Place, ...], seen: tuple[Looking, Scale], room: Box, scribe: Scribe
) -> Drawn:
    looking, scale = seen
    every = tuple(whole.line for whole in lines)
    frame = framed(every, looking, room, scale)
    title = scribe.text("whole_line" if len(lines) == 1 else "all_lines")
    items, taken = headed(frame, scale, room, scribe, title)
    spots: dict[Place, Point] = {}
    kept = set(shown)
    for whole in lines:
        taken.strokes += centre_strokes(frame, whole.line)
        items += single_line(frame, whole.line, PIPE)
        own = tuple(place for place in whole.places if place in kept)
        spots |= spots_of(frame, whole.line, own)
    items += signs(frame, spots, taken)
    for whole in lines:
        items += _bounds(frame, whole, taken)
    for whole in lines:
        items += _parts(frame, whole, taken, scribe)
        items += _line_name(frame, whole.line, taken, scribe)
    named = sorted((p for p in spots if p.sort in _RANK), key=lambda p: (_RANK[p.sort], p.station))
    found, crowd = place_labels([_label_of(frame, place, spots, scribe) for place in named], taken)
    items += [item for label in found for item in label]
    corners = [place for place in spots if place.sort == "corner"]
    beside, crowded = place_labels([_label_of(frame, place, spots, scribe) for place in corners], taken)
    items += [item for label in beside for item in label if crowded == 0.0]
    return Drawn(
        view=View(title=title, scale=scale.ratio, items=tuple(items), zero=frame.paper((0.0, 0.0, 0.0))), crowd=crowd
    )


def _label_of(frame: Frame, place: Place, spots: dict[Place, Point], scribe: Scribe) -> Label:
    return Label(lines=_label(place, scribe), spots=(spots[place],), along=frame.heading(place.along), size=TYPE)


def _label(place: Place, scribe: Scribe) -> tuple[LineOfWords, ...]:
    strong = place.sort in {"anchor", "joint"}
    return tuple((name, strong) for name in name_lines(name_of(place, scribe), TYPE, _WIDEST))


def _bounds(frame: Frame, whole: Whole, taken: Taken) -> list[Item]:
    """Return a match line wherever one sheet of a line ends and the next begins."""
    items: list[Item] = []
    for part in whole.parts[1:]:
        point, direction = on_legs(whole.line, part.start)
        at, way = frame.paper(point), frame.heading(direction)
        one, other = ((at[0] - side * _BREAK * way[1], at[1] + side * _BREAK * way[0]) for side in (-1.0, 1.0))
        items.append(Polyline(points=(one, other), stroke=MATCH))
        taken.strokes.append((one, other))
    return items


def _parts(frame: Frame, whole: Whole, taken: Taken, scribe: Scribe) -> list[Item]:
    """Return which sheets show each part of a line that has several."""
    if len(whole.parts) == 1:
        return []
    items: list[Item] = []
    for part, (first, _, last) in zip(whole.parts, whole.sheets, strict=True):
        point, direction = on_legs(whole.line, (part.start + part.end) / 2.0)
        reach = scribe.text("from_to", near=scribe.chainage(part.start), far=scribe.chainage(part.end))
        words = (
            (scribe.text("sheets", first=first, last=last), True),
            (scribe.units.span.named(reach), False),
        )
        items += place_label(words, frame.paper(point), taken, along=frame.heading(direction), size=TYPE)
    return items


def _line_name(frame: Frame, line: Record, taken: Taken, scribe: Scribe) -> tuple[Item, ...]:
    """Return the name of a line beside the longest of its legs that is seen."""
    points = [frame.paper(point) for point in vectors_of(joined_legs(line), "points")]
    start, end = max(pairwise(points), key=lambda leg: math.dist(*leg))
    length = math.dist(start, end)
    way = (1.0, 0.0) if length < REACH else ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    size = nominal_size(record_of(line, "pipe"), scribe.units)
    words = (
        (scribe.text("line", name=text_of(line, "name")), True),
        (f"{size}, {scribe.kind(text_of(line, 'medium'))}", False),
    )
    for near in (True, False):
        for share in _SHARES:
            at = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
            label = place_label(words, at, taken, along=way, near=near, size=TYPE)
            if label:
                return label
    return ()
