"""Boxes for the buyer, and what a person gave, in a specification.     (papers/specification/printer.py)"""

from __future__ import annotations

from takeup.drawing.reading import Record, maybe_number, text_of
from takeup.edge import Measure
from takeup.papers.common.gathered import Joint
from takeup.papers.common.numerals import as_given
from takeup.papers.common.printer import Printer
from takeup.papers.specification.blocks import Blank, Cell

BESIDE = 4
"""Joints beside each other in one table: more would not fit the page."""


def given(printer: Printer, record: Record, key: str, measure: Measure) -> Cell:
    """Return a number that a person gave, without its unit; a box for the buyer where there is none."""
    value = maybe_number(record, key)
    return blank(printer) if value is None else as_given(value, measure)


def written_name(printer: Printer, joint: Joint) -> str:
    """Return the name of a joint as its file writes it, a double whole; with its line where there are several."""
    return printer.name_of({"name": joint.tag, "line": joint.line["name"]})


def word(printer: Printer, record: Record, key: str) -> Cell:
    """Return words of the results in the paper's language; a box for the buyer where there are none."""
    words = text_of(record, key)
    return printer.texts.said(words) if words else blank(printer)


def blank(printer: Printer) -> Blank:
    """Return a box for the buyer."""
    return Blank(words=printer.say("by_buyer"))


__all__ = ["BESIDE", "blank", "given", "word", "written_name"]
