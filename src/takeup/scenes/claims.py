"""Claims put together: the model's number beside the hand's, in a unit that people read.     (scenes/claims.py)

    equals    |model - hand| <= tolerance
    above     model > hand;   below    model < hand

`EXACT` is the tolerance of a formula that leaves nothing out: the model's answers are verified to 1e-8 of its largest
force, and a hundred times that is asked here.
"""

from __future__ import annotations

from typing import Literal

from takeup.scenes.records import Claim

FIRST_PRINCIPLES = "first principles"
TEXTBOOK = "textbook"
TRADE = "common practice"
EJMA = "EJMA, anchor loads (from memory)"
EXACT = 1e-6
EXACT_BECAUSE = "the formula leaves nothing out: a millionth, a hundred times the residual that the model allows"
NOTHING_BECAUSE = "nothing is to be left: rounding of the forces that cancel, far below what any scale would show"
NOTHING = 1e-4  # in kN or mm
Unit = Literal["kN", "mm", "bar", "MPa", "K", "m", ""]
_SIZE: dict[Unit, float] = {"kN": 1e3, "mm": 1e-3, "bar": 1e5, "MPa": 1e6, "K": 1.0, "m": 1.0, "": 1.0}


def equal(
    text: str,
    unit: Unit,
    model: float,
    hand: float,
    *,
    formula: str,
    source: str = FIRST_PRINCIPLES,
    share: float = EXACT,
    because: str = EXACT_BECAUSE,
) -> Claim:
    """Return the claim that two numbers are the same.

    Args:
        text: the claim.
        unit: that both are shown in.
        model: SI.
        hand: SI.
        formula: in symbols.
        source: of the formula.
        share: of the hand's number that they may be apart.
        because: why so far.
    """
    size = _SIZE[unit]
    return Claim(
        text=text,
        unit=unit,
        model=float(model) / size,
        hand=float(hand) / size,
        relation="equals",
        tolerance=abs(float(hand)) / size * share,
        because=because,
        formula=formula,
        source=source,
    )


def nothing(text: str, unit: Unit, model: float, *, formula: str, source: str = FIRST_PRINCIPLES) -> Claim:
    """Return the claim that a number of the model's is nought; arguments as for `equal`."""
    return Claim(
        text=text,
        unit=unit,
        model=float(model) / _SIZE[unit],
        hand=0.0,
        relation="equals",
        tolerance=NOTHING,
        because=NOTHING_BECAUSE,
        formula=formula,
        source=source,
    )


def beyond(
    text: str,
    unit: Unit,
    model: float,
    limit: float,
    *,
    formula: str,
    relation: Literal["above", "below"] = "above",
    source: str = TRADE,
) -> Claim:
    """Return the claim that a number of the model's is above or below a limit; arguments as for `equal`."""
    return Claim(
        text=text,
        unit=unit,
        model=float(model) / _SIZE[unit],
        hand=float(limit) / _SIZE[unit],
        relation=relation,
        tolerance=0.0,
        because="a limit has no tolerance",
        formula=formula,
        source=source,
    )
