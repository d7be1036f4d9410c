"""What the desk reads and writes beside the line file lies in its folder, and nowhere else.     (desk/work/within.py)

A text on the desk may come from whoever a shared desk let in, and a folder from somebody who put links into it.
"""

from __future__ import annotations

import re
from pathlib import Path

from takeup.choose.arrange.prices import Prices
from takeup.choose.costs import named_prices
from takeup.errors import TakeupError
from takeup.line import Study


class Outside(TakeupError):
    """A path that leads out of the folder of the line file."""


def prices_within(study: Study, folder: Path) -> Prices | None:
    """Return the prices that a line file names; None where it names none.

    Args:
        study: as read.
        folder: of the line file.

    Raises:
        Outside: the price file is not in the folder.
        InputError: it cannot be read, is none, or has faults.
    """
    if study.prices is not None and not is_within(folder / study.prices, folder):
        raise Outside(
            f"prices: '{study.prices}' leads out of the folder of the line file; the desk reads nothing there"
        )
    return named_prices(study, folder)


def words_within(words: str, folder: Path) -> str:
    """Return words with paths in a folder as they are from there: whoever is let in need not know where it lies.

    Args:
        words: said of a file in it.
        folder: of the line file, as those paths have it.
    """
    if folder == folder.parent:
        return words
    begun = r"(?<![\w.-])" + re.escape(str(folder))  # not the end of a longer path, nor a folder of a like name
    return re.sub(begun + r"(?![\w./\\-])", ".", re.sub(begun + r"[/\\]", "", words))


def is_within(path: Path, folder: Path) -> bool:
    """Return whether a path, every link followed, is in a folder or is to be made there."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):  # a name that no file can have; links in a ring
        return False


__all__ = ["Outside", "is_within", "prices_within", "words_within"]
