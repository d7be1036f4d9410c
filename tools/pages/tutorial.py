"""The tutorials' commands, run; a page is kept only with what they really print.     (pages/tutorial.py)

In a block marked `console` each line that begins with `$ ` is run in an empty folder, and what it prints replaces what
stands under it; `cp` brings a demonstration there. A block marked `diff` changes the page's own line file: the lines
that begin with `-` must stand in it, and become those that begin with `+`, wherever they stand; `@@` parts two changes.
The page is a test of itself.
"""

from __future__ import annotations

import contextlib
import io
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tools.pages import ROOT

from takeup import cli

_NAMES = ("first-study.md", "several-lines.md", "one-bellows.md", "choosing-a-joint.md", "bare-route-to-proposal.md")
PAGES = tuple(Path("docs") / "tutorial" / name for name in _NAMES)
_BLOCK = re.compile(r"^```(console|diff)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
_COMMAND = re.compile(r"^\$ python3 go\.py (?P<words>[^|]*?)(?: 2>&1)?(?: \| head -n (?P<head>\d+))?$")
_COPY = re.compile(r"^\$ cp (?P<from>examples/[\w./-]+) (?P<to>[\w-]+\.yaml)$")


def tutorial_pages() -> dict[Path, str]:
    """Return the pages by their path from the top folder, every command run."""
    return {page: _page(page) for page in PAGES}


def _page(page: Path) -> str:
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        return _BLOCK.sub(_refreshed, (ROOT / page).read_text(encoding="utf-8"))


def _refreshed(block: re.Match[str]) -> str:
    kind, text = block.groups()
    if kind == "console":
        text = "".join(_run(text))
    else:
        _edit(text)
    return f"```{kind}\n{text}```"


def _run(text: str) -> Iterator[str]:
    """Yield each command of a block and what it prints."""
    code = 0
    for line in text.splitlines():
        if not line.startswith("$ "):
            continue
        yield f"{line}\n"
        if line == "$ echo $?":
            yield f"{code}\n"
            continue
        copied = _COPY.match(line)
        if copied is not None:
            shutil.copy(ROOT / copied["from"], copied["to"])
            continue
        command = _COMMAND.match(line)
        assert command is not None, f"the tutorial's command is not one that can be tested: {line}"
        stream = io.StringIO()
        with contextlib.redirect_stdout(stream), contextlib.redirect_stderr(stream):
            code = cli.run(command["words"].split())
        lines = stream.getvalue().splitlines()
        yield "".join(f"{shown}\n" for shown in (lines[: int(command["head"])] if command["head"] else lines))


def _edit(text: str) -> None:
    """Change the line file as a diff block says: the lines taken out, together, become those put in."""
    (path,) = Path().glob("*.yaml")
    for change in re.split(r"(?m)^(?=@@)", text):
        out = "".join(f"{line[1:]}\n" for line in change.splitlines() if line.startswith("-"))
        new = "".join(f"{line[1:]}\n" for line in change.splitlines() if line.startswith("+"))
        if not out:
            continue
        before = path.read_text(encoding="utf-8")
        assert out in before, f"the tutorial changes what is not in its file: {out}"
        path.write_text(before.replace(out, new), encoding="utf-8")
