"""Hand calculations beside the numbers of the model, with why they differ.     (papers/loads/hand.py)"""

from __future__ import annotations

from takeup.drawing.reading import Record, maybe_number, text_of
from takeup.papers.common.numerals import percent_of, written_column
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column
from takeup.papers.loads.writer import TWO, Writer


def hand_table(rows: tuple[Record, ...], name: str, write: Writer) -> Tree | None:
    """Return the hand calculations of a hold; nothing where there is none."""
    if not rows:
        return None
    cells: list[tuple[Cell, ...]] = []
    for row in rows:
        measure = write.units.of_hand(text_of(row, "unit"))
        value, model = written_column([maybe_number(row, key) for key in ("value", "model")], measure, TWO)
        percent = write.texts.figures(percent_of(value, maybe_number(row, "difference_percent")))
        cells.append((write.said(text_of(row, "what")), value, model, measure.unit, percent))
    head = (
        words_column(write("what"), "70mm"), number_column(write("by_hand"), "", "1fr"),
        number_column(write("by_model"), "", "1fr"), words_column(write("unit"), "1fr"),
        number_column(write("difference"), "%", "1fr"),
    )  # fmt: skip
    return table(head, cells, write("hand", name=name), notes=[worked(row, write) for row in rows])


def worked(row: Record, write: Writer) -> str:
    """Return how a hand calculation goes: formula with numbers, its source, and why the model differs."""
    formula = " = ".join(filter(None, (text_of(row, "formula"), text_of(row, "numbers"))))
    if maybe_number(row, "value") is None:
        return why(row, write)
    return "; ".join(filter(None, (write.said(formula), write.said(text_of(row, "source")), why(row, write))))


def why(row: Record, write: Writer) -> str:
    """Return why hand and model differ, or why one of them is not there; "" where nothing has to be said."""
    because = write.said(text_of(row, "because"))
    if maybe_number(row, "value") is None:
        return write("why_none", because=because)
    if not because:
        return ""
    return write("why_differ" if maybe_number(row, "model") is not None else "why_alone", because=because)


__all__ = ["hand_table", "why", "worked"]
