"""What a cell says of pressure at temperature.     (joints/tables/derating.py)

Temperatures are in the unit that ends the name of the column, as everywhere in a table; stored ones are in ours.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from typing import Final

import numpy as np

from takeup.joints.tables.measures import in_ours, ours
from takeup.joints.tables.table import Derating
from takeup.reading.numbers import is_number
from takeup.reading.sheet import quoted
from takeup.units import ABSOLUTE_ZERO

OURS: Final = ours("temperature")
_MARKS = {"c": "°C", "f": "°F", "k": "K"}
_EXAMPLES = {
    "c": "20:1.00 150:0.93 300:0.80",
    "f": "70:1.00 300:0.93 570:0.80",
    "k": "293:1.00 423:0.93 573:0.80",
}
_ROUNDING = 1e-6  # K: of a temperature that was converted
_MOST_ABOVE = 300.0  # K: no bellows is pressed that much hotter than it is rated for; the unit is another one


@cache
def derating_of(text: str, suffix: str = OURS) -> Derating | str:
    """Return temperatures [degC] and shares of the rated pressure, empty for no text; else what is wrong.

    Args:
        text: such as `20:1.00 150:0.93 300:0.80`.
        suffix: unit of its temperatures, as the name of the column ends.
    """
    pairs = []
    for part in text.split():
        temperature, colon, share = part.partition(":")
        if not (colon and is_number(temperature) and is_number(share)):
            mark, example = _MARKS[suffix], _EXAMPLES[suffix]
            return f"found {quoted(part)}, expected {mark}:share with blanks between, such as {example}"
        pairs.append((_celsius(float(temperature), suffix), float(share), f"{float(temperature):g} {_MARKS[suffix]}"))
    for degrees, left, said in pairs:
        if not 0.0 < left <= 1.0:
            return f"the share {left:g} at {said} must be above 0 and 1 at most"
        if degrees <= ABSOLUTE_ZERO:
            return f"{said} is not above {ABSOLUTE_ZERO:g} °C"
    for (cold, first, before), (hot, second, said) in pairwise(pairs):
        if hot <= cold:
            return f"{said} stands behind {before}; temperatures rise"
        if second > first:
            return f"the share rises from {first:g} to {second:g} at {said}; it may only fall as it gets hotter"
    return tuple((degrees, left) for degrees, left, _ in pairs)


def against_rated(curve: Derating, rated: float) -> str:
    """Return why a curve is not one for a rated temperature [degC]; "" where it is.

    Args:
        curve: as `derating_of` returns it.
        rated: temperature up to which the whole pressure is rated where there is no curve [degC].
    """
    if not curve or np.isnan(rated):
        return ""
    first, last = curve[0][0], curve[-1][0]
    if first > rated + _ROUNDING:
        return f"it begins at {first:.5g} °C, above the rated temperature, {rated:.5g} °C; is its unit right?"
    if last > rated + _MOST_ABOVE + _ROUNDING:
        more = f"more than {_MOST_ABOVE:g} °C above the rated temperature, {rated:.5g} °C"
        return f"it ends at {last:.5g} °C, {more}; is its unit right?"
    return ""


def in_our_unit(text: str, suffix: str) -> str:
    """Return a sound derating with temperatures in our unit, every digit; one that has it already as it was typed."""
    if suffix == OURS:
        return text
    curve = derating_of(text, suffix)
    assert not isinstance(curve, str), "a derating with faults is not stored"
    return " ".join(f"{degrees!r}:{left!r}" for degrees, left in curve)


def _celsius(value: float, suffix: str) -> float:
    return float(in_ours(np.array([value]), "temperature", suffix)[0])


__all__ = ["OURS", "against_rated", "derating_of", "in_our_unit"]
