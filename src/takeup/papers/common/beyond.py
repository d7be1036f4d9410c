"""Thrust beyond the first order: joints that swing, runs askew, guides.     (papers/common/beyond.py)"""

from __future__ import annotations

import math

from takeup.drawing.reading import Record, Results, maybe_number, number_of, records_of, text_of, vector_of
from takeup.edge import Units
from takeup.papers.common.numerals import NONE, fixed, told, written, written_column
from takeup.papers.common.tables import Tree, number_column, table, words_column


def swings_table(results: Results, units: Units) -> Tree | None:
    """Return the second order of joints that moved sideways; nothing where none did."""
    rows = records_of(results, "second_order")
    if not rows:
        return None
    head = (
        words_column("Joint"), words_column("State", "1fr"), number_column("Offset", units.small.unit),
        number_column("displaced", units.small.unit), number_column("Force", units.force.unit),
        number_column("by hand", units.force.unit),
    )  # fmt: skip
    forces = written_column([maybe_number(row, "force_n") for row in rows], units.force, 3)
    by_hand = written_column([number_of(row, "hand_n") for row in rows], units.force, 3)
    cells = [
        (
            text_of(row, "takeup"),
            text_of(row, "state"),
            written(number_of(row, "lateral_mm"), units.small, 1),
            written(maybe_number(row, "lateral_after_mm"), units.small, 1),
            force,
            hand,
        )
        for row, force, hand in zip(rows, forces, by_hand, strict=True)
    ]
    caption = (
        "Joints that moved sideways at pressure: what the line adds along the offset beyond the first order; below "
        "zero the joint pushes on. By hand: P·A_e·y·(1/L_rod − 1/L_centres), for pin-like bellows; L_rod: "
        "of the rods, or of the bars of a swing joint"
    )
    return table(head, cells, caption, notes=[_why(row) for row in rows])


def most_beyond(results: Results, hold: Record, units: Units) -> tuple[str, str] | None:
    """Return the most that joints which have moved sideways at pressure add to a hold, and the state; None: nothing.

    The tables of loads are first order: bars, rods and bellows act as they were drawn, not as they then stand.

    Args:
        results: the results document.
        hold: one of its holds.
        units: to print in.
    """
    found: list[tuple[float, str]] = []
    for row in records_of(results, "second_order"):
        own = [
            math.hypot(*vector_of(felt, "force_n"))
            for felt in records_of(row, "holds")
            if (felt.get("line"), felt.get("name")) == (hold.get("line"), hold.get("name"))
        ]
        found += [(force, text_of(row, "state")) for force in own]
    if not found:
        return None
    force, state = max(found, key=lambda pair: pair[0])
    return told(force, units.force, 2), state


def beyond_first_order(results: Results, hold: Record, units: Units) -> list[str]:
    """Return what joints that have moved sideways add to the loads of a hold, in a sentence of the calculation.

    Args:
        results: the results document.
        hold: one of its holds.
        units: to print in.
    """
    found = most_beyond(results, hold, units)
    if found is None:
        return []
    most, state = found
    words = f"joints that have moved sideways at pressure add up to {most} as they then stand, in the state “{state}”"
    return [f"All tables of its loads are first order: {words} (section 7)."]


def _why(row: Record) -> str:
    because = text_of(row, "because") or "as by hand, within 5 %"
    return because if row.get("stable") else f"no equilibrium in the displaced state: {because}"


def bows_table(results: Results, units: Units) -> Tree | None:
    """Return the bows that were looked at; nothing where none had to be."""
    rows = records_of(results, "clearance")
    if not rows:
        return None
    head = (
        words_column("State", "1fr"), words_column("Line"), number_column("At", units.length.unit),
        number_column("Bow", units.small.unit), number_column("grows by", units.small.unit),
        number_column("Most on a guide", units.force.unit), number_column("All open"),
    )  # fmt: skip
    cells = [
        (
            text_of(row, "state"),
            text_of(row, "line"),
            written(number_of(row, "station_m"), units.length, 2),
            written(number_of(row, "bow_mm"), units.small, 1),
            written(maybe_number(row, "grown_mm"), units.small, 1),
            written(_most(row), units.force, 2),
            _factor(row),
        )
        for row in rows
    ]
    because = [text_of(row, "because") for row in rows]
    caption = (
        "Bow of clearance + L/1000 in the lowest mode of the run, guides with the clearance they have; for information "
        "the lowest factor with all loose guides left out"
    )
    return table(head, cells, caption, notes=because if any(because) else ())


def _most(row: Record) -> float | None:
    return max((number_of(guide, "force_n") for guide in records_of(row, "guides")), default=None)


def _factor(row: Record) -> str:
    factor = maybe_number(row, "all_open_factor")
    return NONE if factor is None else fixed(factor, 2)


def guides_table(results: Results, units: Units) -> Tree | None:
    """Return what each guide has to be made for; nothing where there is none."""
    rows = records_of(results, "guides")
    if not rows:
        return None
    head = (
        words_column("Guide", "1fr"), words_column("Line"), number_column("Computed", units.force.unit),
        number_column("15 % of thrust", units.force.unit), number_column("Design", units.force.unit),
        words_column("In state", "1fr"),
    )  # fmt: skip
    columns = [
        written_column([maybe_number(row, key) for row in rows], units.force, 2)
        for key in ("computed_n", "fifteen_percent_n", "design_n")
    ]
    cells = [
        (text_of(row, "name"), text_of(row, "line"), *numbers, text_of(row, "state"))
        for row, *numbers in zip(rows, *columns, strict=True)
    ]
    caption = (
        "Loads to make the guides for, across the pipe: the greater of what is computed and, beside a joint none "
        "of whose rods pulls, 15 % of its thrust (common practice)"
    )
    return table(head, cells, caption)


__all__ = ["beyond_first_order", "bows_table", "guides_table", "most_beyond", "swings_table"]
