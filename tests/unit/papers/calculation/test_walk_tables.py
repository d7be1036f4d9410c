"""Tables of the walk: events, contacts, rods, loads by scenario; and what is said where there is nothing to walk."""

from __future__ import annotations

import pytest
from tests.unit.drawing.results_fixture import corner
from tests.unit.drawing.system_fixture import system
from tests.unit.papers.calculation.walk_fixture import SCENARIOS, walk_rows, with_walk

from takeup.edge import SI, TIE, US
from takeup.papers.calculation.calculation import calculation_pdf
from takeup.papers.calculation.walk import NONE_THERE, STRAIGHT, walk_section
from takeup.papers.summary.summary_walk import walk_lines


def cells(spec):
    """The words of a table's rows."""
    return [[cell["words"] for cell in row["cells"]] for row in spec["rows"]]


def told(section):
    """Facts of the section by their heads."""
    return dict(section["made"]["facts"])


@pytest.fixture
def document():
    """The L with everything that a walk brings."""
    return with_walk(corner())


def test_no_walk_and_nothing_to_walk_are_said_in_one_breath():
    bare = corner()
    assert walk_section({**bare, "walk": [], "events": []}, SI) == {"short": NONE_THERE, "record": None}
    bare["walk"] = walk_rows(bare, ("no friction",))
    assert walk_section(bare, SI) == {"short": STRAIGHT, "record": None}


def test_one_contact_or_one_rod_is_enough_to_be_told():
    bare = corner()
    bare["walk"] = walk_rows(bare, ("no friction",))
    bare["holds"][1]["contact"] = [
        {"state": bare["states"][0]["name"], "scenario": "no friction", "side": "down", "gap_mm": 0.0,
         "force_n": 5.0, "status": "touches"}
    ]  # fmt: skip
    section = walk_section(bare, SI)
    assert section["short"] == ""
    assert section["contacts"]["said"][0] == "Nothing lifts: what carries weight from below bears in every state."
    assert section["no_events"] == ["No event: nothing opens or closes, slips or sticks on the way."]


def test_events_are_numbered_with_the_states_and_how_far_above_installation(document):
    """Rods slacken at 0.8 of the way from the first to the second state in all three scenarios: one row."""
    rows = cells(walk_section(document, SI)["events"])
    names = [state["name"] for state in document["states"]]
    slack = next(row for row in rows if "rods slacken" in row[1])
    assert slack[0] == "2"
    assert slack[2] == f"1 {names[0]} → 2 {names[1]}"
    assert slack[3] == "all scenarios"
    event = next(item for item in document["events"] if item["what"] == "rods slacken")
    assert float(slack[6].replace("−", "-")) == pytest.approx(event["above_installation_k"], abs=0.05)  # one decimal


def test_scenarios_that_differ_have_rows_of_their_own(document):
    """The rest leaves 0.02 of the way later with full friction, at other pressures as the test comes up."""
    rows = cells(walk_section(document, SI)["events"])
    leaves = next(k for k, row in enumerate(rows) if row[0] == "1")
    assert [row[3] for row in rows[leaves : leaves + 3]] == list(SCENARIOS)
    assert [row[0] for row in rows[leaves + 1 : leaves + 3]] == ["", ""]


def test_many_events_of_friction_are_counted_and_few_are_listed():
    """Twenty in each of two scenarios are counted, forty in all; six in each, twelve in all, are listed."""
    counted = walk_section(with_walk(corner(), rubs=20), SI)
    assert counted["friction"]["caption"].startswith("40 events of friction by count")
    totals = [sum(int(row[k].replace("–", "0")) for row in cells(counted["friction"])) for k in (1, 2, 4, 5)]
    assert totals == [10, 10, 10, 10]
    assert not any("slips" in row[1] for row in cells(counted["events"]))
    listed = walk_section(with_walk(corner(), rubs=6), SI)
    assert listed["friction"] is None
    assert sum("slips" in row[1] or "sticks" in row[1] for row in cells(listed["events"])) == 6


def test_gap_and_rod_events_are_always_all(document):
    kinds = {(item["where"], item["what"]) for item in document["events"] if item["kind"] != "friction"}
    rows = cells(walk_section(document, SI)["events"])
    assert len({row[0] for row in rows if row[0]}) == len(kinds)


def test_friction_alone_is_said_to_be_alone(document):
    document["events"] = [item for item in document["events"] if item["kind"] == "friction"]
    section = walk_section(document, SI)
    assert section["events"] is None
    assert section["no_events"] == [
        "Nothing opens or closes on the way, and no rod takes hold or slackens; rubs slip and stick."
    ]


def test_first_step_comes_from_the_line_without_loads(document):
    """Nothing is before the first state: the results say null."""
    document["walk"][0] |= {"converged": False}
    (said,) = walk_section(document, SI)["unsolved"]
    assert said.endswith(f": to “{document['states'][0]['name']}”.")


def test_contacts_say_what_lifts_and_what_never_touches(document):
    """The first rest is open by 3.25 mm plus the share of friction, 4.25 mm at most, in the second state only."""
    contacts = walk_section(document, SI)["contacts"]
    rest = next(hold["name"] for hold in document["holds"] if "anchor" not in hold["kind"])
    assert contacts["said"][0] == f"The pipe lifts off: {rest} in state 2."
    (row,) = cells(contacts["table"])
    assert row[:4] == [rest, "down", "all scenarios", "1, 3, 4"]
    assert row[6:] == ["2", "4.2", "2"]
    words = " ".join(contacts["said"])
    assert "In every state these bear: " in words
    assert "(left)." in words


def test_scenarios_that_disagree_on_a_contact_have_two_rows(document):
    hold = next(hold for hold in document["holds"] if "anchor" not in hold["kind"])
    for row in hold["contact"]:
        if row["scenario"] == "high friction" and row["side"] == "down":
            row |= {"status": "touches", "gap_mm": 0.0}
    (row,) = cells(walk_section(document, SI)["contacts"]["table"])
    assert row[2] == "no and low friction"


def test_states_of_a_contact_stand_in_their_order(document):
    """Without friction the rest is open in the second state, with the most in the fourth too, told first."""
    hold = next(hold for hold in document["holds"] if "anchor" not in hold["kind"])
    down = [row for row in hold["contact"] if row["side"] == "down"]
    for row in down:
        if row["state"] == document["states"][3]["name"]:
            row |= {"status": "open", "gap_mm": 1.0}
    hold["contact"] = down[::-1]
    contacts = walk_section(document, SI)["contacts"]
    (row,) = cells(contacts["table"])
    assert (row[3], row[6]) == ("1, 3", "2, 4")
    assert contacts["said"][0].endswith("in states 2, 4.")


def test_a_lock_bears_in_the_states_in_which_it_is_there(document):
    hold = next(hold for hold in document["holds"] if "anchor" not in hold["kind"])
    hold["contact"] = [
        {**row, "side": "locked", "status": "touches"}
        for row in hold["contact"]
        if row["side"] == "down" and row["state"] in {state["name"] for state in document["states"][:2]}
    ]
    said = walk_section(document, SI)["contacts"]["said"]
    assert f"In states 1, 2 these bear: {hold['name']} (locked)." in said


def test_sides_without_clearance_that_carry_nothing_are_not_listed(document):
    """Left touches with 0.4 N at most: below 1 N, so nothing; with 1.2 N in one state it is told."""
    hold = next(hold for hold in document["holds"] if "anchor" not in hold["kind"])
    left = [
        {**row, "status": "touches", "gap_mm": 0.0, "force_n": 0.4} for row in hold["contact"] if row["side"] == "left"
    ]
    hold["contact"] = left
    others = [item for item in document["holds"] if item is not hold]
    for item in others:
        item["contact"] = [row for row in item["contact"] if row["side"] == "down"]
    assert "left" not in " ".join(walk_section(document, SI)["contacts"]["said"])
    left[0]["force_n"] = -1.2
    assert f"{hold['name']} (left)" in " ".join(walk_section(document, SI)["contacts"]["said"])


def test_sides_without_clearance_that_bear_by_turns_are_one(document):
    hold = next(hold for hold in document["holds"] if "anchor" not in hold["kind"])
    hold["contact"] = [
        {**row, "side": ("left", "right")[row["state"] == document["states"][1]["name"]], "status": "touches",
         "gap_mm": 0.0, "force_n": 500.0}
        for row in hold["contact"]
        if row["side"] == "down"
    ]  # fmt: skip
    said = walk_section(document, SI)["contacts"]["said"]
    assert f"In every state these bear: {hold['name']} (left or right)." in said


def test_rods_that_carry_nothing_are_taut_without_load(document):
    """A pull of 0.4 N on each of four: below 1 N."""
    for row in document["takeups"][0]["rods"]:
        if row["state"] == document["states"][0]["name"]:
            row["tension_n"] = 0.4
    (rods,) = walk_section(document, SI)["rods"]
    assert cells(rods["table"])[0][2:4] == ["taut without load", "0.00"]


def test_slack_rods_are_said_plainly_and_tensions_add_up(document):
    """Four rods of 11, 12, 13 and 14 kN carry 50 kN together (by hand)."""
    (rods,) = walk_section(document, SI)["rods"]
    assert rods["said"] == ["Rods slack in state 2 (all scenarios): there the whole thrust is on the anchors."]
    rows = cells(rods["table"])
    assert rows[0][2:] == ["4 of 4", "50.00", "14.00", "–"]
    assert rows[1][2:] == ["slack", "0.00", "0.00", "1.5"]


def test_terminal_says_of_which_walk_its_events_are(document):
    """The rest leaves and touches and the rods slacken, without friction; what several walks share is told once."""
    document["scenarios"] |= {
        "whole": [{"scenario": name} for name in SCENARIOS], "steps": 3, "combinations": [],
    }  # fmt: skip
    lines = walk_lines(document, SI)
    assert lines[1] == "On the way, in the walk without friction:"
    assert len(lines) == 2 + 3 + 1
    assert walk_lines({**document, "events": []}, SI)[1:] == [""]


def test_loads_by_scenario_stand_beside_band_and_design_force(document):
    hold = document["holds"][0]
    table = walk_section(document, SI)["loads"]["anchors"][0]["along"]
    rows = cells(table)
    assert [row[0] for row in rows] == [*SCENARIOS, "over every combination"]
    axis = hold["axes"][0]
    least = min(
        sum(a * f for a, f in zip(axis, row["force_n"], strict=True))
        for row in hold["scenarios"]
        if row["scenario"] == "high friction"
    )
    assert float(rows[2][1].replace("−", "-")) == pytest.approx(least / 1e3, abs=0.005)  # two decimals of kN
    assert rows[3][2] == "under hydrostatic test, friction high, spring rates high"
    assert table["rows"][3]["cells"][6]["more"] == "friction high, spring rates high"


def test_envelope_names_the_combination_of_each_end(document):
    table = walk_section(document, SI)["loads"]["anchors"][0]["envelope"]
    assert [row[0] for row in cells(table)] == ["Fx", "Fy", "Fz", "Mx", "My", "Mz"]
    assert {row["cells"][3]["more"] for row in table["rows"]} == {"friction high, spring rates low"}


def test_guides_have_one_row_each_with_every_scenario(document):
    rows = cells(walk_section(document, SI)["loads"]["guides"])
    guides = [hold["name"] for hold in document["holds"] if "anchor" not in hold["kind"]]
    assert [row[0] for row in rows] == guides
    assert all(len(row) == 1 + len(SCENARIOS) + 2 for row in rows)


def test_method_proof_and_assumptions_are_told(document):
    said = told(walk_section(document, SI))
    assert "3.2 × 10⁻¹² of the largest force" in said["verified"]
    assert said["one answer only"].startswith("not shown: ")
    assert said["friction at installation"].startswith("none: ")
    assert "no inertia" in said["limits"]
    assert "in no friction" in said["steps"]


def test_what_the_results_do_not_tell_is_said(document):
    del document["input"]["resolved"]["walk"]
    for row in document["walk"]:
        row["error"] = None
    said = told(walk_section(document, SI))
    assert {said[key] for key in ("modulus", "friction at installation", "verified")} == {"not told in the results"}


@pytest.mark.parametrize(
    ("told_as", "words"), [("shown", "shown, at the highest"), ("not shown", "not shown: "), (None, "nothing rubs")]
)
def test_one_answer_only_is_told(document, told_as, words):
    document["scenarios"]["uniqueness"] = told_as
    assert told(walk_section(document, SI))["one answer only"].startswith(words)


def test_system_of_lines_is_printed_in_us_units():
    """50 kN of rods are 11 240.4 lbf by 4.4482216 N (by hand)."""
    document = with_walk(system())
    assert calculation_pdf(document, US).startswith(b"%PDF-1.7")
    (rods,) = walk_section(document, US)["rods"]
    assert cells(rods["table"])[0][3].replace(TIE, " ") == "11 240.4"
