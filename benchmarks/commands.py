"""Whole commands, from start to exit, beside a bare interpreter.     (benchmarks/commands.py)

    python -m benchmarks.commands

Each is run several times in a process of its own and the best taken; the ratio is to `python -c pass` in the same run.
Aims: the demonstration with its PDF under 2 s, `takeup --help` under 0.25 s.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

DEMONSTRATION = Path(__file__).resolve().parent.parent / "examples" / "ketterby-steam-main.yaml"
REPEATS = 7


def best_time(command: list[str]) -> float:
    """Return the shortest of several runs of a command [s]; the first warms the file cache and is not counted."""
    times = []
    for _ in range(REPEATS + 1):
        begin = time.perf_counter()
        subprocess.run(command, check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        times.append(time.perf_counter() - begin)
    return min(times[1:])


def main() -> None:
    """Print the table."""
    takeup = [sys.executable, "-m", "takeup"]
    with tempfile.TemporaryDirectory() as folder:
        commands = (
            ("python -c pass", [sys.executable, "-c", "pass"], None),
            ("takeup --help", [*takeup, "--help"], 0.25),
            ("takeup study, with PDF", [*takeup, "study", str(DEMONSTRATION), "--out", folder], 2.0),
        )
        bare = 0.0
        print(f"{'command':<26}{'best s':>8}{'aim s':>8}{'x bare':>8}")
        for name, command, aim in commands:
            seconds = best_time(command)
            bare = bare or seconds
            print(f"{name:<26}{seconds:>8.3f}{'' if aim is None else f'{aim:g}':>8}{seconds / bare:>8.1f}")


if __name__ == "__main__":
    main()
