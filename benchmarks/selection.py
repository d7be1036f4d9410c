"""A place asked of ten thousand joints, beside a loop over rows in plain Python.     (benchmarks/selection.py)

    PYTHONPATH=src OPENBLAS_NUM_THREADS=1 python -m benchmarks.selection

The demonstration series over and over, every number drawn a little off, a name to each. Screened, ranked and made into
the whole document; once over the rated cycles, once over ten times as many, where each joint that is left has its share
of movement by its bellows' geometry. The place asks of one size, and once of any, so that no joint falls out early.
Peer: what one would write first, a loop over rows and states with numbers of Python; over more cycles with one row at
a time through the same curve, on a part of the rows, its time scaled up. Aim: 0.5 s for a place. Then the time that
reading and storing such a table takes, and loading it again.

Each time is the best of several, all in one run on one machine.
"""

from __future__ import annotations

import math
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np

from takeup.choose.selection.document import Asked, select_document
from takeup.choose.selection.place import Place
from takeup.choose.selection.screen import screen
from takeup.choose.selection.select import select_for_duty
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.derate import movement_share
from takeup.joints.tables.store import demonstration, import_table, load_table

COUNT, SEED, AIM = 10_000, 7, 0.5
SOME = 500  # rows that the peer takes through the curve one at a time
OFF = ("pressure", "axial_compression", "axial_extension", "axial_rate", "effective_area", "length", "price_index")


def many() -> SeriesTable:
    """Return ten thousand joints."""
    base, chance = demonstration(), np.random.default_rng(SEED)
    rows = np.arange(COUNT) % len(base)
    numbers = {name: values[rows].copy() for name, values in base.numbers.items()}
    for name in OFF:
        numbers[name] *= chance.uniform(0.97, 1.0, COUNT)
    numbers["ply_thickness"] *= chance.uniform(1.0, 1.03, COUNT)
    whole = {
        name: tuple(getattr(base, name)[row] for row in rows.tolist())
        for name in ("kinds", "ends", "materials", "annealed", "notes", "derating")
    }
    names = tuple(f"{base.names[row]}, {number}" for number, row in enumerate(rows.tolist()))
    return replace(base, names=names, numbers=numbers, **whole)


def place(size: float | None, cycles: float) -> Place:
    """Return what one asks: 20 mm shorter at 5 bar and 150 degC."""
    return Place(
        name="benchmark",
        size_dn=size,
        outside_diameter=0.2191 if size else None,
        states=("test", "hot", "coldest day"),
        tests=np.array([True, False, False]),
        pressure=np.array([7.5e5, 5e5, 0.0]),
        temperature=np.array([20.0, 150.0, 20.0]),
        axial=np.array([0.0, -0.004, 0.001]),
        lateral=np.zeros(3),
        angular=np.zeros(3),
        cycles=cycles,
        room=2.0,
    )


def best(work: Callable[[], object], repeats: int = 5) -> float:
    """Return the shortest of several runs [s]."""
    times = []
    for _ in range(repeats):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def plain(asked: Place, table: SeriesTable, shares: list[float]) -> list[int]:
    """Return the rows that fit, by a loop."""
    own = {name: values.tolist() for name, values in table.numbers.items()}
    states = list(zip(asked.tests.tolist(), asked.pressure.tolist(), asked.axial.tolist(), strict=True))
    found = []
    for row in range(len(table)):
        if asked.size_dn is not None and own["size_dn"][row] != asked.size_dn:
            continue
        if own["length"][row] > asked.room or own["temperature"][row] < asked.hottest:
            continue
        right = not math.isnan(own["rated_cycles"][row])
        for test, pressure, axial in states:
            limit = own["test_pressure" if test else "pressure"][row]
            rated = own["axial_extension" if axial > 0.0 else "axial_compression"][row] * shares[row]
            moved = 0.0 if axial == 0.0 else math.inf if rated <= 0.0 else abs(axial) / rated
            right = right and pressure <= limit and moved <= 1.0
        if right:
            found.append(row)
    return found


def main() -> None:
    """Print the table."""
    table = many()
    print(f"{len(table)} joints; best of five, ms")
    for size in (200.0, None):
        for cycles in (1_000.0, 10_000.0):
            _print_place(table, place(size, cycles))
    print(f"aim: {AIM * 1e3:g} ms for a place")
    _print_loading(table)


def _print_place(table: SeriesTable, asked: Place) -> None:
    found = screen(asked, table)
    seconds = best(lambda: screen(asked, table))
    ranked = best(lambda: select_for_duty(asked, table, "life"))
    selected = select_for_duty(asked, table, "price")
    written = best(lambda: select_document(Asked(file="duty.yaml", sha256="", line=False), selected), 1)
    shares = found.share.tolist()
    slow = best(lambda: plain(asked, table, shares))
    alone = 0.0
    if asked.cycles is not None and asked.cycles > table.numbers["rated_cycles"].max():
        rows = np.linspace(0, len(table) - 1, SOME).astype(np.intp)
        one = best(lambda: [movement_share(table, asked.cycles, rows[k : k + 1]) for k in range(SOME)], 1) / SOME
        alone = one * np.count_nonzero(found.how)
    assert plain(asked, table, shares) == np.flatnonzero(found.fits).tolist()
    print(
        f"  {'any size' if asked.size_dn is None else f'DN {asked.size_dn:g}':8} {asked.cycles:6g} cycles: "
        f"screened {seconds * 1e3:6.1f}, and ranked by life {ranked * 1e3:6.1f}, document {written * 1e3:7.1f}; "
        f"{found.fits.sum()} fit, {np.count_nonzero(found.how)} by geometry; "
        f"loop {slow * 1e3:6.1f} + {alone * 1e3:8.1f}, {(slow + alone) / seconds:.1f} times"
    )


def _print_loading(table: SeriesTable) -> None:
    """Print how long a table of so many rows takes to import and to load."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "many.csv"
        file.write_text(_text(table), encoding="utf-8")
        stored = best(lambda: import_table(file, "many", Path(folder), replace_it=True), 1)
        loaded = best(lambda: load_table("many", Path(folder)), 1)
    print(f"import of such a table {stored:.2f} s, {file.name} with {len(table)} rows; loaded again {loaded:.2f} s")


def _text(table: SeriesTable) -> str:
    """Return the rows as CSV, from the demonstration's own columns."""
    columns = {
        "name": [name.replace(",", " ") for name in table.names],
        "kind": table.kinds,
        "size_dn": [f"{value:g}" for value in table.numbers["size_dn"]],
        "pressure_bar": table.numbers["pressure"] / 1e5,
        "test_pressure_bar": table.numbers["test_pressure"] / 1e5,
        "temperature_c": table.numbers["temperature"],
        "rated_cycles": table.numbers["rated_cycles"],
        "axial_compression_mm": table.numbers["axial_compression"] * 1e3,
        "axial_extension_mm": table.numbers["axial_extension"] * 1e3,
        "axial_rate_n_per_mm": table.numbers["axial_rate"] / 1e3,
        "effective_area_mm2": table.numbers["effective_area"] * 1e6,
        "length_mm": table.numbers["length"] * 1e3 * 1.05,
        "live_length_mm": table.numbers["live_length"] * 1e3 * 0.9,
        "centres_mm": [("" if math.isnan(value) else f"{value * 1e3:g}") for value in table.numbers["centres"]],
        "weight_kg": table.numbers["weight"] / 9.80665,
        "price_index": table.numbers["price_index"],
    }
    lines = [",".join(columns), *(",".join(map(str, row)) for row in zip(*columns.values(), strict=True))]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    main()
