"""The layout drawing: the line as it lies over its developed section, on one A3 sheet.     (drawing/layout.py)

A line whose height is more than twice its plan is drawn as an elevation beside its section instead.
"""

from __future__ import annotations

from takeup.drawing.furniture import frame_view, legend_view, title_block, use_view
from takeup.drawing.places import places_of
from takeup.drawing.projection import DOWN, EAST, NORTH, Looking, extent_of
from takeup.drawing.reading import Record, Results, number_of, record_of, records_of, text_of
from takeup.drawing.route import profile_of
from takeup.drawing.section import least_height, section_view
from takeup.drawing.sheet import Sheet, View
from takeup.drawing.world_view import world_view
from takeup.edge import SI, Units

WIDTH, HEIGHT = 420.0, 297.0
_EDGE = (10.0, 12.0, 410.0, 285.0)
_FOOT = 244.0
_SECTION_MOST = 118.0


def layout_sheet(results: Results, units: Units = SI) -> Sheet:
    """Return the layout drawing of the first line of the results.

    Args:
        results: The results document.
        units: What its stations, lengths and elevations are written in.
    """
    line = records_of(results, "lines")[0]
    entry = record_of(results, "input")
    views = _main_views(results, line, units)
    places = places_of(results, line)
    right = _EDGE[2]
    scales = " and ".join(dict.fromkeys(f"1 : {view.scale}" for view in views))
    foot: tuple[View, ...] = (
        legend_view(places, (_EDGE[0], _FOOT, 160.0, _EDGE[3])),
        use_view((right - 230.0, _FOOT, right - 160.0, _EDGE[3])),
        title_block(results, line, units, scales, (right - 160.0, _FOOT, right, _EDGE[3])),
    )
    title = f"Layout of line {text_of(line, 'name')}, {text_of(entry, 'project')}"
    return Sheet(
        width=WIDTH,
        height=HEIGHT,
        title=title,
        description=_described(results, line, views, units),
        views=(frame_view(_EDGE, _FOOT), *views, *foot),
    )


def _main_views(results: Results, line: Record, units: Units) -> tuple[View, ...]:
    """Return the view of the line as it lies and its section."""
    places = places_of(results, line)
    looking = chosen_view(line)
    left, top, right, _ = _EDGE
    if looking is not DOWN:
        middle = left + 0.45 * (right - left)
        return (
            world_view(line, places, looking, (left, top, middle, _FOOT), units),
            section_view(line, places, (middle, top, right, _FOOT), units),
        )
    elevations = [z for _, z in profile_of(line)]
    length = profile_of(line)[-1][0]
    rise = (max(elevations) - min(elevations)) / max(length, 1e-9)
    divide = _FOOT - min(_SECTION_MOST, least_height(units) + 300.0 * rise)
    return (
        world_view(line, places, DOWN, (left, top, right, divide), units),
        section_view(line, places, (left, divide, right, _FOOT), units),
    )


def chosen_view(line: Record) -> Looking:
    """Return the way to look: down, or at the wider side where the line is over twice as high as its plan is wide."""
    least, greatest = extent_of(line, DOWN)
    east, north = greatest[0] - least[0], greatest[1] - least[1]
    low, high = extent_of(line, NORTH)
    if high[1] - low[1] <= 2.0 * max(east, north):
        return DOWN
    return NORTH if east >= north else EAST


def _described(results: Results, line: Record, views: tuple[View, ...], units: Units) -> str:
    """Return what the drawing shows, for a reader who cannot see it; the tables hold the same in figures."""
    holds, takeups = records_of(results, "holds"), records_of(results, "takeups")
    anchors = [text_of(hold, "name") for hold in holds if "anchor" in text_of(hold, "kind")]
    legs = "; ".join(
        f"{_long(leg, units)} from {text_of(leg, 'from')} to {text_of(leg, 'to')}" for leg in records_of(line, "legs")
    )
    shown = " and ".join(f"{view.title} at 1 : {view.scale}" for view in views)
    return (
        f"{shown}. Legs in the order of the flow: {legs}. Anchors: {', '.join(anchors) or 'none'}. "
        f"Take-ups: {', '.join(text_of(takeup, 'name') for takeup in takeups) or 'none'}. "
        f"Guides and rests: {len(holds) - len(anchors)}."
    )


def _long(leg: Record, units: Units) -> str:
    """Return the length of a leg; in SI with all the figures that the results have."""
    length = number_of(leg, "length_m")
    return units.length.text(length, 2) if units.length.feet else units.length.named(str(length))
