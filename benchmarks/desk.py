"""How long a look on the desk takes, beside the same numbers by a whole new study.     (benchmarks/desk.py)

    PYTHONPATH=src python -m benchmarks.desk

On the demonstration, as the server answers it: loads of holds, movements of joints, what moves over both drawings, and
the movements for the turning view; without the network and the browser. "By hand" pushes pressure and temperature about
at random, "step" goes to random steps of the walk, "moved" has the middle anchor in the hand at random stations, with
every guide placed anew by its rule. The peer is `solve_study` on the same state by hand: model, factor and walk from
nothing, no drawing. "Apart" is the largest difference of the force on any hold, in newtons, between the two.

Median and 95 % of many, wall clock and CPU time beside it, which other work on the machine changes less.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np

from takeup.choose import resolve
from takeup.desk.interface import ByHand, Look, LookAsked, Moved
from takeup.desk.seen.bench import Bench, bench_of
from takeup.desk.seen.trips import BY_HAND
from takeup.line import Condition, Study, state_names
from takeup.line.conditions import AddedState, DroppedState
from takeup.line.reading.reader import read_study
from takeup.line.states import FIRST
from takeup.study import Solved, solve_study
from takeup.units import bar

DEMONSTRATION = Path(__file__).parents[1] / "examples" / "ketterby-steam-main.yaml"
LOOKS, PEERS, SEED = 200, 20, 20260512
ANCHOR, BETWEEN = "LS-201/middle anchor", (40.0, 60.0)


def asked(*, step: int | None = None, hand: ByHand | None = None, moved: Moved | None = None) -> LookAsked:
    """Return what is looked at, without friction."""
    return LookAsked(
        number=1,
        revision=1,
        scene="",
        step=step,
        by_hand=hand,
        scenario="no friction",
        moved=moved,
        exaggeration=0.0,
    )


def timed(work: Callable[[int], object], count: int) -> tuple[list[float], list[float]]:
    """Return the wall and the CPU time of each of many [ms]."""
    wall, cpu = [], []
    for number in range(count):
        began, used = time.perf_counter(), time.process_time()
        work(number)
        wall.append(1e3 * (time.perf_counter() - began))
        cpu.append(1e3 * (time.process_time() - used))
    return wall, cpu


def row(name: str, times: tuple[list[float], list[float]]) -> None:
    """Print a row of the table."""
    figures = [value for one in times for value in (np.median(one), np.percentile(one, 95))]
    print(f"{name:<34}" + "".join(f"{value:12.1f}" for value in figures))


def peer_of(study: Study) -> Study:
    """Return the study with no state but where it was installed; another is added by hand."""
    others = [name for name in state_names(study) if name != FIRST]
    dropped = tuple(DroppedState(state=name, because="not asked for") for name in others)
    return replace(study, dropped=dropped, added=(), order=())


def by_peer(study: Study, hand: ByHand) -> Solved:
    """Return the whole answer to a state by hand from nothing."""
    condition = Condition(pressure=bar(hand["pressure_bar"]), temperature=hand["temperature_c"])
    state = AddedState(name=BY_HAND, condition=condition, content="medium")
    found = solve_study(replace(study, added=(state,)))
    assert isinstance(found, Solved), found.because
    return found


def apart(bench: Bench, study: Study, hand: ByHand) -> float:
    """Return the largest difference of the force on a hold between look and peer [N]."""
    mine = {hold["id"]: 1e3 * hold["force_kn"] for hold in seen(bench, asked(hand=hand))["holds"]}
    theirs = by_peer(study, hand)
    return max(
        abs(mine[f"{line.line.name}/{hold.name}"] - float(np.linalg.norm(hold.total[-1, :3])))
        for line in theirs.lines
        for hold in line.holds
    )


def seen(bench: Bench, look: LookAsked) -> Look:
    """Return a look that has an answer."""
    found = bench.look(look)
    assert not found["trouble"], found["trouble"]
    return found


def main() -> None:
    """Time the looks and the peer."""
    rng = np.random.default_rng(SEED)
    read = read_study(DEMONSTRATION)
    resolved = resolve(read)
    bench, peer = bench_of(read, resolved, 1), peer_of(resolved)
    pairs = zip(rng.uniform(0.0, 12.0, LOOKS).tolist(), rng.uniform(12.0, 195.0, LOOKS).tolist(), strict=True)
    hands = [ByHand(pressure_bar=pressure, temperature_c=temperature) for pressure, temperature in pairs]
    stations = rng.uniform(*BETWEEN, LOOKS).tolist()
    steps = len(bench.walk("no friction")["steps"])
    hot = max(range(steps), key=lambda step: bench.walk("no friction")["steps"][step]["temperature_c"])
    print(f"{'ms':<34}" + "".join(f"{words:>12}" for words in ("median", "95 %", "CPU median", "CPU 95 %")))
    row("first look, drawings and all", timed(lambda _: seen(bench_of(read, resolved, 1), asked(step=hot)), 5))
    seen(bench, asked(step=hot))
    row("step of the walk", timed(lambda k: seen(bench, asked(step=k * 7 % steps)), LOOKS))
    row("by hand", timed(lambda k: seen(bench, asked(hand=hands[k])), LOOKS))

    def moved(number: int) -> None:
        seen(bench, asked(step=hot, moved=Moved(id=ANCHOR, station_m=stations[number])))

    row("moved", timed(moved, LOOKS // 2))
    row("peer: by hand, a whole new study", timed(lambda k: by_peer(peer, hands[k]), PEERS))
    print(f"apart: {max(apart(bench, peer, hand) for hand in hands[:PEERS]):.1e} N")


if __name__ == "__main__":
    main()
