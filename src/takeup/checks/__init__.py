"""The checks: one rule a file; `run_checks` runs them all, worst first.     (checks/__init__.py)"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from takeup.checks import (
    anchor_claim,
    drainage,
    expansion_stress,
    guide_spacing,
    hanger_travel,
    hold_capacity,
    hold_moment,
    joint_limits,
    joint_movement,
    joint_torsion,
    lift_off,
    not_run,
    nozzle_limits,
    occasional_stress,
    one_joint_per_span,
    other_side,
    risers,
    screening,
    slope_kept,
    spider_weight,
    stability,
    states_left_out,
    support_span,
    sustained_stress,
    thrust_held,
    verification,
    wall_for_pressure,
    wall_stress,
)
from takeup.checks.hold_capacity import design_forces
from takeup.checks.outcome import CheckResult, Outcome, Rule, governing
from takeup.study import LineAnswer, Solved, StateStability, stability_of

__all__ = ["RULES", "CheckResult", "Outcome", "Rule", "design_forces", "governing", "run_checks"]

RULES: tuple[Rule, ...] = (
    thrust_held.RULE,
    one_joint_per_span.RULE,
    anchor_claim.RULE,
    hold_capacity.RULE,
    hold_moment.RULE,
    nozzle_limits.RULE,
    other_side.RULE,
    joint_movement.RULE,
    joint_torsion.RULE,
    joint_limits.PRESSURE,
    joint_limits.TEMPERATURE,
    joint_limits.CYCLES,
    guide_spacing.RULE,
    support_span.RULE,
    spider_weight.RULE,
    hanger_travel.TRAVEL,
    hanger_travel.VARIABILITY,
    lift_off.RULE,
    wall_for_pressure.RULE,
    sustained_stress.RULE,
    expansion_stress.RULE,
    occasional_stress.RULE,
    wall_stress.RULE,
    screening.RULE,
    slope_kept.RULE,
    drainage.RULE,
    risers.RULE,
    stability.RULE,
    states_left_out.RULE,
    verification.RULE,
    not_run.FRICTION,
)
_OF_A_LINE: tuple[Callable[[LineAnswer], list[CheckResult]], ...] = (
    thrust_held.check,
    one_joint_per_span.check,
    anchor_claim.check,
    hold_capacity.check,
    hold_moment.check,
    nozzle_limits.check,
    other_side.check,
    joint_movement.check,
    joint_torsion.check,
    joint_limits.check,
    guide_spacing.check,
    support_span.check,
    spider_weight.check,
    hanger_travel.check,
    lift_off.check,
    wall_for_pressure.check,
    sustained_stress.check,
    expansion_stress.check,
    occasional_stress.check,
    wall_stress.check,
    screening.check,
    slope_kept.check,
    drainage.check,
    risers.check,
    not_run.check,
)
_ORDER: tuple[Outcome, ...] = ("fails", "not covered", "no limit given", "close", "passes")


def run_checks(solved: Solved, states: Sequence[StateStability] | None = None) -> tuple[CheckResult, ...]:
    """Return every check's results, worst first: failures, what did not run, then by use.

    Args:
        solved: the model's answer.
        states: the stability of its states, where it is known already.
    """
    results = [result for line in solved.lines for check in _OF_A_LINE for result in check(line)]
    results += stability.check(solved, stability_of(solved) if states is None else states)
    results += [*states_left_out.check(solved), *verification.check(solved)]
    return tuple(sorted(results, key=lambda item: (_ORDER.index(item.outcome), -round(item.use or 0.0, 9))))
