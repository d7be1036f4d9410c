"""Every hold between the ends as resolved, listed on a terminal.     (papers/summary/hold_list.py)"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any  # the results document is JSON: what its values are is said by its schema, not by types

from takeup.edge import SI, TIE, Units
from takeup.papers.common.terminal import table

Results = Mapping[str, Any]


def hold_lines(results: Results, units: Units = SI) -> list[str]:
    """Return the list of holds, line by line along the flow.

    Args:
        results: the results document.
        units: what its numbers are written in.
    """
    holds = results["input"]["resolved"]["holds"]
    if not holds:
        return ["No hold stands between the ends.", ""]
    rows = [
        [
            hold["line"],
            units.length.text(hold["station_m"], 3),
            hold["kind"],
            hold["name"],
            hold["slides_on"] or "",
            hold["placed_by"],
        ]
        for hold in sorted(holds, key=lambda item: (_order(results, item["line"]), item["station_m"]))
    ]
    head = ["line", "at", "kind", "name", "slides on", "placed"]
    return [text.replace(TIE, " ") for text in ["Holds as resolved:", *table(head, rows, (1,)), ""]]


def _order(results: Results, line: str) -> int:
    return [item["name"] for item in results["lines"]].index(line)
