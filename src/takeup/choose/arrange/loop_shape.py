"""What a loop does to the span that it stands in, worked out once for each size.     (choose/arrange/loop_shape.py)"""

from __future__ import annotations

import numpy as np

from takeup.choose.arrange.chain import chain_of, shifted, straight_flexibility
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.records import Floats, LoopShape
from takeup.line.looped import LoopPlan, looped, moved_station, tangent_of

_SAME_WAY = 12  # decimals of a direction


def loop_forces(course: Course, span: tuple[int, int], loop: LoopPlan) -> tuple[Floats, str]:
    """Return what a span with a loop does to both of its ends, (2, s, 3) [N], and its stress in words.

    The pipe beyond a loop stands where it stood, so that the span has the flexibility of the bare one, less that of
    the straight piece that the loop replaces, and that of the loop; and it grows like the bare one from end to end.
    """
    chain, (first, last) = course.chain, (course.cuts[span[0]], course.cuts[span[1]])
    shape = _shape(course, loop)
    away = np.asarray(course.route.point(loop.station) - course.route.point(shape.station))
    points = shape.points + away
    straight = straight_flexibility(points[0], points[-1], shape.stiffness)
    bare = chain.flexibility[last] - chain.flexibility[first]
    flexibility = bare - straight + shifted(shape.flexibility[None], away[None])[0]
    grown = np.zeros((len(chain.states), 6))
    grown[:, :3] = chain.growth[:, last] - chain.growth[:, first]
    wrench = np.linalg.solve(flexibility, grown.T).T
    words = _stress_words(course, wrench, (first, last), points, loop)
    return np.stack([-wrench[:, :3], wrench[:, :3]]), words


def _shape(course: Course, loop: LoopPlan) -> LoopShape:
    """Return a loop by itself; each size is worked out once for all legs of one section that go the same way."""
    section, way = course.line.section_at(loop.station), course.route.direction(loop.station)
    key = (loop.width, loop.depth, loop.towards, tuple(np.round(way, _SAME_WAY).tolist()), section.start)
    if key not in course.loop_shapes:
        course.loop_shapes[key] = _worked_out(course, loop)
    return course.loop_shapes[key]


def _worked_out(course: Course, loop: LoopPlan) -> LoopShape:
    study = looped(course.study, course.line.name, (loop,))
    chain = chain_of(study, study.line(course.line.name))
    tangent = tangent_of(course.line.section_at(loop.station).pipe.bends)
    first = chain.cut_at(loop.begin - tangent)
    last = chain.cut_at(moved_station(loop.finish + tangent, (loop,)))
    member = min(int(np.searchsorted(course.chain.stations, loop.station)) - 1, len(course.chain.stiffness) - 1)
    return LoopShape(
        station=loop.station,
        points=chain.points[first : last + 1],
        flexibility=chain.flexibility[last] - chain.flexibility[first],
        stiffness=course.chain.stiffness[member],
    )


def _stress_words(course: Course, wrench: Floats, cuts: tuple[int, int], points: Floats, loop: LoopPlan) -> str:
    """Return the greatest stress of bending and force in a span with a loop, and where, in words.

    At the cuts of the bare span that are still there, and at those of the loop, where bends are as strong as pipe.
    """
    chain, walls = course.chain, course.walls
    own = np.arange(cuts[0], cuts[1] + 1)
    there = own[(chain.stations[own] <= loop.begin) | (chain.stations[own] >= loop.finish)]
    modulus, area = walls[chain.cut_at(loop.station)]
    every = np.concatenate([chain.points[there], points])
    strong = np.concatenate([walls[there, 0], np.full(len(points), modulus)])
    wide = np.concatenate([walls[there, 1], np.full(len(points), area)])
    moments = wrench[:, None, 3:] - np.cross(every[None], wrench[:, None, :3])
    push = np.linalg.norm(wrench[:, :3], axis=1)[:, None] / wide
    both = np.linalg.norm(moments, axis=2) / strong + push
    state, place = np.unravel_index(int(both.argmax()), both.shape)
    where = f"at {chain.stations[there[place]]:.1f} m" if place < len(there) else "in the loop"
    return f"{both.max() / 1e6:.0f} MPa {where} in {chain.states[state].name}"


__all__ = ["loop_forces"]
