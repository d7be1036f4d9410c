"""Rows of a record that say nothing new are left out.     (history/thin.py)

A row may go when every zone holds the same before and after it, and every pressure and temperature lies on the
straight line in time from the kept row before to the kept row after, to rounding: whoever goes straight from kept row
to kept row goes through it. Nothing is smoothed: no turn, however small, is lost.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from takeup.line.record import Record

Floats = NDArray[np.float64]

_ROUNDING = 8.0 * np.finfo(np.float64).eps  # of the largest value of a column: decimals read, and one product


def rows_that_turn(record: Record) -> NDArray[np.intp]:
    """Return the numbers of the rows that have to be kept, the first and the last among them.

    Rows that lie between their two neighbours are found at once. A run of several is then held against the line from
    its first neighbour to its last, and parted at the furthest row where it bends too slowly for neighbours to show.
    """
    values = np.column_stack([record.pressures, record.temperatures])
    slack = _ROUNDING * np.abs(values).max(axis=0)
    between = np.zeros(record.times.size, dtype=np.bool_)
    between[1:-1] = _on_line(record.times, values, slack) & _same_contents(record)[1:-1]
    kept = np.flatnonzero(~between)
    pending = [(int(kept[n]), int(kept[n + 1])) for n in np.flatnonzero(np.diff(kept) > 2)]  # noqa: PLR2004  a run
    while pending:
        first, last = pending.pop()
        bend = _furthest(record.times[first : last + 1], values[first : last + 1], slack)
        if bend:
            between[first + bend] = False
            pending += [(first, first + bend), (first + bend, last)]
    return np.flatnonzero(~between)


def thinned(record: Record) -> Record:
    """Return a record without the rows that lie on the straight line between those that are kept."""
    rows = rows_that_turn(record)
    return replace(
        record,
        times=record.times[rows],
        pressures=record.pressures[rows],
        temperatures=record.temperatures[rows],
        contents=tuple(record.contents[row] for row in rows),
    )


def _on_line(times: Floats, values: Floats, slack: Floats) -> NDArray[np.bool_]:
    """Return which inner rows lie on the line between their two neighbours, (t - 2,)."""
    share = ((times[1:-1] - times[:-2]) / (times[2:] - times[:-2]))[:, None]
    line = values[:-2] + share * (values[2:] - values[:-2])
    on_line: NDArray[np.bool_] = np.count_nonzero(np.abs(values[1:-1] - line) > slack, axis=1) == 0
    return on_line


def _same_contents(record: Record) -> NDArray[np.bool_]:
    """Return in which rows every zone holds what it held before and will hold after, (t,); not in the outermost."""
    numbers = {held: number for number, held in enumerate(dict.fromkeys(record.contents))}
    codes = np.fromiter((numbers[held] for held in record.contents), dtype=np.intp, count=len(record.contents))
    same = np.zeros(codes.size, dtype=np.bool_)
    same[1:-1] = (codes[1:-1] == codes[:-2]) & (codes[1:-1] == codes[2:])
    return same


def _furthest(times: Floats, values: Floats, slack: Floats) -> int:
    """Return the row of a run that is furthest from the line between its ends, or nought where all lie on it."""
    share = ((times - times[0]) / (times[-1] - times[0]))[:, None]
    away = np.abs(values - (values[0] + share * (values[-1] - values[0])))[1:-1]
    if (away <= slack).all():
        return 0
    relative = away / np.where(slack > 0.0, slack, 1.0)
    return 1 + int(relative.max(axis=1).argmax())
