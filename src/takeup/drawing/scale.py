"""Which scale a view gets, and the bar that shows it.     (drawing/scale.py)

Scales are 1 : 1, 2 or 5 times a power of ten, the series of ISO 5455 (from memory): a rule can be laid on the print.
"""

from __future__ import annotations

import math

from takeup.errors import OutOfRange

_STEPS = (1, 2, 5)
_PER_METRE = 1000.0
_LEVEL = 1e-6  # a rise below a micrometre is none [m]


def choose_scale(extent: tuple[float, float], room: tuple[float, float]) -> int:
    """Return the denominator N of the largest scale 1:N at which an extent fits into a room.

        N >= 1000 extent / room, in both directions

    Args:
        extent: Width and height in the world [m].
        room: Width and height on paper [mm].

    Returns:
        N, of the series 1, 2, 5, 10, 20, 50, ...

    Raises:
        OutOfRange: The room is nothing, or the extent is no finite length.
    """
    if min(room) <= 0.0 or not all(math.isfinite(side) and side >= 0.0 for side in extent):
        raise OutOfRange(f"an extent of {extent} m cannot be drawn in {room} mm; give both as finite lengths.")
    needed = max(_PER_METRE * side / space for side, space in zip(extent, room, strict=True))
    return round_up(needed)


def round_up(needed: float) -> int:
    """Return the first of 1, 2, 5, 10, ... that is not below a number; at least 1."""
    power = 10 ** max(0, math.floor(math.log10(max(needed, 1.0))))
    slack = 1.0 + 1e-9  # an extent that fits exactly is not refused for its last bit
    return next(int(step * power) for step in (*_STEPS, 10) if step * power * slack >= needed)


def steps_of(scale: int) -> int:
    """Return how many steps of the series 1, 2, 5, 10, ... a denominator of it is above 1."""
    power = len(str(scale)) - 1
    return 3 * power + _STEPS.index(scale // 10**power)


def round_down(most: float) -> float:
    """Return the last of ..., 0.1, 0.2, 0.5, 1, 2, 5, 10, ... that is not above a number above zero."""
    power = 10.0 ** math.floor(math.log10(most))
    return max(step * power for step in _STEPS if step * power <= most * (1.0 + 1e-9))


def bar_length(scale: int, most: float, unit: float = 1.0) -> float:
    """Return the round length of a scale bar that is at most so long on paper [mm], in a unit of so many metres."""
    return round_down(most * scale / _PER_METRE / unit)


def exaggeration(rise: float, scale: int, room: float) -> int:
    """Return by how much elevations are drawn larger than stations: 1, 2, 5, 10, ..., stated on the sheet.

    A level line and one whose rise shows by itself are not exaggerated.

    Args:
        rise: Highest less lowest elevation [m].
        scale: Denominator of the scale of stations.
        room: Height on paper [mm].

    Returns:
        The factor, 1 or more.
    """
    paper = _PER_METRE * rise / scale
    if rise < _LEVEL or paper >= room / 4.0:
        return 1
    return int(max(1.0, round_down(min(room / 2.0 / paper, 100.0))))
