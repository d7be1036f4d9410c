"""How far a joint goes with any friction: `takeups[].reach`.     (tests/unit/results/test_reach.py)

Friction holds a tied universal back: the walk without it goes farther than that with the most, by which movements are
told state by state.
"""

from __future__ import annotations

import re

import numpy as np
import pytest
from tests.example_studies import results, walked

from takeup.edge import SI
from takeup.papers.common.asked import asked_of
from takeup.papers.common.gathered import joints_of
from takeup.results.reach import reach_part

NAMES = ("fell-gill-offset", "ketterby-steam-main", "brack-hill-hinge-pair", "kinds/limit-rod-axial")
KEYS = (("shortest_mm", "axial_mm", min), ("longest_mm", "axial_mm", max), ("lateral_mm", "lateral_mm", max),
        ("angular_deg", "angular_deg", max))  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_reach_is_the_farthest_of_every_walk(name):
    """Against the walks themselves; rounding of a unit alone between them, 1e-12."""
    for takeup in results(name)["takeups"]:
        own = [
            (one.scenario, state.name, joint, number)
            for one in walked(name).scenarios
            for line in one.lines
            for joint in line.joints
            if joint.name == takeup["name"]
            for number, state in enumerate(one.states)
        ]
        for key, value in (
            ("shortest_mm", min(1e3 * joint.axial[number] for *_, joint, number in own)),
            ("longest_mm", max(1e3 * joint.axial[number] for *_, joint, number in own)),
            ("lateral_mm", max(1e3 * np.linalg.norm(joint.lateral[number]) for *_, joint, number in own)),
            ("angular_deg", max(np.degrees(np.linalg.norm(joint.angular[number])) for *_, joint, number in own)),
            ("torque_nm", max(abs(joint.torque[number]) for *_, joint, number in own)),
        ):
            assert takeup["reach"][key]["value"] == pytest.approx(value, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_reach_is_never_less_than_the_movements_told(name):
    for takeup in results(name)["takeups"]:
        for key, told, pick in KEYS:
            most = pick(row[told] for row in takeup["movements"])
            far = takeup["reach"][key]["value"]
            assert far <= most + 1e-9 if pick is min else far >= most - 1e-9


def test_without_friction_an_offset_goes_farther_and_the_check_counts_with_that():
    """The check writes the movement that it counts with; friction takes 2 % off it on this line."""
    (takeup,) = results("fell-gill-offset")["takeups"]
    far, told = takeup["reach"]["lateral_mm"], max(row["lateral_mm"] for row in takeup["movements"])
    assert far["scenario"] == "no friction"
    assert far["value"] > 1.01 * told
    row = next(item for item in results("fell-gill-offset")["checks"] if item["rule"] == "joint_movement")
    assert re.search(r"lateral ([0-9.]+) mm", row["because"])[1] == f"{far['value']:.2f}"


@pytest.mark.parametrize("more", [0.0, 2.0])
def test_maker_is_asked_for_what_the_checks_count_with(more):
    """82.3 mm in the displaced equilibrium, which the check of stability writes, and the misalignment on top."""
    document = {**results("fell-gill-offset")}
    document["takeups"] = [{**document["takeups"][0], "misalignment_lateral_mm": more}]
    (joint,) = joints_of(document)
    wanted = {one.of.name: one.want.value for one in asked_of(joint, SI)}
    row = next(item for item in document["checks"] if "displaced equilibrium its lateral" in item["because"])
    displaced = float(re.search(r"lateral movement is ([0-9.]+) mm", row["because"])[1])
    assert wanted["lateral"] == pytest.approx(displaced + more, abs=0.051)  # the check writes one decimal
    (takeup,) = document["takeups"]
    assert wanted["lateral"] > takeup["reach"]["lateral_mm"]["value"] + more


def test_no_walk_has_no_reach():
    assert reach_part(["operating"], []) is None
