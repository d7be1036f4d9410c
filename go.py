#!/usr/bin/env python3
"""Prepares .venv from the hashed locks, then runs a command in it.     (go.py)

    python3 go.py study FILE        and every other command of takeup
    python3 go.py test [ARGUMENTS]  lint, types, rooms, licences, documentation and tests; ARGUMENTS go to pytest

Only the standard library is used, and only the locks are installed. Messages of its own go to standard error; the exit
code is the command's own. Stamps in .venv, written last, say from which locks, with which Python and where it was made:
without the right stamp the folder is made anew, so an interrupted installation is never trusted.
"""

from __future__ import annotations

import hashlib
import importlib.util
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
LOWEST_PYTHON = (3, 11)
BAD_MACHINE = 2
INSTALLATION_FAILED = 3
INTERRUPTED = 130

USER_LOCK = "requirements.lock"
DEV_LOCK = "requirements-dev.lock"
GATES = (
    ("lint", "ruff check ."),
    ("format", "ruff format --check ."),
    ("types", "mypy --strict src"),
    ("rooms", "lint-imports"),
    ("licences", "python tools/licences.py"),
    ("documentation", "sphinx-build --quiet -W --keep-going -b html docs docs/_build/html"),
    ("tests", "pytest -n 2 --dist worksteal"),  # last, so that its closing line ends the output
)


class InstallationError(Exception):
    """The environment could not be made; the message says what to look at."""


def say(message: str) -> None:
    """Print a message of our own, apart from the command's results."""
    print(message, file=sys.stderr, flush=True)  # noqa: T201 -- there is nothing but print before .venv exists


def program(folder: Path, name: str) -> str:
    """Return the path of a program inside a virtual environment."""
    return str(folder / "Scripts" / f"{name}.exe") if os.name == "nt" else str(folder / "bin" / name)


def fault_of_machine() -> str | None:
    """Return what this machine lacks: the one line to type, where one is enough."""
    if sys.version_info < LOWEST_PYTHON:
        found = ".".join(str(part) for part in sys.version_info[:3])
        return f"Python 3.11 or later is needed; {sys.executable} is {found}"
    if importlib.util.find_spec("ensurepip") is None:
        return "sudo apt-get install -y python3-venv"
    return None


def stamp(root: Path, *locks: str) -> str:
    """Return a hash of the locks, the Python version and the place: what an environment made now is true to."""
    parts = [sys.version.encode(), str(root).encode(), *((root / lock).read_bytes() for lock in locks)]
    return hashlib.sha256(b"\0".join(parts)).hexdigest()


def is_stamped(path: Path, expected: str) -> bool:
    """Return whether the stamp is there and says what is expected."""
    return path.is_file() and path.read_text(encoding="ascii") == expected


def prepare(root: Path, *, with_tools: bool) -> Path:
    """Return the root's virtual environment, made or completed where its stamps do not fit.

    Args:
        root: the repository.
        with_tools: whether the development lock is wanted too; a user never needs it.

    Returns:
        The folder of the environment.
    """
    folder = root / ".venv"
    user_stamp, user = folder / "takeup-user", stamp(root, USER_LOCK)
    dev_stamp, dev = folder / "takeup-dev", stamp(root, USER_LOCK, DEV_LOCK) if with_tools else ""
    if not is_stamped(user_stamp, user) or (with_tools and dev_stamp.exists() and not is_stamped(dev_stamp, dev)):
        say("Making .venv from requirements.lock: once, about a minute ...")
        make(folder, root / "src")
        install(folder, root / USER_LOCK)
        user_stamp.write_text(user, encoding="ascii")
    if with_tools and not is_stamped(dev_stamp, dev):
        say("Adding the tools of requirements-dev.lock: once, about a minute ...")
        user_stamp.unlink()  # until the tools are whole, nothing in here is trusted
        install(folder, root / DEV_LOCK)
        dev_stamp.write_text(dev, encoding="ascii")
        user_stamp.write_text(user, encoding="ascii")
    return folder


def make(folder: Path, source: Path) -> None:
    """Make an empty environment that sees the source folder."""
    import sysconfig
    import venv

    venv.create(folder, clear=True, with_pip=True)
    packages = sysconfig.get_path("purelib", "venv", vars={"base": str(folder)})
    (Path(packages) / "takeup.pth").write_text(f"{source}\n", encoding="utf-8")


def install(folder: Path, lock: Path) -> None:
    """Install what a lock names, wheels with the right hash only; where from is the machine's own pip setting."""
    pip = [program(folder, "python"), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    code = run([*pip, "--require-hashes", "--only-binary", ":all:", "-r", str(lock)], output=sys.stderr)
    if code:
        message = f"{lock.name} could not be installed; pip says why above. Mend that and type the same command again."
        raise InstallationError(message)


def run(command: list[str], *, folder: Path | None = None, output: object = None) -> int:
    """Run a command to its end and return its exit code, 128 and the number where a signal ended it."""
    with subprocess.Popen(command, cwd=folder, stdout=output) as child:
        try:
            code = child.wait()
        except KeyboardInterrupt:
            child.wait()  # the terminal has told the command too: let it end in its own way
            raise
    return code if code >= 0 else 128 - code


def hand_over(command: list[str]) -> int:
    """Become the command where the system can, so that signals and the exit code are its own."""
    if os.name == "posix":
        os.execv(command[0], command)  # noqa: S606 -- no shell is wanted
    return run(command)


def test(folder: Path, arguments: list[str]) -> int:
    """Run every gate, then say which failed."""
    failed = []
    for name, line in GATES:
        words = line.split()
        say(f"--- {name}: {line}")
        extra = arguments if words[0] == "pytest" else []
        if run([program(folder, words[0]), *words[1:], *extra], folder=ROOT):
            failed.append(name)
    say(f"--- failed: {', '.join(failed)}" if failed else f"--- all {len(GATES)} gates passed")
    return 1 if failed else 0


def main(words: list[str]) -> int:
    """Prepare what the command needs, then run it."""
    fault = fault_of_machine()
    if fault is not None:
        say(fault)
        return BAD_MACHINE
    is_test = words[:1] == ["test"]
    try:
        folder = prepare(ROOT, with_tools=is_test)
        if is_test:
            return test(folder, words[1:])
        # -P: a file in the working folder must not stand in for a library of the same name
        return hand_over([program(folder, "python"), "-P", "-m", "takeup", *words])
    except (InstallationError, OSError) as error:
        say(str(error))
        return INSTALLATION_FAILED
    except subprocess.CalledProcessError as error:
        say(f"{error}\n{(error.output or b'').decode(errors='replace')}")
        return INSTALLATION_FAILED
    except KeyboardInterrupt:
        say("interrupted")
        return INTERRUPTED


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
