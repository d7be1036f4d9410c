"""A line too long for one section: its view with small signs, its section in rows on as many sheets as they need.

A section is cut where the signs of its places would take more than the way they stand on; at the larger scale that a
row has they stand where they belong.     (drawing/long_line.py)
"""

from __future__ import annotations

from itertools import pairwise

from takeup.drawing.arrangement import largest_good, tall_at
from takeup.drawing.cut import Part, cut_in
from takeup.drawing.labels import Box
from takeup.drawing.places import Place
from takeup.drawing.projection import Looking
from takeup.drawing.reading import Record
from takeup.drawing.scale import choose_scale
from takeup.drawing.section import HEAD, NEXT_HEAD, height_for, room_for_names, section_view, unowned, width_for
from takeup.drawing.sheet import View
from takeup.drawing.signs import crowd_of
from takeup.drawing.world_view import Drawn, scale_within, world_view
from takeup.edge import Units

_FULL = 0.9  # of a row, that signs take at most
_MOST_ROWS = 40
_LEAST_VIEW = 50.0  # height of the view over the first rows [mm]
_ASIDE = (8.0, 11.0)  # room for words beside the view and over it [mm]; names of ends stand over them


def rows_of(line: Record, places: tuple[Place, ...], wide: float, units: Units) -> tuple[Part, ...]:
    """Return a line in the parts that have a row of the section each: one where it has room in one.

    Args:
        line: The line of the results.
        places: That are drawn.
        wide: Room for a row [mm].
        units: Of stations.
    """
    whole = cut_in(line, places, 1)
    room = wide - width_for(0.0, 1, units)
    for count in range(1, _MOST_ROWS + 1):
        parts = cut_in(line, places, count)
        if len(parts) < count:
            break
        scale = _scale_of(parts, room)
        if all(crowd_of(part.places, scale) <= _FULL and room_for_names(part.places) <= room for part in parts):
            return parts
    return whole


def _scale_of(parts: tuple[Part, ...], room: float) -> int:
    """Return the largest scale at which every row fits."""
    longest = max(part.end - part.start for part in parts)
    return choose_scale((longest, 0.0), (room, 1.0))


def long_views(
    line: Record, places: tuple[Place, ...], looking: Looking, room: Box, units: Units
) -> tuple[tuple[View, ...], ...]:
    """Return the views of a long line, sheet by sheet: as it lies over the first rows of its section, then the others.

    Args:
        line: The line of the results.
        places: That are drawn.
        looking: The way to look.
        room: Of the views on each sheet [mm].
        units: Of stations and lengths.
    """
    left, top, right, foot = room
    parts = rows_of(line, places, right - left, units)
    scale = _scale_of(parts, right - left - width_for(0.0, 1, units))
    heights = [_height(part, scale, units) for part in parts]
    first = _that_fit(heights, foot - top - _LEAST_VIEW)
    base = foot - _tall(heights[:first])
    view_room = (left, top, right, base)
    own = scale_within((line,), looking, view_room, _ASIDE)

    def drawn(tried: int) -> Drawn:
        return world_view(line, places, looking, view_room, units, scale=tried, brief=True)

    sheets = [(largest_good(own, drawn), *_rows(parts[:first], heights[:first], (left, base, right), scale, units))]
    done = first
    while done < len(parts):
        more = max(1, _that_fit(heights[done:], foot - top))
        end = done + more
        sheets.append(_rows(parts[done:end], heights[done:end], (left, top, right), scale, units))
        done = end
    return tuple(sheets)


def _height(part: Part, scale: int, units: Units) -> float:
    """Return the height of a row that goes on from another [mm]."""
    return height_for(unowned(part.line, part.places), units, tall_at(part.line, scale) + 0.1, NEXT_HEAD)


def _tall(heights: list[float]) -> float:
    """Return the height of some rows with the title over them [mm]; nothing of none."""
    return sum(heights) + HEAD - NEXT_HEAD if heights else 0.0


def _that_fit(heights: list[float], room: float) -> int:
    """Return how many rows fit in a height of a sheet [mm]."""
    return max(count for count in range(len(heights) + 1) if _tall(heights[:count]) <= room)


def _rows(
    parts: tuple[Part, ...], heights: list[float], at: tuple[float, float, float], scale: int, units: Units
) -> tuple[View, ...]:
    """Return rows under one another from a place on; the first has the title."""
    left, top, right = at
    tops = [top]
    for number, height in enumerate(heights):
        tops.append(tops[-1] + height + (HEAD - NEXT_HEAD if number == 0 else 0.0))
    return tuple(
        section_view(part.line, part.places, (left, over, right, under), units, scale=scale, goes_on=number > 0)
        for number, (part, (over, under)) in enumerate(zip(parts, pairwise(tops), strict=True))
    )


__all__ = ["long_views", "rows_of"]
