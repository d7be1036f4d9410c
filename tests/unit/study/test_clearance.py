"""Bowed runs against the amplification of a bowed column, and guides that let a run go before they stop it.

Source: 1/(1 - S/S_cr) of a column whose bow is its mode (Timoshenko and Gere, 1961, 1.12); all else by hand.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.builders import checks, hold, joint, line_file, solve_all
from tests.unit.study.thrust_lines import UNIVERSAL, tied

from takeup.checks import clearance_bow
from takeup.study import BowedRun, asks_for_bow, clearance_of, stability_of
from takeup.study.bowing.stability import factor_words

OUTSIDE = joint("J1", "west end + 1.2 m", kind="externally pressurised")
AT = "[2.6 m, 5.6 m, 17 m, 29 m, 41 m, 53 m]"
TEST = "under hydrostatic test"


def run(*holds: str, **more: str) -> str:
    return line_file(["60 m east"], holds=holds, takeups=(OUTSIDE,), **more)


def bow(text: str) -> BowedRun:
    """Return the bow in the pressure test, which is also the worst state of these lines."""
    solved = solve_all(text)
    (found,) = clearance_of(solved, stability_of(solved))
    assert found.state == TEST
    return found


def test_guides_without_clearance_let_a_bow_grow_as_a_column_s():
    """Its bow is its mode, so it grows by 1/(1 - 1/factor); L is 12 m between guides, and L/1000 = 12 mm."""
    found = bow(run(hold("slide guide", AT)))
    assert (found.length, found.bow, found.clearance) == pytest.approx((12.0, 0.012, 0.0))
    assert found.amplification == pytest.approx(1.0 / (1.0 - 1.0 / found.factor), rel=1e-6)  # of the modes
    assert found.grown == pytest.approx(0.012 * (found.amplification - 1.0), rel=1e-9)
    assert found.all_open is None
    assert found.stable


def test_a_bow_grows_more_the_more_clearance_it_has():
    grown = [bow(run(hold("slide guide", AT, clearance=f"{mm} mm"))).grown for mm in (0, 2, 5, 20)]
    assert grown == sorted(grown)
    assert grown[-1] > 0.02  # without its loose guides it would go on for ever: 20 mm of clearance are used up


@pytest.mark.parametrize("way", ["north", "west"])
def test_a_bow_is_the_same_whichever_way_the_line_runs(way):
    """The two modes of a straight run are a pair without a direction of its own: bowed level and upright."""
    guide = hold("slide guide", AT, clearance="2 mm")
    east = bow(run(guide))
    turned = bow(line_file([f"60 m {way}"], holds=(guide,), takeups=(OUTSIDE,)))
    assert turned.grown == pytest.approx(east.grown, rel=1e-5)  # of the modes
    forces = [[item.force for item in one.guides] for one in (turned, east)]
    assert forces[0] == pytest.approx(forces[1], rel=1e-5)


def test_no_guide_is_passed_through():
    """However the run bows, no guide lets it move further than from one side to the other, 10 mm for 5 mm each way."""
    found = bow(run(hold("slide guide", AT, clearance="5 mm")))
    assert all(guide.moved <= 1e-2 * (1.0 + 1e-9) for guide in found.guides)
    assert max(guide.moved for guide in found.guides) == pytest.approx(5e-3, rel=1e-6)  # from the middle to one side


def test_all_open_is_the_factor_of_the_line_without_its_loose_guides_sideways():
    """The same line with rests where the guides stood: they carry the weight as the guides do."""
    loose = bow(run(hold("slide guide", AT, clearance="2 mm")))
    solved = solve_all(run(hold("rest", AT)))
    bare = next(item for item in stability_of(solved) if item.state == TEST)
    assert loose.all_open == pytest.approx(bare.modes[0].factor, rel=1e-6)
    assert loose.all_open < 1.0 < loose.factor


def test_a_run_beyond_its_first_factor_does_not_come_to_rest():
    text = run(hold("rest", "[10 m, 20 m, 30 m, 40 m, 50 m]"))
    solved = solve_all(text)
    found = clearance_of(solved, stability_of(solved))
    assert not any(item.stable for item in found)
    assert {row.outcome for row in checks(text, "clearance_bow")} == {"fails"}


def z_tested_at(pressure: str) -> str:
    """Return a Z whose tied universal sways with its spool free, long before the run bows."""
    holds = (hold("slide guide", "[4 m, 9 m, 37 m, 42 m]"), hold("rest", "[15 m, 21.2 m, 25.8 m, 32 m]"))
    takeup = tied("tied universal", "23.5 m", "2 m", **{**UNIVERSAL, "test_pressure": "40 bar(g)"})
    test = f"{{ pressure: {pressure}, with: water, temperature: 70 °F }}"
    return line_file(["20 m east", "7 m north", "20 m east"], holds=holds, takeups=(takeup,), test=test)


@pytest.mark.parametrize(("pressure", "below"), [("18 bar(g)", False), ("19.1 bar(g)", True)])
def test_no_bow_is_followed_where_the_lowest_factor_of_all_is_below_one(pressure, below):
    """The spool sways at 1.037 times what 18 bar bring (this model): at 18.7 bar, so not at 18 and in any case at 19.1.

    The run's own factor is beyond 2.5 in both, and contacts would bring its bow to rest in both.
    """
    text = z_tested_at(pressure)
    solved = solve_all(text)
    states = stability_of(solved)
    lowest = next(item.modes[0] for item in states if item.state == TEST)
    assert lowest.part == "bellows"
    assert (lowest.factor < 1.0) is below
    found = next(item for item in clearance_of(solved, states) if item.state == TEST)
    assert found.factor > 2.5
    assert found.stable is not below
    rows = [row for row in checks(text, "clearance_bow") if row.state == TEST]
    assert ("fails" in {row.outcome for row in rows if "grows by" in row.because or "bow out" in row.because}) is below
    if below:
        assert "the lowest load factor of this state is 0.98, of the bellows of J1" in found.because
        assert not any(row.outcome == "passes" for row in rows)
        told = next(row for row in checks(text, "stability", "J1") if row.unit == "load factor")
        assert "at 0.98 times the forces" in told.because


def test_a_state_below_one_fails_even_where_its_run_bows_out_in_no_state():
    """Only the joint's mode is left in every state: without a bow to look at, the check would pass."""
    solved = solve_all(z_tested_at("19.1 bar(g)"))
    states = [
        replace(item, modes=tuple(mode for mode in item.modes if mode.part != "run")) for item in stability_of(solved)
    ]
    bows = clearance_of(solved, states)
    assert not bows
    (row,) = clearance_bow.check(solved, states, bows)
    assert (row.where, row.state, row.outcome) == ("J1", TEST, "fails")


@pytest.mark.parametrize(
    ("factor", "words"),
    [
        (0.976, "0.98"),
        (0.9996, "0.9996"),
        (1.0, "1.00"),
        (1.037, "1.04"),
        (1.1996, "1.20"),
        (1.26, "1.3"),
        (17.84, "17.8"),
    ],
)
def test_words_of_a_factor_show_on_which_side_of_one_it_stands(factor, words):
    """Two decimals below 1.2, and more where they would read one (by hand)."""
    assert factor_words(factor) == words


def test_a_bow_is_asked_for_where_a_guide_has_clearance_or_the_factor_is_low():
    """12 m between anchors at 204 degC: 2.1 by Euler; unheated and uncompressed nothing is asked for."""
    for text, asked in (
        (line_file(["12 m east"]), True),
        (line_file(["12 m east"], end="blind"), False),
        (line_file(["12 m east"], end="blind", holds=(hold("slide guide", "6 m", clearance="1 mm"),)), True),
    ):
        solved = solve_all(text)
        assert asks_for_bow(solved, stability_of(solved)) is asked


def test_guides_and_joints_are_held_against_what_they_bear():
    """The same run, guides of 20 kN and of 1 kN; lateral and angular movement of the joint with its rating."""
    strong = checks(run(hold("slide guide", AT, clearance="2 mm", can_carry="20 kN")), "clearance_bow")
    weak = checks(run(hold("slide guide", AT, clearance="2 mm", can_carry="1 kN")), "clearance_bow")
    assert {row.outcome for row in strong if row.unit == "N"} == {"passes"}
    assert {row.outcome for row in weak if row.unit == "N"} == {"fails"}
    (moved,) = [row for row in strong if row.where == "J1"]
    assert moved.unit == "sum of uses"
    assert any("for information: without its loose guides" in row.because for row in strong)
