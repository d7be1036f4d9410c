"""What the desk reads and writes beside the line file lies in its folder, and nowhere else.     (desk/work/within.py)

A text on the desk may come from whoever a shared desk let in, and a folder from somebody who put links into it.
"""

from __future__ import annotations

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


def is_within(path: Path, folder: Path) -> bool:
    """Return whether a path, every link followed, is in a folder or is to be made there."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):  # a name that no file can have; links in a ring
        return False


__all__ = ["Outside", "is_within", "prices_within"]
