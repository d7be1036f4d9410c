"""The error tree: what reaches the user, and what stays inside.     (errors.py)

    TakeupError
    ├── InputError      the user's file or command is wrong; carries every fault found, each with its place
    ├── NothingFits     no joint of a series fits a place; the message says why not
    └── OutOfRange      a formula or table was asked outside its range; a check turns it into "not covered"

A failed check, a line that is not held and a solve that did not verify are results, not errors.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True, order=True)
class Fault:
    """One thing wrong with an input file, and where.

    `line` and `column` count from one, as editors do.
    """

    file: str
    line: int
    column: int
    message: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}: {self.message}"


class TakeupError(Exception):
    """Base of every error this package raises on purpose."""


class InputError(TakeupError):
    """A file or a command that cannot be used, with every fault found in it, in the order of the file."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = tuple(sorted(faults))
        super().__init__("\n".join(str(fault) for fault in self.faults))


class NothingFits(TakeupError):
    """No joint of a series fits a place; the message says why not, over several lines."""


class OutOfRange(TakeupError, ValueError):
    """A formula or table was asked for a value outside the range in which its source states it."""
