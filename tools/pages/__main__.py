"""Write every generated page, or say which are out of date.     (pages/__main__.py)"""

from __future__ import annotations

import sys
from pathlib import Path

from tools.pages import ROOT
from tools.pages.advice import advice_page
from tools.pages.api import api_page
from tools.pages.bellows import bellows_page
from tools.pages.bellows_duty import bellows_duty_page
from tools.pages.checks import check_pages
from tools.pages.commands import commands_page
from tools.pages.coverage import coverage_page
from tools.pages.joint_duty import joint_duty_page
from tools.pages.kinds import kind_pages
from tools.pages.library import library_page
from tools.pages.price_file import price_file_page
from tools.pages.proposals import proposals_page
from tools.pages.readme import layout_picture, operating_picture, readme_page
from tools.pages.results import results_page
from tools.pages.scenes import scene_pages
from tools.pages.series import series_page
from tools.pages.series_table import series_table_page
from tools.pages.sources import sources_page
from tools.pages.tutorial import tutorial_pages

from takeup.bellows.schema import rating_schema


def every_page() -> dict[Path, str]:
    """Return the text of every generated page by its path from the top folder."""
    reference = Path("docs") / "reference"
    return {
        reference / "api.md": api_page(),
        reference / "bellows-duty.md": bellows_duty_page(),
        reference / "bellows-file.md": bellows_page(),
        reference / "commands.md": commands_page(),
        reference / "coverage.md": coverage_page(),
        reference / "demonstration-series.md": series_page(),
        reference / "joint-duty.md": joint_duty_page(),
        reference / "library.md": library_page(),
        reference / "material-advice.md": advice_page(),
        reference / "price-file.md": price_file_page(),
        reference / "proposals.md": proposals_page(),
        reference / "results.md": results_page(),
        reference / "series-table.md": series_table_page(),
        Path("src") / "takeup" / "bellows" / "rating.schema.json": rating_schema(),
        **check_pages(),
        **kind_pages(),
        Path("docs") / "references.md": sources_page(),
        Path("docs") / "pictures" / "ketterby-layout.svg": layout_picture(),
        Path("docs") / "pictures" / "ketterby-operating.svg": operating_picture(),
        **tutorial_pages(),
        **scene_pages(),
        Path("README.md"): readme_page(),
    }


def main(arguments: list[str]) -> int:
    """Write the pages.

    Args:
        arguments: `--check` to write nothing.

    Returns:
        1 if a page was to be written and was not current, else 0.
    """
    check, stale = "--check" in arguments, []
    for path, text in every_page().items():
        target = ROOT / path
        if not target.is_file() or target.read_text(encoding="utf-8") != text:
            stale.append(path)
            if not check:
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_text(text, encoding="utf-8")
    for path in stale:
        print(f"{path}: {'out of date' if check else 'written'}")
    return 1 if check and stale else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
