"""The README's generated parts: the summary of the demonstration, the layout, the coverage.     (pages/readme.py)"""

from __future__ import annotations

import functools
import re

from tools.pages import ROOT
from tools.pages.coverage import coverage_block

from takeup.choose import resolve
from takeup.drawing import layout_sheet, to_svg
from takeup.line.reading.reader import read_study
from takeup.papers import summary_lines
from takeup.papers.frame import head_of
from takeup.papers.pictures.sheet import picture_svg
from takeup.papers.pictures.view import view_of
from takeup.results import results_of

DEMONSTRATION = ROOT / "examples" / "ketterby-steam-main.yaml"


@functools.cache
def _results():  # noqa: ANN202 -- the results document, whose type is a private alias of its room
    return results_of(resolve(read_study(DEMONSTRATION)))


def layout_picture() -> str:
    """Return the layout drawing of the demonstration."""
    return to_svg(layout_sheet(_results()))


def operating_picture() -> str:
    """Return the demonstration in operation, in three dimensions."""
    results = _results()
    return picture_svg(results, head_of(results), view_of(results), "operating")


def summary_excerpt() -> list[str]:
    """Return the summary on a terminal as far as the checks."""
    lines = summary_lines(_results())
    return lines[: next(k for k, line in enumerate(lines) if line.startswith("Checks"))][:-1]


def readme_page() -> str:
    """Return the README with what stands between its markers made anew."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    text = _between(text, "summary", ["```text", *summary_excerpt(), "```"])
    return _between(text, "coverage", coverage_block("###"))


def _between(text: str, name: str, lines: list[str]) -> str:
    """Return the text with the part between two markers replaced."""
    begin, end = f"<!-- {name}: written by tools/pages -->", f"<!-- end of {name} -->"
    pattern = re.compile(f"{re.escape(begin)}.*?{re.escape(end)}", re.DOTALL)
    assert len(pattern.findall(text)) == 1, f"the README has no markers for its {name}"
    block = "\n".join([begin, "", *lines, "", end])
    return pattern.sub(lambda _: block, text)
