"""Branched frames in any numbering: the same answers, found by a narrow band.     (test_ordering.py)

The oracle is dense: all members' 12 x 12 matrices added up in the caller's own numbering and given to numpy, so that
neither the inner numbering nor the elimination of chains has a part in it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.mechanics.builders import (
    ANCHOR,
    BENDING,
    PINNED,
    TORSION,
    answer,
    arcs,
    chain,
    nodal,
    rotation,
    rows,
    straights,
    supports,
    uniform,
)
from tests.unit.mechanics.test_recover import arms

from takeup.mechanics import Factor, Frame, Loads, NotFactored, NotHeld, factorise, no_arcs, solve
from takeup.mechanics.assembly import _in_runs, member_operators, node_springs
from takeup.mechanics.model import make_model, to_global_axes
from takeup.mechanics.ordering import number, renumbered
from takeup.mechanics.recover import add_springs, start_of, strike_held, sums_at_nodes
from takeup.mechanics.solve import _not_factored
from takeup.mechanics.sparse import depth_first, factor_sparse


def graph(edges, points=None, holds=None, seed=0):
    """Return a frame of straights along these edges, at random points if none are told."""
    edges = np.array(edges, dtype=np.int64).reshape(-1, 2)
    count = int(edges.max()) + 1
    points = 3.0 * np.random.default_rng(seed).normal(size=(count, 3)) if points is None else np.array(points, float)
    return Frame(
        points=points,
        straights=straights(edges[:, 0], edges[:, 1]),
        arcs=no_arcs(),
        supports=supports({0: ANCHOR} if holds is None else holds),
    )


STAR = [(0, arm) for arm in (1, 2, 3, 4)] + [(1, 5), (5, 6), (2, 7)]
RING = [(0, 3), (3, 1), (1, 4), (4, 2), (2, 0)]
LOLLIPOP = [*RING, (4, 5), (5, 6)]
EIGHT = [(0, 1), (1, 2), (2, 0), (0, 3), (3, 4), (4, 0)]  # two rings at one junction: chains that end where they began
TWINS = [(0, 1), (0, 1), (1, 2), (2, 3), (1, 3)]  # two members between the same nodes, and a ring
PARTS = [(0, 2), (2, 4), (1, 3), (3, 5), (3, 7), (6, 8)]
GRID = [(5 * i + j, 5 * i + j + 1) for i in range(5) for j in range(4)] + [
    (5 * i + j, 5 * i + j + 5) for i in range(4) for j in range(5)
]
COMB = [(i, i + 1) for i in range(10)] + [(i, 10 + i) for i in range(1, 10)]
FULL = [(i, j) for i in range(6) for j in range(i)]
BACKWARD = [(i + 1, i) for i in range(6)]
GRAPHS = {
    "star": STAR,
    "ring": RING,
    "lollipop": LOLLIPOP,
    "eight": EIGHT,
    "twins": TWINS,
    "parts": PARTS,
    "grid": GRID,
    "comb": COMB,
    "each to each": FULL,
    "run backward": BACKWARD,
}


def dense(frame, loads):
    """Return displacements (c, n, 6) by numpy, in the caller's numbering."""
    model = make_model(frame)
    matrices, start, end = member_operators(model, np.arange(frame.member_count))
    size = 6 * len(frame.points)
    matrix = np.zeros((size, size))
    for block, first, second in zip(matrices, start, end, strict=True):
        place = np.concatenate([6 * first + np.arange(6), 6 * second + np.arange(6)])
        matrix[np.ix_(place, place)] += block
    for node, block in zip(*node_springs(model), strict=True):
        matrix[6 * node : 6 * node + 6, 6 * node : 6 * node + 6] += block
    begin = start_of(model, loads)
    out = np.zeros_like(begin.u) if loads.nodal is None else np.moveaxis(loads.nodal, 2, 0).copy()
    out -= sums_at_nodes(model, begin.forces)
    add_springs(model, out, begin.pull)
    free = np.ones(size, dtype=bool)
    free[6 * model.held[0] + model.held[1]] = False
    right = strike_held(model, out).transpose(1, 2, 0).reshape(len(loads.strain), -1)
    step = np.zeros_like(right)
    step[:, free] = np.linalg.solve(matrix[np.ix_(free, free)], right[:, free].T).T
    step = np.ascontiguousarray(step.reshape(len(step), -1, 6).transpose(2, 0, 1))
    return (begin.u + to_global_axes(model, step)).transpose(1, 2, 0)


def random_loads(frame, seed, *, moved=False):
    """Return two cases of everything."""
    random, count = np.random.default_rng(seed), frame.member_count
    return Loads(
        strain=1e-3 * random.normal(size=(2, count)),
        per_length=1e3 * random.normal(size=(2, count, 3)),
        nodal=1e3 * random.normal(size=(2, len(frame.points), 6)),
        imposed=1e-3 * random.normal(size=(2, len(frame.supports.node), 6)) if moved else None,
    )


@pytest.mark.parametrize("edges", GRAPHS.values(), ids=GRAPHS)
def test_ordering_leaves_a_band_and_junctions(edges):
    """Members join neighbours in their chain, or a chain to a junction, or two junctions; nothing else."""
    frame = graph(edges)
    told = number(frame)
    count, chained = len(frame.points), len(told.chain)
    assert sorted(told.node) == list(range(count))
    assert (told.place[told.node] == np.arange(count)).all()
    assert sorted(told.member) == list(range(len(edges)))
    place = np.sort(told.place[np.array(edges)], axis=1)
    inside = place[:, 1] < chained
    assert (place[inside, 1] - place[inside, 0] == 1).all()
    assert (told.chain[place[inside, 0]] == told.chain[place[inside, 1]]).all()
    assert (np.diff(told.chain) >= 0).all()
    touched = place[(place[:, 0] < chained) & ~inside, 0]
    assert np.bincount(told.chain[touched], minlength=1).max(initial=0) <= 2


def test_ordering_junctions_are_few():
    """Star: its centre. Ring: one node of it. Lollipop: where they meet. Comb: its nine roots (by inspection)."""
    found = {
        name: len(graph(edges).points) - len(number(graph(edges)).chain)
        for name, edges in GRAPHS.items()
        if name in ("star", "ring", "lollipop", "comb", "run backward")
    }
    assert found == {"star": 1, "ring": 1, "lollipop": 1, "comb": 9, "run backward": 0}


def test_ordering_free_ends_fill_nothing():
    """In a star all chains end freely and none fills in; in a ring the whole chain does (four nodes of five)."""
    assert number(graph(STAR)).filling == 0
    assert number(graph(RING)).filling == 4


def test_ordering_leaves_a_run_alone():
    assert number(chain(np.eye(3), {0: ANCHOR})) is None


@pytest.mark.parametrize("edges", GRAPHS.values(), ids=GRAPHS)
def test_ordering_same_as_dense(edges):
    """Displacements against numpy; conditions up to 1e5, refined: 1e-9 leaves two figures to the unrefined side."""
    frame = graph(edges, holds={0: ANCHOR, 1: ANCHOR, 6: ANCHOR} if edges is PARTS else None)
    loads = random_loads(frame, 3)
    exact = dense(frame, loads)
    assert answer(frame, loads).displacements == pytest.approx(exact, rel=1e-9, abs=1e-9 * np.abs(exact).max())


def test_ordering_parts_are_solved_each_by_itself():
    """Three parts in one frame against each of them in a frame of its own."""
    frame = graph(PARTS, holds={0: ANCHOR, 1: ANCHOR, 6: ANCHOR})
    loads = random_loads(frame, 3)
    together = answer(frame, loads)
    for nodes, members in (([0, 2, 4], [0, 1]), ([1, 3, 5, 7], [2, 3, 4]), ([6, 8], [5])):
        inner = {node: place for place, node in enumerate(nodes)}
        edges = [(inner[PARTS[member][0]], inner[PARTS[member][1]]) for member in members]
        alone = answer(
            graph(edges, frame.points[nodes]),
            Loads(
                strain=loads.strain[:, members], per_length=loads.per_length[:, members], nodal=loads.nodal[:, nodes]
            ),
        )
        expected = alone.displacements
        assert together.displacements[:, nodes] == pytest.approx(expected, rel=1e-9, abs=1e-9 * np.abs(expected).max())
        assert together.end_forces[:, members] == pytest.approx(
            alone.end_forces, rel=1e-9, abs=1e-9 * np.abs(alone.end_forces).max()
        )


def wood(seed, count, rings):
    """Return a random tree, some rings closed, in random numbering, with arcs, links, askew and shared supports."""
    random = np.random.default_rng(seed)
    reach = int(random.choice([1, 2, count]))  # long chains, or bushes
    parent = [int(random.integers(max(0, node - reach), node)) for node in range(1, count)]
    edges = [(mother, node) for node, mother in enumerate(parent, start=1)]
    closed = {tuple(sorted(random.choice(count, 2, replace=False))) for _ in range(rings)} if count > 2 else set()
    edges += [pair for pair in closed if pair not in edges]
    points = 3.0 * random.normal(size=(count, 3))
    label = random.permutation(count)
    edges = [edge if random.random() < 0.5 else edge[::-1] for edge in edges]
    bent = random.random(len(edges)) < 0.25
    placed = np.empty_like(points)
    placed[label] = points
    line = label[np.array(edges, dtype=np.int64).reshape(-1, 2)[~bent]]
    curve = label[np.array(edges, dtype=np.int64).reshape(-1, 2)[bent]]
    chord = placed[curve[:, 1]] - placed[curve[:, 0]]
    half = random.uniform(0.1, 1.3, size=len(chord))
    length = np.linalg.norm(chord, axis=1)
    along = chord / length[:, None]
    across = np.cross(along, random.normal(size=chord.shape))
    across /= np.linalg.norm(across, axis=1)[:, None]
    entry = np.cos(half)[:, None] * along - np.sin(half)[:, None] * across
    told = [(int(label[0]), ANCHOR)]
    for _ in range(int(random.integers(0, 5))):
        axes = rotation(random.normal(size=3)) if random.random() < 0.7 else np.eye(3)
        held, springs = random.random(6) < 0.3, 1e6 * random.random(6) * (random.random(6) < 0.3)
        told.append((int(random.integers(count)), held, axes, springs))
    told = [row for row in told if row[0] != label[0]] + [told[0]]
    link = 0.3 * random.normal(size=(len(line), 3)) * (random.random((len(line), 1)) < 0.3)
    return Frame(
        points=placed,
        straights=replace(straights(line[:, 0], line[:, 1]), start_offset=link if random.random() < 0.5 else None),
        arcs=arcs(curve[:, 0], curve[:, 1], entry, length / (2.0 * np.sin(half))),
        supports=rows(*told),
    )


def torn(frame):
    """Whether supports that hold a node together might be moved apart by random movements."""
    return len(np.unique(frame.supports.node)) < len(frame.supports.node)


@settings(max_examples=150, deadline=None)
@given(seed=st.integers(0, 10**6), count=st.integers(2, 25), rings=st.integers(0, 4))
def test_ordering_random_frames_same_as_dense(seed, count, rings):
    """Trees and rings against numpy: members of very different lengths, conditions up to some 1e8, hence 1e-6."""
    frame = wood(seed, count, rings)
    loads = random_loads(frame, seed, moved=not torn(frame))
    found, exact = answer(frame, loads), dense(frame, loads)
    assert found.displacements == pytest.approx(exact, rel=1e-6, abs=1e-6 * np.abs(exact).max())


@settings(max_examples=100, deadline=None)
@given(seed=st.integers(0, 10**6), count=st.integers(2, 25), rings=st.integers(0, 4))
def test_ordering_any_numbering_gives_the_same_answer(seed, count, rings):
    """Nodes and members shuffled: the same answers, shuffled; 1e-7: both verified to 1e-8 of the displacement."""
    frame = wood(seed, count, rings)
    loads = random_loads(frame, seed, moved=not torn(frame))
    random = np.random.default_rng(seed)
    label = random.permutation(count)
    line, bends = frame.straights, frame.arcs
    first, second = random.permutation(len(line.start)), random.permutation(len(bends.start))
    member = np.concatenate([first, len(first) + second])
    points, force = np.empty_like(frame.points), np.empty_like(loads.nodal)
    points[label], force[:, label] = frame.points, loads.nodal
    other = Frame(
        points=points,
        straights=replace(
            line,
            start=label[line.start[first]],
            end=label[line.end[first]],
            start_offset=None if line.start_offset is None else line.start_offset[first],
        ),
        arcs=replace(
            bends,
            start=label[bends.start[second]],
            end=label[bends.end[second]],
            entry=bends.entry[second],
            radius=bends.radius[second],
        ),
        supports=replace(frame.supports, node=label[frame.supports.node]),
    )
    one = answer(frame, loads)
    two = answer(
        other, replace(loads, strain=loads.strain[:, member], per_length=loads.per_length[:, member], nodal=force)
    )
    for expected, found in (
        (one.displacements, two.displacements[:, label]),
        (one.start_forces[:, member], two.start_forces),
        (one.end_forces[:, member], two.end_forces),
        (one.reactions, two.reactions),
    ):
        assert found == pytest.approx(expected, rel=1e-7, abs=1e-7 * np.abs(expected).max(initial=0.0))


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), count=st.integers(2, 25), rings=st.integers(0, 4))
def test_ordering_reactions_balance_loads(seed, count, rings):
    """Forces and moments about the origin sum to zero, supports moved too; 1e-8 of the largest, arms of ten metres."""
    frame = wood(seed, count, rings)
    loads = random_loads(frame, seed, moved=not torn(frame))
    found = answer(frame, loads)
    _, _, middle, length = arms(frame)
    push, held = loads.per_length * length[None, :, None], frame.points[frame.supports.node]
    force = found.reactions[..., :3].sum(axis=1) + push.sum(axis=1) + loads.nodal[..., :3].sum(axis=1)
    moment = found.reactions[..., 3:].sum(axis=1) + loads.nodal[..., 3:].sum(axis=1)
    for place, part in ((held, found.reactions[..., :3]), (middle, push), (frame.points, loads.nodal[..., :3])):
        moment = moment + np.cross(place, part).sum(axis=1)
    largest = max(np.abs(found.reactions).max(), np.abs(found.end_forces).max())
    assert force == pytest.approx(0.0, abs=1e-9 * largest)
    assert moment == pytest.approx(0.0, abs=1e-8 * largest)


def test_ordering_condition_is_a_lower_bound():
    """Against numpy.linalg.cond of the scaled dense matrix, with chains and junctions among the pivots."""
    frame = graph(COMB)
    model = make_model(frame)
    matrices, start, end = member_operators(model, np.arange(frame.member_count))
    matrix = np.zeros((6 * len(frame.points),) * 2)
    for block, first, second in zip(matrices, start, end, strict=True):
        place = np.concatenate([6 * first + np.arange(6), 6 * second + np.arange(6)])
        matrix[np.ix_(place, place)] += block
    inside = matrix[6:, 6:]  # node 0 is the anchor
    scale = 1.0 / np.sqrt(np.diagonal(inside))
    true = np.linalg.cond(inside * scale[:, None] * scale)
    factor = factorise(frame)
    assert factor.condition <= true * (1.0 + 1e-9)
    assert solve(factor, random_loads(frame, 1)).condition <= true * (1.0 + 1e-9)
    assert factor.condition > 10.0


def test_ordering_part_that_nothing_holds_is_named():
    """Part 1-3-5-7 is pinned at one node, part 6-8 not at all: three turns and six motions, each with its part."""
    found = factorise(graph(PARTS, holds={2: ANCHOR, 5: PINNED}))
    assert isinstance(found, NotHeld)
    assert found.parts == (1,) * 3 + (6,) * 6
    assert all(words.startswith("in the part of node 1 (4 nodes) can turn freely about") for words in found.words[:3])
    assert found.words[3] == "in the part of node 6 (2 nodes) can move freely along (1, 0, 0)"
    assert np.abs(found.motions[:, [0, 2, 4]]).max() == 0.0


def test_ordering_lost_pivot_is_told_in_the_callers_numbering():
    told = number(graph(STAR))
    lost = _not_factored(6 * 2 + 4, told)
    assert lost.unknown == 6 * told.node[2] + 4
    assert lost.because.startswith(f"no positive pivot at node {told.node[2]}, unknown 4")


def blocks_of(matrix):
    """Return a matrix as blocks."""
    count = len(matrix) // 6
    place = np.indices((count, count)).reshape(2, -1)
    blocks = matrix.reshape(count, 6, count, 6).transpose(0, 2, 1, 3).reshape(-1, 6, 6)
    return 6 * place[0], 6 * place[1], blocks


def spd(seed):
    """Return a symmetric positive definite matrix of 18 unknowns, its condition about ten."""
    root = np.random.default_rng(seed).normal(size=(18, 18))
    return root @ root.T + 10.0 * np.eye(18)


def test_ordering_sparse_factor_solves_and_names_its_pivots():
    """Against numpy; the product of the pivots is the determinant; scaling one unknown scales its own pivot alone."""
    matrix, right = spd(1), np.random.default_rng(2).normal(size=(18, 3))
    factor = factor_sparse(18, *blocks_of(matrix))
    assert factor.solve(right) == pytest.approx(np.linalg.solve(matrix, right), rel=1e-11, abs=1e-13)
    assert np.log(factor.pivots).sum() == pytest.approx(np.linalg.slogdet(matrix)[1], rel=1e-12)
    scale = np.ones(18)
    scale[7] = 8.0
    other = factor_sparse(18, *blocks_of(matrix * scale[:, None] * scale))
    assert other.pivots / factor.pivots == pytest.approx(scale**2, rel=1e-10)


@pytest.mark.parametrize("unknown", [0, 7, 17])
def test_ordering_sparse_factor_names_a_lost_pivot(unknown):
    """A matrix that is a negative number in one unknown, joined to nothing."""
    matrix = spd(1)
    matrix[unknown] = matrix[:, unknown] = 0.0
    matrix[unknown, unknown] = -1.0
    assert factor_sparse(18, *blocks_of(matrix)) == unknown


def test_ordering_singular_junctions_are_refused():
    assert isinstance(factor_sparse(18, *blocks_of(np.zeros((18, 18)))), int)


def test_ordering_walk_visits_every_node_once():
    starts, ends = np.array(PARTS).T
    assert sorted(depth_first(starts, ends, np.ones(10, dtype=np.int64))) == list(
        range(10)
    )  # node 9 is joined to nothing


def test_ordering_many_branches_and_one_case_is_verified():
    """A main of 400 members with forty branches of ten: verified, and the reactions carry the weight (by sum)."""
    edges = [(i, i + 1) for i in range(400)]
    points = [[2.0 * i, 0.0, 0.0] for i in range(401)]
    for branch in range(40):
        root = 5 + 10 * branch
        for step in range(10):
            edges.append((root if step == 0 else len(points) - 1, len(points)))
            points.append([2.0 * root, 2.0 * (step + 1), 0.0])
    frame = graph(edges, points, dict.fromkeys([0, 400, *range(410, 801, 10)], ANCHOR))
    found = answer(frame, uniform(frame, 2.2e-3, (0.0, 0.0, -850.0)))
    assert found.reactions[0, :, 2].sum() == pytest.approx(850.0 * 2.0 * 800, rel=1e-9)
    assert isinstance(factorise(frame), Factor)


def test_ordering_load_on_one_branch_is_found_there():
    """A load at the tip of a cantilever branch: P L^3/3EI beyond its root's own movement (textbook, small angles)."""
    points = [[0, 0, 0], [4, 0, 0], [8, 0, 0], [4, 3, 0]]
    frame = graph([(3, 1), (0, 1), (1, 2)], points, {0: ANCHOR, 2: ANCHOR})
    found = answer(frame, nodal(frame, {3: [0, 0, 1e3, 0, 0, 0]}))
    tip, root = found.displacements[0, 3], found.displacements[0, 1]
    assert tip[2] - root[2] - 3.0 * root[3] == pytest.approx(1e3 * 27.0 / (3.0 * BENDING), rel=1e-9)
    assert found.start_forces[0, 0, :3] == pytest.approx([0, 0, 1e3], abs=1e-8)  # member 3 -> 1 starts at the load


def test_ordering_arc_with_branches_at_its_end():
    """A quarter circle, R = 1.3 m, clamped, with two stubs and 10 kN across its plane at its end, numbered anyhow.

    u_z = F R^3 (pi/4 /EI + (3pi/4 - 2) /GJ), the arc's own closed form (test_arc.py, Castigliano): stubs bear nothing.
    """
    radius = 1.3
    frame = Frame(
        points=np.array([[radius, radius, 0.0], [0.0, radius, 1.0], [0.0, 0.0, 0.0], [2.0, 3.0, 0.5]]),
        straights=straights([1, 0], [0, 3]),
        arcs=arcs([2], [0], [[1.0, 0.0, 0.0]], radius),
        supports=supports({2: ANCHOR}),
    )
    found = answer(frame, nodal(frame, {0: [0, 0, 1e4, 0, 0, 0]}))
    soft = np.pi / 4.0 / BENDING + (0.75 * np.pi - 2.0) / TORSION
    assert found.displacements[0, 0, 2] == pytest.approx(1e4 * radius**3 * soft, rel=1e-10)
    assert found.end_forces[0, 2, :3] == pytest.approx([0, 0, 1e4], abs=1e-7)  # the arc, after the straights


def test_ordering_second_member_between_two_nodes_leaves_the_run_a_run():
    """Two members from node 2 to 3 of a pipe: all but the second of them are written as runs, and it bears its half."""
    edges = [(0, 1), (1, 2), (2, 3), (2, 3), (3, 4)]
    frame = graph(edges, [[2.0 * i, 0, 0] for i in range(5)], {0: ANCHOR})
    assert number(frame) is None
    assert _in_runs(make_model(frame)).tolist() == [True, True, True, False, True]
    found = answer(frame, nodal(frame, {4: [8e3, 0, 0, 0, 0, 0]}))
    assert found.end_forces[0, :, 0] == pytest.approx([8e3, 8e3, 4e3, 4e3, 8e3], rel=1e-12)


def test_ordering_members_listed_backward_are_runs_still():
    """A run numbered from the far end, each member from its second node to its first: all of it a run inside."""
    told = number(graph(BACKWARD))
    inner = make_model(renumbered(graph(BACKWARD), told), len(told.chain))
    assert isinstance(inner.start, slice)
    assert _in_runs(inner).all()


@pytest.mark.parametrize("members", [200, 1_000, 5_000, 10_000, 20_000, 50_000])
def test_ordering_kilometre_with_a_stub_is_right_or_refused(members):
    """A kilometre between anchors in ever shorter members, a stub of 5 m in its middle: what is called solved is right.

    q L^4/384EI in the middle (textbook), the stub without weight or load; 1e-7 as for the plain run (test_solve.py).
    """
    points = np.outer(np.linspace(0.0, 1_000.0, members + 1), [0.6, 0.8, 0.0])
    middle = members // 2
    edges = [*((i, i + 1) for i in range(members)), (middle, members + 1)]
    frame = graph(edges, [*points, points[middle] + [4.0, -3.0, 0.0]], {0: ANCHOR, members: ANCHOR})
    factor = factorise(frame)
    if isinstance(factor, NotFactored):
        assert members >= 20_000
        return
    loads = uniform(frame, per_length=(0.0, 0.0, -850.0))
    loads.per_length[0, -1] = 0.0
    found = solve(factor, loads)
    if found.solved.all():
        exact = -850.0 * 1e12 / (384.0 * BENDING)
        assert found.displacements[0, middle, 2] == pytest.approx(exact, rel=1e-7)
    assert found.solved.all() or members > 1_000
    assert not found.solved.all() or members < 50_000
