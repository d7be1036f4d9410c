"""The force that a hold is to be designed for, and the use that belongs to it.     (papers/common/design.py)

A use and the demand that it was made from come from one row of the checks. Where no row has a use, because no limit is
given, the force is the greater of the envelope's and, of a guide, its design load of section 7.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    record_of,
    records_of,
    text_of,
    use_at,
    use_words,
)
from takeup.papers.common.numerals import NONE
from takeup.papers.common.tables import Cell

GUIDE = "guide_design_load"
_OF_FORCE = ("hold_capacity", GUIDE)
_MADE_FOR = "load to make it for, section 7"


@dataclass(frozen=True, kw_only=True, slots=True)
class Design:
    """A design force [N], the state in which it is, what it is where that is not the envelope's, and its use."""

    force: float
    state: str
    of_guide: bool
    use: float | None

    @property
    def where(self) -> Cell:
        """The state as a cell, with what the force is under it."""
        return (self.state, _MADE_FOR) if self.of_guide else self.state


def greatest_design(results: Results, hold: Record) -> Design:
    """Return the greater of the envelope's design force and, of a guide, the load that it has to be made for."""
    envelope = record_of(hold, "envelope")
    force, state = number_of(envelope, "design_force_n"), text_of(envelope, "design_state")
    for guide in records_of(results, "guides"):
        same = all(text_of(guide, key) == text_of(hold, key) for key in ("line", "name"))
        if same and number_of(guide, "design_n") > force:
            return Design(force=number_of(guide, "design_n"), state=text_of(guide, "state"), of_guide=True, use=None)
    return Design(force=force, state=state, of_guide=False, use=None)


def design_of(results: Results, hold: Record) -> Design:
    """Return the force of the governing check of forces at a hold with its use; without one, the greatest."""
    judged = [
        (_use(check), demand, check)
        for check in records_of(results, "checks")
        if text_of(check, "where") == text_of(hold, "name") and text_of(check, "rule") in _OF_FORCE
        if (demand := maybe_number(check, "demand")) is not None and _use(check) is not None
    ]
    if not judged:
        return greatest_design(results, hold)
    use, demand, check = max(judged, key=lambda row: (row[0] or 0.0, row[1]))
    of_guide = text_of(check, "rule") == GUIDE
    return Design(force=demand, state=text_of(check, "state"), of_guide=of_guide, use=use)


def _use(check: Record) -> float | None:
    """Return a use; without bound where a row fails and has no number."""
    use = maybe_number(check, "use")
    return math.inf if use is None and text_of(check, "outcome") == "fails" else use


def design_outcome(results: Results, name: str, design: Design) -> tuple[str, Cell]:
    """Return the use of a design force, and what the checks at its place say, with the one that asks more, if any.

    Args:
        results: the results document.
        name: of the hold.
        design: its design force.
    """
    words = NONE if design.use is None else use_words(design.use)
    most = use_at(results, name)
    if most is None:
        said = [text_of(check, "outcome") for check in records_of(results, "checks") if text_of(check, "where") == name]
        return words, said[0] if said else "no check here"
    if design.use is not None and most.value <= design.use:
        return words, most.outcome
    return words, (most.outcome, f"{most.title}: use {use_words(most.value)}")
