"""Proposals beside the desk: told on the way, kept on a stop, and put into the text.     (tests/unit/desk)

What is proposed is proved elsewhere (tests/unit/choose/arrange); here what the page is told of it.
"""

from __future__ import annotations

import pickle
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from takeup.desk.interface import ArrangeAsked
from takeup.desk.work.arranging import Found, arranged, proposals_of, text_of
from takeup.desk.work.jobs import Progress
from takeup.errors import TakeupError
from takeup.line.reading.reader import study_from_text

_BARE = Path(__file__).parents[3] / "examples" / "bare" / "ketterby-steam-main.yaml"
_TWO = ArrangeAsked(best=2, measure="cost")


class _Told:
    """Keeps what a work tells."""

    def __init__(self) -> None:
        self.shares: list[float] = []
        self.words: list[str] = []

    def __call__(self, share: float, words: str, _so_far: object = None, /) -> None:
        self.shares.append(share)
        self.words.append(words)


@pytest.fixture(scope="module")
def told() -> _Told:
    return _Told()


@pytest.fixture(scope="module")
def found(told: _Told) -> Found:
    return arranged(told, _BARE.read_text(encoding="utf-8"), _BARE.name, str(_BARE.parent), _TWO)


def test_arranged_tells_every_study_and_goes_only_forward(found: Found, told: _Told) -> None:
    """The share of the way never falls and never says that it is done; studies are counted."""
    assert found.rows
    assert told.shares == sorted(told.shares)
    assert told.shares[-1] < 1.0
    assert any(words.startswith("study 1:") for words in told.words)


def test_rows_are_numbered_in_order_of_cost_and_drawn(found: Found) -> None:
    """As many as asked for, the cheapest first, each with a drawing that the page's content policy lets through."""
    assert [row["number"] for row in found.rows] == [1, 2]
    costs = [float(row["cost"].split()[0]) for row in found.rows]
    assert costs == sorted(costs)
    for row in found.rows:
        assert " kN at " in row["anchor_load"]
        assert ET.fromstring(row["svg"]).tag.endswith("svg")  # noqa: S314 -- our own drawing
        assert "style" not in row["svg"]


def test_reasons_leave_to_the_list_what_was_refused(found: Found) -> None:
    """A card says why it stands; what was refused is listed once, with where and why."""
    assert all(", refused: " not in reason for row in found.rows for reason in row["reasons"])
    assert all(row["where"] and row["because"].endswith(".") for row in found.refused)
    assert {row["concept"] for row in found.refused} >= {"single axial"}


def test_text_of_a_proposal_is_a_line_file_with_what_is_proposed(found: Found) -> None:
    """The text reads, has more holds than the bare one, and keeps what was written in that."""
    bare = study_from_text(_BARE.read_text(encoding="utf-8"), str(_BARE))
    after = study_from_text(text_of(found, 1), str(_BARE))
    assert sum(len(line.holds) for line in after.lines) > sum(len(line.holds) for line in bare.lines)
    assert "Proposal 1 of 2" in text_of(found, 1)


@pytest.mark.parametrize("number", [0, 3, -1])
def test_text_of_a_number_that_is_not_there_is_refused(found: Found, number: int) -> None:
    """Two were found: neither nought nor three is one, and a negative one does not count from the end."""
    with pytest.raises(TakeupError, match="found were 2"):
        text_of(found, number)


def test_found_is_picklable_for_it_comes_from_another_process(found: Found) -> None:
    """What is sent is what arrives."""
    assert pickle.loads(pickle.dumps(found)) == found  # noqa: S301 -- our own bytes


def test_proposals_of_a_stopped_search_keep_what_was_proved(found: Found) -> None:
    """The page still has the rows, and is told that they are those proved by then."""
    stopped = proposals_of(4, Progress(job="stopped", share=0.5, words="study 9", answer=found))
    assert (stopped["revision"], len(stopped["rows"])) == (4, 2)
    assert stopped["words"].startswith("Stopped")
    assert proposals_of(1, Progress(job="none"))["rows"] == []


def test_proposals_of_a_search_with_invented_prices_say_so(found: Found) -> None:
    """The bare example names no price file, so that the demonstration's are taken, which is never silent."""
    assert "PRICES ARE INVENTED" in proposals_of(1, Progress(job="done", answer=found))["words"]


def test_arranged_refuses_a_line_that_says_nothing_of_proposals() -> None:
    """A file without 'may_hold' has nothing to search among; the words say what is missing."""
    whole = _BARE.parents[1] / "fell-gill-offset.yaml"
    with pytest.raises(TakeupError, match="may_hold"):
        arranged(_Told(), whole.read_text(encoding="utf-8"), whole.name, str(whole.parent), _TWO)
