"""The examples as they stand, each walked once for all tests of a process.     (tests/example_studies.py)"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from tests.shared import once

from takeup.choose import resolve
from takeup.line.reading.reader import read_study
from takeup.results.build import results_of_walk
from takeup.results.plain import Json
from takeup.study import LineAnswer, Walked, walk_study

EXAMPLES = Path(__file__).parents[1] / "examples"


@cache
def walked(name: str) -> Walked:
    """Return an example walked in every scenario; its name with its folder in `examples`, without `.yaml`."""
    found = walk_study(resolve(read_study(EXAMPLES / f"{name}.yaml")))
    assert isinstance(found, Walked), found.because
    assert found.base.verified.all(), found.base.because
    return found


@cache
def results(name: str) -> dict[str, Json]:
    """Return the results document of an example; one for all, so that nobody changes it."""
    return once(name.replace("/", "-"), lambda: results_of_walk(walked(name)))


def only_line(name: str) -> LineAnswer:
    """Return the answer without friction of an example's one line."""
    (line,) = walked(name).base.lines
    return line
