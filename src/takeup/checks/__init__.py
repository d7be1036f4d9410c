"""The checks: one rule a file; `run_checks` runs them all, worst first.     (checks/__init__.py)"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from takeup.checks import (
    anchor_claim,
    balance_left,
    balance_ties,
    bellows_collapse,
    bellows_column_squirm,
    bellows_in_plane_squirm,
    bellows_life,
    bellows_stress,
    clearance_bow,
    cover,
    drainage,
    expansion_stress,
    friction_walk,
    guide_design_load,
    guide_spacing,
    hanger_travel,
    hardware_stress,
    hold_capacity,
    hold_moment,
    joint_limits,
    joint_movement,
    joint_parts,
    joint_torsion,
    lift_off,
    liner,
    nozzle_limits,
    occasional_stress,
    one_joint_per_span,
    other_side,
    pins,
    pins_way,
    risers,
    rods,
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
from takeup.checks.stress_points import StretchPoints, stretches_with_points
from takeup.study import Bowing, LineAnswer, Walked, bowing_of

__all__ = [
    "RULES",
    "CheckResult",
    "Outcome",
    "Rule",
    "design_forces",
    "failing_at_once",
    "governing",
    "run_checks",
]

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
    rods.RULE,
    pins.RULE,
    pins_way.RULE,
    balance_ties.RULE,
    balance_left.RULE,
    joint_parts.RULE,
    hardware_stress.RULE,
    joint_limits.PRESSURE,
    joint_limits.TEMPERATURE,
    joint_limits.CYCLES,
    liner.RULE,
    cover.RULE,
    bellows_column_squirm.RULE,
    bellows_in_plane_squirm.RULE,
    bellows_collapse.RULE,
    bellows_stress.RULE,
    bellows_life.RULE,
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
    clearance_bow.RULE,
    guide_design_load.RULE,
    states_left_out.RULE,
    verification.RULE,
    friction_walk.RULE,
)
_Check = Callable[[LineAnswer], list[CheckResult]]
_OF_A_LINE: tuple[_Check, ...] = (
    thrust_held.check,
    one_joint_per_span.check,
    anchor_claim.check,
    hold_capacity.check,
    hold_moment.check,
    nozzle_limits.check,
    other_side.check,
    joint_movement.check,
    joint_torsion.check,
    rods.check,
    pins.check,
    pins_way.check,
    balance_ties.check,
    balance_left.check,
    joint_parts.check,
    hardware_stress.check,
    joint_limits.check,
    liner.check,
    cover.check,
    bellows_column_squirm.check,
    bellows_in_plane_squirm.check,
    bellows_collapse.check,
    bellows_stress.check,
    bellows_life.check,
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
)
_AT_POINTS: dict[_Check, Callable[[LineAnswer, StretchPoints], list[CheckResult]]] = {
    check: check
    for check in (wall_stress.check, sustained_stress.check, occasional_stress.check, expansion_stress.check)
}
_ORDER: tuple[Outcome, ...] = ("fails", "not covered", "no limit given", "close", "passes")


def run_checks(walked: Walked, bowing: Bowing | None = None) -> tuple[CheckResult, ...]:
    """Return every check's results, worst first: failures, what did not run, then by use.

    Every scenario is looked at; a rule says at each place what is worst of all.

    Args:
        walked: every scenario.
        bowing: stability and second order, where they are known already.
    """
    combined = {row.where: row for row in hold_capacity.check_combinations(walked)}
    results = [
        row for row in _worst_of_scenarios(walked) if row.rule != hold_capacity.RULE.name or row.where not in combined
    ]
    results += combined.values()
    beyond = bowing_of(walked) if bowing is None else bowing
    results += stability.check(walked.base, beyond.states, beyond.swings)
    results += clearance_bow.check(walked.base, beyond.states, beyond.bows)
    results += guide_design_load.check(walked.base.study, beyond.guides)
    results += [*states_left_out.check(walked.base), *friction_walk.check(walked)]
    results.append(min((row for one in walked.scenarios for row in verification.check(one)), key=_rank))
    return tuple(sorted(results, key=_rank))


def failing_at_once(alone: Walked) -> Iterator[tuple[CheckResult, ...]]:
    """Yield what fails without friction, in two stages, each as soon as it is known; the whole study fails of it too.

    Friction and the scatter of rates only make the whole study look at more: a rule says what is worst of all. First
    what the walk says, then stability and what a bow does, which takes longer.

    Args:
        alone: the scenario without friction (`Begun.alone`).
    """
    yield tuple(row for row in sorted(_worst_of_scenarios(alone), key=_rank) if row.outcome == "fails")
    beyond = bowing_of(alone)
    rows = [
        *stability.check(alone.base, beyond.states, beyond.swings),
        *clearance_bow.check(alone.base, beyond.states, beyond.bows),
    ]
    yield tuple(row for row in sorted(rows, key=_rank) if row.outcome == "fails")


def _rank(item: CheckResult) -> tuple[int, float]:
    return _ORDER.index(item.outcome), -round(item.use or 0.0, 9)


def _worst_of_scenarios(walked: Walked) -> Iterator[CheckResult]:
    """Yield of each rule and place the results of the scenario that is worst there; where all agree, of the first."""
    best: dict[tuple[str, str], tuple[tuple[int, float], list[CheckResult]]] = {}
    places = {line.line.name: stretches_with_points(line) for line in walked.base.lines}
    for one in walked.scenarios:
        groups: dict[tuple[str, str], list[CheckResult]] = {}
        for line in one.lines:
            for check in _OF_A_LINE:
                at_points = _AT_POINTS.get(check)
                for result in check(line) if at_points is None else at_points(line, places[line.line.name]):
                    groups.setdefault((result.rule, result.where), []).append(result)
        for key, rows in groups.items():
            rank = min(_rank(row) for row in rows)
            if key not in best or rank < best[key][0]:
                best[key] = rank, rows if one is walked.base else [_at(row, one.scenario) for row in rows]
    for _, rows in best.values():
        yield from rows


def _at(row: CheckResult, scenario: str) -> CheckResult:
    return replace(row, because=f"{row.because} ({scenario})")
