"""The command that holds a maker's certified values against a line file.     (cli/joint_compare.py)"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from takeup.cli.saying import NOT_PROVED, PROVED, print_out, say


def compare(
    file: Path,
    sheet: Path,
    *,
    out: Path | None = None,
    units: Literal["si", "us"] = "si",
    as_json: Annotated[bool, Parameter(name="--json", negative=())] = False,
) -> int:
    """Hold a maker's certified values against a line file, show the differences, and run the study again with them.

    Parameters
    ----------
    file
        The line file.
    sheet
        Certified values (XLSX or CSV): joints.xlsx of the papers with its boxes filled in; or a row a take-up, its name
        under `takeup`, and columns of a table of joints.
    out
        Folder for results.json and calculation.pdf of the study with certified values; not written where left out.
    units
        Units of the text and of calculation.pdf; JSON is SI always.
    as_json
        Print a JSON document instead.
    """
    import json

    from takeup.choose.comparison import compare as compared
    from takeup.edge import UNITS_FOR
    from takeup.line.reading.reader import read_study
    from takeup.papers import write_calculation
    from takeup.papers.joints.joint_compare import comparison_lines
    from takeup.reading.sheet import read_bytes
    from takeup.results import write_results

    found = compared(read_study(file), read_bytes(sheet), str(sheet))
    if as_json:
        print_out(json.dumps(found.document, indent=1, ensure_ascii=False, allow_nan=False))
    else:
        print_out("\n".join(comparison_lines(found.document, UNITS_FOR[units])))
    if out is not None:
        out.mkdir(parents=True, exist_ok=True)
        paths = (out / "results.json", out / "calculation.pdf")
        write_results(found.results, paths[0])
        write_calculation(found.results, paths[1], UNITS_FOR[units])
        for path in paths:
            (say if as_json else print_out)(str(path))
    return PROVED if found.stands else NOT_PROVED


__all__ = ["compare"]
