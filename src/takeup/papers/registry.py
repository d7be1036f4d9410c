"""The set of papers, and how one is added.     (papers/registry.py)

1. Make a room `papers/<room>/` with a module `paper.py` that holds
`def make(results: Results, options: Options) -> dict[str, bytes]`: every file of the paper by its name.
2. Add one line to `PAPERS` below: its name on the command line, its room, the names of its files (`*` for more sheets).
3. Begin `make` with `clean = printable_results(results)` (PDF and drawings alone: what the typeface lacks becomes its
code) and `head = head_of(results, options.units, options.language)`; take `head.units` from there on (it has the
language's decimal mark) and texts from `head.texts("topic.key", field=...)`.
4. Words stand in `words/en/<topic>.yaml` and `words/de/<topic>.yaml`, never in templates. What the results say in
English goes through `head.texts.said(...)`; a number that no `Measure` wrote through `head.texts.figures(...)`.
5. PDF: `compile_pdf(TEMPLATE, {"frame": frame_tree(head, title), ...}, head.date)`, a template as `frame.typ` shows.
Workbook: `workbook_bytes(head, title, sheets)`; CSV: `csv_bytes(head, grid)` of the same `Grid`.
6. Everything comes from the results: no clock, no path, no other file. The same results give the same bytes.
7. A line that is not solved has no loads and movements; a paper then says so and is made all the same.
8. Tests: `tests/unit/papers/<room>/`; those of this registry try every paper in both languages and both units.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

from takeup.drawing.reading import Results
from takeup.edge import SI, Units
from takeup.errors import TakeupError
from takeup.papers.words import ENGLISH, Language
from takeup.reading.writing import write_whole


class UnknownPaper(TakeupError, LookupError):
    """A name that is none of a paper's."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Options:
    """What a paper is written in."""

    units: Units = SI
    language: Language = ENGLISH


Make = Callable[[Results, Options], Mapping[str, bytes]]


@dataclass(frozen=True, kw_only=True, slots=True)
class Paper:
    """A paper: its name on the command line, its room among the papers, and the names of its files."""

    name: str
    room: str
    files: tuple[str, ...]

    def made(self, results: Results, options: Options) -> Mapping[str, bytes]:
        """Return its files by their names; its room is imported now, so that others cost nothing."""
        make: Make = importlib.import_module(f"takeup.papers.{self.room}.paper").make
        files = make(results, options)
        assert all(any(fnmatchcase(name, known) for known in self.files) for name in files), "files are as announced"
        return files


PAPERS: tuple[Paper, ...] = (
    Paper(name="calculation", room="calculation", files=("calculation.pdf",)),
    Paper(
        name="loads",
        room="loads",
        files=(
            *("loads.pdf", "loads.xlsx", "loads.csv"),
            *("loads-key-plan.svg", "loads-key-plan-*.svg", "loads-key-plan.dxf"),
        ),
    ),
    Paper(name="layout", room="layout", files=("layout.svg", "layout-*.svg", "layout.dxf", "layout.pdf")),
    Paper(name="joints", room="data_sheets", files=("joints.pdf", "joints.xlsx")),
    Paper(name="specification", room="specification", files=("specification.docx",)),
    Paper(name="card", room="card", files=("card.pdf",)),
    Paper(name="parts", room="parts", files=("parts.xlsx", "parts.csv")),
    Paper(name="pictures", room="pictures", files=("line-*.svg", "line-*.png", "line.glb")),
)  # fmt: skip
"""In the order in which they are listed; the last, which takes longest, is begun first."""
_AT_ONCE = 2  # papers: while typst sets one, which it does outside the interpreter's lock, another is put together


def papers_named(names: Sequence[str]) -> tuple[Paper, ...]:
    """Return papers by name, in the order of the set; all of them where none is named.

    Args:
        names: as they stand on the command line; an unknown one is refused with those that are known.
    """
    known = {paper.name: paper for paper in PAPERS}
    for name in names:
        if name not in known:
            raise UnknownPaper(f"unknown paper {name!r}: known are {', '.join(known)}")
    return tuple(paper for paper in PAPERS if not names or paper.name in names)


def papers_bytes(results: Results, options: Options, names: Sequence[str] = ()) -> dict[str, bytes]:
    """Return every file of some papers by its name.

    Args:
        results: the results document.
        options: units and language.
        names: of the papers; all of them where none is named.
    """
    chosen = papers_named(names)
    with ThreadPoolExecutor(_AT_ONCE) as pool:
        running = [pool.submit(paper.made, results, options) for paper in reversed(chosen)]
        made = [one.result() for one in reversed(running)]
    found = {name: data for files in made for name, data in files.items()}
    assert len(found) == sum(map(len, made)), "every file belongs to one paper"
    return found


def write_papers(results: Results, folder: Path, options: Options, names: Sequence[str] = ()) -> tuple[Path, ...]:
    """Make all papers, then write each of their files whole; return where they are.

    Args:
        results: the results document.
        folder: to write to; it is made if need be.
        options: units and language.
        names: of the papers; all of them where none is named.
    """
    return write_whole(papers_bytes(results, options, names), folder)


__all__ = ["PAPERS", "Options", "Paper", "UnknownPaper", "papers_bytes", "papers_named", "write_papers"]
