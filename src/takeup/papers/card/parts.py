"""What the template of the card sets: tables with boxes to write in.     (papers/card/parts.py)"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from takeup.papers.common.glyphs import breakable
from takeup.papers.common.tables import Tree

_READ = 14  # letters that are set large; a longer name stands as other words do


@dataclass(frozen=True, kw_only=True, slots=True)
class Box:
    """A box to write in; `words` stand in its corner."""

    words: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Big:
    """A number that is read from a step away."""

    words: str


Cell = str | Big | Box


def card_table(
    caption: str,
    heads: Sequence[str],
    rows: Sequence[Sequence[Cell]],
    *,
    widths: Sequence[str],
    strong: int | None = None,
) -> Tree:
    """Return a table for the template.

    Args:
        caption: what it shows.
        heads: of its columns.
        rows: its cells.
        widths: of its columns, as the template reads them ("auto", "1fr", "24mm").
        strong: the number of a row that is marked, from nought.
    """
    assert all(len(row) == len(heads) == len(widths) for row in rows), "every row fills every column"
    return {
        "caption": caption,
        "heads": [breakable(head) for head in heads],
        "widths": list(widths),
        "rows": [
            {"cells": [_cell(cell) for cell in row], "strong": number == strong} for number, row in enumerate(rows)
        ],
    }


def _cell(cell: Cell) -> Tree:
    if isinstance(cell, Box):
        return {"kind": "box", "words": cell.words}
    if isinstance(cell, Big):
        return {"kind": "big" if len(cell.words) <= _READ else "words", "words": breakable(cell.words)}
    return {"kind": "words", "words": breakable(cell)}


__all__ = ["Big", "Box", "Cell", "card_table"]
