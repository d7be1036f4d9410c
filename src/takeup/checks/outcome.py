"""What a check returns, and how a demand is held against a capacity.     (checks/outcome.py)

Outcomes: passes, close (use above 0.9), fails (use above 1), not covered (it did not run, `because` says why), no
limit given (the user has not said what the thing can take). A study passes only if every mandatory check ran.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Outcome = Literal["passes", "close", "fails", "not covered", "no limit given"]
CLOSE = 0.9
_ROUNDING = 1e-9  # a demand that equals its capacity to rounding is full, not over


@dataclass(frozen=True, kw_only=True, slots=True)
class CheckResult:
    """One check at one place in one state; demand and capacity in `unit`.

    Args:
        rule: name of the rule, as its file is called.
        title: the rule in words.
        where: the hold, joint or stretch.
        state: the state that governs.
        demand: what is asked.
        capacity: what can be given; None where nobody said or nothing applies.
        unit: of both.
        use: demand over capacity; None where there is no capacity.
        outcome: as the module header says.
        because: in words.
        source: of the rule or limit.
        status: "from memory" or "user's data" where the limit rests on it.
        mandatory: whether a study cannot pass without it.
    """

    rule: str
    title: str
    where: str
    state: str
    demand: float | None
    capacity: float | None
    unit: str
    use: float | None
    outcome: Outcome
    because: str
    source: str
    status: str = ""
    mandatory: bool = True


@dataclass(frozen=True, kw_only=True, slots=True)
class Rule:
    """What a check's file says of itself; the docs page is made from it."""

    name: str
    title: str
    what: str
    why: str
    source: str
    limits: str
    mandatory: bool = True

    def result(
        self, where: str, state: str, outcome: Outcome, because: str, *, unit: str = "", status: str = ""
    ) -> CheckResult:
        """Return a result without numbers."""
        return CheckResult(
            rule=self.name,
            title=self.title,
            where=where,
            state=state,
            demand=None,
            capacity=None,
            unit=unit,
            use=None,
            outcome=outcome,
            because=because,
            source=self.source,
            status=status,
            mandatory=self.mandatory,
        )

    def judge(
        self,
        where: str,
        state: str,
        demand: float,
        capacity: float | None,
        unit: str,
        *,
        because: str,
        status: str = "",
    ) -> CheckResult:
        """Hold a demand against a capacity.

        Args:
            where: the place.
            state: the state.
            demand: not below zero.
            capacity: None: nobody said.
            unit: of both.
            because: in words.
            status: of the limit.
        """
        blank = self.result(where, state, "no limit given", because, unit=unit, status=status)
        if capacity is None:
            return replace(blank, demand=demand)
        use = use_of(demand, capacity)
        return replace(blank, demand=demand, capacity=capacity, use=use, outcome=outcome_of(use))


def governing_row(rows: list[CheckResult]) -> CheckResult:
    """Return the row that speaks for all: the greatest demand without a limit, else the one with the greatest use."""
    unlimited = [row for row in rows if row.outcome == "no limit given"]
    return max(unlimited, key=lambda row: row.demand or 0.0) if unlimited else worst(rows)


def use_of(demand: float, capacity: float) -> float:
    """Return demand over capacity; infinite where something is asked of nothing."""
    if demand <= 0.0:
        return 0.0
    return demand / capacity if capacity > 0.0 else math.inf


def outcome_of(use: float) -> Outcome:
    """Return the outcome that goes with a use."""
    if use > 1.0 + _ROUNDING:
        return "fails"
    return "close" if use > CLOSE else "passes"


def governing(values: NDArray[np.float64]) -> int:
    """Return the number of the first value within rounding of the greatest, so that a tie never turns on the last bit.

    Args:
        values: one for each state, (states,).
    """
    greatest = float(values.max())
    return int(np.argmax(values >= greatest - _ROUNDING * abs(greatest)))


def worst(results: list[CheckResult]) -> CheckResult:
    """Return the result with the greatest use, one that fails without a number before all; the first where none has."""

    def rank(item: CheckResult) -> float:
        if item.use is None:
            return math.inf if item.outcome == "fails" else -1.0
        return round(item.use, 9)

    return max(results, key=rank)
