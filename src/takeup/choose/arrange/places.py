"""Places of a line that are anchors or could become one.     (choose/arrange/places.py)"""

from __future__ import annotations

import math

from takeup.choose.arrange.records import Place
from takeup.choose.rules import branches_of
from takeup.line import ANCHORED_ENDS, SAME_STATION, End, Hold, Line, Study, is_anchor, route_of
from takeup.line.allowed import MayHold
from takeup.line.parts import Position, station_words

APART = 1.0
"""A new anchor stands at least this far from another place where the line is held [m] (common practice, no source)."""


def places_of(study: Study, line: Line) -> tuple[Place, ...]:
    """Return the ends, the anchors and the places that may hold, in order along the flow.

    A place that may hold is left out where it is to be kept clear, on a joint, or right beside an anchor there is.

    Args:
        study: the file: names are taken only once in it.
        line: with what the building allows.
    """
    length = route_of(line).length
    fixed = [_of_end(line, line.start, 0.0)]
    fixed += [
        Place(
            name=hold.name,
            line=line.name,
            station=hold.position.station,
            fixed=True,
            held=True,
            joined=_leaves(study, line, hold.position.station),
            can_carry=math.inf if hold.can_carry is None else hold.can_carry,
            can_carry_moment=hold.can_carry_moment,
        )
        for hold in line.holds
        if is_anchor(hold)
    ]
    fixed.append(_of_end(line, line.end, length))
    may = []
    for one in line.allowed.may_hold:
        near = min(abs(one.station - place.station) for place in fixed)
        if near < APART or not line.allowed.is_clear(one.station) or _on_joint(line, one.station):
            continue
        may.append(
            Place(
                name=_name(study, line, one),
                line=line.name,
                station=one.station,
                fixed=False,
                held=True,
                joined=_leaves(study, line, one.station),
                can_carry=math.inf if one.can_carry is None else one.can_carry,
                can_carry_moment=one.can_carry_moment,
            )
        )
    return tuple(sorted((*fixed, *may), key=lambda place: place.station))


def _name(study: Study, line: Line, one: MayHold) -> str:
    """Return the name of a new anchor: its place, with its line where other lines may have such a place too."""
    words = one.words if _is_plain(one.words) else station_words(one.station)
    others = sum(bool(other.allowed.may_hold) for other in study.lines) > 1
    name = (
        f"anchor at {words} of {line.name}" if others and words == station_words(one.station) else f"anchor at {words}"
    )
    taken = {hold.name for other in study.lines for hold in other.holds}
    return f"{name} (proposed)" if name in taken else name


def anchor_of(place: Place) -> Hold:
    """Return the anchor that a place becomes."""
    return Hold(
        name=place.name,
        kind="main anchor",
        position=Position(words=station_words(place.station), station=place.station),
        can_carry=None if math.isinf(place.can_carry) else place.can_carry,
        can_carry_moment=place.can_carry_moment,
    )


def _of_end(line: Line, end: End, station: float) -> Place:
    held = end.kind in ANCHORED_ENDS
    return Place(
        name=end.name,
        line=line.name,
        station=station,
        fixed=True,
        held=held,
        joined=end.kind == "branch",
        can_carry=math.inf if end.can_carry is None or not held else end.can_carry,
        can_carry_moment=end.can_carry_moment,
    )


def _leaves(study: Study, line: Line, station: float) -> bool:
    """Whether another line leaves a line at a station."""
    return any(abs(tee - station) <= SAME_STATION for tee in branches_of(study, line))


def _is_plain(words: str) -> bool:
    """Whether a name may hold these words: not where they are a place and a distance from it."""
    return " + " not in words and " - " not in words


def _on_joint(line: Line, station: float) -> bool:
    return any(abs(item.position.station - station) < item.data.length / 2.0 for item in line.takeups)


__all__ = ["APART", "anchor_of", "places_of"]
