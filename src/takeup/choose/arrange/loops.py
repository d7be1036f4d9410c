"""Pipe loops: how large one begins, whether there is room for it, and the line with it.     (choose/arrange/loops.py)

A loop stands where the file gives room for one, square to a straight leg, over nothing that is on the line already. Its
bends are those of its pipe. What it does to the anchors is for the study to say (line/looped.py puts it in).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

from takeup.basis.guided_cantilever import cantilever_length
from takeup.errors import OutOfRange, TakeupError
from takeup.line import Line, Study
from takeup.line.choices import Choice
from takeup.line.looped import LoopPlan, leg_of, legs_with, looped, spread, stations_of, tangent_of
from takeup.line.parts import Leg, Position
from takeup.line.route import turn_angle

_SAME = 1e-6  # stations closer than a micrometre are one [m]
_ROUNDING = 1e-9  # of a sum of lengths [m]
_MOST_ASKEW = math.cos(math.radians(45.0))
"""Cosine with its leg above which a side is none: a loop goes out square, and so nearly the way that was asked."""
_TENTHS = 10.0  # a loop is set out to the tenth of a metre
_DEEPER = 1.25  # from one size to the next: a quarter deeper halves the force, as it goes with about the cube
_SHARE = 0.4  # of the developed length in each leg: two of them and half of one across


class LoopRefused(TakeupError):
    """A loop that has no room where it is planned; the message says why."""


@dataclass(frozen=True, kw_only=True, slots=True)
class LoopSize:
    """Width and depth of a loop, between centre lines [m]."""

    width: float
    depth: float


def loop_sizes(
    growth: float, *, modulus: float, outside_diameter: float, stress: float, radius: float, deepest: float
) -> tuple[LoopSize, ...]:
    """Return sizes of a loop to begin with, the shallowest first: what the rule asks for, then deeper ones.

        L = sqrt(3 E D Delta / S) = 2 H + W,   W = H / 2                textbook beam formula (guided_cantilever.py);
        H = 0.4 L, W = 0.2 L                                            W = L/5 and H = 2 W: ASHRAE Handbook, HVAC
                                                                        Systems and Equipment, pipes (from memory)

    Rounded up to 0.1 m. No smaller than the bends need, 2 R each way. The rule only sizes; the study judges.

    Args:
        growth: Delta, that the loop takes, zero or more [m].
        modulus: E [Pa].
        outside_diameter: D of the pipe [m].
        stress: S that the bending may have, above zero [Pa].
        radius: R of the bends, zero where they are sharp [m].
        deepest: that there is room for [m].

    Returns:
        None where even the first is deeper than there is room for.

    Raises:
        OutOfRange: The growth is below zero or the stress not above zero.
    """
    if not radius >= 0.0:
        raise OutOfRange(f"bend radius {radius:g} m: it is zero or more.")
    developed = cantilever_length(modulus, outside_diameter, growth, stress)
    depth = _rounded_up(max(_SHARE * developed, 2.0 * radius))
    sizes = []
    while 0.0 < depth <= deepest + _ROUNDING:
        sizes.append(LoopSize(width=_rounded_up(max(depth / 2.0, 2.0 * radius)), depth=depth))
        depth = _rounded_up(depth * _DEEPER)
    return tuple(sizes)


def _rounded_up(length: float) -> float:
    return math.ceil(length * _TENTHS - _ROUNDING) / _TENTHS


def with_loop(study: Study, line: str, plan: LoopPlan) -> Study:
    """Return a study with a loop put into one of its lines.

    Args:
        study: as read, its rules not yet holds; it keeps everything else, moved along.
        line: the name of the line.
        plan: the loop.

    Raises:
        LoopRefused: There is no room for it.
    """
    return with_loops(study, line, (plan,))


def with_loops(study: Study, line: str, plans: Sequence[LoopPlan]) -> Study:
    """Return a study with loops put into one of its lines, all by stations of the line as it is before.

    Args:
        study: as read, its rules not yet holds.
        line: the name of the line.
        plans: the loops.

    Raises:
        LoopRefused: There is no room for one of them.
    """
    why = why_no_loops(study, line, plans)
    if why:
        raise LoopRefused(why)
    return looped(study, line, plans)


def why_no_loops(study: Study, line: str, plans: Sequence[LoopPlan]) -> str:
    """Return why loops cannot be put into a line, in words; "" where they can.

    Args:
        study: as read, its rules not yet holds.
        line: the name of the line.
        plans: the loops.
    """
    own = study.line(line)
    for plan in plans:
        for why in (shape_fault(own, plan), _room(own, plan), _over(study, own, plan)):
            if why:
                return f"line {line}, {plan.name} at {plan.station:.6g} m: {why}"
    ordered = sorted(plans, key=lambda plan: plan.station)
    for first, second in pairwise(ordered):
        apart = second.begin - first.finish
        need = tangent_of(own.section_at(first.station).pipe.bends) * 2.0
        if leg_of(own, first) == leg_of(own, second) and apart < need + _SAME:
            return (
                f"line {line}, {second.name} at {second.station:.6g} m: {first.name} is too near, {apart:.4g} m from "
                f"leg to leg, and the bends between them need {need:.4g} m"
            )
    short = _short_leg(own, plans)
    return f"line {line}: {short}" if short else ""


def shape_fault(line: Line, plan: LoopPlan) -> str:
    """Return what is wrong with a loop by itself, or with the side that it goes to, wherever in its leg it stands.

    Args:
        line: the line.
        plan: the loop.

    Returns:
        In words; "" where nothing is wrong.
    """
    if not (plan.width > 0.0 and plan.depth > 0.0):
        return f"a loop of {plan.width:g} m by {plan.depth:g} m is none"
    need = 2.0 * tangent_of(line.section_at(plan.station).pipe.bends)
    for words, size in (("width", plan.width), ("depth", plan.depth)):
        if size < need:
            return f"its {words} is {size:.4g} m, and its bends need {need:.4g} m of each leg"
    leg = line.legs[leg_of(line, plan)]
    along = abs(math.fsum(one * other for one, other in zip(leg.direction, plan.towards, strict=True)))
    if along > _MOST_ASKEW:
        return "the side that it goes to lies more along its leg than across it"
    return ""


def _room(line: Line, plan: LoopPlan) -> str:
    """Return why the file gives no room for a loop."""
    rooms = line.allowed.loop_room
    if not rooms:
        return "the file gives no room for loops (loop_room)"
    beside = [one for one in rooms if all(abs(a - b) < _SAME for a, b in zip(one.towards, plan.towards, strict=True))]
    if not beside:
        return "the file gives no room for loops on this side (loop_room)"
    along = [one for one in beside if one.start <= plan.begin + _SAME and plan.finish <= one.end + _SAME]
    if not along:
        where = ", ".join(f"{one.start:.6g} m to {one.end:.6g} m" for one in beside)
        return f"it takes {plan.begin:.6g} m to {plan.finish:.6g} m, and there is room on this side from {where}"
    deepest = max(one.depth for one in along)
    if plan.depth > deepest + _SAME:
        return f"it goes out {plan.depth:.4g} m, and there is room for {deepest:.4g} m"
    return ""


def _over(study: Study, line: Line, plan: LoopPlan) -> str:
    """Return what is in the way of a loop and its bends on the line."""
    begin, finish = spread(line, plan)
    for words, first, last in _things(study, line):
        if first < finish - _SAME and last > begin + _SAME:
            return f"{words} is there, and the loop takes {begin:.6g} m to {finish:.6g} m with its bends"
    stations = stations_of(line)
    leg = leg_of(line, plan)
    first, last = stations[leg], stations[leg + 1]
    if begin < first - _SAME or finish > last + _SAME:
        return (
            f"it takes {begin:.6g} m to {finish:.6g} m with its bends, and its leg runs from {first:.6g} m to "
            f"{last:.6g} m"
        )
    return ""


def _things(study: Study, line: Line) -> Iterator[tuple[str, float, float]]:
    """Yield what a loop cannot stand over: its words, and from where to where it is [m]."""
    stations = stations_of(line)
    for number, (before, after) in enumerate(pairwise(line.legs), start=1):
        tangent = _tangent(before, after)
        yield f"the corner {before.to.name}", stations[number] - tangent, stations[number] + tangent
    for item in line.items:
        yield item.name, item.start, item.end
    for takeup in line.takeups:
        half = takeup.data.length / 2.0
        yield takeup.name, takeup.position.station - half, takeup.position.station + half
    for choice in line.choices:
        half = _length(choice) / 2.0
        yield choice.name, choice.position.station - half, choice.position.station + half
    for words, position in _places(study, line):
        yield words, position.station, position.station
    for first, last in line.allowed.keep_clear:
        yield f"a stretch that is kept clear, {first:.6g} m to {last:.6g} m,", first, last


def _length(choice: Choice) -> float:
    """Return the length of the joint that the file names for a place; none where one is to be selected [m]."""
    names = choice.table.names
    return float(choice.table.numbers["length"][names.index(choice.joint)]) if choice.joint in names else 0.0


def _places(study: Study, line: Line) -> Iterator[tuple[str, Position]]:
    """Yield what is at one place of a line: holds, bounds of zones, branches, loads."""
    yield from ((hold.name, hold.position) for hold in line.holds)
    yield from ((f"the bound of the zone {zone.name}", zone.position) for zone in line.zones)
    for other in study.lines:
        if other.branch is not None and other.branch.of == line.name:
            yield f"the branch {other.name}", other.branch.position
    for load in (one for one in study.loads if one.line == line.name):
        yield from ((f"the load {load.name}", place) for place in (load.start, load.end) if place is not None)


def _tangent(before: Leg, after: Leg) -> float:
    """Return what a bend takes of either leg, T = R tan(theta/2) [m]."""
    radius = before.to.bend_radius
    return 0.0 if radius is None else _taken(radius, before.direction, after.direction)


@lru_cache(maxsize=1_000)  # a line is asked about for every loop that may stand in it, and its corners stay
def _taken(radius: float, before: tuple[float, float, float], after: tuple[float, float, float]) -> float:
    return radius * math.tan(turn_angle(np.array(before), np.array(after)) / 2.0)


def _short_leg(line: Line, plans: Sequence[LoopPlan]) -> str:
    """Return which leg is too short for its bends once the loops are in, to the last digit as a file is read."""
    legs = [leg for some in legs_with(line, plans) for leg in some]
    tangents = [0.0, *(_tangent(before, after) for before, after in pairwise(legs)), 0.0]
    for leg, (before, after) in zip(legs, pairwise(tangents), strict=True):
        if before + after > leg.length:
            return f"the bends need {before + after:.6g} m of the leg to {leg.to.name}, which is {leg.length:.6g} m"
    return ""


__all__ = [
    "LoopPlan",
    "LoopRefused",
    "LoopSize",
    "loop_sizes",
    "shape_fault",
    "why_no_loops",
    "with_loop",
    "with_loops",
]
