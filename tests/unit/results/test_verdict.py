"""The verdict gives one reason for each check and place, however many states it fails in."""

from __future__ import annotations

from takeup.checks import CheckResult
from takeup.results import verdict_of


def result(state: str, outcome: str, *, where: str = "north anchor", mandatory: bool = True) -> CheckResult:
    """A check of an invented anchor."""
    return CheckResult(
        rule="hold-capacity",
        title="anchor and hold capacity",
        where=where,
        state=state,
        demand=2.0,
        capacity=1.0,
        unit="N",
        use=2.0,
        outcome=outcome,
        because="it carries 1 N",
        source="invented for a test",
        status="",
        mandatory=mandatory,
    )


def test_states_of_one_check_at_one_place_are_one_reason():
    """Three rows in two states: the first, and one other state."""
    rows = (result("hot", "fails"), result("hot", "fails"), result("cold", "fails"))
    verdict = verdict_of((*rows, result("cold", "fails", where="south anchor")))
    assert verdict.because == (
        "anchor and hold capacity, north anchor, hot and 1 other state: it carries 1 N",
        "anchor and hold capacity, south anchor, cold: it carries 1 N",
    )


def test_reasons_of_different_outcomes_stay_apart():
    """What fails comes first; what was not covered at the same place is a reason of its own."""
    verdict = verdict_of((result("hot", "fails"), result("cold", "not covered"), result("warm", "not covered")))
    assert verdict.outcome == "fails"
    assert verdict.because == (
        "anchor and hold capacity, north anchor, hot: it carries 1 N",
        "not proved: anchor and hold capacity, north anchor, cold and 1 other state: it carries 1 N",
    )
