"""Joints that leave the pipe free between anchors, and failing claims.     (checks/test_free_joints_and_claims.py)

Every count is by hand from the line told; thrusts are P A_e with round numbers.
"""

from __future__ import annotations

import pytest
from tests.builders import checks, hold, joint, line_file
from tests.unit.study.kind_lines import balance, base, with_joint

IN_LINE, ELBOW = "in-line pressure balanced", "elbow pressure balanced"
_RULE = "one_joint_per_span"


def balanced(name: str, at: str, kind: str = IN_LINE) -> str:
    return with_joint(kind, balance(), at=at).replace("name: J1", f"name: {name}")


def test_two_balanced_joints_let_the_pipe_between_them_float():
    (row,) = checks(line_file(["20 m east"], takeups=(balanced("J1", "5 m"), balanced("J2", "15 m"))), _RULE)
    assert (row.outcome, row.demand) == ("fails", 2.0)
    assert row.because == "J1, J2 between neighbouring anchors"


def test_a_balanced_joint_beside_one_without_rods_makes_two():
    (row,) = checks(line_file(["20 m east"], takeups=(balanced("J1", "5 m"), joint("J2", "15 m"))), _RULE)
    assert (row.outcome, row.because) == ("fails", "J1, J2 between neighbouring anchors")


def test_one_balanced_joint_or_an_anchor_between_two_passes():
    (row,) = checks(line_file(["20 m east"], takeups=(balanced("J1", "10 m"),)), _RULE)
    assert (row.outcome, row.demand) == ("passes", 1.0)
    two = balanced("J1", "5 m"), balanced("J2", "15 m")
    rows = checks(
        line_file(["20 m east"], holds=(hold("intermediate anchor", "10 m", name="mid"),), takeups=two), _RULE
    )
    assert [row.outcome for row in rows] == ["passes", "passes"]


def test_a_balanced_joint_at_an_elbow_counts_on_its_own_leg_only():
    """The bend of DN 200 begins 0.3 m before its corner; a face at 9.55 m is within two diameters of that (by hand)."""
    legs, rests = ["10 m east, to: corner A", "8 m north"], (hold("rest", "2 m"), hold("rest", "16 m"))
    at_bend = balanced("J1", "corner A - 1 m", ELBOW)
    alone = line_file(legs, holds=rests, takeups=(at_bend,))
    assert checks(alone, _RULE) == []
    same_leg = line_file(legs, holds=rests, takeups=(balanced("J2", "4.5 m"), at_bend))
    (row,) = checks(same_leg, _RULE)
    assert (row.outcome, row.because) == ("fails", "J2, J1 between neighbouring anchors")
    other_leg = line_file(legs, holds=rests, takeups=(at_bend, balanced("J2", "corner A + 4 m")))
    (row,) = checks(other_leg, _RULE)
    assert (row.outcome, row.because) == ("passes", "J2 between neighbouring anchors")


def test_a_claim_that_fails_tells_the_net_thrust_and_what_would_hold_it():
    """Design pressure on one side of equal joints: 1.2 MPa x 46 000 mm2 = 55.2 kN; pressure strain takes 0.3 %."""
    text = line_file(
        ["40 m east"],
        holds=(hold("intermediate anchor", "20 m", name="middle"),),
        takeups=(joint("J1", "10 m"), joint("J2", "30 m")),
    )
    rows = [row for row in checks(text, "anchor_claim") if row.outcome == "fails"]
    assert {row.state for row in rows} == {
        "pressure before middle, none beyond it",
        "pressure beyond middle, none before it",
    }
    for row in rows:
        assert row.demand == pytest.approx(55.2e3, rel=0.005)
        assert f"a net thrust of {row.demand / 1e3:.1f} kN along the pipe, head apart, in “{row.state}”" in row.because
        assert row.because.endswith(": an anchor that has to hold it is a main anchor")
        assert "5% of 82.8 kN" in row.because  # in test: 1.8 MPa x 46 000 mm2


def test_the_base_of_a_double_names_the_key_that_makes_it_a_main_anchor():
    text = line_file(["20 m east"], takeups=(with_joint("double", base(), live_length="0.4 m"),))
    rows = [row for row in checks(text, "anchor_claim") if row.outcome == "fails"]
    assert {row.where for row in rows} == {"J1 base"}
    for row in rows:
        assert "the halves of the double are then at different pressures" in row.because
        assert "'base: kind: main anchor'" in row.because


def test_an_anchor_that_is_only_called_base_is_no_base_of_a_double():
    text = line_file(
        ["40 m east"],
        holds=(hold("intermediate anchor", "20 m", name="J1 base"),),
        takeups=(joint("J1", "10 m"), joint("J2", "30 m")),
    )
    rows = [row for row in checks(text, "anchor_claim") if row.outcome == "fails"]
    assert rows
    assert all(row.because.endswith("is a main anchor") for row in rows)
