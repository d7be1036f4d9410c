"""Friction walked through the states in order.     (checks/friction_walk.py)

What: whether the walk at low and at high friction reached every state, for every set of rates. Why: what friction
leaves in an anchor depends on what came first, pressure or heat. Source: Coulomb, first principles. Limits: one
coefficient at rest and sliding; friction at installation is zero unless the file has it locked in. Passes: every walk
converged.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule
from takeup.study import Walked

RULE = Rule(
    name="friction_walk",
    title="friction, walked through the states in order",
    what="whether every walk, at low and at high friction, with stiffer and softer joints, reached every state",
    why="the sign and share of what friction leaves in an anchor depend on what came first, pressure or heat",
    source="Coulomb's law; first principles",
    limits="one coefficient, at rest and sliding; none at installation unless the file has it locked in",
)


def check(walked: Walked) -> list[CheckResult]:
    """Return whether friction was walked to the end; nothing where nothing rubs.

    Args:
        walked: every scenario.
    """
    if walked.unique is None:
        return []
    where = "all lines" if len(walked.base.lines) > 1 else walked.base.lines[0].line.name
    lost = list(walked.because)
    lost += [f"{one.words}: {one.because}" for one in walked.combinations if one.because]
    if lost:
        more = "" if len(lost) == 1 else f" (and {len(lost) - 1} more walks)"
        return [RULE.result(where, "all states", "not covered", f"{lost[0]}{more}")]
    words = f"{len(walked.combinations)} walks of {len(walked.way.to)} steps, friction and spring rates high and low"
    told = "shown" if walked.unique else "not shown"
    return [RULE.result(where, "all states", "passes", f"{words}; that each has one answer only is {told}")]
