"""The command that writes what is handed over to others.     (cli/papers.py)"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from takeup.cli.saying import NOT_PROVED, PROVED, print_out, say


def papers(
    file: Path,
    *,
    out: Annotated[Path | None, Parameter(help="Folder for the papers.")] = None,
    only: str | None = None,
    units: Literal["si", "us"] = "si",
    language: Literal["en", "de"] = "en",
) -> int:
    """Write the papers of a line: all from one result, so that no number has to be typed again.

    Parameters
    ----------
    file
        The line file, whose study is computed first, or the results.json of a study.
    out
        Folder for the papers; `<file stem>.out` beside the file when left out.
    only
        Names of papers, with commas between; all of them when left out.
    units
        Units of the papers.
    language
        Language of the papers.
    """
    from takeup.edge import UNITS_FOR
    from takeup.papers.registry import Options, papers_named, write_papers

    names = tuple(filter(None, (name.strip() for name in (only or "").split(","))))
    papers_named(names)  # a fault in them is told before anything is computed
    results = _results_of(file)
    folder = out if out is not None else file.parent / f"{file.stem}.out"
    paths = write_papers(results, folder, Options(units=UNITS_FOR[units], language=language), names)
    for path in paths:
        print_out(str(path))
    verdict = results["verdict"]
    assert isinstance(verdict, dict), "every result has one"
    say(f"{file}: verdict {verdict['outcome']}")
    return PROVED if verdict["outcome"] in ("passes", "close") else NOT_PROVED


def _results_of(file: Path) -> dict[str, object]:
    """Return the results that a file holds, or those of the study of a line file."""
    if file.suffix.casefold() == ".json":
        from takeup.results.read_back import read_results

        return read_results(file)
    from takeup.choose import resolve
    from takeup.choose.costs import named_prices, with_costs
    from takeup.line.reading.reader import read_study
    from takeup.results import results_of

    study = read_study(file)
    prices = named_prices(study, file.parent)  # a fault in them is told before anything is computed
    results = results_of(resolve(study))
    return dict(results if prices is None else with_costs(results, study, prices))


__all__ = ["papers"]
