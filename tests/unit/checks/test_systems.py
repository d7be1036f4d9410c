"""Rules that look beyond one pipe between two anchors.     (tests/unit/checks/test_systems.py)"""

from __future__ import annotations

import pytest
from tests.example_studies import walked

from takeup.checks import CheckResult, run_checks


@pytest.fixture(scope="module")
def rows() -> tuple[CheckResult, ...]:
    return run_checks(walked("orrin-bank-turbine-steam"))


def of(rows: tuple[CheckResult, ...], rule: str, where: str) -> CheckResult:
    (row,) = [row for row in rows if row.rule == rule and where in row.where]
    return row


@pytest.mark.parametrize(
    ("where", "because"),
    [
        ("boiler header to drying hall", "ST-02 leaves the span"),
        ("turbine branch to turbine inlet", "the span ends at turbine branch, no anchor"),
    ],
)
def test_screening_is_for_one_size_between_two_anchors(rows: tuple[CheckResult, ...], where: str, because: str):
    """ASME B31.1 119.7: uniform size, two points of fixation, no restraint between."""
    row = of(rows, "screening", where)
    assert (row.outcome, row.mandatory) == ("not covered", False)
    assert because in row.because


def test_equipment_is_judged_by_its_nozzle_not_asked_for_a_capacity(rows: tuple[CheckResult, ...]):
    assert of(rows, "nozzle_limits", "turbine inlet").outcome == "passes"
    assert not [row for row in rows if row.rule == "hold_capacity" and row.where == "turbine inlet"]


def test_the_lean_of_an_eccentric_reducer_is_no_riser(rows: tuple[CheckResult, ...]):
    """The level main is spanned all along, past the reducer that drops by half of 219.1 - 168.3 mm in 152 mm."""
    main = [row for row in rows if row.rule == "support_span" and "ST-01" in row.where]
    assert {row.outcome for row in main} <= {"passes", "close"}
