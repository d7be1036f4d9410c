"""What was changed and not yet saved, kept beside the file so that nothing is ever lost.     (desk/opened/journal.py)

A line of JSON for every change, written to the disk before the change is answered. The first line says which content
of the file the changes began from. An interrupted last line is left out.
"""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

_FORMAT = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Version:
    """A text, and in words what led to it from the one before."""

    text: str
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Kept:
    """What a journal holds.

    Args:
        base: SHA-256 of the file's content that the changes began from.
        versions: in order, the first as the file was.
        at: number of the version that was looked at last.
    """

    base: str
    versions: tuple[Version, ...]
    at: int


class Journal:
    """The journal of one file.

    Args:
        file: the line file.
    """

    def __init__(self, file: Path) -> None:
        self.path = file.with_name(f".{file.name}.desk")

    def read(self) -> Kept | None:
        """Return what an earlier desk kept; None where it kept nothing that can be read."""
        try:
            lines = self.path.read_text(encoding="ascii").split("\n")[:-1]
        except (OSError, UnicodeDecodeError):
            return None
        base, versions, at = "", list[Version](), -1
        for line in lines:
            try:
                entry = json.loads(line)
                if "base" in entry and entry["format"] == _FORMAT:
                    base = str(entry["base"])
                elif "text" in entry:
                    versions = [*versions[: at + 1], Version(text=str(entry["text"]), words=str(entry["words"]))]
                    at = len(versions) - 1
                else:
                    at = int(entry["at"])
            except (ValueError, KeyError, TypeError):
                break  # the line that was being written when the desk was ended
        return Kept(base=base, versions=tuple(versions), at=at) if base and 0 <= at < len(versions) else None

    def begin(self, base: str, versions: Sequence[Version], at: int) -> None:
        """Begin anew from a content of the file, with what can be undone and done again."""
        entries = [_line({"format": _FORMAT, "base": base}), *(_line(_entry(version)) for version in versions)]
        temporary = self.path.with_name(f"{self.path.name}.part")
        temporary.write_text("".join([*entries, _line({"at": at})]), encoding="ascii")
        temporary.replace(self.path)

    def add(self, version: Version) -> None:
        """Keep one more version; those that were undone before it are given up."""
        self._append(_entry(version))

    def turn(self, at: int) -> None:
        """Keep that another version is looked at."""
        self._append({"at": at})

    def remove(self) -> None:
        """Take the journal away: everything is saved."""
        self.path.unlink(missing_ok=True)

    def _append(self, entry: dict[str, object]) -> None:
        with self.path.open("a", encoding="ascii") as stream:
            stream.write(_line(entry))
            stream.flush()
            os.fsync(stream.fileno())


def _entry(version: Version) -> dict[str, object]:
    return {"text": version.text, "words": version.words}


def _line(entry: dict[str, object]) -> str:
    return json.dumps(entry) + "\n"
