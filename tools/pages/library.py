"""The page of the tables, each row with its source and status.     (pages/library.py)"""

from __future__ import annotations

import csv
from itertools import groupby
from pathlib import Path

from tools.pages import ROOT, page, table

SUBJECTS = {
    "library/data/pipe_sizes.csv": "Pipe sizes",
    "library/data/pipe_walls.csv": "Pipe walls",
    "library/data/materials.csv": "Materials: names, density and Poisson's ratio",
    "library/data/expansion_groups.csv": "Thermal expansion: which table holds which material",
    "library/data/expansion.csv": "Thermal expansion in US units, from 70 degF",
    "library/data/expansion_metric.csv": "Thermal expansion in metric units, from 20 degC",
    "library/data/modulus.csv": "Modulus of elasticity in metric units",
    "library/data/modulus_us.csv": "Modulus of elasticity in US units",
    "library/data/friction.csv": "Friction coefficients",
    "library/data/insulation.csv": "Insulation",
    "library/data/cladding.csv": "Cladding",
    "library/data/strengths.csv": "Strength of strip for bellows in metric units",
    "library/data/strengths_us.csv": "Strength of strip for bellows in US units",
    "library/data/fatigue_families.csv": "Families of metals for the life of bellows",
    "basis/data/spans.csv": "Support spans",
    "basis/data/copper_spans.csv": "Spacing of fixings of copper tube",
    "bellows/data/factors.csv": "Factors Cp, Cf and Cd of bellows",
    "bellows/data/stock.csv": "Thicknesses of strip for designs of bellows",
}

SAID_OF = {
    "library/data/pipe_sizes.csv": (
        "A size belongs to a table: the same DN may be another pipe in another one. A size named without a table is",
        "read in ASME B36.10M, and copper in EN 1057.",
    ),
    "library/data/pipe_walls.csv": (
        "One line of this page for each size and source. A size of ASME B36.10M also has the schedules of ASME",
        "B36.19M.",
    ),
    "library/data/strengths_us.csv": (
        "Strip solution annealed, before forming. The last temperature is that of the last row known here, not that of",
        "the code.",
    ),
    "bellows/data/factors.csv": (
        "C = a0 + a1 C1 + ... + a5 C1^5 for each row of C2, linear between rows; compared with a shell solution.",
    ),
    "library/data/expansion_groups.csv": (
        "The tables print their values by group of materials. A value is `read` for a material only where both the",
        "row and the group are.",
    ),
}


def data_files() -> list[str]:
    """Return the data files of the package, as paths from it."""
    package = ROOT / "src" / "takeup"
    return sorted(path.relative_to(package).as_posix() for path in package.glob("*/data/*.csv"))


def library_page() -> str:
    """Return the page."""
    lines = [
        "# Tables",
        "",
        "Everything that the tool knows by table. A value is looked up exactly, or between two rows where its kind",
        "allows it, or refused; nothing is extrapolated. Status `read`: taken from the document named. Status",
        "`from memory`: no document at hand confirms it.",
    ]
    for path, subject in SUBJECTS.items():
        file = ROOT / "src" / "takeup" / path
        lines += ["", f"## {subject}", "", f"`src/takeup/{path}`", ""]
        lines += [*SAID_OF[path], ""] if path in SAID_OF else []
        lines += _walls(file) if path == "library/data/pipe_walls.csv" else _table(file)
    return page(*lines)


def _rows(path: Path) -> list[list[str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.reader(stream))


def _table(path: Path) -> list[str]:
    head, *rows = _rows(path)
    return table(tuple(head), [tuple(row) for row in rows])


def _walls(path: Path) -> list[str]:
    """Return the table of the walls, the schedules of one size from one source on one line."""
    head, *rows = _rows(path)
    walls = [dict(zip(head, row, strict=True)) for row in rows]

    def place(wall: dict[str, str]) -> tuple[str, str, str, str]:
        return wall["table"], wall["size"], wall["source"], wall["status"]

    lines = []
    for (name, size, source, status), same in groupby(walls, key=place):
        said = "; ".join(f"{wall['schedule']}: {wall['wall_mm']}" for wall in same)
        lines.append((name, size, said, source, status))
    return table(("table", "size", "schedule: wall_mm", "source", "status"), lines)
