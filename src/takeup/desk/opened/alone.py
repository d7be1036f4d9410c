"""One desk for a file: a second one is told that the first is there.     (desk/opened/alone.py)

Two desks would write one journal, and the end of one would take away what the other keeps. The lock is the operating
system's: it ends with the process that holds it, however that ends.
"""

from __future__ import annotations

import contextlib
import os
import sys
from pathlib import Path

from takeup.errors import TakeupError

if sys.platform == "win32":
    import msvcrt

    def _lock(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
else:
    import fcntl

    def _lock(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


class OpenElsewhere(TakeupError):
    """Another desk has the file open."""


class Alone:
    """Says that a file is on this desk and no other.

    Where nothing can be written beside the file, nothing is kept there either, and nothing is locked.

    Args:
        file: the line file.

    Raises:
        OpenElsewhere: another desk has it open.
    """

    def __init__(self, file: Path) -> None:
        file = file.resolve()
        self._path = file.with_name(f".{file.name}.desk-open")
        self._handle: int | None = None
        try:
            self._handle = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
        except OSError:
            return
        try:
            _lock(self._handle)
        except OSError as error:
            self._let_go()
            raise OpenElsewhere(
                f"{file.name} is open on another desk: open that one's address in a second window, or end it first"
            ) from error

    def end(self) -> None:
        """Let another desk have the file."""
        if self._handle is not None:
            with contextlib.suppress(OSError):  # another system lets no open file be taken away: an empty one stays
                self._path.unlink()
            self._let_go()

    def _let_go(self) -> None:
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None


__all__ = ["Alone", "OpenElsewhere"]
