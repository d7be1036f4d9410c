"""What a drawing says of itself, and in which words and units it speaks.     (drawing/sheets/about.py)

This room knows no language: it asks for every text by its key, and for what the results say in English by `said`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from takeup.drawing.places import Place
from takeup.drawing.symbols import EXPLAINED
from takeup.edge import Units


class Words(Protocol):
    """The texts of one language."""

    def __call__(self, key: str, /, **fields: object) -> str:
        """Return a text by its key with its fields filled in."""
        ...

    def said(self, words: str) -> str:
        """Return what the results say in English in this language."""
        ...


@dataclass(frozen=True, kw_only=True, slots=True)
class About:
    """What the title block says, each a finished text, "" where it is not given.

    `demonstration` says which data are invented, "" where none is; `cautions` are sentences.
    """

    project: str
    number: str
    revision: str
    day: str
    tool: str
    sha256: str
    demonstration: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Scribe:
    """Words and units of a drawing; `units` bear the decimal mark of the language."""

    words: Words
    units: Units

    def text(self, key: str, /, **fields: object) -> str:
        """Return a text of the layout drawing."""
        return self.words(f"layout.{key}", **fields)

    def kind(self, kind: str) -> str:
        """Return the kind of a thing in the drawing's language."""
        return self.words.said(kind)

    def sign(self, kind: str) -> str:
        """Return what a sign stands for."""
        return self.words(f"signs.{kind}") if kind in EXPLAINED else self.kind(kind)

    def length(self, metres: float) -> str:
        """Return a length with its unit."""
        return self.units.length.text(metres, 2)

    def station(self, metres: float) -> str:
        """Return "station 46.50 m"."""
        return self.text("station_at", station=self.length(metres))

    def chainage(self, metres: float) -> str:
        """Return a station or a spacing as one decimal number without its unit."""
        return self.units.span.figures(metres, 2)

    def small(self, millimetres: float, decimals: int = 1) -> str:
        """Return a movement or a radius with its unit."""
        return self.units.small.text(millimetres, decimals)

    def name(self, place: Place) -> str:
        """Return what a place is called; one whose name is its kind and its station is called by its kind."""
        return self.kind(place.kind) if is_named_by_kind(place) else place.name


def is_named_by_kind(place: Place) -> bool:
    """Whether the name of a place says no more than its kind and where it is."""
    return place.sort == "guide" and place.name.startswith(f"{place.kind} at ")
