"""Where dimensions go: on the nearest line that is free, away from the rest first.     (drawing/dimensioning.py)"""

from __future__ import annotations

import math
from collections.abc import Sequence

from takeup.drawing.dimension import expanded, shifts, words_box
from takeup.drawing.labels import TYPE, Box, Stroked, Taken, crosses
from takeup.drawing.sheet import Dimension, Point

OFFSETS = (9.0, 14.0, 19.0, 25.0, 32.0)
_Ends = tuple[Point, Point]


def placed_dimension(ends: _Ends, words: str, centre: Point, taken: Taken, *, size: float = TYPE) -> Dimension | None:
    """Return the nearest free dimension between two places, on the side away from the rest of the line first.

    Args:
        ends: The two places on the sheet [mm].
        words: The true length.
        centre: Of the rest of the line [mm].
        taken: What is on the sheet already; the dimension is added to it.
        size: Of the type [mm].
    """
    found = placed_chain([(ends, words)], centre, taken, size=size)
    return found[0] if found else None


def placed_chain(
    parts: Sequence[tuple[_Ends, str]], centre: Point, taken: Taken, *, size: float = TYPE
) -> tuple[Dimension, ...]:
    """Return dimensions that follow one another on one line, the nearest line that is free for all; none where none is.

    Args:
        parts: The ends [mm] and the words of each, all on one straight.
        centre: Of the rest of the line [mm].
        taken: What is on the sheet already; the dimensions are added to it.
        size: Of the type [mm].
    """
    (start, _), (_, end) = parts[0][0], parts[-1][0]
    towards = (end[0] - start[0]) * (centre[1] - start[1]) - (end[1] - start[1]) * (centre[0] - start[0])
    outer = -1.0 if towards > 0.0 else 1.0
    for side in (outer, -outer):
        for offset in OFFSETS:
            found = _on_line(parts, side * offset, taken, size)
            if found is None:
                continue
            dimensions, boxes, strokes = found
            taken.words += boxes
            taken.strokes += strokes
            return tuple(dimensions)
    return ()


def _on_line(
    parts: Sequence[tuple[_Ends, str]], offset: float, taken: Taken, size: float
) -> tuple[list[Dimension], list[Box], list[Stroked]] | None:
    """Return dimensions on one line with their boxes and strokes; None where one of them has no room there."""
    tried = taken.copy()
    dimensions: list[Dimension] = []
    boxes: list[Box] = []
    strokes: list[Stroked] = []
    for (start, end), words in parts:
        for shift in shifts(words, size, math.dist(start, end)):
            dimension = Dimension(start=start, end=end, offset=offset, words=words, size=size, shift=shift)
            box, drawn = _free(dimension, tried)
            if box is not None:
                break
        else:
            return None
        dimensions.append(dimension)
        boxes.append(box)
        strokes += drawn
        tried.words.append(box)
    return dimensions, boxes, strokes


def _free(dimension: Dimension, taken: Taken) -> tuple[Box | None, list[Stroked]]:
    """Return the box of a dimension's words and its strokes; no box where something is in their way."""
    strokes, text = expanded(dimension)
    box = words_box(text)
    drawn = [(stroke.points[0], stroke.points[1]) for stroke in strokes]
    clear = not any(crosses(stroke, words) for stroke in drawn for words in taken.words)
    shown = taken.is_untouched(*drawn[0]) and taken.is_off_strokes(*drawn[0])
    return (box if clear and shown and taken.is_free(box) else None), drawn
