"""A valid file becomes a study: every number in SI, every position a station."""

from __future__ import annotations

import hashlib
import math
from pathlib import Path

import pytest
from tests.line_texts import changed, faults

from takeup.line.reading.reader import read_study, study_from_text

ROOT = Path(__file__).parents[4]
FILE = ROOT / "tests" / "faults" / "valid.yaml"
VALID = FILE.read_text(encoding="utf-8")
EVERY_KEY = (ROOT / "docs" / "reference" / "line-file-example.yaml").read_text(encoding="utf-8")
NPS_8 = 8 * 0.0254


def test_conditions_are_in_si():
    """One bar is 1e5 Pa; full vacuum is one standard atmosphere below zero gauge, 101 325 Pa by definition."""
    study = study_from_text(VALID, "x")
    assert (study.conditions.design.pressure, study.conditions.design.temperature) == (12e5, 195.0)
    assert (study.conditions.operating.pressure, study.conditions.operating.temperature) == (10e5, 184.0)
    assert (study.conditions.test.pressure, study.test_medium) == (18e5, "water")
    assert (study.vacuum.possible, study.vacuum.pressure) == (True, -101_325.0)
    assert (study.site.installation, study.site.coldest, study.site.hottest) == (12.0, -8.0, 35.0)
    assert [(cycle.start, cycle.end, cycle.count) for cycle in study.cycles] == [("cold", "operating", 1000)]


def test_file_name_and_digest_are_kept():
    study = read_study(FILE)
    assert study.file == "valid.yaml"
    assert study.sha256 == hashlib.sha256(FILE.read_bytes()).hexdigest()


def test_long_radius_is_assumed_and_said():
    """Long radius is 1.5 nominal sizes: 1.5 x 8 in = 304.8 mm, exact to one rounding."""
    first, second, end = (leg.to for leg in study_from_text(VALID, "x").lines[0].legs)
    assert first.bend_radius == pytest.approx(1.5 * NPS_8, rel=1e-15)
    assert first.bend_words == "long radius (assumed)"
    assert (second.name, end.name, end.bend_radius) == ("corner 2", "vat header", None)


def test_bends_of_the_line_and_of_a_leg():
    text = changed(
        ("ASTM A106 B", "ASTM A106 B, bends: short radius"), ("go: 9 m north", "go: 9 m north, bend: 450 mm")
    )
    first, second, _ = (leg.to for leg in study_from_text(text, "x").lines[0].legs)
    assert (first.bend_radius, first.bend_words) == (pytest.approx(NPS_8, rel=1e-15), "short radius")
    assert (second.bend_radius, second.bend_words) == (pytest.approx(0.45, rel=1e-15), "450 mm")


def test_straight_corner_has_no_bend():
    study = study_from_text(changed(("go: 9 m north", "go: 9 m east")), "x")
    assert [(leg.to.bend_radius, leg.to.bend_words) for leg in study.lines[0].legs[:2]] == [(None, "straight")] * 2


def test_turn_of_less_than_half_a_degree_is_straight():
    """By calculator: tan 0.49 degrees = 0.00855, tan 0.51 degrees = 0.00890."""
    for north, words in ((0.00855, "straight"), (0.00890, "long radius (assumed)")):
        text = changed(("go: 9 m north", f"go: 9 m, along: [1, {north}, 0]"))
        assert study_from_text(text, "x").lines[0].legs[0].to.bend_words == words


def test_along_gives_a_unit_direction():
    study = study_from_text(changed(("go: 9 m north", "go: 9 m, along: [3, 4, 0]")), "x")
    assert study.lines[0].legs[1].direction == pytest.approx((0.6, 0.8, 0.0), abs=1e-15)  # 3-4-5 triangle


def test_holds_stand_at_their_stations_in_order():
    """A1 3 m before the corner at 60 m; the rest 4.5 m past it."""
    study = study_from_text(VALID, "x")
    assert [(hold.name, hold.position.station) for hold in study.lines[0].holds] == [
        ("A1", 57.0),
        ("rest at gate corner + 4.5 m", 64.5),
    ]
    assert [(rule.kind, rule.by) for rule in study.lines[0].rules] == [("slide guide", "spacing rule")]


def test_list_of_positions_makes_one_hold_each():
    text = changed(("at: gate corner + 4.5 m", "at: [10 m, 20 m], name: R"))
    assert [hold.name for hold in study_from_text(text, "x").lines[0].holds] == ["R 1", "R 2", "A1"]


@pytest.mark.parametrize(("place", "side"), [("tangent start", -1), ("crown", 0), ("tangent end", 1)])
def test_hold_on_a_bend_stands_at_its_tangent_point_or_crown(place, side):
    """A right-angled bend takes R tan 45 = R = 304.8 mm of either leg."""
    text = changed(("gate corner - 3 m", f"gate corner, on_bend: {place}"))
    (hold, *_) = study_from_text(text, "x").lines[0].holds
    assert hold.position.on_bend == place
    assert hold.position.station == pytest.approx(60.0 + side * 1.5 * NPS_8, abs=1e-12)


def test_bends_fill_a_leg_exactly():
    """Two right-angled bends of R = 304.8 mm need 609.6 mm; 1 mm less is refused."""
    rest = ("      - { kind: rest, at: gate corner + 4.5 m, slides_on: steel on steel }\n", "")
    study_from_text(changed(("go: 9 m north", "go: 610 mm north"), rest), "x")
    (message,) = faults(changed(("go: 9 m north", "go: 609 mm north"), rest))
    assert "the bends need 610 mm of this leg" in message


def test_tangent_of_a_skew_bend():
    """A turn of 135 degrees takes R tan 67.5 = 2.41421 R = 735.85 mm; legs of 700 mm are too short for one."""
    text = changed(("go: 9 m north", "go: 700 mm south-west"), ("go: 40 m east", "go: 40 m south-west"))
    text = text.replace("      - { kind: rest, at: gate corner + 4.5 m, slides_on: steel on steel }\n", "")
    (message,) = faults(text)
    assert "the bends need 736 mm of this leg" in message
    assert math.isclose(1.5 * NPS_8 * (1 + math.sqrt(2)), 0.73585, abs_tol=1e-5)


def test_rest_beside_a_riser_on_the_level_tangent_is_taken():
    text = changed(
        ("go: 9 m north", "go: 9 m up"),
        ("gate corner + 4.5 m", "gate corner, on_bend: tangent start"),
        ("18 bar(g),", "18 bar(g), gauge_elevation: 4.5 m,"),
    )
    assert "tangent start" in study_from_text(text, "x").lines[0].holds[-1].position.words
    riser = text.replace("tangent start", "tangent end")
    (message,) = faults(riser)
    assert message.startswith("line S-7, hold 3 (rest), at: a rest on a vertical leg holds nothing")


def test_rest_on_the_arc_below_a_riser_is_taken():
    """The bend takes 304.8 mm of the riser; past its tangent point a rest would hold nothing."""
    riser = (("go: 9 m north", "go: 9 m up"), ("18 bar(g),", "18 bar(g), gauge_elevation: 4.5 m,"))
    study_from_text(changed(*riser, ("gate corner + 4.5 m", "gate corner + 304 mm")), "x")
    (message,) = faults(changed(*riser, ("gate corner + 4.5 m", "gate corner + 305 mm")))
    assert "a rest on a vertical leg holds nothing" in message


def test_take_up_may_stand_at_a_named_hold():
    text = changed(("boiler header + 2.5 m", "A1 - 2 m"))
    assert study_from_text(text, "x").lines[0].takeups[0].position.station == pytest.approx(55.0, abs=1e-12)


def test_joint_data_are_in_si():
    """150 N/mm, 490 cm2, 65 kg times 9.80665 m/s2 = 637.432 N (by hand)."""
    data = study_from_text(VALID, "x").lines[0].takeups[0].data
    assert data.axial_rate == pytest.approx(150_000.0, rel=1e-15)
    assert data.effective_area == pytest.approx(0.049, rel=1e-15)
    assert data.weight == pytest.approx(637.43225, rel=1e-12)
    assert (data.lateral_rate, data.rated_cycles) == (None, None)


def test_head_below_two_percent_needs_no_elevation():
    """2 % of 18 bar is 36 000 Pa: 36000/(1000 x 9.80665) = 3.671 m of water."""
    up = ("go: 40 m east", "go: 3.67 m up")
    anchor = changed(up, ("at: gate corner - 3 m", "at: 12 m"))
    assert study_from_text(anchor, "x").conditions.test.at_elevation is None
    assert "the key 'gauge_elevation' is required" in faults(anchor.replace("3.67 m", "3.68 m"))[0]


def test_head_counts_from_the_lowest_to_the_highest_place():
    """9 m up and 9 m down again: the ends are level, and 9 m of water are 0.88 bar, above 2 % of 18 bar."""
    text = changed(("go: 9 m north", "go: 9 m up"), ("go: 40 m east", "go: 9 m east }\n      - { go: 9 m down"))
    text = text.replace("      - { kind: rest, at: gate corner + 4.5 m, slides_on: steel on steel }\n", "")
    (message,) = faults(text)
    assert message.startswith("test, pressure: the key 'gauge_elevation' is required beside it: the line rises 9 m")


def test_file_with_every_key_is_read():
    study = study_from_text(EVERY_KEY, "x")
    assert study.lines[0].pipe.expansion_because == "named in the line file"
    assert study.allowables.expansion_stress_range is not None
    assert (
        study.allowables.expansion_stress_range.value,
        study.allowables.yield_strength and study.allowables.yield_strength.value,
    ) == (200e6, 240e6)
    assert [state.state for state in study.dropped] == ["hot, pressure lost"]
    assert [state.name for state in study.added] == ["drained at night", "drier shut off"]
    assert study.lines[0].sections[0].insulation is not None
    assert study.lines[0].sections[0].insulation.source.status == "user's data"
    assert study.lines[0].takeups[0].preset == pytest.approx(0.012, rel=1e-15)


def test_no_insulation_is_an_answer():
    text = changed(("insulation: { thickness: 80 mm, kind: mineral wool }", "insulation: none"))
    assert study_from_text(text, "x").lines[0].sections[0].insulation is None


def test_schedule_gives_the_wall():
    """ASME B36.10M: NPS 8 schedule 40 has 8.18 mm."""
    pipe = study_from_text(changed(("wall: 8.18 mm", "schedule: 40")), "x").lines[0].pipe
    assert (pipe.wall, pipe.wall_words) == (pytest.approx(0.00818, rel=1e-12), "schedule 40")


def test_study_cannot_be_changed():
    study = study_from_text(VALID, "x")
    with pytest.raises(AttributeError):
        study.project = "another"  # type: ignore[misc]  # the refusal is the test
