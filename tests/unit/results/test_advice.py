"""Advice on materials from line file to results: what is said is judged, what is not is noted, no verdict changes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args  # the results are JSON: their values are what the schema says

import pytest
from tests.builders import GEOMETRY, joint, joint_by_geometry, line_file, study_of

from takeup.joints.advice import AROUND as KNOWN_AROUND
from takeup.joints.advice import RULES
from takeup.line.fitting import Surrounding
from takeup.results import advice_for, results_of
from takeup.results.advice import AROUND

WARM_WATER = {
    "medium": "water",
    "design": '{ pressure: 8 bar(g), temperature: 90 °C, vacuum: "not possible, because the pumps keep it full" }',
    "operating": "{ pressure: 6 bar(g), temperature: 85 °C }",
}
TESTED = "{ pressure: 18 bar(g), with: water, temperature: 70 °F, chlorides: 80 ppm }"
ADVISED = {"verdict", "checks", "holds", "events", "walk"}
"""What must be the same whatever is said for the advice."""


def text(said: str = "", material: str | None = None, **line: Any) -> str:
    takeup = joint("J1", "10 m", **({} if material is None else {"bellows_material": material}))
    return line_file(["20 m east"], takeups=(takeup.replace("data:", f"{said}data:", 1),), **line)


def joint_of(source: str) -> Mapping[str, Any]:
    (found,) = results_of(study_of(source))["takeups"]
    return found


def rules(found: Mapping[str, Any], level: str) -> list[str]:
    return [item["rule"] for item in found["advice"] if item["level"] == level]


def test_chlorides_in_hot_water_warn_of_a_300_series_bellows():
    """Above 60 degC (common practice, no source): 90 degC is; 316L by its name is 300-series, Alloy 625 is not."""
    said = "traces: chlorides, chlorides: 120 mg/kg, "
    found = joint_of(text(said, "316L", **WARM_WATER))
    assert rules(found, "warning") == ["chlorides_inside"]
    (warning, *_) = found["advice"]
    assert "120 ppm of chlorides in water" in warning["words"]
    assert warning["source"]
    assert warning["status"] == "from memory"
    assert rules(joint_of(text(said, "Alloy 625", **WARM_WATER)), "warning") == []


def test_without_a_material_there_is_a_note_and_no_warning_of_it():
    found = joint_of(text("traces: chlorides, ", **WARM_WATER))
    assert "material_not_judged" in rules(found, "note")
    assert "chlorides_inside" not in rules(found, "warning")
    assert found["advice_goes_by"]["material"] is None
    assert found["advice"][-1]["rule"] == "advice_only"


def test_an_unknown_metal_is_noted_and_not_refused():
    found = joint_of(text(material="unobtainium"))
    (words,) = (item["words"] for item in found["advice"] if item["rule"] == "material_not_judged")
    assert words.startswith("'unobtainium' is no metal that the advice knows")
    assert (found["advice_goes_by"]["material"], found["advice_goes_by"]["known_as"]) == ("unobtainium", None)


def test_what_is_not_said_is_noted_and_what_is_said_is_not():
    unsaid = {"traces_not_said", "surroundings_not_said"}
    assert unsaid <= set(rules(joint_of(text(material="316L")), "note"))
    said = "traces: nothing harmful, surroundings: [ walked by, nothing harmful ], cover: { fitted: yes }, "
    assert not unsaid & set(rules(joint_of(text(said, "316L")), "note"))


def test_words_for_a_cover_alone_say_nothing_for_the_material():
    found = joint_of(text("surroundings: [ walked by, welded near ], ", "316L"))
    assert "surroundings_not_said" in rules(found, "note")
    assert found["advice_goes_by"]["around"] is None


def test_nothing_changes_the_verdict():
    """The worst that can be said of a joint's material, and nothing said: the same checks, the same loads."""
    said = (
        "traces: [ chlorides, caustic, mercury ], chlorides: 5000 ppm, lining: PTFE, surroundings: [ sea air, zinc ], "
    )
    worst, plain = (results_of(study_of(one)) for one in (text(said, "A106 B", test=TESTED), text()))
    assert len(rules(worst["takeups"][0], "warning")) > 1
    cover = {"cover"}  # surroundings are looked at for a cover too; sea air and zinc ask for none
    for key in sorted(ADVISED - {"checks"}):
        assert worst[key] == plain[key], key
    left, right = ([row for row in one["checks"] if row["rule"] not in cover] for one in (worst, plain))
    assert left == right
    assert all(row["outcome"] == "passes" for row in worst["checks"] if row["rule"] in cover)
    assert not {rule.name for rule in RULES} & {row["rule"] for row in worst["checks"]}


@pytest.mark.parametrize(("test", "level"), [(TESTED, "warning"), (TESTED.replace("80 ppm", "50 ppm"), None)])
def test_chlorides_of_the_test_water(test: str, level: str | None):
    """80 ppm are above 50 ppm (common practice, no source), 50 ppm are not; the results hold the content."""
    found = joint_of(text(material="316L", test=test))
    levels = [item["level"] for item in found["advice"] if item["rule"] == "test_water"]
    assert levels == ([] if level is None else [level])


def test_a_zone_with_a_test_of_its_own_has_its_own_water():
    zones = (
        "    zones:\n      - { name: far side, from: west end + 8 m, test: "
        "{ pressure: 18 bar(g), with: water, temperature: 70 °F, chlorides: 20 ppm } }\n"
    )
    study = study_of(text(material="316L", test=TESTED) + zones)
    assert study.conditions.test.chlorides_ppm == 80.0
    line = study.lines[0]
    assert "test_water" not in {item.rule for item in advice_for(study, line, line.takeups[0])}


def test_hottest_of_all_states_and_coldest_day():
    """Design 400 degF = 204.4 degC by definition of the degree; the coldest day is typed in."""
    site = "{ installation: 70 °F, coldest: -20 °C, hottest: 70 °F }"
    goes_by = joint_of(text(site=site))["advice_goes_by"]
    assert goes_by["hottest_c"] == pytest.approx((400 - 32) / 1.8)
    assert goes_by["coldest_c"] == -20.0
    assert goes_by["least_pressure_bar"] == pytest.approx(-1.01325)  # full vacuum at standard atmosphere, by definition


def test_rain_into_insulation_warns_and_onto_bare_pipe_does_not():
    """60 degC and over under wet insulation (API RP 583, from memory); the line's insulation is what counts."""
    wool = "{ thickness: 50 mm, kind: mineral wool }"
    said = "surroundings: in weather, cover: { fitted: yes }, "
    assert "chlorides_outside" in rules(joint_of(text(said, "321", insulation=wool)), "warning")
    assert "chlorides_outside" not in rules(joint_of(text(said, "321")), "warning")


def test_in_the_ground_insulation_counts_as_wet():
    wool = "{ thickness: 50 mm, kind: mineral wool }"
    said = "surroundings: in ground, cover: { fitted: yes }, "
    assert joint_of(text(said, insulation=wool))["advice_goes_by"]["around"] == ["wet insulation"]
    assert joint_of(text(said))["advice_goes_by"]["around"] is None


def test_a_lining_is_judged_by_the_least_pressure_of_all_states():
    assert "lining_vacuum" in rules(joint_of(text("lining: PTFE, ", "316L")), "warning")


def test_a_geometry_says_the_metal():
    takeup = joint_by_geometry("J1", "10 m")
    found = joint_of(line_file(["20 m east"], takeups=(takeup,)))
    assert found["advice_goes_by"]["material"] == GEOMETRY["material"]
    assert found["advice_goes_by"]["known_as"] == "321"


def test_a_series_says_the_metal_and_a_candidate_is_told_its_own():
    """The demonstration series is of Alloy 321; its metal warns in salt, and 625 put in its place does not."""
    takeup = (
        "{ name: J1, kind: single axial, at: 10 m, from: demonstration series, "
        'joint: "axial DN 200, 12 bar, 25 mm", '
        "traces: chlorides, chlorides: 120 ppm }"
    )
    study = study_of(line_file(["20 m east"], takeups=(takeup,), **WARM_WATER))
    line = study.lines[0]
    (found,) = results_of(study)["takeups"]
    assert found["advice_goes_by"]["material"] == "Alloy 321"
    assert "chlorides_inside" in rules(found, "warning")
    other = advice_for(study, line, line.takeups[0], material="Alloy 625")
    assert "chlorides_inside" not in {item.rule for item in other}


def test_every_word_of_the_advice_can_be_said_in_a_file():
    words = set(get_args(Surrounding))
    assert set(AROUND) <= words
    assert set(AROUND.values()) == set(KNOWN_AROUND)
