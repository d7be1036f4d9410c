"""Each span between anchors by hand: its growth, and the force that it leaves along the line.     (hand/spans.py)

Straight from the `Line`: this room knows neither the model nor its solver, so that an error there cannot hide here.
Sign: forces are those on the structure along the flow, so a span that pushes has minus on its first anchor, plus on
its last.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from takeup.hand import formulas
from takeup.hand.records import HandResult, no_formula
from takeup.joints import whole_axial_rate, whole_live_length
from takeup.line import (
    ANCHORED_ENDS,
    SAME_STATION,
    End,
    Line,
    Section,
    State,
    Stretch,
    Study,
    TakeUp,
    Turn,
    ZoneState,
    bore_area,
    content_weight,
    insulation_weight,
    pipe_weight,
    route_of,
    stretches_of,
)

_ONWARD = 0.999  # cosine of less than three degrees: the line goes on in the direction it came from
_LEGS_OF_A_Z = 3
_SLOPE = 1e-6  # a run that rises less than a millimetre in a kilometre is level
_SQUARE = math.radians(90.0)
_SQUARE_ENOUGH = math.radians(1.0)  # a corner within a degree of square is calculated as square


@dataclass(frozen=True, kw_only=True, slots=True)
class Cell:
    """A part of a span with one pipe at one temperature, stations in metres; `strain` from installation [m/m]."""

    start: float
    end: float
    section: Section
    here: ZoneState
    strain: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """One stretch between neighbouring anchors or ends, in one state.

    Args:
        stretch: name and stations.
        cells: along it.
        joints: in it.
        turns: in it.
        open_end: whether one of its ends is free, blind or closed by a valve.
        puzzle: why no short formula gives its force; empty where one may.
    """

    stretch: Stretch
    cells: tuple[Cell, ...]
    joints: tuple[TakeUp, ...]
    turns: tuple[Turn, ...]
    open_end: bool
    puzzle: str


def span_of(study: Study, line: Line, number: int, state: State) -> Span:
    """Return one span in one state."""
    stretch, route = stretches_of(line)[number], route_of(line)
    ends = [end for end, here in ((line.start, stretch.start <= 0.0), (line.end, stretch.end >= route.length)) if here]
    return Span(
        stretch=stretch,
        cells=_cells(study, line, stretch, state),
        joints=tuple(item for item in line.takeups if stretch.start < item.position.station < stretch.end),
        turns=tuple(turn for turn in route.turns if stretch.start < turn.station < stretch.end),
        open_end=any(end.kind not in (*ANCHORED_ENDS, "branch") for end in ends),
        puzzle=_puzzle(study, line, stretch, ends),
    )


def _cells(study: Study, line: Line, stretch: Stretch, state: State) -> tuple[Cell, ...]:
    cuts = {stretch.start, stretch.end} | {section.end for section in line.sections}
    cuts |= {
        cut
        for zone in state.layout.every
        for part in zone.parts
        if part.line == line.name
        for cut in (part.start, part.end)
    }
    ordered = sorted(cut for cut in cuts if stretch.start <= cut <= stretch.end)
    cells = []
    for start, end in pairwise(ordered):
        middle = (start + end) / 2.0
        section, here = line.section_at(middle), state.at(line.name, middle)
        expansion = section.pipe.material.expansion
        strain = expansion.at(here.temperature) - expansion.at(study.site.installation)
        cells.append(Cell(start=start, end=end, section=section, here=here, strain=strain))
    return tuple(cells)


def _puzzle(study: Study, line: Line, stretch: Stretch, ends: list[End]) -> str:
    """Return why no short formula gives the force of a span, or nothing."""
    if any(end.kind == "branch" for end in ends) and line.branch is not None:
        return f"the span begins on {line.branch.of}, which gives way in a manner no short formula tells"
    for other in study.lines:
        if (
            other.branch
            and other.branch.of == line.name
            and stretch.start < other.branch.position.station < stretch.end
        ):
            return f"{other.name} leaves the span and takes a share of the force"
    at_ends = [
        hold
        for hold in line.holds
        if min(abs(hold.position.station - stretch.start), abs(hold.position.station - stretch.end)) < SAME_STATION
    ]
    moving = [hold.name for hold in at_ends if hold.settlement] + [end.name for end in ends if end.settlement]
    moving += [end.name for end in ends if end.growth]
    if moving:
        return f"{moving[0]} moves"
    return ""


def growing_length(span: Span) -> float:
    """Return the length of a span that grows: along the bends, less the live lengths of its bellows [m]."""
    return sum(growing_length_of(span, cell) for cell in span.cells)


def free_growth_of(span: Span) -> float:
    """Return the free growth of a span, its cells added up [m]."""
    return sum(formulas.free_growth(cell.strain, growing_length_of(span, cell)) for cell in span.cells)


def growing_length_of(span: Span, cell: Cell) -> float:
    """Return the length of a cell of a span that grows [m]."""
    bends = sum(
        turn.arc_length - 2.0 * turn.tangent_length for turn in span.turns if cell.start < turn.station <= cell.end
    )
    live = sum(whole_live_length(item.data) for item in span.joints if cell.start < item.position.station <= cell.end)
    return cell.end - cell.start + bends - live


def growth_by_hand(study: Study, line: Line, number: int, state: State) -> HandResult:
    """Return the free growth of a span, which its take-up must take.

    Args:
        study: the file.
        line: the line.
        number: of the span on it.
        state: the state.
    """
    span = span_of(study, line, number, state)
    tables = dict.fromkeys(cell.section.pipe.expansion_table for cell in span.cells)
    return HandResult(
        what=f"free growth of {span.stretch.name}, {state.name}",
        formula="dL = eps(T) L",
        numbers=" + ".join(
            f"{cell.strain * 1e3:.4f} mm/m x {growing_length_of(span, cell):.3f} m" for cell in span.cells
        ),
        source=f"first principles; eps from {' and '.join(tables)}",
        value=free_growth_of(span),
        unit="m",
    )


def span_force(study: Study, line: Line, number: int, state: State, *, at_start: bool) -> HandResult:
    """Return the force with which a span pushes one of its ends outward along the line, tension negative [N].

    Args:
        study: the file.
        line: the line.
        number: of the span on it.
        state: the state.
        at_start: whether the end is the span's first; round a corner the two ends are pushed along their own legs.
    """
    span = span_of(study, line, number, state)
    what = f"{span.stretch.name}, {state.name}: force along the line"
    if span.puzzle:
        return no_formula(what, "N", span.puzzle)
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
        return _with_joint(line, span, state, what)
    return _without_joint(study, line, span, (what, at_start))


def _with_joint(line: Line, span: Span, state: State, what: str) -> HandResult:
    """Return thrust plus spring of a straight span with one joint."""
    if span.turns:
        return no_formula(what, "N", "the span turns: its legs bend as well as push, which no short formula gives")
    joint = span.joints[0]
    if joint.rods is not None:
        return no_formula(what, "N", "whether the joint's rods bear decides who carries its thrust: no short formula")
    station = joint.position.station
    pressure = state.at(line.name, station).pressure_at(float(route_of(line).point(station)[2]))
    growth = free_growth_of(span)
    area, rate = joint.data.effective_area, whole_axial_rate(joint.data)
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


def weight_along(study: Study, line: Line, number: int, state: State, *, at_start: bool) -> tuple[float, str]:
    """Return the weight of a straight span that one of its anchors feels along the flow [N], and its numbers.

    The pipe between an anchor and the joint hangs on, or stands on, that anchor; without a joint both ends share it,
    or the only one has it all.

    Args:
        study: the file.
        line: the line.
        number: of the span on it.
        state: the state.
        at_start: whether the anchor is the span's first.
    """
    span, route = span_of(study, line, number, state), route_of(line)
    slope = float(route.direction((span.stretch.start + span.stretch.end) / 2.0)[2])
    if span.puzzle or span.turns or abs(slope) < _SLOPE or len(span.joints) > 1:
        return 0.0, ""
    low, high = span.stretch.start, span.stretch.end
    share = 1.0 if span.open_end else 0.5
    if span.joints:
        joint, share = span.joints[0].position.station, 1.0
        low, high = (low, joint) if at_start else (joint, high)
    weight = share * sum(
        weight_per_length(cell) * max(0.0, min(high, cell.end) - max(low, cell.start)) for cell in span.cells
    )
    value = -formulas.weight_along(1.0, slope, weight)
    return value, f"{'+' if value > 0 else '-'} {weight:.1f} N x {abs(slope):.3f}"


def weight_per_length(cell: Cell) -> float:
    """Return the weight of a metre of pipe with insulation and content [N/m]; items and joints are left out."""
    pipe = cell.section.pipe
    dead = pipe_weight(pipe) + insulation_weight(pipe, cell.section.insulation)
    return dead + content_weight(bore_area(pipe), cell.here.density)


def _without_joint(study: Study, line: Line, span: Span, asked: tuple[str, bool]) -> HandResult:
    """Return the force of a span that only its own pipe takes up; `asked`: in words, and whether from its first end."""
    what, at_start = asked
    if len(span.cells) > 1:
        return no_formula(what, "N", "the pipe or its temperature changes on the way, and each part gives differently")
    cell, stretch = span.cells[0], span.stretch
    if not span.turns:
        return _held_straight(study, line, span, what)
    turned = [turn for turn in span.turns if abs(turn.angle - _SQUARE) < _SQUARE_ENOUGH]
    if len(turned) == len(span.turns) == 1:
        corner = span.turns[0].station
        first, last = corner - stretch.start, stretch.end - corner
        own, other = (first, last) if at_start else (last, first)
        return _cantilever(study, cell, what, own * cell.strain, other)
    if len(turned) == len(span.turns) == _LEGS_OF_A_Z - 1 and float(turned[0].entry @ turned[1].exit) > _ONWARD:
        offset = turned[1].station - turned[0].station
        along = stretch.end - stretch.start - offset
        return _cantilever(study, cell, what, along * cell.strain, offset)
    return no_formula(what, "N", "several legs share the growth: only the model gives their shares")


def _held_straight(study: Study, line: Line, span: Span, what: str) -> HandResult:
    cell = span.cells[0]
    pipe = cell.section.pipe
    modulus = pipe.material.modulus.at(study.site.installation)
    wall = formulas.pipe_wall_area(pipe.size.outside_diameter, pipe.wall)
    bore = math.pi / 4.0 * (pipe.size.outside_diameter - 2.0 * pipe.wall) ** 2
    middle = float(route_of(line).point((cell.start + cell.end) / 2.0)[2])
    pressure = cell.here.pressure_at(middle)
    by_pressure = (1.0 - 2.0 * pipe.material.poisson) * pressure * bore
    return HandResult(
        what=what,
        formula="F = E A eps + (1 - 2 nu) P A_bore",
        numbers=(
            f"{modulus / 1e9:.4g} GPa x {wall * 1e6:.0f} mm² x {cell.strain * 1e3:.4f} mm/m "
            f"+ {by_pressure / 1e3:.3f} kN"
        ),
        source="textbook; the pipe would yield or buckle long before",
        value=formulas.restrained_force(modulus, wall, cell.strain) + by_pressure,
        unit="N",
    )


def _cantilever(study: Study, cell: Cell, what: str, movement: float, length: float) -> HandResult:
    pipe = cell.section.pipe
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
