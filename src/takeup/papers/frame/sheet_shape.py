"""The shape of a sheet: names on tabs, widths of columns, what heads a printed page. (papers/frame/sheet_shape.py)

Limits of the format: a name on a tab has 31 letters and no bracket, colon, star, question mark or stroke; the head of a
printed page has 255 letters.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from takeup.papers.frame.grid import Field, Grid, column_values

_NAME = 31
_RUNNING = 70  # letters of each of the texts at the head of a page
_NARROW, _WIDE = 8.0, 48.0  # letters
_PAD = 2.0
_FORBIDDEN = re.compile(r"[\[\]:*?/\\\x00-\x1f]")
_RESERVED = "history"  # a name that the format keeps for itself


def fit_names(names: Sequence[str]) -> list[str]:
    """Return names that sheets may have, all different."""
    found: list[str] = []
    for name in names:
        bare = _FORBIDDEN.sub(" ", name)[:_NAME].strip(" '") or "-"
        taken = {_RESERVED, *(one.casefold() for one in found)}
        fit, number = bare, 1
        while fit.casefold() in taken:
            number += 1
            fit = f"{bare[: _NAME - len(str(number)) - 1]} {number}"
        found.append(fit)
    return found


def page_words(words: str) -> str:
    """Return a text for the head of a printed page: a mark of its own language is doubled, a long one is cut."""
    short = words if len(words) <= _RUNNING else words[: _RUNNING - 1] + "…"
    shown = " ".join(short.split()).replace("&", "&&")
    return f" {shown}" if shown[:1].isdigit() else shown  # a digit would join the size of the letters before it


def widths_of(grids: Sequence[Grid]) -> list[float]:
    """Return the width of every column in letters: of what it holds in the grids one under the other, within bounds."""
    widths: list[float] = []
    for grid in grids:
        own = [field.width or _width(field, grid, number) for number, field in enumerate(grid.fields)]
        longer = max(len(own), len(widths))
        padded = ([*row, *[0.0] * (longer - len(row))] for row in (own, widths))
        widths = [max(pair) for pair in zip(*padded, strict=True)]
    return widths


def _width(field: Field, grid: Grid, number: int) -> float:
    held = [
        len(value) if isinstance(value, str) else len(_shown(value, field)) for value in column_values(grid, number)
    ]
    words = [len(word) for word in (*field.head.split(), field.unit)]
    return min(_WIDE, max(_NARROW, _PAD + max([*held, *words], default=0)))


def _shown(value: float | None, field: Field) -> str:
    if value is None:
        return ""
    return f"{value:g}" if field.decimals is None else f"{value:.{field.decimals}f}"


__all__ = ["fit_names", "page_words", "widths_of"]
