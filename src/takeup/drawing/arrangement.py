"""How the view of a line and its section share a sheet: the largest scales at which both fit.  (drawing/arrangement.py)

Tried are the view over the section and beside it, at the largest scales first. A scale is taken when the words have
room too; where none gives it, the arrangement whose words stand least badly for its scales.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from takeup.drawing.labels import Box
from takeup.drawing.places import Place
from takeup.drawing.projection import DOWN, Looking
from takeup.drawing.reading import Record
from takeup.drawing.route import profile_of
from takeup.drawing.scale import choose_scale, round_up, steps_of
from takeup.drawing.section import height_for, room_for_names, section_view, unowned, width_for
from takeup.drawing.sheet import View
from takeup.drawing.world_view import LEAST_ASIDE, Drawn, scale_within, world_view
from takeup.edge import Units

_MOST_TRIES = 4
_GOOD_ENOUGH = 25.0  # words that stand no worse are good [mm of leaders]
_FOR_STEP = 20.0  # what one step of scale is worth where all stand badly [mm of leaders]
_SECTION_WEIGHS = 0.6  # against the scale of the view
_BESIDE_COSTS = 0.3  # steps: over one another reads better
_LEVEL = 6.0  # a profile of less height on paper is as good as level [mm]
_SLOPE = 300.0  # room for one that is exaggerated: so much for its mean slope [mm]
_TALLEST = 40.0
_LEAST_SECTION = 132.0  # width for the title of a section [mm]
_LEAST_VIEW = 60.0  # width and height of a view with its title [mm]
_SCALES = 4  # of a section, from the largest that fits on the sheet


@dataclass(frozen=True, kw_only=True, slots=True)
class Arrangement:
    """Rooms of the view and of the section on the sheet [mm], the scale of the view, and what it costs [steps]."""

    view: Box
    section: Box
    scale: int
    cost: float


def arranged(
    line: Record,
    places: tuple[Place, ...],
    looking: Looking,
    room: Box,
    units: Units,
    *,
    brief: bool = False,
) -> tuple[View, View]:
    """Return the view of a line and its section, at the largest scales at which they and their words fit.

    Args:
        line: The line of the results.
        places: Its places.
        looking: The way to look.
        room: Of both on the sheet [mm].
        units: Of stations and lengths.
        brief: Whether the view has names alone.
    """
    every = sorted(_arrangements(line, places, looking, room, units), key=lambda item: item.cost)
    assert every, "some scale fits on every sheet"
    first = {(item.view, item.scale): item for item in reversed(every)}  # the best of those with one and the same view
    found = sorted(first.values(), key=lambda item: item.cost)
    least = found[0].cost

    def drawn(item: Arrangement) -> Drawn:
        return world_view(line, places, looking, item.view, units, scale=item.scale, brief=brief)

    tried = ((drawn(item), _FOR_STEP * (item.cost - least)) for item in found[:_MOST_TRIES])
    number, view = first_good(tried)
    return view, section_view(line, places, found[number].section, units)


def first_good(tried: Iterable[tuple[Drawn, float]]) -> tuple[int, View]:
    """Return the number and the view of the first whose words stand well; else of that with least crowd and price.

    Args:
        tried: What was drawn and its price [mm of leaders], in the order of preference.
    """
    best: tuple[float, int, View] | None = None
    for number, (drawn, price) in enumerate(tried):
        if drawn.crowd <= _GOOD_ENOUGH:
            return number, drawn.view
        if best is None or drawn.crowd + price < best[0]:
            best = (drawn.crowd + price, number, drawn.view)
    assert best is not None, "something is tried"
    return best[1], best[2]


def _arrangements(
    line: Record, places: tuple[Place, ...], looking: Looking, room: Box, units: Units
) -> Iterator[Arrangement]:
    """Yield every arrangement: the largest scale of the view in each, and the next."""
    left, top, right, foot = room
    for scale, height in _sections(line, places, right - left, units):
        if height > foot - top:
            continue
        over = (left, top, right, foot - height), (left, foot - height, right, foot)
        wide = _width(line, places, scale, units)
        beside = (left, top, right - wide, foot), (right - wide, top, right, top + height)
        for (view, section), more in ((over, 0.0), (beside, _BESIDE_COSTS)):
            if min(view[2] - view[0], view[3] - view[1]) < _LEAST_VIEW or (more == 0.0 and looking is not DOWN):
                continue
            own = scale_within((line,), looking, view, LEAST_ASIDE)
            for tried in (own, round_up(own + 1)):
                cost = steps_of(tried) + _SECTION_WEIGHS * steps_of(scale) + more
                yield Arrangement(view=view, section=section, scale=tried, cost=cost)


def tall_at(line: Record, scale: int) -> float:
    """Return how tall the profile of a line is drawn at a scale of its section [mm]."""
    profile = profile_of(line)
    levels = [z for _, z in profile]
    rise = max(levels) - min(levels)
    tall = 1000.0 * rise / scale
    return min(_LEVEL + _SLOPE * rise / (profile[-1][0] - profile[0][0]), _TALLEST) if tall < _LEVEL else tall


def _sections(line: Record, places: tuple[Place, ...], wide: float, units: Units) -> Iterator[tuple[int, float]]:
    """Yield scales of the section, the largest that fits on the sheet first, with the height that each needs [mm]."""
    length = profile_of(line)[-1][0]
    scale = choose_scale((length, 0.0), (wide - width_for(0.0, 1, units), 1.0))
    for _ in range(_SCALES):
        yield scale, height_for(unowned(line, places), units, tall_at(line, scale) + 0.1)
        scale = round_up(scale + 1)


def _width(line: Record, places: tuple[Place, ...], scale: int, units: Units) -> float:
    """Return the width of a section that stands beside its view [mm]; all its places can be named."""
    named = width_for(0.0, 1, units) + room_for_names(places)
    return max(width_for(profile_of(line)[-1][0], scale, units), named, _LEAST_SECTION) + 0.1


def largest_good(scale: int, trial: Callable[[int], Drawn]) -> View:
    """Return a view at the largest scale, from some scale on, at which its words stand well.

    Args:
        scale: The denominator of the first scale.
        trial: What is drawn at a scale.
    """
    scales = [scale]
    for _ in range(2):
        scales.append(round_up(scales[-1] + 1))
    return first_good((trial(n), _FOR_STEP * place) for place, n in enumerate(scales))[1]
