"""What a cell says of pressure at temperature.     (joints/tables/derating.py)"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

from takeup.joints.tables.table import Derating
from takeup.reading.numbers import is_number
from takeup.reading.sheet import quoted
from takeup.units import ABSOLUTE_ZERO

_EXAMPLE = "20:1.00 150:0.93 300:0.80"


@cache
def derating_of(text: str) -> Derating | str:
    """Return temperatures [degC] and shares of the rated pressure, empty for no text; else what is wrong.

    Args:
        text: such as `20:1.00 150:0.93 300:0.80`.
    """
    pairs = []
    for part in text.split():
        temperature, colon, share = part.partition(":")
        if not (colon and is_number(temperature) and is_number(share)):
            return f"found {quoted(part)}, expected °C:share with blanks between, such as {_EXAMPLE}"
        pairs.append((float(temperature), float(share)))
    for degrees, left in pairs:
        if not 0.0 < left <= 1.0:
            return f"the share {left:g} at {degrees:g} °C must be above 0 and 1 at most"
        if degrees <= ABSOLUTE_ZERO:
            return f"{degrees:g} °C is not above {ABSOLUTE_ZERO:g} °C"
    for (cold, first), (hot, second) in pairwise(pairs):
        if hot <= cold:
            return f"{hot:g} °C stands behind {cold:g} °C; temperatures rise"
        if second > first:
            return f"the share rises from {first:g} to {second:g} at {hot:g} °C; it may only fall as it gets hotter"
    return tuple(pairs)


__all__ = ["derating_of"]
