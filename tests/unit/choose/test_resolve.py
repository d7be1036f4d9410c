"""What the rules place satisfies the checks that judge it.     (tests/unit/choose/test_resolve.py)

The rules and the checks are written apart: the rules know free growth only, the checks the model's own forces. Sizes,
lengths, pressures and places of the joint are drawn at random.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from tests.builders import hold, joint, line_file, rule, solve, study_of

from takeup.checks import guide_spacing, support_span
from takeup.line.reading.reader import study_from_text

SIZES = {
    "DN 50": 60.3,
    "DN 65": 73.0,
    "NPS 3 1/2": 101.6,
    "DN 150": 168.3,
    "DN 200": 219.1,
    "NPS 12": 323.8,
    "DN 600": 610.0,
}  # outside diameters [mm], ASME B36.10


def run(size: str, length: float, share: float, pressure: int, kind: str) -> str:
    """Return a straight line with one joint, its holds placed by the rules."""
    area = math.pi / 4 * (1.12 * SIZES[size]) ** 2
    where = 0.7 + share * (length - 1.4)
    data = {
        "effective_area": f"{area:.0f} mm2",
        "axial_rate": f"{SIZES[size] / 2:.0f} N/mm",
        "pressure": "60 bar(g)",
        "test_pressure": "90 bar(g)",
    }
    return line_file(
        [f"{length} m east"],
        holds=(rule(kind, "spacing rule"), rule("rest", "support spans")),
        takeups=(joint("J1", f"{where!r} m", **data),),
        pipe=f"{{ size: {size}, schedule: 40, material: ASTM A106 B }}",
        design=f"{{ pressure: {pressure} bar(g), temperature: 300 °C, vacuum: possible }}",
        operating=f"{{ pressure: {pressure} bar(g), temperature: 300 °C }}",
        test=f"{{ pressure: {1.5 * pressure} bar(g), with: water, temperature: 15 °C }}",
    )


@settings(max_examples=60)
@given(
    size=st.sampled_from(sorted(SIZES)),
    length=st.floats(min_value=4.0, max_value=120.0).map(lambda x: round(x, 2)),
    share=st.floats(min_value=0.0, max_value=1.0).map(lambda x: round(x, 3)),
    pressure=st.integers(min_value=1, max_value=40),
    kind=st.sampled_from(["slide guide", "spider guide"]),
)
@example(size="DN 200", length=40.0, share=0.0, pressure=12, kind="slide guide")
def test_what_the_rules_place_satisfies_the_checks(size: str, length: float, share: float, pressure: int, kind: str):
    reaches = [0.15 + share * (length - 1.4), 0.15 + (1 - share) * (length - 1.4)]  # from the joint's faces to anchors
    limit = 4 * SIZES[size] / 1e3
    assume(not any(limit < reach <= 0.3 for reach in reaches))  # there two holds 0.3 m apart find no room
    solved = solve(run(size, length, share, pressure, kind))
    for result in (*guide_spacing.check(solved), *support_span.check(solved)):
        assert result.outcome in ("passes", "close"), (result.where, result.because, result.demand, result.capacity)


def test_the_rule_places_the_first_two_guides_of_dn_200():
    """4 D = 0.876 m rounds down to 0.85 m; 14 D = 3.067 m further, 3.917 m, rounds down to 3.90 m.

    Counted from the joint's face, 1.75 m from the start.
    """
    study = study_of(run("DN 200", 60.0, 0.5 / 58.6, 12, "spider guide"))
    guides = [item.position.station for item in study.lines[0].holds if item.kind == "spider guide"]
    assert guides[:2] == pytest.approx([1.75 + 0.85, 1.75 + 3.90], abs=1e-9)


def test_a_rule_places_no_hold_on_another():
    study = study_of(run("DN 150", 80.0, 0.3, 20, "slide guide"))
    stations = sorted(item.position.station for item in study.lines[0].holds)
    assert all(b - a > 0.29 for a, b in pairwise(stations))  # apart by 0.3 m


def test_every_placed_hold_says_which_rule_placed_it():
    study = study_of(run("DN 150", 80.0, 0.0, 20, "slide guide"))
    assert {item.placed_by for item in study.lines[0].holds} <= {"spacing rule", "support spans"}
    assert study.lines[0].holds


def test_rests_stand_on_level_legs_only():
    text = line_file(["20 m east", "12 m up", "20 m east"], holds=(rule("rest", "support spans"),), test=AT_START)
    route_stations = [item.position.station for item in study_of(text).lines[0].holds]
    assert route_stations
    assert not [station for station in route_stations if 20.0 < station < 32.0]


AT_START = "{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }"


@pytest.mark.parametrize("legs", [["20 m east"], ["20 m east", "9 m up"]])
def test_half_a_span_at_most_overhangs_before_a_free_end_or_a_riser(legs: list[str]):
    """DN 200 steam: 7.3 m (ASME B31.1 Table 121.5), so at most 3.65 m past the last rest."""
    text = line_file(legs, end="free", holds=(rule("rest", "support spans"),), test=AT_START)
    last = max(item.position.station for item in study_of(text).lines[0].holds)
    assert 20.0 - 3.65 <= last < 20.0


def test_a_study_without_rules_is_left_as_it_is():
    study = study_from_text(line_file(["9 m east"], holds=(hold("rest", "4 m"),)), "test.yaml")
    assert study_of(line_file(["9 m east"], holds=(hold("rest", "4 m"),))).lines[0].holds == study.lines[0].holds
