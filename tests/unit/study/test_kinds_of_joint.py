"""Balanced joints, limit rods, doubles, hoses: thrust and stiffness by hand.     (study/test_kinds_of_joint.py)

DN 200 x 8.18 mm; A_e = 46 000 mm2 and 18 bar under test, so P A_e = 82 800 N by hand. A run of 20 m between rigid
anchors whose pipe has E A of 1.1e9 N gives 2e-8 m/N beside a joint's 1e-5: what the pipe does is written out by its
closed form wherever it is above rounding.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.builders import along, hold, joint_of, line_file, solve, solve_all, state_number, walk_all
from tests.unit.study.kind_lines import AREA, BALANCE, GUIDES, RATE, balance, base, rods, run, with_joint

from takeup.line import bore_area, wall_area
from takeup.mechanics import Loads, factorise
from takeup.mechanics import solve as solve_frame
from takeup.study import LineAnswer, stability_of
from takeup.study.model import model_of

TEST, LOST = "under hydrostatic test", "hot, pressure lost"
THRUST = 82_800.0  # N, 18 bar x 46 000 mm2
EXACT = 1e-6  # closed form of what the model does: rounding of a soft part in a stiff one
WHOLE = 1e-6  # a line without friction has no other force along it: rounding


def pipe_of(answer: LineAnswer) -> tuple[float, float, float]:
    """Return E A [N], A_bore [m2] and Poisson's ratio of the line's pipe, cold."""
    pipe, cold = answer.line.pipe, (70.0 - 32.0) / 1.8
    return pipe.material.modulus.at(cold) * wall_area(pipe), bore_area(pipe), pipe.material.poisson


def row_of(answer: LineAnswer, rate: float, thrust: float, pressure: float, growth: float = 0.0) -> float:
    """Return the force along a straight line between anchors, tension above zero [N].

        S = -(thrust/k + 19.4 m ((1 - 2 nu) P A/(E A_w) + growth))/(1/k + 19.4 m/(E A_w))     (by hand)

    What is no bellows of the 20 m, 19.4 m, wants to be longer by pressure and growth; the joint by thrust/k.
    """
    axial, bore, nu = pipe_of(answer)
    longer = thrust / rate + 19.4 * ((1.0 - 2.0 * nu) * pressure * bore / axial + growth)
    return -longer / (1.0 / rate + 19.4 / axial)


def balanced_row(
    answer: LineAnswer, *, area: float = AREA, pressure: float = 0.0, strain: float = 0.0, stiffer: float = 1.0
) -> tuple[float, float]:
    """Return the force along a run with a balanced joint [N], and the joint's extension from face to face [m].

    Three equations by hand, S the force of the run, x of the bellows, z of its faces, p = (1 - 2 nu) P A_bore:
        S = k x - P A_e + P A_b + k_b z                 what passes the joint: bellows and ties side by side
        z = x + 0.5 ((k x - P A_e + p)/(E A) + strain)   its spools, 1.1 - 0.6 m, carry what its bellows does
        0 = z + 18.9 ((S + p)/(E A) + strain)            anchors do not move

    k and k_b are both so many times those of the sheet.
    """
    axial, bore, nu = pipe_of(answer)
    own, left = (1.0 - 2.0 * nu) * pressure * bore, pressure * (area - AREA)
    line, tied = stiffer * RATE, stiffer * BALANCE
    matrix = [[1.0, -line, -tied], [0.0, 1.0 + 0.5 * line / axial, -1.0], [18.9 / axial, 0.0, 1.0]]
    spools = 0.5 * ((own - pressure * AREA) / axial + strain)
    force, _, faces = np.linalg.solve(matrix, [left, -spools, -18.9 * (own / axial + strain)])
    return float(force), float(faces)


@pytest.mark.parametrize("area", [46_000, 40_000, 60_000])
def test_a_balanced_joint_leaves_the_difference_of_its_areas(area):
    """P (A_e - A_b) and the springs of both bellows; the ties pull with P A_b and the spring of the balance."""
    answer = solve(run(with_joint("in-line pressure balanced", balance(f"{area} mm2"))))
    force, faces = balanced_row(answer, area=area * 1e-6, pressure=18e5)
    assert along(answer, "west end", TEST) == pytest.approx(force, rel=EXACT, abs=1e-3)
    assert along(answer, "east end", TEST) == pytest.approx(-force, rel=EXACT, abs=1e-3)
    assert abs(force) < (200.0 if area == 46_000 else 0.4 * THRUST)
    (joint,) = answer.joints
    assert joint.ties is not None
    pull = joint.ties[state_number(answer, TEST)]
    assert pull == pytest.approx(18e5 * area * 1e-6 + BALANCE * faces, rel=EXACT)


def test_springs_of_a_balanced_joint_add():
    """Hot without pressure: k + k_b take the growth of 18.9 m, k that of its spools too; 200 degC make 46 mm of it."""
    answer = solve(run(with_joint("in-line pressure balanced", balance())))
    expansion = answer.line.pipe.material.expansion
    growth = expansion.at((400.0 - 32.0) / 1.8) - expansion.at((70.0 - 32.0) / 1.8)
    force, _ = balanced_row(answer, strain=growth)
    assert along(answer, "west end", LOST) == pytest.approx(force, rel=EXACT)
    assert force == pytest.approx(-(RATE + BALANCE) * 18.9 * growth, rel=0.02)  # spools, and what the pipe gives


@pytest.mark.parametrize(("scatter", "share"), [({}, 0.1), ({"rate_scatter": "0.25"}, 0.25)])
def test_the_rate_of_a_balance_scatters_with_that_of_its_joint(scatter, share):
    """Hot without pressure both springs push: with rates high they do so with 1 + share of k and of k_b, low 1 - share.

    10 % is taken where the sheet does not say.
    """
    walked = walk_all(run(with_joint("in-line pressure balanced", balance(), **scatter)))
    (answer,) = walked.base.lines
    expansion = answer.line.pipe.material.expansion
    growth = expansion.at((400.0 - 32.0) / 1.8) - expansion.at((70.0 - 32.0) / 1.8)
    step = walked.way.arrivals[state_number(answer, LOST)]
    west = [hold.name for hold in walked.base.run.ground.model.holds].index("west end")
    for words, stiffer in (("nominal rates", 1.0), ("rates high", 1.0 + share), ("rates low", 1.0 - share)):
        (one,) = [item for item in walked.combinations if (item.friction, item.rates) == ("no friction", words)]
        force, _ = balanced_row(answer, strain=growth, stiffer=stiffer)
        assert one.loads[step, west, 0] == pytest.approx(force, rel=EXACT)


def test_a_preset_scatters_with_the_rate_of_a_balance():
    """30 mm x 1.1 x (95 + 190) N/mm = 9405 N, in a row with the pipe: S = x_0/(1/k + L/(E A))."""
    walked = walk_all(run(with_joint("in-line pressure balanced", balance(), preset="30 mm extended")))
    (answer,) = walked.base.lines
    axial, _, _ = pipe_of(answer)
    (one,) = [item for item in walked.combinations if (item.friction, item.rates) == ("no friction", "rates high")]
    west = [hold.name for hold in walked.base.run.ground.model.holds].index("west end")
    assert one.loads[walked.way.arrivals[0], west, 0] == pytest.approx(
        0.03 / (1.0 / (1.1 * (RATE + BALANCE)) + 19.4 / axial), rel=1e-3
    )  # spools within the ties carry the line's own bellows alone


def test_a_balanced_joint_that_is_fitted_extended_draws_with_both_springs():
    """30 mm x (95 + 190) N/mm = 8550 N, in a row with the pipe: S = x_0/(1/k + L/(E A))."""
    answer = solve(run(with_joint("in-line pressure balanced", balance(), preset="30 mm extended")))
    axial, _, _ = pipe_of(answer)
    expected = 0.03 / (1.0 / (RATE + BALANCE) + 19.4 / axial)
    assert along(answer, "west end", "installed") == pytest.approx(expected, rel=1e-3)
    (joint,) = answer.joints
    assert joint.ties is not None
    assert joint.ties[0] == pytest.approx(BALANCE * (0.03 + joint.axial[0]), rel=1e-3)


def test_vacuum_pushes_the_ties_of_a_balance():
    """-1.01325 bar on 46 000 mm2 is -4661 N; what the joint moves under it adds its springs."""
    answer = solve(run(with_joint("in-line pressure balanced", balance())))
    (joint,) = answer.joints
    assert joint.ties is not None
    number = state_number(answer, "cooling under vacuum")
    by_hand = -101_325.0 * AREA + BALANCE * joint.axial[number]
    assert joint.ties[number] == pytest.approx(by_hand, rel=1e-3)  # the spool within the balance


def test_the_head_at_a_balanced_joint_is_balanced_too():
    """A riser of water, joint at 10 m of 20 m: with equal areas neither anchor feels the head that reaches the bellows.

    Less the same line without content, what the ends carry more is the weight of water, and 0 of rho g h A_e, h = 10 m,
    4.5 kN: the weight of what stands on each side of the joint goes to its own anchor.
    """
    water = {
        "medium": "water",
        "design": "{ pressure: 12 bar(g), at_elevation: 20 m, temperature: 300 °F, vacuum: possible }",
        "operating": "{ pressure: 10 bar(g), at_elevation: 20 m, temperature: 280 °F }",
        "test": "{ pressure: 18 bar(g), gauge_elevation: 20 m, with: water, temperature: 70 °F }",
    }
    takeup = with_joint("in-line pressure balanced", balance())
    answer = solve(line_file(["20 m up"], takeups=(takeup,), holds=(GUIDES,), **water))
    (joint,) = answer.joints
    assert joint.ties is not None
    number = state_number(answer, TEST)
    density = answer.states[number].zones[0].density
    head = 18e5 + density * 9.80665 * 10.0
    assert joint.pressure[number] == pytest.approx(head, rel=1e-9)
    assert joint.ties[number] - BALANCE * joint.axial[number] == pytest.approx(head * AREA, rel=1e-3)


def test_an_elbow_balanced_joint_loads_neither_nozzle_nor_anchor():
    """An L of 3 m and 12 m, the joint in the short leg right before the bend, against the same with a single bellows.

    Unbalanced, the bellows pushes the corner out until the long leg and its own spring stop it, by more than 0.5 m and
    with a tenth of P A_e on the nozzle; balanced, it stays within a millimetre and the nozzle gets under a hundredth.
    """
    legs = ["2 m east, to: corner, bend: long radius", "12 m north"]
    keys = {"at": "1 m", "length": "1.1 m"}
    loads, moved = {}, {}
    for kind, more in (("single axial", ()), ("elbow pressure balanced", (balance(),))):
        text = line_file(legs, takeups=(with_joint(kind, *more, **keys),), holds=())
        answer = solve(text)
        loads[kind] = along(answer, "west end", TEST)
        moved[kind] = answer.joints[0].axial[state_number(answer, TEST)]
    assert loads["single axial"] < -0.1 * THRUST
    assert moved["single axial"] > 0.5
    assert abs(loads["elbow pressure balanced"]) < 0.01 * THRUST
    assert abs(moved["elbow pressure balanced"]) < 1e-3


def test_a_balanced_joint_compresses_no_pipe():
    """Under test the run carries P (A_e - A_b) as a column: its factor is that of the unbalanced, times A_e over that.

    A bellows as stiff to bend as pipe, so that the pipe bows: with A_b = 0.9 A_e the factor is ten times the
    unbalanced one's; with equal areas more than fifty times: no pipe is compressed then, and what bows is the joint
    within its own ties. 2 %: those are a string from face to face, beside a bellows that bends; a balance with the sign
    of its pull turned round would halve the unbalanced factor.
    """
    stiff = {"angular_rate": "180000 N·m/deg", "axial_rate": "1 N/mm"}
    factors = {}
    for name, kind, more in (
        ("none", "single axial", ()),
        ("nine tenths", "in-line pressure balanced", (balance("41400 mm2", "1 N/mm"),)),
        ("whole", "in-line pressure balanced", (balance("46000 mm2", "1 N/mm"),)),
    ):
        found = stability_of(solve_all(run(with_joint(kind, *more, **stiff), guides="")))
        modes = next(item for item in found if item.state == TEST).modes
        factors[name] = modes[0].factor if modes else math.inf
    assert factors["nine tenths"] == pytest.approx(10.0 * factors["none"], rel=0.02)
    assert factors["whole"] > 50.0 * factors["none"]


def test_limit_rods_catch_a_joint_whose_anchor_lets_go():
    """The far anchor is gone, a blind end in its place: the joint runs out by the gap, and then rods carry P A_e.

    4 rods of 24 mm, 452.39 mm2, 1.1 m: k_r = 4 x 200e9 x 452.39e-6/1.1 = 329.0e6 N/m. By hand, x of the bellows and R
    of the rods: P A_e = k x + R, R = k_r (x + s - gap), and s = 0.5 (p - R)/(E A) of the spools beside it.
    """
    takeup = with_joint("limit-rod axial", rods("50 mm"))
    held = solve(run(takeup))
    let_go = solve(run(takeup, end="blind"))
    (before,), (joint,) = held.joints, let_go.joints
    number = state_number(let_go, TEST)
    assert not before.rods.any()
    assert along(held, "west end", TEST) < -0.99 * THRUST
    assert along(let_go, "west end", TEST) == pytest.approx(0.0, abs=1e-3 * THRUST)
    stiff = 4.0 * 200e9 * math.pi / 4.0 * 0.024**2 / 1.1
    axial, bore, nu = pipe_of(let_go)
    own = 0.5 * (1.0 - 2.0 * nu) * 18e5 * bore / axial
    x, pull = np.linalg.solve([[RATE, 1.0], [-stiff, 1.0 + 0.5 * stiff / axial]], [THRUST, stiff * (own - 0.05)])
    assert joint.axial[number] == pytest.approx(x, rel=EXACT)
    assert joint.rods[number].sum() == pytest.approx(pull, rel=EXACT)
    assert pull == pytest.approx(THRUST - RATE * 0.05, rel=0.001)


def test_limit_rods_hold_a_spool_between_them():
    """A riser free at its top, cold at 12 bar: both bellows run out to their gaps, and the rods of each hold on.

    Across the upper bellows P A_e = 55 200 N less spring and less what hangs above; across the lower one the spool more
    hangs below it: 1.9 kN over 1.1 m, 0.6 m between the middles, 1036 N, if both were stretched alike. 2 %: content.
    """
    takeup = with_joint("limit-rod universal", rods("20 mm"), live_length="0.2 m", centres="0.6 m", lateral="30 mm")
    keys = {"test": "{ pressure: 18 bar(g), gauge_elevation: 20 m, with: water, temperature: 70 °F }"}
    answer = solve(line_file(["20 m up"], end="blind", takeups=(takeup,), holds=(GUIDES,), **keys))
    (joint,) = answer.joints
    number = state_number(answer, "cold at design pressure")
    lower, upper = joint.rods[number].reshape(2, 4).sum(axis=1)
    assert joint.axial[number] == pytest.approx(0.04, rel=0.02)  # both gaps; the rods stretch 1.5e-4 m each
    assert lower - upper == pytest.approx(-1.9e3 / 1.1 * 0.6, rel=0.02)


@pytest.mark.parametrize("force", [3.0, 10.0])
def test_a_floating_spool_moves_until_its_limit_rods_bear(force):
    """A spool pushed east between two bellows of 95 N/mm: 3 kN move it 15.8 mm, 10 kN to the gap of 20 mm and no more.

    By hand F = 2 k x + k_r (x - gap), k_r = 4 x 200e9 x 452.39e-6/1.1 = 329.0e6 N/m: the rods of the bellows that is
    drawn longer carry the 6.2 kN that are left.
    """
    takeup = with_joint("limit-rod universal", rods("20 mm"), live_length="0.2 m", centres="0.6 m", lateral="30 mm")
    push = f"force: [{force} kN, 0 kN, 0 kN]"
    loads = f"loads: [ {{ name: push, on: T-1, at: J1, {push}, acts: sustained, source: invented }} ]"
    answer = solve(run(takeup, more=loads))
    stiff = 4.0 * 200e9 * math.pi / 4.0 * 0.024**2 / 1.1
    free = 1e3 * force / (2.0 * RATE)
    x = free if free < 0.02 else (1e3 * force + stiff * 0.02) / (2.0 * RATE + stiff)
    (joint,) = answer.joints
    pulls = joint.rods[0].reshape(2, 4).sum(axis=1)
    assert pulls[0] == pytest.approx(stiff * max(x - 0.02, 0.0), rel=1e-3, abs=1e-6)  # what the pipe gives, 1e-4 of x
    assert pulls[1] == 0.0
    begin, end = (int(np.argmin(np.abs(answer.model.stations - station))) for station in (9.6, 9.8))
    longer = float(answer.displacements[0, end, 0] - answer.displacements[0, begin, 0])
    assert longer == pytest.approx(x, rel=1e-3)


def test_the_base_of_a_double_carries_the_difference():
    """Equal halves, equal pressure: nothing. One side without pressure: P A_e at 12 bar, 55 200 N, and its springs."""
    text = run(with_joint("double", base(), live_length="0.3 m"))
    answer = solve(text)
    assert [takeup.name for takeup in answer.line.takeups] == ["J1, first", "J1, second"]
    assert along(answer, "J1 base", TEST) == pytest.approx(0.0, abs=WHOLE * THRUST)
    assert along(answer, "J1 base", LOST) == pytest.approx(0.0, abs=WHOLE * THRUST)
    assert along(answer, "west end", TEST) < -0.99 * THRUST
    shut = "pressure before J1 base, none beyond it"
    one, other = joint_of(answer, "J1, first"), joint_of(answer, "J1, second")
    number = state_number(answer, shut)
    by_hand = 12e5 * AREA - RATE * (one.axial[number] - other.axial[number])
    assert along(answer, "J1 base", shut) == pytest.approx(by_hand, rel=1e-6)
    assert by_hand > 50_000.0


def test_a_double_is_two_joints_and_an_anchor():
    """The same line written out: two joints of half the length and half the weight, an anchor between."""
    double = solve(run(with_joint("double", base(), live_length="0.3 m")))
    halves = [
        with_joint("single axial", at=at, live_length="0.3 m", length="0.55 m", weight="0.95 kN").replace("J1", name)
        for name, at in (("J1", "9.725 m"), ("J2", "10.275 m"))
    ]
    holds = (GUIDES, hold("intermediate anchor", "10 m", name="middle"))
    written = solve(line_file(["20 m east"], holds=holds, takeups=tuple(halves)))
    for state in (TEST, LOST, "operating"):
        for one, other in (("west end", "west end"), ("J1 base", "middle"), ("east end", "east end")):
            assert along(double, one, state) == pytest.approx(along(written, other, state), rel=1e-9, abs=1e-6)


def test_a_hose_has_no_thrust():
    """Its braid carries it: under test only what the pipe wants to lengthen, (1 - 2 nu) P A/(E A_w), on its rate."""
    answer = solve(run(with_joint("braided hose loop", effective_area=None, lateral_rate="20 N/mm", lateral="30 mm")))
    expected = row_of(answer, RATE, 0.0, 18e5)
    assert along(answer, "west end", TEST) == pytest.approx(expected, rel=1e-4)
    assert abs(expected) < 0.001 * THRUST


def _stiffness(kind: str, *more: str, **data: str | None) -> np.ndarray:
    """Return the stiffness (6, 6) of the last face against the first, from unit loads on a cantilever of a joint."""
    takeup = with_joint(kind, *more, at="0.61 m", **data)
    solved = solve_all(line_file(["1.22 m east"], end="free", takeups=(takeup,)))
    model = model_of(solved.study)
    (line,) = model.lines
    node = line.node_at(1.16)
    nodal = np.zeros((6, len(model.frame.points), 6))
    nodal[range(6), node, range(6)] = 1.0
    factor = factorise(model.frame)
    moved = solve_frame(factor, Loads(strain=np.zeros((6, model.frame.member_count)), nodal=nodal)).displacements
    return np.linalg.inv(moved[:, node])


@pytest.mark.parametrize(
    ("kind", "more", "data"),
    [
        ("single axial", (), {}),
        ("externally pressurised", (), {}),
        ("braided hose loop", (), {"effective_area": None, "lateral": "30 mm"}),
        ("limit-rod axial", (rods("50 mm"),), {}),
        ("in-line pressure balanced", (balance(),), {}),
    ],
)
def test_stiffness_of_one_bellows_in_six_directions(kind, more, data):
    """Axial k_x, lateral 12 k/L^2 = 24 k/(2 L^2) with ends kept parallel, angular k, torsion k_t, of the bellows alone.

    Rods stand off and a balance is a row of the walk, not of the frame: what it adds is held in the tests above. By
    hand with k = 100 N m/deg = 5729.6 N m/rad, L = 0.6 m: 12 k/L^2 = 190 986 N/m. The faces are 0.25 m of DN 200 away
    on either side, which gives under 1 % of it; 10 mm of anchor side too.
    """
    rates = {"angular_rate": "100 N·m/deg", "torsion_rate": "900 N·m/deg"}
    stiff = _stiffness(kind, *more, **(rates | data))
    turn = 100.0 * 180.0 / math.pi
    assert stiff[0, 0] == pytest.approx(RATE, rel=1e-4)
    assert stiff[1, 1] == pytest.approx(12.0 * turn / 0.36, rel=0.01)
    assert stiff[2, 2] == pytest.approx(12.0 * turn / 0.36, rel=0.01)
    assert stiff[3, 3] == pytest.approx(900.0 * 180.0 / math.pi, rel=0.01)
    about_its_middle = np.linalg.inv(np.linalg.inv(stiff)[np.ix_([4], [4])])[0, 0]
    assert about_its_middle == pytest.approx(turn, rel=0.01)
    assert np.linalg.inv(np.linalg.inv(stiff)[np.ix_([5], [5])])[0, 0] == pytest.approx(turn, rel=0.01)
