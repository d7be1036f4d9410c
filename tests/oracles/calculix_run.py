"""Starts CalculiX and reads what it prints.     (tests/oracles/calculix_run.py)

CalculiX (Debian package calculix-ccx) is a general-purpose finite element program that shares nothing with ours; it is
used in development only, and a machine without it skips what needs it (docs/decisions/calculix-as-oracle.md). Its cards
hold twenty characters a number; it prints seven digits.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np

PROGRAM = "ccx"
ABSENT = "CalculiX is not there: apt-get install calculix-ccx, see docs/decisions/calculix-as-oracle.md"


@dataclass(frozen=True, kw_only=True, slots=True)
class Printed:
    """What the program prints.

    Args:
        tables: one array each, in the order of the file.
        seconds: from its start to its end.
    """

    tables: tuple[np.ndarray, ...]
    seconds: float


def is_there() -> bool:
    """Return whether CalculiX can be started."""
    return shutil.which(PROGRAM) is not None


def run(folder: Path, told: str) -> Printed:
    """Run the program in a folder, on one core, and return the tables it prints."""
    (folder / "model.inp").write_text(told, encoding="ascii")
    command = [PROGRAM, "-i", "model"]
    environment = {**os.environ, "OMP_NUM_THREADS": "1"}
    begin = time.perf_counter()
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - begin
    printed = folder / "model.dat"
    if done.returncode or "*ERROR" in done.stdout or not printed.exists():
        raise RuntimeError(done.stdout + done.stderr)
    tables: list[list[list[float]]] = []
    for row in printed.read_text(encoding="ascii").splitlines():
        if row.strip()[:1].isalpha():
            tables.append([])
        elif row.strip():
            tables[-1].append([float(word) for word in row.split()])
    return Printed(tables=tuple(np.array(table) for table in tables), seconds=seconds)


def material(modulus: float, poisson: float) -> list[str]:
    """Return the cards of one elastic material for all elements."""
    return [
        "*MATERIAL,NAME=METAL",
        "*ELASTIC",
        f"{modulus:.12e},{poisson:.12e}",
        "*SOLID SECTION,ELSET=ALL,MATERIAL=METAL",
    ]
