"""Each span between anchors by hand: its growth, and the force that it leaves along the line.     (hand/spans.py)

Straight from the `Line`: this room knows neither the model nor its solver, so that an error there cannot hide here.
Sign: forces are those on the structure along the flow, so a span that pushes has minus on its first anchor, plus on
its last.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from takeup.hand import formulas
from takeup.hand.records import HandResult, no_formula
from takeup.line import (
    State,
    Study,
    TakeUp,
    Turn,
    Zone,
    bore_area,
    content_weight,
    insulation_weight,
    pipe_weight,
    route_of,
    zones_of,
)

_ONWARD = 0.999  # cosine of less than three degrees: the line goes on in the direction it came from
_LEGS_OF_A_Z = 3
_SLOPE = 1e-6  # a run that rises less than a millimetre in a kilometre is level
_SQUARE = math.radians(90.0)
_SQUARE_ENOUGH = math.radians(1.0)  # a corner within a degree of square is calculated as square


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """One stretch between neighbouring anchors or ends, in one state.

    Args:
        zone: name and stations.
        number: of the zone.
        joints: in it.
        turns: in it.
        strain: free thermal strain from installation [m/m].
        open_end: whether one of its ends is free or blind.
    """

    zone: Zone
    number: int
    joints: tuple[TakeUp, ...]
    turns: tuple[Turn, ...]
    strain: float
    open_end: bool


def span_of(study: Study, number: int, state: State) -> Span:
    """Return one span in one state."""
    line = study.line
    zone, route = zones_of(line)[number], route_of(line)
    expansion = line.pipe.material.expansion
    first, last = number == 0, zone.end >= route.length
    return Span(
        zone=zone,
        number=number,
        joints=tuple(item for item in line.takeups if zone.start < item.position.station < zone.end),
        turns=tuple(turn for turn in route.turns if zone.start < turn.station < zone.end),
        strain=expansion.at(state.zones[number].temperature) - expansion.at(study.site.installation),
        open_end=(first and line.start.kind != "main anchor") or (last and line.end.kind != "main anchor"),
    )


def growing_length(span: Span) -> float:
    """Return the length of a span that grows: along the bends, less the live lengths of its bellows [m]."""
    bends = sum(turn.arc_length - 2.0 * turn.tangent_length for turn in span.turns)
    return span.zone.end - span.zone.start + bends - sum(item.data.live_length for item in span.joints)


def growth_by_hand(study: Study, number: int, state: State) -> HandResult:
    """Return the free growth of a span, which its take-up must take.

    Args:
        study: the file.
        number: of the span.
        state: the state.
    """
    span = span_of(study, number, state)
    length = growing_length(span)
    value = formulas.free_growth(span.strain, length)
    return HandResult(
        what=f"free growth of {span.zone.name}, {state.name}",
        formula="dL = eps(T) L",
        numbers=f"{span.strain * 1e3:.4f} mm/m x {length:.3f} m",
        source=f"first principles; eps from {study.basis.expansion_table}",
        value=value,
        unit="m",
    )


def span_force(study: Study, number: int, state: State, *, at_start: bool) -> HandResult:
    """Return the force with which a span pushes one of its ends outward along the line, tension negative [N].

    Args:
        study: the file.
        number: of the span.
        state: the state.
        at_start: whether the end is the span's first; round a corner the two ends are pushed along their own legs.
    """
    span = span_of(study, number, state)
    what = f"{span.zone.name}, {state.name}: force along the line"
    if span.open_end and not span.joints:
        return HandResult(
            what=what,
            formula="F = 0",
            numbers="a closed free end passes nothing on",
            source=formulas.TEXTBOOK,
            value=0.0,
            unit="N",
        )
    if span.open_end:
        return no_formula(what, "N", "a joint with an open end beyond it is not held: it would run out")
    if len(span.joints) > 1:
        return no_formula(what, "N", "two joints in one span share the movement in no fixed way")
    if span.joints:
        return _with_joint(study, span, state, what)
    return _without_joint(study, span, (state, at_start), what)


def _with_joint(study: Study, span: Span, state: State, what: str) -> HandResult:
    """Return thrust plus spring of a straight span with one joint."""
    if span.turns:
        return no_formula(what, "N", "the span turns: its legs bend as well as push, which no short formula gives")
    joint = span.joints[0]
    route = route_of(study.line)
    pressure = state.zones[span.number].pressure_at(float(route.point(joint.position.station)[2]))
    growth = formulas.free_growth(span.strain, growing_length(span))
    area, rate = joint.data.effective_area, joint.data.axial_rate
    movement = growth - joint.preset
    value = formulas.main_anchor_force(
        thrust=formulas.pressure_thrust(pressure, area), spring=formulas.spring_force(rate, movement), friction=0.0
    )
    return HandResult(
        what=what,
        formula="F = P A_e + k x",
        numbers=f"{pressure / 1e5:.4g} bar x {area * 1e6:.0f} mm² + {rate / 1e3:.4g} N/mm x {movement * 1e3:.2f} mm",
        source=formulas.ANCHOR_SOURCE,
        value=value,
        unit="N",
        because="leaves out the pipe's own give and its stretch under pressure",
    )


def weight_along(study: Study, number: int, state: State, *, at_start: bool) -> tuple[float, str]:
    """Return the weight of a straight span that one of its anchors feels along the flow [N], and its numbers.

    The pipe between an anchor and the joint hangs on, or stands on, that anchor; without a joint both ends share it,
    or the only one has it all.

    Args:
        study: the file.
        number: of the span.
        state: the state.
        at_start: whether the anchor is the span's first.
    """
    span, route, line = span_of(study, number, state), route_of(study.line), study.line
    slope = float(route.direction((span.zone.start + span.zone.end) / 2.0)[2])
    if span.turns or abs(slope) < _SLOPE or len(span.joints) > 1:
        return 0.0, ""
    weight = pipe_weight(line.pipe) + insulation_weight(line.pipe, line.insulation)
    weight += content_weight(bore_area(line.pipe), state.zones[number].density)
    length = (span.zone.end - span.zone.start) / (1.0 if span.open_end else 2.0)
    if span.joints:
        joint = span.joints[0].position.station
        length = joint - span.zone.start if at_start else span.zone.end - joint
    value = -formulas.weight_along(weight, slope, length)
    return value, f"{'+' if value > 0 else '-'} {weight:.1f} N/m x {abs(slope):.3f} x {length:.2f} m"


def _without_joint(study: Study, span: Span, seen: tuple[State, bool], what: str) -> HandResult:
    """Return the force of a span that only its own pipe can take up: in a state, seen from its first end or not."""
    state, at_start = seen
    if not span.turns:
        return _held_straight(study, span, state, what)
    turned = [turn for turn in span.turns if abs(turn.angle - _SQUARE) < _SQUARE_ENOUGH]
    if len(turned) == len(span.turns) == 1:
        corner = span.turns[0].station
        first, last = corner - span.zone.start, span.zone.end - corner
        own, other = (first, last) if at_start else (last, first)
        return _cantilever(study, what, own * span.strain, other)
    if len(turned) == len(span.turns) == _LEGS_OF_A_Z - 1 and float(turned[0].entry @ turned[1].exit) > _ONWARD:
        offset = turned[1].station - turned[0].station
        along = span.zone.end - span.zone.start - offset
        return _cantilever(study, what, along * span.strain, offset)
    return no_formula(what, "N", "several legs share the growth: only the model gives their shares")


def _held_straight(study: Study, span: Span, state: State, what: str) -> HandResult:
    pipe = study.line.pipe
    modulus = pipe.material.modulus.at(study.site.installation)
    wall = formulas.pipe_wall_area(pipe.size.outside_diameter, pipe.wall)
    bore = math.pi / 4.0 * (pipe.size.outside_diameter - 2.0 * pipe.wall) ** 2
    middle = float(route_of(study.line).point((span.zone.start + span.zone.end) / 2.0)[2])
    pressure = state.zones[span.number].pressure_at(middle)
    by_pressure = (1.0 - 2.0 * pipe.material.poisson) * pressure * bore
    return HandResult(
        what=what,
        formula="F = E A eps + (1 - 2 nu) P A_bore",
        numbers=(
            f"{modulus / 1e9:.4g} GPa x {wall * 1e6:.0f} mm² x {span.strain * 1e3:.4f} mm/m "
            f"+ {by_pressure / 1e3:.3f} kN"
        ),
        source="textbook; the pipe would yield or buckle long before",
        value=formulas.restrained_force(modulus, wall, span.strain) + by_pressure,
        unit="N",
    )


def _cantilever(study: Study, what: str, movement: float, length: float) -> HandResult:
    pipe = study.line.pipe
    modulus = pipe.material.modulus.at(study.site.installation)
    inertia = formulas.pipe_second_moment(pipe.size.outside_diameter, pipe.wall)
    return HandResult(
        what=what,
        formula="F = 12 E I d / L^3",
        numbers=(
            f"12 x {modulus / 1e9:.4g} GPa x {inertia * 1e12:.4g} mm⁴ x {movement * 1e3:.2f} mm / ({length:.3f} m)^3"
        ),
        source="guided cantilever, textbook",
        value=formulas.guided_cantilever_force(modulus, inertia, movement, length),
        unit="N",
        because=(
            "the guided cantilever holds the corner from turning and takes bends and the other legs as rigid, "
            "so it is a rough figure"
        ),
    )
