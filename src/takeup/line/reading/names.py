"""The names of one line: places, holds and take-ups share them, and each says one thing.     (line/reading/names.py)"""

from __future__ import annotations

from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.positions import check_name
from takeup.reading.yaml_places import Path


class Names:
    """The names taken so far, and where."""

    def __init__(self, book: FaultBook) -> None:
        self._book = book
        self._taken: dict[str, Path] = {}

    def claim(self, name: str, path: Path) -> None:
        """Take a name, or note that it is taken already or cannot be one."""
        self._book.attempt(path, lambda: check_name(name))
        first = self._taken.setdefault(name, path)
        if first != path:
            line = self._book.line_of(first)
            self._book.add(path, f"the name '{name}' is taken already, at line {line}; each name stands for one thing")
