"""What a hand calculation says, or why there is none.     (hand/records.py)"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class HandResult:
    """One hand calculation, as it would stand on paper.

    Args:
        what: the quantity in words.
        formula: in symbols.
        numbers: the formula with the numbers put in.
        source: where the formula comes from.
        value: the result; None when there is no hand formula, and `because` says why.
        unit: of the value, SI.
        because: what the formula leaves out, or why there is none.
    """

    what: str
    formula: str
    numbers: str
    source: str
    value: float | None
    unit: str
    because: str = ""


def no_formula(what: str, unit: str, because: str) -> HandResult:
    """Return the answer "none", with its reason."""
    return HandResult(what=what, formula="none", numbers="", source="", value=None, unit=unit, because=because)
