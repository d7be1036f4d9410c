"""Buckling against closed forms: columns, guides, springs, frames, rings.     (test_stability.py)"""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from tests.unit.mechanics.builders import (
    ANCHOR,
    AXIAL,
    BENDING,
    TORSION,
    arcs,
    chain,
    moved,
    no_straights,
    rotation,
    rows,
    straights,
    supports,
)
from tests.unit.mechanics.stability.columns import (
    ENDS,
    FREE,
    HINGE,
    LENGTH,
    SLIDING_CLAMP,
    SLIDING_HINGE,
    column,
    in_plane,
    modes,
)
from tests.unit.mechanics.test_invariance import run

import takeup.mechanics.stability.buckling as at_work
from takeup.mechanics import (
    Factor,
    Frame,
    Links,
    NotAtRisk,
    NotHeld,
    NotVerified,
    Unstable,
    buckling,
    factorise,
    factors_below,
    no_arcs,
)
from takeup.mechanics.stability.buckling import pencil_of
from takeup.mechanics.stability.modes import GOAL, ROUGH, Pencil

EULER = np.pi**2 * BENDING / LENGTH**2
TANGENT = 4.493409457909064  # first root of tan x = x (mathematics)
CLOSED = {  # over pinned Euler; Timoshenko and Gere, Theory of Elastic Stability, 1961, chapter 2, from memory
    "hinged": (1.0, 4.0),
    "clamped": (4.0, (2.0 * TANGENT / np.pi) ** 2),
    "clamped and hinged": ((TANGENT / np.pi) ** 2,),
    "clamped and free": (0.25, 2.25),
    "clamped and guided": (1.0, 4.0),
}
FINE = 4e-5  # cubics leave (pi/n)^4/720 with n members a half-wave: 3.3e-5 at eight, 1e-4 at six, 2e-6 at sixteen
SAME = 1e-9  # two ways to one number: residual squared, and rounding times a condition of 1e6


@pytest.mark.parametrize("ends", ENDS)
def test_euler_columns_buckle_in_pairs(ends):
    found = modes(column(16, ends, turn=(0.4, 1.0, -0.3)), -1.0)
    exact = np.repeat(CLOSED[ends], 2)[:4] * EULER
    assert found.factors[:2] == pytest.approx(exact[:2], rel=FINE)
    assert found.factors[: len(exact)] == pytest.approx(exact, rel=4.0 * FINE)  # 5.6 members a half-wave when clamped
    assert found.factors[::2] == pytest.approx(found.factors[1::2], rel=SAME)
    assert (found.residuals < 1e-5).all()


def test_euler_column_converges_with_order_four():
    """Factors lie above the exact one (cubics are admissible) and come nearer by 16 each time the members halve."""
    above = [modes(column(count), -1.0, count=1).factors[0] / EULER - 1.0 for count in (4, 8, 16)]
    assert min(above) > 0.0
    assert np.array(above[:-1]) / above[1:] == pytest.approx(
        16.0, rel=0.03
    )  # the next order is h^6: 2 % at four members


def test_column_hanging_on_its_own_weight():
    """Greenhill 1881: a clamped and free column buckles at q L^3/EI = 7.8373, (3/2 of the first root of J_-1/3)^2.

    S is the mean over each member: order 2, 1/16 of 2 % at 32 members.
    """
    count = 32
    weight = (np.arange(count) + 0.5) / count - 1.0
    found = modes(column(count, "clamped and free"), weight, count=2)
    exact = 7.8373 * BENDING / LENGTH**2
    assert found.factors == pytest.approx([exact, exact], rel=1e-3)
    coarse = modes(column(count // 2, "clamped and free"), weight[::2] + 0.5 / count, count=1)
    assert abs(coarse.factors[0] / exact - 1.0) < 5e-3


def test_column_on_springs_bends_in_its_own_half_wave():
    """Winkler: F = 2 sqrt(k EI), half-wave pi (EI/k)^(1/4) (Hetenyi, 1946, from memory); five of them fit here.

    Springs at nodes in place of a bedding: forty members leave (h/half-wave)^4 = 2e-4, of which little is felt.
    """
    count, waves = 40, 5
    k = BENDING * (np.pi * waves / LENGTH) ** 4
    rate = np.array([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]) * k * LENGTH / count
    springs = dict.fromkeys(range(1, count), rate)
    found = modes(column(count, holds=dict.fromkeys(springs, FREE), springs=springs), -1.0, count=2)
    assert found.factors == pytest.approx(2.0 * np.sqrt(k * BENDING), rel=1e-4)
    assert found.springs.sum(axis=1) == pytest.approx(0.5, abs=1e-3)  # bending and bedding share alike, by hand
    across = found.shapes[0, :, 1]
    assert (np.diff(np.sign(across[np.abs(across) > 1e-3])) != 0).sum() == waves - 1


@pytest.mark.parametrize("spans", [1, 3, 8])
def test_guides_at_the_spacing_of_the_trade_leave_a_factor_of_four(spans):
    """L = (pi/2) sqrt(EI/F) (check-values D2) is pinned Euler with 4 in hand: hinged ends, any number of spans."""
    force = (0.5 * np.pi) ** 2 * BENDING / LENGTH**2
    guides = {8 * span: SLIDING_HINGE for span in range(1, spans)}
    found = modes(column(8 * spans, holds=guides, length=spans * LENGTH), -force)
    assert found.factors[:2] == pytest.approx([4.0, 4.0], rel=2e-4)  # eight cubics a half-wave: pi^4/720/8^4 times 4
    assert found.factors.min() > 4.0


def test_continuity_with_clamped_ends_raises_the_factor():
    """Two spans between clamps: the middle turns, each span is clamped and hinged: 4 x (4.4934/pi)^2 = 8.183."""
    force = (0.5 * np.pi) ** 2 * BENDING / LENGTH**2
    found = modes(column(32, "clamped", holds={16: SLIDING_HINGE}, length=2.0 * LENGTH), -force, count=2)
    assert found.factors == pytest.approx(4.0 * (TANGENT / np.pi) ** 2, rel=4.0 * FINE)


def test_guide_as_soft_as_the_threshold():
    """A spring amid a hinged column is as good as a guide from 16 pi^2 EI/L^3 on (Timoshenko and Gere, from memory)."""
    threshold = 16.0 * np.pi**2 * BENDING / LENGTH**3
    found = {}
    for share in (0.5, 0.999, 1.001, 4.0):
        rate = np.array([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]) * share * threshold
        found[share] = modes(column(16, holds={8: FREE}, springs={8: rate}), -1.0, count=2)
    factors = {share: one.factors[0] / EULER for share, one in found.items()}
    # P/EULER = x solves k L/4P = 1/(1 - tan(u)/u), u = pi sqrt(x)/2 (by hand, string of two halves)
    half = brentq(
        lambda x: 0.5 * threshold * (1 - np.tan(u := 0.5 * np.pi * x**0.5) / u) * LENGTH / 4 - x * EULER, 1.01, 3.9
    )
    assert factors[0.5] == pytest.approx(half, rel=FINE)
    assert factors[0.999] < 4.0 * (1.0 - 1e-4)
    assert [factors[1.001], factors[4.0]] == pytest.approx([4.0, 4.0], rel=FINE)
    assert found[0.5].springs[0].max() > 0.1
    assert found[4.0].springs[0].max() < 1e-12


def test_bellows_squirms_at_two_pi_rates_over_length():
    """Pressure 2 pi K/L (check-values C7): EI = K L D^2/8 under p pi D^2/4 between clamps, in a dozen members."""
    rate, diameter, live = 3.1e5, 0.245, 0.4
    area = 0.25 * np.pi * diameter**2
    found = modes(column(12, "clamped", length=live, bending=rate * live * diameter**2 / 8.0), -area, count=2)
    assert found.factors == pytest.approx(2.0 * np.pi * rate / live, rel=1.2e-4)  # six cubics a half-wave


def universal(spool=1.0, *, held=False):
    """Return two bellows of a dozen members and a spool ten thousand times as stiff between them, clamped ends."""
    live, bending = 0.4, 900.0
    points = np.zeros((29, 3))
    points[:, 0] = np.concatenate(
        [np.linspace(0, live, 13), live + spool * np.arange(1, 4) / 4, live + spool + np.linspace(0, live, 13)]
    )
    ends = {0: ANCHOR, 28: SLIDING_CLAMP, **({12: SLIDING_CLAMP, 16: SLIDING_CLAMP} if held else {})}
    frame = chain(points, ends)
    stiff = np.full(28, bending)
    stiff[12:16] *= 1e4
    return replace(frame, straights=replace(frame.straights, bending=stiff)), bending, live, spool


def test_universal_joint_buckles_at_a_quarter_of_one_of_its_bellows():
    """Newland (check-values C7): the free spool moves sideways, each bellows clamped and guided: pi^2 EI/L^2.

    Next the spool turns about its middle: tan kl = kl/(1 + a (l + a) k^2), a half the spool (by hand).
    """
    frame, bending, live, spool = universal()
    found = modes(frame, -1.0)
    assert found.factors[:2] == pytest.approx(np.pi**2 * bending / live**2, rel=1e-3)  # the spool still bends a little
    assert found.energy[:2, 12:16].sum(axis=1).max() < 1e-3
    a = 0.5 * spool
    x = brentq(lambda x: np.tan(x) - x / (1.0 + a * (live + a) * (x / live) ** 2), np.pi, 1.4 * np.pi)
    assert found.factors[2:] == pytest.approx((x / live) ** 2 * bending, rel=2e-3)
    single = modes(column(12, "clamped", length=live, bending=bending), -1.0, count=2)
    assert single.factors[0] / found.factors[0] == pytest.approx(4.0, rel=1e-3)
    guided = modes(universal(held=True)[0], -1.0, count=2)
    assert guided.factors[0] == pytest.approx(single.factors[0], rel=1e-5)  # "up to four times", Newland's abstract


@pytest.mark.parametrize(("foot", "kind"), [(ANCHOR, "fixed"), ((True, True, True, False, False, False), "hinged")])
def test_portal_frame_sways(foot, kind):
    """Square portal, one section: kh tan kh = 6 on hinges, kh cot kh = -6 when fixed (Bleich 1952, from memory)."""
    side, count = 4.0, 8
    up = np.linspace(0.0, side, count + 1)
    zero, whole = np.zeros_like(up), np.full_like(up, side)
    left, beam, right = (
        np.stack(parts, axis=1) for parts in ((zero, up, zero), (up, whole, zero), (whole, up[::-1], zero))
    )
    frame = chain(np.vstack([left, beam[1:], right[1:]]), {0: foot, 3 * count: foot}, (1e4 * AXIAL, BENDING, TORSION))
    frame = in_plane(frame)
    force = np.zeros(3 * count)
    force[:count] = force[2 * count :] = -1.0
    if kind == "hinged":
        kh = brentq(lambda x: x * np.tan(x) - 6.0, 0.5, 1.5)
    else:
        kh = brentq(lambda x: x / np.tan(x) + 6.0, 2.0, 3.1)
    found = modes(frame, force, count=2)
    assert found.factors[0] == pytest.approx((kh / side) ** 2 * BENDING, rel=3e-5)  # columns shorten by 1e-8
    assert found.factors[1] > 1.5 * found.factors[0]  # in one plane there are no pairs
    assert np.abs(found.shapes[0, [count, 2 * count], 0]).min() > 0.5  # it sways


def quarter_ring(count, radius, held, stretch=1e3):
    """Return a quarter circle between planes of symmetry; `held` is what every node between is held in."""
    at = np.linspace(0.0, 0.5 * np.pi, count + 1)
    points = radius * np.stack([np.sin(at), 1.0 - np.cos(at), 0.0 * at], axis=1)
    tangents = np.stack([np.cos(at), np.sin(at), 0.0 * at], axis=1)
    first, last = (True, False, False, False, True, True), (False, True, False, True, False, True)
    told = dict.fromkeys(range(count + 1), held)
    told[0], told[count] = np.array(first) | held, np.array(last) | held
    if not held[2]:
        told[count // 2] = (False, False, True, False, False, False)
    return Frame(
        points=points,
        straights=no_straights(),
        arcs=arcs(range(count), range(1, count + 1), tangents[:-1], radius, (stretch * AXIAL, BENDING, TORSION)),
        supports=supports(told),
    )


IN_PLANE = np.array([False, False, True, True, True, False])
OUT_OF_PLANE = np.array([True, True, False, False, False, True])


def test_ring_buckles_in_its_plane():
    """S R^2/EI = n^2, n = 2, 4: by hand for a load that keeps its direction, w = cos n phi, inextensible.

    V = EI/2R^3 (n^2 - 1)^2 - S/2R (n^2 - 1)^2/n^2; EA R^2/EI is 2e6, which leaves 1e-6.
    """
    found = modes(quarter_ring(16, 3.0, IN_PLANE), -1.0, count=2)
    assert found.factors * 9.0 / BENDING == pytest.approx([4.0, 16.0], rel=FINE)


def test_ring_buckles_out_of_its_plane():
    """S R^2 = 9 EI/(4 + EI/GJ) (Timoshenko and Gere 1961, 7.9, from memory; checked by hand on z = cos 2 phi)."""
    found = modes(quarter_ring(16, 3.0, OUT_OF_PLANE), -1.0, count=1)
    assert found.factors[0] * 9.0 == pytest.approx(9.0 * BENDING / (4.0 + BENDING / TORSION), rel=1e-5)


def test_arcs_converge_with_order_four():
    """Errors fall by 16 each time the arcs halve: out of the plane at once, in it from eight arcs to a quarter on.

    There, the few arcs resist bending by stretching at first (EA R^2/EI = 5e4), measured: 14.2 and 14.5.
    """
    exact = 9.0 * BENDING / (4.0 + BENDING / TORSION)
    above = [modes(quarter_ring(n, 3.0, OUT_OF_PLANE), -1.0, count=1).factors[0] * 9.0 / exact - 1.0 for n in (2, 4, 8)]
    assert np.array(above[:-1]) / above[1:] == pytest.approx(16.0, rel=0.05)
    above = [modes(quarter_ring(n, 3.0, IN_PLANE, 30.0), -1.0).factors[0] * 9.0 / BENDING - 4.0 for n in (8, 16, 32)]
    assert np.array(above[:-1]) / above[1:] == pytest.approx(15.0, rel=0.1)


def test_shapes_of_a_pair_span_the_plane_across():
    found = modes(column(16), -1.0, count=2)
    sine = np.sin(np.pi * np.arange(17) / 16)
    for shape in found.shapes:
        size = np.linalg.norm(shape[:, 1:3], axis=1)
        assert size == pytest.approx(sine, abs=1e-5)
    one, other = (shape[8, 1:3] for shape in found.shapes)
    assert one @ other == pytest.approx(0.0, abs=1e-6)  # residual of each mode


def test_energy_tells_where_a_mode_bends():
    """A bellows between guides squirms alone; a line of long spans bows, and its bellows takes part as a hinge."""
    points = np.zeros((29, 3))
    points[:, 0] = np.concatenate(
        [np.linspace(0, 4, 9), 4 + 0.4 * np.arange(1, 13) / 12, 4.4 + np.linspace(0, 4, 9)[1:]]
    )
    frame = chain(points, {0: ANCHOR, 8: SLIDING_CLAMP, 20: SLIDING_CLAMP, 28: ANCHOR})
    bending = frame.straights.bending.copy()
    bending[8:20] = 900.0
    frame = replace(frame, straights=replace(frame.straights, bending=bending))
    squirm = modes(frame, -1.0, count=2)
    assert squirm.energy[:, 8:20].sum(axis=1) == pytest.approx(1.0, abs=1e-12)
    assert squirm.factors == pytest.approx(4.0 * np.pi**2 * 900.0 / 0.4**2, rel=1.2e-4)  # six cubics a half-wave
    stiffer = replace(frame, straights=replace(frame.straights, bending=np.where(bending < 1e3, 3e6, bending)))
    pipe = modes(stiffer, -1.0, count=2)
    assert pipe.energy[:, 8:20].sum(axis=1).max() < 1e-9
    assert pipe.energy.sum(axis=1) + pipe.springs.sum(axis=1) == pytest.approx(1.0, abs=1e-12)


def test_tension_and_nothing_are_not_at_risk():
    frame = column(8)
    for force in (np.zeros(8), np.linspace(0.0, 5.0, 8)):
        assert isinstance(buckling(frame, force), NotAtRisk)
    stuck = column(1, "clamped")
    found = buckling(stuck, np.array([-1.0]))
    assert isinstance(found, NotAtRisk)
    assert "can not turn" in found.because


def test_a_little_compression_amid_much_tension_is_found():
    """One span of ten pushed, the others pulled ten thousand times as hard: nearly a clamped span."""
    guides = {4 * span: SLIDING_HINGE for span in range(1, 10)}
    force = np.full(40, 1e4)
    force[20:24] = -1.0
    found = modes(column(40, holds=guides, length=10.0 * LENGTH), force, count=2)
    factor = factorise(column(40, holds=guides, length=10.0 * LENGTH))
    assert isinstance(factor, Factor)
    assert factors_below(factor, force, float(found.factors[0]) * 0.999) == 0
    assert factors_below(factor, force, float(found.factors[1]) * 1.001) == 2
    assert found.factors == pytest.approx(4.0 * EULER, rel=1e-2)  # two cubics a half-wave leave 0.8 %


@pytest.mark.parametrize("seed", range(12))
def test_count_of_negative_pivots_is_the_number_of_factors_below(seed):
    """Sylvester's law against the factors themselves, on trees with rings in any numbering."""
    frame, force = tangle(seed)
    found = modes(frame, force, count=5)
    for place, (low, high) in enumerate(itertools.pairwise(found.factors)):
        if high > low * 1.001:
            assert factors_below(frame, force, float(np.sqrt(low * high))) == place + 1
    assert factors_below(frame, force, 0.999 * float(found.factors[0])) == 0


def tangle(seed):
    """Return a random tree with a ring, arms, springs and holds in any axes, and forces of both signs."""
    random = np.random.default_rng(seed)
    count = 24
    points, edges = np.zeros((count, 3)), []
    for node in range(1, count):
        root = node - 1 if random.random() < 0.7 else int(random.integers(0, node))
        points[node] = points[root] + random.normal(size=3)
        edges.append((root, node) if random.random() < 0.7 else (node, root))
    edges.append((count - 1, count // 2))
    order, label = random.permutation(len(edges)), random.permutation(count)
    start, end = label[np.array(edges)[order]].T
    placed = np.empty_like(points)
    placed[label] = points
    line = replace(straights(start, end), start_offset=0.1 * random.normal(size=(len(edges), 3)))
    spring = 1e5 * (random.random(6) < 0.5)
    told = [
        (int(label[0]), ANCHOR),
        (int(label[9]), (True, *FREE[1:]), rotation(random.normal(size=3))),
        (int(label[15]), FREE, rotation(random.normal(size=3)), spring),
    ]
    frame = Frame(points=placed, straights=line, arcs=no_arcs(), supports=rows(*told))
    return frame, 1e4 * random.normal(size=len(edges)) - 1e4


def bent(seed):
    """Return a random run of straights and arcs with a turned and sprung guide, and forces of both signs."""
    frame, _ = run(seed, 9)
    return frame, 1e4 * np.random.default_rng(seed).normal(size=9) - 1e4


@pytest.mark.parametrize("build", [tangle, bent])
@pytest.mark.parametrize("seed", range(12))
def test_factors_are_those_of_dense_matrices(seed, build):
    """All eigenvalues of L^-1 K_G L^-T by numpy are the oracle; nothing of the search has a part in it."""
    frame, force = build(seed)
    found = modes(frame, force, count=6)
    size = 6 * len(frame.points)
    factor = factorise(frame)
    assert isinstance(factor, Factor)
    pencil = pencil_of(factor, force, None)
    K, G = pencil.stiff(np.eye(size)), pencil.turned(np.eye(size))
    root = np.linalg.inv(np.linalg.cholesky(K))
    nu = np.sort(np.linalg.eigvalsh(-root @ G @ root.T))[::-1]
    exact = 1.0 / nu[nu > 1e-9 * np.abs(nu).max()][:6]
    assert found.factors == pytest.approx(exact, rel=1e-7)  # dense rounding with a condition of 1e5 and more


numbers = st.floats(-3.0, 3.0, allow_nan=False)


@settings(max_examples=20, deadline=None)
@given(
    st.sampled_from([tangle, bent]),
    st.integers(0, 1000),
    st.tuples(numbers, numbers, numbers),
    st.tuples(numbers, numbers, numbers),
)
def test_turned_frames_buckle_alike(build, seed, turn, shift):
    """Factors and shares stay when the frame is turned and shifted; the shapes turn with it, up to their sign."""
    frame, force = build(seed)
    matrix = rotation(turn)
    here, there = modes(frame, force, count=2), modes(moved(frame, matrix, shift), force, count=2)
    assert there.factors == pytest.approx(here.factors, rel=1e-8)  # shifted points carry rounding of 1e-16 times ten
    if here.factors[1] > 1.01 * here.factors[0]:
        assert there.energy[0] == pytest.approx(here.energy[0], abs=1e-4)  # shapes: residual over the gap of 1 %
        turned = here.shapes[0, :, :3] @ matrix.T
        apart = min(np.abs(there.shapes[0, :, :3] - sign * turned).max() for sign in (1.0, -1.0))
        assert apart < 1e-4


def test_numbering_and_sense_of_members_do_not_matter():
    frame, random = column(12, "clamped and hinged"), np.random.default_rng(2)
    force = -random.uniform(0.5, 1.5, 12)
    order, label, turn = random.permutation(12), random.permutation(13), random.random(12) < 0.5
    start, end = label[frame.straights.start[order]], label[frame.straights.end[order]]
    placed = np.empty_like(frame.points)
    placed[label] = frame.points
    other = replace(
        frame,
        points=placed,
        straights=straights(np.where(turn, end, start), np.where(turn, start, end)),
        supports=replace(frame.supports, node=label[frame.supports.node]),
    )
    here, there = modes(frame, force, count=2), modes(other, force[order], count=2)
    assert there.factors == pytest.approx(here.factors, rel=SAME)
    assert there.energy.sum(axis=0) == pytest.approx(here.energy.sum(axis=0)[order], abs=1e-6)  # of the pair together
    size = np.linalg.norm(here.shapes[0, :, :3], axis=1)
    assert np.linalg.norm(there.shapes[0, label, :3], axis=1) == pytest.approx(size, abs=1e-5)


def test_own_buckling_tells_a_member_too_long():
    """One hinged member is at mu S L^2/(pi^2 EI) = 12/pi^2: a cubic between its ends buckles at 12 EI/L^2 (by hand)."""
    found = modes(column(1), -1.0)
    assert found.factors[0] == pytest.approx(12.0 * BENDING / LENGTH**2, rel=SAME)
    assert found.own_buckling[0] == pytest.approx(12.0 / np.pi**2, rel=SAME)
    assert modes(column(8), -1.0).own_buckling[0] == pytest.approx(1.0 / 64.0, rel=1e-3)


def test_what_can_not_be_answered_says_so():
    force = np.full(8, -1.0)
    assert isinstance(buckling(column(8, holds={0: FREE, 8: FREE}), force), NotHeld)
    force[3] = np.nan
    found = buckling(column(8), force)
    assert isinstance(found, NotVerified)
    assert "member 3" in found.because
    assert isinstance(factors_below(column(8), force, 1.0), NotVerified)


def test_a_sum_of_equal_lines_has_all_its_equal_factors():
    """Three columns that nothing joins: six equal factors, found together, none missed."""
    one = column(8)
    points = np.vstack([one.points + np.array([0.0, 5.0 * number, 0.0]) for number in range(3)])
    start = np.concatenate([np.arange(8) + 9 * number for number in range(3)])
    frame = Frame(
        points=points,
        straights=straights(start, start + 1),
        arcs=no_arcs(),
        supports=rows(*((9 * n + at, hold) for n in range(3) for at, hold in ((0, HINGE), (8, SLIDING_HINGE)))),
    )
    found = modes(frame, -1.0, count=7)
    assert found.factors[:6] == pytest.approx(found.factors[0], rel=SAME)
    assert found.factors[6] == pytest.approx(4.0 * found.factors[0], rel=1e-2)
    assert modes(frame, -1.0, count=2).factors == pytest.approx(found.factors[:2], rel=SAME)


def test_compressed_link_alone_pushes_a_mast_over():
    """A hinged link of length l pushes on the tip of a mast: sideways -T/l against 3EI/L^3 (by hand, exact)."""
    far = 2.5
    points = [*((x, 0.0, 0.0) for x in np.linspace(0.0, LENGTH, 5)), (LENGTH + far, 0.0, 0.0), (LENGTH + far, 1.0, 0.0)]
    frame = Frame(
        points=np.array(points),
        straights=straights([0, 1, 2, 3, 5], [1, 2, 3, 4, 6]),
        arcs=no_arcs(),
        supports=rows((0, ANCHOR), (5, ANCHOR), (6, ANCHOR)),
    )
    none = np.zeros((1, 3))
    push = Links(start=np.array([4]), end=np.array([5]), start_arm=none, end_arm=none, force=np.array([-1.0]))
    found = modes(frame, 0.0, links=push)
    assert found.factors == pytest.approx(np.full(2, far * 3.0 * BENDING / LENGTH**3), rel=SAME)  # two, and no more
    assert found.own_buckling == pytest.approx(0.0, abs=0.0)
    pull = replace(push, force=np.array([1.0]))
    assert isinstance(buckling(frame, np.zeros(5), links=pull), NotAtRisk)
    wrong = buckling(frame, np.zeros(5), links=replace(push, force=np.array([np.inf])))
    assert isinstance(wrong, NotVerified)
    assert "link 0" in wrong.because


def test_a_search_that_saw_one_plane_only_is_found_out(monkeypatch):
    """Starts that lie in one plane find one mode of each pair; the count of pivots says so and the search goes on."""
    fair, calls = Pencil.anything, []

    def blind(pencil, seed, count):
        calls.append(seed)
        rows = fair(pencil, seed, count)
        return rows * np.tile([1.0, 1.0, 0.0, 0.0, 0.0, 1.0], rows.shape[1] // 6) if len(calls) <= blinded else rows

    monkeypatch.setattr(Pencil, "anything", blind)
    blinded = 1
    found = modes(column(12), -1.0, count=2)
    assert found.factors == pytest.approx([EULER, EULER], rel=FINE)
    assert len(calls) > 1
    blinded = 10**6
    hidden = buckling(column(12), np.full(12, -1.0), count=2)
    assert isinstance(hidden, NotVerified)
    assert "count of pivots" in hidden.because


def test_a_residual_beyond_its_limit_is_refused(monkeypatch):
    monkeypatch.setattr(at_work, "RESIDUAL_LIMIT", 1e-17)
    found = buckling(column(12), np.full(12, -1.0))
    assert isinstance(found, NotVerified)
    assert "residual" in found.because


def test_a_shift_that_meets_a_factor_is_not_believed_or_moves():
    """At the factor itself the matrix is singular: either no count is given, or it is that of one side."""
    found = modes(column(6), -1.0, count=2)
    for share in (1.0, 1.0 + 1e-15, 1.0 - 1e-15):
        count = factors_below(column(6), np.full(6, -1.0), float(found.factors[0]) * share)
        assert isinstance(count, NotVerified) or count in (0, 1, 2)
    assert factors_below(column(6), np.full(6, -1.0), float(found.factors[0]) * (1.0 - 1e-6)) == 0
    assert factors_below(column(6), np.full(6, -1.0), float(found.factors[1]) * (1.0 + 1e-6)) == 2


@pytest.mark.parametrize("share", [-0.7, 0.0, 0.4])
def test_what_stays_fixed_leaves_the_rest_of_the_critical_load(share):
    """A column under a fixed thrust P_0 and a growing P = 1: mu = P_e - P_0 (by hand); P_0 may pull."""
    found = modes(column(16), -1.0, fixed=np.full(16, -share * EULER), count=2)
    assert found.factors == pytest.approx(np.full(2, (1.0 - share) * EULER), rel=2.0 * FINE)
    assert found.energy.sum(axis=1) == pytest.approx(1.0, abs=1e-12)
    assert found.own_buckling == pytest.approx(1.0 / 256.0, rel=1e-4)
    known = modes(column(16), -(share * EULER + found.factors[0]), count=1)
    assert known.factors[0] == pytest.approx(1.0, rel=SAME)


def test_fixed_forces_beyond_the_critical_ones_are_unstable():
    found = buckling(column(8), np.full(8, -1.0), fixed=np.full(8, -1.01 * EULER))
    assert isinstance(found, Unstable)
    assert "2 load factors are below 1" in found.because
    assert isinstance(buckling(column(8), np.full(8, -1.0), fixed=np.full(8, np.nan)), NotVerified)


def kilometre(*, short: float):
    """Return 1 km in 21 legs with a bend after each, nodes every 2 m and rests there, a short member to either side."""
    points = [np.zeros(3)]
    for number in range(21 * 24):
        begin, way = points[-1], np.eye(3)[number // 24 % 2]
        points += [begin + part * way for part in (short, 2.0 - short, 2.0)]
    level = (False, False, True, False, False, False)
    return chain(points, dict.fromkeys(range(0, len(points), 3), level) | {0: ANCHOR, len(points) - 1: ANCHOR})


def test_a_long_soft_line_has_residuals_of_rounding_and_its_factors_are_counted():
    """Short members in a kilometre leave residuals that no search makes less than 2e-6: they are what there is.

    Every factor is shut in by counts: as many below a thousandth less as there are before it, one more a thousandth
    above. The same line without short members has the same factors, to what the residuals say they may be wrong by.
    """
    frame = kilometre(short=0.2)
    found = modes(frame, -1.0)
    assert GOAL < found.residuals.max() <= ROUGH
    force = np.full(frame.member_count, -1.0)
    for number, factor in enumerate(found.factors):
        counts = [factors_below(frame, force, float(factor) * share) for share in (1.0 - 1e-3, 1.0 + 1e-3)]
        assert counts == [number, number + 1]
    assert found.factors == pytest.approx(modes(kilometre(short=0.7), -1.0).factors, rel=ROUGH)
