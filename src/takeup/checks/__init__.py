"""The checks: one rule a file; `run_checks` runs them all, worst first.     (checks/__init__.py)"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

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
from takeup.study import Bowing, LineAnswer, Solved, Walked, bowing_of

__all__ = [
    "RULES",
    "Alone",
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
_Groups = dict[tuple[str, str], list[CheckResult]]
"""Results by rule and place."""
_ORDER: tuple[Outcome, ...] = ("fails", "not covered", "no limit given", "close", "passes")


def run_checks(walked: Walked, bowing: Bowing | None = None, alone: Alone | None = None) -> tuple[CheckResult, ...]:
    """Return every check's results, worst first: failures, what did not run, then by use.

    Every scenario is looked at; a rule says at each place what is worst of all.

    Args:
        walked: every scenario.
        bowing: stability and second order, where they are known already.
        alone: what was looked at already without friction; None for nothing.
    """
    combined = {row.where: row for row in hold_capacity.check_combinations(walked)}
    known = _worst_of_scenarios(walked, alone)
    results = [row for row in known if row.rule != hold_capacity.RULE.name or row.where not in combined]
    results += combined.values()
    beyond = bowing_of(walked) if bowing is None else bowing
    results += stability.check(walked.base, beyond.states, beyond.swings)
    results += clearance_bow.check(walked.base, beyond.states, beyond.bows)
    results += guide_design_load.check(walked.base.study, beyond.guides)
    results += [*states_left_out.check(walked.base), *friction_walk.check(walked)]
    results.append(min((row for one in walked.scenarios for row in verification.check(one)), key=_rank))
    return tuple(sorted(results, key=_rank))


@dataclass
class Alone:
    """The scenario without friction looked at by itself, and what is found of it as it is asked for.

    Friction and the scatter of rates only make the whole study look at more, and a rule says what is worst of all: what
    fails here fails there too, and what was found here need not be worked out again there.

    Args:
        walked: the scenario as if it were all (`Begun.alone`).
    """

    walked: Walked

    @cached_property
    def groups(self) -> _Groups:
        """What every check of a line says of it, by rule and place."""
        return _groups(self.walked.base, _places(self.walked))

    @cached_property
    def bowing(self) -> Bowing:
        """Stability, and what a bow does."""
        return bowing_of(self.walked)


def failing_at_once(alone: Alone) -> Iterator[tuple[CheckResult, ...]]:
    """Yield what fails without friction, in two stages, each as soon as it is known; the whole study fails of it too.

    First what the walk says, then stability and what a bow does, which takes longer.

    Args:
        alone: the scenario without friction.
    """
    rows = [row for own in alone.groups.values() for row in own]
    yield tuple(row for row in sorted(rows, key=_rank) if row.outcome == "fails")
    base, beyond = alone.walked.base, alone.bowing
    rows = [
        *stability.check(base, beyond.states, beyond.swings),
        *clearance_bow.check(base, beyond.states, beyond.bows),
    ]
    yield tuple(row for row in sorted(rows, key=_rank) if row.outcome == "fails")


def _rank(item: CheckResult) -> tuple[int, float]:
    return _ORDER.index(item.outcome), -round(item.use or 0.0, 9)


def _worst_of_scenarios(walked: Walked, alone: Alone | None) -> Iterator[CheckResult]:
    """Yield of each rule and place the results of the scenario that is worst there; where all agree, of the first."""
    best: dict[tuple[str, str], tuple[tuple[int, float], list[CheckResult]]] = {}
    places = _places(walked)
    for one in walked.scenarios:
        known = alone is not None and one is alone.walked.base
        groups = alone.groups if alone is not None and known else _groups(one, places)
        for key, rows in groups.items():
            rank = min(_rank(row) for row in rows)
            if key not in best or rank < best[key][0]:
                best[key] = rank, rows if one is walked.base else [_at(row, one.scenario) for row in rows]
    for _, rows in best.values():
        yield from rows


def _places(walked: Walked) -> dict[str, StretchPoints]:
    """Return the points of every line, which are the same in every scenario."""
    return {line.line.name: stretches_with_points(line) for line in walked.base.lines}


def _groups(one: Solved, places: Mapping[str, StretchPoints]) -> _Groups:
    """Return what every check of a line says of one scenario, by rule and place."""
    groups: _Groups = {}
    for line in one.lines:
        for check in _OF_A_LINE:
            at_points = _AT_POINTS.get(check)
            for result in check(line) if at_points is None else at_points(line, places[line.line.name]):
                groups.setdefault((result.rule, result.where), []).append(result)
    return groups


def _at(row: CheckResult, scenario: str) -> CheckResult:
    return replace(row, because=f"{row.because} ({scenario})")
