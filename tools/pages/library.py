"""The page of the tables, each row with its source and status.     (pages/library.py)"""

from __future__ import annotations

import csv
from pathlib import Path

from tools.pages import ROOT, page, table

SUBJECTS = {
    "library/data/pipe_sizes.csv": "Pipe sizes",
    "library/data/pipe_walls.csv": "Pipe walls",
    "library/data/materials.csv": "Density and Poisson's ratio",
    "library/data/expansion.csv": "Thermal expansion",
    "library/data/modulus.csv": "Modulus of elasticity",
    "library/data/friction.csv": "Friction coefficients",
    "library/data/insulation.csv": "Insulation",
    "basis/data/spans.csv": "Support spans",
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
        lines += ["", f"## {subject}", "", f"`src/takeup/{path}`", "", *_table(ROOT / "src" / "takeup" / path)]
    return page(*lines)


def _table(path: Path) -> list[str]:
    with path.open(encoding="utf-8", newline="") as stream:
        head, *rows = list(csv.reader(stream))
    return table(tuple(head), [tuple(row) for row in rows])
