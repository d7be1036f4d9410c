"""Small drawings of several arrangements of the same lines, all to one scale.     (drawing/proposal_view.py)

Names and signs only, as on the sheet of all lines of a study; each has a sheet of its own as high as it needs.
"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.layout import chosen_view, view_of_all
from takeup.drawing.places import places_of
from takeup.drawing.projection import Looking, extent_of
from takeup.drawing.reading import Record, Results, records_of, text_of
from takeup.drawing.scale import choose_scale
from takeup.drawing.sheet import Sheet
from takeup.drawing.system_view import system_view
from takeup.edge import SI

WIDE, NARROW = 170.0, 82.0
"""Of a drawing: alone in its row, or one of two [mm]."""
_ASIDE = (20.0, 15.0)  # room for names left and right, above and below [mm]
_HEAD = 15.0  # room for the title and the scale bar [mm]
_TALLEST = 200.0  # of a drawing [mm]
_SIDE_BY_SIDE = 1.8  # a plan that is less wide for its height stands beside another


def proposal_sheets(every: Sequence[Results], lines: Sequence[str]) -> tuple[Sheet, ...]:
    """Return a drawing of each arrangement, in order.

    Args:
        every: the results of each.
        lines: names of the lines that are arranged.
    """
    own = [[one for one in records_of(results, "lines") if text_of(one, "name") in lines] for results in every]
    if not own:
        return ()
    looking = chosen_view(own[0][0]) if len(own[0]) == 1 else view_of_all(own[0])
    least, greatest = extent_of([one for some in own for one in some], looking)
    across, upright = greatest[0] - least[0], greatest[1] - least[1]
    width = NARROW if across < _SIDE_BY_SIDE * upright else WIDE
    inner = width - 2.0 * _ASIDE[0], _TALLEST - _HEAD - 2.0 * _ASIDE[1]
    scale = choose_scale((across, upright), inner)
    return tuple(_sheet(results, one, looking, width, scale) for results, one in zip(every, own, strict=True))


def _sheet(results: Results, lines: Sequence[Record], looking: Looking, width: float, scale: int) -> Sheet:
    places = [places_of(results, line) for line in lines]
    least, greatest = extent_of(lines, looking)
    height = round(_HEAD + 2.0 * _ASIDE[1] + 1000.0 * (greatest[1] - least[1]) / scale, 3)
    room = (0.0, 0.0, width, height)
    view = system_view(lines, places, looking, room, SI, scale=scale).view
    named = [place.name for some in places for place in some if place.sort in ("anchor", "joint")]
    names = [text_of(line, "name") for line in lines]
    return Sheet(
        width=width,
        height=height,
        title=f"{'Line' if len(names) == 1 else 'Lines'} {' and '.join(names)} as proposed",
        description=f"{view.title} at 1 : {scale}. Along the flow: {', '.join(named)}.",
        views=(view,),
    )


__all__ = ["NARROW", "WIDE", "proposal_sheets"]
