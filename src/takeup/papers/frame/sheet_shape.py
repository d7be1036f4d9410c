"""The shape of a sheet: names on tabs, widths, heights, what heads a printed page.     (papers/frame/sheet_shape.py)

Limits of the format: a name on a tab has 31 letters and no bracket, colon, star, question mark or stroke; the head of a
printed page has 255 letters; a row is at most 409 pt high. Heights are written since not every office program finds
them by itself: without them the second line of a cell is hidden under the next row.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import lru_cache

from takeup.drawing.lettering import width_of
from takeup.papers.frame.grid import Field, Grid, column_values

_NAME = 31
_RUNNING = 70  # letters of each of the texts at the head of a page
_NARROW, _WIDE = 8.0, 48.0  # letters
_PAD = 2.0
_FORBIDDEN = re.compile(r"[\[\]:*?/\\\x00-\x1f]")
_RESERVED = "history"  # a name that the format keeps for itself
SIZE = 10.0
"""Of the type in cells [pt]."""
_DIGIT = 5.25  # width of a digit in that size, in which columns are measured [pt]
_FACE = 0.92  # how wide the words of an office's typeface are over those of ours, by the widths of both for capitals
_LINE, _HIGHEST = 13.0, 409.0  # heights of a line and of the highest row [pt]
_READABLE = 220.0  # digits side by side on A4 across, in type of 6.5 pt


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
        if grid.across > 1:
            continue
        own = [field.width or _width(field, grid, number) for number, field in enumerate(grid.fields)]
        longer = max(len(own), len(widths))
        padded = ([*row, *[0.0] * (longer - len(row))] for row in (own, widths))
        widths = [max(pair) for pair in zip(*padded, strict=True)]
    return widths


def pages_across(widths: Sequence[float]) -> int:
    """Return how many pages side by side a sheet is printed on, so that it can be read there."""
    return max(1, math.ceil(sum(widths) / _READABLE))


def height_of(lines: int) -> float:
    """Return the height of a row of so many lines [pt]."""
    return min(_HIGHEST, _LINE * lines + 2.0)


@lru_cache(maxsize=1 << 14)  # names and states stand in row after row
def lines_in(words: str, width: float, *, bold: bool = False) -> int:
    """Return on how many lines a text stands in a column, rather one more than one too few.

    Args:
        words: the text; a new line in it is one.
        width: of the column [digits].
        bold: whether it is set bold.
    """
    room = _DIGIT * (width - 0.5) / _FACE
    return sum(_lines(part, room, bold=bold) for part in words.split("\n"))


def _lines(words: str, room: float, *, bold: bool) -> int:
    if len(words) * SIZE <= room or width_of(words, SIZE, bold=bold) <= room:
        return 1
    lines, used, space = 1, 0.0, width_of(" ", SIZE)
    for word in words.split():
        wide = width_of(word, SIZE, bold=bold)
        if used and used + space + wide > room:
            lines, used = lines + 1, wide
        else:
            used += wide + (space if used else 0.0)
        more = math.ceil(used / room) - 1  # a word that is wider than its column is broken
        lines, used = lines + more, used - more * room
    return lines


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


__all__ = ["SIZE", "fit_names", "height_of", "lines_in", "page_words", "pages_across", "widths_of"]
