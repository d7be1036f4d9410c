"""Nozzles, moments on anchors, ends that continue: what the far side of a flange may be asked.     (tests/unit/checks)

Lines and equipment sheets are invented; every limit is worked out in the test that uses it.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.builders import checks, hold_of, joint, line_file, rule, solve, state_number, walk_all

from takeup.checks import CheckResult, run_checks
from takeup.checks.nozzle_limits import combined, nozzle_axes
from takeup.line import bore_area, pipe_weight
from takeup.line.holding import Nozzle
from takeup.results import verdict_of
from takeup.study import friction_bounds

J1 = joint("J1", "west end + 1.2 m")
GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
TEST = "under hydrostatic test"
THRUST = 1.8e6 * 46_000e-6  # N: 18 bar in test on the joint's effective area, 82.8 kN


def nozzle(along: str = "90 kN", across: str = "10 kN", rule: str = "each component", more: str = "") -> str:
    """Return equipment with limits along its x axis, and alike on the other axes."""
    limits = f"force: [{along}, {across}, {across}], moment: [10 kN·m, 10 kN·m, 10 kN·m]"
    return f"equipment, nozzle: {{ {limits}, rule: {rule}, source: invented sheet{more} }}"


def line(**keys: object) -> str:
    """Return a straight line of 40 m east with a joint near its west end."""
    return line_file(["40 m east"], holds=GUIDED, takeups=(J1,), **keys)  # type: ignore[arg-type] # words go through


def one(text: str, name: str, where: str = "") -> CheckResult:
    """Return the one result of a rule at a place."""
    [result] = checks(text, name, where)
    return result


@pytest.mark.parametrize(("along", "outcome"), [("120 kN", "passes"), ("90 kN", "close"), ("80 kN", "fails")])
def test_an_untied_joint_puts_its_whole_thrust_on_the_equipment(along, outcome):
    result = one(line(start=nozzle(along)), "nozzle_limits")
    assert result.outcome == outcome
    assert result.demand == pytest.approx(THRUST, rel=0.01)  # the pipe's own give takes 0.2 %
    assert result.state == TEST
    assert "F_x governs: F_x -82.6" in result.because  # pressed away from the line, against x
    assert "J1 is not restrained: its full thrust P A_e, up to 82.8 kN, acts on it" in result.because
    assert "M_z" in result.because


def test_x_points_into_the_line_at_the_far_end_too():
    """The thrust presses both ends away from the line: against x at each of them."""
    result = one(line(end=nozzle("200 kN")), "nozzle_limits")
    assert "F_x -8" in result.because


def test_friction_is_added_along_the_nozzle():
    text = line(end=nozzle("200 kN"))
    answer = solve(text)
    number = state_number(answer, TEST)
    loads = hold_of(answer, "east end")
    bound = float(friction_bounds(answer)["east end"][number])
    result = one(text, "nozzle_limits")
    assert bound > 4e3  # 38 m of pipe full of water on PTFE: 0.2 x 830 N/m x 38 m = 6.3 kN, less what anchors carry
    assert result.demand == pytest.approx(abs(loads.local(loads.total)[number, 0]) + bound, rel=1e-12)  # a sum


def test_the_weight_goes_to_the_axis_that_the_nozzle_says():
    """Some 1.7 kN of weight in test along z; with z to the north it is along y, which has ten times the room."""
    limits = "force: [200 kN, 10 kN, 1 kN], moment: [10 kN·m, 10 kN·m, 10 kN·m], rule: each component, source: invented"
    upright = line(start=f"equipment, nozzle: {{ {limits} }}")
    turned = line(start=f"equipment, nozzle: {{ {limits}, up: north }}")
    assert one(upright, "nozzle_limits").because.startswith("F_z governs")
    assert one(turned, "nozzle_limits").because.startswith("F_x governs")


def test_without_a_nozzle_there_is_no_limit():
    result = one(line(start="equipment"), "nozzle_limits")
    assert (result.outcome, result.capacity) == ("no limit given", None)
    assert "what the nozzle allows is not stated" in result.because
    assert "full thrust P A_e" in result.because


def test_no_thrust_is_said_where_no_joint_is_beside_the_equipment():
    assert "P A_e" not in one(line_file(["12 m east"], start=nozzle()), "nozzle_limits").because


def test_a_joint_beyond_an_anchor_brings_the_equipment_no_thrust():
    anchor = "{ kind: main anchor, at: 10 m, name: A1 }"
    text = line_file(["40 m east"], start=nozzle(), holds=(anchor, *GUIDED), takeups=(joint("J1", "12 m"),))
    assert "P A_e" not in one(text, "nozzle_limits").because


@pytest.mark.parametrize(
    ("rule", "limit", "use"),
    [
        ("each component", 1.0, 0.4),  # the greatest
        ("linear sum", 1.0, 0.7),  # 0.3 + 0.4
        ("root sum of squares", 1.0, 0.5),  # 3, 4, 5
        ("linear sum", 2.0, 0.35),
        ("root sum of squares", 2.0, 0.25),
    ],
)
def test_components_are_put_together_by_the_rule_of_the_sheet(rule, limit, use):
    sheet = Nozzle(force=(1.0, 1.0, 1.0), moment=(1.0, 1.0, 1.0), up=None, rule=rule, limit=limit, source="invented")
    uses = np.array([[0.3, 0.0, 0.0, 0.0, 0.4, 0.0]])
    assert combined(uses, sheet)[0] == pytest.approx(use, rel=1e-12)  # a sum or a root


@pytest.mark.parametrize(("rule", "unit"), [("linear sum", "sum of uses"), ("root sum of squares", "")])
def test_a_combining_rule_is_held_against_its_limit(rule, unit):
    """F_x alone uses 82.6 of 90; weight and its moment add some 0.29 to the sum, little to the root."""
    result = one(line(start=nozzle(rule=rule)), "nozzle_limits")
    assert (result.capacity, result.unit) == (1.0, unit)
    assert result.outcome == {"linear sum": "fails", "root sum of squares": "close"}[rule]
    wide = one(line(start=nozzle(rule=rule, more=", limit: 2.0")), "nozzle_limits")
    assert (wide.capacity, wide.outcome) == (2.0, "passes")
    assert wide.demand == pytest.approx(result.demand, rel=1e-12)  # the same sum against another limit


def test_nozzle_axes_are_right_handed_and_square():
    into, up = np.array([0.0, -1.0, 0.0]), np.array([0.0, 0.3, 0.8])
    axes = nozzle_axes(into, up)
    assert axes @ axes.T == pytest.approx(np.eye(3), abs=1e-15)  # rounding
    assert np.linalg.det(axes) == pytest.approx(1.0, rel=1e-15)  # rounding
    assert axes[2] == pytest.approx([0.0, 0.0, 1.0])  # what is left of up, square to x
    assert axes[1] == pytest.approx([1.0, 0.0, 0.0])  # z x x


@pytest.mark.parametrize(("limit", "outcome"), [("20 kN·m", "passes"), ("8 kN·m", "fails")])
def test_a_moment_is_held_against_what_the_anchor_can_carry(limit, outcome):
    """12 m of pipe full of water between two anchors: w L^2/12 at both ends (fixed beam)."""
    text = line_file(["12 m east"], start=f"main anchor, can_carry_moment: {limit}")
    answer = solve(text)
    water = answer.states[state_number(answer, TEST)].zones[0].density * 9.80665 * bore_area(answer.line.pipe)
    result = one(text, "hold_moment", "west end")
    assert result.where == "west end"
    assert result.outcome == outcome
    expected = (pipe_weight(answer.line.pipe) + water) * 12.0**2 / 12.0
    assert result.demand == pytest.approx(expected, rel=1e-9)  # the beam element is exact
    assert result.state == TEST


def test_an_anchor_within_the_line_has_a_moment_too():
    middle = "{ kind: main anchor, at: 6 m, name: A1, can_carry_moment: 5 kN·m }"
    assert one(line_file(["12 m east"], holds=(middle,)), "hold_moment", "A1").capacity == 5e3


def test_a_moment_capacity_that_nobody_stated_is_said_and_stops_no_study():
    result = one(line_file(["12 m east"]), "hold_moment", "east end")
    assert (result.outcome, result.mandatory) == ("no limit given", False)
    assert "not stated" in result.because


def test_an_end_that_continues_never_passes():
    text = line(end="continues, can_carry: 500 kN, can_carry_moment: 500 kN·m")
    result = one(text, "other_side")
    assert result.outcome == "not covered"
    assert result.mandatory
    assert result.demand == pytest.approx(one(text, "hold_capacity", "east end").demand)
    assert "carries this side only, 88.0 kN" in result.because
    assert "other side to be added" in result.because
    assert verdict_of(tuple(run_checks(walk_all(text)))).outcome != "passes"
    assert checks(line(), "other_side") == []
