"""What guides have to be made for: 15 % of the thrust beside a joint without rods, else what is computed."""

from __future__ import annotations

import pytest
from tests.builders import checks, hold, joint, line_file, study_of, walk_all
from tests.unit.study.thrust_lines import UNIVERSAL, tied

from takeup.checks import guide_design_load
from takeup.study import GuideLoad, bowing_of

GUIDES = "[3 m, 6 m, 17 m, 29 m]"
MIDDLE = "intermediate anchor"


def loads(text: str) -> dict[str, GuideLoad]:
    return {item.name: item for item in bowing_of(walk_all(text)).guides}


def test_fifteen_percent_of_the_test_s_thrust_beside_an_open_joint_and_not_beyond_the_anchor():
    """18 bar x 46 000 mm2 = 82.8 kN, 15 % of it 12.42 kN (by hand)."""
    text = line_file(
        ["60 m east"],
        holds=(hold("slide guide", f"{GUIDES[:-1]}, 50 m]"), hold(MIDDLE, "40 m")),
        takeups=(joint("J1", "west end + 1.2 m"),),
    )
    found = loads(text)
    for at in ("3 m", "6 m", "17 m", "29 m"):
        guide = found[f"slide guide at {at}"]
        assert guide.practice == pytest.approx(12_420.0, rel=1e-4)  # the gauge stands as high as the joint
        assert guide.design == pytest.approx(max(guide.computed, 12_420.0), rel=1e-4)
        assert "common practice" in guide.practice_because
    assert found["slide guide at 50 m"].practice is None
    assert found["slide guide at 50 m"].design == found["slide guide at 50 m"].computed > 0.0


def test_beside_a_joint_whose_rods_pull_what_is_computed_counts():
    """Its far end is free to move: the rods carry the thrust in every state."""
    holds = (hold("slide guide", "[4 m, 12 m, 20 m]"),)
    text = line_file(
        ["22 m east"],
        end="blind",
        holds=holds,
        takeups=(tied("tied universal", "2 m", "2 m", **UNIVERSAL),),
        design="{ pressure: 12 bar(g), temperature: 400 °F, vacuum: 'not possible, because of a breaker' }",
    )
    assert all(item.practice is None for item in loads(text).values())


def test_beside_a_joint_whose_rods_are_slack_hot_the_thrust_counts():
    """In line between anchors, warm at 12 bar: 15 % of 12 bar x 46 000 mm2 = 8.28 kN (by hand); cold its rods pull."""
    text = line_file(
        ["30 m east"],
        holds=(hold("slide guide", "[4 m, 12 m, 20 m]"),),
        takeups=(tied("tied universal", "2 m", "2 m", **UNIVERSAL),),
    )
    for item in loads(text).values():
        assert item.practice == pytest.approx(8_280.0, rel=1e-6)
        assert item.practice_because == "15% of the 55.2 kN of J1: common practice"


@pytest.mark.parametrize(("capacity", "outcome"), [("20 kN", "passes"), ("13 kN", "close"), ("10 kN", "fails")])
def test_the_design_load_is_held_against_the_capacity(capacity, outcome):
    """12.42 kN of 20, 13 and 10 kN."""
    text = line_file(
        ["40 m east"],
        holds=(hold("slide guide", GUIDES, can_carry=capacity),),
        takeups=(joint("J1", "west end + 1.2 m"),),
    )
    rows = checks(text, "guide_design_load")
    assert {row.outcome for row in rows} == {outcome}
    assert {row.status for row in rows} == {"from memory"}


def test_a_capacity_that_nobody_stated_stops_no_study():
    text = line_file(["40 m east"], holds=(hold("slide guide", GUIDES),), takeups=(joint("J1", "west end + 1.2 m"),))
    (row,) = checks(text, "guide_design_load")
    assert (row.outcome, row.mandatory) == ("no limit given", False)
    assert "the most loaded of 4 guides" in row.because


def test_one_guide_alone_is_not_the_most_loaded_of_one():
    load = GuideLoad(
        line="T-1", name="G", computed=8e3, computed_because="the walk", practice=None, practice_because="", state="s"
    )
    study = study_of(line_file(["20 m east"]))
    (one,) = guide_design_load.check(study, [load])
    assert one.because == "the only guide whose capacity is not stated, 8.0 kN: the walk"
    (two,) = guide_design_load.check(study, [load, load])
    assert two.because.startswith("the most loaded of 2 guides whose capacity is not stated")
