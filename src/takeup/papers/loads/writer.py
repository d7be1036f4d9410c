"""Words and figures of the schedule, in its language and its units.     (papers/loads/writer.py)"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from takeup.drawing.reading import use_words
from takeup.edge import Measure, Units
from takeup.papers.common.numerals import MINUS, NONE, told, written_column
from takeup.papers.frame import Head
from takeup.papers.loads.held import Capacity, Held, Load
from takeup.papers.loads.ranges import GIVING, Case
from takeup.papers.words import Texts

TWO = 2  # decimals of a force in kN and of a moment in kN m
_DIGITS = frozenset("123456789")


@dataclass(frozen=True, kw_only=True, slots=True)
class Writer:
    """Writes in the language and units of a head."""

    texts: Texts
    units: Units

    def __call__(self, key: str, /, **fields: object) -> str:
        """Return a text of the schedule by its key."""
        return self.texts(f"loads.{key}", **fields)

    def said(self, words: str) -> str:
        """Return what the results say in English."""
        return self.texts.said(words)

    def force(self, newton: float) -> str:
        """Return a force with its unit."""
        return told(newton, self.units.force, TWO)

    def coordinate(self, metres: float) -> str:
        """Return a coordinate as one decimal number, without its unit."""
        return self.units.span.figures(metres, TWO).replace("-", MINUS)

    def column(self, values: Sequence[float | None], measure: Measure) -> list[str]:
        """Return numbers with one number of decimals and a plus before those above zero."""
        return [signed(words) for words in written_column(values, measure, TWO)]

    def scenario(self, scenario: str) -> str:
        """Return the name of a scenario."""
        return self("structures_give") if scenario == GIVING else self.said(scenario)

    def case(self, case: Case) -> str:
        """Return where a value occurs: the state, then friction and rates."""
        scenario = self.scenario(case.scenario)
        if case.bound:
            scenario = self("bound_either_way", scenario=scenario)
        return ", ".join(filter(None, (self.said(case.state), scenario)))

    def use(self, capacity: Capacity) -> str:
        """Return a use, a dash where there is none."""
        return NONE if capacity.use is None else self.texts.figures(use_words(capacity.use))

    def marks(self, held: Held, load: Load) -> tuple[str, ...]:
        """Return all that has to be said of a load."""
        return (*self.of_state(held, load), *self.of_load(held, (load,)))

    def of_state(self, held: Held, load: Load) -> tuple[str, ...]:
        """Return what sort of state a load is of, and whether it governs."""
        keys = {"test": ["mark_test"], "one side": ["mark_one_side"]}.get(load.kind, [])
        if load.state == held.governed_by[0]:
            keys = [*keys, "mark_test_governs" if held.of_test else "mark_governs"]
        return tuple(map(self, keys))

    def of_load(self, held: Held, loads: Sequence[Load]) -> tuple[str, ...]:
        """Return that the hold is not there, is open, or carries nothing in some loads that are alike."""
        if held.only_in is not None and loads[0].state not in held.only_in:
            return (self("mark_not_there"),)
        if not all(load.is_nothing for load in loads):
            return ()
        return (self("mark_open" if all(load.touches is False for load in loads) else "mark_nothing"),)

    def governed(self, held: Held) -> tuple[str, str]:
        """Return the state that governs, the test marked, and the friction and rates or why a guide's load does."""
        state, why = held.governed_by
        words = self.said(state)
        if held.of_test:
            words = self("test_governs", state=words)
        return words, self.said(why)


def writer_of(head: Head) -> Writer:
    """Return what writes a paper of this head."""
    return Writer(texts=head.texts, units=head.units)


def signed(words: str) -> str:
    """Return figures with a plus before what is above zero."""
    if words.startswith(MINUS) or words == NONE or not _DIGITS & set(words):
        return words
    return f"+{words}"


__all__ = ["TWO", "Writer", "signed", "writer_of"]
