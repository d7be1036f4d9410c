"""Straight spans with a pipe loop in their middle.     (choose/arrange/loop.py)

Sizes come from the rule (loops.py), the shallowest first; what a loop does to its anchors comes from the flexibility of
the span with the loop in it (chain.py), without guides and rests.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from takeup.basis import intermediate_guide_spacing
from takeup.choose.arrange.bare import widest_range
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.loop_shape import loop_forces
from takeup.choose.arrange.loops import LoopSize, loop_sizes, shape_fault, why_no_loops
from takeup.choose.arrange.records import Plan, Refusal
from takeup.library import size_number
from takeup.line import Hold, second_moment
from takeup.line.allowed import LoopRoom
from takeup.line.holding import HoldRule
from takeup.line.looped import LoopPlan, tangent_of
from takeup.line.parts import Position, station_words

LEAST_GROWTH = 0.002
"""Growth below which no loop is thought of [m]: two millimetres bend any pipe."""
TRAPPED = ("steam", "condensate")
"""Media of which a loop that is not level would keep what condenses."""
LEVEL = 0.1
"""Sine of a rise that is drained like a level leg (common practice, no source)."""
USUAL_RANGE = 100e6
"""Stress range that a loop is sized for where no allowable stresses are typed in [Pa] (common practice, no source)."""
MOST_SIZES = 3
FREE = 20.0
"""Outside diameters between a loop and the guide beside it (common practice, no source)."""
_TRIES = 8  # places either side of the middle that are looked at for room
NAME = "loop"


def loop_plans(course: Course, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield loops that may take up a straight span, and why there is none."""
    if course.bends_between(near, far):
        return  # its own bends are there already
    because, found = "no room for loops is stated ('loop_room')", False
    grown = float(np.linalg.norm(course.growth(near, far), axis=1).max())
    if grown < LEAST_GROWTH:
        return
    for room in course.line.allowed.loop_room:
        if course.line.medium in TRAPPED and abs(room.towards[2]) > LEVEL:
            because = f"a loop that rises or falls would hold condensate, and the line carries {course.line.medium}"
            continue
        sizes = _sizes(course, (near, far), grown, room.depth)
        if not sizes:
            because = (
                f"{grown * 1e3:.0f} mm of growth ask for a deeper loop than the {room.depth:g} m there is room for"
            )
        for size in sizes[:MOST_SIZES]:
            plan, why = _fitted(course, (near, far), size, room)
            if plan is None:
                because = why
            else:
                found = True
                bare = _plan(course, (near, far), plan, grown)
                yield bare
                yield from _guided(course, bare, plan)
    if not found:
        yield Refusal(concept="pipe loop", near=near, far=far, because=because)


def _sizes(course: Course, span: tuple[int, int], grown: float, deepest: float) -> tuple[LoopSize, ...]:
    pipe = course.line.section_at(_middle(course, span)).pipe
    return loop_sizes(
        grown,
        modulus=pipe.material.modulus.at(course.study.site.installation),
        outside_diameter=pipe.size.outside_diameter,
        stress=widest_range(course) or USUAL_RANGE,
        radius=tangent_of(pipe.bends),
        deepest=deepest,
    )


def _middle(course: Course, span: tuple[int, int]) -> float:
    return sum(course.places[number].station for number in span) / 2.0


def _fitted(course: Course, span: tuple[int, int], size: LoopSize, room: LoopRoom) -> tuple[LoopPlan | None, str]:
    """Return a loop as near to the middle of a span as it has room, or why it has none there."""
    whole = LoopPlan(name=NAME, station=_middle(course, span), width=size.width, depth=size.depth, towards=room.towards)
    fault = shape_fault(course.line, whole)
    if fault:
        return None, fault
    middle, half = whole.station, abs(course.places[span[1]].station - course.places[span[0]].station) / 2.0
    first = ""
    step = max((half - size.width) / _TRIES, 0.05)
    for number in range(2 * _TRIES + 1):
        away = (number + 1) // 2 * step * (1.0 if number % 2 else -1.0)
        station = round(middle + away, 2)
        plan = LoopPlan(name=NAME, station=station, width=size.width, depth=size.depth, towards=room.towards)
        why = why_no_loops(course.study, course.line.name, (plan,)) or _clear(course, plan, span)
        if not why:
            return plan, ""
        first = first or why.partition(": ")[2] or why
    return None, first


def _clear(course: Course, plan: LoopPlan, span: tuple[int, int]) -> str:
    """Return why a loop cannot stand between two places: too near to one, or where it is kept clear."""
    low, high = (course.places[number].station for number in span)
    if not low < plan.begin < plan.finish < high:
        return "loop: it is wider than the span"
    if any(begin < plan.finish and plan.begin < finish for begin, finish in course.line.allowed.keep_clear):
        return "loop: it would stand where it is kept clear"
    return ""


def _plan(course: Course, span: tuple[int, int], loop: LoopPlan, grown: float) -> Plan:
    near, far = span
    forces, words = loop_forces(course, span, loop)
    pipe = course.line.section_at(loop.station)
    size = size_number(pipe.pipe.size)
    radius = tangent_of(pipe.pipe.bends)
    straight = 2.0 * loop.depth - 8.0 * radius
    along = straight + 2.0 * np.pi * radius if pipe.insulation is not None else 0.0
    cost = course.prices.longer(size, straight=straight, insulated=along, bends=4)
    return Plan(
        concept="pipe loop",
        near=near,
        far=far,
        takeups=(),
        price_indices=(),
        loops=(loop,),
        guides=0,
        cost=cost + course.least_cost(near, far, 0, [_stretch(loop, radius)]),
        forces=forces,
        alone=forces[:, course.operating],
        words=(
            f"loop {loop.depth:g} m deep and {loop.width:g} m wide at {loop.station:g} m for {grown * 1e3:.0f} mm of "
            f"growth: {words} by the bare pipe alone"
        ),
    )


def _guided(course: Course, plan: Plan, loop: LoopPlan) -> Iterator[Plan]:
    """Yield the same loop with guides on either side, where the line's rule has guides and there is length for any.

    At equal steps of at most L_max, which leaves a quarter of the pinned Euler load, from the anchors towards the loop;
    the last of them `FREE` diameters from it, so that it may bend (common practice, no source).
    """
    rule = next((rule for rule in course.line.rules if rule.by == "spacing rule"), None)
    if rule is None:
        return
    pipe = course.line.section_at(loop.station).pipe
    force = float(np.linalg.norm(plan.forces, axis=2).max())
    modulus = pipe.material.modulus.at(course.study.conditions_of(course.line).design.temperature)
    longest = intermediate_guide_spacing(modulus, second_moment(pipe), force)
    free = FREE * pipe.size.outside_diameter
    stations = []
    for anchor, edge in (
        (course.places[plan.near].station, loop.begin - free),
        (course.places[plan.far].station, loop.finish + free),
    ):
        length = (edge - anchor) * (1.0 if edge > anchor else -1.0)
        if (edge - anchor) * (loop.station - anchor) <= 0.0 or length < free:
            continue
        count = math.ceil(length / longest - 1e-9)
        stations += [anchor + (edge - anchor) * step / count for step in range(1, count + 1)]
    guides = [round(station, 2) for station in stations if course.line.allowed.is_clear(station)]
    if not guides:
        return

    def least(count: int) -> float:
        return course.least_cost(plan.near, plan.far, count, [_stretch(loop, tangent_of(pipe.bends))])

    yield replace(
        plan,
        holds=tuple(_guide(rule, station) for station in guides),
        guides=len(guides),
        cost=plan.cost - least(0) + least(len(guides)),
        words=f"{plan.words}; {len(guides)} guides beside it",
    )


def _stretch(loop: LoopPlan, tangent: float) -> tuple[float, float]:
    """Return where a loop and its bends stand in the way of rests [m]."""
    return loop.begin - tangent, loop.finish + tangent


def _guide(rule: HoldRule, station: float) -> Hold:
    words = station_words(station)
    return Hold(
        name=f"{rule.kind} at {words}",
        kind=rule.kind,
        position=Position(words=words, station=station),
        friction=rule.friction,
        clearance=rule.clearance,
        can_carry=rule.can_carry,
    )


__all__ = ["LEAST_GROWTH", "MOST_SIZES", "loop_plans"]
