"""Whether the answer to every state was verified.     (checks/verification.py)

What: residual from member end forces and last correction of every state, within their limits. Why: a number that was
not verified is no result. Source: mechanics/solve.py. Limits: none. Passes: residual 1e-12. Fails: a state refused.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule
from takeup.study import Solved

RULE = Rule(
    name="verification",
    title="equilibrium of every state",
    what="the largest out-of-balance force of each state over the largest member end force, against 1e-9",
    why="a number that was not verified is no result",
    source="the solver's own limit",
    limits="shows that the equations are solved, not that they are the right ones",
)
LIMIT = 1e-9
WHERE = "all lines"


def check(solved: Solved) -> list[CheckResult]:
    """Return the worst state."""
    number = int(solved.residual.argmax())
    if not solved.verified.all():
        failing = [state.name for state, ok in zip(solved.states, solved.verified, strict=True) if not ok]
        return [RULE.result(WHERE, ", ".join(failing), "fails", solved.because)]
    state, residual = solved.states[number].name, float(solved.residual[number])
    words = f"condition of the scaled matrix about {solved.condition:.0e}"
    return [RULE.judge(WHERE, state, residual, LIMIT, "of the largest end force", because=words)]
