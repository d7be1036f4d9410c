"""The commands on bellows.     (cli/bellows.py)"""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import Annotated, Literal

from cyclopts import App, Parameter

from takeup.cli.saying import BAD_INPUT, NOT_PROVED, PROVED, print_out, say

bellows = App(
    name="bellows",
    help_format="plaintext",
    help="Rate and design bellows, from the shell up, beside the published forms; make a demonstration series.",
)


@bellows.command
def rate(
    file: Path,
    *,
    as_csv: Annotated[bool, Parameter(name="--csv", negative=())] = False,
    as_json: Annotated[bool, Parameter(name="--json", negative=())] = False,
    out: Annotated[Path | None, Parameter(help="Folder for pictures of each bellows (SVG).")] = None,
) -> int:
    """Compute stiffness, stress, squirm and life of the bellows of a file, by the shell and by the published forms.

    Parameters
    ----------
    file
        Bellows: a table (CSV), or a text with units (YAML).
    as_csv
        Print a table instead, one row a bellows.
    as_json
        Print a JSON document instead.
    out
        Folder for pictures (SVG): each convolution with its stress along the meridian, and the movements allowed over
        the wanted cycles.
    """
    from takeup.bellows import rating
    from takeup.bellows.document import csv_text, document_of, json_text
    from takeup.bellows.reading import read_bellows
    from takeup.papers.joints.bellows_sheet import rating_lines
    from takeup.papers.joints.convolution_picture import write_pictures
    from takeup.papers.joints.envelope_picture import write_envelopes

    if as_csv and as_json:
        say("takeup: --csv and --json are two answers: give one of them")
        return BAD_INPUT
    read = read_bellows(file)
    if out is not None:
        _make(out)  # one that cannot be is told before anything is computed or printed
    rated = rating.rate(read.shape, read.metal, read.duty)
    if as_csv:
        print_out(csv_text(read, rated).rstrip("\n"))
    elif as_json:
        print_out(json_text(document_of(read, rated)).rstrip("\n"))
    else:
        print_out("\n".join(rating_lines(document_of(read, rated))))
    if out is not None:
        for path in (*write_pictures(read, out), *write_envelopes(read, out)):
            (say if as_csv or as_json else print_out)(str(path))
    return PROVED


@bellows.command
def design(
    duty: Path,
    *,
    least: Literal["material", "length", "stiffness"] = "material",
    as_json: Annotated[bool, Parameter(name="--json", negative=())] = False,
) -> int:
    """Find the bellows of least material, shortest and softest for a duty, from stock.

    Parameters
    ----------
    duty
        What is asked: bore, pressures, temperature, movements, cycles, material, as a text with units (YAML).
    least
        Which of the best stands first.
    as_json
        Print a JSON document instead.
    """
    from takeup.bellows import design as designing
    from takeup.bellows.design.document import design_document
    from takeup.bellows.document import json_text
    from takeup.papers.joints.bellows_design_sheet import design_lines

    read = designing.read_duty(duty)
    document = design_document(read, designing.design(read.duty, least=least))
    print_out(json_text(document).rstrip("\n") if as_json else "\n".join(design_lines(document)))
    return PROVED if document["designs"] else NOT_PROVED


@bellows.command
def series(
    *, out: Annotated[Path, Parameter(help="Folder for the tables; tables of the same name are replaced.")]
) -> int:
    """Make the demonstration series, a table of joints for each kind (CSV): demonstration data, not any maker's.

    Parameters
    ----------
    out
        Folder for the tables; tables of the same name there are replaced.
    """
    import time

    from takeup.joints.series import PROVENANCE
    from takeup.joints.series.inputs import series_inputs
    from takeup.joints.series.make import make_series
    from takeup.reading.writing import write_whole

    _make(out)
    start = time.perf_counter()
    made = make_series(series_inputs())
    paths = write_whole(made.files, out)
    print_out(f"{made.rows} joints in {time.perf_counter() - start:.1f} s: {PROVENANCE}.")
    for name in made.left_out:
        print_out(f"left out, nothing of the stock fits: {name}")
    for path in paths:
        print_out(str(path))
    return PROVED


def _make(folder: Path) -> None:
    """Make a folder to write to.

    Raises:
        OSError: It cannot be, or cannot be written to.
    """
    folder.mkdir(parents=True, exist_ok=True)
    if not os.access(folder, os.W_OK | os.X_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))
