"""What friction of rests an anchor is asked to bear for certain.     (choose/arrange/drag.py)

The capacity of an anchor is held against the force on it with mu N of every rest added that can drag it (friction
bound, checks/hold_capacity.py): those of its span as far as a joint that passes nothing on, on either side. On a level
span the rests carry its weight but for what its two anchors take,

    F >= mu (w (l - 2 a) - W)     on either anchor     w: weight of a metre as filled in a state, l: length

with a = `NEAR_ANCHOR` support spans that hang on an anchor at most, and W what the length of joints would weigh.
Nothing is certain, and zero is said, where a span is not level, where something of the file holds it or a branch meets
it, where what carries it need not rub, and where no rest can stand over more than a support span.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.records import Floats, Plan
from takeup.line import Section, bore_area, content_weight, insulation_weight, is_anchor, pipe_weight

NEAR_ANCHOR = 0.625
"""Support spans of weight that an anchor takes off the rests beside it at most: 5/8 of the span to the first rest, of a
beam clamped at the anchor whose rest holds nothing beyond it (textbook); half a span where more rests follow."""
_LEVEL = 1e-6  # rise of a unit direction: rounding


def with_drag(course: Course, plan: Plan) -> Plan:
    """Return a plan with the friction that its anchors are asked to bear for certain.

    Args:
        course: of the search.
        plan: of a span, its places counted along the line alone.
    """
    mu = _certain_friction(course)
    if mu == 0.0 or not _is_plain(course, plan):
        return plan
    low, high = (course.places[number].station for number in (plan.near, plan.far))
    longest = max(span for start, end, span in course.spans if start < high and end > low)
    if any(finish - begin > longest and begin < high and finish > low for begin, finish in course.blocked):
        return plan
    stops = [item.position.station for item in plan.takeups]  # rods may pass it on, and are not asked
    taken = 2.0 * NEAR_ANCHOR * longest + sum(item.data.length for item in plan.takeups)
    pieces = (low, min(stops, default=high)), (max(stops, default=low), high)
    drags = [mu * np.maximum(_least_weight(course, *piece) - taken * _most_of_a_metre(course), 0.0) for piece in pieces]
    return replace(plan, drag=np.array(drags))


def _certain_friction(course: Course) -> float:
    """Return the least of the high coefficients of what carries the line by its rules; zero where one need not rub."""
    rules = [rule for rule in course.line.rules if rule.by == "support spans" or rule.kind == "slide guide"]
    if not any(rule.by == "support spans" for rule in rules):
        return 0.0
    return min(0.0 if rule.friction is None else rule.friction.high for rule in course.line.rules)


def _is_plain(course: Course, plan: Plan) -> bool:
    """Whether a span is level, and nothing carries or meets it but what its rules and its plan place."""
    low, high = (course.places[number].station for number in (plan.near, plan.far))
    if course.is_joined(plan.near, plan.far) or plan.holds or any(abs(one.towards[2]) > _LEVEL for one in plan.loops):
        return False
    if any(low < hold.position.station < high and not is_anchor(hold) for hold in course.line.holds):
        return False
    corners = course.route.corners
    legs = (corners[:-1] < high) & (corners[1:] > low)
    return bool((np.abs(course.route.directions[legs, 2]) <= _LEVEL).all())


def _least_weight(course: Course, begin: float, finish: float) -> Floats:
    """Return what pipe between two stations weighs at least in each state, (s,) [N]; arcs are shorter than corners."""
    thin = np.array([min(zone.density for zone in state.zones) for state in course.states])
    whole = np.zeros(len(thin))
    for section in course.line.sections:
        first, last = max(section.start, begin), min(section.end, finish)
        if last > first:
            turns = [turn for turn in course.route.turns if turn.finish > first and turn.begin < last]
            less = sum(2.0 * turn.tangent_length - turn.arc_length for turn in turns)
            whole += max(last - first - less, 0.0) * _metre(section, thin)
    return whole


def _most_of_a_metre(course: Course) -> Floats:
    """Return what a metre of the line weighs at most in each state, (s,) [N/m]."""
    thick = np.array([max(zone.density for zone in state.zones) for state in course.states])
    return np.asarray(np.max([_metre(section, thick) for section in course.line.sections], axis=0))


def _metre(section: Section, density: Floats) -> Floats:
    pipe = section.pipe
    return (
        pipe_weight(pipe) + insulation_weight(pipe, section.insulation) + content_weight(bore_area(pipe), 1.0) * density
    )


__all__ = ["NEAR_ANCHOR", "with_drag"]
