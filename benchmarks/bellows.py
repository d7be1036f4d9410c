"""How fast bellows are computed from the shell, beside CalculiX.     (benchmarks/bellows.py)

    PYTHONPATH=src OPENBLAS_NUM_THREADS=1 python -m benchmarks.bellows

Random bellows DN 50 to DN 1000, one to three plies, deep, shallow, splayed, re-entrant, thin and thick. Both load cases
with all peaks of stress, in one call, on one core; errors of the quick elements beside elements of order 16 over the
same set. Then one bellows, squirm of eight convolutions, and one convolution in CalculiX with as few solids as keep its
stiffness to 1 % and peaks to 2 %; its time is that of the program alone. Aims: 20 000 convolutions a second at 1 % in
stiffness and 2 % at the peaks, one under 1 ms, squirm of eight convolutions under 10 ms.

Each time is the best of several, of the processor for ours, all in one run on one machine.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
from tests.oracles.calculix import ABSENT, calculix, is_there

from takeup.bellows.geometry import Bellows, bellows, chosen
from takeup.bellows.impossible import impossible
from takeup.bellows.shell.buckling import buckling_pressure
from takeup.bellows.shell.convolution import FINE, QUICK, convolutions
from takeup.bellows.shell.reference import reference

COUNT, SEED, EXACT = 4000, 7, 16
MODULUS, POISSON = 195e9, 0.3
STIFFNESS = "axial_stiffness"
PEAKS = ("bending_per_movement", "surface_per_movement", "bending_per_pressure", "surface_per_pressure")
COARSE_ALONG, COARSE_THROUGH = 24, 2  # solids in CalculiX: 1 % in stiffness and 2 % at the peaks (measured)


def some_bellows() -> Bellows:
    """Return random bellows that can be made."""
    chance = np.random.default_rng(SEED)
    bore = np.exp(chance.uniform(np.log(0.05), np.log(1.0), COUNT))
    height = np.sqrt(bore) * chance.uniform(0.025, 0.08, COUNT)
    pitch = height * chance.uniform(0.6, 1.8, COUNT)
    crest, root = (pitch / 4.0 * chance.uniform(0.6, 1.2, COUNT) for _ in range(2))
    shape = bellows(
        inside_diameter=bore,
        height=height,
        pitch=pitch,
        plies=chance.integers(1, 4, COUNT),
        ply_thickness=np.exp(chance.uniform(np.log(0.0003), np.log(0.0015), COUNT)),
        crest_radius=crest,
        root_radius=root,
    )
    return chosen(shape, np.array([not impossible(shape, row) for row in range(COUNT)]))


def best(work: Callable[[], object], repeats: int) -> float:
    """Return the shortest of several runs, in seconds of the processor: others may be at work."""
    times = []
    for _ in range(repeats):
        begin = time.process_time()
        work()
        times.append(time.process_time() - begin)
    return min(times)


def plain(convolution_count: float = 1.0) -> Bellows:
    """Return one bellows of DN 200."""
    sizes = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "ply_thickness": 0.001}
    return bellows(**sizes, convolutions=convolution_count)


def main() -> None:
    """Print the table."""
    shape = some_bellows()
    many = (np.full(len(shape), MODULUS), np.full(len(shape), POISSON))
    exact = convolutions(shape, *many, order=EXACT)
    print(f"{len(shape)} bellows, both load cases with stresses")
    for name, order in (("quick", QUICK), ("fine", FINE)):
        seconds = best(lambda order=order: convolutions(shape, *many, order=order), 7)
        found = convolutions(shape, *many, order=order)
        stiff = np.abs(getattr(found, STIFFNESS) / getattr(exact, STIFFNESS) - 1.0)
        peaks = np.stack([np.abs(getattr(found, peak) / getattr(exact, peak) - 1.0) for peak in PEAKS])
        print(
            f"  {name:5}, order {order:2}  {len(shape) / seconds:8.0f} a second, stiffness out by {stiff.max():.1e}, ",
            end="",
        )
        print(f"peaks by {np.quantile(peaks, 0.99):.1e} (99 in 100), {peaks.max():.1e} (all)")
    one = (np.array([MODULUS]), np.array([POISSON]))
    single = {order: best(lambda order=order: convolutions(plain(), *one, order=order), 200) for order in (QUICK, FINE)}
    print(f"one bellows          quick {single[QUICK] * 1e3:6.2f} ms, fine {single[FINE] * 1e3:6.2f} ms")
    column = plain(8.0)
    squirm = best(lambda: buckling_pressure(column, *one, reference(QUICK)), 40)
    print(f"squirm of eight            {squirm * 1e3:6.2f} ms")
    _print_peer(len(shape) / best(lambda: convolutions(shape, *many, order=QUICK), 3), single[QUICK])


def _print_peer(rate: float, single: float) -> None:
    """Print one convolution in CalculiX and how many times longer it takes."""
    if not is_there():
        print(ABSENT)
        return
    ours = convolutions(plain(), np.array([MODULUS]), np.array([POISSON]))
    for along, through in ((COARSE_ALONG, COARSE_THROUGH), (96, 4)):
        runs = [calculix(plain(), modulus=MODULUS, poisson=POISSON, along=along, through=through) for _ in range(5)]
        seconds, found = min(run.seconds for run in runs), runs[0]
        stiff = found.axial_stiffness / ours.axial_stiffness[0] - 1.0
        bending = found.movement.bending / ours.bending_per_movement[0] - 1.0
        print(f"CalculiX, {along:2} by {through} solids {seconds * 1e3:6.0f} ms: ", end="")
        print(f"{seconds / single:.0f} times one, {seconds * rate:.0f} times one of many; ", end="")
        print(f"from ours (fine) stiffness {stiff:+.1e}, bending of movement {bending:+.1e}")


if __name__ == "__main__":
    main()
