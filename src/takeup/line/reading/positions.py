"""Positions in the user's words: "roof corner - 3 m", "34.5 m", or a name.     (line/reading/positions.py)

A position is a station, measured along the legs between intersections of centre lines, or a named place with or
without a distance along the flow (+) or against it (-). Positions by name survive an edited leg.
"""

from __future__ import annotations

from collections.abc import Mapping

from takeup.reading.fields import nearest
from takeup.units import UnitError, parse

SAME_PLACE = 1e-6
"""Stations closer than this are one place [m]: far below any tolerance of erection, far above rounding."""


def locate(words: str, places: Mapping[str, float], length: float) -> float:
    """Return the station [m] of a position.

    Args:
        words: a name, a name plus or minus a length, or a length.
        places: the stations of the named places [m].
        length: the station of the far end [m].

    Raises:
        ValueError: the words are no position, name no known place, or lie outside the line.
    """
    station = _station(words, places)
    if not -SAME_PLACE <= station <= length + SAME_PLACE:
        side = "before the start" if station < 0.0 else "past the end"
        raise ValueError(f"'{words}' is at {station:.6g} m, {side} of the line, which runs from 0 m to {length:.6g} m")
    return min(max(station, 0.0), length)


def check_name(name: str) -> None:
    """Refuse a name that could be read as a position.

    Raises:
        ValueError: the name reads as a length, or holds a sign that would be read as a distance.
    """
    if _is_length(name) or " + " in name or " - " in name:
        raise ValueError(f"'{name}' cannot be a name, because it reads as a position")


def _station(words: str, places: Mapping[str, float]) -> float:
    if words in places:
        return places[words]
    for sign, factor in ((" + ", 1.0), (" - ", -1.0)):
        name, found, distance = words.partition(sign)
        if found:
            return _known(name.strip(), places) + factor * _distance(distance)
    if words[:1].isdigit() or words[:1] in "+-":
        return parse(words, "length")
    return _known(words, places)


def _known(name: str, places: Mapping[str, float]) -> float:
    if name in places:
        return places[name]
    known = tuple(places)
    raise ValueError(f"'{name}' is no named place; the places are {', '.join(known)}{nearest(name, known)}")


def _distance(words: str) -> float:
    distance = parse(words, "length")
    if distance < 0.0:
        raise ValueError(f"'{words.strip()}' after a sign must not be below zero")
    return distance


def _is_length(words: str) -> bool:
    try:
        parse(words, "length")
    except UnitError:
        return False
    return True
