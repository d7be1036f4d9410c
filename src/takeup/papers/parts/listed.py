"""The list of parts as the results have it, and alike holds put together.     (papers/parts/listed.py)

The results have a row for each hold, because it is made for its own load. On paper, holds of one kind, size and price
are one row with all their names and the greatest of their loads; each by itself stands on a sheet of holds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of, texts_of

METRES = "m"


@dataclass(frozen=True, kw_only=True, slots=True)
class Listed:
    """Rows of the results that are alike: what each is, and their amount, names, load and cost together.

    Args:
        rows: of the results; the first says what all of them are.
        amount: how many, or how long [m].
        names: of all of them.
        load: the greatest to make one of them for [N]; None where there is none.
        cost: of all; None where one has none.
    """

    rows: tuple[Record, ...]
    amount: float
    names: tuple[str, ...]
    load: float | None
    cost: float | None

    @property
    def first(self) -> Record:
        """What all of them are."""
        return self.rows[0]

    @property
    def price(self) -> Record:
        """How the first is priced; an empty record where nothing is."""
        return record_of(self.first, "price")

    @property
    def each(self) -> float | None:
        """Price of one, or of a metre."""
        return maybe_number(self.price, "each")

    @property
    def measured(self) -> bool:
        """Whether the amount is a length."""
        return text_of(self.first, "unit") == METRES


def rows_of(results: Results) -> tuple[Record, ...]:
    """Return every row of the results' list of parts."""
    return records_of(record_of(results, "parts"), "rows")


def prices_of(results: Results) -> Record:
    """Return whose the prices are; an empty record where nothing is priced."""
    return record_of(record_of(results, "parts"), "prices")


def listed(results: Results) -> tuple[Listed, ...]:
    """Return the list of parts, holds that are alike put together, in the order of their first."""
    alike: dict[tuple[str, ...], list[Record]] = {}
    for number, row in enumerate(rows_of(results)):
        alike.setdefault(_key(row, number), []).append(row)
    return tuple(_together(rows) for rows in alike.values())


def _key(row: Record, number: int) -> tuple[str, ...]:
    """Return what holds are alike in; every other row is like none."""
    if text_of(row, "group") != "hold":
        return (str(number),)
    price = record_of(row, "price")
    keys = [text_of(row, key) for key in ("line", "what", "size", "spring", "only_in")]
    return ("hold", *keys, text_of(price, "each"), text_of(price, "limit_n"), text_of(price, "by"))


def _together(rows: Sequence[Record]) -> Listed:
    prices = [record_of(row, "price") for row in rows]
    costs = [cost for price in prices if (cost := maybe_number(price, "cost")) is not None]
    loads = [load for row in rows if (load := maybe_number(row, "design_n")) is not None]
    return Listed(
        rows=tuple(rows),
        amount=math.fsum(number_of(row, "count") for row in rows),
        names=tuple(name for row in rows for name in texts_of(row, "names")),
        load=max(loads, default=None),
        cost=math.fsum(costs) if len(costs) == len(rows) else None,
    )


__all__ = ["Listed", "listed", "prices_of", "rows_of"]
