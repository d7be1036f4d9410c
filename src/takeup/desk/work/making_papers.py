"""Papers beside the desk: a study and its papers, in a process of their own.     (desk/work/making_papers.py)

`made` is what `Work` runs. The papers go where the command puts them, `<file stem>.out` beside the file, and are those
of the text as it stands on the desk, saved or not.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path
from urllib.parse import quote

from takeup.choose import resolve
from takeup.choose.costs import with_costs
from takeup.desk.interface import PaperFile, PaperKind, Papers, PapersAsked
from takeup.desk.work.jobs import Progress, Tell
from takeup.desk.work.within import Outside, is_within, prices_within
from takeup.edge import UNITS_FOR
from takeup.line.reading.reader import study_from_text
from takeup.papers.registry import PAPERS, Options, papers_named
from takeup.reading.writing import write_whole
from takeup.results import results_of

_STUDIED, _WRITTEN = 0.4, 0.98  # of the way: the study is done; every paper is made
_SUFFIXES = {
    ".pdf": "PDF",
    ".xlsx": "workbook",
    ".csv": "table, CSV",
    ".docx": "text document",
    ".svg": "drawing, SVG",
    ".dxf": "drawing, DXF",
    ".png": "picture, PNG",
    ".glb": "model in space, GLB",
}
_KINDS = {
    "calculation": ("Calculation", "every number and check, for who checks it"),
    "loads": ("Schedule of loads", "forces and moments on the structure, with a key plan, for the structural engineer"),
    "layout": ("Layout drawing", "the line to scale with its holds and take-ups, for everybody"),
    "joints": ("Data sheets of joints", "what each joint has to do, for the buyer and the maker"),
    "specification": ("Specification", "what is to be supplied and how, for the buyer"),
    "card": ("Set-up and inspection card", "what to set, look at and measure on site, for the installer"),
    "parts": ("Parts and cost", "what is needed, with prices where the file names them, for whoever orders"),
    "pictures": ("Pictures", "a picture of each state and a model in space, for everybody"),
}
KINDS: tuple[PaperKind, ...] = tuple(
    PaperKind(key=paper.name, title=_KINDS[paper.name][0], about=_KINDS[paper.name][1]) for paper in PAPERS
)
"""The papers that can be asked for, in their order."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Made:
    """What was made; picklable.

    Args:
        folder: where the files are.
        files: in the order of the papers.
        words: what the study's verdict is, which every paper bears.
    """

    folder: str
    files: tuple[PaperFile, ...]
    words: str


def papers_folder(folder: Path, file: str) -> Path:
    """Return where the papers of a file go.

    Args:
        folder: of the file.
        file: its name.
    """
    return folder / f"{Path(file).stem}.out"


def made(tell: Tell, text: str, file: str, folder: str, asked: PapersAsked) -> Made:
    """Study a text and write papers of it, whole or not at all.

    Args:
        tell: told of the study and of every paper.
        text: of the line file as it stands on the desk.
        file: its name.
        folder: that it is in.
        asked: which papers, in which units and language.

    Raises:
        TakeupError: The text has faults, a paper is unknown, or the folder of papers leads out of that of the file.
    """
    papers = papers_named(asked["only"])
    out = papers_folder(Path(folder), file)
    if not is_within(out, Path(folder)):
        raise Outside(f"{out.name} leads out of the folder of the line file; the desk writes nothing there")
    tell(0.0, "the study")
    place = Path(folder)
    study = study_from_text(text, str(place / file))
    prices = prices_within(study, place)
    results = results_of(resolve(study))
    priced = dict(results) if prices is None else with_costs(results, study, prices)
    options = Options(units=UNITS_FOR[asked["units"]], language=asked["language"])
    files: dict[str, bytes] = {}
    for number, paper in enumerate(papers):
        share = _STUDIED + (_WRITTEN - _STUDIED) * number / len(papers)
        tell(share, _KINDS[paper.name][0].casefold())
        files |= paper.made(priced, options)
    write_whole(files, out)
    verdict = results["verdict"]
    assert isinstance(verdict, Mapping), "every result has one"
    return Made(
        folder=out.name,
        files=tuple(_file(name, len(content)) for name, content in files.items()),
        words=f"{_counted(len(files))} in {out.name}. Verdict of the study: {verdict['outcome']}.",
    )


def _counted(count: int) -> str:
    return "1 file" if count == 1 else f"{count} files"


def _file(name: str, size: int) -> PaperFile:
    """Return what the page is told of a file.

    Args:
        name: of the file.
        size: in bytes.
    """
    return PaperFile(
        name=name, title=file_title(name), size_kb=round(size / 1000.0, 1), address=f"/papers/{quote(name)}"
    )


def file_title(name: str) -> str:
    """Return what a file of a paper is, such as "Schedule of loads: workbook"."""
    for paper in PAPERS:
        if any(fnmatchcase(name, known) for known in paper.files):
            return f"{_KINDS[paper.name][0]}: {_SUFFIXES[Path(name).suffix]}"
    raise AssertionError(f"{name} is a file of some paper")


def papers_of(revision: int, progress: Progress[Made], kinds: Sequence[PaperKind] = KINDS) -> Papers:
    """Return what the page is told of papers.

    Args:
        revision: of the text that they are of.
        progress: how far they are.
        kinds: that can be asked for.
    """
    answer = progress.answer
    return Papers(
        revision=revision,
        job=progress.job,
        words=answer.words if answer is not None and progress.job == "done" else progress.words,
        kinds=list(kinds),
        files=[] if answer is None else list(answer.files),
    )
