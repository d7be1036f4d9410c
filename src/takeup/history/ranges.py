"""Ranges that a history of values goes through, counted by rainflow.     (history/ranges.py)

ASTM E1049-85 (2017), section 5.4.4, through the package `rainflow`. What is left when no more ranges close, the
residue, counts as half ranges: no repetition of the history is assumed.
Limits: the order of the ranges is lost, as it is in every sum of damage.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import rainflow  # type: ignore[import-untyped]  # the package ships no types
from numpy.typing import NDArray

Values = Sequence[float] | NDArray[np.float64]

WHOLE, HALF = 1.0, 0.5


@dataclass(frozen=True, kw_only=True, slots=True)
class Range:
    """A range between two turning points: its ends in the unit of the values, and how often it counts.

    Args:
        low: the lesser end.
        high: the greater end.
        count: 1 for a range that closes, 0.5 for one that stays open.
        begins: number of the value at which it begins.
        ends: number of the value at which it turns.
    """

    low: float
    high: float
    count: float
    begins: int
    ends: int

    @property
    def size(self) -> float:
        """The range, high - low."""
        return self.high - self.low

    @property
    def mean(self) -> float:
        """The middle of the range."""
        return self.low + 0.5 * self.size


@dataclass(frozen=True, kw_only=True, slots=True)
class RangeBin:
    """The ranges above one size and up to another, counted; `low` and `high` are the furthest ends among them.

    A bin without ranges has a count of nought, and None for its ends.
    """

    above: float
    up_to: float
    count: float
    low: float | None
    high: float | None


def ranges_of(values: Values) -> tuple[Range, ...]:
    """Return the ranges of a history, in the order in which they are counted; none where nothing changes.

    Rainflow, ASTM E1049-85 (2017) 5.4.4.

    Args:
        values: movements, forces or temperatures in their order; repeated values are one.
    """
    history = np.asarray(values, dtype=np.float64)
    assert history.ndim == 1, "one history at a time"
    assert np.isfinite(history).all(), "a history has a number everywhere"
    turns = turning_points(history)
    if turns.size == 2:  # noqa: PLR2004  the package takes two values for none
        return (_range(history, int(turns[0]), int(turns[1]), HALF),)
    counted = rainflow.extract_cycles(history[turns].tolist())
    return tuple(_range(history, int(turns[begin]), int(turns[end]), count) for _, _, count, begin, end in counted)


def turning_points(values: NDArray[np.float64]) -> NDArray[np.intp]:
    """Return the numbers of the values at which a history turns, with its first and last; empty where it is constant.

    Of equal values that follow each other the first counts.

    Args:
        values: (n,).
    """
    moved = np.flatnonzero(np.diff(values) != 0.0) + 1
    if not moved.size:
        return np.empty(0, dtype=np.intp)
    kept = np.concatenate([[0], moved])
    rises = np.diff(values[kept]) > 0.0
    inner = np.flatnonzero(rises[1:] != rises[:-1]) + 1
    return np.concatenate([kept[:1], kept[inner], kept[-1:]])


def range_table(values: Values, bins: int) -> tuple[RangeBin, ...]:
    """Return how often ranges of which size occur, in bins of equal width from nought to the largest range.

    A range that is as large as a bin's upper end belongs to it. The counts sum to that of all ranges.

    Args:
        values: movements, forces or temperatures in their order.
        bins: how many.

    Returns:
        The bins, smallest first; none where nothing changes.
    """
    assert bins > 0, "a table has a bin at least"
    ranges = ranges_of(values)
    if not ranges:
        return ()
    edges = np.linspace(0.0, max(one.size for one in ranges), bins + 1)
    sorted_in = np.searchsorted(edges[1:-1], [one.size for one in ranges], side="left")
    held: list[list[Range]] = [[] for _ in range(bins)]
    for one, number in zip(ranges, sorted_in, strict=True):
        held[int(number)].append(one)
    return tuple(_bin(float(edges[n]), float(edges[n + 1]), held[n]) for n in range(bins))


def _range(history: NDArray[np.float64], begin: int, end: int, count: float) -> Range:
    low, high = sorted((float(history[begin]), float(history[end])))
    return Range(low=low, high=high, count=count, begins=begin, ends=end)


def _bin(above: float, up_to: float, ranges: list[Range]) -> RangeBin:
    return RangeBin(
        above=above,
        up_to=up_to,
        count=sum((one.count for one in ranges), 0.0),
        low=min((one.low for one in ranges), default=None),
        high=max((one.high for one in ranges), default=None),
    )
