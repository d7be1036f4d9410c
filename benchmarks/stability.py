"""How long stability takes, beside ARPACK on the full sparse matrices.     (benchmarks/stability.py)

    PYTHONPATH=src python -m benchmarks.stability

Four frames of a thousand members: a column between clamps, whose factors lie apart; a hundred equal guided spans,
whose factors crowd together; the pipe run in three dimensions of frames.py; the branched frame. Then ten thousand,
branched. All members carry the same compression. "Factor" is the elastic factor, which a study has already. "Buckling"
is everything after it, to the verified and counted modes: geometric stiffness, both matrices, search, count of pivots,
residuals from member ends, energies. "ARPACK" is scipy.sparse.linalg.eigsh for as many factors on the same two sparse
matrices, K factorised inside by SuperLU; assembly is not counted, and nothing shows that it missed none. "Apart" is the
largest relative difference of the factors.

Each time is the best of several, all in one run on one machine; CPU time beside it, which other work on the machine
changes less.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
from scipy.sparse.linalg import eigsh

from benchmarks.frames import AXIAL, BENDING, TORSION, branched, pipe_run
from takeup.mechanics import Factor, Frame, Modes, Straights, Supports, buckling, factorise, no_arcs
from takeup.mechanics.stability.buckling import pencil_of

THRUST = 1e4  # compression of every member [N]
COUNTS = (2, 4)
REPEATS = 7


def column(members: int, guides: int) -> Frame:
    """Return a column along x in members of two metres, clamped at its ends, a guide every `guides` members."""
    points = np.zeros((members + 1, 3))
    points[:, 0] = 2.0 * np.arange(members + 1)
    node = np.arange(0, members + 1, guides)
    held = np.zeros((len(node), 6), dtype=bool)
    held[:, 1:3] = held[0] = held[-1] = True
    one, start = np.ones(members), np.arange(members)
    return Frame(
        points=points,
        straights=Straights(
            start=start, end=start + 1, axial=AXIAL * one, bending=BENDING * one, torsion=TORSION * one
        ),
        arcs=no_arcs(),
        supports=Supports(
            node=node, axes=np.tile(np.eye(3), (len(node), 1, 1)), held=held, spring=np.zeros(held.shape)
        ),
    )


def best(work: Callable[[], object], repeats: int = REPEATS) -> tuple[float, float]:
    """Return the shortest time of several and the shortest CPU time [ms]."""
    wall, cpu = [], []
    for _ in range(repeats):
        began, used = time.perf_counter(), time.process_time()
        work()
        wall.append(time.perf_counter() - began)
        cpu.append(time.process_time() - used)
    return 1e3 * min(wall), 1e3 * min(cpu)


def row(name: str, frame: Frame, count: int) -> None:
    """Print a row of the table."""
    force = np.full(frame.member_count, -THRUST)
    factor = factorise(frame)
    assert isinstance(factor, Factor), "the frame is held"
    found = buckling(factor, force, count=count)
    assert isinstance(found, Modes), found
    pencil = pencil_of(factor, force, None)

    def arpack() -> np.ndarray:
        return eigsh(-pencil.geometric, k=count, M=pencil.elastic, which="LA", return_eigenvectors=False)

    first, whole, theirs = (
        best(lambda: factorise(frame)),
        best(lambda: buckling(factor, force, count=count)),
        best(arpack, 3),
    )
    apart = np.abs(np.sort(1.0 / arpack()) / found.factors - 1.0).max()
    print(f"{name:>22} {frame.member_count:8} {count:5} {first[0]:8.1f} {whole[0]:9.1f} {whole[1]:8.1f}", end="")
    print(f" {theirs[0]:8.1f} {theirs[1]:8.1f} {found.residuals.max():9.1e} {apart:8.0e}", flush=True)


def main() -> None:
    """Print the table."""
    print("times in ms, best of several: wall, and CPU where it says so")
    print(f"{'frame':>22} {'members':>8} {'modes':>5} {'factor':>8} {'buckling':>9} {'CPU':>8}", end="")
    print(f" {'ARPACK':>8} {'CPU':>8} {'residual':>9} {'apart':>8}")
    frames = {
        "column between clamps": column(1_000, 1_000),
        "hundred equal spans": column(1_000, 10),
        "run, guided": pipe_run(1_000)[0],
        "branched": branched(1_000)[0],
        "branched ": branched(10_000)[0],
    }
    for name, frame in frames.items():
        for count in COUNTS:
            row(name, frame, count)


if __name__ == "__main__":
    main()
