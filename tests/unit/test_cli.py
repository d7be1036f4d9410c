"""The commands from outside: exit codes, what is printed where, what is written.     (tests/unit/test_cli.py)

`takeup` runs a command in a process of its own, as a user runs it: what it leaves with, what it prints where, the same
bytes from two processes. `here` runs it in this process and shows the same, without a second for each start of Python.
"""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from contextlib import chdir, redirect_stderr, redirect_stdout
from pathlib import Path

import pytest
from tests.builders import hold, joint, line_file, rule

from takeup import __version__, cli

REPOSITORY = Path(__file__).parents[2]
GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
NOT_PROVED = line_file(
    ["40 m east"], holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m", kind="externally pressurised"),)
)
FAILING = line_file(
    ["12 m east"], end="blind", holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m", kind="externally pressurised"),)
)
LOOSE = line_file(["12 m east"], start="free", end="free", holds=(hold("slide guide", "[3 m, 9 m]"),))
GIVEN = (
    "allowable: { expansion_stress_range: { value: 155 MPa, source: invented }, "
    "hot_stress: { value: 118 MPa, source: invented }, "
    "yield_strength: { value: %d MPa, source: invented } }"
)
PROVED = line_file(
    ["4 m east"],
    start="main anchor, can_carry: 5000 kN",
    end="main anchor, can_carry: 5000 kN",
    more=GIVEN % 900,
)
GUIDED_AND_STATED = line_file(  # 82.8 kN of thrust, guides within 0.9 of 4 D, 14 D, L_max and of the support span
    ["40 m east"],
    holds=(hold("slide guide", "[2.3 m, 4.9 m, 10.9 m, 16.9 m, 22.9 m, 28.9 m, 34.9 m]"),),
    start="main anchor, can_carry: 120 kN",
    end="main anchor, can_carry: 120 kN",
    takeups=(joint("J1", "west end + 1.2 m", kind="externally pressurised"),),
    more=GIVEN % 240,
)


def takeup(*words: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run one command; no traceback may ever be seen."""
    done = subprocess.run(
        [sys.executable, "-m", "takeup", *map(str, words)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=cwd,
        check=False,
        timeout=120,
        env={**os.environ, "PYTHONPATH": str(REPOSITORY / "src"), "PYTHONIOENCODING": "utf-8"},
    )
    assert "Traceback" not in done.stdout + done.stderr
    assert done.returncode in (0, 1, 2), done.stderr
    return done


def here(*words: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run one command in this process."""
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err), chdir(cwd or "."):
        code = cli.run(list(map(str, words)))
    done = subprocess.CompletedProcess(words, code, out.getvalue(), err.getvalue())
    assert "Traceback" not in done.stdout + done.stderr
    assert done.returncode in (0, 1, 2), done.stderr
    return done


def written(folder: Path, text: str, name: str = "main.yaml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("text", "code", "verdict"),
    [
        (PROVED, 0, "passes"),
        (GUIDED_AND_STATED, 0, "passes"),
        (NOT_PROVED, 1, "not proved"),
        (FAILING, 1, "fails"),
        (LOOSE, 1, "fails"),
    ],
)
def test_study_leaves_with_the_code_of_its_verdict(text: str, code: int, verdict: str, tmp_path: Path):
    done = takeup("study", written(tmp_path, text), "--out", tmp_path / "out")
    assert done.returncode == code, done.stdout + done.stderr
    assert f"VERDICT: {verdict}" in done.stdout
    results = json.loads((tmp_path / "out" / "results.json").read_text(encoding="utf-8"))
    assert results["verdict"]["outcome"] == verdict
    assert (tmp_path / "out" / "calculation.pdf").read_bytes().startswith(b"%PDF")


def test_a_guided_line_with_all_data_stated_passes_because_friction_was_walked(tmp_path: Path):
    """The rows that stand or fall with it: every walk reached every state, and each hold was loaded by all of them."""
    here("study", written(tmp_path, GUIDED_AND_STATED), "--out", tmp_path / "out")
    results = json.loads((tmp_path / "out" / "results.json").read_text(encoding="utf-8"))
    [friction] = [row for row in results["checks"] if row["rule"] == "friction_walk"]
    assert (friction["outcome"], friction["mandatory"]) == ("passes", True)
    assert {row["outcome"] for row in results["checks"] if row["mandatory"]} == {"passes"}
    east = next(row for row in results["holds"] if row["name"] == "east end")
    assert {row["scenario"] for row in east["scenarios"]} == {"no friction", "low friction", "high friction"}


def test_study_prints_the_paths_it_wrote_at_the_end(tmp_path: Path):
    done = takeup("study", written(tmp_path, PROVED), "--out", tmp_path / "out")
    paths = [tmp_path / "out" / name for name in ("results.json", "calculation.pdf")]
    assert done.stdout.splitlines()[-2:] == [str(path) for path in paths]
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["calculation.pdf", "results.json"]


def test_study_writes_beside_the_file_where_no_folder_is_named(tmp_path: Path):
    done = takeup("study", written(tmp_path, PROVED).name, cwd=tmp_path)
    assert done.returncode == 0
    assert (tmp_path / "main.out" / "results.json").is_file()


def test_study_says_a_line_that_is_not_held_in_words(tmp_path: Path):
    done = here("study", written(tmp_path, LOOSE), "--out", tmp_path / "out")
    assert "can turn freely about the direction (1, 0, 0)" in done.stdout


def test_study_in_us_units_changes_the_papers_and_not_the_results(tmp_path: Path):
    """4 m are 157.48 in = 13 ft 1.48 in (by hand)."""
    path = written(tmp_path, PROVED)
    shown = {}
    for units in ("si", "us"):
        done = here("study", path, "--out", tmp_path / units, "--units", units)
        assert done.returncode == 0
        shown[units] = done.stdout
    assert "13 ft 1 1/2 in" in shown["us"]
    assert "13 ft" not in shown["si"]
    for name, same in (("results.json", True), ("calculation.pdf", False)):
        assert ((tmp_path / "si" / name).read_bytes() == (tmp_path / "us" / name).read_bytes()) is same


def test_study_in_unknown_units_says_which_there_are(tmp_path: Path):
    done = here("study", written(tmp_path, PROVED), "--units", "metric")
    assert done.returncode == 2
    assert all(word in done.stderr for word in ("--units", "metric", "si", "us"))
    assert [item.name for item in tmp_path.iterdir()] == ["main.yaml"]


@pytest.mark.parametrize("command", ["study", "validate"])
def test_bad_input_is_told_line_by_line_on_standard_error_and_nothing_is_written(command: str, tmp_path: Path):
    text = PROVED.replace("12 bar(g)", "12 bars").replace("steam", "steem")
    path = written(tmp_path, text)
    done = takeup(command, path)
    assert done.returncode == 2
    assert done.stdout == ""
    faults = done.stderr.splitlines()
    assert len(faults) == 2
    assert all(fault.startswith(f"{path}:") for fault in faults)
    assert [item.name for item in tmp_path.iterdir()] == ["main.yaml"]


@pytest.mark.parametrize("command", ["study", "validate"])
def test_a_file_that_cannot_be_read_is_bad_input(command: str, tmp_path: Path):
    for path in (tmp_path / "missing.yaml", tmp_path):
        done = here(command, path)
        assert done.returncode == 2
        assert done.stdout == ""
        assert str(path) in done.stderr
        assert len(done.stderr.splitlines()) == 1


def test_a_folder_that_is_a_file_is_bad_input(tmp_path: Path):
    path = written(tmp_path, PROVED)
    out = written(tmp_path, "mine", "taken")
    done = here("study", path, "--out", out)
    assert done.returncode == 2
    assert str(out) in done.stderr
    assert out.read_text(encoding="utf-8") == "mine"


def test_a_binary_file_is_bad_input(tmp_path: Path):
    path = tmp_path / "main.yaml"
    path.write_bytes(b"\x00\xff\xfe" * 50)
    done = here("study", path)
    assert done.returncode == 2
    assert "not a text file" in done.stderr


@pytest.mark.parametrize("units", ["si", "us"])
def test_new_writes_a_file_that_validates_and_is_studied(units: str, tmp_path: Path):
    path = tmp_path / "fresh.yaml"
    made = here("new", path, "--units", units)
    assert made.returncode == 0
    assert made.stdout.splitlines()[-1] == str(path)
    checked = here("validate", path)
    assert checked.returncode == 0
    assert "no faults" in checked.stdout
    assert here("study", path, "--out", tmp_path / "out").returncode in (0, 1)


def test_new_never_overwrites(tmp_path: Path):
    path = written(tmp_path, "mine")
    done = here("new", path)
    assert done.returncode == 2
    assert str(path) in done.stderr
    assert path.read_text(encoding="utf-8") == "mine"


def test_new_into_a_missing_folder_is_bad_input(tmp_path: Path):
    assert here("new", tmp_path / "no" / "such.yaml").returncode == 2


@pytest.mark.parametrize(
    "words", [("stdy", "x.yaml"), ("study",), ("study", "a.yaml", "--ot", "b"), ("new", "a", "--units", "metric")]
)
def test_a_wrong_command_line_is_bad_input(words: tuple[str, ...], tmp_path: Path):
    done = here(*words, cwd=tmp_path)
    assert done.returncode == 2
    assert list(tmp_path.iterdir()) == []


def test_an_interruption_before_anything_is_found_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Ctrl-C comes while the file is read; 130 is what shells use for it (128 and the number of SIGINT, 2)."""

    def interrupted(_file: Path) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("takeup.line.reading.reader.read_study", interrupted)
    err = io.StringIO()
    with redirect_stderr(err):
        code = cli.run(["arrange", str(written(tmp_path, LOOSE))])
    assert (code, err.getvalue()) == (130, "interrupted\n")


def test_help_and_version():
    help_text = takeup("--help")
    assert help_text.returncode == 0
    assert all(command in help_text.stdout for command in ("new", "validate", "study"))
    assert takeup("--version").stdout.strip() == __version__


def test_two_runs_write_the_same_results(tmp_path: Path):
    path = written(tmp_path, NOT_PROVED)
    for out in ("a", "b"):
        takeup("study", path, "--out", tmp_path / out)
    for name in ("results.json", "calculation.pdf"):
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()
