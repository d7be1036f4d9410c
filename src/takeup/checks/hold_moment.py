"""The moment on each anchor against the moment it can carry.     (checks/hold_moment.py)

What: the resultant moment of every anchor, greatest over the states. Why: a foot is
bent off its bolts by a moment that its force capacity says nothing of. Source: first principles. Limits: force and
moment are judged apart, without interaction; no friction in the moment. Passes: 4 kN m of 6 kN m. Fails: 9 kN m of it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.study import LineAnswer

RULE = Rule(
    name="hold_moment",
    title="anchor moment capacity",
    what="greatest resultant moment on an anchor over all states, against the stated capacity",
    why="a moment bends the foot of an anchor off its bolts, whatever force it can carry",
    source="first principles",
    limits="apart from the force; no friction in it; a capacity that nobody stated is said, and stops no study",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of every anchor; one whose moment capacity nobody stated does not stop a study."""
    line = answer.line
    stated = {end.name: end.can_carry_moment for end in (line.start, line.end)}
    stated |= {hold.name: hold.can_carry_moment for hold in line.holds}
    judged = {end.name for end in (line.start, line.end) if end.nozzle is not None}  # by the nozzle's own limits
    results = []
    for hold in answer.holds:
        limit = stated.get(hold.name)
        if not hold.takes_moments or hold.name in judged:
            continue
        vectors = hold.total[:, 3:]
        moments = np.linalg.norm(vectors, axis=1)
        number = governing(moments)
        x, y, z = vectors[number] / 1e3
        words = f"about the axes to the east, to the north and up {x:+.2f}, {y:+.2f}, {z:+.2f} kN m"
        if limit is None:
            words += "; what it can carry in moment is not stated"
        row = RULE.judge(
            hold.name,
            answer.states[number].name,
            float(moments[number]),
            limit,
            "N m",
            because=words,
            status="" if limit is None else "user's data",
        )
        results.append(replace(row, mandatory=limit is not None))
    return results
