"""Under TAKEUP_ALL=1 nothing may be skipped; otherwise a skip is one line.     (tests/unit/test_skips.py)"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

CONFTEST = Path(__file__).resolve().parents[1] / "conftest.py"
KINDS = {
    "marked": "import pytest\n@pytest.mark.skip(reason='no browser')\ndef test_it(): pass\n",
    "called": "import pytest\ndef test_it(): pytest.skip('no browser')\n",
    "fixture": (
        "import pytest\n@pytest.fixture\ndef browser(): pytest.skip('no browser')\ndef test_it(browser): pass\n"
    ),
    "module": "import pytest\npytest.importorskip('no_such_browser', reason='no browser')\ndef test_it(): pass\n",
}


def outcome(folder: Path, text: str, *, everything: bool) -> tuple[int, str]:
    """Run one test file beside our conftest.py and return the exit code and what was printed."""
    (folder / "conftest.py").write_text(CONFTEST.read_text())
    (folder / "test_it.py").write_text(text)
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("TAKEUP_", "PYTEST_"))}
    environment |= {"TAKEUP_ALL": "1"} if everything else {}
    command = [sys.executable, "-m", "pytest", "-rs", "-p", "no:cacheprovider", f"--rootdir={folder}", str(folder)]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout


@pytest.mark.parametrize("kind", KINDS)
def test_skip_fails_where_everything_must_run(tmp_path, kind):
    code, shown = outcome(tmp_path, KINDS[kind], everything=True)
    assert code != 0
    assert "skipped under TAKEUP_ALL=1" in shown
    assert "no browser" in shown


def test_skip_is_one_line_elsewhere(tmp_path):
    code, shown = outcome(tmp_path, KINDS["called"], everything=False)
    assert code == 0
    assert "SKIPPED [1] test_it.py:2: no browser" in shown


def test_expected_failure_is_no_skip(tmp_path):
    text = "import pytest\n@pytest.mark.xfail(reason='known', strict=True)\ndef test_it(): assert False\n"
    assert outcome(tmp_path, text, everything=True)[0] == 0
