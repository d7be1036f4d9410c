"""The commands: parse, call, print.     (cli.py)

Exit 0: nothing fails and everything mandatory ran. 1: a check fails, a state is unsolved or not held, or the verdict
is "not proved". 2: bad input. 3: our own fault. 130: interrupted. Results go to standard output, faults to standard
error. Heavy rooms are imported inside the commands, so that `takeup --help` stays fast.
"""

from __future__ import annotations

import os
import sys
import tempfile
import traceback
from pathlib import Path
from typing import Annotated, Literal

from cyclopts import App, CycloptsError, Parameter

from takeup import __version__
from takeup.errors import InputError, TakeupError

# The matrices here are small: threads of the linear algebra would only wait for one another, by far longest on a busy
# machine, and one thread gives the same digits on any number of cores. Whoever sets the variable keeps it.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

app = App(
    name="takeup",
    version=__version__,
    help_format="plaintext",  # markdown would cost a tenth of a second at every start
    help="Where a hot pipe is held, what takes up its growth, and the proof of it.",
)
PROVED, NOT_PROVED, BAD_INPUT, OWN_FAULT, INTERRUPTED = 0, 1, 2, 3, 130


def main(arguments: list[str] | None = None) -> None:
    """Run one command and leave with its exit code."""
    sys.exit(run(sys.argv[1:] if arguments is None else arguments))


def run(arguments: list[str]) -> int:
    """Run one command.

    Args:
        arguments: the words after `takeup`.

    Returns:
        The exit code, as the module header says.
    """
    try:
        answer = app(arguments, exit_on_error=False, print_error=True, result_action="return_value")
    except CycloptsError:
        return BAD_INPUT
    except KeyboardInterrupt:
        _say("interrupted")
        return INTERRUPTED
    except (TakeupError, OSError) as error:
        _say(_in_words(error))
        return BAD_INPUT
    except Exception as error:  # noqa: BLE001 -- the last fence: a user sees one line, never a traceback
        _say(f"takeup: a fault of our own: {type(error).__name__}: {error}. Details: {_log()}")
        return OWN_FAULT
    return answer if isinstance(answer, int) else PROVED


@app.command
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
    _print(str(file))
    return PROVED


@app.command
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
    _print(f"{file}: no faults.")
    for line in study.lines:
        holds, joints = len(line.holds), len(line.takeups)
        _print(f"Line {line.name}: {len(line.legs)} legs, {holds} holds as resolved, {joints} take-ups.")
    return PROVED


@app.command
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
        Put the holds that rules placed into the line file, in the rules' stead; comments are kept.
    """
    from takeup.choose import resolve
    from takeup.edge import UNITS_FOR
    from takeup.line.reading.reader import read_study
    from takeup.papers import hold_lines, summary_lines, write_calculation
    from takeup.results import results_of, write_results

    resolved = resolve(read_study(file))
    if record is None:
        results = results_of(resolved)
    else:
        from takeup.history import read_record, record_part, with_record

        rows = read_record(record, resolved)  # a fault in it is told before anything is computed
        results = with_record(results_of(resolved), record_part(resolved, rows))
    if show == "holds":
        for text in hold_lines(results, UNITS_FOR[units]):
            _print(text)
    if write_back:
        from takeup.line.reading.write_back import write_back as put_back

        _say(f"{file}: {put_back(file, resolved)} holds written in the rules' stead")
    folder = out if out is not None else file.parent / f"{file.stem}.out"
    folder.mkdir(parents=True, exist_ok=True)
    paths = (folder / "results.json", folder / "calculation.pdf")
    write_results(results, paths[0])
    write_calculation(results, paths[1], UNITS_FOR[units])
    for text in summary_lines(results, UNITS_FOR[units]):
        _print(text)
    for path in paths:
        _print(str(path))
    verdict = results["verdict"]
    proved = isinstance(verdict, dict) and verdict["outcome"] in ("passes", "close")
    return PROVED if proved else NOT_PROVED


@app.command
def scene(
    name: str | None = None,
    *,
    every: Annotated[bool, Parameter(name="--all", negative=())] = False,
    as_json: Annotated[bool, Parameter(name="--json", negative=())] = False,
    out: Annotated[Path | None, Parameter(help="Folder for the pictures and line files.")] = None,
) -> int:
    """Play one of nine scenes that show what pressure and heat do to a line; without a name, list them.

    Parameters
    ----------
    name
        Name or number of a scene.
    every
        Play them all.
    as_json
        Print a JSON document instead; then nothing is written unless `--out` says where.
    out
        Folder for a picture of each scene (SVG) and its line files; `scenes.out` when left out.
    """
    from takeup.scenes import (
        SCENES,
        document_text,
        entry_named,
        list_document,
        list_text,
        played_scene,
        scene_lines,
        write_scene,
    )

    if name is not None and every:
        _say("takeup: a scene's name and --all are two answers: give one of them")
        return BAD_INPUT
    if name is None and not every:
        _print(list_document(SCENES).rstrip() if as_json else list_text(SCENES))
        return PROVED
    scenes = [played_scene(entry) for entry in (SCENES if name is None else (entry_named(name),))]
    if as_json:
        _print(document_text(scenes).rstrip())
    folder = out if out is not None or as_json else Path("scenes.out")
    for one in scenes:
        if not as_json:
            _print("\n".join(scene_lines(one)))
        for path in write_scene(one, folder) if folder is not None else ():
            (_say if as_json else _print)(str(path))
        if not as_json:
            _print("")
    return PROVED if all(one.agrees for one in scenes) else NOT_PROVED


def _print(text: str) -> None:
    try:
        sys.stdout.write(f"{text}\n")
    except BrokenPipeError:
        _let_go_of_output()


def _say(text: str) -> None:
    sys.stderr.write(f"{text}\n")


def _in_words(error: TakeupError | OSError) -> str:
    """Return a fault as one line, or as many as it has; those of a file begin with their place."""
    if isinstance(error, InputError):
        return str(error)
    if isinstance(error, OSError):
        return f"takeup: {error.filename or ''}: {(error.strerror or str(error)).lower()}"
    return f"takeup: {error}"


def _log() -> str:
    """Write the traceback to a file of its own and return its path."""
    handle, name = tempfile.mkstemp(prefix="takeup-", suffix=".log")
    with os.fdopen(handle, "w", encoding="utf-8") as stream:
        stream.write(traceback.format_exc())
    return name


def _let_go_of_output() -> None:
    """Point standard output nowhere, so that closing it at exit raises nothing more."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
