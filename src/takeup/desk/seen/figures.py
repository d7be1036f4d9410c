"""Numbers in the desk's tables.     (desk/seen/figures.py)"""

from __future__ import annotations

from takeup.desk.interface import Cell


def signed(value: float, decimals: int) -> str:
    """Return a number with its sign; what is nought to so many decimals has none."""
    words = f"{value:+.{decimals}f}"
    return words if float(words) != 0.0 else words[1:]


def unsigned_nought(value: float, decimals: int) -> str:
    """Return a number to so many decimals; nought has no sign."""
    return f"{round(value, decimals) + 0.0:.{decimals}f}"


def plain(text: str) -> Cell:
    """Return a cell without a use."""
    return Cell(text=text, use=None)


__all__ = ["plain", "signed", "unsigned_nought"]
