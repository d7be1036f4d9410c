"""Section 6: what joints are built of, beside their length and weight.     (papers/calculation/joint_parts.py)"""

from __future__ import annotations

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of, texts_of
from takeup.edge import Units
from takeup.papers.common.numerals import told, written
from takeup.papers.common.places import with_line
from takeup.papers.common.tables import Cell, Tree, number_column, sentences, table, words_column


def parts_tables(results: Results, units: Units) -> list[Tree]:
    """Return the table of every joint of which some part is known, each with what it leaves out."""
    joints = [joint for joint in records_of(results, "takeups") if record_of(joint, "parts")]
    return [_of_joint(results, joint, record_of(joint, "parts"), units) for joint in joints]


def _of_joint(results: Results, joint: Record, parts: Record, units: Units) -> Tree:
    rows: list[tuple[Cell, ...]] = [
        (
            (text_of(row, "part"), text_of(row, "known")),
            f"{number_of(row, 'count'):g}",
            written(number_of(row, "each_mm"), units.small, 1),
            written(number_of(row, "weight_n"), units.weight, 1),
            (text_of(row, "formula"), text_of(row, "source")),
        )
        for row in records_of(parts, "rows")
    ]
    sums = _sums(parts, units)
    head = (
        words_column("Part", "1fr"), number_column("Count", "", "14mm"),
        number_column("Each, along", units.small.unit, "22mm"),
        number_column("Weight of all", units.weight.unit, "24mm"),
        words_column("Formula of the mass, source", "56mm"),
    )  # fmt: skip
    name = with_line(results, joint, text_of(joint, "name"))
    strong = range(len(rows), len(rows) + len(sums))
    return {
        "table": table(head, [*rows, *sums], f"Parts of {name}, as far as they are known", strong=strong),
        "said": sentences([*_left_out(parts), *_spool(record_of(parts, "spool"), units)]),
    }


def _sums(parts: Record, units: Units) -> list[tuple[Cell, ...]]:
    """Return the weights and lengths together, what is stated last."""

    def weight(key: str) -> str:
        return written(number_of(parts, key), units.weight, 1)

    def length(key: str) -> str:
        return written(number_of(parts, key), units.small, 1)

    return [
        ("Given parts", "", "", weight("given_weight_n"), ""),
        ("Given parts, ends and spool", "", "", weight("weight_n"), "ends and spool as the line's pipe"),
        (
            "Bellows and spool in a row",
            "",
            length("least_length_mm"),
            "",
            "N q of each, spool, outer tangents",
        ),
        ("Stated of the whole joint", "", length("stated_length_mm"), weight("stated_weight_n"), ""),
    ]


def _left_out(parts: Record) -> list[str]:
    notes = "; ".join(texts_of(parts, "notes"))
    return [f"Not covered: {'; '.join(texts_of(parts, 'not_covered'))}.", *([f"Densities: {notes}."] if notes else [])]


def _spool(spool: Record, units: Units) -> list[str]:
    """Return the spool that the movements ask for in words; nothing for a joint without one."""
    if not spool:
        return []

    def small(key: str) -> str:
        return told(number_of(spool, key), units.small, 1)

    movement = f"{small('lateral_mm')} sideways and {small('axial_mm')} along in the state {text_of(spool, 'state')}"
    needed = maybe_number(spool, "needed_mm")
    wanted = "no spool is long enough, for the axial movement takes all that is rated"
    if needed is not None:
        wanted = f"a spool of {told(needed, units.small, 1)} is needed for it"
    source = f"{text_of(spool, 'formula')}; {text_of(spool, 'source')}"
    return [f"Spool: {movement}; {wanted}; as built {small('built_mm')} ({source})."]


__all__ = ["parts_tables"]
