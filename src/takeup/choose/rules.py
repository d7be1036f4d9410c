"""From rules to places: guides by the spacing rule, rests by the support spans.     (choose/rules.py)

Guides by the spacing rule stand beside unrestrained joints only: on each side that is not next to an anchor, the
first within 4 D of the joint, the second within 14 D of the first, then at equal steps of at most L_max, as far as
the next anchor, bend or joint. L_max takes the worst state: F = P A_e + k x with x the free growth, E at that state's
temperature. A guide that carries weight keeps to the support span as well. Guides' places are rounded down to 0.05 m,
so that they can be set out. Rests by the support spans (rests.py) come after the guides, which may carry.
Limits: stability is not proved by a spacing rule; the checks judge what was placed with the model's own forces.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit
from takeup.choose.laid import TEE, Laid
from takeup.choose.rests import APART, rest_stations
from takeup.joints import KINDS, whole_axial_rate
from takeup.line import (
    Hold,
    Line,
    Route,
    State,
    Stretch,
    Study,
    TakeUp,
    anchor_stations,
    second_moment,
    stretches_of,
)
from takeup.line.holding import HoldRule
from takeup.line.parts import Position, station_words

_STEP = 0.05


def resolve_rules(study: Study) -> Study:
    """Return the study with every rule of its lines turned into holds.

    Args:
        study: as read.

    Raises:
        OutOfRange: the support span table does not cover the pipe or temperature.
    """
    return replace(study, lines=tuple(_resolved(study, line) for line in study.lines))


def _resolved(study: Study, line: Line) -> Line:
    """Return a line with its rules turned into holds."""
    for rule in sorted(line.rules, key=lambda item: item.by != "spacing rule"):
        if rule.by == "spacing rule":
            placed = _by_spacing_rule(study, line, rule)
        else:
            placed = _by_support_spans(study, line, rule)
        holds = tuple(sorted((*line.holds, *placed), key=lambda hold: hold.position.station))
        line = replace(line, holds=holds, remarks=(*line.remarks, _remark(rule, placed)))
    return replace(line, rules=())


def _by_support_spans(study: Study, line: Line, rule: HoldRule) -> list[Hold]:
    taken = branches_of(study, line)
    laid = Laid(study=study, line=line)
    return _as_holds(study, line, rule, rest_stations(line, laid.route, laid.spans, taken))


def branches_of(study: Study, line: Line) -> list[float]:
    """Return the stations at which other lines leave this one [m]."""
    return [other.branch.position.station for other in study.lines if other.branch and other.branch.of == line.name]


def _remark(rule: HoldRule, placed: list[Hold]) -> str:
    """Return what a rule did, and why it did nothing."""
    if placed:
        return f"{rule.kind}s by {rule.by}: {len(placed)} placed"
    if rule.by == "spacing rule":
        return f"{rule.kind}s by spacing rule: none placed, no unrestrained joint asks for one"
    return f"{rule.kind}s by support spans: none placed, no level stretch is longer than the table allows"


def _by_spacing_rule(study: Study, line: Line, rule: HoldRule) -> list[Hold]:
    """Return the guides beside every unrestrained joint."""
    laid, spans = Laid(study=study, line=line), stretches_of(line)
    stations: list[float] = []
    for takeup in line.takeups:
        if not KINDS[takeup.kind].restrained:
            span = next(item for item in spans if item.start < takeup.position.station < item.end)
            stations += _guides(laid, rule, (span, takeup))
    return _as_holds(study, line, rule, stations)


def guides_beside(laid: Laid, takeup: TakeUp, stations: tuple[float, float]) -> list[float]:
    """Return where the spacing rule of a line would place guides beside a joint, if anchors stood at two places [m].

    Nothing where the line has no such rule, or the joint is held together.

    Args:
        laid: the line.
        takeup: the joint, which need not be in it.
        stations: of both anchors [m].
    """
    line = laid.line
    rule = next((rule for rule in line.rules if rule.by == "spacing rule"), None)
    if rule is None or KINDS[takeup.kind].restrained:
        return []
    span = Stretch(name=takeup.name, start=stations[0], end=stations[1])
    wanted = _guides(laid, rule, (span, takeup))
    return _apart(wanted, [*stations, *(hold.position.station for hold in line.holds)])


def _guides(laid: Laid, rule: HoldRule, where: tuple[Stretch, TakeUp]) -> list[float]:
    span, takeup = where
    spacing = guide_spacing(laid, span, takeup)
    if rule.kind == "slide guide":
        spacing = min(spacing, *(longest for _, _, longest in laid.spans))
    sides = [_beside(laid.line, laid.route, span, takeup, (sense, spacing)) for sense in (-1.0, 1.0)]
    tees = [(station - TEE, station + TEE) for station in branches_of(laid.study, laid.line)]
    clear = sorted([*laid.line.allowed.keep_clear, *tees])
    return [_out_of(clear, station, takeup.position.station) for side in sides for station in side]


def _out_of(clear: Sequence[tuple[float, float]], station: float, joint: float) -> float:
    """Return a place moved towards its joint until it is off branches and what is kept clear: nearer is safer."""
    for low, high in reversed(clear) if station > joint else clear:
        if low < station < high:
            station = low if station > joint else high
    return station


def _beside(line: Line, route: Route, span: Stretch, takeup: TakeUp, way: tuple[float, float]) -> list[float]:
    """Return the guides on one side of a joint, out to the next anchor or bend."""
    sense, spacing = way
    diameter = line.section_at(takeup.position.station).pipe.size.outside_diameter
    face = takeup.position.station + sense * takeup.data.length / 2.0
    reach = _reach(line, route, span, (takeup, sense)) - takeup.data.length / 2.0
    if reach <= first_guide_limit(diameter):
        return []  # next to an anchor, which guides it
    first = _down(min(first_guide_limit(diameter), max(reach - APART, 0.0)))
    second = first + min(second_guide_limit(diameter), spacing)
    if reach - first <= second - first:
        return [face + sense * first]  # the anchor or bend is the second guide
    if second > reach - APART:
        second = (first + reach) / 2.0
    second = _down(second)
    left = reach - second
    count = math.ceil(left / (spacing - _STEP) - 1e-9) - 1  # rounding down may lengthen a distance by a step
    more = [_down(second + left * number / (count + 1)) for number in range(1, count + 1)]
    return [face + sense * distance for distance in (first, second, *more)]


def _reach(line: Line, route: Route, span: Stretch, way: tuple[TakeUp, float]) -> float:
    """Return how far the straight run goes from a joint to the next anchor, end, tangent point or joint [m]."""
    takeup, sense = way
    station = takeup.position.station
    others = [item for item in line.takeups if sense * (item.position.station - station) > 0.0]
    stops = [item.position.station - sense * item.data.length / 2.0 for item in others]
    stops += [span.start if sense < 0 else span.end]
    stops += [turn.finish if sense < 0 else turn.begin for turn in route.turns if sense * (turn.station - station) > 0]
    return min(sense * (stop - station) for stop in stops)


def guide_spacing(laid: Laid, span: Stretch, takeup: TakeUp) -> float:
    """Return L_max beside a joint in its worst state, by the weakest pipe of its span [m].

    Infinite where no state compresses the line.
    """
    line, station = laid.line, takeup.position.station
    pipes = [section.pipe for section in line.sections if section.start < span.end and section.end > span.start]
    expansion = line.section_at(station).pipe.material.expansion
    installed = expansion.at(laid.study.site.installation)
    length = span.end - span.start
    elevation = float(laid.route.point(station)[2])

    def limit(state: State) -> float:
        here = state.at(line.name, station)
        growth = (expansion.at(here.temperature) - installed) * length - takeup.preset
        force = here.pressure_at(elevation) * takeup.data.effective_area + whole_axial_rate(takeup.data) * growth
        if force <= 0.0:
            return math.inf
        return min(
            intermediate_guide_spacing(pipe.material.modulus.at(here.temperature), second_moment(pipe), force)
            for pipe in pipes
        )

    return min(limit(state) for state in laid.states)


def _as_holds(study: Study, line: Line, rule: HoldRule, stations: list[float]) -> list[Hold]:
    """Return holds at stations, those too near another hold left out."""
    taken = [hold.position.station for hold in line.holds] + [station for _, station in anchor_stations(line)]
    where = f" of {line.name}" if len(study.lines) > 1 else ""
    return [
        Hold(
            name=f"{rule.kind} at {station_words(station)}{where}",
            kind=rule.kind,
            position=Position(words=station_words(station), station=station),
            friction=rule.friction,
            placed_by=rule.by,
            clearance=rule.clearance,
            can_carry=rule.can_carry,
        )
        for station in _apart(stations, taken)
    ]


def _apart(stations: Sequence[float], taken: Sequence[float]) -> list[float]:
    """Return places in order, without those too near to one that is taken or that came before."""
    kept: list[float] = []
    for station in sorted(stations):
        if all(abs(station - other) > APART - 1e-9 for other in (*taken, *kept)):
            kept.append(station)
    return kept


def _down(distance: float) -> float:
    """Return a distance rounded down to the step in which places are set out."""
    return math.floor(distance / _STEP + 1e-9) * _STEP
