"""The command that proposes arrangements.     (cli/arranging.py)"""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter
from cyclopts.validators import Number

from takeup.cli.progress import progress_line
from takeup.cli.saying import INTERRUPTED, NOT_PROVED, PROVED, print_out, say

if TYPE_CHECKING:
    from takeup.choose.arrange.outcome import Outcome
    from takeup.choose.arrange.prices import Prices
    from takeup.line import Study

_MOST = 99  # proposals have two figures in the names of their files


def arrange(
    file: Path,
    *,
    best: Annotated[int, Parameter(validator=Number(gte=1, lte=_MOST))] = 10,
    measure: Literal["cost", "anchor-load", "joints"] = "cost",
    most_joints: Annotated[int | None, Parameter(validator=Number(gte=0))] = None,
    one_joint: Annotated[bool, Parameter(negative=())] = False,
    out: Annotated[Path | None, Parameter(help="Folder for the proposals.")] = None,
) -> int:
    """Propose the best arrangements of a bare line, each proved by its own study, with reasons.

    Writes proposals.json, a line file of each and comparison.pdf; an interruption keeps what is proved.

    Parameters
    ----------
    file
        The line file, which says where the line may be held, what takes up growth, and its price file.
    best
        How many proposals are wanted.
    measure
        Which is first: least cost, least load on the most loaded anchor, or fewest joints; then by cost.
    most_joints
        How many joints a proposal may add at most; any number when left out.
    one_joint
        All joints of a proposal are of one name of a series, so that one spare serves them all.
    out
        Folder for the proposals; `<file stem>.proposals` beside the file when left out.
    """
    from takeup.choose.arrange.ground import ground_of
    from takeup.choose.arrange.hands import hands_for
    from takeup.choose.arrange.outcome import outcome_of
    from takeup.choose.arrange.propose import hunt_of
    from takeup.choose.arrange.search import Bounds
    from takeup.line.reading.reader import read_study

    study = read_study(file)
    ground = ground_of(study, _prices(study, file))
    with progress_line("the ways to take up the growth of every span") as told, hands_for(ground) as hands:
        hunt = hunt_of(ground, hands)
        outcome = outcome_of(
            hunt,
            best,
            measure=measure,
            bounds=Bounds(joints=math.inf if most_joints is None else most_joints, alike=one_joint),
            progress=lambda now, words: told(f"study {now.studies}: {words}"),
        )
    _hand_over(outcome, file, out if out is not None else file.parent / f"{file.stem}.proposals")
    if outcome.interrupted:
        say("interrupted: what was proved by then is written")
        return INTERRUPTED
    return PROVED if hunt.proposals else NOT_PROVED


def _prices(study: Study, file: Path) -> Prices:
    """Return the prices that a line file names, else those of the demonstration, which is said."""
    from takeup.choose.arrange.price_file import demonstration_prices, read_prices

    if study.prices is not None:
        return read_prices(file.parent / study.prices)
    say(f"{file}: no price file is named under 'prices': the invented demonstration prices are taken, not anybody's")
    return demonstration_prices()


def _hand_over(outcome: Outcome, file: Path, folder: Path) -> None:
    """Write the papers of a search, whole or not at all, and print its table."""
    from takeup.choose.arrange.document import proposals_document
    from takeup.choose.arrange.written import DOCUMENT, json_text, lay_beside, left_over, proposal_texts
    from takeup.papers.proposals.comparison import COMPARISON, comparison_pdf
    from takeup.papers.proposals.proposal_sheet import proposal_lines
    from takeup.reading.writing import write_whole

    document = proposals_document(outcome)
    results = [one.found.results for one in outcome.hunt.proposals]
    files: dict[str, str | bytes] = {DOCUMENT: json_text(document), **proposal_texts(outcome, file)}
    files[COMPARISON] = comparison_pdf(document, results)
    for text in proposal_lines(document):
        print_out(text)
    beside = lay_beside(outcome.hunt, file, folder) if results else ()
    for path in (*write_whole(files, folder), *beside):
        print_out(str(path))
    for path in left_over(folder, files):
        say(f"{path}: left from an earlier run, and no proposal of this one")


__all__ = ["arrange"]
