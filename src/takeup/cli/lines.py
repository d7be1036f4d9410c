"""The commands on line files: new, validate, study.     (cli/lines.py)"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from takeup.cli.saying import NOT_PROVED, PROVED, print_out, say


def new(file: Path, *, units: Literal["si", "us"] = "si") -> int:
    """Write a commented line file to start from.

    Parameters
    ----------
    file
        Where to write it; an existing file is never overwritten.
    units
        Units of the example's values.
    """
    from takeup.line.reading.template import template

    with file.open("x", encoding="utf-8") as stream:
        stream.write(template(units))
    print_out(str(file))
    return PROVED


def validate(file: Path) -> int:
    """Read a line file and list all its faults.

    Parameters
    ----------
    file
        The line file.
    """
    from takeup.choose import resolve
    from takeup.line.reading.reader import read_study

    study = resolve(read_study(file))
    print_out(f"{file}: no faults.")
    for line in study.lines:
        holds, joints = len(line.holds), len(line.takeups)
        print_out(f"Line {line.name}: {len(line.legs)} legs, {holds} holds as resolved, {joints} take-ups.")
    return PROVED


def study(
    file: Path,
    *,
    out: Annotated[Path | None, Parameter(help="Folder for the results.")] = None,
    units: Literal["si", "us"] = "si",
    record: Annotated[Path | None, Parameter(help="A plant's record (CSV) to walk as well.")] = None,
    show: Literal["holds"] | None = None,
    write_back: Annotated[bool, Parameter(negative=())] = False,
) -> int:
    """Prove a line file's arrangement in every state; write results.json and calculation.pdf.

    Parameters
    ----------
    file
        The line file.
    out
        Folder for the results; `<file stem>.out` beside the file when left out.
    units
        Units of the summary and of calculation.pdf; results.json is SI always.
    record
        A plant's record, a CSV file; what every hold and joint went through joins the results.
    show
        `holds` lists every hold first, those that rules placed among them.
    write_back
        Put the holds that rules placed and the joints that were selected into the line file, in the stead of rules
        and `select`; comments are kept.
    """
    from takeup.choose import resolve
    from takeup.choose.costs import named_prices, with_costs
    from takeup.edge import UNITS_FOR
    from takeup.line.reading.reader import read_study
    from takeup.papers import hold_lines, summary_lines, write_calculation
    from takeup.results import results_of, write_results

    read = read_study(file)
    prices = named_prices(read, file.parent)  # a fault in them is told before anything is computed
    resolved = resolve(read)
    if record is None:
        results = results_of(resolved)
    else:
        from takeup.history import read_record, record_part, with_record

        rows = read_record(record, resolved)  # a fault in it is told before anything is computed
        results = with_record(results_of(resolved), record_part(resolved, rows))
    if prices is not None:
        results = with_costs(results, read, prices)
    if show == "holds":
        for text in hold_lines(results, UNITS_FOR[units]):
            print_out(text)
    if write_back:
        from takeup.line.reading.write_back import write_back as put_back

        say(f"{file}: {put_back(file, resolved).words}")
    folder = out if out is not None else file.parent / f"{file.stem}.out"
    folder.mkdir(parents=True, exist_ok=True)
    paths = (folder / "results.json", folder / "calculation.pdf")
    write_results(results, paths[0])
    write_calculation(results, paths[1], UNITS_FOR[units])
    for text in summary_lines(results, UNITS_FOR[units]):
        print_out(text)
    for path in paths:
        print_out(str(path))
    verdict = results["verdict"]
    proved = isinstance(verdict, dict) and verdict["outcome"] in ("passes", "close")
    return PROVED if proved else NOT_PROVED
