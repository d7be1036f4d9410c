"""Stability of lines from their file, against struts by hand.     (tests/unit/study/test_stability.py)

Source of every number: Euler's strut, 4 pi^2 EI/L^2 with both ends held (textbook), and Haringx's bellows as such a
strut (Philips Res. Rep. 1952, as check values quote it). E and eps are the library's rows; DN 200 x 8.18 mm.
"""

from __future__ import annotations

import math

import pytest
from tests.builders import hold, joint, line_file, rule, solve_all

from takeup.line import second_moment, wall_area
from takeup.study import StateStability, stability_of
from takeup.study.held import supports_in
from takeup.study.model import model_of

HOT = "hot, pressure lost"
TEST_AT_START = "{ pressure: 18 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }"
COLD = "cold at design pressure"
AREA, RATE, LIVE = 46e-3, 95e3, 0.6  # effective area [m2], axial rate [N/m], live length [m] of the tests' joint


def of(text: str, state: str) -> StateStability:
    return next(item for item in stability_of(solve_all(text)) if item.state == state)


def test_a_held_hot_pipe_is_euler_s_strut_with_the_modulus_of_its_temperature():
    """|S| = E_cold A eps, and the factor 4 pi^2 E_hot I/L^2 over it; sideways and up and down alike."""
    text = line_file(["12 m east"])
    pipe = solve_all(text).lines[0].line.pipe
    material = pipe.material
    cold, hot = 70.0 / 1.8 - 32.0 / 1.8, 400.0 / 1.8 - 32.0 / 1.8
    force = material.modulus.at(cold) * wall_area(pipe) * (material.expansion.at(hot) - material.expansion.at(cold))
    expected = 4.0 * math.pi**2 * material.modulus.at(hot) * second_moment(pipe) / 12.0**2 / force
    found = of(text, HOT)
    assert found.modes[0].factor == pytest.approx(expected, rel=1e-3)  # eight members of 1.5 m: 0.05 % is their error
    assert found.modes[1].factor == pytest.approx(expected, rel=1e-3)  # the pair
    assert found.modes[0].joint is None
    assert found.modes[0].station == pytest.approx(6.0)


def test_a_bellows_under_inside_pressure_is_haringx_s_strut():
    """p_cr = 2 pi K/L_b = 0.9948 MPa; at 12 bar, cold, the factor is 0.829: the spring is all but slack."""
    text = line_file(
        ["40 m east"], holds=(rule("slide guide", "spacing rule"),), takeups=(joint("J1", "west end + 1.2 m"),)
    )
    found = of(text, COLD)
    expected = 2.0 * math.pi * RATE / LIVE / 1.2e6
    assert expected == pytest.approx(0.829, abs=5e-4)
    assert found.modes[0].joint == "J1"
    assert found.modes[0].factor == pytest.approx(
        expected, rel=5e-3
    )  # the pipe beside it gives, and pressure stretches it
    (alone,) = found.bellows
    assert alone.factor == pytest.approx(expected, rel=5e-3)


def test_pressure_outside_the_bellows_squirms_it_only_under_vacuum():
    """The line's thrust is the same; the bellows is a strut under vacuum alone: 0.9948/0.1013 = 9.82."""
    outside = joint("J1", "west end + 1.2 m", kind="externally pressurised")
    text = line_file(["40 m east"], holds=(rule("slide guide", "spacing rule"),), takeups=(outside,))
    assert of(text, COLD).bellows[0].factor is None
    assert all(mode.joint is None for mode in of(text, COLD).modes)
    vacuum = of(text, "cooling under vacuum")
    assert vacuum.bellows[0].factor == pytest.approx(2.0 * math.pi * RATE / LIVE / 101_325.0, rel=5e-3)


def test_guides_by_the_rule_hold_a_run_that_bows_without_them():
    """The trade's ninth scene: guided by the rule, above four; unguided, below its test pressure."""
    outside = joint("J1", "west end + 1.2 m", kind="externally pressurised")
    carried = (rule("rest", "support spans"),)
    guided = line_file(["60 m east"], holds=(rule("slide guide", "spacing rule"), *carried), takeups=(outside,))
    bare = line_file(["60 m east"], holds=carried, takeups=(outside,))
    test = "under hydrostatic test"
    assert of(guided, test).modes[0].factor > 4.0
    assert of(bare, test).modes[0].factor < 1.0


def test_the_bowing_pressure_puts_the_run_at_its_strut_load():
    """The same line tested at the pressure found has a factor of one, whatever strut it is."""
    outside = joint("J1", "west end + 1.2 m", kind="externally pressurised")
    text = line_file(["60 m east"], holds=(hold("rest", "[10 m, 20 m, 30 m, 40 m, 50 m]"),), takeups=(outside,))
    states = stability_of(solve_all(text))
    (worst,) = [item for item in states if item.bowing_pressure is not None]
    pressure = worst.bowing_pressure
    assert pressure is not None
    raised = line_file(
        ["60 m east"],
        holds=(hold("rest", "[10 m, 20 m, 30 m, 40 m, 50 m]"),),
        takeups=(outside,),
        test=f"{{ pressure: {pressure / 1e5:.6f} bar(g), with: water, temperature: 70 °F }}",
        design="{ pressure: 0.2 bar(g), temperature: 400 °F, vacuum: possible }",
        operating="{ pressure: 0.1 bar(g), temperature: 400 °F }",
    )
    assert worst.state == "under hydrostatic test"
    assert of(raised, worst.state).modes[0].factor == pytest.approx(
        1.0, abs=5e-3
    )  # the wall stretches with pressure, and the joint gives a little


def test_nothing_compressed_is_not_at_risk():
    found = of(line_file(["12 m east"], end="blind"), COLD)
    assert (found.modes, found.told, found.bowing_pressure) == ((), True, None)
    assert found.because


def test_a_rest_holds_no_run_down_in_a_state_in_which_it_would_have_to_pull():
    """The riser grows and lifts the pipe off the rest beside it; cold, the weight presses on it."""
    text = line_file(["6 m up", "12 m east"], holds=(hold("rest", "8 m"),), test=TEST_AT_START)
    solved = solve_all(text)
    model = model_of(solved.study, fine=True)
    row = next(number for number, item in enumerate(model.holds) if item.kind == "rest")
    held = {state.name: supports_in(solved, model, k).held[row, 2] for k, state in enumerate(solved.states)}
    (loads,) = [item for item in solved.lines[0].holds if item.kind == "rest"]
    hot = next(k for k, state in enumerate(solved.states) if state.name == HOT)
    assert loads.total[hot, 2] == 0.0
    assert loads.open_by[hot] > 0.0
    assert (held["installed"], held[HOT]) == (True, False)
