"""How long a frame takes, beside its bare factorisation and beside another program.     (benchmarks/frames.py)

    PYTHONPATH=src python -m benchmarks.frames

A pipe run in three dimensions: straight members of two metres, a sharp corner every twenty, a guide every ten, an
anchor at each end, growth and weight. "Whole" is everything from the frame to the verified answer: search for
mechanisms, assembly, factorisation, solution, refinement, member forces, residual, reactions. "Bare" is
scipy.linalg.cholesky_banded on the same matrix, assembled beforehand, in either memory order; "in place" is the same
allowed to destroy its matrix.

Then branched frames: a main with forty branches of different lengths, two sub-branches on each, an anchor at every end,
a rest every ten nodes; the same with its nodes and members numbered at random; the same with rings closed between
branches. "Bare" is there scipy.sparse.linalg.splu on the same matrix, the best of four orderings.

Each time is the best of several, all in one run on one machine.
"""

from __future__ import annotations

import itertools
import time
from collections.abc import Callable

import numpy as np
from scipy.linalg import cholesky_banded
from scipy.sparse import coo_array, csc_array
from scipy.sparse.linalg import splu

from takeup.mechanics import Answer, Factor, Frame, Loads, Straights, Supports, factorise, no_arcs, solve
from takeup.mechanics.assembly import assemble, own_blocks
from takeup.mechanics.model import make_model
from takeup.mechanics.recover import forces_at_rest, strike_held, sums_at_nodes

LENGTH, LEG, GUIDE_EVERY = 2.0, 20, 10
AXIAL, BENDING, TORSION = 1.1e9, 6.1e6, 4.7e6  # E A [N], E I, G J [N m2]: about DN 200, wall 8.18 mm, in steel
STRAIN, WEIGHT = 2.2e-3, 850.0  # growth to about 190 degC; pipe, water and insulation [N/m]
SIZES = (100, 1_000, 10_000, 100_000)
BRANCHES, BRANCHED_SIZES = 40, (1_000, 10_000, 100_000)
LARGEST_FOR_PYNITE = 1_000
WAYS = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])


def pipe_run(members: int) -> tuple[Frame, Loads]:
    """Return the frame and its one load case."""
    number = np.arange(members)
    direction = WAYS[(number // LEG) % len(WAYS)]
    points = np.zeros((members + 1, 3))
    points[1:] = np.cumsum(LENGTH * direction, axis=0)
    one = np.ones(members)
    straights = Straights(start=number, end=number + 1, axial=AXIAL * one, bending=BENDING * one, torsion=TORSION * one)
    guides = np.arange(GUIDE_EVERY // 2, members, GUIDE_EVERY)  # between the corners, never on one
    held = np.zeros((len(guides) + 2, 6), dtype=bool)
    held[0] = held[-1] = True
    held[1:-1, :3] = direction[guides] == 0.0
    supports = Supports(
        node=np.concatenate([[0], guides, [members]]),
        axes=np.tile(np.eye(3), (len(held), 1, 1)),
        held=held,
        spring=np.zeros(held.shape),
    )
    loads = Loads(strain=STRAIN * one[None], per_length=np.tile([0.0, 0.0, -WEIGHT], (1, members, 1)))
    return Frame(points=points, straights=straights, arcs=no_arcs(), supports=supports), loads


def branched(members: int, *, shuffled: bool = False, rings: int = 0) -> tuple[Frame, Loads]:
    """Return a main, a quarter of the members, with forty branches, and two sub-branches on each; one load case.

    Args:
        members: number of members, rings apart.
        shuffled: whether nodes and members are numbered at random.
        rings: number of neighbouring branches joined to one another by a member of their own.
    """
    random = np.random.default_rng(1)
    points: list[np.ndarray] = [np.zeros(3)]
    edges: list[tuple[int, int]] = []

    def run(root: int, count: int, way: np.ndarray) -> list[int]:
        nodes = [root, *range(len(points), len(points) + count)]
        points.extend(points[root] + LENGTH * step * way for step in range(1, count + 1))
        edges.extend(itertools.pairwise(nodes))
        return nodes

    east, north, up = np.eye(3)
    main = run(0, members // 4, east)
    ends, share = [0, main[-1]], random.uniform(0.5, 1.5, BRANCHES)
    lengths = (share / share.sum() * (members - members // 4)).astype(int)
    lengths[-1] += members - members // 4 - lengths.sum()
    branches = []
    for number, length in enumerate(lengths):
        way = north if number % 2 else -north
        branch = run(main[int((number + 0.5) * len(main) / BRANCHES)], length // 2, way)
        over = run(branch[len(branch) // 3], length // 4, up)
        under = run(branch[2 * len(branch) // 3], length - length // 2 - length // 4, -up)
        ends += [branch[-1], over[-1], under[-1]]
        branches.append(branch)
    for one, other in zip(branches[:rings], branches[2 : rings + 2], strict=True):
        edges.append((one[len(one) // 2], other[len(other) // 2]))
    rests = np.setdiff1d(np.arange(GUIDE_EVERY // 2, len(points), GUIDE_EVERY), ends)
    node, place = np.concatenate([ends, rests]).astype(np.int64), np.array(points)
    held = np.zeros((len(node), 6), dtype=bool)
    held[: len(ends)] = held[:, 2] = True
    start, end = np.array(edges, dtype=np.int64).T
    if shuffled:
        label, order = random.permutation(len(points)), random.permutation(len(edges))
        start, end, node = label[start[order]], label[end[order]], label[node]
        place[label] = place.copy()
    one = np.ones(len(edges))
    frame = Frame(
        points=place,
        straights=Straights(start=start, end=end, axial=AXIAL * one, bending=BENDING * one, torsion=TORSION * one),
        arcs=no_arcs(),
        supports=Supports(
            node=node, axes=np.tile(np.eye(3), (len(node), 1, 1)), held=held, spring=np.zeros(held.shape)
        ),
    )
    return frame, Loads(strain=STRAIN * one[None], per_length=np.tile([0.0, 0.0, -WEIGHT], (1, len(edges), 1)))


def sparse_matrix(frame: Frame) -> csc_array:
    """Return the matrix in the caller's numbering, held unknowns replaced by ones."""
    model = make_model(frame, 0)  # no chains: all blocks between nodes are links
    band, links = assemble(model)
    own = np.arange(len(frame.points))
    rows, columns = np.concatenate([own, links.high, links.low]), np.concatenate([own, links.low, links.high])
    blocks = np.concatenate([own_blocks(band), links.block, links.block.swapaxes(1, 2)])
    row, column = np.broadcast_arrays(
        6 * rows[:, None, None] + np.arange(6)[:, None], 6 * columns[:, None, None] + np.arange(6)
    )
    matrix = coo_array((blocks.ravel(), (row.ravel(), column.ravel()))).tocsc()
    matrix.eliminate_zeros()
    return matrix


def bare_sparse(frame: Frame, loads: Loads, repeats: int) -> tuple[dict[str, float], np.ndarray]:
    """Return the times of the bare sparse factorisation by ordering [ms], and its displacements (n, 6)."""
    matrix, times = sparse_matrix(frame), {}
    for order in ("COLAMD", "MMD_AT_PLUS_A"):
        for name, more in (("", {}), (" sym", {"diag_pivot_thresh": 0.0, "options": {"SymmetricMode": True}})):
            times[order[:6] + name] = best(
                lambda order=order, more=more: splu(matrix, permc_spec=order, **more), repeats
            )
    model = make_model(frame)
    right = strike_held(model, -sums_at_nodes(model, forces_at_rest(model, loads)))[:, 0]
    return times, splu(matrix).solve(right.T.ravel()).reshape(-1, 6)


def best(action: Callable[[], object], repeats: int) -> float:
    """Return the shortest of several times of an action [ms]."""
    times = []
    for _ in range(repeats):
        before = time.perf_counter()
        action()
        times.append(time.perf_counter() - before)
    return 1e3 * min(times)


def whole(frame: Frame, loads: Loads) -> Answer:
    """Return the verified answer."""
    factor = factorise(frame)
    assert isinstance(factor, Factor), "the run is held"
    answer = solve(factor, loads)
    assert answer.solved.all(), answer.because
    return answer


def bare(frame: Frame, repeats: int) -> dict[str, float]:
    """Return the times of the bare factorisation by memory order [ms]."""
    band = assemble(make_model(frame))[0].T
    times = {}
    for order in ("C", "F"):
        matrix = np.array(band, order=order)
        times[order] = best(lambda matrix=matrix: cholesky_banded(matrix, lower=True, check_finite=False), repeats)
    copies = [np.array(band, order="F") for _ in range(min(repeats, 10))]
    times["in place"] = best(
        lambda: cholesky_banded(copies.pop(), lower=True, check_finite=False, overwrite_ab=True), len(copies)
    )
    return times


def pynite(frame: Frame) -> tuple[float, np.ndarray]:
    """Return the time of PyNite's linear analysis, model building not counted [ms], and the start's reactions [N]."""
    from Pynite import FEModel3D

    model = FEModel3D()
    modulus, shear = 2.03e11, 7.81e10
    model.add_material("steel", modulus, shear, 0.3, 7850.0)
    model.add_section("pipe", AXIAL / modulus, BENDING / modulus, BENDING / modulus, TORSION / shear)
    for number, point in enumerate(frame.points):
        model.add_node(f"N{number}", *map(float, point))
    for number, (start, end) in enumerate(zip(frame.straights.start, frame.straights.end, strict=True)):
        model.add_member(f"M{number}", f"N{start}", f"N{end}", "steel", "pipe")
        model.add_member_dist_load(f"M{number}", "FZ", -WEIGHT, -WEIGHT)
        push = AXIAL * STRAIN * (frame.points[end] - frame.points[start]) / LENGTH  # growth, as a pair of forces
        for name, value in zip(("FX", "FY", "FZ"), push, strict=True):
            if value:
                model.add_node_load(f"N{end}", name, float(value))
                model.add_node_load(f"N{start}", name, -float(value))
    for node, held in zip(frame.supports.node, frame.supports.held, strict=True):
        model.def_support(f"N{node}", *map(bool, held))
    spent = best(lambda: model.analyze_linear(check_stability=False), 1)
    node = model.nodes["N0"]
    return spent, np.array([node.RxnFX["Combo 1"], node.RxnFY["Combo 1"], node.RxnFZ["Combo 1"]])


def main() -> None:
    """Print the table."""
    print("times in ms, best of several; ratio: whole over the better of the two bare orders")
    print(f"{'members':>8} {'whole':>8} {'bare F':>8} {'bare C':>8} {'in place':>9} {'ratio':>6}", end="")
    print(f" {'residual':>9} {'PyNite':>9} {'over whole':>11}")
    for members in SIZES:
        frame, loads = pipe_run(members)
        repeats = max(5, min(200, 200_000 // members))
        spent = best(lambda frame=frame, loads=loads: whole(frame, loads), repeats)
        times, answer = bare(frame, repeats), whole(frame, loads)
        ratio = spent / min(times["F"], times["C"])
        print(f"{members:8} {spent:8.2f} {times['F']:8.2f} {times['C']:8.2f} {times['in place']:9.2f}", end="")
        print(f" {ratio:6.2f} {answer.residual[0]:9.1e}", end="")
        if members <= LARGEST_FOR_PYNITE:
            other, reaction = pynite(frame)
            apart = np.abs(reaction - answer.reactions[0, 0, :3]).max() / np.abs(answer.reactions[0, 0, :3]).max()
            print(f" {other:9.0f} {other / spent:11.0f}   start reactions apart {apart:.0e}", end="")
        print(flush=True)
    branched_table()


def branched_table() -> None:
    """Print the table of branched frames."""
    print("\nbranched frames: ratio of whole to the best bare sparse factorisation")
    print(f"{'members':>8} {'frame':>10} {'whole':>8} {'factor':>8} {'solve':>8} {'bare':>8}  {'ordering':<10}", end="")
    print(f" {'ratio':>6} {'residual':>9} {'apart':>8}")
    for members in BRANCHED_SIZES:
        for name, more in (("in order", {}), ("shuffled", {"shuffled": True}), ("20 rings", {"rings": 20})):
            frame, loads = branched(members, **more)
            repeats = max(3, min(50, 100_000 // members))
            spent, factor = best(lambda f=frame, p=loads: whole(f, p), repeats), factorise(frame)
            assert isinstance(factor, Factor), "the frame is held"
            parts = [
                best(lambda f=frame: factorise(f), repeats),
                best(lambda f=factor, p=loads: solve(f, p), repeats),
            ]
            times, moves = bare_sparse(frame, loads, repeats)
            fastest, answer = min(times, key=times.__getitem__), whole(frame, loads)
            apart = np.abs(answer.displacements[0] - moves).max() / np.abs(moves).max()
            print(f"{members:8} {name:>10} {spent:8.2f} {parts[0]:8.2f} {parts[1]:8.2f} {times[fastest]:8.2f}", end="")
            print(f"  {fastest:<10} {spent / times[fastest]:6.2f} {answer.residual[0]:9.1e} {apart:8.0e}", flush=True)


if __name__ == "__main__":
    main()
