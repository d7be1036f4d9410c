"""Does a line between two anchors need a formal flexibility analysis?     (basis/screening.py)

The screening rule of the piping codes, ASME B31.9 919.4.1 eq. (8), the same in B31.1 119.7 and B31.3 319.4.1 (read).
It can only excuse a line from analysis. A line that it does not excuse has not failed: quick rules give opposite
verdicts on the same L-bend, so the answer is "formal analysis needed". Limits: one size, two anchors, no restraint
between them. B31.9 says nominal size, B31.3 outside diameter; the outside diameter is used, which is the larger.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.errors import OutOfRange

SCREENING_LIMIT = 208.3e-6  # printed as 208.3 with D and Y in mm, U and L in m; 0.03 with in, in, ft, ft
SCREENING_SOURCE = "ASME B31.9 919.4.1 eq. (8); ASME B31.1 119.7; ASME B31.3 319.4.1"


@dataclass(frozen=True, kw_only=True, slots=True)
class Screening:
    """What the screening rule says: value and limit [-], and never that a line fails."""

    value: float
    limit: float
    outcome: Literal["no formal analysis needed", "formal analysis needed"]
    because: str
    source: str


def screening_value(outside_diameter: float, expansion: float, developed: float, straight: float) -> float:
    """Return the left side of the screening rule.

        D Y / (L - U)^2                                ASME B31.9 919.4.1 eq. (8)

    Args:
        outside_diameter: D of the pipe [m].
        expansion: Y, resultant of the movements that the line must take up [m], zero or more.
        developed: L, developed length of the line between the anchors [m].
        straight: U, straight distance between the anchors [m].

    Returns:
        The value [-]: the one printed for mm and m times 1e-6.

    Raises:
        OutOfRange: The line is straight (L = U): the rule has nothing to say; or Y is below zero.
    """
    if not developed > straight >= 0:
        raise OutOfRange(
            f"developed length {developed:g} m is not above the distance between the anchors, {straight:g} m: the "
            "screening rule does not apply to a straight line."
        )
    if not (expansion >= 0 and outside_diameter > 0):
        raise OutOfRange(f"expansion {expansion:g} m is below zero, or diameter {outside_diameter:g} m not above it.")
    return outside_diameter * expansion / (developed - straight) ** 2


def screening_result(outside_diameter: float, expansion: float, developed: float, straight: float) -> Screening:
    """Return what the screening rule says of a line; the arguments are those of `screening_value`."""
    value = screening_value(outside_diameter, expansion, developed, straight)
    exempt = value <= SCREENING_LIMIT
    relation = "does not exceed" if exempt else "exceeds"
    return Screening(
        value=value,
        limit=SCREENING_LIMIT,
        outcome="no formal analysis needed" if exempt else "formal analysis needed",
        because=f"D Y/(L - U)^2 = {value * 1e6:.4g} mm2/m2 {relation} {SCREENING_LIMIT * 1e6:.4g} mm2/m2",
        source=SCREENING_SOURCE,
    )
