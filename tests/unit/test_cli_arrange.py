"""`takeup arrange` from outside: exit codes, what is written and printed, prices, what an interruption keeps."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.price_builders import PRICES
from tests.proposal_builders import BARE, WEAK

from takeup import cli
from takeup.choose.arrange import outcome, propose
from takeup.joints.tables.store import demonstration

NAMES = ["comparison.pdf", "proposal-01.yaml", "proposal-02.yaml", "proposals.json"]
INVENTED = "PRICES ARE INVENTED"


@pytest.fixture(autouse=True)
def short(monkeypatch):
    """The front is looked for with one study only: these tests are of the command, not of the front."""
    monkeypatch.setattr(outcome, "FRONT_STUDIES", 1)


def written(folder: Path, text: str, name: str = "bare.yaml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def document(folder: Path):
    return json.loads((folder / "proposals.json").read_text(encoding="utf-8"))


def test_proposals_are_written_beside_the_file_and_printed(tmp_path, capsys):
    path = written(tmp_path, BARE)
    assert cli.run(["arrange", str(path), "--best", "2"]) == 0
    said = capsys.readouterr()
    folder = tmp_path / "bare.proposals"
    assert sorted(one.name for one in folder.iterdir()) == NAMES
    assert said.out.splitlines()[-4:] == [str(folder / name) for name in (NAMES[3], *NAMES[1:3], NAMES[0])]
    assert INVENTED in said.out.splitlines()[1]
    assert "demonstration prices are taken" in said.err
    assert "study 1" not in said.err  # no progress where standard error is no terminal
    found = document(folder)
    assert [one["rank"] for one in found["proposals"]] == [1, 2]
    assert (folder / "comparison.pdf").read_bytes().startswith(b"%PDF")
    assert cli.run(["validate", str(folder / "proposal-01.yaml")]) == 0


def test_bounds_are_kept_and_said(tmp_path, capsys):
    """With no joint at all a loop stands; with joints of one name the first is the same as without."""
    path = written(tmp_path, BARE)
    assert cli.run(["arrange", str(path), "--best", "1", "--most-joints", "0", "--out", str(tmp_path / "none")]) == 0
    assert "Asked for were at most 0 joints." in " ".join(capsys.readouterr().out.split())
    found = document(tmp_path / "none")
    assert found["bounds"] == {"most_joints": 0, "one_joint": False}
    assert found["proposals"][0]["joints"] == 0
    assert cli.run(["arrange", str(path), "--best", "1", "--one-joint", "--out", str(tmp_path / "one")]) == 0
    found = document(tmp_path / "one")
    assert found["bounds"] == {"most_joints": None, "one_joint": True}
    names = {joint["joint"] for span in found["proposals"][0]["spans"] for joint in span["joints"]}
    assert len(names) <= 1
    assert cli.run(["arrange", str(path), "--most-joints", "-1"]) == 2


def test_two_runs_write_the_same_bytes_and_what_an_earlier_one_left_is_told(tmp_path, capsys):
    path, folder = written(tmp_path, BARE), tmp_path / "out"
    cli.run(["arrange", str(path), "--best", "2", "--out", str(folder)])
    first = {one.name: one.read_bytes() for one in folder.iterdir()}
    cli.run(["arrange", str(path), "--best", "2", "--out", str(folder)])
    assert {one.name: one.read_bytes() for one in folder.iterdir()} == first
    capsys.readouterr()
    cli.run(["arrange", str(path), "--best", "1", "--out", str(folder)])
    assert f"{folder / 'proposal-02.yaml'}: left from an earlier run" in capsys.readouterr().err


@pytest.mark.parametrize("measure", ["joints", "anchor-load"])
def test_measure_puts_it_first_and_cost_second(measure, tmp_path, capsys):
    assert cli.run(["arrange", str(written(tmp_path, BARE)), "--best", "3", "--measure", measure]) == 0
    capsys.readouterr()
    found = document(tmp_path / "bare.proposals")
    keys = [
        (one["joints"] if measure == "joints" else one["greatest_load"]["force_n"], one["cost"])
        for one in found["proposals"]
    ]
    assert found["measure"] == measure
    assert keys == sorted(keys)
    assert len(keys) == 3
    assert keys[0][0] == 0 or measure == "anchor-load"  # a loop serves, which has no joint


def test_own_prices_are_taken_and_nothing_is_called_invented(tmp_path, capsys):
    (tmp_path / "prices").mkdir()
    written(tmp_path / "prices", PRICES, "own.yaml")
    path = written(tmp_path, BARE.replace("lines:\n", "prices: prices/own.yaml\nlines:\n", 1))
    assert cli.run(["arrange", str(path), "--best", "1"]) == 0
    said = capsys.readouterr()
    assert INVENTED not in said.out
    assert said.err == ""
    found = document(tmp_path / "bare.proposals")
    assert (found["prices"]["unit"], found["prices"]["name"]) == ("EUR", "round prices")
    # A joint costs twice its index in the series and 10 for fitting; guides 5 each; ends are the file's (by hand).
    own, series = found["proposals"][0], demonstration()
    index = float(series.numbers["price_index"][series.names.index(own["spans"][0]["joints"][0]["joint"])])
    parts = {part["what"].partition(",")[0]: part for part in own["parts"]}
    assert parts["single axial"]["each"] == pytest.approx(2.0 * index + 10.0, rel=1e-12)  # one sum, exact but for bits
    assert parts["slide guide"]["each"] == 5.0
    # what the proposals name lies beside them, so that each can be arranged again
    assert (tmp_path / "bare.proposals" / "prices" / "own.yaml").read_text(encoding="utf-8") == PRICES


def test_prices_that_are_not_there_or_broken_are_bad_input_and_nothing_is_written(tmp_path, capsys):
    path = written(tmp_path, BARE.replace("lines:\n", "prices: none.yaml\nlines:\n", 1))
    assert cli.run(["arrange", str(path)]) == 2
    assert "none.yaml" in capsys.readouterr().err
    written(tmp_path, PRICES.replace("DN 100: 10", "DN 100: ten", 1), "none.yaml")
    assert cli.run(["arrange", str(path)]) == 2
    assert "none.yaml:7" in capsys.readouterr().err
    assert not (tmp_path / "bare.proposals").exists()


def test_nothing_that_fits_leaves_with_1_and_says_what_would_have_to_give(tmp_path, capsys):
    assert cli.run(["arrange", str(written(tmp_path, WEAK))]) == 1
    said = capsys.readouterr().out
    assert "NOTHING FITS." in said
    assert "Something would fit if" in said
    assert "which costs least of what was tried:" in " ".join(said.split())
    folder = tmp_path / "bare.proposals"
    assert sorted(one.name for one in folder.iterdir()) == ["comparison.pdf", "proposals.json"]
    assert document(folder)["relaxations"]


def test_file_that_allows_nothing_or_is_not_there_is_bad_input(tmp_path, capsys):
    bare = "".join(line for line in BARE.splitlines(keepends=True) if "may_hold" not in line)
    bare = "".join(
        line for line in bare.splitlines(keepends=True) if "loop_room" not in line and "takeups_" not in line
    )
    assert cli.run(["arrange", str(written(tmp_path, bare))]) == 2
    assert "no line says what may be proposed" in capsys.readouterr().err
    assert cli.run(["arrange", str(tmp_path / "none.yaml")]) == 2
    assert cli.run(["arrange", str(written(tmp_path, BARE)), "--best", "0"]) == 2
    assert cli.run(["arrange", str(written(tmp_path, BARE)), "--measure", "beauty"]) == 2
    assert not (tmp_path / "bare.proposals").exists()


def test_interruption_keeps_what_is_proved_and_leaves_with_130(tmp_path, capsys, monkeypatch):
    real, calls = propose.verified, []

    def twice(*words):
        calls.append(words)
        if len(calls) > 2:
            raise KeyboardInterrupt
        return real(*words)

    monkeypatch.setattr(propose, "verified", twice)
    assert cli.run(["arrange", str(written(tmp_path, BARE))]) == 130
    said = capsys.readouterr()
    assert "interrupted: what was proved by then is written" in said.err
    found = document(tmp_path / "bare.proposals")
    assert found["searched"]["stopped"] == "interrupted"
    assert len(found["proposals"]) == len(list((tmp_path / "bare.proposals").glob("proposal-*.yaml"))) == 2
    assert found["searched"]["words"] in " ".join(said.out.split())


def test_signal_of_an_interruption_is_kept_from_a_process_of_its_own(tmp_path):
    """As a user's Ctrl-C: sent while it searches; whatever is proved by then is written whole, and nothing half."""
    more = "may_hold: [ { every: 2 m, can_carry: { force: 25 kN } } ]"
    text = BARE.replace("may_hold: [ { at: 6 m, can_carry: { force: 25 kN } } ]", more).replace(
        "12 m east", "40 m east"
    )
    call = "import sys; from takeup.cli import main; main(sys.argv[1:])"
    process = subprocess.Popen(
        [sys.executable, "-c", call, "arrange", str(written(tmp_path, text)), "--best", "90"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=dict(os.environ),
    )  # fmt: skip
    time.sleep(8.0)
    process.send_signal(signal.SIGINT)
    out, error = process.communicate(timeout=240)
    assert process.returncode == 130, error
    assert "Traceback" not in out + error
    folder = tmp_path / "bare.proposals"
    if folder.exists():  # interrupted before the first study, nothing is there to keep
        assert document(folder)["searched"]["stopped"] == "interrupted"
        assert not list(folder.glob(".*"))
