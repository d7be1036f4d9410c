"""What everyone in the trade knows, shown on the real solver.     (tests/scenes/test_scenes.py)

DN 200, 219.1 x 8.18 mm, ASTM A106 B, from 70 degF to 400 degF. By hand, for all scenes:
    eps = 7.1e-6/degF x 330 degF = 2.343 mm/m            (ASME II-D TE-1, 2001, Group 1: mean coefficient at 400 degF)
    E = 203 - 2 x (21.11 - 20)/30 = 202.926 GPa           (ASME B31.1-2001 Table C-1 SI, 20 degC from memory)
    A = pi x (219.1 - 8.18) x 8.18 mm2 = 5420.27 mm2,  A_bore = pi/4 x 202.74^2 = 32 282.6 mm2
    E A = 1.09991 GN
The claims themselves are common practice, no source.
"""

from __future__ import annotations

import pytest
from tests.builders import along, checks, hold, hold_of, joint, joint_of, line_file, rule, solve, state_number

EPS = 2.343e-3
E, A = 202.92593e9, 5.420270e-3  # Pa, m2, as above
BORE = 32.28260e-3  # m2
POISSON = 0.3
RATE, AREA, LIVE = 95e3, 46e-3, 0.6  # the builder's joint: N/m, m2, m
HAND = 1e-6  # relative: the constants above carry seven figures
NOTHING = 1e-2  # N: rounding of E A eps = 2.6 MN at 1e-12, a thousand times over
HOT, COLD_PRESSURE = "hot, pressure lost", "cold at design pressure"
GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
RESTED = (rule("rest", "support spans"),)
TEST_AT_START = "{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }"
YIELD = 'allowable: { yield_strength: { value: 240 MPa, source: "ASTM A106 B, 35 ksi, from memory" } }'


def compression(length: float, pressure: float, *, hot: bool) -> float:
    """Return the effective compression of a straight line with one joint between anchors, by hand [N].

    The extensions add up to nothing: x + (eps + s) L_p - F L_p/(E A) = 0 with the joint F = P A_e - k x and the
    pressure strain s = (1 - 2 nu) P A_bore/(E A), so F = (P A_e + k L_p (eps + s)) / (1 + k L_p/(E A)).
    """
    grows = length - LIVE
    strain = (EPS if hot else 0.0) + (1 - 2 * POISSON) * pressure * BORE / (E * A)
    return (pressure * AREA + RATE * grows * strain) / (1 + RATE * grows / (E * A))


def test_scene_1_a_hot_straight_pipe_with_a_free_end_grows_and_loads_nothing():
    """12 m x 2.343 mm/m = 28.116 mm (exact product), and nothing along the pipe."""
    solved = solve(line_file(["12 m east"], end="free", holds=(hold("rest", "west end + 8 m"),)))
    hot = state_number(solved, HOT)
    assert solved.displacements[hot, -1, 0] == pytest.approx(28.116e-3, rel=1e-9)  # exact in a linear rod
    assert along(solved, "west end", HOT) == pytest.approx(0.0, abs=NOTHING)


def test_scene_1_a_hot_bent_pipe_with_a_free_end_loads_nothing_by_growth():
    """Free growth is a change of scale: no anchor force or moment comes of it, whatever the route."""
    legs = ["7 m east", "3 m north", "4 m up", "5 m south-east"]
    solved = solve(line_file(legs, end="free", test=TEST_AT_START))
    growth = hold_of(solved, "west end").parts[state_number(solved, HOT), 1]
    assert growth == pytest.approx(0.0, abs=1.0)  # N, N m: beside 2.6 MN if it were held


def test_scene_2_anchored_at_both_ends_the_pipe_would_yield_first():
    """F = E A eps = 1.09991 GN x 2.343e-3 = 2577.1 kN; stress 475.5 MPa against 240 MPa."""
    text = line_file(["12 m east"], holds=RESTED, more=YIELD)
    solved = solve(text)
    assert along(solved, "east end", HOT) == pytest.approx(E * A * EPS, rel=HAND)
    assert along(solved, "east end", HOT) == pytest.approx(2577.1e3, rel=2e-5)  # five printed figures
    assert along(solved, "west end", HOT) == pytest.approx(-E * A * EPS, rel=HAND)
    [result] = checks(text, "wall_stress")
    assert result.outcome == "fails"
    assert result.demand == pytest.approx(475.5, rel=0.05)  # 5 %: bending from weight and pressure come on top
    assert "compression" in result.because
    assert along(solved, "east end", HOT) > 500 * RATE * 12 * EPS  # hundreds of times a joint's spring force


def test_scene_3_hot_and_without_pressure_only_the_spring_force_is_left():
    """39.4 m grow 92.314 mm: 95 N/mm give 8.770 kN, less the pipe's own give of 0.34 %: 8.740 kN."""
    solved = solve(line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m"),)))
    assert along(solved, "east end", HOT) == pytest.approx(compression(40.0, 0.0, hot=True), rel=HAND)
    assert along(solved, "east end", HOT) == pytest.approx(8740, rel=1e-4)  # four printed figures
    assert along(solved, "west end", HOT) == pytest.approx(-along(solved, "east end", HOT), abs=NOTHING)
    moved = joint_of(solved, "J1").axial[state_number(solved, HOT)]
    assert moved == pytest.approx(-92.0e-3, rel=1e-3)  # three figures of 8740/95


def test_scene_4_a_closed_pipe_under_pressure_hardly_moves():
    """(1 - 2 nu) P A_bore/(E A) L = 0.4 x 1.2 MPa x 32 282.6 mm2/1.09991 GN x 12 m = 0.169 mm."""
    solved = solve(line_file(["12 m east"], end="blind", holds=RESTED))
    moved = solved.displacements[state_number(solved, COLD_PRESSURE), -1, 0]
    assert moved == pytest.approx(0.4 * 1.2e6 * BORE / (E * A) * 12.0, rel=HAND)
    assert along(solved, "west end", COLD_PRESSURE) == pytest.approx(0.0, abs=NOTHING)


def test_scene_4_a_joint_cut_in_runs_out_many_times_its_travel():
    """P A_e/k = 1.2 MPa x 46 000 mm2 / 95 N/mm = 581.05 mm, of 20 mm."""
    text = line_file(["12 m east"], end="blind", holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m"),))
    solved = solve(text)
    moved = joint_of(solved, "J1").axial[state_number(solved, COLD_PRESSURE)]
    assert moved == pytest.approx(1.2e6 * AREA / RATE, rel=1e-9)  # nothing else acts along the pipe
    [movement] = checks(text, "joint_movement")
    assert movement.outcome == "fails"
    assert movement.use is not None
    assert movement.use > 25
    sides = checks(text, "thrust_held")
    assert [side.outcome for side in sides] == ["fails", "passes"]
    assert "blind end east end" in sides[0].because


def test_scene_5_anchored_each_main_anchor_carries_thrust_and_spring():
    """P A_e = 46.0 kN at 10 bar, spring 8.77 kN: 54.8 kN together, less the pipe's give."""
    text = line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m"),))
    solved = solve(text)
    force = compression(40.0, 1e6, hot=True)
    assert along(solved, "east end", "operating") == pytest.approx(force, rel=HAND)
    assert along(solved, "west end", "operating") == pytest.approx(-force, rel=HAND)
    assert force == pytest.approx(54.77e3, rel=0.01)  # the plain sum leaves out the pipe's give, well within 1 %
    assert along(solved, "east end", "under hydrostatic test") == pytest.approx(
        compression(40.0, 1.8e6, hot=False), rel=HAND
    )
    assert "friction (bound)" in next(c.because for c in checks(text, "hold_capacity") if c.where == "east end")


def pair(*, second_area: str = "46000 mm2", more: str = "") -> str:
    """Return a run of 80 m with an intermediate anchor in its middle and a joint either side of it."""
    return line_file(
        ["80 m east"],
        holds=(hold("intermediate anchor", "40 m", name="middle"), *GUIDED),
        takeups=(joint("J1", "38.8 m"), joint("J2", "41.2 m", effective_area=second_area)),
        more=more,
    )


def test_scene_8_equal_joints_either_side_of_an_anchor_cancel():
    solved = solve(pair())
    for state in ("operating", "under hydrostatic test", HOT):
        assert along(solved, "middle", state) == pytest.approx(0.0, abs=NOTHING)  # by symmetry nothing is left


def test_scene_8_unequal_joints_leave_the_difference_and_the_claim_fails():
    """P (A_2 - A_1) = 1 MPa x 6000 mm2 = 6 kN; 12 bar: 7.2 kN, above 5 % of the test's 93.6 kN."""
    text = pair(second_area="52000 mm2")
    loads = hold_of(solve(text), "middle")
    solved = solve(text)
    pressure = loads.parts[state_number(solved, "operating"), 0, 0]
    assert pressure == pytest.approx(-6000, rel=0.005)  # the pipe's give takes 0.34 %
    failing = [item for item in checks(text, "anchor_claim") if item.outcome == "fails"]
    assert {item.where for item in failing} == {"middle"}
    assert "under hydrostatic test" in {item.state for item in failing}


def test_scene_8_one_side_without_pressure_leaves_the_thrust_and_the_claim_fails():
    """Design pressure on one side: 1.2 MPa x 46 000 mm2 = 55.2 kN, either way round."""
    solved = solve(pair())
    before, beyond = "pressure before middle, none beyond it", "pressure beyond middle, none before it"
    for state, sense in ((before, 1.0), (beyond, -1.0)):
        part = hold_of(solved, "middle").parts[state_number(solved, state), 0, 0]
        assert part == pytest.approx(sense * 55.2e3, rel=0.005)  # the pipe's give and pressure strain take 0.3 %
    failing = [item for item in checks(pair(), "anchor_claim") if item.outcome == "fails"]
    assert [(item.where, item.state) for item in failing] == [("middle", before), ("middle", beyond)]


def test_scene_8_the_claim_passes_where_one_side_cannot_be_without_pressure():
    more = "\n".join(
        [
            "states:",
            "  drop:",
            *(
                f'    - {{ state: "{state}", because: no valve stands between }}'
                for state in ("pressure before middle, none beyond it", "pressure beyond middle, none before it")
            ),
        ]
    )
    [result] = checks(pair(more=more), "anchor_claim")
    assert result.outcome == "passes"
