"""Places of a line that are anchors or could become one.     (choose/arrange/places.py)"""

from __future__ import annotations

import math

from takeup.choose.arrange.records import Place
from takeup.line import ANCHORED_ENDS, End, Line, is_anchor, route_of
from takeup.line.parts import station_words

APART = 1.0
"""A new anchor stands at least this far from another place where the line is held [m] (common practice, no source)."""


def places_of(line: Line) -> tuple[Place, ...]:
    """Return the ends, the anchors and the places that may hold, in order along the flow.

    A place that may hold is left out where it is to be kept clear, on a joint, or right beside an anchor there is.

    Args:
        line: with what the building allows.
    """
    length = route_of(line).length
    fixed = [_of_end(line.start, 0.0)]
    fixed += [
        Place(
            name=hold.name,
            station=hold.position.station,
            fixed=True,
            held=True,
            can_carry=math.inf if hold.can_carry is None else hold.can_carry,
            can_carry_moment=hold.can_carry_moment,
        )
        for hold in line.holds
        if is_anchor(hold)
    ]
    fixed.append(_of_end(line.end, length))
    names = {hold.name for hold in line.holds}
    may = []
    for one in line.allowed.may_hold:
        near = min(abs(one.station - place.station) for place in fixed)
        if near < APART or not line.allowed.is_clear(one.station) or _on_joint(line, one.station):
            continue
        name = f"anchor at {one.words if _is_plain(one.words) else station_words(one.station)}"
        may.append(
            Place(
                name=f"{name} (proposed)" if name in names else name,
                station=one.station,
                fixed=False,
                held=True,
                can_carry=math.inf if one.can_carry is None else one.can_carry,
                can_carry_moment=one.can_carry_moment,
            )
        )
    return tuple(sorted((*fixed, *may), key=lambda place: place.station))


def _of_end(end: End, station: float) -> Place:
    held = end.kind in ANCHORED_ENDS
    return Place(
        name=end.name,
        station=station,
        fixed=True,
        held=held,
        can_carry=math.inf if end.can_carry is None or not held else end.can_carry,
        can_carry_moment=end.can_carry_moment,
    )


def _is_plain(words: str) -> bool:
    """Whether a name may hold these words: not where they are a place and a distance from it."""
    return " + " not in words and " - " not in words


def _on_joint(line: Line, station: float) -> bool:
    return any(abs(item.position.station - station) < item.data.length / 2.0 for item in line.takeups)


__all__ = ["APART", "places_of"]
