"""How papers made from results write numbers and words.     (papers/common/printer.py)"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, records_of, text_of
from takeup.edge import Measure, Units
from takeup.papers.common.alike import names_told
from takeup.papers.common.numerals import NONE, told, written
from takeup.papers.frame.head import Head
from takeup.papers.words import Texts


@dataclass(frozen=True, kw_only=True, slots=True)
class Printer:
    """The results, the head of the paper, and how a text of this paper is called in the catalogue."""

    results: Results
    head: Head
    key_of: Callable[[str], str]

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
        return self.texts(self.key_of(key), **fields)

    def headed(self, key: str, measure: Measure) -> str:
        """Return the head of a column with its unit."""
        words = self.say(key)
        return f"{words} [{measure.unit}]" if measure.unit else words

    def number(self, value: float | None, measure: Measure, in_si: int) -> str:
        """Return a number of the study without its unit; a dash where there is none."""
        return NONE if value is None else written(value, measure, in_si)

    def told(self, value: float, measure: Measure, in_si: int) -> str:
        """Return a number of the study with its unit."""
        return told(value, measure, in_si)

    def name_of(self, record: Record) -> str:
        """Return the name of a joint or hold, with its line where there are several."""
        several = len(records_of(self.results, "lines")) > 1
        name = text_of(record, "name")
        return self.say("of_line", name=name, line=text_of(record, "line")) if several else name

    def names_of(self, line: str, names: Sequence[str]) -> str:
        """Return the names of joints of a line, of a long run its two ends: "J2 to J19, J21"."""
        order = [text_of(joint, "name") for joint in self.joints if text_of(joint, "line") == line]
        return ", ".join(names_told(names, order, self.texts.from_to))


__all__ = ["Printer"]
