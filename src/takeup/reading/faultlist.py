"""Faults of a long file: the first of them listed, the others counted.     (reading/faultlist.py)

A column in another unit is wrong in every row; a hundred thousand lines would bury the one that tells why.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from takeup.errors import Fault, InputError

MOST_LISTED = 20
"""Faults that are listed, the first in the order of the file: they fit on a screen."""

_HELD = 2_000  # faults kept before the first ones are picked: few enough to hold, many enough to sort seldom


class FaultList:
    """Collects the faults of one file, in any order."""

    def __init__(self, file: str) -> None:
        self._file = file
        self._first: list[Fault] = []
        self._count = 0

    def add(self, line: int, column: int, message: str) -> None:
        """Note a fault; `line` and `column` count from one."""
        self._count += 1
        self._first.append(Fault(file=self._file, line=line, column=column, message=message))
        if len(self._first) > _HELD:
            self._pick()

    def add_rows(
        self, rows: Sequence[int], place: Callable[[int], tuple[int, int]], message: Callable[[int], str]
    ) -> None:
        """Note a fault in each of some rows, in their order; of those past any that is listed, only how many."""
        for row in rows[: MOST_LISTED + 1]:
            self.add(*place(row), message(row))
        self._count += max(0, len(rows) - MOST_LISTED - 1)

    def raise_faults(self) -> None:
        """Raise InputError when there are faults; the last one listed says how many more there are."""
        if not self._count:
            return
        self._pick()
        listed, rest = self._first[:MOST_LISTED], self._first[MOST_LISTED:]
        if rest:
            more = self._count - MOST_LISTED
            words = "one more fault is" if more == 1 else f"{more} more faults are"
            place = rest[0]
            listed.append(
                Fault(
                    file=self._file,
                    line=place.line,
                    column=place.column,
                    message=f"{words} not listed, the first of them here",
                )
            )
        raise InputError(tuple(listed))

    def _pick(self) -> None:
        """Keep the first faults, and one more to say where the others begin."""
        self._first = sorted(self._first)[: MOST_LISTED + 1]
