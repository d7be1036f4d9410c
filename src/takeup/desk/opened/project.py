"""The opened file: its text, every change of it, and the file on disk.     (desk/opened/project.py)

Nothing is overwritten unasked: before it saves, it looks whether the file still is what it last read or saved. Saving
is whole or not at all. Line ends and byte-order mark of the file stay; within the desk a line ends with a line feed.
Where changes cannot be kept beside the file (no room, no right) they stand all the same, this is said, and every later
change tries to keep them all again.
"""

from __future__ import annotations

import errno
import hashlib
import os
import stat
import threading
from codecs import BOM_UTF8
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from takeup.desk.opened.disk import LARGEST_TEXT, NotAFile, content_of, with_line_ends, write_replacing
from takeup.desk.opened.journal import Journal, Kept, Version
from takeup.errors import Fault, InputError, TakeupError

Outside = Literal["same", "changed", "gone"]
_OPENED, _FROM_DISK = "opened", "taking the file as it is on disk"


class SaveRefused(TakeupError):
    """The file on disk is not what was last read or saved."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Standing:
    """The text as it stands, and what can be done with it.

    Args:
        revision: grows with every change.
        text: with a line feed at the end of each line.
        saved: whether the file holds just this text.
        undo: what undoing would take back; "" where there is nothing.
        redo: what would be done again.
        outside: whether the file on disk still is what was last read or saved.
        recovered: what was taken over from an earlier desk, or why changes cannot be kept.
    """

    revision: int
    text: str
    saved: bool
    undo: str
    redo: str
    outside: Outside
    recovered: str


class Project:
    """A line file that is worked on.

    Args:
        path: of the file, which is there.

    Raises:
        InputError: the file cannot be read as text.
    """

    def __init__(self, path: Path) -> None:
        self.path = path.resolve()
        self._lock = threading.RLock()
        self._journal = Journal(self.path)
        self._unkept = ""
        self._content = self._read()
        self._mode = stat.S_IMODE(self.path.stat().st_mode)
        self._base = _digest(self._content)
        self._versions = [Version(text=self._text_of(self._content), words=_OPENED)]
        self._at, self._saved = 0, self._versions[0].text
        self._held = _digest_of(self._saved)
        self._revision = 1
        self._outside: Outside = "same"
        self._recovered = self._take_over()

    @property
    def standing(self) -> Standing:
        """The text as it stands."""
        with self._lock:
            after = self._versions[self._at + 1 :]
            return Standing(
                revision=self._revision,
                text=self._versions[self._at].text,
                saved=self._is_saved,
                undo=self._versions[self._at].words if self._at else "",
                redo=after[0].words if after else "",
                outside=self._outside,
                recovered=self._unkept or self._recovered,
            )

    def change(self, text: str, words: str, *, typed: bool = False) -> None:
        """Put another text in the place of the one that stands.

        Args:
            text: with any line ends.
            words: what the change did.
            typed: by a person in the text: a change with the same words joins the one before.

        Raises:
            InputError: it is longer than any line file.
        """
        text = text.replace("\r\n", "\n").replace("\r", "\n")
        if any("\ud800" <= letter <= "\udfff" for letter in text):
            raise InputError((_first(self.path, "the text holds half a character, which no file can"),))
        if len(text.encode()) > LARGEST_TEXT:
            raise InputError((_first(self.path, f"the text has more than {LARGEST_TEXT} bytes"),))
        with self._lock:
            if text == self._versions[self._at].text:
                return
            joins = typed and self._at > 0 and not self._is_saved and self._versions[self._at].words == words
            self._append(Version(text=text, words=words), after=self._at - 1 if joins else self._at)

    def undo(self) -> None:
        """Take the last change back; nothing where there is none."""
        self._step(-1)

    def redo(self) -> None:
        """Do again what was taken back; nothing where nothing was."""
        self._step(1)

    def save(self, *, overwrite: bool) -> None:
        """Write the text to the file, whole or not at all.

        Raises:
            SaveRefused: the file was changed by something else and is not to be overwritten.
            OSError: the file cannot be written.
        """
        with self._lock:
            self.look_outside()
            if self._outside == "changed" and not overwrite:
                raise SaveRefused(f"{self.path.name} was changed by something else since it was read")
            content = self._bytes_of(self._versions[self._at].text)
            if self._outside == "same":
                if not os.access(self.path, os.W_OK):
                    raise PermissionError(errno.EACCES, f"{self.path.name} may only be read")
                self._mode = stat.S_IMODE(self.path.stat().st_mode)
            write_replacing(self.path, content, self._mode)
            self._saved, self._recovered = self._versions[self._at].text, ""
            self._stand_on(content)

    def take_outside(self) -> None:
        """Take the file as it is on disk as one more change, so that what stood here can be had back.

        Raises:
            InputError: the file cannot be read as text.
        """
        with self._lock:
            content = self._read()
            text = self._text_of(content)
            if text != self._versions[self._at].text:
                self._append(Version(text=text, words=_FROM_DISK), after=self._at)
            self._saved = text
            self._stand_on(content)

    def look_outside(self) -> bool:
        """Look at the file on disk; return whether it is not any more what it was at the last look."""
        with self._lock:
            before = self._outside
            try:
                self._outside = "same" if _digest(content_of(self.path)) == self._base else "changed"
            except (FileNotFoundError, NotADirectoryError):
                self._outside = "gone"
            except (NotAFile, PermissionError):
                self._outside = "changed"
            except OSError:
                return False  # busy for a moment: the next look will tell
            return self._outside != before

    def close(self) -> bool:
        """End; return whether there is something that was not saved and is kept beside the file."""
        with self._lock:
            if self._is_saved:
                self._journal.remove()
            return not self._is_saved

    @property
    def _is_saved(self) -> bool:
        return self._versions[self._at].text == self._saved

    def _take_over(self) -> str:
        """Take over what an earlier desk kept, and say in words what it was."""
        kept = self._journal.read()
        if kept is None or len(kept.versions) == 1:
            self._keep_all()
            return ""
        text, own = self._versions[0].text, kept.versions[kept.at]
        waits = _digest_of(own.text) != kept.held and own.text != text
        self._versions, self._at = list(kept.versions), kept.at
        if kept.base != self._base and waits:
            self._base, self._held = kept.base, kept.held
            self.look_outside()
        elif kept.base != self._base and own.text != text:  # nothing was unsaved: the file is what counts
            self._at += 1
            self._versions[self._at :] = [Version(text=text, words=_FROM_DISK)]
        self._keep_all()
        return f"Taken over from an earlier desk that ended before saving: {own.words}." if waits else ""

    def _stand_on(self, content: bytes) -> None:
        """Take a content of the file as that which changes begin from."""
        self._content, self._base, self._outside = content, _digest(content), "same"
        self._held = _digest_of(self._text_of(content))
        self._keep_all()

    def _keep_all(self) -> None:
        """Keep all that can be undone and done again beside the file; remember why where that cannot be."""
        try:
            self._journal.begin(Kept(base=self._base, held=self._held, versions=tuple(self._versions), at=self._at))
            self._unkept = ""
        except OSError as error:
            why = (error.strerror or "no reason given").lower()
            self._unkept = f"Changes cannot be kept beside the file ({why}): save often."

    def _append(self, version: Version, after: int) -> None:
        self._versions = [*self._versions[: after + 1], version]
        self._at = after + 1
        self._revision += 1
        self._keep(lambda: self._journal.add(version, after))

    def _keep(self, one_more: Callable[[], None]) -> None:
        """Keep a change: in a line more; where that cannot be, or was not before, all of them anew."""
        try:
            if not self._unkept:
                one_more()
                return
        except OSError:
            pass  # whether it can be kept at all is seen, and said, by what follows
        self._keep_all()

    def _step(self, way: int) -> None:
        with self._lock:
            at = self._at + way
            if 0 <= at < len(self._versions):
                self._at = at
                self._revision += 1
                self._keep(lambda: self._journal.turn(at))

    def _read(self) -> bytes:
        try:
            content = content_of(self.path)
            content.decode("utf-8-sig")
        except OSError as error:
            reason = (error.strerror or "unknown reason").lower()
            raise InputError((_first(self.path, f"the file cannot be read: {reason}"),)) from error
        except UnicodeDecodeError as error:
            raise InputError((_first(self.path, "this is not a text in UTF-8; a line file is"),)) from error
        return content

    def _text_of(self, content: bytes) -> str:
        return content.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")

    def _bytes_of(self, text: str) -> bytes:
        mark = BOM_UTF8 if self._content.startswith(BOM_UTF8) else b""
        return mark + with_line_ends(text, self._content.removeprefix(mark))


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _digest_of(text: str) -> str:
    return _digest(text.encode(errors="surrogatepass"))


def _first(path: Path, message: str) -> Fault:
    return Fault(file=str(path), line=1, column=1, message=message)
