"""What of a quick force an anchor feels for certain.     (choose/arrange/least.py)

A quick force comes from thrust, springs and growth of the bare line alone. Three things can take from it what the
search must then not reckon with: weight, that hangs on the anchor against it; rests and other holds, that take a part
of it before it comes to the anchor; and anchors that move. What is left here, times `search.LIGHTEST`, is a bound
(docs/theory/proposals.md says how it was tested):

    along a straight span, level      all of it
    upright, of a straight span       what the weight of the whole span leaves of it
    upright, of any other span        nothing: rests beside a riser take it
    with holds of the file in it      nothing, of a span that bends; nothing at all where they act along the pipe
    beside an anchor that moves       nothing
    with a branch in it, or at it     nothing
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.drag import drag_of
from takeup.choose.arrange.records import Floats, Plan
from takeup.line import End, Hold, bore_area, content_weight, insulation_weight, is_anchor, pipe_weight

CARRYING = ("rest", "hanger", "spring hanger")
"""Holds that act upright only."""
GUIDING = (*CARRYING, "slide guide", "spider guide", "planar guide")
"""Holds that leave a pipe free along itself."""
WATER = 1000.0
"""Density of what fills a pipe at most [kg/m3]: of water, under the test."""


def with_least(course: Course, plan: Plan, first: int = 0) -> Plan:
    """Return a plan whose forces are those that its anchors feel for certain, with the friction that is certain.

    Args:
        course: of the search.
        plan: of a span, its places counted along the line alone.
        first: number of the line's first place among all places, which those of what is returned count along.
    """
    near, far = plan.near, plan.far
    forces, alone, drag = _certain(course, plan)
    return replace(plan, near=first + near, far=first + far, forces=forces, alone=alone, drag=drag)


def _certain(course: Course, plan: Plan) -> tuple[Floats, Floats, Floats | None]:
    """Return what is certain of a plan's forces, of those alone, and of the friction besides."""
    near, far = plan.near, plan.far
    straight = not course.bends_between(near, far) and not plan.loops
    key, allowed = (near, far, straight), GUIDING if straight else CARRYING
    if key not in course.uncertain:
        course.uncertain[key] = course.is_joined(near, far) or _uncertain(course, near, far, allowed)
    if course.uncertain[key]:
        return np.zeros_like(plan.forces), np.zeros_like(plan.alone), None
    weight = span_weight(course, near, far) + sum(item.data.weight for item in plan.takeups) if straight else np.inf
    forces, alone = _lighter(plan.forces, weight), _lighter(plan.alone, weight)
    for side, place in enumerate((near, far)):
        if course.places[place].joined:
            forces[side], alone[side] = 0.0, 0.0
    return forces, alone, drag_of(course, plan)


def _lighter(forces: Floats, weight: float) -> Floats:
    """Return forces with their upright part less by a weight, none where that is more, (..., 3) [N]."""
    left = forces.copy()
    if not left[..., 2].any():
        return left
    left[..., 2] = np.sign(forces[..., 2]) * np.maximum(np.abs(forces[..., 2]) - weight, 0.0)
    return left


def _uncertain(course: Course, near: int, far: int, allowed: Sequence[str]) -> bool:
    """Whether something of the file takes of a span's forces what the quick model does not know."""
    low, high = course.places[near].station, course.places[far].station
    within = [hold for hold in course.line.holds if low < hold.position.station < high and not is_anchor(hold)]
    if any(hold.kind not in allowed for hold in within):
        return True
    if any(_moves(course, place) for place in (near, far)):
        return True
    return any(
        load.line == course.line.name
        and load.start.station <= high
        and (load.start if load.end is None else load.end).station >= low
        for load in course.study.loads
    )


def _moves(course: Course, place: int) -> bool:
    """Whether an anchor of the file moves or gives, or its one-sided states are dropped so that nothing is certain."""
    own = course.places[place]
    if not own.fixed:
        return False
    held: list[Hold | End] = [hold for hold in course.line.holds if hold.name == own.name and is_anchor(hold)]
    held += [end for end in (course.line.start, course.line.end) if end.name == own.name]
    if any(own.name in item.state for item in course.study.dropped):
        return True
    gives = any(one.stiffness is not None or one.settlement is not None for one in held)
    return gives or any(isinstance(one, End) and one.growth is not None for one in held)


def span_weight(course: Course, near: int, far: int) -> float:
    """Return what a span weighs at most, full of water, with what fills legs of their own [N]."""
    low, high = course.places[near].station, course.places[far].station
    whole = 0.0
    for section in course.line.sections:
        length = min(section.end, high) - max(section.start, low)
        if length > 0.0:
            pipe = section.pipe
            metre = pipe_weight(pipe) + insulation_weight(pipe, section.insulation)
            whole += length * (metre + content_weight(bore_area(pipe), WATER))
    return whole + sum(item.weight for item in course.line.items if item.start < high and item.end > low)


__all__ = ["CARRYING", "with_least"]
