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
from takeup.line import Zone
from takeup.study import Solved

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


def check(solved: Solved) -> list[CheckResult]:
    """Return one result for each span with bends and no joint."""
    results = []
    for zone in solved.model.zones:
        bends = [turn for turn in solved.model.route.turns if zone.start < turn.station < zone.end]
        joints = [joint for joint in solved.joints if zone.start < joint.station < zone.end]
        if bends and not joints:
            results.append(_span(solved, zone))
    return results


def _span(solved: Solved, zone: Zone) -> CheckResult:
    route, pipe, study = solved.model.route, solved.study.line.pipe, solved.study
    number = solved.model.zones.index(zone)
    expansion = pipe.material.expansion
    hot = max(solved.states, key=lambda state: state.zones[number].temperature)
    strain = expansion.at(hot.zones[number].temperature) - expansion.at(study.site.installation)
    straight = float(np.linalg.norm(route.point(zone.end) - route.point(zone.start)))
    held = [h.name for h in solved.holds if zone.start < h.station < zone.end and h.kind.endswith("guide")]
    if held:
        words = f"{held[0]} stands between the anchors, which the rule does not allow for: formal analysis needed"
        return RULE.result(zone.name, hot.name, "not covered", words)
    try:
        value = screening_value(pipe.size.outside_diameter, strain * straight, zone.end - zone.start, straight)
    except OutOfRange as reason:
        return RULE.result(zone.name, hot.name, "not covered", str(reason))
    words = "L along the legs, U between the anchors, Y the growth of U"
    result = RULE.judge(zone.name, hot.name, value * 1e6, SCREENING_LIMIT * 1e6, _UNIT, because=words)
    if result.outcome != "fails":
        return result
    words = f"{value * 1e6:.0f} is above {SCREENING_LIMIT * 1e6:.1f}: formal analysis needed"
    return RULE.result(zone.name, hot.name, "not covered", words)
