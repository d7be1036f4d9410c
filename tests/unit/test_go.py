"""The script that prepares .venv: what it refuses, what it trusts, what it passes on.     (tests/unit/test_go.py)"""

from __future__ import annotations

import importlib.util
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import go
import pytest


@pytest.fixture
def repository(tmp_path, monkeypatch):
    """A repository with locks, in which making and installing is only written down."""
    (tmp_path / go.USER_LOCK).write_text("numpy==1\n")
    (tmp_path / go.DEV_LOCK).write_text("numpy==1\npytest==1\n")
    done: list[str] = []

    def make(folder: Path, source: Path) -> None:
        done.append(f"make with {source.name}")
        for old in folder.glob("*"):
            old.unlink()
        folder.mkdir(exist_ok=True)

    monkeypatch.setattr(go, "make", make)
    monkeypatch.setattr(go, "install", lambda _, lock: done.append(lock.name))
    return tmp_path, done


def test_missing_ensurepip_prints_the_one_line_to_type(monkeypatch, capsys):
    find_spec = importlib.util.find_spec
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None if name == "ensurepip" else find_spec(name))
    assert go.main(["study", "x.yaml"]) == go.BAD_MACHINE
    shown = capsys.readouterr()
    assert shown.err == "sudo apt-get install -y python3-venv\n"
    assert shown.out == ""


def test_old_python_is_named(monkeypatch):
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    assert "3.11 or later is needed" in go.fault_of_machine()
    assert "3.9.2" in go.fault_of_machine()


def test_user_never_needs_the_development_lock(repository):
    root, done = repository
    (root / go.DEV_LOCK).unlink()
    go.prepare(root, with_tools=False)
    assert done == ["make with src", go.USER_LOCK]


def test_second_run_installs_nothing(repository):
    root, done = repository
    go.prepare(root, with_tools=True)
    del done[:]
    go.prepare(root, with_tools=True)
    go.prepare(root, with_tools=False)
    assert done == []


def test_tools_are_added_to_a_users_environment(repository):
    root, done = repository
    go.prepare(root, with_tools=False)
    del done[:]
    go.prepare(root, with_tools=True)
    assert done == [go.DEV_LOCK]


@pytest.mark.parametrize(
    ("lock", "with_tools", "expected"),
    [
        (go.USER_LOCK, False, ["make with src", go.USER_LOCK]),
        (go.USER_LOCK, True, ["make with src", go.USER_LOCK, go.DEV_LOCK]),
        (go.DEV_LOCK, False, []),
        (go.DEV_LOCK, True, ["make with src", go.USER_LOCK, go.DEV_LOCK]),
    ],
)
def test_changed_lock_makes_the_environment_anew(repository, lock, with_tools, expected):
    root, done = repository
    go.prepare(root, with_tools=True)
    del done[:]
    (root / lock).write_text("numpy==2\n")
    go.prepare(root, with_tools=with_tools)
    assert done == expected


def test_stamp_changes_with_python_and_place(repository, monkeypatch, tmp_path):
    root, _ = repository
    before = go.stamp(root, go.USER_LOCK)
    monkeypatch.setattr(sys, "version", "another")
    assert go.stamp(root, go.USER_LOCK) != before
    monkeypatch.undo()
    moved = tmp_path / "moved"
    moved.mkdir()
    (moved / go.USER_LOCK).write_bytes((root / go.USER_LOCK).read_bytes())
    assert go.stamp(moved, go.USER_LOCK) != before


@pytest.mark.parametrize("interrupted_lock", [go.USER_LOCK, go.DEV_LOCK])
def test_interrupted_installation_is_made_anew(repository, monkeypatch, interrupted_lock):
    root, done = repository
    record = go.install

    def interrupt(folder: Path, lock: Path) -> None:
        record(folder, lock)
        if lock.name == interrupted_lock:
            raise KeyboardInterrupt

    monkeypatch.setattr(go, "install", interrupt)
    with pytest.raises(KeyboardInterrupt):
        go.prepare(root, with_tools=True)
    monkeypatch.setattr(go, "install", record)
    del done[:]
    go.prepare(root, with_tools=False)
    assert done == ["make with src", go.USER_LOCK]


def test_failed_installation_is_one_message(monkeypatch, capsys):
    def fail(root: Path, *, with_tools: bool) -> Path:
        raise go.InstallationError(f"{root.name} {with_tools}")

    monkeypatch.setattr(go, "prepare", fail)
    assert go.main(["study", "x.yaml"]) == go.INSTALLATION_FAILED
    assert capsys.readouterr().err == f"{go.ROOT.name} False\n"


@pytest.mark.parametrize("code", [0, 1, 2, 3, 130])
def test_exit_code_is_passed_on(code):
    assert go.run([sys.executable, "-c", f"raise SystemExit({code})"]) == code


@pytest.mark.skipif(os.name != "posix", reason="signals of this kind exist on POSIX systems only")
def test_ctrl_c_waits_for_the_command_and_gives_130(tmp_path):
    """The command gets the same signal as go.py from the terminal, saves what it has, and only then does go.py end."""
    saved = tmp_path / "saved"
    command = (
        "import pathlib, time\n"
        "try:\n    print('started', flush=True); time.sleep(60)\n"
        f"except KeyboardInterrupt:\n    time.sleep(0.5); pathlib.Path({str(saved)!r}).touch()"
    )
    outer = (
        f"import sys; sys.path.insert(0, {str(go.ROOT)!r}); import go\n"
        f"go.prepare = lambda *a, **k: None\n"
        f"go.test = lambda *a: go.run([sys.executable, '-c', {command!r}])\n"
        "sys.exit(go.main(['test']))"
    )
    child = subprocess.Popen(
        [sys.executable, "-c", outer], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, start_new_session=True
    )
    with child:
        assert child.stdout.readline() == b"started\n"
        time.sleep(0.1)
        os.killpg(child.pid, signal.SIGINT)
        assert child.wait(timeout=30) == go.INTERRUPTED
    assert saved.exists()


def test_all_gates_run_although_one_fails(monkeypatch, capsys):
    seen = []

    def run(command: list[str], *, folder: Path) -> int:
        seen.append((Path(command[0]).stem, folder))
        return 1 if "ruff" in command[0] else 0

    monkeypatch.setattr(go, "run", run)
    assert go.test(Path("environment"), []) == 1
    assert [name for name, _ in seen] == [line.split()[0] for _, line in go.GATES]
    assert capsys.readouterr().err.endswith("--- failed: lint, format\n")


def test_pytest_closes_the_output_and_takes_the_arguments(monkeypatch):
    commands: list[list[str]] = []
    monkeypatch.setattr(go, "run", lambda command, **_: commands.append(command) or 0)
    assert go.test(Path("environment"), ["-k", "bend"]) == 0
    assert Path(commands[-1][0]).stem == "pytest"
    assert [command[-2:] == ["-k", "bend"] for command in commands] == [False] * (len(go.GATES) - 1) + [True]
