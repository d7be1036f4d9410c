"""Where rests stand so that every level stretch keeps to the support span.     (choose/rests.py)

A run is what lies level between risers. From each place that carries to the next, steps are equal and within the
span; past the last rest before a riser or a free end, half a span may overhang. A step that lands on a bend, a joint or
another hold is cut short to stand clear of it, and the steps after it are reckoned anew, so that none grows too long.
Limits: a riser's own weight lies on its holds, which the user places; a bend or joint longer than a span has no answer.
"""

from __future__ import annotations

import math
from itertools import pairwise

from takeup.line import ANCHORED_ENDS, Line, Route, is_anchor

APART = 0.3  # two holds closer than this cannot both be built (common practice, no source)
CARRIERS = ("main anchor", "intermediate anchor", "slide guide", "rest", "hanger", "spring hanger")
_SET_OUT = 0.01  # places are set out to the centimetre [m]
_LEVEL = 0.1  # a leg rising less than one in ten is spanned like a level one (common practice, no source)
_SAME = 1e-6  # stations closer than a micrometre are one [m]
_MOST = 100_000  # rests in one stretch: the longest line that is read has no more

Stretch = tuple[float, float]


def rest_stations(line: Line, route: Route, spans: list[tuple[float, float, float]], taken: list[float]) -> list[float]:
    """Return where rests bring every level run within the support span.

    Args:
        line: the line with the holds it has so far.
        route: its centre line.
        spans: for each section, its stations and its support span [m].
        taken: where branches leave, and no rest can stand [m].

    Returns:
        Stations along the flow [m].
    """
    carriers = sorted(_carriers(line, route))
    blocked = blocked_stretches(line, route, taken)
    stations: list[float] = []
    for low, high in level_runs(route):
        places = [station for station in carriers if low - _SAME <= station <= high + _SAME]
        bounds = [(station, True) for station in places]
        if not places or places[0] > low + _SAME:
            bounds.insert(0, (low, False))
        if not places or places[-1] < high - _SAME:
            bounds.append((high, False))
        for before, after in pairwise(bounds):
            stations += _fill(before, after, _longest(spans, before[0], after[0]), blocked)
    return stations


def _longest(spans: list[tuple[float, float, float]], low: float, high: float) -> float:
    """Return the support span of a stretch: the least of the sections that it touches [m]."""
    return min(longest for start, end, longest in spans if start < high and end > low)


def level_runs(route: Route) -> list[Stretch]:
    """Return the stretches between risers, legs that follow one another level joined."""
    runs: list[Stretch] = []
    for number, direction in enumerate(route.directions):
        low, high = float(route.corners[number]), float(route.corners[number + 1])
        if abs(direction[2]) >= _LEVEL:
            continue
        if runs and abs(runs[-1][1] - low) < _SAME:
            low = runs.pop()[0]
        runs.append((low, high))
    return runs


def _carriers(line: Line, route: Route) -> list[float]:
    ends = [
        station
        for end, station in ((line.start, 0.0), (line.end, route.length))
        if end.kind in (*ANCHORED_ENDS, "branch")
    ]
    return ends + [hold.position.station for hold in line.holds if hold.kind in CARRIERS]


def blocked_stretches(line: Line, route: Route, taken: list[float]) -> list[Stretch]:
    """Return where no rest can stand: on fittings, joints and branches, beside light holds, where it is kept clear."""
    joints = [(item.position.station, item.data.length / 2.0) for item in line.takeups]
    stretches = [(turn.begin, turn.finish) for turn in route.turns]
    stretches += [(middle - half, middle + half) for middle, half in joints]
    stretches += [
        (hold.position.station, hold.position.station)
        for hold in line.holds
        if not is_anchor(hold) and hold.kind not in CARRIERS
    ]
    stretches += [(item.start, item.end) for item in line.items] + [(station, station) for station in taken]
    apart = [(low - APART, high + APART) for low, high in stretches]
    return sorted([*apart, *line.allowed.keep_clear])


def _fill(before: tuple[float, bool], after: tuple[float, bool], longest: float, blocked: list[Stretch]) -> list[float]:
    """Return the rests between two places; each says whether it carries."""
    (here, held), (end, end_held) = before, after
    if not held and not end_held and end - here <= longest / 2.0:
        return []  # a short level piece between two risers hangs with them
    found: list[float] = []
    for _ in range(_MOST):
        spans = (held + end_held) / 2.0  # a place that does not carry takes half a span of overhang
        count = math.ceil((end - here) / longest - spans - 1e-9)
        if count <= 0:
            break
        step = (end - here) / (count + spans) * (1.0 if held else 0.5)
        place = _clear(_down(here + step), here, blocked)
        if place >= end - APART + _SAME:
            break
        found.append(place)
        here, held = place, True
    return found


def _down(place: float) -> float:
    """Return a place rounded down to what can be set out: a step that grows by it is made good by the next."""
    return math.floor(place / _SET_OUT + 1e-9) * _SET_OUT


def _clear(place: float, here: float, blocked: list[Stretch]) -> float:
    """Return a place moved back until nothing is in its way; onward where moving back leaves no step."""
    for low, high in reversed(blocked):
        if low < place < high:
            place = low
    if place > here + _SAME:
        return place
    place = here + APART
    for low, high in blocked:
        if low < place < high:
            place = high
    return place
