"""What a specification is made of, before it is written: headings, sentences, tables, boxes.

(papers/specification/blocks.py)

Every text here is finished. A `Blank` is a box that somebody else fills in; it says who.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal


@dataclass(frozen=True, kw_only=True, slots=True)
class Blank:
    """A box to be filled in by hand or on the screen; `words` say by whom, "" where the column says it."""

    words: str = ""


Cell = str | Blank


@dataclass(frozen=True, kw_only=True, slots=True)
class Heading:
    """A numbered heading, level 1 or 2."""

    level: Literal[1, 2]
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Paragraph:
    """A sentence or several; `loud` ones stand in a frame."""

    words: str
    loud: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Bullets:
    """Sentences one under the other."""

    items: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """A table: heads, a share of the width for each column, which columns hold numbers, and rows.

    A list of facts has no heads. `caption` stands above it and says what it shows, also to those who cannot see it.
    """

    heads: tuple[str, ...]
    shares: tuple[float, ...]
    numbers: frozenset[int]
    rows: tuple[tuple[Cell, ...], ...]
    caption: str

    def __post_init__(self) -> None:
        assert len(self.heads) in {0, len(self.shares)}, "every column has a head, or none has"
        assert all(len(row) == len(self.shares) for row in self.rows), "every row fills every column"


Block = Heading | Paragraph | Bullets | Grid


@dataclass(frozen=True, kw_only=True, slots=True)
class Text:
    """A whole specification: its title, the facts of its title block, the names of its fields, and its blocks."""

    title: str
    facts: tuple[tuple[str, str], ...]
    running: str
    contents: str
    blocks: tuple[Block, ...] = field(default_factory=tuple)


def grid(
    heads: Sequence[str],
    rows: Sequence[Sequence[Cell]],
    caption: str,
    *,
    shares: Sequence[float] = (),
    numbers: Sequence[int] = (),
) -> Grid:
    """Return a table.

    Args:
        heads: of its columns.
        rows: its cells.
        caption: what it shows.
        shares: of the width, column by column; all alike where none are given.
        numbers: of the columns that hold numbers, from nought.
    """
    return Grid(
        heads=tuple(heads),
        shares=tuple(shares) or (1.0,) * len(heads),
        numbers=frozenset(numbers),
        rows=tuple(map(tuple, rows)),
        caption=caption,
    )


__all__ = ["Blank", "Block", "Bullets", "Cell", "Grid", "Heading", "Paragraph", "Text", "grid"]
