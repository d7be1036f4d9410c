"""Numbers as a reader wants them: sensible digits, a true minus, points in line.     (papers/numerals.py)

Results carry newtons and metres; papers print kN, kN·m and mm. A column has one number of decimals, so that with
figures of one width and set flush right its decimal points stand in line.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

MINUS = "\N{MINUS SIGN}"
NONE = "\N{EN DASH}"
_WHOLE = 1e4
_SMALL = 1e-3  # below this a fixed number of decimals shows only noughts
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_PRINTED = {
    "N": (1e-3, "kN"),
    "N m": (1e-3, "kN·m"),
    "mm2": (1.0, "mm²"),
    "deg": (1.0, "°"),
    "degC": (1.0, "°C"),
}


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


def scientific(value: float) -> str:
    """Return a small number as 5.3 × 10⁻¹⁴; nought as 0."""
    if value == 0.0:
        return "0"
    mantissa, _, exponent = f"{value:.1e}".partition("e")
    return f"{mantissa.replace('-', MINUS)} × 10{str(int(exponent)).translate(_RAISED)}"


def as_printed(unit: str) -> tuple[float, str]:
    """Return the factor and the name of the unit in which the papers print a number of this unit."""
    return _PRINTED.get(unit, (1.0, unit))


def plain(value: float | None) -> str:
    """Return a number that a person typed in, with no more digits than it has, at most five; whole digits are kept."""
    if value is None:
        return NONE
    words = f"{value:.0f}" if abs(value) >= _WHOLE else f"{value:.5g}"
    return words.replace("-", MINUS)
