"""Columns, spans, bellows and universal joints through line files, against closed forms.

Sources: Euler's and the two-span column, 4.4934^2 EI/l^2 (Timoshenko and Gere, 1961, 2.6); spans in a row by their end
stiffnesses (by hand, below); Haringx's bellows, 2 pi K/L_b (Philips Res. Rep. 1952, as check values quote it); a
universal joint at a quarter (Newland, Proc. IMechE 178, 1963-64, as check values quote it).
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from tests.builders import checks, hold, joint, line_file, rule, solve_all
from tests.unit.study.thrust_lines import COLD, COLD_AIR, TEST, UNIVERSAL, tied

from takeup.line import second_moment, wall_area
from takeup.study import StateStability, stability_of

HOT = "hot, pressure lost"
RATE, AREA, LIVE = 400e3, 46e-3, 0.25  # of each bellows of the tests' universal [N/m], [m2], [m]
MESH = 1e-3  # cubics of 1.5 m, eight and more to a half-wave, leave 0.05 %


def of(text: str, state: str) -> StateStability:
    return next(item for item in stability_of(solve_all(text)) if item.state == state)


def hot_column(text: str, fahrenheit: float = 400.0) -> tuple[float, float]:
    """Return the thrust of a hot pipe between anchors [N], and its E I hot [N m2]."""
    pipe = solve_all(text).lines[0].line.pipe
    cold, hot = (70.0 - 32.0) / 1.8, (fahrenheit - 32.0) / 1.8
    strain = pipe.material.expansion.at(hot) - pipe.material.expansion.at(cold)
    thrust = pipe.material.modulus.at(cold) * wall_area(pipe) * strain
    return thrust, pipe.material.modulus.at(hot) * second_moment(pipe)


def spans_in_a_row(count: int) -> float:
    """Return (k l)^2 of equal spans in a row, outer ends clamped: near + far cos(j pi/n) = 0, j = 1..n - 1 (by hand).

    near = u (sin u - u cos u)/(2 - 2 cos u - u sin u), far = u (u - sin u)/(2 - 2 cos u - u sin u): the end moments of
    a compressed beam; joints of n spans turn like sin(j pi i/n).
    """

    def left(u: float) -> float:
        return (math.sin(u) - u * math.cos(u)) + (u - math.sin(u)) * math.cos((count - 1) * math.pi / count)

    return brentq(left, math.pi, 2.0 * math.pi - 1e-6) ** 2


def test_a_guide_in_the_middle_makes_two_columns_clamped_and_pinned():
    """4.4934^2 EI/l^2, l = 9 m; and by the formula for spans in a row."""
    text = line_file(["18 m east"], holds=(hold("slide guide", "9 m"),))
    thrust, stiffness = hot_column(text)
    assert spans_in_a_row(2) == pytest.approx(4.493409**2, rel=1e-6)
    assert of(text, HOT).modes[0].factor == pytest.approx(spans_in_a_row(2) * stiffness / 81.0 / thrust, rel=MESH)


@pytest.mark.parametrize("count", [3, 6])
def test_guides_at_the_spacing_rule_have_its_four_in_hand(count):
    """Spans of L_max = pi/2 sqrt(E I/F): pinned they have 4; in a row between anchors 4 (k l)^2/pi^2, somewhat more."""
    warm = {
        "medium": "air",
        "design": "{ pressure: 1 bar(g), temperature: 150 °F, vacuum: possible }",
        "operating": "{ pressure: 1 bar(g), temperature: 150 °F }",
    }
    thrust, stiffness = hot_column(line_file(["12 m east"], **warm), 150.0)
    span = math.pi / 2.0 * math.sqrt(stiffness / thrust)
    at = ", ".join(f"{span * k:.9f} m" for k in range(1, count))
    text = line_file([f"{span * count:.9f} m east"], holds=(hold("slide guide", f"[{at}]"),), **warm)
    expected = 4.0 * spans_in_a_row(count) / math.pi**2
    assert 4.0 < expected < 8.2  # two clamped ends share their stiffness among the spans
    found = of(text, HOT).modes
    assert found[0].factor == pytest.approx(expected, rel=2.0 * MESH)  # four cubics to a span of 5 m
    assert found[1].factor == pytest.approx(expected, rel=2.0 * MESH)  # sideways, and up and down


def test_a_universal_bows_with_its_free_spool_at_a_quarter_of_one_bellows():
    """2 pi K/L_b = 10.05 MPa each by itself; spool free: both bellows sway, 2.513 MPa, 1.396 times 18 bar."""
    text = line_file(
        ["30 m east"],
        holds=(hold("slide guide", "[3.2 m, 6 m, 12 m, 18 m, 24 m]"),),
        takeups=(tied("universal", "1.5 m", None, **UNIVERSAL),),
    )
    found = of(text, TEST)
    alone = 2.0 * math.pi * RATE / LIVE / 1.8e6
    assert [one.number for one in found.bellows] == [1, 2]
    assert [one.factor for one in found.bellows] == pytest.approx([alone, alone], rel=5e-3)  # pressure stretches pipe
    first = found.modes[0]
    assert (first.part, first.joint, first.sways) == ("bellows", "J1", True)
    assert first.factor == pytest.approx(found.bellows[0].factor / 4.0, rel=3e-3)  # pipe beside it gives
    linear = solve_all(text).lines[0].joints[0]
    assert abs(linear.lateral).max() < 1e-3  # and nothing shows at first order
    rows = checks(text, "stability", "J1")
    assert any("its spool free to move aside, where each by itself would at 5.6 times" in row.because for row in rows)


ONE = {"centres": None, "live_length": "0.25 m", "axial_rate": "400 N/mm"}


def test_a_tied_joint_is_no_strut_of_its_run():
    """Far end free, rods hold: P A_e is in the rods, the run sees none of it; its bellows alone is a strut still."""
    guided = (hold("slide guide", "[2.5 m, 4 m]"), hold("rest", "[10 m, 20 m, 29 m]"))
    text = line_file(
        ["30 m east"], end="blind", holds=guided, takeups=(tied("tied axial", "1.5 m", "1.6 m", **ONE),), **COLD_AIR
    )
    found = of(text, COLD)
    assert all((mode.part, mode.joint) == ("bellows", "J1") for mode in found.modes)
    assert found.modes[0].factor == pytest.approx(2.0 * math.pi * RATE / LIVE / 6e5, rel=0.02)  # the pipe ends give


def test_a_tied_bellows_whose_far_side_may_sway():
    """Bellows under P A_e with a string of the rods beside it: P/(L (tan(u/2)/(u/2) - 1)) + P/L_rod = 0 (by hand).

    The first is the sideways stiffness of a compressed column between ends that do not turn (Timoshenko and Gere,
    1961, 1.10); four rods round it keep them from turning. L = 250 mm, L_rod = 1.6 m, u^2 = P L^2/EI.
    """
    half = brentq(lambda x: 1.6 / LIVE + math.tan(x) / x - 1.0, math.pi / 2.0 + 1e-6, math.pi)
    expected = (2.0 * half) ** 2 / (4.0 * math.pi**2) * 2.0 * math.pi * RATE / LIVE / 6e5
    loose = (hold("rest", "[10 m, 20 m, 29 m]"),)
    text = line_file(
        ["30 m east"], end="blind", holds=loose, takeups=(tied("tied axial", "1.5 m", "1.6 m", **ONE),), **COLD_AIR
    )
    assert of(text, COLD).modes[0].factor == pytest.approx(expected, rel=5e-3)  # rods stretch, and so its ends turn


def test_rods_between_anchors_leave_the_run_less_than_an_open_joint_does():
    """Cold at pressure: restrained pipe. Open, the run carries P A_e; tied, what the rods leave it."""
    carried = (rule("rest", "support spans"),)
    factors = []
    for kind, rods in (("single axial", None), ("tied axial", "1.6 m")):
        text = line_file(["60 m east"], holds=carried, takeups=(tied(kind, "1.5 m", rods, **ONE),))
        factors.append(next(mode.factor for mode in of(text, COLD).modes if mode.part == "run"))
    assert factors[1] > 2.0 * factors[0]


def test_slack_rods_hold_nothing():
    """Hot in line between anchors the nuts have left the lugs: the same factor as the joint without rods."""
    holds = (hold("slide guide", "[3.2 m, 6 m, 12 m, 18 m, 24 m]"),)
    both = [
        of(line_file(["30 m east"], holds=holds, takeups=(tied(kind, "1.5 m", rods, **UNIVERSAL),)), "operating")
        for kind, rods in (("universal", None), ("tied universal", "2 m"))
    ]
    assert both[1].modes[0].factor == pytest.approx(both[0].modes[0].factor, rel=1e-9)  # the same frame


def test_the_bowing_pressure_of_a_tied_joint_counts_its_rods():
    """Far end free: all of S and of the rods is pressure's, so it bows at the factor times the pressure."""
    holds = (hold("slide guide", "[4 m, 10 m, 20 m]"),)
    text = line_file(
        ["22 m east"], end="blind", holds=holds, takeups=(tied("tied axial", "1.5 m", "1.6 m", **ONE),), **COLD_AIR
    )
    (worst,) = [item for item in stability_of(solve_all(text)) if item.bowing_pressure is not None]
    assert worst.state == TEST
    assert worst.bowing_pressure == pytest.approx(9e5 * worst.modes[0].factor, rel=2e-3)  # but weight and water's head


def test_the_bowing_pressure_leaves_what_presets_put_into_rods():
    """Fitted 12 mm short its bellows push with 4.8 kN, and its rods pull with that before any pressure.

    The same line tested at the pressure found has a factor of one on pressure and preset together; the rods' share
    left out of what stays would show.
    """

    def line(bar: float) -> str:
        takeup = tied("tied axial", "1.5 m", "1.6 m", **ONE).replace(", data:", ", preset: 12 mm compressed, data:", 1)
        test = {**COLD_AIR, "test": f"{{ pressure: {bar:.6f} bar(g), with: water, temperature: 70 °F }}"}
        rests = (hold("rest", "[10 m, 20 m, 29 m]"),)
        return line_file(["30 m east"], end="blind", holds=rests, takeups=(takeup,), **test)

    (worst,) = [item for item in stability_of(solve_all(line(9.0))) if item.bowing_pressure is not None]
    assert worst.state == TEST
    assert worst.bowing_pressure is not None
    assert of(line(worst.bowing_pressure / 1e5), TEST).modes[0].factor == pytest.approx(1.0, abs=2e-3)  # the line gives


@settings(deadline=None, max_examples=6)
@given(
    way=st.sampled_from(["east", "north", "west", "south"]),
    mirrored=st.booleans(),
    kind=st.sampled_from(["universal", "tied universal"]),
)
def test_turning_or_mirroring_a_line_changes_no_factor(way, mirrored, kind):
    def factors(heading: str, *, backward: bool) -> list[float]:
        at = [3.4, 7.0, 12.0]
        places = ", ".join(f"{20.0 - x if backward else x} m" for x in at)
        takeup = tied(kind, "18.5 m" if backward else "1.5 m", "2 m" if kind == "tied universal" else None, **UNIVERSAL)
        text = line_file([f"20 m {heading}"], holds=(hold("slide guide", f"[{places}]"),), takeups=(takeup,))
        return [mode.factor for mode in of(text, TEST).modes[:4]]

    assert factors(way, backward=mirrored) == pytest.approx(factors("east", backward=False), rel=1e-6)  # of the modes


def test_externally_pressurised_joints_have_no_modes_of_their_own():
    outside = joint("J1", "west end + 1.2 m", kind="externally pressurised")
    text = line_file(["40 m east"], holds=(rule("slide guide", "spacing rule"),), takeups=(outside,))
    assert all(mode.part == "run" for mode in of(text, TEST).modes)
