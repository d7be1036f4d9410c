"""The walk in results.json: contacts, rods, steps, events, scenarios.     (tests/unit/results/test_walk_in_results.py)

Limit rods by hand: a line that is free at its far end carries no effective force, so that spring and n rods of rate
k_r = E A/L hold the thrust: k x + T = P A_e, T = n k_r (x + d - gap), d what the pipe ends of the joint between bellows
and faces are shortened, l (T - (1 - 2 nu) P A_bore)/(E A), l = 0.5 m. Tolerance 1e-6 of the sum of four told tensions.
"""

from __future__ import annotations

import math

import pytest
from tests.builders import hold, hold_of, joint, line_file, solve, solve_all, study_of
from tests.unit.results.walk_lines import (
    LIFTS,
    ROD_DIAMETER,
    ROD_GAP,
    ROD_LENGTH,
    ROD_MODULUS,
    RODS,
    RUNS_OUT,
)

from takeup.results import results_of
from takeup.results.contacts import rod_rows
from takeup.study import friction_bounds

RATE, EFFECTIVE, TEST = 95e3, 46e-3, 18e5
FREE, MOST = "no friction", "high friction"


@pytest.fixture(scope="module")
def runs_out():
    return results_of(study_of(RUNS_OUT))


@pytest.fixture(scope="module")
def lifts():
    return results_of(study_of(LIFTS))


def pipe_modulus():
    pipe = study_of(RUNS_OUT).lines[0].sections[0].pipe
    return pipe.material.modulus.at((70.0 - 32.0) / 1.8)


def hold_in(results, name):
    return next(item for item in results["holds"] if item["name"] == name)


def load_in(results, name, scenario, state):
    rows = hold_in(results, name)["scenarios"]
    return next(row["force_n"] for row in rows if (row["scenario"], row["state"]) == (scenario, state))


def test_limit_rods_hold_what_the_spring_does_not(runs_out):
    one = ROD_MODULUS * math.pi / 4.0 * ROD_DIAMETER**2 / ROD_LENGTH
    area, bore, modulus = 5420.27e-6, 32282.62e-6, pipe_modulus()
    all_rods, ends = RODS * one, 0.5 / (modulus * area)
    reach = TEST * EFFECTIVE / RATE + ends * 0.4 * TEST * bore - ROD_GAP  # of the faces, were there no rods
    tension = all_rods * reach / (1.0 + all_rods * (1.0 / RATE + ends))
    rows = [row for row in runs_out["takeups"][0]["rods"] if row["state"] == "under hydrostatic test"]
    free = [row for row in rows if row["scenario"] == FREE]
    assert [row["rod"] for row in free] == ["rod 1", "rod 2", "rod 3", "rod 4"]
    assert all(row["engaged"] and row["gap_mm"] == 0.0 for row in free)
    assert sum(row["tension_n"] for row in free) == pytest.approx(tension, rel=1e-6)
    assert {row["scenario"] for row in rows} == {FREE, "low friction", MOST}


def test_rods_that_do_not_pull_tell_how_far_their_nuts_are(runs_out):
    """Empty and cold they stand 20 mm off, less what the weight turns the joint: the mean of four is the gap."""
    rows = [row for row in runs_out["takeups"][0]["rods"] if (row["state"], row["scenario"]) == ("installed", FREE)]
    assert not any(row["engaged"] or row["tension_n"] for row in rows)
    assert sum(row["gap_mm"] for row in rows) / RODS == pytest.approx(20.0, abs=1e-6)


def test_rods_as_hot_as_the_pipe_let_their_nuts_further_off():
    """1.2 m of rod, 183.3 K warmer at 12e-6: 2.64 mm more to go than with cold rods, none of them pulling."""
    gaps = []
    for told in ("hot: no", "hot: yes, expansion: 12e-6 1/K"):
        solved = solve_all(RUNS_OUT.replace("hot: no", told))
        rows = [row for row in rod_rows(solved, "T-1", "J1") if row["state"] == "hot, pressure lost"]
        assert len(rows) == RODS
        assert not any(row["engaged"] for row in rows)
        gaps.append(sum(row["gap_mm"] for row in rows) / RODS)
    assert gaps[1] - gaps[0] == pytest.approx(1e3 * 12e-6 * ROD_LENGTH * 330.0 / 1.8, rel=1e-6)  # gaps told to 1e-9 m


def test_the_pressure_at_which_rods_take_hold_is_told(runs_out):
    """The spring alone runs out to 20 mm at k gap/A_e = 0.413 bar; the first rod a little before, the last after."""
    events = [
        event
        for event in runs_out["events"]
        if event["scenario"] == FREE and event["kind"] == "rods" and event["state"] == "under hydrostatic test"
    ]
    assert {event["what"] for event in events} == {"rods take hold"}
    assert {event["where"] for event in events} == {"J1"}
    assert all(event["between"] == ["installed", "under hydrostatic test"] for event in events)
    pressures = [event["pressure_bar"] for event in events]
    mean = RATE * ROD_GAP / EFFECTIVE / 1e5
    assert mean == pytest.approx(0.413, abs=5e-4)
    assert min(pressures) <= mean <= max(pressures)
    assert 0.95 * mean < min(pressures)  # the weight turns the joint by 0.1 mm over the circle of 400 mm
    for event in events:
        assert event["pressure_bar"] == pytest.approx(18.0 * event["fraction"], rel=1e-9)  # from nothing, in proportion
        assert event["temperature_c"] == pytest.approx((70.0 - 32.0) / 1.8, rel=1e-12)
        assert event["above_installation_k"] == pytest.approx(0.0, abs=1e-12)


def test_a_contact_that_touches_carries_what_the_hold_carries(lifts):
    """A rest's only row is its whole load downward; what is open carries nothing and is apart."""
    for name in ("R1", "R2"):
        rows = hold_in(lifts, name)["contact"]
        assert {row["side"] for row in rows} == {"down"}
        assert {row["scenario"] for row in rows} == {FREE, "low friction", MOST}
        for row in rows:
            assert row["force_n"] == pytest.approx(-load_in(lifts, name, row["scenario"], row["state"])[2], abs=1e-6)
            assert (row["status"] == "open") == (row["force_n"] == 0.0)
            assert (row["gap_mm"] > 0.0) == (row["status"] == "open")
    assert {row["status"] for row in hold_in(lifts, "R1")["contact"]} == {"open", "touches"}


def test_a_stop_tells_how_much_of_its_gap_is_left(lifts):
    """4 mm when installed; hot, the leg's growth of 28 mm has long closed it."""
    rows = {row["state"]: row for row in hold_in(lifts, "S1")["contact"] if row["scenario"] == FREE}
    assert rows["installed"]["status"] == "open"
    assert rows["installed"]["gap_mm"] == pytest.approx(4.0, abs=0.5)  # the weight bends the riser a little
    assert (rows["operating"]["status"], rows["operating"]["side"]) == ("touches", "ahead")
    assert rows["operating"]["force_n"] == pytest.approx(load_in(lifts, "S1", FREE, "operating")[0], rel=1e-9)


def test_what_happens_on_the_way_is_told_in_words(lifts):
    words = {(event["what"], event["words"]) for event in lifts["events"] if event["scenario"] == FREE}
    assert ("leaves", "R1: the line lifts off") in words
    assert ("touches", "S1: the line reaches it") in words
    assert ("touches", "R1: the line comes down on it") in words  # it cools again
    assert ("leaves", "S1: the line comes away from it") in words
    rubbing = {event["what"] for event in lifts["events"] if (event["scenario"], event["kind"]) == (MOST, "friction")}
    assert "slips" in rubbing
    assert not [event for event in lifts["events"] if (event["scenario"], event["kind"]) == (FREE, "friction")]


@pytest.mark.parametrize("document", ["runs_out", "lifts"])
def test_steps_that_arrive_are_the_states(document, request):
    """Same loads along each hold, same length of each joint; every step verified to 1e-9."""
    results = request.getfixturevalue(document)
    steps = [step for step in results["walk"] if step["arrived"]]
    assert [step["scenario"] for step in results["walk"]] == sorted(
        (step["scenario"] for step in results["walk"]), key=[FREE, MOST].index
    )
    states = [state["name"] for state in results["states"]]
    for scenario in (FREE, MOST):
        own = [step for step in steps if step["scenario"] == scenario]
        assert [step["state"] for step in own] == states
        for step in own:
            assert (step["converged"], step["error"] <= 1e-9) == (True, True)
            for name, along in step["holds"].items():
                axis = hold_in(results, name)["axes"][0]
                force = load_in(results, name, scenario, step["state"])
                whole = sum(a * f for a, f in zip(axis, force, strict=True))
                assert along == pytest.approx(whole, abs=1e-3)  # N, of some 100 kN: sums in another order
    for takeup in results["takeups"]:
        told = {row["state"]: takeup["set_length_mm"] + row["axial_mm"] for row in takeup["movements"]}
        for step in (step for step in steps if step["scenario"] == MOST):
            assert step["joints"][takeup["name"]] == pytest.approx(told[step["state"]], abs=1e-6)


def test_steps_on_the_way_lie_between_their_states(lifts):
    states = {state["name"]: state["zones"][0] for state in lifts["states"]}
    between = [step for step in lifts["walk"] if not step["arrived"]]
    assert between
    for step in between:
        before, after = (states[name] for name in step["between"])
        for key in ("pressure_bar", "temperature_c"):
            expected = before[key] + (after[key] - before[key]) * step["fraction"]
            assert step[key] == pytest.approx(expected, abs=1e-9)
            assert step["zones"][0][key] == step[key]


def test_scenarios_say_what_was_walked_and_how_well(lifts):
    told = lifts["scenarios"]
    assert [one["scenario"] for one in told["whole"]] == [FREE, "low friction", MOST]
    assert [one["words"] for one in told["combinations"]] == [
        f"{friction}, nominal rates" for friction in (FREE, "low friction", MOST)
    ]  # no joint, so no rates to scatter
    assert told["steps"] == len({step["step"] for step in lifts["walk"]})
    assert told["error"] <= 1e-9
    assert max(one["residual"] for one in told["whole"]) <= 1e-9
    assert told["because"] == []


@pytest.mark.parametrize("document", ["runs_out", "lifts"])
def test_envelope_contains_every_scenario_and_names_it(document, request):
    results = request.getfixturevalue(document)
    combinations = {one["words"] for one in results["scenarios"]["combinations"]}
    for item in results["holds"]:
        envelope = item["envelope"]
        for key in ("force_n", "moment_nm"):
            rounding = 1e-9 * max(map(abs, (1.0, *envelope[key]["min"], *envelope[key]["max"])))
            for row in item["scenarios"]:
                for part, value in enumerate(row[key]):
                    assert envelope[key]["min"][part] - rounding <= value <= envelope[key]["max"][part] + rounding
            assert set(envelope[key]["min_scenario"]) | set(envelope[key]["max_scenario"]) <= combinations


def test_band_reaches_as_far_as_the_friction_bound_both_ways():
    """Without friction, less and with sum mu N of each state; no walk goes further, its bellows giving a little."""
    pair = "{ low: 0.1, high: 0.3, source: invented }"
    text = line_file(
        ["30 m east"],
        holds=(hold("rest", "[6 m, 12 m, 18 m, 24 m]", friction=pair),),
        takeups=(joint("J1", "west end + 1.2 m", rate_scatter="0"),),
    )
    answer, results = solve(text), results_of(study_of(text))
    alone = hold_of(answer, "east end").total[:, 0]
    bound = friction_bounds(answer)["east end"]
    band = hold_in(results, "east end")["band"]
    assert bound.max() > 1e3  # N
    assert (band["low_n"], band["high_n"]) == pytest.approx(((alone - bound).min(), (alone + bound).max()), rel=1e-9)
    assert band["low_because"].endswith("less the friction bound")
    assert band["high_because"].endswith("with the friction bound")
