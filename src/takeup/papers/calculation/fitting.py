"""Section 6: how joints are fitted out, and what was not looked at.     (papers/calculation/fitting.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import Record, Results, maybe_number, record_of, records_of, text_of
from takeup.edge import Units
from takeup.papers.common.numerals import NONE, written
from takeup.papers.common.places import with_line
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column

NOT_SAID = "not said"


def fitting_tables(results: Results, units: Units) -> list[Tree]:
    """Return the table of ends, velocity, liner and cover of every joint; none where there is no joint."""
    joints = [joint for joint in records_of(results, "takeups") if record_of(joint, "fitting")]
    rows = [_row(results, joint, units) for joint in joints]
    return [_table(rows, units)] if rows else []


def _table(rows: Sequence[Sequence[Cell]], units: Units) -> Tree:
    speed = units.of_check("m/s").unit
    head = (
        words_column("Joint", "26mm"), words_column("Ends", "40mm"), number_column("Velocity", speed, "16mm"),
        number_column("Without liner up to", speed, "20mm"), words_column("Liner", "1.2fr"),
        words_column("Cover", "1fr"),
    )  # fmt: skip
    return table(head, rows, "Ends, liners and covers, as far as they are said")


def _row(results: Results, joint: Record, units: Units) -> tuple[Cell, ...]:
    fitting, speed = record_of(joint, "fitting"), units.of_check("m/s")
    said, ends, liner = (record_of(fitting, key) for key in ("said", "ends", "liner"))
    velocity, limit = (maybe_number(fitting, key) for key in ("velocity_m_per_s", "velocity_without_liner_m_per_s"))
    words = f"allows {text_of(ends, 'allows')}; asks for {text_of(ends, 'asks')}" if ends else ""
    as_written = text_of(joint, "written_as")
    halves = as_written if as_written != text_of(joint, "kind") else ""
    return (
        (with_line(results, joint, text_of(joint, "name")), f"of a {halves}" if halves else ""),
        (text_of(ends, "kind") or NOT_SAID, words),
        NOT_SAID if velocity is None else written(velocity, speed, 2),
        NONE if limit is None else written(limit, speed, 2),
        (text_of(said, "liner"), _room(liner, units)),
        text_of(said, "cover"),
    )


def _room(liner: Record, units: Units) -> str:
    """Return the room round a fitted liner in words; nothing where none is fitted."""
    if not liner or not liner.get("fitted"):
        return ""
    small = units.small
    has, needs = (maybe_number(liner, key) for key in ("clearance_mm", "clearance_needed_mm"))
    given = "its clearance is not said" if has is None else f"clearance {small.text(has, 1)}"
    asked = "what it needs is not looked at" if needs is None else f"needed {small.text(needs, 1)}"
    return f"{given}, {asked}"


__all__ = ["fitting_tables"]
