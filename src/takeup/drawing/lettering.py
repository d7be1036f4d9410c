"""How wide words are, and words that fit.     (drawing/lettering.py)

Widths are those of the shipped typeface in steps (narrow, round, capital, wide letters), never smaller than the true
ones by more than a few per cent; a reader without that typeface sees a similar one. Letters unknown here count as wide.
"""

from __future__ import annotations

from functools import lru_cache

from takeup.drawing.sheet import Text

_STEPS = (
    (0.29, " \N{NO-BREAK SPACE}!',.:;Iijl|·"),
    (0.41, '"()[]/\\frt{}°'),
    (0.58, "*-^_`?1ckszvxyaeFEL7J"),
    (0.64, "#$&23456890bdghnopquBPRSTXZ+=<>~–−"),
    (0.76, "ACDGHKNOQUVY"),
)
_WIDTH = {letter: width for width, letters in _STEPS for letter in letters}
_WIDE = 1.0
_BOLD = 1.05
UPWARDS = -90.0  # the rotation of words that are read upwards
CAPITALS = 0.73  # height of capitals over the size of the type


def width_of(words: str, size: float, *, bold: bool = False) -> float:
    """Return how wide words are on paper [mm], for a type of some size [mm]."""
    return size * (_BOLD if bold else 1.0) * _width(words)


@lru_cache(maxsize=1 << 14)  # words of a sheet are measured over and over while places for them are tried
def _width(words: str) -> float:
    return sum(_WIDTH.get(letter, _WIDE) for letter in words)


def shortened(words: str, size: float, room: float) -> str:
    """Return words that fit into a room [mm]; what is cut off is marked with an ellipsis."""
    if width_of(words, size) <= room:
        return words
    kept = words
    while kept and width_of(kept + "…", size) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def folded(words: str, size: float, room: float, most: int = 3) -> tuple[str, ...]:
    """Return words on at most so many lines, each within a room [mm]; the last is shortened."""
    lines: list[str] = []
    for word in words.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(joined, size) <= room:
            lines[-1] = joined
        else:
            lines.append(word)
    kept = [*lines[: most - 1], " ".join(lines[most - 1 :])] if len(lines) > most else lines
    return tuple(shortened(line, size, room) for line in kept)


def box_of(text: Text) -> tuple[float, float, float, float]:
    """Return the box that level or upright words fill on the sheet: left, top, right, bottom [mm]."""
    width = width_of(text.words, text.size, bold=text.bold)
    before = {"start": 0.0, "middle": width / 2.0, "end": width}[text.anchor]
    x, y = text.at
    if text.rotation == 0.0:
        return x - before, y - CAPITALS * text.size, x - before + width, y + 0.22 * text.size
    assert text.rotation == UPWARDS, "words on the sheet are level or read upwards"
    return x - CAPITALS * text.size, y + before - width, x + 0.22 * text.size, y + before
