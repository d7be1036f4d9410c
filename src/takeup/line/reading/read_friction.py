"""Friction as a pair from the library or as a range typed in.     (line/reading/read_friction.py)"""

from __future__ import annotations

from takeup.library import Friction, Source, friction
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.schema_holds import FrictionItem
from takeup.reading.yaml_places import Path


def read_friction(book: FaultBook, pair: str | None, typed: FrictionItem | None, path: Path) -> Friction | None:
    """Return the friction of what rubs; one of `pair` and `typed` is there."""
    if pair is not None:
        return book.attempt((*path, "slides_on"), lambda: friction(pair))
    assert typed is not None, "one of the two keys is there"
    low, high = typed.low, typed.high
    if low > high:
        book.add((*path, "friction", "low"), f"the lowest coefficient, {low:g}, is above the highest, {high:g}")
    source = Source(words=typed.source, status="user's data")
    return Friction(words=f"{low:g} to {high:g}", low=low, high=high, source=source)


__all__ = ["read_friction"]
