"""What joints are set to by the temperature of the day, in results.json.     (tests/unit/results/test_setting.py)"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any  # the results are JSON: their values are what the schema says

import pytest
from tests.builders import hold, joint, line_file, study_of

from takeup.results import results_of
from takeup.results.setting import temperatures_of

SITE = "{ installation: 12 °C, coldest: -8 °C, hottest: 35 °C }"
ROUNDING = 1e-3  # mm: sums of floats, and the strain's seven figures times 45 m


def settings(text: str) -> dict[str, Mapping[str, Any]]:
    found = json.loads(json.dumps(results_of(study_of(text))))
    return {takeup["name"]: takeup for takeup in found["takeups"]}


def at(takeup: Mapping[str, Any], temperature: float) -> Mapping[str, Any]:
    return next(row for row in takeup["setting"]["rows"] if abs(row["temperature_c"] - temperature) < 1e-9)


@pytest.fixture(scope="module")
def straight() -> Mapping[str, Any]:
    takeup = joint("J1", "2 m", kind="externally pressurised", preset="8 mm extended")
    guides = tuple(hold("slide guide", f"{station} m") for station in (4, 8, 16, 24, 32, 40))
    return settings(line_file(["46.5 m east"], site=SITE, holds=guides, takeups=(takeup,)))["J1"]


def test_length_on_the_coldest_day_is_that_of_the_hand_calculation(straight):
    """By hand. Table TE-1 (2001), in/100 ft: 0 °F -0.49, 25 °F -0.32, 50 °F -0.14, 70 °F 0.

    -8 °C = 17.6 °F: -0.49 + 17.6/25 x 0.17 = -0.37032; 12 °C = 53.6 °F: -0.14 + 3.6/20 x 0.14 = -0.11480
    eps = (-0.37032 + 0.11480)/1200 = -2.129333e-4; pipe outside the faces: 46.5 - 1.1 = 45.4 m
    L = 1100 + 8 + 2.129333e-4 x 45 400 = 1108 + 9.6672 = 1117.6672 mm
    """
    assert at(straight, -8.0)["length_mm"] == pytest.approx(1117.6672, abs=ROUNDING)
    assert straight["set_length_mm"] == pytest.approx(1108.0, abs=ROUNDING)
    assert straight["setting"]["numbers"] == "1108.0 mm - (-0.2129 mm/m x 45.400 m)"
    assert straight["setting"]["because"] == ""


def test_length_at_installation_is_the_set_length_and_falls_with_warmth(straight):
    rows = straight["setting"]["rows"]
    assert at(straight, 12.0)["length_mm"] == pytest.approx(straight["set_length_mm"], abs=1e-9)  # strain is nought
    lengths = [row["length_mm"] for row in rows]
    assert lengths == sorted(lengths, reverse=True)
    assert [row["rod_gap_mm"] for row in rows] == [None] * len(rows)  # it has no rods


def test_model_finds_the_hand_length_but_for_the_give_of_the_pipe(straight):
    """Shut down on the coldest day: the spring, 95 N/mm x 18 mm, gives the pipe less than 0.1 mm in 46 m."""
    faces = {(row["state"], row["scenario"]): row["length_mm"] for row in straight["setting"]["faces"]}
    model = faces["coldest day, shut down", "no friction"] - faces["installed", "no friction"]
    by_hand = at(straight, -8.0)["length_mm"] - at(straight, 12.0)["length_mm"]
    assert model == pytest.approx(by_hand, abs=0.1)
    assert model != pytest.approx(by_hand, abs=0.01)  # they are two answers, not one told twice


def test_temperatures_are_those_of_both_scales():
    """-8 °C is 17.6 °F and 35 °C is 95 °F: 20 to 90 °F in tens, -5 to 35 °C in fives; 50 °F is 10 °C, once."""
    found = temperatures_of(-8.0, 12.0, 35.0)
    in_f = [(10.0 * k - 32.0) / 1.8 for k in range(2, 10)]
    expected = sorted({-8.0, 12.0, *(5.0 * k for k in range(-1, 8)), *(at for at in in_f if abs(at - 10.0) > 1e-6)})
    assert found == pytest.approx(expected, abs=1e-9)


def test_one_temperature_is_one_row():
    assert temperatures_of(15.0, 15.0, 15.0) == [15.0]


RODS = (
    "rods: { count: 4, diameter: 30 mm, circle: 400 mm, gap: 15 mm, modulus: 200 GPa, hot: no, "
    "can_carry: 120 kN, source: invented }"
)


def test_gap_of_limit_rods_is_left_less_on_a_colder_day():
    """The joint is longer by 9.6672 mm on the coldest day, so of 15 mm are left 5.3328 mm; rods of ambient steel."""
    takeup = joint("J1", "2 m", kind="limit-rod axial", axial_extension="40 mm").replace("data:", f"{RODS}, data:", 1)
    guides = tuple(hold("slide guide", f"{station} m") for station in (4, 8, 16, 24, 32, 40))
    found = settings(line_file(["46.5 m east"], site=SITE, holds=guides, takeups=(takeup,)))["J1"]
    assert at(found, 12.0)["rod_gap_mm"] == pytest.approx(15.0, abs=1e-9)
    assert at(found, -8.0)["rod_gap_mm"] == pytest.approx(15.0 - 9.6672, abs=ROUNDING)


def test_joint_in_a_span_that_turns_is_told_by_the_model_and_says_so():
    takeup = joint("J1", "2 m", kind="single axial", lateral="30 mm", angular="5 deg")
    found = settings(line_file(["20 m east", "8 m north"], site=SITE, takeups=(takeup,)))["J1"]
    setting = found["setting"]
    faces = {row["state"]: row["length_mm"] for row in setting["faces"] if row["scenario"] == "no friction"}
    assert "the span turns" in setting["because"]
    assert setting["source"].startswith("the walk without friction")
    longer = faces["coldest day, shut down"] - faces["installed"]
    assert at(found, -8.0)["length_mm"] == pytest.approx(found["set_length_mm"] + longer, abs=1e-9)
    half = (at(found, 0.0)["length_mm"] - found["set_length_mm"]) / longer
    # by hand, TE-1 as above: 0 °C = 32 °F: -0.32 + 7/25 x 0.18 = -0.2696; (-0.2696 + 0.1148)/(-0.25552) = 0.60582
    assert half == pytest.approx(0.60582, abs=1e-5)


def test_two_joints_in_a_span_have_no_length_by_hand():
    takeups = (joint("J1", "2 m"), joint("J2", "18 m"))
    found = settings(line_file(["20 m east"], site=SITE, takeups=takeups))["J1"]
    assert "two joints" in found["setting"]["because"]


def test_a_day_with_the_line_full_says_nothing_of_a_joint_fitted_to_empty_pipe():
    """Hot water stands in the line on the hottest day, and is drained at -8 °C: warm rows are empty, cold ones told."""
    takeup = joint("J1", "2 m", kind="single axial", lateral="30 mm", angular="5 deg")
    text = line_file(["20 m east", "8 m north"], site=SITE, takeups=(takeup,), medium="water")
    found = settings(text.replace("vacuum: possible", 'vacuum: "not possible, because it is kept full"'))["J1"]
    assert at(found, 35.0)["length_mm"] is None
    assert at(found, 35.0)["offset_mm"] is None
    assert at(found, -8.0)["length_mm"] is not None
    assert at(found, 12.0)["length_mm"] == pytest.approx(found["set_length_mm"], abs=1e-9)
    assert "liquid stands in the line on the hottest day, shut down" in found["setting"]["because"]
