"""Numbers as a reader wants them: sensible digits, a true minus, points in line.     (papers/common/numerals.py)

What a number of the results becomes in print, kN or lbf, is said by a `Measure` of `edge.py`. A column has one number
of decimals, so that with figures of one width and set flush right its decimal points stand in line.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Literal

from takeup.edge import Measure

MINUS = "\N{MINUS SIGN}"
NONE = "\N{EN DASH}"
_WHOLE = 1e4
_SMALL = 1e-3  # below this a fixed number of decimals shows only noughts
_NOISE = 1e-6  # of the last printed digit: what computing adds to a number that was typed in
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def fixed(value: float | None, decimals: int) -> str:
    """Return a number with so many decimals and a true minus; a dash where there is none, no minus before nought."""
    if value is None:
        return NONE
    if not math.isfinite(value):
        return "∞" if value > 0.0 else MINUS + "∞"
    words = f"{value:.{decimals}f}"
    if float(words) == 0.0:
        words = words.removeprefix("-")
    return words.replace("-", MINUS)


def percent_of(whole: str, difference: float | None) -> str:
    """Return a difference in per cent; a dash where the whole is printed as nought, of which nothing is a part."""
    return fixed(difference, 1) if any(letter in "123456789" for letter in whole) else NONE


def decimals_for(values: Iterable[float | None], figures: int = 4, most: int = 3) -> int:
    """Return the decimals that give the largest of some numbers about so many figures, between 0 and `most`."""
    largest = max((abs(value) for value in values if value is not None and math.isfinite(value)), default=0.0)
    if largest == 0.0:
        return 1
    return max(0, min(most, figures - 1 - math.floor(math.log10(largest))))


def column(values: Sequence[float | None], figures: int = 4, most: int = 3) -> list[str]:
    """Return a column of numbers with one number of decimals."""
    decimals = decimals_for(values, figures, most)
    return [fixed(value, decimals) for value in values]


def pair(demand: float | None, capacity: float | None) -> tuple[str, str]:
    """Return a demand and its capacity with the same decimals, enough to see which is larger (six more at most)."""
    if demand is None or capacity is None:
        return column([demand])[0], column([capacity])[0]
    if max(abs(demand), abs(capacity)) < _SMALL:
        return scientific(demand), scientific(capacity)
    whole = float(demand).is_integer() and float(capacity).is_integer()
    decimals = 0 if whole else decimals_for((demand, capacity))
    for more in range(decimals, decimals + 7):
        shown = fixed(demand, more), fixed(capacity, more)
        if shown[0] != shown[1] or demand == capacity:
            return shown
    return fixed(demand, decimals), fixed(capacity, decimals)


def to_safe_side(value: float, decimals: int, side: Literal["at least", "at most"]) -> float:
    """Return a limit with so many decimals, so that what is printed never asks for less than was meant.

    Args:
        value: the limit.
        decimals: that are printed.
        side: on which it lies: one that is wanted at least is rounded up, one that is allowed at most is rounded down.
    """
    step = 10.0**-decimals
    steps = value / step
    return step * (math.ceil(steps - _NOISE) if side == "at least" else math.floor(steps + _NOISE))


def scientific(value: float) -> str:
    """Return a small number as 5.3 × 10⁻¹⁴; nought as 0."""
    if value == 0.0:
        return "0"
    mantissa, _, exponent = f"{value:.1e}".partition("e")
    return f"{mantissa.replace('-', MINUS)} × 10{str(int(exponent)).translate(_RAISED)}"


def plain(value: float | None) -> str:
    """Return a number that a person typed in, with no more digits than it has, at most five; whole digits are kept."""
    if value is None:
        return NONE
    words = f"{value:.0f}" if abs(value) >= _WHOLE else f"{value:.5g}"
    return words.replace("-", MINUS)


def number_in(value: float | None, measure: Measure) -> float | None:
    """Return a number of the results as the number that is printed in a measure."""
    return None if value is None else measure.number(value)


def written(value: float | None, measure: Measure, in_si: int) -> str:
    """Return a number of the results in a measure, without its unit; a dash where there is none.

    Args:
        value: The number, in the unit that the results have.
        measure: How it is printed.
        in_si: The decimals that it has in SI.
    """
    if value is None or not math.isfinite(value):
        return fixed(value, in_si)
    if measure.feet:
        return measure.figures(value, in_si).replace("-", MINUS)
    return measure.parted(fixed(measure.number(value), measure.decimals(in_si)))


def told(value: float, measure: Measure, in_si: int) -> str:
    """Return a number of the results in a measure, with its unit, for a sentence."""
    return measure.named(written(value, measure, in_si))


def written_column(values: Sequence[float | None], measure: Measure, in_si: int) -> list[str]:
    """Return a column of numbers of the results in a measure, with one number of decimals, `in_si` at most in SI."""
    numbers = [number_in(value, measure) for value in values]
    return [measure.parted(words) for words in column(numbers, most=measure.decimals(in_si))]


def as_given(value: float | None, measure: Measure) -> str:
    """Return a number that a person typed in, in a measure, without its unit."""
    return NONE if value is None else measure.parted(plain(measure.given(value)))
