"""The displaced state against closed forms, by hand and PyNite.     (stability/test_second_order.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from Pynite import FEModel3D
from scipy.optimize import brentq
from tests.unit.mechanics.builders import ANCHOR, AXIAL, BENDING, TORSION, chain, nodal, uniform
from tests.unit.mechanics.stability.columns import GUIDED, HINGE, LENGTH, column

from takeup.mechanics import (
    Factor,
    Links,
    Loads,
    NotHeld,
    NotVerified,
    SecondOrder,
    Unstable,
    axial_forces,
    factorise,
    second_order,
    solve,
)

EULER = np.pi**2 * BENDING / LENGTH**2
FINE = 1e-5  # sixteen cubics a half-wave leave 2e-6 of the critical load, amplified five times


def displaced(frame, loads, force, **more) -> SecondOrder:
    """Return the displaced state, which must be found."""
    force = force if callable(force) else np.broadcast_to(np.asarray(force, dtype=float), (frame.member_count,))
    found = second_order(frame, loads, force, **more)
    assert isinstance(found, SecondOrder), found
    assert found.answer.solved.all()
    return found


def still(frame) -> Loads:
    return Loads(strain=np.zeros((1, frame.member_count)))


@pytest.mark.parametrize("share", [-3.0, 0.5, 0.8])
def test_beam_column_under_uniform_load(share):
    """Timoshenko and Gere 1961, 1.3: middle 5qL^4/384EI x 12 (2 sec u - 2 - u^2)/(5 u^4), u = L/2 sqrt(P/EI).

    In tension u is imaginary, and the formula still holds.
    """
    frame, q, P = column(16), 700.0, share * EULER
    found = displaced(frame, uniform(frame, per_length=(0.0, q, 0.0)), -P)
    u = 0.5 * LENGTH * np.emath.sqrt(P / BENDING)
    bow = 5.0 * q * LENGTH**4 / (384.0 * BENDING)
    exact = (bow * 12.0 * (2.0 / np.cos(u) - 2.0 - u**2) / (5.0 * u**4)).real
    assert found.answer.displacements[0, 8, 1] == pytest.approx(exact, rel=FINE)
    assert found.amplification[0] == pytest.approx(exact / bow, rel=FINE)
    moment = found.answer.end_forces[0, 7, 5]  # at the middle: q L^2/8 and P times the deflection, by equilibrium
    assert abs(moment) == pytest.approx(q * LENGTH**2 / 8.0 + P * exact, rel=2e-3)  # of cubics: order two in a member
    assert found.steps == 1


def test_bow_grows_as_the_load_nears_the_critical_one():
    """A sine bow grows by 1/(1 - P/P_cr) (by hand: the bow is the mode)."""
    frame = column(16)
    at = np.linspace(0.0, np.pi, 17)
    bow = np.zeros((17, 6))
    bow[:, 2], bow[:, 4] = 0.02 * np.sin(at), -0.02 * np.pi / LENGTH * np.cos(at)
    for share in (0.3, 0.9):
        found = displaced(frame, still(frame), -share * EULER, bow=bow)
        assert found.amplification[0] == pytest.approx(1.0 / (1.0 - share), rel=10.0 * FINE)
        assert found.answer.displacements[0, 8, 2] == pytest.approx(0.02 * share / (1.0 - share), rel=10.0 * FINE)


def test_beyond_the_critical_load_is_unstable():
    found = second_order(column(8), still(column(8)), np.full(8, -1.001 * EULER))
    assert isinstance(found, Unstable)
    assert "2 load factors are below 1" in found.because
    assert isinstance(second_order(column(8), still(column(8)), np.full(8, -0.999 * EULER)), SecondOrder)


def test_ends_balance_in_the_displaced_state():
    """A leaning clamped column, thrust P and side force H at its top: foot moment H L + P v, by statics."""
    frame, H, P = column(12, "clamped and free"), 300.0, 0.15 * EULER
    loads = nodal(frame, {12: (-P, H, 0.0, 0.0, 0.0, 0.0)})
    found = displaced(frame, loads, -P)
    v = found.answer.displacements[0, 12, 1]
    assert found.answer.reactions[0, 0] == pytest.approx([P, -H, 0.0, 0.0, 0.0, -(H * LENGTH + P * v)], rel=1e-9)
    assert v > 1.5 * H * LENGTH**3 / (3.0 * BENDING)
    assert axial_forces(factorised(frame), found.answer) == pytest.approx(-P, rel=1e-9)


def factorised(frame) -> Factor:
    factor = factorise(frame)
    assert isinstance(factor, Factor)
    return factor


def test_forces_that_depend_on_the_answer():
    """S from the answer itself: the same column under the same thrust, told only as a load."""
    frame, H, P = column(12, "clamped and free"), 300.0, 0.15 * EULER
    loads, factor = nodal(frame, {12: (-P, H, 0.0, 0.0, 0.0, 0.0)}), factorised(frame)
    told = displaced(frame, loads, -P)
    found = displaced(frame, loads, lambda answer: axial_forces(factor, answer)[0])
    assert found.effective_force == pytest.approx(-P, rel=1e-9)
    assert found.answer.displacements == pytest.approx(told.answer.displacements, rel=1e-9, abs=1e-15)


@pytest.mark.parametrize("growth", [0.4, 1.0, 1.6])
def test_bowed_pipe_that_grows_between_anchors(growth):
    """Sine bow a_0 between fixed hinges, strain eps beyond critical: P = EA (eps - pi^2 (a^2 - a_0^2)/4L^2), by hand.

    a = a_0/(1 - P/P_e); a shallow arch, whose thrust nears the critical one and never reaches it. Members shorten as
    they turn, each by its own part: the sum is what counts.
    """
    frame, a0 = column(16, holds={16: HINGE}), 0.05
    at = np.linspace(0.0, np.pi, 17)
    bow = np.zeros((17, 6))
    bow[:, 1], bow[:, 5] = a0 * np.sin(at), a0 * np.pi / LENGTH * np.cos(at)
    strain, factor = growth * EULER / AXIAL, factorised(frame)

    def left(P):
        a = a0 / (1.0 - P / EULER)
        return AXIAL * (strain - np.pi**2 * (a**2 - a0**2) / (4.0 * LENGTH**2)) - P

    P = brentq(left, 0.0, 0.999 * EULER)
    found = displaced(
        frame, uniform(frame, strain), lambda answer: axial_forces(factor, answer)[0], bow=bow, shortening=True
    )
    assert found.effective_force == pytest.approx(-P, rel=2e-4)  # cubics of a sine: P_e 2e-6, its square near the bow
    assert found.answer.displacements[0, 8, 1] == pytest.approx(a0 / (1.0 - P / EULER) - a0, rel=2e-3)
    assert found.steps > 1


def test_steps_that_do_not_end_are_told():
    """A thrust of 1.2 times the critical one, whatever the answer: no state is its own answer."""
    found = second_order(column(8), still(column(8)), lambda _: np.full(8, -1.2 * EULER))
    assert isinstance(found, Unstable)
    assert "diverges" in found.because
    assert "2 load factors are below 1" in found.because


def tied(y, rods, *, pressed=True):
    """Return what sideways force holds a tied universal displaced by y, beyond its springs; pin-like bellows.

    Node 0 and 5 are the pipe ends, held from turning; bellows of 2 mm and little stiffness at either end of the spool,
    their middles L apart; two rods of length `rods` on arms along and beside the pipe.
    """
    thrust, half, L = 4.6e4, 1e-3, 1.5
    xs = np.array([0.0, 0.2 - half, 0.2 + half, 0.2 + L - half, 0.2 + L + half, 0.4 + L])
    frame = chain(np.stack([xs, 0.0 * xs, 0.0 * xs], axis=1), {0: ANCHOR, 5: (False, True, True, True, True, True)})
    bending = np.array([1.0, 1e-6, 1.0, 1e-6, 1.0]) * BENDING
    frame = replace(frame, straights=replace(frame.straights, bending=bending))
    force = np.array([0.0, -thrust, -thrust, -thrust, 0.0]) if pressed else np.zeros(5)
    out = 0.5 * (rods - L - 0.4)
    arms = np.array([[-out, 0.0, 0.25], [-out, 0.0, -0.25]])
    links = Links(
        start=np.zeros(2, dtype=np.int64),
        end=np.full(2, 5),
        start_arm=arms,
        end_arm=arms * np.array([-1.0, 1.0, 1.0]),
        force=np.full(2, 0.5 * thrust if pressed else 0.0),
    )
    imposed = np.zeros((1, 2, 6))
    imposed[0, 1, 1] = y
    found = displaced(frame, replace(still(frame), imposed=imposed), force, links=links)
    return found.answer.reactions[0, 1, 1], thrust, L


@pytest.mark.parametrize("length", [1.7, 2.3, 1.5])
def test_tied_universal_swings(length):
    """Swing dF = P A_e y (1/L_rod - 1/L_centres) for pin-like bellows (by hand): rods alone would have the wrong sign.

    Bellows of 2 mm over 1.5 m leave 2 x 2 mm/1.5 m of the larger term, and less.
    """
    y = 0.03
    pushed, thrust, centres = tied(y, length)
    alone, _, _ = tied(y, length, pressed=False)
    expected = thrust * y * (1.0 / length - 1.0 / centres)
    assert pushed - alone == pytest.approx(expected, abs=3e-3 * thrust * y / centres)
    if length > centres:
        assert pushed < alone


def test_moved_and_sprung_supports_in_the_displaced_state():
    """Reactions balance loads; the moment of thrust and displacement is among them (statics)."""
    frame = column(10, "clamped and free", holds={10: (False, True, False, False, False, False)})
    frame = replace(frame, supports=replace(frame.supports, spring=np.array([np.zeros(6), [0, 0, 2e4, 0, 0, 0]])))
    P, imposed = 0.15 * EULER, np.zeros((1, 2, 6))
    imposed[0, 1, 1] = 0.01
    loads = replace(
        nodal(frame, {10: (-P, 0.0, 500.0, 0.0, 0.0, 0.0), 5: (0.0, 0.0, 200.0, 0.0, 0.0, 0.0)}), imposed=imposed
    )
    found = displaced(frame, loads, -P).answer
    total = found.reactions[0].sum(axis=0)
    assert total[:3] == pytest.approx([P, 0.0, -700.0], abs=1e-6)
    top = found.displacements[0, 10]
    assert top[1] == pytest.approx(0.01, abs=1e-15)
    spring = found.reactions[0, 1]
    assert spring[2] == pytest.approx(-2e4 * top[2], rel=1e-9)
    foot = found.reactions[0, 0]
    assert foot[4] == pytest.approx((500.0 + spring[2]) * LENGTH + 200.0 * LENGTH / 2.0 + P * top[2], rel=1e-9)
    assert foot[5] == pytest.approx(-(spring[1] * LENGTH + P * top[1]), rel=1e-9)


def test_portal_against_pynite():
    """P-Delta of an independent program: sway and thrust of a leaning portal, S from the linear answer, as it takes it.

    It also lets a force soften twist, by S I_p/A against GJ: 1e-5 here, with EA a hundred times the usual.
    """
    up = np.linspace(0.0, 4.0, 9)
    zero, four = np.zeros(9), np.full(9, 4.0)
    left, beam, right = (np.stack(p, axis=1) for p in ((zero, zero, up), (up, zero, four), (four, zero, up[::-1])))
    points = np.vstack([left, beam[1:], right[1:]])
    frame = chain(points, {0: ANCHOR, 24: ANCHOR}, (100.0 * AXIAL, BENDING, TORSION))
    loads = nodal(frame, {8: (2e4, 0, -6e5, 0, 0, 0), 16: (0, 5e3, -9e5, 0, 0, 0)})
    factor = factorised(frame)
    linear = solve(factor, loads)
    found = displaced(frame, loads, axial_forces(factor, linear)[0])

    model = FEModel3D()
    E, G = 2.03e11, 7.81e10  # only the products matter
    model.add_material("steel", E, G, 0.3, 7850.0)
    model.add_section("pipe", 100.0 * AXIAL / E, BENDING / E, BENDING / E, TORSION / G)
    for number, point in enumerate(points):
        model.add_node(f"N{number}", *map(float, point))
    for number in range(24):
        model.add_member(f"M{number}", f"N{number}", f"N{number + 1}", "steel", "pipe")
    for node in (0, 24):
        model.def_support(f"N{node}", *[True] * 6)
    for node, load in ((8, (2e4, 0, -6e5)), (16, (0, 5e3, -9e5))):
        for name, value in zip(("FX", "FY", "FZ"), load, strict=True):
            model.add_node_load(f"N{node}", name, float(value))
    model.analyze_PDelta(check_stability=False)
    combo = "Combo 1"
    theirs = np.array([[getattr(model.nodes[f"N{n}"], name)[combo] for name in ("DX", "DY", "DZ")] for n in range(25)])
    ours = found.answer.displacements[0, :, :3]
    first = linear.displacements[0, :, :3]
    assert np.abs(ours - first).max() > 0.05 * np.abs(first).max()  # there is something to agree about
    assert ours == pytest.approx(theirs, abs=1e-5 * np.abs(theirs).max())


def test_refusals():
    frame = column(4)
    assert isinstance(second_order(column(4, holds={0: GUIDED}), still(frame), np.zeros(4)), NotHeld)
    assert isinstance(second_order(frame, still(frame), np.full(4, np.inf)), NotVerified)
