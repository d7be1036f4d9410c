"""States of standing water, recalled rows, ties, and what is said where nothing was given.     (tests/unit/checks)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.builders import checks, hold, joint, line_file, rule, study_of

from takeup.checks import governing
from takeup.hand import friction_by_hand
from takeup.line import states_of
from takeup.papers.common.places import outcome_words
from takeup.results import results_of

WATER = {
    "medium": "water",
    "design": "{ pressure: 12 bar(g), temperature: 180 °F, vacuum: possible, at_elevation: 0 m }",
    "operating": "{ pressure: 10 bar(g), temperature: 180 °F, at_elevation: 0 m }",
    "test": "{ pressure: 18 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }",
}


def state(study, name):
    """Return the only zone of a state."""
    return next(item for item in states_of(study) if item.name == name).zones[0]


def test_standing_water_without_pressure_is_open_at_the_highest_point():
    """A riser of 20 m: nothing at its head, rho g h = 1.9 to 1.97 bar at its foot, never a vacuum (by hand)."""
    zone = state(study_of(line_file(["20 m up"], **WATER)), "hottest day, shut down")
    assert zone.pressure_at(20.0) == pytest.approx(0.0, abs=1e-6)  # pascals: rounding
    assert zone.pressure_at(0.0) == pytest.approx(998.0 * 9.80665 * 20.0, rel=2e-3)  # density of water to 0.2 %


def test_a_water_line_below_freezing_is_drained():
    cold = "{ installation: 70 °F, coldest: 20 °F, hottest: 70 °F }"
    study = study_of(line_file(["12 m east"], site=cold, **WATER))
    assert state(study, "coldest day, shut down").content == "none"
    assert state(study, "hottest day, shut down").content == "water"


@pytest.mark.parametrize(("edition", "status"), [(2004, "from memory"), (2020, "user's data")])
def test_joint_movement_says_when_its_growth_was_recalled(edition, status):
    """The older expansion table is from memory above 125 degF; rows of Table TE-1 were read."""
    text = line_file(["20 m east"], takeups=(joint("J1", "1.2 m"),), edition=edition)
    assert checks(text, "joint_movement")[0].status == status


def test_the_first_of_equal_states_governs_whatever_the_last_bit():
    assert governing(np.array([1.0, 5.0, 5.0 * (1.0 + 1e-15)])) == 1
    assert governing(np.array([1.0, 5.0, 5.1])) == 2


def test_hand_friction_counts_the_level_length_only():
    """10 m up, then 10 m east: 0.2 w x 10 m, not 20 m; w by the numbers printed beside it."""
    text = line_file(["10 m up", "10 m east"], holds=(hold("slide guide", "15 m"),), **WATER)
    study = study_of(text)
    operating = next(item for item in states_of(study) if item.name == "operating")
    result = friction_by_hand(study, study.lines[0], study.lines[0].start.name, operating)
    assert result.numbers.endswith("x 10.00 m")
    weight = float(result.numbers.split(" x ")[1].split()[0])
    assert result.value == pytest.approx(0.2 * weight * 10.0, rel=1e-3)  # the printed weight has four figures


def test_a_span_that_growth_does_not_bend_needs_no_allowable_range():
    text = line_file(["20 m east"], takeups=(joint("J1", "1.2 m"),), holds=(rule("slide guide", "spacing rule"),))
    assert checks(text, "expansion_stress")[0].outcome == "passes"
    assert checks(line_file(["6 m east", "6 m north"]), "expansion_stress")[0].outcome == "no limit given"


def test_page_one_says_that_no_limit_was_given():
    study = study_of(line_file(["6 m east"]))
    assert outcome_words(results_of(study), study.lines[0].start.name)[1] == "no limit given"


def test_what_each_rule_placed_is_said():
    spans, spacing = rule("rest", "support spans"), rule("slide guide", "spacing rule")
    line = study_of(line_file(["20 m east"], holds=(spacing, spans))).lines[0]
    assert line.remarks == (
        "slide guides by spacing rule: none placed, no unrestrained joint asks for one",
        f"rests by support spans: {len(line.holds)} placed",
    )
    assert len(line.holds) == 2  # 20 m in three spans of at most 7.3 m
