"""How the sections of a specification write numbers and words.     (papers/specification/printer.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, maybe_number, records_of, text_of
from takeup.edge import Measure, Units
from takeup.papers.common.numerals import NONE, as_given, told, written
from takeup.papers.frame import Head
from takeup.papers.specification.blocks import Blank, Cell
from takeup.papers.words import Texts

BESIDE = 4
"""Joints beside each other in one table: more would not fit the page."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Printer:
    """The results, and the head of the paper that says in what they are written."""

    results: Results
    head: Head

    @property
    def units(self) -> Units:
        """The measures, with the decimal mark of the language."""
        return self.head.units

    @property
    def texts(self) -> Texts:
        """The texts of the language."""
        return self.head.texts

    @property
    def joints(self) -> tuple[Record, ...]:
        """Every joint, line by line along the flow."""
        return records_of(self.results, "takeups")

    def say(self, key: str, **fields: object) -> str:
        """Return a text of this paper."""
        return self.texts(f"specification.{key}", **fields)

    def headed(self, key: str, measure: Measure) -> str:
        """Return the head of a column with its unit."""
        words = self.say(key)
        return f"{words} [{measure.unit}]" if measure.unit else words

    def given(self, record: Record, key: str, measure: Measure) -> Cell:
        """Return a number that a person gave, without its unit; a box for the buyer where there is none."""
        value = maybe_number(record, key)
        return self.blank() if value is None else as_given(value, measure)

    def number(self, value: float | None, measure: Measure, in_si: int) -> str:
        """Return a number of the study without its unit; a dash where there is none."""
        return NONE if value is None else written(value, measure, in_si)

    def told(self, value: float, measure: Measure, in_si: int) -> str:
        """Return a number of the study with its unit."""
        return told(value, measure, in_si)

    def word(self, record: Record, key: str) -> Cell:
        """Return words of the results in the paper's language; a box for the buyer where there are none."""
        words = text_of(record, key)
        return self.texts.said(words) if words else self.blank()

    def blank(self) -> Blank:
        """Return a box for the buyer."""
        return Blank(words=self.say("by_buyer"))

    def name_of(self, joint: Record) -> str:
        """Return the name of a joint or hold, with its line where there are several."""
        several = len(records_of(self.results, "lines")) > 1
        name = text_of(joint, "name")
        return self.say("of_line", name=name, line=text_of(joint, "line")) if several else name


__all__ = ["BESIDE", "Printer"]
