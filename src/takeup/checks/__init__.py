"""The checks: one rule a file; `run_checks` runs them all, worst first.     (checks/__init__.py)"""

from __future__ import annotations

from collections.abc import Callable

from takeup.checks import (
    anchor_claim,
    expansion_stress,
    guide_spacing,
    hold_capacity,
    joint_limits,
    joint_movement,
    lift_off,
    not_run,
    occasional_stress,
    one_joint_per_span,
    screening,
    spider_weight,
    support_span,
    sustained_stress,
    thrust_held,
    verification,
    wall_stress,
)
from takeup.checks.hold_capacity import design_forces
from takeup.checks.outcome import CheckResult, Outcome, Rule, governing
from takeup.study import LineAnswer, Solved

__all__ = ["RULES", "CheckResult", "Outcome", "Rule", "design_forces", "governing", "run_checks"]

RULES: tuple[Rule, ...] = (
    thrust_held.RULE,
    one_joint_per_span.RULE,
    anchor_claim.RULE,
    hold_capacity.RULE,
    joint_movement.RULE,
    joint_limits.PRESSURE,
    joint_limits.TEMPERATURE,
    joint_limits.CYCLES,
    guide_spacing.RULE,
    support_span.RULE,
    spider_weight.RULE,
    lift_off.RULE,
    sustained_stress.RULE,
    expansion_stress.RULE,
    occasional_stress.RULE,
    wall_stress.RULE,
    screening.RULE,
    verification.RULE,
    not_run.STABILITY,
    not_run.FRICTION,
)
_OF_A_LINE: tuple[Callable[[LineAnswer], list[CheckResult]], ...] = (
    thrust_held.check,
    one_joint_per_span.check,
    anchor_claim.check,
    hold_capacity.check,
    joint_movement.check,
    joint_limits.check,
    guide_spacing.check,
    support_span.check,
    spider_weight.check,
    lift_off.check,
    sustained_stress.check,
    expansion_stress.check,
    occasional_stress.check,
    wall_stress.check,
    screening.check,
    not_run.check,
)
_ORDER: tuple[Outcome, ...] = ("fails", "not covered", "no limit given", "close", "passes")


def run_checks(solved: Solved) -> tuple[CheckResult, ...]:
    """Return every check's results, worst first: failures, what did not run, then by use.

    Args:
        solved: the model's answer.
    """
    results = [result for line in solved.lines for check in _OF_A_LINE for result in check(line)]
    results += verification.check(solved)
    return tuple(sorted(results, key=lambda item: (_ORDER.index(item.outcome), -round(item.use or 0.0, 9))))
