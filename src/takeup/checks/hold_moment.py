"""The moment on each anchor against the moment it can carry.     (checks/hold_moment.py)

What: the resultant moment of every anchor whose moment capacity is stated, greatest over the states. Why: a foot is
bent off its bolts by a moment that its force capacity says nothing of. Source: first principles. Limits: force and
moment are judged apart, without interaction; no friction in the moment. Passes: 4 kN m of 6 kN m. Fails: 9 kN m of it.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.study import LineAnswer

RULE = Rule(
    name="hold_moment",
    title="anchor moment capacity",
    what="greatest resultant moment on an anchor over all states, against the stated capacity",
    why="a moment bends the foot of an anchor off its bolts, whatever force it can carry",
    source="first principles",
    limits="anchors whose moment capacity is stated; apart from the force; friction has no part in it",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of every anchor with a stated moment capacity."""
    line = answer.line
    stated = {end.name: end.can_carry_moment for end in (line.start, line.end)}
    stated |= {hold.name: hold.can_carry_moment for hold in line.holds}
    results = []
    for hold in answer.holds:
        limit = stated.get(hold.name)
        if limit is None:
            continue
        vectors = hold.total[:, 3:]
        moments = np.linalg.norm(vectors, axis=1)
        number = governing(moments)
        x, y, z = vectors[number] / 1e3
        words = f"about the axes to the east, to the north and up {x:+.2f}, {y:+.2f}, {z:+.2f} kN m"
        results.append(
            RULE.judge(
                hold.name,
                answer.states[number].name,
                float(moments[number]),
                limit,
                "N m",
                because=words,
                status="user's data",
            )
        )
    return results
