"""The page of what is covered, and the same as a block for the README.     (pages/coverage.py)"""

from __future__ import annotations

from tools.pages import page, table

from takeup.results import COVERAGE

MEANING = {
    "covered": "computed or checked, with a test against a published or hand value",
    "from memory": "computed or checked by a rule that no document at hand confirms; compare with your own copy",
    "not covered": "not computed. Whoever relies on the result has to settle these another way",
}


def coverage_page() -> str:
    """Return the page."""
    return page(
        "# What is covered, and what is not",
        "",
        "Every study prints what is not covered. Where a mandatory check could not run or has no limit to be held",
        "against (a walk with friction that does not reach its end, a stretch that rises), the verdict is at best",
        '"not proved", whatever else passes. The subjects that are not covered show in no verdict: there the reader',
        "has to know.",
        "",
        *coverage_block("##"),
    )


def coverage_block(level: str) -> list[str]:
    """Return one table for each status.

    Args:
        level: of the headings: "##" or deeper.
    """
    lines: list[str] = []
    for status, words in MEANING.items():
        rows = [(item.subject, item.words) for item in COVERAGE if item.status == status]
        head = ("subject", "instead" if status == "not covered" else "how far")
        lines += [f"{level} {status.capitalize()}", "", f"{words[0].upper()}{words[1:]}.", "", *table(head, rows), ""]
    return lines[:-1]
