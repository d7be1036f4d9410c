"""The layout drawing: each line as it lies over its developed section, on an A3 sheet.     (drawing/layout.py)

A line whose height is more than twice its plan is drawn as an elevation beside its section instead. Several lines have
a sheet of their own before: all of them as they lie, to one scale. Of a line with more places than one sheet can name
its anchors, joints and what is built in are drawn; the layout drawing that is issued (drawing/sheets/) shows all of it,
part by part.
"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.arrangement import arranged, largest_good
from takeup.drawing.furniture import foot_above, frame_view, legend_view, title_block, use_view
from takeup.drawing.long_line import long_views, rows_of
from takeup.drawing.places import Place, places_of
from takeup.drawing.projection import DOWN, EAST, NORTH, Looking, extent_of
from takeup.drawing.reading import Record, Results, number_of, of_line, record_of, records_of, text_of
from takeup.drawing.route import joined_legs
from takeup.drawing.sheet import Point, Sheet, Text, View
from takeup.drawing.system_view import system_view
from takeup.drawing.world_view import scale_within
from takeup.edge import SI, Units

WIDTH, HEIGHT = 420.0, 297.0
_EDGE = (10.0, 12.0, 410.0, 285.0)
_FOOT = 244.0
_MOST_PLACES = 68  # of a line, that one sheet can name and be read
_SAID = 4.5  # height of what is said of those that it leaves out [mm]
_MOST_FULL = 12  # anchors and joints that have station and use beside their names on the view of such a line


def layout_sheet(results: Results, units: Units = SI) -> Sheet:
    """Return the first sheet of the layout: of one line its drawing, of several all of them as they lie.

    Args:
        results: The results document.
        units: What its stations, lengths and elevations are written in.
    """
    return layout_sheets(results, units)[0]


def layout_sheets(results: Results, units: Units = SI) -> tuple[Sheet, ...]:
    """Return the sheets of the layout: all lines together where there are several, then line by line.

    Args:
        results: The results document.
        units: What their stations, lengths and elevations are written in.
    """
    lines = records_of(results, "lines")
    places = [places_of(results, line) for line in lines]
    drawn = [(line, *_drawn(line, own, units)) for line, own in zip(lines, places, strict=True)]
    count = sum(len(sheets) for _, _, sheets in drawn) + (len(lines) > 1)
    found: list[Sheet] = []
    if len(lines) > 1:
        found.append(_system_sheet(results, lines, places, units, f"sheet 1 of {count}: all lines"))
    for line, shown, sheets in drawn:
        for views in sheets:
            said = f"sheet {len(found) + 1} of {count}: line {text_of(line, 'name')}"
            said = said if count > 1 else "layout of the line"
            found.append(_line_sheet(results, line, shown, views, units, said=said))
    return tuple(found)


def _system_sheet(
    results: Results, lines: Sequence[Record], places: Sequence[tuple[Place, ...]], units: Units, said: str
) -> Sheet:
    every = tuple(place for own in places for place in own)
    left, top, right, _ = _EDGE
    room, looking = (left, top, right, foot_above(every, _FOOT)), view_of_all(lines)
    first = scale_within(lines, looking, room)
    view = largest_good(first, lambda scale: system_view(lines, places, looking, room, units, scale=scale))
    names = ", ".join(text_of(line, "name") for line in lines)
    branches = "; ".join(
        f"{text_of(line, 'name')} leaves {text_of(branch, 'of')} at {text_of(branch, 'at')}"
        for line in lines
        if (branch := record_of(line, "branch"))
    )
    shown = f"{view.title} {units.tell(f'at 1 : {view.scale}')}"
    words = f"Lines: {names}. {branches or 'No line leaves another'}."
    described = f"{shown}. {units.tell(words)}"
    title = units.tell(f"Layout of lines {names}, {text_of(record_of(results, 'input'), 'project')}")
    return _sheet(results, lines, every, (view,), words=(title, described, said), units=units)


def _drawn(
    line: Record, places: tuple[Place, ...], units: Units
) -> tuple[tuple[Place, ...], tuple[tuple[View, ...], ...]]:
    """Return the places of a line that are drawn, and the views of it, sheet by sheet."""
    places, brief, left_out = _of_long_line(places)
    left, top, right, _ = _EDGE
    foot, looking = foot_above(places, _FOOT), chosen_view(line)
    room = (left, top, right, foot - (_SAID if left_out else 0.0))
    note = (_note(left_out, (left + 3.0, foot - 1.4), units),) if left_out else ()
    if brief and looking is DOWN and len(rows_of(line, places, right - left, units)) > 1:
        return places, tuple((*views, *note) for views in long_views(line, places, looking, room, units))
    return places, ((*arranged(line, places, looking, room, units, brief=brief), *note),)


def _line_sheet(
    results: Results, line: Record, places: tuple[Place, ...], views: tuple[View, ...], units: Units, *, said: str
) -> Sheet:
    title = units.tell(f"Layout of line {text_of(line, 'name')}, {text_of(record_of(results, 'input'), 'project')}")
    words = (title, _described(results, line, views, units), said)
    return _sheet(results, (line,), places, views, words=words, units=units)


def _note(words: str, at: Point, units: Units) -> View:
    """Return what is said of a whole sheet, at its place."""
    told = units.tell(words)
    return View(title=told, scale=None, items=(Text(at=at, words=told, size=2.6),))


def _sheet(
    results: Results,
    lines: Sequence[Record],
    places: tuple[Place, ...],
    views: tuple[View, ...],
    *,
    words: tuple[str, str, str],
    units: Units,
) -> Sheet:
    """Return a sheet with its foot; `words` are its title, its description and what the title block calls it."""
    title, described, said = words
    left, _, right, bottom = _EDGE
    scales = ", ".join(dict.fromkeys(f"1 : {view.scale}" for view in views if view.scale is not None))
    foot = foot_above(places, _FOOT)
    return Sheet(
        width=WIDTH,
        height=HEIGHT,
        title=title,
        description=described,
        views=(
            frame_view(_EDGE, foot),
            *views,
            legend_view(places, (left, foot, right, bottom), _FOOT, units),
            use_view((right - 230.0, _FOOT, right - 160.0, bottom), units),
            title_block(results, lines, units, (scales, said), (right - 160.0, _FOOT, right, bottom)),
        ),
    )


def _of_long_line(places: tuple[Place, ...]) -> tuple[tuple[Place, ...], bool, str]:
    """Return the places that are drawn of a line, whether they have names alone, and what is said of the others."""
    if len(places) <= _MOST_PLACES:
        return places, False, ""
    kept = tuple(place for place in places if place.sort != "guide")
    said = f"{len(places) - len(kept)} guides and rests are not on this sheet: see the layout drawing and the tables"
    return kept, sum(place.sort in {"anchor", "joint"} for place in kept) > _MOST_FULL, said


def chosen_view(line: Record) -> Looking:
    """Return the way to look: down, or at the wider side where a line is over twice as high as its plan is wide."""
    least, greatest = extent_of((line,), DOWN)
    east, north = greatest[0] - least[0], greatest[1] - least[1]
    low, high = extent_of((line,), NORTH)
    if high[1] - low[1] <= 2.0 * max(east, north):
        return DOWN
    return NORTH if east >= north else EAST


def view_of_all(lines: Sequence[Record]) -> Looking:
    """Return the way to look at several lines: down, or at the side from which they lie over twice as far apart.

    How far apart is the shorter side of what is seen: where it is nothing, all lines lie behind one another.
    """
    side = max((NORTH, EAST), key=lambda looking: _depth(lines, looking))
    return side if _depth(lines, side) > 2.0 * _depth(lines, DOWN) else DOWN


def _depth(lines: Sequence[Record], looking: Looking) -> float:
    """Return the shorter side of what is seen of some lines [m]."""
    least, greatest = extent_of(lines, looking)
    return min(greatest[0] - least[0], greatest[1] - least[1])


def _described(results: Results, line: Record, views: tuple[View, ...], units: Units) -> str:
    """Return what the drawing shows, for a reader who cannot see it; the tables hold the same in figures."""
    holds, takeups = of_line(results, "holds", line), of_line(results, "takeups", line)
    anchors = [text_of(hold, "name") for hold in holds if "anchor" in text_of(hold, "kind")]
    legs = "; ".join(
        f"{_long(leg, units)} from {text_of(leg, 'from')} to {text_of(leg, 'to')}"
        for leg in records_of(joined_legs(line), "legs")
    )
    shown = ", ".join(f"{view.title} {units.tell(f'at 1 : {view.scale}')}" for view in views)
    items = ", ".join(text_of(item, "name") for item in records_of(line, "items"))
    words = (
        f"Legs in the order of the flow: {legs}. Anchors: {', '.join(anchors) or 'none'}. "
        f"Take-ups: {', '.join(text_of(takeup, 'name') for takeup in takeups) or 'none'}. "
        f"{f'In the line: {items}. ' if items else ''}Guides, rests and others: {len(holds) - len(anchors)}."
    )
    return f"{shown}. {units.tell(words)}"


def _long(leg: Record, units: Units) -> str:
    """Return the length of a leg; in SI with all the figures that the results have."""
    length = number_of(leg, "length_m")
    return units.length.text(length, 2) if units.length.feet else units.length.named(str(round(length, 9)))
