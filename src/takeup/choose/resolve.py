"""From rules to places: guides by the spacing rule, rests by the support spans.     (choose/resolve.py)

Guides by the spacing rule stand beside unrestrained joints only: on each side that is not next to an anchor, the
first within 4 D of the joint, the second within 14 D of the first, then at equal steps of at most L_max, as far as
the next anchor or bend. L_max takes the worst state: F = P A_e + k x with x the free growth, E at that state's
temperature. A guide that carries weight keeps to the support span as well. Rests by the support spans fill every
level stretch that is still longer than the table allows. Places are rounded down to 0.05 m, so that they can be set
out. Limits: stability is not proved by a spacing rule; the checks judge what was placed with the model's own forces.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from typing import Literal

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit, support_span
from takeup.joints import KINDS
from takeup.line import (
    Hold,
    Line,
    Route,
    State,
    Study,
    TakeUp,
    Zone,
    anchor_stations,
    route_of,
    second_moment,
    states_of,
    zones_of,
)
from takeup.line.records import HoldRule, Position

_STEP = 0.05
_APART = 0.3  # two holds closer than this cannot both be built (common practice, no source)
_LEVEL = 0.1  # a leg rising less than one in ten is spanned like a level one (common practice, no source)
CARRIERS = ("main anchor", "intermediate anchor", "slide guide", "rest")


def resolve(study: Study) -> Study:
    """Return the study with every rule of its line turned into holds.

    Args:
        study: as read.

    Raises:
        OutOfRange: the support span table does not cover the pipe or temperature.
    """
    line = study.line
    for rule in line.rules:
        placed = _by_spacing_rule(study, line, rule) if rule.by == "spacing rule" else _by_spans(study, line, rule)
        holds = tuple(sorted((*line.holds, *placed), key=lambda hold: hold.position.station))
        line = replace(line, holds=holds, remarks=(*line.remarks, _remark(rule, placed)))
    return replace(study, line=replace(line, rules=()))


def _remark(rule: HoldRule, placed: list[Hold]) -> str:
    """Return what a rule did, and why it did nothing."""
    if placed:
        return f"{rule.kind}s by {rule.by}: {len(placed)} placed"
    if rule.by == "spacing rule":
        return f"{rule.kind}s by spacing rule: none placed, no unrestrained joint asks for one"
    return f"{rule.kind}s by support spans: none placed, no level stretch is longer than the table allows"


def _by_spacing_rule(study: Study, line: Line, rule: HoldRule) -> list[Hold]:
    """Return the guides beside every unrestrained joint."""
    route, zones = route_of(line), zones_of(line)
    stations: list[float] = []
    for takeup in line.takeups:
        if KINDS[takeup.kind].restrained:
            continue
        number = next(k for k, zone in enumerate(zones) if zone.start < takeup.position.station < zone.end)
        spacing = guide_spacing(study, zones[number], number, takeup)
        if rule.kind == "slide guide":
            spacing = min(spacing, weight_span(study, line))
        for sense in (-1.0, 1.0):
            stations += _beside(line, route, zones[number], takeup, (sense, spacing))
    return _as_holds(line, rule, stations)


def _beside(line: Line, route: Route, zone: Zone, takeup: TakeUp, way: tuple[float, float]) -> list[float]:
    """Return the guides on one side of a joint, out to the next anchor or bend."""
    sense, spacing = way
    diameter = line.pipe.size.outside_diameter
    face = takeup.position.station + sense * takeup.data.length / 2.0
    reach = _reach(route, zone, takeup.position.station, sense) - takeup.data.length / 2.0
    if reach <= first_guide_limit(diameter):
        return []  # next to an anchor, which guides it
    distances = [_down(first_guide_limit(diameter))]
    if reach - distances[0] > _APART:
        distances.append(_down(distances[0] + min(second_guide_limit(diameter), spacing)))
    left = reach - distances[-1]
    count = math.ceil(left / spacing - 1e-9) - 1
    distances += [_down(distances[-1] + left * number / (count + 1)) for number in range(1, count + 1)]
    return [face + sense * distance for distance in distances if distance < reach - _APART]


def _reach(route: Route, zone: Zone, station: float, sense: float) -> float:
    """Return how far the straight run goes from a joint to the next anchor, end or tangent point [m]."""
    if sense < 0:
        stops = [zone.start, *(turn.finish for turn in route.turns if turn.station < station)]
        return station - max(stops)
    stops = [zone.end, *(turn.begin for turn in route.turns if turn.station > station)]
    return min(stops) - station


def guide_spacing(study: Study, zone: Zone, number: int, takeup: TakeUp) -> float:
    """Return L_max beside a joint in its worst state [m]; infinite where no state compresses the line."""
    pipe, expansion = study.line.pipe, study.line.pipe.material.expansion
    installed = expansion.at(study.site.installation)
    length = zone.end - zone.start
    elevation = float(route_of(study.line).point(takeup.position.station)[2])

    def limit(state: State) -> float:
        here = state.zones[number]
        growth = (expansion.at(here.temperature) - installed) * length - takeup.preset
        force = here.pressure_at(elevation) * takeup.data.effective_area + takeup.data.axial_rate * growth
        if force <= 0.0:
            return math.inf
        return intermediate_guide_spacing(pipe.material.modulus.at(here.temperature), second_moment(pipe), force)

    return min(limit(state) for state in states_of(study))


def weight_span(study: Study, line: Line) -> float:
    """Return the greatest distance between holds that carry weight [m].

    Raises:
        OutOfRange: the table does not cover the pipe or temperature.
    """
    content: Literal["water", "gas"] = "water" if line.medium == "water" else "gas"
    return support_span(line.pipe.size.nps_inch, content, temperature=study.design.temperature).length


def _by_spans(study: Study, line: Line, rule: HoldRule) -> list[Hold]:
    """Return the rests or slide guides that bring every level stretch within the support span."""
    route, longest = route_of(line), weight_span(study, line)
    fixed = [station for _, station in anchor_stations(line)]
    carriers = sorted({*fixed, *(hold.position.station for hold in line.holds if hold.kind in CARRIERS)})
    stations: list[float] = []
    for before, after in pairwise(carriers):
        stretch = [(low, high) for low, high in _level_stretches(route, before, after) if high - low > 0]
        run = sum(high - low for low, high in stretch)
        count = math.ceil(run / longest - 1e-9) - 1
        stations += [_along(stretch, run * number / (count + 1)) for number in range(1, count + 1)]
    clear = [_clear_of(line, route, station) for station in stations]
    return _as_holds(line, rule, [station for station in clear if station is not None])


def _level_stretches(route: Route, low: float, high: float) -> list[tuple[float, float]]:
    """Return the level parts between two stations."""
    parts = []
    for number, direction in enumerate(route.directions):
        start, end = max(low, float(route.corners[number])), min(high, float(route.corners[number + 1]))
        if abs(direction[2]) < _LEVEL and end > start:
            parts.append((start, end))
    return parts


def _along(stretches: list[tuple[float, float]], distance: float) -> float:
    """Return the station at a distance along stretches that need not touch."""
    for low, high in stretches:
        if distance <= high - low:
            return low + distance
        distance -= high - low
    return stretches[-1][1]


def _clear_of(line: Line, route: Route, station: float) -> float | None:
    """Return a station moved off bends and joints, to their nearer side; None where no room is left."""
    blocked = [(turn.begin, turn.finish) for turn in route.turns]
    for takeup in line.takeups:
        half = takeup.data.length / 2.0
        blocked.append((takeup.position.station - half, takeup.position.station + half))
    for low, high in blocked:
        if low - _APART < station < high + _APART:
            station = low - _APART if station - low < high - station else high + _APART
    return station if _APART < station < route.length - _APART else None


def _as_holds(line: Line, rule: HoldRule, stations: list[float]) -> list[Hold]:
    """Return holds at stations, those too near another hold left out."""
    taken = [hold.position.station for hold in line.holds] + [station for _, station in anchor_stations(line)]
    holds: list[Hold] = []
    for station in sorted(stations):
        if all(abs(station - other) >= _APART for other in taken):
            taken.append(station)
            words = f"{station:.2f} m"
            holds.append(
                Hold(
                    name=f"{rule.kind} at {words}",
                    kind=rule.kind,
                    position=Position(words=words, station=station),
                    friction=rule.friction,
                    placed_by=rule.by,
                )
            )
    return holds


def _down(distance: float) -> float:
    """Return a distance rounded down to the step in which places are set out."""
    return math.floor(distance / _STEP + 1e-9) * _STEP
