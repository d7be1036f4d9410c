"""Anchor loads by hand on a worked example.     (tests/published/test_anchor_example.py)

The formulas are EJMA's, anchor loads, from memory (high). The bellows: mean diameter 242 mm, so A_e = 45 996 mm2, rate
521.4 N/mm (pi form), compressed by 30 mm at 1.0 MPa; 60 m of pipe at 650 N/m on supports with mu = 0.3. Numbers
worked out from the formulas in a separate calculation, printed to four figures.
"""

from __future__ import annotations

import math

import pytest
from tests.builders import along, line_file, solve, study_of

from takeup.hand import (
    HandResult,
    effective_area,
    friction_force,
    guided_cantilever_force,
    main_anchor_force,
    pressure_thrust,
    span_force,
    spring_force,
)
from takeup.line import states_of

FIGURES = 5e-4  # relative: the printed values have four figures
PRESSURE, RATE, MOVEMENT = 1.0e6, 521.4e3, 0.030


def test_effective_area_of_the_mean_diameter():
    """pi/4 x 242^2 = 45 996 mm2."""
    assert effective_area(0.242) == pytest.approx(45_996e-6, rel=1e-5)  # five printed figures


def test_main_anchor_carries_thrust_spring_and_friction():
    """46.00 + 15.64 + 11.70 = 73.34 kN."""
    thrust = pressure_thrust(PRESSURE, effective_area(0.242))
    spring, friction = spring_force(RATE, MOVEMENT), friction_force(0.3, 650.0, 60.0)
    assert thrust == pytest.approx(46.00e3, rel=FIGURES)
    assert spring == pytest.approx(15.64e3, rel=FIGURES)
    assert friction == pytest.approx(11.70e3, rel=1e-12)  # an exact product
    force = main_anchor_force(thrust=thrust, spring=spring, friction=friction)
    assert force == pytest.approx(73.34e3, rel=FIGURES)


def test_intermediate_anchor_carries_spring_and_friction_of_one_side():
    """Equal thrusts cancel: 15.64 + 11.70 = 27.34 kN, one side hot and the other cold."""
    spring, friction = spring_force(RATE, MOVEMENT), friction_force(0.3, 650.0, 60.0)
    assert main_anchor_force(thrust=0.0, spring=spring, friction=friction) == pytest.approx(27.34e3, rel=FIGURES)


def test_at_test_pressure_cold_the_thrust_alone_counts():
    """1.5 x 45.996 kN = 68.99 kN."""
    assert pressure_thrust(1.5 * PRESSURE, effective_area(0.242)) == pytest.approx(68.99e3, rel=FIGURES)


@pytest.mark.parametrize(("diameter", "wrong"), [(0.2064, 33.46e3), (0.220, 38.0e3), (0.264, 54.7e3)])
def test_the_wrong_area_is_far_from_the_right_thrust(diameter: float, wrong: float):
    """Bore 206.4 mm, root circle 220 mm and crest circle 264 mm: 27 % less to 19 % more than 46.00 kN."""
    thrust = pressure_thrust(PRESSURE, effective_area(diameter))
    assert thrust == pytest.approx(wrong, rel=2e-3)  # three printed figures
    assert abs(thrust / pressure_thrust(PRESSURE, effective_area(0.242)) - 1.0) > 0.15


def test_a_guided_cantilever_of_one_leg():
    """6 in Sch 40: I = 28.14 in4, 20 ft, 2.0 in, E = 27.9e6 psi: 1363 lbf (worked out separately)."""
    inch, foot, pound = 0.0254, 0.3048, 4.4482216
    modulus = 27.9e6 * pound / inch**2
    force = guided_cantilever_force(modulus, 28.14 * inch**4, 2.0 * inch, 20 * foot)
    assert force == pytest.approx(1363 * pound, rel=FIGURES)


def hot(text: str) -> HandResult:
    """Return the hand's force of the first span, hot and without pressure."""
    study = study_of(text)
    state = next(item for item in states_of(study) if item.name == "hot, pressure lost")
    return span_force(study, study.lines[0], 0, state, at_start=True)


def test_two_legs_of_a_loop_act_in_series_so_one_leg_alone_overstates_the_force():
    """Elastic centre, sharp corners: F = E I d/J, J = integral of y^2 about the centre of the line (textbook).

    The note that the legs of a loop act in series, and that 12 E I d/L^3 of one leg overstates the force several-fold,
    was read. 20 m, 5 m, 4 m, 5 m, 20 m: y_c = (4 x 5 + 2 x 12.5)/54 = 0.8333 m, J = 100 + 83.33 - 37.50 = 145.83 m3,
    d = 44 m x 2.343 mm/m = 103.09 mm, so F = 4.33 kN, while one leg alone would ask for 60.6 kN.
    """
    pipe = "{ size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: sharp }"
    solved = solve(line_file(["20 m east", "5 m north", "4 m east", "5 m south", "20 m east"], pipe=pipe))
    inertia = math.pi / 64 * (0.2191**4 - 0.20274**4)
    force = along(solved, "east end", "hot, pressure lost")
    assert force == pytest.approx(202.926e9 * inertia * 44 * 2.343e-3 / 145.833, rel=2e-3)  # the pipe's stretch
    one_leg = guided_cantilever_force(202.926e9, inertia, 44 * 2.343e-3, 5.0)
    assert one_leg > 10 * force


def test_the_hand_gives_no_number_where_several_legs_share_the_growth():
    result = hot(line_file(["20 m east", "5 m north", "4 m east", "5 m south", "20 m east"]))
    assert result.value is None
    assert "several legs share the growth" in result.because


def test_the_hand_of_a_z_is_the_guided_cantilever_of_its_offset():
    """D = (12 + 8) m x 2.343 mm/m over the offset of 6 m: 12 E I d/L^3 (textbook)."""
    result = hot(line_file(["12 m east", "6 m north", "8 m east"]))
    inertia = math.pi / 64 * (0.2191**4 - 0.20274**4)
    assert result.value == pytest.approx(12 * 202.926e9 * inertia * 20 * 2.343e-3 / 6.0**3, rel=1e-5)  # seven figures
    assert "rough" in result.because
