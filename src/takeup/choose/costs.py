"""What the parts of whole lines cost, by the price file that a line file names.     (choose/costs.py)

The results count parts and know no price; prices are known here, and put into the rows. Everything is priced as
proposals are (arrange/parts.py): joints fitted, anchors by the greatest force on them, pipe, insulation and bends
erected, a bend with its two welds. What the file has no price for has none, which is said, and no part of the total.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from takeup.choose.arrange.parts import BY_LOAD
from takeup.choose.arrange.price_file import demonstration_prices, read_prices
from takeup.choose.arrange.prices import WELDS_OF_A_BEND, Prices
from takeup.choose.arrange.verify import loads_of
from takeup.errors import OutOfRange
from takeup.joints import WRITTEN_KINDS
from takeup.library import size_number
from takeup.line import Study
from takeup.results.plain import Json

Row = Mapping[str, Json]
_HALF = "half of "
_NOTHING: Row = MappingProxyType(
    dict.fromkeys(("each", "cost", "index", "factor", "fitting", "labour", "weld", "load_n", "limit_n"))
)


def named_prices(study: Study, folder: Path) -> Prices | None:
    """Return the prices that a line file names; None where it names none.

    Args:
        study: as read.
        folder: of the line file, from which the path of the price file counts.

    Raises:
        InputError: The price file cannot be read, is none, or has faults.
    """
    return None if study.prices is None else read_prices(folder / study.prices)


def with_costs(results: Mapping[str, Json], study: Study, prices: Prices) -> dict[str, Json]:
    """Return results whose list of parts is priced.

    Args:
        results: of the study.
        study: as read, its joints not chosen yet: its places know the series, which has the index of a joint.
        prices: of the file that it names.
    """
    parts = results["parts"]
    assert isinstance(parts, Mapping), "a list of parts is a record"
    pricing = _Pricing(prices=prices, sizes=_sizes(study), indices=_indices(study), loads=loads_of(results))
    rows = _rows(parts)
    costs = [pricing.of(row) for row in rows]
    total = math.fsum(cost for price in costs if isinstance(cost := price["cost"], float))
    priced: list[Json] = [{**row, "price": price} for row, price in zip(rows, costs, strict=True)]
    return {**results, "parts": {"rows": priced, "prices": _source(prices), "total": total}}


def _rows(parts: Row) -> list[Row]:
    rows = parts["rows"]
    assert isinstance(rows, Sequence), "rows are a list"
    return [row for row in rows if isinstance(row, Mapping)]


def _source(prices: Prices) -> Json:
    return {
        "name": prices.name,
        "source": prices.source,
        "unit": prices.unit,
        "file": prices.file,
        "sha256": prices.sha256,
        "demonstration": prices.sha256 == demonstration_prices().sha256,
    }


def _sizes(study: Study) -> dict[str, float]:
    """Return the number of every size, by which it is priced."""
    pipes = [section.pipe for line in study.lines for section in line.sections]
    return {pipe.size.dn: size_number(pipe.size) for pipe in pipes}


def _indices(study: Study) -> dict[tuple[str, str], float]:
    """Return the price index of every joint of every series that a place takes its joint from, where it has one."""
    tables = [choice.table for line in study.lines for choice in line.choices]
    return {
        (table.provenance.series, name): float(index)
        for table in tables
        for name, index in zip(table.names, table.numbers["price_index"], strict=True)
        if not math.isnan(index)
    }


@dataclass(frozen=True, kw_only=True, slots=True)
class _Pricing:
    """What prices a row.

    Args:
        prices: of whose file.
        sizes: number of each size.
        indices: of joints, by series and name.
        loads: greatest force on each hold, by line and name [N].
    """

    prices: Prices
    sizes: Mapping[str, float]
    indices: Mapping[tuple[str, str], float]
    loads: Mapping[tuple[str, str], float]

    def of(self, row: Row) -> dict[str, Json]:
        """Return the price of a row; none, with the reason, where the file has none."""
        ways: dict[str, Callable[[Row], Row]] = {
            "pipe": self._pipe,
            "bend": self._bend,
            "insulation": self._insulation,
            "take-up": self._joint,
            "hold": self._hold,
        }
        if row["group"] == "hardware":
            return {**_NOTHING, "by": "with its joint", "because": ""}
        way = ways.get(str(row["group"]))
        if way is None:
            return _none(f"{row['what']}: a price file has no prices of these")
        try:
            found = way(row)
        except OutOfRange as why:
            return _none(str(why))
        each, count = found["each"], row["count"]
        assert isinstance(each, float), "a price is a number"
        assert isinstance(count, float), "a count is a number"
        return {**_NOTHING, **found, "cost": count * each, "because": ""}

    def _pipe(self, row: Row) -> Row:
        return {"by": "size", "each": self.prices.pipe(self._size(row), 1.0), "labour": self.prices.pipework.labour}

    def _insulation(self, row: Row) -> Row:
        each = self.prices.insulation(self._size(row), 1.0)
        return {"by": "size", "each": each, "labour": self.prices.pipework.labour}

    def _bend(self, row: Row) -> Row:
        size = self._size(row)
        weld = self.prices.weld(size)
        each = self.prices.bend(size) + WELDS_OF_A_BEND * weld
        return {"by": "size", "each": each, "labour": self.prices.pipework.labour, "weld": weld}

    def _joint(self, row: Row) -> Row:
        size, index = self._size(row), self.indices.get((str(row["series"]), str(row["joint"])))
        kind = str(row["what"])
        if kind.startswith(_HALF):
            kind = WRITTEN_KINDS[kind.removeprefix(_HALF)].halves or kind
        return {
            "by": "kind and size" if index is None else "series index",
            "each": self.prices.joint(kind, size, index),
            "index": index,
            "factor": None if index is None else self.prices.series_factor,
            "fitting": self.prices.fitting.at(size),
        }

    def _hold(self, row: Row) -> Row:
        kind = str(row["what"])
        if kind not in BY_LOAD:
            return {"by": "kind and size", "each": self.prices.hold(kind, self._size(row))}
        names = row["names"]
        assert isinstance(names, Sequence), "a hold has its name"
        load = self.loads.get((str(row["line"]), str(names[0])))
        if load is None:
            raise OutOfRange(f"{kind}: the lines were not solved, so that there is no force to price it by")
        limit = self.prices.anchors.limit_of(load)
        return {"by": "force", "each": self.prices.anchor(load), "load_n": load, "limit_n": limit}

    def _size(self, row: Row) -> float:
        return self.sizes[str(row["size"])]


def _none(because: str) -> dict[str, Json]:
    return {**_NOTHING, "by": "none", "because": because}


__all__ = ["named_prices", "with_costs"]
