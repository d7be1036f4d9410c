"""Every paper of the registry: files as announced, the same bytes, in every language and both units.

(tests/unit/papers/test_registry.py)
"""

from __future__ import annotations

import copy

import pytest
from tests.unit.drawing.results_fixture import corner

from takeup.edge import SI, US
from takeup.papers.registry import PAPERS, Options, UnknownPaper, papers_bytes, papers_named, write_papers
from takeup.papers.words import LANGUAGES

NAMES = [paper.name for paper in PAPERS]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("name", NAMES)
def test_paper_is_the_same_each_time(name, units, language):
    options = Options(units=units, language=language)
    document = corner()
    before = copy.deepcopy(document)
    first = papers_bytes(document, options, [name])
    assert first
    assert all(first.values())
    assert first == papers_bytes(corner(), options, [name])
    assert document == before  # results are never changed


def test_papers_come_in_their_order_whatever_is_asked():
    assert [paper.name for paper in papers_named(())] == NAMES
    assert [paper.name for paper in papers_named(NAMES[::-1])] == NAMES


def test_unknown_name_is_refused():
    with pytest.raises(UnknownPaper, match="known are calculation"):
        papers_named(["lods"])


def test_nothing_is_written_where_a_paper_cannot_be_made(tmp_path):
    document = corner()
    del document["input"]
    with pytest.raises((AssertionError, KeyError)):
        write_papers(document, tmp_path / "out", Options(), ["calculation"])
    assert not (tmp_path / "out").exists()
