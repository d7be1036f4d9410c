"""`takeup papers` from outside.     (tests/unit/cli/test_papers.py)"""

from __future__ import annotations

import json

import pytest
from tests.builders import joint, line_file, study_of

from takeup import cli
from takeup.papers.registry import PAPERS
from takeup.results import results_of, write_results

LINE = line_file(["20 m east"], takeups=(joint("J1", "10 m"),))


@pytest.fixture(scope="module")
def small():
    """Real results of a small line."""
    return results_of(study_of(LINE))


@pytest.fixture
def results(tmp_path, small):
    """Their file."""
    write_results(small, tmp_path / "results.json")
    return tmp_path / "results.json"


def test_papers_of_results_are_written_and_named(results, small, capsys):
    code = cli.run(["papers", str(results)])
    out, err = capsys.readouterr()
    folder = results.parent / "results.out"
    written = sorted(path.name for path in folder.iterdir())
    assert sorted(out.split()) == [str(folder / name) for name in written]
    assert code == (0 if small["verdict"]["outcome"] in ("passes", "close") else 1)
    assert small["verdict"]["outcome"] in err
    assert "calculation.pdf" in written


def test_papers_that_prove_nothing_are_written_and_say_so(results, small, capsys):
    failed = json.loads(json.dumps(small))
    failed["verdict"] = {"outcome": "fails", "because": ["made so"]}
    results.write_text(json.dumps(failed), encoding="utf-8")
    assert cli.run(["papers", str(results), "--only", "calculation"]) == 1
    assert (results.parent / "results.out" / "calculation.pdf").exists()
    assert "verdict fails" in capsys.readouterr().err


def test_papers_of_a_line_file_are_those_of_its_results(tmp_path, capsys):
    file = tmp_path / "line.yaml"
    file.write_text(LINE, encoding="utf-8")
    cli.run(["papers", str(file), "--only", "calculation", "--out", str(tmp_path / "a")])
    cli.run(["study", str(file), "--out", str(tmp_path / "b")])
    capsys.readouterr()
    assert (tmp_path / "a" / "calculation.pdf").read_bytes() == (tmp_path / "b" / "calculation.pdf").read_bytes()
    assert [path.name for path in (tmp_path / "a").iterdir()] == ["calculation.pdf"]


def test_unknown_paper_names_the_known_ones(results, capsys):
    assert cli.run(["papers", str(results), "--only", "calculation,lods"]) == 2
    err = capsys.readouterr().err
    assert "'lods'" in err
    assert all(paper.name in err for paper in PAPERS)
    assert not (results.parent / "results.out").exists()


def test_results_that_are_none_are_refused_with_the_place(results, small, capsys):
    results.write_text(json.dumps({**small, "tool": 5}, indent=1), encoding="utf-8")
    assert cli.run(["papers", str(results)]) == 2
    assert f"{results}:2:2: tool: 5 is not an object" in capsys.readouterr().err


def test_file_that_is_not_there_is_refused(tmp_path, capsys):
    assert cli.run(["papers", str(tmp_path / "no.json")]) == 2
    assert "no.json" in capsys.readouterr().err
