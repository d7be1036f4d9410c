"""Demand over capacity, and the verdict that many checks make.     (tests/unit/checks/test_outcome.py)"""

from __future__ import annotations

import math

import pytest

from takeup.checks import CheckResult, Outcome, Rule
from takeup.checks.outcome import outcome_of, use_of, worst
from takeup.results import verdict_of

RULE = Rule(name="r", title="a rule", what="", why="", source="invented", limits="")
SIDE = Rule(name="s", title="a remark", what="", why="", source="invented", limits="", mandatory=False)


def judged(demand: float, capacity: float | None, rule: Rule = RULE) -> CheckResult:
    return rule.judge("A1", "operating", demand, capacity, "N", because="reason")


def said(outcome: Outcome, rule: Rule = RULE) -> CheckResult:
    return rule.result("A1", "operating", outcome, "reason")


@pytest.mark.parametrize(
    ("demand", "capacity", "use", "outcome"),
    [
        (80.0, 120.0, 80 / 120, "passes"),
        (90.0, 100.0, 0.9, "passes"),
        (90.1, 100.0, 0.901, "close"),
        (100.0, 100.0, 1.0, "close"),
        (100.0001, 100.0, 1.000001, "fails"),
        (0.0, 0.0, 0.0, "passes"),
        (1.0, 0.0, math.inf, "fails"),
    ],
)
def test_use_and_outcome(demand: float, capacity: float, use: float, outcome: str):
    assert use_of(demand, capacity) == pytest.approx(use, rel=1e-12)  # one division
    assert judged(demand, capacity).outcome == outcome


def test_full_to_rounding_is_full_not_over():
    assert outcome_of(0.1 * 3 / 0.3) == "close"


def test_without_a_capacity_the_demand_is_kept_and_no_use_is_made_up():
    result = judged(80.0, None)
    assert (result.outcome, result.demand, result.capacity, result.use) == ("no limit given", 80.0, None, None)


def test_the_worst_has_the_greatest_use():
    assert worst([judged(1, 2), said("passes"), judged(3, 2)]).demand == 3


@pytest.mark.parametrize(
    ("results", "outcome"),
    [
        ((judged(1, 2),), "passes"),
        ((), "passes"),
        ((judged(1, 2), judged(1.9, 2)), "close"),
        ((judged(1.9, 2), judged(1, None)), "not proved"),
        ((judged(1, 2), said("not covered")), "not proved"),
        ((judged(1, 2), said("not covered", SIDE)), "passes"),
        ((judged(3, 2), said("not covered")), "fails"),
        ((judged(3, 2, SIDE),), "fails"),
    ],
)
def test_the_verdict_of_a_set_of_checks(results: tuple[CheckResult, ...], outcome: str):
    assert verdict_of(results).outcome == outcome


def test_a_failing_verdict_names_failures_first_and_then_what_is_not_proved():
    verdict = verdict_of((said("not covered"), judged(3, 2)))
    assert verdict.because == (
        "a rule, A1, operating: reason",
        "not proved: a rule, A1, operating: reason",
    )


def test_a_line_that_is_not_solved_fails():
    verdict = verdict_of((), ("not solved: the line can move freely along (1, 0, 0)",))
    assert verdict.outcome == "fails"
    assert "can move freely" in verdict.because[0]
