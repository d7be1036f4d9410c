"""The example that the page gives of what a line must say, read in a whole line file.     (tests/unit/desk)"""

from __future__ import annotations

import re
from pathlib import Path

from takeup.line.reading.reader import study_from_text

_ROOT = Path(__file__).parents[3]


def test_example_on_the_page_is_read_by_the_reader() -> None:
    """Put where the bare example says what may be proposed, it gives a place, room for a loop, and a series."""
    page = (_ROOT / "page" / "src" / "proposals" / "proposals.tsx").read_text(encoding="utf-8")
    found = re.search(r"EXAMPLE = `(.*?)`", page, re.DOTALL)
    assert found is not None
    path = _ROOT / "examples" / "bare" / "ketterby-steam-main.yaml"
    bare, last = path.read_text(encoding="utf-8"), "takeups_from: [ demonstration series ]"
    before, after = bare[: bare.index("    may_hold:")], bare[bare.index(last) + len(last) :]
    (line,) = study_from_text(before + found[1].replace("first corner", "roof corner") + after, str(path)).lines
    allowed = line.allowed
    assert (len(allowed.may_hold), len(allowed.loop_room), len(allowed.series)) == (1, 1, 1)
