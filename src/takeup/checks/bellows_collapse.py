"""Pressure outside a bellows against a third of its elastic collapse.     (checks/bellows_collapse.py)

What: the pressure outside each bellows of known geometry (vacuum, or the line's own in an externally pressurised
joint), every state, against a third of its elastic collapse: of its convolutions as rings, or of the shell's folding
where that is less. Why: rings and walls under pressure from outside fold. Source: EN 13445-3 cl. 14.5.2 for the ring,
ASME VIII-1 UG-28 for the factor of three; from memory; shell, own analysis. Limits: elastic, without imperfection; S2
by the rule on stresses. Passes: full vacuum on two plies of 0.8 mm. Fails: the line's 18 bar outside one ply of 0.08
mm.
"""

from __future__ import annotations

from takeup.checks.bellows_states import judged
from takeup.checks.outcome import CheckResult, Rule
from takeup.study import LineAnswer

RULE = Rule(
    name="bellows_collapse",
    title="bellows under pressure from outside",
    what="the pressure outside a bellows of known geometry against a third of the elastic collapse, "
    "the lesser of its convolutions as rings and of the shell",
    why="rings and walls under pressure from outside fold",
    source="ring of EN 13445-3 cl. 14.5.2, factor of three of ASME VIII-1 UG-28 (from memory); shell by own analysis",
    limits="elastic, without imperfection; yielding by the rule on stresses of bellows",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of each bellows of known geometry."""
    return judged(RULE, answer, "collapse, pressure from outside")
