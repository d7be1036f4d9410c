"""The isometric: the line in space as one stroke, names, elevations, and how it moves. (drawing/sheets/isometric.py)

It is not to scale (`askew.py`); lengths are written on it. Arrows beside the pipe show the way in which a place moves
in the state that the sheet names, with how far.
"""

from __future__ import annotations

import math
from itertools import pairwise

from takeup.drawing.cut import Part, legs_of
from takeup.drawing.labels import Box, Label, LineOfWords, Taken, place_label, place_labels
from takeup.drawing.places import Place
from takeup.drawing.reading import Record, Results, number_of
from takeup.drawing.route import Vector
from takeup.drawing.sheet import Item, Point, Polyline, View
from takeup.drawing.sheets.about import Scribe
from takeup.drawing.sheets.askew import Askew, askew_in, heading_of
from takeup.drawing.sheets.folding import name_lines
from takeup.drawing.sheets.growth import Moving, moving_places, state_shown, taken_up
from takeup.drawing.sheets.heading import BARE, heading, north_arrow
from takeup.drawing.sheets.pens import AWAY, LINE, MATCH, PIPE, TYPE
from takeup.drawing.sheets.plan import Beyond, group_words, name_of
from takeup.drawing.signs import drawing_order, moved_signs, sign_of
from takeup.drawing.symbols import REACH, arrow
from takeup.drawing.world_view import from_the_middle, groups_of, sign_box

_ASIDE = (48.0, 26.0)  # room for words left and right, above and below [mm]
_WIDEST = 58.0
_ARROW = 10.0  # of a movement: always so long [mm]
_BESIDE = (5.5, 8.0, 11.0)  # it stands so far off the pipe [mm]
_BREAK = 8.0
_SAME = 1e-6
_RANK = {"anchor": 0, "joint": 0, "corner": 1, "end": 1, "item": 2, "branch": 2}


def isometric_view(results: Results, part: Part, room: Box, scribe: Scribe, beyond: tuple[Beyond, ...]) -> View:
    """Return the isometric of a part.

    Args:
        results: The results document.
        part: What is shown of a line.
        room: Left, top, right, bottom [mm].
        scribe: Words and units.
        beyond: Where it goes on, on which sheet.
    """
    legs = legs_of(part)
    corners = [legs[0][1], *(end for _, _, end in legs)]
    within = (room[0] + _ASIDE[0], room[1] + BARE + _ASIDE[1], room[2] - _ASIDE[0], room[3] - _ASIDE[1])
    askew = askew_in(corners, within)
    title = scribe.text("isometric")
    state = state_shown(results)
    more = scribe.text("not_to_scale")
    if state:
        more = f"{more}; {scribe.text('movements_in', state=scribe.kind(state))}"
    head, box = heading(title, None, (room[0], room[1]), scribe, more)
    north, north_box = north_arrow((room[2] - 15.0, room[1] + 17.0), heading_of((0.0, 1.0, 0.0)), scribe)
    taken = Taken(room=room, words=[box, north_box])
    items: list[Item] = [*head, *north]
    points = [askew.paper(corner) for corner in corners]
    items.append(Polyline(points=tuple(points), stroke=PIPE))
    taken.strokes += list(pairwise(points))
    spots = _spots(askew, part)
    items += _beyond(part, points, beyond, taken, scribe)
    items += _signs(spots, taken)
    items += _flow(legs, points, taken, scribe)
    arrows = _arrows(moving_places(results, part), spots, taken, scribe)
    items += arrows[0]
    items += _names((results, part), spots, arrows[1], taken, scribe)
    items += _lengths(part, legs, points, taken, scribe)
    return View(title=title, scale=None, items=tuple(items))


def _spots(askew: Askew, part: Part) -> dict[Place, Point]:
    """Return where on the sheet each sign stands: at its place, or moved along its leg off its neighbours."""
    spots: dict[Place, Point] = {}
    for leg, start, end in legs_of(part):
        first, last = number_of(leg, "start_m"), number_of(leg, "end_m")
        here = tuple(place for place in part.places if first - _SAME <= place.station <= last + _SAME)
        one, other = askew.paper(start), askew.paper(end)
        length = math.dist(one, other)
        scale = max(1, round(1000.0 * (last - first) / max(length, _SAME)))
        moves = moved_signs(here, scale)
        for place in here:
            far = (place.station - first) / (last - first) * length + moves.get(place, 0.0)
            share = min(max(far, 0.0), length) / max(length, _SAME)
            spots.setdefault(place, (one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])))
    return spots


def _beyond(part: Part, points: list[Point], beyond: tuple[Beyond, ...], taken: Taken, scribe: Scribe) -> list[Item]:
    """Return a match line at every end that goes on."""
    items: list[Item] = []
    for other in beyond:
        at, inner = (points[0], points[1]) if other.station == part.before else (points[-1], points[-2])
        length = math.dist(at, inner)
        way = ((at[0] - inner[0]) / length, (at[1] - inner[1]) / length)
        end = (at[0] + _BREAK * way[0], at[1] + _BREAK * way[1])
        ends = tuple((at[0] - side * _BREAK * way[1], at[1] + side * _BREAK * way[0]) for side in (-1.0, 1.0))
        items += [Polyline(points=(at, end), stroke=AWAY), Polyline(points=ends, stroke=MATCH)]
        taken.strokes += [(at, end), (ends[0], ends[1])]
        words = (
            (scribe.text("match_line"), True),
            (scribe.station(other.station), False),
            (scribe.text("see_sheet", number=other.sheet), False),
        )
        items += place_label(words, end, taken, along=way, size=TYPE)
    return items


def _signs(spots: dict[Place, Point], taken: Taken) -> list[Item]:
    items: list[Item] = []
    for place in drawing_order(tuple(spots)):
        sign = sign_of(place, spots[place], heading_of(place.along), heading_of(place.axis), scale=10**9)
        if sign is not None:
            items.append(sign)
            taken.signs.append(sign_box(spots[place]))
    return items


def _flow(
    legs: tuple[tuple[Record, Vector, Vector], ...], points: list[Point], taken: Taken, scribe: Scribe
) -> list[Item]:
    """Return an arrow in the way of the flow on the longest leg, with the word."""
    lengths = [math.dist(one, other) for one, other in pairwise(points)]
    longest = lengths.index(max(lengths))
    assert len(lengths) == len(legs), "a leg between two points"
    start, end = points[longest], points[longest + 1]
    way = ((end[0] - start[0]) / lengths[longest], (end[1] - start[1]) / lengths[longest])
    for share in (0.45, 0.55, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85):
        at = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        box = (at[0] - 2.4, at[1] - 2.4, at[0] + 2.4, at[1] + 2.4)
        if all(box[0] >= o[2] or o[0] >= box[2] or box[1] >= o[3] or o[1] >= box[3] for o in taken.signs):
            taken.signs.append(box)
            return [arrow(at, way, 4.2), *place_label(((scribe.text("flow"), False),), at, taken, along=way, size=TYPE)]
    return []


def _arrows(
    moving: tuple[Moving, ...], spots: dict[Place, Point], taken: Taken, scribe: Scribe
) -> tuple[list[Item], dict[Place, str]]:
    """Return an arrow beside each place that moves; and what is said of those beside which none had room."""
    items: list[Item] = []
    said: dict[Place, str] = {}
    for moved in moving:
        words = scribe.small(moved.size)
        found = _arrow(moved, spots[moved.place], words, taken)
        if found:
            items += found
        else:
            said[moved.place] = scribe.text("moves_most" if moved.place.sort == "guide" else "moves", by=words)
    return items, said


def _arrow(moved: Moving, at: Point, words: str, taken: Taken) -> list[Item]:
    """Return an arrow in the way of a movement beside its place, with how far; nothing where it has no room."""
    way = heading_of(moved.movement)
    for off in _BESIDE:
        for side in (-1.0, 1.0):
            middle = (at[0] - side * off * way[1], at[1] + side * off * way[0])
            reach = (_ARROW / 2.0 * way[0], _ARROW / 2.0 * way[1])
            tail, tip = (middle[0] - reach[0], middle[1] - reach[1]), (middle[0] + reach[0], middle[1] + reach[1])
            box = (min(tail[0], tip[0]), min(tail[1], tip[1]), max(tail[0], tip[0]), max(tail[1], tip[1]))
            if not taken.is_untouched(tail, tip) or not taken.is_off_strokes(tail, tip):
                continue
            tried = taken.copy()
            tried.strokes.append((tail, tip))
            label = place_label(((words, False),), middle, tried, along=way, near=True, size=TYPE)
            if not label or not taken.is_free(box):
                continue
            taken.words, taken.strokes = tried.words, tried.strokes
            head = (tip[0] - 1.3 * way[0], tip[1] - 1.3 * way[1])
            return [Polyline(points=(tail, tip), stroke=LINE), arrow(head, way, 2.6), *label]
    return []


def _names(
    shown: tuple[Results, Part], spots: dict[Place, Point], moves: dict[Place, str], taken: Taken, scribe: Scribe
) -> list[Item]:
    """Return the labels: anchors and joints first, corners and ends, things in the line, then guides together."""
    results, part = shown
    named = sorted((p for p in spots if p.sort in _RANK), key=lambda p: (_RANK[p.sort], p.station))
    labels = [
        Label(
            lines=_label(results, place, moves.get(place, ""), scribe),
            spots=(spots[place],),
            along=heading_of(place.along),
            size=TYPE,
        )
        for place in named
    ]
    labels += [
        Label(
            lines=(*group_words(group, scribe), *((moves[place], False) for place in group if place in moves)),
            spots=tuple(spots[place] for place in from_the_middle(group)),
            along=heading_of(group[0].along),
            size=TYPE,
        )
        for group in groups_of(part.line, part.places)
    ]
    found, _ = place_labels(labels, taken)
    return [item for label in found for item in label]


def _label(results: Results, place: Place, moves: str, scribe: Scribe) -> tuple[LineOfWords, ...]:
    strong = place.sort in {"anchor", "joint"}
    lines = [(name, strong) for name in name_lines(name_of(place, scribe), TYPE, _WIDEST)]
    if place.sort in {"corner", "end"}:
        lines.append((scribe.text("elevation_at", level=scribe.length(place.at[2])), False))
    else:
        lines.append((scribe.station(place.station), False))
    if place.sort == "joint":
        lines += [(words, False) for words in taken_up(results, place.name, scribe)]
    return (*lines, (moves, False)) if moves else tuple(lines)


def _lengths(
    part: Part,
    legs: tuple[tuple[Record, Vector, Vector], ...],
    points: list[Point],
    taken: Taken,
    scribe: Scribe,
) -> list[Item]:
    """Return the length of each leg that is not cut, beside its middle."""
    items: list[Item] = []
    for (leg, _, _), (one, other) in zip(legs, pairwise(points), strict=True):
        if any(abs(cut - number_of(leg, key)) < _SAME for cut in part.cuts for key in ("start_m", "end_m")):
            continue
        length = math.dist(one, other)
        if length < 2.0 * REACH:
            continue
        way = ((other[0] - one[0]) / length, (other[1] - one[1]) / length)
        for share in (0.5, 0.35, 0.65, 0.2, 0.8):
            at = (one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1]))
            words = ((scribe.text("leg_long", length=scribe.length(number_of(leg, "length_m"))), False),)
            found = place_label(words, at, taken, along=way, near=True, size=TYPE)
            if found:
                items += found
                break
    return items
