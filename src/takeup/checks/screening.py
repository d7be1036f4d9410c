"""Screening of spans that flex by themselves.     (checks/screening.py)

What: D Y/(L - U)^2 of a span with bends and no joint. Why: below the limit no formal analysis is asked for. Source:
ASME B31.9 919.4.1 eq. (8), as B31.1 119.7. Limits: two anchors, one size, nothing between; it never says "fails".
Passes: a wide loop. Says "formal analysis needed": NPS 6, legs 25 ft and 20 ft at 500 degF.
"""

from __future__ import annotations

import numpy as np

from takeup.basis import SCREENING_LIMIT, screening_value
from takeup.checks.outcome import CheckResult, Rule
from takeup.errors import OutOfRange
from takeup.line import ANCHORED_ENDS, Stretch, stretches_of
from takeup.study import LineAnswer

RULE = Rule(
    name="screening",
    title="screening of a span that flexes by itself",
    what="D Y/(L - U)^2 between two anchors, against 208.3 mm mm/m2",
    why="a span below the limit needs no formal analysis; one above it is not thereby too stiff",
    source="ASME B31.9 919.4.1 eq. (8), as B31.1 119.7",
    limits="two anchors, one pipe size, no hold between that resists the growth",
    mandatory=False,
)
_UNIT = "mm mm/m2"
CARRY_ONLY = ("rest", "hanger", "spring hanger")  # what carries weight and lets the line grow


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each span with bends and no joint."""
    results = []
    for stretch in stretches_of(answer.line):
        bends = [turn for turn in answer.model.route.turns if stretch.start < turn.station < stretch.end]
        joints = [joint for joint in answer.joints if stretch.start < joint.station < stretch.end]
        if bends and not joints:
            results.append(_span(answer, stretch))
    return results


def _beyond_the_rule(answer: LineAnswer, stretch: Stretch) -> str:
    """Return what makes a span more than one size of pipe between two anchors, or nothing."""
    line = answer.line
    for end, station in ((line.start, 0.0), (line.end, answer.model.route.length)):
        if stretch.start <= station <= stretch.end and end.kind not in ANCHORED_ENDS:
            return f"the span ends at {end.name}, no anchor"
    for branch in answer.branches:
        place = branch.line.branch
        if place is not None and stretch.start < place.position.station < stretch.end:
            return f"{branch.line.name} leaves the span"
    if any(stretch.start < section.end < stretch.end for section in line.sections[:-1]):
        return "the pipe changes between the anchors"
    held = [h for h in answer.holds if stretch.start < h.station < stretch.end and h.kind not in CARRY_ONLY]
    return f"{held[0].name} stands between the anchors" if held else ""


def _span(answer: LineAnswer, stretch: Stretch) -> CheckResult:
    route, study = answer.model.route, answer.study
    pipe = answer.line.section_at((stretch.start + stretch.end) / 2.0).pipe
    expansion = pipe.material.expansion
    middle = (stretch.start + stretch.end) / 2.0
    hot = max(answer.states, key=lambda state: state.at(answer.line.name, middle).temperature)
    strain = expansion.at(hot.at(answer.line.name, middle).temperature) - expansion.at(study.site.installation)
    straight = float(np.linalg.norm(route.point(stretch.end) - route.point(stretch.start)))
    because = _beyond_the_rule(answer, stretch)
    if because:
        words = f"{because}, which the rule does not allow for: formal analysis needed"
        return RULE.result(stretch.name, hot.name, "not covered", words)
    try:
        value = screening_value(pipe.size.outside_diameter, strain * straight, stretch.end - stretch.start, straight)
    except OutOfRange as reason:
        return RULE.result(stretch.name, hot.name, "not covered", str(reason))
    words = "L along the legs, U between the anchors, Y the growth of U"
    result = RULE.judge(stretch.name, hot.name, value * 1e6, SCREENING_LIMIT * 1e6, _UNIT, because=words)
    if result.outcome != "fails":
        return result
    words = f"{value * 1e6:.0f} is above {SCREENING_LIMIT * 1e6:.1f}: formal analysis needed"
    return RULE.result(stretch.name, hot.name, "not covered", words)
