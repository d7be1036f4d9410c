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

import numpy as np

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.records import Floats, Plan
from takeup.line import is_anchor

NEAR_ANCHOR = 0.625
"""Support spans of weight that an anchor takes off the rests beside it at most: 5/8 of the span to the first rest, of a
beam clamped at the anchor whose rest holds nothing beyond it (textbook); half a span where more rests follow."""
_LEVEL = 1e-6  # rise of a unit direction: rounding


def drag_of(course: Course, plan: Plan) -> Floats | None:
    """Return the friction that the anchors of a plan are asked to bear for certain, (2, s) [N]; None where none is.

    Args:
        course: of the search.
        plan: of a span, its places counted along the line alone.
    """
    mu = _certain_friction(course)
    if mu == 0.0 or plan.holds or any(abs(one.towards[2]) > _LEVEL for one in plan.loops):
        return None
    span = (plan.near, plan.far)
    if span not in course.rubbing:
        course.rubbing[span] = _support_span(course, *span)
    longest = course.rubbing[span]
    if longest is None:
        return None
    low, high = (course.places[number].station for number in span)
    stops = [item.position.station for item in plan.takeups]  # rods may pass it on, and are not asked
    taken = 2.0 * NEAR_ANCHOR * longest + sum(item.data.length for item in plan.takeups)
    pieces = (low, min(stops, default=high)), (max(stops, default=low), high)
    weights = [_least_weight(course, *piece) for piece in (pieces if stops else pieces[:1])]
    drags = [mu * np.maximum(weight - taken * course.heaviest_metre, 0.0) for weight in weights]
    return np.array(drags if stops else drags * 2)


def _certain_friction(course: Course) -> float:
    """Return the least of the high coefficients of what carries the line by its rules; zero where one need not rub."""
    rules = [rule for rule in course.line.rules if rule.by == "support spans" or rule.kind == "slide guide"]
    if not any(rule.by == "support spans" for rule in rules):
        return 0.0
    return min(0.0 if rule.friction is None else rule.friction.high for rule in course.line.rules)


def _support_span(course: Course, near: int, far: int) -> float | None:
    """Return the longest support span of a span that is plain; None where it is not, or no rest stands for longer."""
    low, high = course.places[near].station, course.places[far].station
    longest = max(span for start, end, span in course.spans if start < high and end > low)
    if any(finish - begin > longest and begin < high and finish > low for begin, finish in course.blocked):
        return None
    return longest if _is_plain(course, near, far) else None


def _is_plain(course: Course, near: int, far: int) -> bool:
    """Whether a span is level, and nothing carries or meets it but what its rules and its plan place."""
    low, high = course.places[near].station, course.places[far].station
    if course.is_joined(near, far):
        return False
    if any(low < hold.position.station < high and not is_anchor(hold) for hold in course.line.holds):
        return False
    corners = course.route.corners
    legs = (corners[:-1] < high) & (corners[1:] > low)
    return bool((np.abs(course.route.directions[legs, 2]) <= _LEVEL).all())


def _least_weight(course: Course, begin: float, finish: float) -> Floats:
    """Return what pipe between two stations weighs at least in each state, (s,) [N]; arcs are shorter than corners."""
    whole = np.zeros(len(course.states))
    for section, metre in zip(course.line.sections, course.lightest_metres, strict=True):
        first, last = max(section.start, begin), min(section.end, finish)
        if last > first:
            less = course.saved_between(first, last)
            whole += max(last - first - less, 0.0) * metre
    return whole


__all__ = ["NEAR_ANCHOR", "drag_of"]
