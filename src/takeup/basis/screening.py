"""Does a line between two anchors need a formal flexibility analysis?     (basis/screening.py)

The screening rule of the piping codes, ASME B31.9 919.4.1 eq. (8), the same in B31.1 119.7 and B31.3 319.4.1 (read).
It can only excuse a line from analysis. A line that it does not excuse has not failed: quick rules give opposite
verdicts on the same L-bend, so the answer is "formal analysis needed". Limits: one size, two anchors, no restraint
between them, no near-straight saw-tooth, no U of unequal legs longer than 2.5 U. B31.9 says nominal size, B31.3 outside
diameter; the outside diameter is used, which is the larger. EN 13480-3 has the same rule (from memory, low).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.basis.codes import Code, above_zero, clause
from takeup.errors import OutOfRange

SCREENING_LIMIT = 208.3e-6  # printed as 208.3 with D and Y in mm, U and L in m; 0.03 with in, in, ft, ft
LIMIT_BY_MATERIAL = 30 / 144  # 30 with in, in, ft, ft
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


def screening_limit(allowable_range: float, modulus: float) -> float:
    """Return the limit of the screening rule by the material, which newer editions print beside the fixed number.

        K_1 = 30 S_A/E_a with in, in, ft, ft = 208 000 S_A/E_a with mm, mm, m, m     ASME B31.3 319.4.1 (from memory)

    Args:
        allowable_range: S_A [Pa].
        modulus: E_a, at installation [Pa].

    Returns:
        The limit [-], 30/144 S_A/E_a.
    """
    above_zero(allowable_range=allowable_range, modulus=modulus)
    return LIMIT_BY_MATERIAL * allowable_range / modulus


def screening_result(
    outside_diameter: float, expansion: float, developed: float, straight: float, *, code: Code | None = None
) -> Screening:
    """Return what the screening rule says of a line, with its clause in a code, or in all of ASME's without one.

    The other arguments are those of `screening_value`.
    """
    value = screening_value(outside_diameter, expansion, developed, straight)
    exempt = value <= SCREENING_LIMIT
    relation = "does not exceed" if exempt else "exceeds"
    return Screening(
        value=value,
        limit=SCREENING_LIMIT,
        outcome="no formal analysis needed" if exempt else "formal analysis needed",
        because=f"D Y/(L - U)^2 = {value * 1e6:.4g} mm2/m2 {relation} {SCREENING_LIMIT * 1e6:.4g} mm2/m2",
        source=SCREENING_SOURCE if code is None else clause(code, "screening").words,
    )
