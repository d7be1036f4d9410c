"""Warming leg by leg parts the zones at corners, in temperature alone.     (tests/unit/line/test_warming.py)"""

from __future__ import annotations

from tests.builders import line_file, solve, state_number, study_of

from takeup.line import states_of, zones_of

LEGS = ["9 m east, to: first", "7 m north, to: second", "8 m east"]
BY_LEG = line_file(LEGS, more="states: { warming: leg by leg }")


def test_a_corner_parts_zones_and_brings_warming_states_only():
    names = [state.name for state in states_of(study_of(BY_LEG))]
    assert [name for name in names if "first" in name or "second" in name] == [
        "warming, hot as far as first",
        "warming, hot as far as second",
    ]
    assert [zone.name for zone in zones_of(study_of(BY_LEG)).every] == [
        "west end to first",
        "first to second",
        "second to east end",
    ]


def test_zone_by_zone_a_line_between_two_anchors_is_one_zone():
    names = [state.name for state in states_of(study_of(line_file(LEGS)))]
    assert not [name for name in names if name.startswith("warming")]


def test_while_warming_only_the_legs_before_the_corner_grow():
    """Free beyond the start, hot to the corner: the first leg grows 9 m x 2.343 mm/m, the second not at all.

    Strain 400 degF: B (T - 70) = 7.1e-6 x 330 = 2.343 mm/m (ASME II-D TE-1, 2001). Sharp corner: no arc to divide.
    """
    answer = solve(
        line_file(["9 m east, to: first, bend: sharp", "7 m north"], end="free", more="states: { warming: leg by leg }")
    )
    warming = state_number(answer, "warming, hot as far as first")
    moved = answer.displacements[warming, -1, :2] - answer.displacements[state_number(answer, "installed"), -1, :2]
    pressure = (
        1e6 * 0.4 * 32.28262e-3 / (203e9 * 5.420270e-3)
    )  # (1 - 2 nu) P A_bore/(E A) at 10 bar, before modulus rows
    assert (
        abs(moved[0] - 9 * (2.343e-3 + pressure)) < 9 * 0.02 * pressure
    )  # E at 70 degF is 202.9 GPa, read between rows
    assert abs(moved[1] - 7 * pressure) < 7 * 0.02 * pressure


def test_a_zone_of_the_user_s_keeps_its_conditions_past_the_corners_within_it():
    """From 4 m on the line runs at 2 bar; warming leg by leg cuts it at both corners, and its conditions go on."""
    own = "operating: { pressure: 2 bar(g), temperature: 380 °F }"
    text = BY_LEG + f"    zones: [ {{ name: low side, from: 4 m, {own} }} ]\n"
    zones = zones_of(study_of(text)).every
    assert [zone.name for zone in zones] == [
        "west end to low side",
        "low side",
        "first to second",
        "second to east end",
    ]
    assert [zone.conditions.operating.pressure for zone in zones] == [10e5, 2e5, 2e5, 2e5]
