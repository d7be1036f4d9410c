"""What was changed and not yet saved, kept beside the file so that nothing is ever lost.     (desk/opened/journal.py)

A line of JSON for every change, written to the disk before the change is answered. The first line says which content
of the file the changes began from. An interrupted last line is left out; one that could not be written in full is
taken out again, so that nothing is ever written behind half a line.
"""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from pathlib import Path

from takeup.desk.opened.disk import write_replacing

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
        held: SHA-256 of its text, line ends and byte-order mark left out: a version like it is saved.
        versions: in order, the first as the file was.
        at: number of the version that was looked at last.
    """

    base: str
    held: str
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
        base, held, versions, at = "", "", list[Version](), -1
        for line in lines:
            try:
                entry = json.loads(line)
                if "base" in entry and entry["format"] == _FORMAT:
                    base, held = str(entry["base"]), str(entry["held"])
                elif "text" in entry:
                    version = Version(text=str(entry["text"]), words=str(entry["words"]))
                    versions = [*versions[: int(entry.get("after", at)) + 1], version]
                    at = len(versions) - 1
                else:
                    at = int(entry["at"])
            except (ValueError, KeyError, TypeError):
                break  # the line that was being written when the desk was ended
        if not base or not 0 <= at < len(versions):
            return None
        return Kept(base=base, held=held, versions=tuple(versions), at=at)

    def begin(self, kept: Kept) -> None:
        """Begin anew from a content of the file, with what can be undone and done again.

        Raises:
            OSError: it cannot be written; what was kept before is kept.
        """
        entries = [_line({"format": _FORMAT, "base": kept.base, "held": kept.held})]
        entries += [_line(_entry(version)) for version in kept.versions]
        write_replacing(self.path, "".join([*entries, _line({"at": kept.at})]).encode("ascii"))

    def add(self, version: Version, after: int) -> None:
        """Keep one more version, in one line: a desk that is ended in it has kept the one before.

        Args:
            version: what is kept.
            after: number of the version that it follows; those beyond are given up.

        Raises:
            OSError: it cannot be written; what was kept before is kept.
        """
        self._append({**_entry(version), "after": after})

    def turn(self, at: int) -> None:
        """Keep that another version is looked at."""
        self._append({"at": at})

    def remove(self) -> None:
        """Take the journal away: everything is saved."""
        self.path.unlink(missing_ok=True)

    def _append(self, entry: dict[str, object]) -> None:
        before = self.path.stat().st_size  # of a journal that something has taken away, nothing is begun in the middle
        with self.path.open("ab") as stream:
            try:
                stream.write(_line(entry).encode("ascii"))
                stream.flush()
                os.fsync(stream.fileno())
            except OSError:
                os.truncate(self.path, before)
                raise


def _entry(version: Version) -> dict[str, object]:
    return {"text": version.text, "words": version.words}


def _line(entry: dict[str, object]) -> str:
    return json.dumps(entry) + "\n"
