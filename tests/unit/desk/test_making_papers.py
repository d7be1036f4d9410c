"""Papers beside the desk: made whole, named, and told to the page.     (tests/unit/desk)"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from takeup.desk.interface import PapersAsked
from takeup.desk.work.jobs import Progress
from takeup.desk.work.making_papers import KINDS, Made, file_title, made, papers_of
from takeup.papers.registry import PAPERS, UnknownPaper

_EXAMPLE = Path(__file__).parents[3] / "examples" / "fell-gill-offset.yaml"


def _silent(_share: float, _words: str, _so_far: object = None, /) -> None:
    """Tell nobody."""


def _made(folder: Path, *only: str) -> Made:
    shutil.copy(_EXAMPLE, folder)
    text = _EXAMPLE.read_text(encoding="utf-8")
    return made(_silent, text, _EXAMPLE.name, str(folder), PapersAsked(only=list(only), units="si", language="en"))


def test_every_paper_has_a_title_and_a_word_on_whom_it_is_for() -> None:
    """A paper that is added to the registry has to be named here too."""
    assert [kind["key"] for kind in KINDS] == [paper.name for paper in PAPERS]
    assert all(kind["title"] and kind["about"] for kind in KINDS)


def test_every_file_of_every_paper_has_a_title() -> None:
    """Whatever the registry may write has a title; a star stands for a sheet's number."""
    names = [name.replace("*", "1") for paper in PAPERS for name in paper.files]
    assert file_title("loads.xlsx") == "Schedule of loads: workbook"
    assert all(": " in file_title(name) for name in names)


def test_made_writes_beside_the_file_and_says_how_large(tmp_path: Path) -> None:
    """Two papers asked for, theirs and no other; sizes are those on disk to a tenth of 1000 bytes, as rounded."""
    answer = _made(tmp_path, "parts", "card")
    out = tmp_path / "fell-gill-offset.out"
    assert {file["name"] for file in answer.files} == {"card.pdf", "parts.xlsx", "parts.csv"}
    for file in answer.files:
        assert file["size_kb"] == pytest.approx((out / file["name"]).stat().st_size / 1000.0, abs=0.051)
        assert file["address"] == f"/papers/{file['name']}"
    assert "Verdict of the study: " in answer.words


def test_made_refuses_an_unknown_paper_before_it_computes(tmp_path: Path) -> None:
    """Nothing is written."""
    with pytest.raises(UnknownPaper, match="poster"):
        _made(tmp_path, "poster")
    assert not (tmp_path / "fell-gill-offset.out").exists()


def test_papers_of_say_why_when_nothing_was_made() -> None:
    """A failed work's words are shown; kinds can be asked for all the same."""
    papers = papers_of(3, Progress(job="failed", words="the text has a fault"))
    assert (papers["words"], papers["files"], len(papers["kinds"])) == ("the text has a fault", [], len(PAPERS))
