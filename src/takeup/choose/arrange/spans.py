"""Every way to take up the growth of every span of a line.     (choose/arrange/spans.py)"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from takeup.choose.arrange.axial import axial_plans
from takeup.choose.arrange.bare import bare_plans
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.hinges import hinge_plans
from takeup.choose.arrange.hoses import hose_plans
from takeup.choose.arrange.least import with_least
from takeup.choose.arrange.loop import loop_plans
from takeup.choose.arrange.offset import offset_plans
from takeup.choose.arrange.records import Plan, Refusal

NEVER: dict[str, str] = {
    "hinge set in a span of three bends or more": "hinges are proposed where one or two bends make an L, a Z or a U: "
    "type them in, and they are kept as given",
    "gimbal set": "what turns out of one plane is not worked out in a span: type it in, and it is kept as given",
    "swing joint": "no series can have one, since its bars are made for their leg: type it in, and it is kept as given",
    "elbow pressure balanced": "no series can have one, since it is made with its elbow: type it in, and it is kept as "
    "given; beside a nozzle in a straight run an in-line balanced joint is proposed",
    "double with anchor base": "two joints beside one anchor do the same, and are proposed as such",
}
"""Concepts that are never proposed for any span, and why; proposals say so once."""


def plans_of(ground: Ground) -> tuple[tuple[Plan, ...], tuple[Refusal, ...]]:
    """Return the plans of all spans between any two places, and the concepts that do not serve, with their reasons.

    No span passes over an anchor that the file has: it stands whatever is proposed.

    Args:
        ground: of the search.
    """
    return put_together(
        plans_from(ground, line, range(len(course.places))) for line, course in enumerate(ground.courses)
    )


def put_together(every: Iterable[Planned]) -> tuple[tuple[Plan, ...], tuple[Refusal, ...]]:
    """Return plans and refusals of one part of the spans after another as one.

    Args:
        every: of the parts.
    """
    plans: list[Plan] = []
    refusals: list[Refusal] = []
    for part in every:
        plans += part.plans
        refusals += part.refusals
    return tuple(plans), tuple(refusals)


class Planned(NamedTuple):
    """Plans of some spans, and concepts that do not serve."""

    plans: list[Plan]
    refusals: list[Refusal]


def plans_from(ground: Ground, line: int, nears: range) -> Planned:
    """Return the plans of the spans of one line that begin at some of its places, and what does not serve.

    Args:
        ground: of the search.
        line: number of the line.
        nears: numbers of the places, counted along the line.
    """
    first, course = ground.firsts[line], ground.courses[line]
    found_here = Planned([], [])
    for near, far in spans_of(course):
        if near not in nears:
            continue
        for found in (*bare_plans(course, near, far), *_with_joints(course, near, far)):
            if isinstance(found, Plan):
                found_here.plans.append(with_least(course, found, first))
            else:
                found_here.refusals.append(replace(found, near=first + near, far=first + far) if first else found)
    return found_here


def spans_of(course: Course) -> Iterator[tuple[int, int]]:
    """Yield the places that spans of a line may lie between: none passes over an anchor that the file has.

    Args:
        course: the line; places are counted along it alone.
    """
    for near in range(len(course.places) - 1):
        for far in course.ends_from(near):
            yield near, far


def _with_joints(course: Course, near: int, far: int) -> list[Plan | Refusal]:
    """Return the ways that need a joint or a loop: none where one end is free, or where the file has a joint."""
    places = course.places
    low, high = places[near].station, places[far].station
    given = any(low < item.position.station < high for item in course.line.takeups)
    begins = near == 0 and course.line.branch is not None and places[far].held
    if given or not (begins or (places[near].held and places[far].held)):
        return []
    return [
        *loop_plans(course, near, far),
        *axial_plans(course, near, far),
        *offset_plans(course, near, far),
        *hinge_plans(course, near, far),
        *hose_plans(course, near, far),
    ]


__all__ = ["NEVER", "Planned", "plans_from", "plans_of", "put_together", "spans_of"]
