"""Rules on bellows of known geometry: each passes and fails once.     (tests/unit/checks/test_bellows_rules.py)

The line goes from 70 to 400 degF at 12 bar, is tested at 18 bar and may come under vacuum. The published forms that the
rules ask are held to printed and independent numbers in tests/published/test_bellows_forms.py.
"""

from __future__ import annotations

import math

import pytest
from tests.builders import checks, joint, joint_by_geometry, line_file, rule, study_of

from takeup.checks import CheckResult

GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
WEST = "west end + 1.2 m"
UNDER_TEST = "under hydrostatic test"


def text_of(takeup: str) -> str:
    """Return the text of a straight line with one joint."""
    return line_file(["12 m east"], holds=GUIDED, takeups=(takeup,))


def one(name: str, kind: str = "single axial", **changes: str | None) -> CheckResult:
    """Return the one result of a rule for a line with one joint."""
    [result] = checks(text_of(joint_by_geometry("J1", WEST, kind=kind, **changes)), f"bellows_{name}")
    return result


def test_joint_with_typed_in_rates_has_no_such_rows():
    text = text_of(joint("J1", WEST))
    for name in ("column_squirm", "in_plane_squirm", "collapse", "stress", "life"):
        assert checks(text, f"bellows_{name}") == []


@pytest.mark.parametrize(("count", "outcome"), [("6", "passes"), ("12", "fails")])
def test_column_squirm_is_held_against_the_published_limit(count, outcome):
    result = one("column_squirm", convolutions=count)
    assert (result.outcome, result.state, result.demand, result.unit) == (outcome, UNDER_TEST, 18.0, "bar")


def test_column_squirm_of_six_convolutions_by_hand():
    """p_sc = 0.34 pi K/(N q) with the form's K, the test being as cold as the rates but for 1.1 K: a thousandth."""
    bellows = study_of(text_of(joint_by_geometry("J1", WEST))).lines[0].takeups[0].bellows
    assert bellows is not None
    rate = bellows.formula["axial"]
    assert rate is not None
    by_hand = 0.34 * math.pi * rate / (6 * 0.028)
    assert one("column_squirm").capacity == pytest.approx(by_hand / 1e5, rel=1e-3)


def test_column_squirm_outside_the_charts_has_the_shells_stiffness():
    """q/(2 w) = 1.25: no chart. The limit is then the form's with what the shell gives, and says so."""
    result = one("column_squirm", convolution_height="20 mm", pitch="50 mm")
    assert result.outcome == "passes"
    assert "shell's stiffness" in result.because
    assert one("in_plane_squirm", convolution_height="20 mm", pitch="50 mm").outcome == "not covered"
    assert one("stress", convolution_height="20 mm", pitch="50 mm").outcome == "not covered"


@pytest.mark.parametrize(("thickness", "outcome"), [("1 mm", "passes"), ("0.8 mm", "fails")])
def test_in_plane_squirm_is_held_against_the_published_limit(thickness, outcome):
    result = one("in_plane_squirm", ply_thickness=thickness)
    assert (result.outcome, result.state, result.demand) == (outcome, UNDER_TEST, 18.0)


def test_pressure_outside_is_vacuum_or_the_lines_own():
    vacuum = one("collapse")
    assert (vacuum.outcome, vacuum.state) == ("passes", "cooling under vacuum")
    assert vacuum.demand == pytest.approx(1.01325, rel=1e-9)  # one atmosphere (ISO 2533)
    outside = one("collapse", "externally pressurised", plies="1", ply_thickness="0.08 mm")
    assert (outside.outcome, outside.state, outside.demand) == ("fails", UNDER_TEST, 18.0)
    inside = one("column_squirm", "externally pressurised")
    assert (inside.outcome, inside.state) == ("passes", "cooling under vacuum")


def test_nothing_outside_the_bellows_is_said_so():
    text = text_of(joint_by_geometry("J1", WEST)).replace("vacuum: possible", '"vacuum": "not possible, because open"')
    [result] = checks(text, "bellows_collapse")
    assert (result.outcome, result.because) == ("passes", "no state has pressure outside the bellows")


@pytest.mark.parametrize(
    ("plies", "thickness", "outcome"), [("2", "1 mm", "passes"), ("2", "0.8 mm", "close"), ("1", "0.8 mm", "fails")]
)
def test_stress_of_pressure_is_held_against_the_allowable(plies, thickness, outcome):
    """In service: the test at 18 bar is not in it."""
    result = one("stress", plies=plies, ply_thickness=thickness)
    assert (result.outcome, result.state) == (outcome, "design pressure and temperature")


def test_stress_without_an_allowable_is_no_limit_given():
    result = one("stress", allowable_table=None)
    assert (result.outcome, result.capacity, result.mandatory) == ("no limit given", None, True)


@pytest.mark.parametrize(("count", "outcome"), [("6", "passes"), ("4", "fails"), ("3", "fails")])
def test_cycles_are_held_against_the_life_of_the_range_moved(count, outcome):
    """Three convolutions go past the end of the curve, which is a failure and no gap in it."""
    result = one("life", convolutions=count)
    assert (result.outcome, result.state) == (outcome, "design pressure and temperature")
    assert (result.demand is None) == (count == "3")


def test_life_without_a_curve_is_the_users_own():
    assert checks(text_of(joint_by_geometry("J1", WEST, life_curve=None)), "bellows_life") == []


def test_life_of_a_metal_that_the_curve_does_not_know_is_not_covered():
    result = one("life", material="Alloy 625", allowable_table=None, family=None)
    assert result.outcome == "not covered"
