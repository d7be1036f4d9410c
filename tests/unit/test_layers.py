"""The order of the rooms is really kept: an import that breaks it is caught.     (tests/unit/test_layers.py)

Each case adds one import to a copy of the package and asks the import linter, with the project's own contracts.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FORBIDDEN = "Hand calculations know nothing of the model they check"
LAYERS = "A room imports only from the rooms below it"


@pytest.fixture
def copy(tmp_path):
    """A copy of the package and its contracts."""
    shutil.copytree(ROOT / "src" / "takeup", tmp_path / "takeup", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def lint(folder: Path) -> tuple[int, str]:
    """Return the linter's exit code and what it printed, for the package in a folder."""
    call = "import sys; from importlinter.cli import lint_imports_command; sys.exit(lint_imports_command())"
    environment = os.environ | {"PYTHONPATH": str(folder), "NO_COLOR": "1", "COLUMNS": "200"}
    done = subprocess.run(
        [sys.executable, "-c", call, "--no-cache"],
        cwd=folder, env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    return done.returncode, done.stdout + done.stderr


def append(path: Path, text: str) -> None:
    """Add a line to a module of the copy."""
    path.write_text(path.read_text() + text)


def test_rooms_as_they_are_pass(copy):
    code, shown = lint(copy)
    assert code == 0, shown


@pytest.mark.parametrize(
    ("module", "line", "contract"),
    [
        ("hand/__init__.py", "import takeup.mechanics\n", FORBIDDEN),
        ("hand/__init__.py", "import takeup.study\n", FORBIDDEN),
        ("study/__init__.py", "import takeup.hand\n", LAYERS),
        ("mechanics/__init__.py", "import takeup.library\n", LAYERS),
        ("units.py", "import takeup.cli\n", LAYERS),
    ],
)
def test_import_upwards_is_caught(copy, module, line, contract):
    append(copy / "takeup" / module, line)
    code, shown = lint(copy)
    assert code == 1
    assert f"{contract} BROKEN" in shown


def test_hand_reaching_the_model_through_another_room_is_caught(copy):
    append(copy / "takeup" / "basis" / "__init__.py", "import takeup.mechanics\n")
    append(copy / "takeup" / "hand" / "__init__.py", "import takeup.basis\n")
    code, shown = lint(copy)
    assert code == 1
    assert f"{FORBIDDEN} BROKEN" in shown
    assert f"{LAYERS} KEPT" in shown


def test_room_that_no_contract_names_is_caught(copy):
    (copy / "takeup" / "attic.py").write_text("")
    assert lint(copy)[0] == 1
