"""Torque and misalignment of joints, and guides where the pipe changes.     (tests/unit/checks/test_joint_rules.py)"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.builders import checks, hold, joint, line_file, rule, solve, walk_all

from takeup.basis import intermediate_guide_spacing
from takeup.checks import CheckResult, joint_torsion
from takeup.checks.guide_spacing import spacing_limit
from takeup.line import second_moment

RESTS = rule("rest", "support spans")
GUIDED = (rule("slide guide", "spacing rule"), RESTS)
WEST = "west end + 1.2 m"


def one(text: str, name: str) -> CheckResult:
    """Return the one result of a rule."""
    [result] = checks(text, name)
    return result


def twisted(by: float, **data: str) -> CheckResult:
    """Return the rule's result for a straight line whose joint is twisted by a torque in its fifth state."""
    answer = solve(line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", WEST, **data),)))
    torques = np.zeros(len(answer.states))
    torques[4] = by
    answer = replace(answer, joints=(replace(answer.joints[0], torque=torques),))
    [result] = joint_torsion.check(answer)
    assert result.state in (answer.states[4].name, "all states")
    return result


@pytest.mark.parametrize(
    ("torque", "outcome"), [(400.0, "passes"), (480.0, "close"), (900.0, "fails"), (-900.0, "fails")]
)
def test_torque_is_held_against_what_the_bellows_may_carry(torque, outcome):
    result = twisted(torque, torque="500 N·m")
    assert (result.outcome, result.demand, result.capacity, result.unit) == (outcome, abs(torque), 500.0, "N m")


def test_a_torque_without_a_limit_is_no_limit_given_and_none_to_speak_of_passes():
    assert twisted(900.0).outcome == "no limit given"
    assert twisted(0.9).outcome == "passes"
    assert twisted(1.1).outcome == "no limit given"


def test_a_straight_line_twists_nothing():
    assert one(line_file(["40 m east"], takeups=(joint("J1", WEST),)), "joint_torsion").outcome == "passes"
    assert checks(line_file(["6 m east"]), "joint_torsion") == []


def test_misalignment_is_taken_off_the_ratings():
    """1 mm of 5 mm and 0.2 deg of 1 deg: 0.2 and 0.2 more on the sum of uses."""
    straight = one(line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", WEST),)), "joint_movement")
    askew = f"{WEST}, misalignment: {{ lateral: 1 mm, angular: 0.2 deg }}"
    used = one(line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", askew),)), "joint_movement")
    assert straight.use is not None
    assert used.use == pytest.approx(straight.use + 0.4, rel=1e-9)  # a sum of quotients
    assert straight.because in used.because
    assert "misalignment" not in straight.because
    assert "1.0 mm lateral (0.20 of its rating) and 0.20 deg angular (0.20 of its rating)" in used.because


def test_misalignment_without_a_rating_is_no_limit_given():
    askew = joint("J1", f"{WEST}, misalignment: {{ lateral: 2 mm }}", lateral=None)
    result = one(line_file(["40 m east"], holds=GUIDED, takeups=(askew,)), "joint_movement")
    assert result.outcome == "no limit given"
    assert "2.0 mm lateral" in result.because


@pytest.mark.parametrize(
    ("number", "longest", "limit", "kind"),
    [
        (0, 2.0, 0.8, "4 D"),  # 4 x 0.2 m
        (1, 13.0, 2.8, "14 D"),  # 14 x 0.2 m
        (1, 2.0, 2.0, "L_max"),  # the lesser of the two
        (1, math.inf, 2.8, "14 D"),
        (2, 13.0, 13.0, "L_max"),
        (7, 13.0, 13.0, "L_max"),
    ],
)
def test_the_second_distance_keeps_to_l_max_as_well(number, longest, limit, kind):
    assert spacing_limit(number, 0.2, longest) == (pytest.approx(limit), kind)


def test_l_max_of_a_pipe_under_little_thrust_is_long():
    """0.5 bar in test on 46 000 mm2 is 2.3 kN: L_max = (pi/2) sqrt(E I/F) is some 80 m, and 55 m of it pass.

    F by the model in the governing state; L_max then by the formula (tests/published/test_guides.py proves that).
    """
    guides = hold("spider guide", "[2.15 m, 2.65 m]")
    text = line_file(
        ["60 m east"],
        holds=(guides, RESTS),
        takeups=(joint("J1", WEST, axial_rate="1 N/mm"),),
        design="{ pressure: 0.3 bar(g), temperature: 400 °F, vacuum: possible }",
        operating="{ pressure: 0.2 bar(g), temperature: 400 °F }",
        test="{ pressure: 0.5 bar(g), with: water, temperature: 70 °F }",
    )
    answer = solve(text)
    pipe, [pushed] = answer.line.pipe, answer.joints
    force = pushed.pressure * 46_000e-6 - pushed.spring
    limits = [
        intermediate_guide_spacing(pipe.material.modulus.at(state.zones[0].temperature), second_moment(pipe), f)
        for state, f in zip(answer.states, force, strict=True)
        if f > 0.0
    ]
    result = next(item for item in checks(text, "guide_spacing") if "third distance" in item.because)
    assert min(limits) > 60.0
    assert result.capacity == pytest.approx(min(limits), rel=1e-12)  # the same formula
    assert result.demand == pytest.approx(60.0 - 2.65, rel=1e-12)  # from the second guide to the far anchor
    assert result.outcome in ("passes", "close")


def small_beyond(*stations: float) -> tuple[str, float]:
    """Return a line that goes on as DN 80 from 2.2 m, guides at stations, and L_max of that pipe by the formula.

    The least of all states, without friction and with it: what rubs holds the pipe back, and the spring pulls less.
    """
    small = "{ size: DN 80, wall: 5.49 mm, material: ASTM A106 B }"
    reducer = f"      - {{ reducer: R1, length: 200 mm, weight: 0.2 kN, to_pipe: {small} }}\n"
    guides = hold("spider guide", "[" + ", ".join(f"{station} m" for station in stations) + "]")
    text = line_file(["2.1 m east", "10 m east"], holds=(guides, RESTS), takeups=(joint("J1", WEST),))
    text = text.replace("{ go: 2.1 m east }\n", "{ go: 2.1 m east }\n" + reducer)
    answers = [one.lines[0] for one in walk_all(text).scenarios]
    pipe = answers[0].line.sections[1].pipe
    limits = [
        intermediate_guide_spacing(pipe.material.modulus.at(state.zones[0].temperature), second_moment(pipe), force)
        for answer in answers
        for state, force in zip(
            answer.states, answer.joints[0].pressure * 46_000e-6 - answer.joints[0].spring, strict=True
        )
        if force > 0.0
    ]
    return text, min(limits)


def beyond(text: str) -> CheckResult:
    """Return the governing distance beyond the joint."""
    return next(item for item in checks(text, "guide_spacing") if "beyond it" in item.because)


def test_the_second_distance_goes_by_the_smaller_pipe_it_reaches_into():
    """14 x 88.9 mm = 1.245 m, and the guides stand 1.5 m apart; of DN 200 it would be 3.07 m."""
    text, _ = small_beyond(2.05, 3.55, 6.0, 8.5, 11.0)
    result = beyond(text)
    assert (result.outcome, "second distance" in result.because) == ("fails", True)
    assert result.capacity == pytest.approx(14 * 0.0889, rel=1e-9)  # one product


def test_l_max_goes_by_the_pipe_between_the_guides():
    """DN 80 buckles at some 2.7 m where DN 200 would stand 13.5 m; the guides are 3 m apart."""
    text, longest = small_beyond(2.05, 3.2, 6.2, 8.7, 11.2)
    result = beyond(text)
    assert 2.5 < longest < 3.0
    assert (result.outcome, "third distance" in result.because) == ("fails", True)
    assert result.capacity == pytest.approx(longest, rel=1e-12)  # the same formula
