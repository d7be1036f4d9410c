"""In-line balanced joints in straight spans: what they leave on the anchors, and the guides that they bring along."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from tests.bare_lines import GUIDES, RESTS, bare_text, ground_on

from takeup.basis import intermediate_guide_spacing
from takeup.choose.arrange.outcome import outcome_of
from takeup.choose.arrange.propose import hunt_of
from takeup.choose.arrange.written import proposal_texts
from takeup.choose.resolve import resolve
from takeup.line import second_moment
from takeup.line.reading.reader import read_study
from takeup.results import results_of

CONCEPT = "in-line pressure balanced"
WEAK = ("7 kN", "7 kN")


def text(*legs, **keys):
    return bare_text(*legs, **({"may": (), "room": ""} | keys))


def balanced(ground):
    return [plan for plan in hunt_of(ground).plans if plan.concept == CONCEPT]


def test_anchors_feel_both_springs_and_what_is_left_of_the_thrust():
    """Push p (A_e - A_b) - (k + k_b) x, pushing apart at the far end: first principles, to rounding."""
    ground = ground_on(text("16 m east"))
    course, plan = ground.courses[0], balanced(ground)[0]
    [joint] = plan.takeups
    pressure = np.array([state.at("HW-1", joint.position.station).pressure_at(3.0) for state in course.states])
    area = joint.data.effective_area - joint.balance.effective_area
    rate = joint.data.axial_rate + joint.balance.axial_rate
    push = pressure * area + rate * (course.growth(0, 1)[:, 0] - joint.preset)
    assert plan.forces[1][:, 0] == pytest.approx(push, rel=1e-9)
    assert plan.forces[0] == pytest.approx(-plan.forces[1])
    assert np.abs(plan.forces).max() < 0.8 * 9e5 * joint.data.effective_area  # less than the thrust in the test


def test_guides_are_those_of_its_spring():
    """4 D and 14 D beyond it, then at most (pi/2) sqrt(E I/F) apart, F of its springs (EJMA, from memory)."""
    ground = ground_on(text("20 m east"))
    course, plan = ground.courses[0], balanced(ground)[0]
    [joint] = plan.takeups
    face = joint.position.station + joint.data.length / 2.0
    away = [hold.position.station - face for hold in plan.holds]
    pipe = course.line.sections[0].pipe
    outside = pipe.size.outside_diameter
    assert away[0] <= 4.0 * outside < away[0] + 0.05  # down to 0.05 m
    assert away[1] - away[0] <= 14.0 * outside + 1e-9
    force = float(np.abs(plan.forces[..., 0]).max())
    longest = intermediate_guide_spacing(pipe.material.modulus.at(95.0), second_moment(pipe), force)
    ends = [*away[1:], 20.0 - face]
    assert max(second - first for first, second in itertools.pairwise(ends)) <= longest + 0.05
    assert plan.guides == len(plan.holds)
    assert all(hold.kind == "slide guide" for hold in plan.holds)


def test_line_without_guides_by_rule_gets_none():
    assert not balanced(ground_on(text("16 m east", holds=(RESTS,))))[0].holds


def test_where_anchors_are_weak_it_is_proposed_and_its_file_reads_back(tmp_path):
    """16 m between ends that carry 7 kN: the thrust of a single joint is 11 kN in the test, springs push with 5 kN."""
    path = tmp_path / "bare.yaml"
    path.write_text(text("16 m east", ends=WEAK, holds=(GUIDES, RESTS)), encoding="utf-8")
    outcome = outcome_of(hunt_of(ground_on(path.read_text(encoding="utf-8"))), 1)
    [proposal] = outcome.hunt.proposals
    assert [plan.concept for plan in proposal.whole.plans] == [CONCEPT]
    [written] = proposal_texts(outcome, path).values()
    (tmp_path / "proposal.yaml").write_text(written, encoding="utf-8")
    study = resolve(read_study(tmp_path / "proposal.yaml"))
    assert study.lines[0].takeups[0].balance == proposal.found.study.lines[0].takeups[0].balance
    found = results_of(study)
    assert found["verdict"] == proposal.found.results["verdict"]
    assert not [row for row in found["checks"] if row["outcome"] == "fails"]
    assert proposal.greatest_load[1] < 7e3
