"""How wide words are by the typeface itself, and what lies on what.     (tests/unit/drawing/sheets/measured.py)

Widths are the advances of the shipped files of the typeface, read with fontTools; a letter that they lack counts as
wide as it is high, as letters of the East are.
"""

from __future__ import annotations

import math
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path

from fontTools.ttLib import TTFont

from takeup.drawing.dimension import expanded, led
from takeup.drawing.labels import crosses
from takeup.drawing.sheet import Dimension, Ordinate, Polyline, Sheet, Sign, Text
from takeup.papers.common import glyphs

UP, DOWN = 0.73, 0.22  # of a type: height of capitals, depth of descenders
HAIR = 0.02  # boxes that share so little are drawn touching, as words on one line may be [mm]


@cache
def _font(*, bold: bool) -> tuple[dict[int, str], dict[str, tuple[int, int]], int]:
    name = "Inter-SemiBold.otf" if bold else "Inter-Regular.otf"
    font = TTFont(Path(glyphs.FONTS) / name)
    return font.getBestCmap(), font["hmtx"].metrics, font["head"].unitsPerEm


def true_width(words: str, size: float, *, bold: bool) -> float:
    """How wide words are in the typeface [mm]."""
    letters, widths, whole = _font(bold=bold)
    advance = sum(widths[letters[ord(letter)]][0] if ord(letter) in letters else whole for letter in words)
    return advance / whole * size


def corners(text: Text) -> list[tuple[float, float]]:
    """The corners of the box that words fill, turned as they are."""
    width = true_width(text.words, text.size, bold=text.bold)
    before = {"start": 0.0, "middle": width / 2.0, "end": width}[text.anchor]
    turned = math.radians(text.rotation)
    cosine, sine = math.cos(turned), math.sin(turned)
    return [
        (text.at[0] + x * cosine - y * sine, text.at[1] + x * sine + y * cosine)
        for x in (-before, width - before)
        for y in (-UP * text.size, DOWN * text.size)
    ]


def box(text: Text) -> tuple[float, float, float, float]:
    """The level box round words."""
    xs, ys = zip(*corners(text), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def parts_of(view) -> list[Text | Polyline]:
    """All words and strokes of a view, things taken apart; strokes of signs as the box round each."""
    found: list[Text | Polyline] = []
    for item in view.items:
        if isinstance(item, Dimension):
            strokes, words = expanded(item)
            found += [*strokes, words]
        elif isinstance(item, Ordinate):
            found += led(item)
        elif isinstance(item, Sign):
            found += [part for part in item.items if isinstance(part, Polyline)]
        elif isinstance(item, Text | Polyline):
            found.append(item)
    return found


def words_of(sheet: Sheet) -> list[Text]:
    """All words of a sheet."""
    return [part for view in sheet.views for part in parts_of(view) if isinstance(part, Text) and part.words]


def overlapping(sheet: Sheet) -> list[tuple[str, str]]:
    """Words that lie on words."""
    boxes = [(box(text), text.words) for text in words_of(sheet)]
    return [
        (one[1], other[1])
        for one, other in combinations(boxes, 2)
        if one[0][0] + HAIR < other[0][2]
        and other[0][0] + HAIR < one[0][2]
        and one[0][1] + HAIR < other[0][3]
        and other[0][1] + HAIR < one[0][3]
    ]


def struck(sheet: Sheet, least: float) -> list[str]:
    """Words through which a stroke of a pen at least so wide goes, or the edge of a sign."""
    found = []
    texts = [(box(text), text.words) for text in words_of(sheet)]
    for view in sheet.views:
        for part in parts_of(view):
            if not isinstance(part, Polyline) or part.stroke is None or part.stroke.width < least:
                continue
            ends = [*part.points, part.points[0]] if part.closed else part.points
            for start, end in pairwise(ends):
                found += [words for inner, words in texts if crosses((start, end), shrunk(inner))]
    return found


def shrunk(inner: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    """A box without its hair's breadth."""
    return inner[0] + HAIR, inner[1] + HAIR, inner[2] - HAIR, inner[3] - HAIR


__all__ = ["box", "overlapping", "struck", "true_width", "words_of"]
