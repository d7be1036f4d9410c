"""What plates, bars and balancing bellows carry: the most they pull and push.     (papers/calculation/walk_hardware.py)

A joint's rods only pull and are told state by state (`walk_contacts.py`). Of its other hardware each part has one row:
its greatest pull and its greatest push over all states and walks, with where they are. States go by their numbers in
section 4.
"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import Record, Results, number_of, records_of, text_of
from takeup.edge import Units
from takeup.papers.calculation.walked import in_order, scenario_words
from takeup.papers.common.numerals import written_column
from takeup.papers.common.places import with_line
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column

_NOTHING = 0.5  # N: with less a part carries nothing
_SAME = 1e-6  # of the greatest: scenarios whose forces differ by less are told together
_ACROSS = ("across", "along the pins")


def hardware_tables(results: Results, numbers: dict[str, int], units: Units) -> list[Tree]:
    """Return the table of every joint that has hardware beside rods."""
    joints = [joint for joint in records_of(results, "takeups") if records_of(joint, "hardware")]
    return [_table(results, joint, numbers, units) for joint in joints]


def _table(results: Results, joint: Record, numbers: dict[str, int], units: Units) -> Tree:
    rows = records_of(joint, "hardware")
    parts = list(dict.fromkeys(text_of(row, "part") for row in rows))
    of_part = [[row for row in rows if text_of(row, "part") == part] for part in parts]
    pulls = [_most(own, 1.0) for own in of_part]
    pushes = [_most(own, -1.0) for own in of_part]
    forces = written_column([force for force, _ in (*pulls, *pushes)], units.force, 2)
    pulled, pushed = forces[: len(parts)], forces[len(parts) :]
    cells: list[tuple[Cell, ...]] = [
        (part, one, _where(where, numbers), other, _where(away, numbers))
        for part, one, (_, where), other, (_, away) in zip(parts, pulled, pulls, pushed, pushes, strict=True)
    ]
    head = (
        words_column("Part", "1fr"),
        number_column("Greatest pull", units.force.unit), words_column("State, scenario", "44mm"),
        number_column("Greatest push", units.force.unit), words_column("State, scenario", "44mm"),
    )  # fmt: skip
    return table(head, cells, _caption(results, joint, parts))


def _caption(results: Results, joint: Record, parts: Sequence[str]) -> str:
    """Return what the table shows; where a part holds across the joint, a pull is what goes the one way."""
    said = f"What {with_line(results, joint, text_of(joint, 'name'))} is held together by: the most over all states"
    if any(part.endswith(_ACROSS) for part in parts):
        said += "; across the joint and along its pins, pull and push are the two ways"
    return said


def _most(rows: Sequence[Record], way: float) -> tuple[float | None, list[Record]]:
    """Return the greatest force one way and the rows that have it, all of one state; None where there is none."""
    most = max(way * number_of(row, "force_n") for row in rows)
    if most < _NOTHING:
        return None, []
    alike = [row for row in rows if way * number_of(row, "force_n") >= most * (1.0 - _SAME)]
    state = text_of(alike[0], "state")
    return most, [row for row in alike if text_of(row, "state") == state]


def _where(rows: Sequence[Record], numbers: dict[str, int]) -> Cell:
    if not rows:
        return ""
    state = text_of(rows[0], "state")
    return f"{numbers[state]} {state}", scenario_words(in_order(text_of(row, "scenario") for row in rows))


__all__ = ["hardware_tables"]
