"""Of how many anchors and guides every state is printed, and of more which states are.     (papers/loads/extent.py)

A line of two kilometres has thousands of rows by state, in which nobody finds the ones to design for. Beyond a number
of rows the PDF has of each anchor the states that govern: those in which its design load, a component of its envelope
or an end of its band occurs, and the pressure test. Of guides it then has what to make them for and their envelopes.
The workbook and the CSV file have every state of every hold at any length.
"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.papers.loads.held import Held, band_cases
from takeup.papers.loads.ranges import ON_THE_WAY

_MOST_ROWS = 400  # by state and friction, of all anchors together: some ten pages
_MOST_CELLS = 1500  # guides times states: as many


def has_many_anchors(anchors: Sequence[Held]) -> bool:
    """Tell whether anchors have more rows by state than are printed."""
    return sum(len(held.loads) for held in anchors) > _MOST_ROWS


def has_many_guides(guides: Sequence[Held]) -> bool:
    """Tell whether guides have more numbers by state than are printed."""
    return sum(len({load.state for load in held.loads}) for held in guides) > _MOST_CELLS


def governing_states(held: Held) -> frozenset[str]:
    """Return the states that govern anything of a hold, and those of the pressure test."""
    cases = [case.state for one in held.ranges if not one.is_nothing for case in (one.least_in, one.greatest_in)]
    band = band_cases(held)
    ends = [] if band is None else [state for state, _ in band[1:]]
    named = {state.removeprefix(ON_THE_WAY) for state in (held.governed_by[0], *cases, *ends)}
    return frozenset(named | {load.state for load in held.loads if held.is_test(load.state)})


__all__ = ["governing_states", "has_many_anchors", "has_many_guides"]
