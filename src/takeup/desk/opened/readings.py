"""What a text says: a study ready to be looked at, or every fault in it.     (desk/opened/readings.py)"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from takeup.choose import resolve
from takeup.desk.interface import Fault
from takeup.errors import InputError, TakeupError
from takeup.line import Study
from takeup.line.reading.reader import study_from_text


@dataclass(frozen=True, kw_only=True, slots=True)
class Reading:
    """A text as it was read.

    Args:
        read: the study; None where the text has faults.
        resolved: its rules turned into holds and its joints chosen; None where that is not done, or failed.
        faults: in the order of the text.
    """

    read: Study | None = None
    resolved: Study | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def is_open(self) -> bool:
        """Whether joints are still to be chosen, which takes whole studies."""
        return self.read is not None and self.resolved is None and not self.faults


def reading_of(text: str, path: Path) -> Reading:
    """Return what a text says; where joints are to be chosen from a series, that is left open.

    Args:
        text: of a line file.
        path: where the file is, beside which its series are.
    """
    try:
        read = study_from_text(text, str(path))
        waits = any(line.choices for line in read.lines)
        return Reading(read=read, resolved=None if waits else resolve(read))
    except TakeupError as error:
        return Reading(faults=faults_of(error))


def chosen(tell: object, read: Study) -> Study | tuple[Fault, ...]:  # noqa: ARG001 -- it cannot say how far it is
    """Return a study with its joints chosen and its rules turned into holds; the faults where nothing fits."""
    try:
        return resolve(read)
    except TakeupError as error:
        return faults_of(error)


def faults_of(error: TakeupError) -> tuple[Fault, ...]:
    """Return what an error says, at its places; what has no place stands at the beginning."""
    if isinstance(error, InputError):
        return tuple(Fault(line=one.line, column=one.column, message=one.message) for one in error.faults)
    return (Fault(line=1, column=1, message=str(error)),)


__all__ = ["Reading", "chosen", "faults_of", "reading_of"]
