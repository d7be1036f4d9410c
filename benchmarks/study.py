"""How long a full study takes, beside one banded Cholesky solve of as many unknowns.     (benchmarks/study.py)

    PYTHONPATH=src OPENBLAS_NUM_THREADS=1 python -m benchmarks.study [--long]

The steam main of the demonstration as it stands (guides, anchors between, three joints: five frictions by five sets of
rates); the same main of `examples/bare/` with nothing but its rests and bends; a line of 240 m with four bends on 55
rests between two anchors, and with --long one of a kilometre with twenty bends on 235. "Study" is `results_of`: model
walked through all states in all scenarios, stability, checks, document. Peer: scipy.linalg.solveh_banded, once, on a
band of as many unknowns as the line has, six a node, half bandwidth eleven: what one linear answer costs.

Each time is the shortest CPU time of several, all in one run on one machine.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
from scipy.linalg import solveh_banded

from benchmarks.arrange import LEG, long_text
from takeup.choose import resolve
from takeup.line import Study
from takeup.line.reading.reader import read_study, study_from_text
from takeup.results import results_of
from takeup.study.model import model_of

EXAMPLES = Path(__file__).parent.parent / "examples"
REPEATS, BAND = 3, 12


def on_rests(legs: int) -> Study:
    """Return the line of the proposals' benchmark with so many legs, nothing added but its rests."""
    return resolve(study_from_text(long_text(legs), "long.yaml"))


def best(work: Callable[[], object]) -> float:
    """Return the shortest CPU time of several [s]."""
    times = []
    for _ in range(REPEATS):
        began = time.process_time()
        work()
        times.append(time.process_time() - began)
    return min(times)


def banded(unknowns: int) -> float:
    """Return the CPU time of one banded Cholesky factorisation and solve [s], of a hundred taken together."""
    band = np.full((BAND, unknowns), -1.0 / BAND)
    band[-1] = 4.0
    right = np.ones(unknowns)
    return best(lambda: [solveh_banded(band, right, check_finite=False) for _ in range(100)]) / 100.0


def main() -> None:
    """Print the times."""
    studies = {
        "steam main, as it stands": resolve(read_study(EXAMPLES / "ketterby-steam-main.yaml")),
        "steam main, bare": resolve(read_study(EXAMPLES / "bare" / "ketterby-steam-main.yaml")),
        f"{5 * LEG} m on rests": on_rests(5),
    }
    if "--long" in sys.argv:
        studies[f"{21 * LEG} m on rests"] = on_rests(21)
    for name, study in studies.items():
        unknowns = 6 * len(model_of(study).frame.points)
        whole, peer = best(lambda study=study: results_of(study)), banded(unknowns)
        outcome = results_of(study)["verdict"]
        print(
            f"{name:26} {unknowns:5} unknowns: study {whole * 1e3:6.0f} ms, banded solve {peer * 1e3:5.2f} ms, "
            f"{whole / peer:6.0f} times as long; {outcome['outcome']}"
        )


if __name__ == "__main__":
    main()
