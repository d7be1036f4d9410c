"""What the desk reads from the disk and writes to it: whole, or not at all.     (desk/opened/disk.py)"""

from __future__ import annotations

import os
import re
import stat
from collections import Counter
from pathlib import Path

LARGEST_TEXT = 2_000_000
_OWN = 0o600  # what is kept beside a file is as private as the most private file
_LINE_END = re.compile(rb"\r\n|\n|\r")


class NotAFile(OSError):
    """What stands at a path is no plain file of a text's size."""


def content_of(path: Path) -> bytes:
    """Return what a file holds.

    Args:
        path: with every link resolved: what is a link later was put there by something else, and is not followed.

    Raises:
        NotAFile: it is a folder, a link, a pipe (which would never end), or larger than any line file.
        OSError: it cannot be read.
    """
    found = path.lstat()
    if not stat.S_ISREG(found.st_mode):
        raise NotAFile(0, "it is no plain file")
    if found.st_size > LARGEST_TEXT:
        raise NotAFile(0, f"the file has more than {LARGEST_TEXT} bytes")
    with path.open("rb") as stream:
        return stream.read(LARGEST_TEXT + 1)


def write_replacing(path: Path, content: bytes, mode: int = _OWN) -> None:
    """Put a content in the place of a file, whole or not at all, also when the power fails.

    Args:
        path: of the file.
        content: of it.
        mode: who may do what with it.

    Raises:
        OSError: it cannot be written; what stood there stands.
    """
    temporary = path.with_name(f".{path.name.removeprefix('.')}.part")
    try:
        temporary.unlink(missing_ok=True)  # of a desk that was ended in mid-write; were it a link, it is not followed
        with os.fdopen(os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, _OWN), "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        temporary.chmod(mode)
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def with_line_ends(text: str, before: bytes) -> bytes:
    """Return a text with the line ends of the content that it came from.

    Where those were of several kinds, lines before and after what was changed keep their own, new ones take the most
    frequent.

    Args:
        text: a line feed at the end of each line.
        before: the content.
    """
    ends = _LINE_END.findall(before)
    usual = Counter(ends).most_common(1)[0][0] if ends else b"\n"
    lines = text.encode().split(b"\n")
    if all(end == usual for end in ends):
        return usual.join(lines)
    old = _LINE_END.split(before)
    head = _alike(lines, old)
    tail = min(_alike(lines[::-1], old[::-1]), len(lines) - head, len(old) - head)
    own = [*ends[:head], *[usual] * len(lines)][: len(lines) - 1]
    for back in range(1, min(tail, len(own) + 1)):
        own[-back] = ends[-back]
    return b"".join(line + end for line, end in zip(lines, [*own, b""], strict=True))


def _alike(one: list[bytes], other: list[bytes]) -> int:
    """Return how many lines are the same from the beginning on."""
    count = 0
    for mine, theirs in zip(one, other, strict=False):
        if mine != theirs:
            break
        count += 1
    return count


__all__ = ["LARGEST_TEXT", "NotAFile", "content_of", "with_line_ends", "write_replacing"]
