"""Standard scales of drawings: whole ratios in SI, architect's and engineer's in US units. (drawing/sheets/scales.py)

SI: ISO 5455 (from memory) has 1 : 2, 5, 10, 20, 50, ...; 1 : 25, 250 and 2500 stand on scale rules and are used beside
them. US: so many inches of paper to the foot down to 1/8 in, then one inch to so many feet (from memory of the scale
rules of the trade).
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.edge import System
from takeup.errors import OutOfRange

_SI = (1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 2500, 5000, 10_000, 20_000, 25_000, 50_000, 100_000)
_ARCHITECTS = {4: "3 in", 8: "1 1/2 in", 12: "1 in", 16: "3/4 in", 24: "1/2 in", 32: "3/8 in", 48: "1/4 in"} | {
    64: "3/16 in",
    96: "1/8 in",
}
_ENGINEERS = (10, 20, 30, 40, 50, 60, 100, 200, 300, 400, 500, 600, 1000, 2000, 3000, 4000, 5000)
_INCHES = 12
_SLACK = 1.0 + 1e-9  # what fits exactly is not refused for its last bit


@dataclass(frozen=True, kw_only=True, slots=True)
class Scale:
    """A scale 1 : `ratio` and how it is written."""

    ratio: int
    words: str


def scales_of(system: System) -> tuple[Scale, ...]:
    """Return the standard scales, the largest drawing first."""
    if system == "si":
        return tuple(Scale(ratio=ratio, words=f"1 : {ratio}") for ratio in _SI)
    small = [Scale(ratio=ratio, words=f"{inches} = 1 ft") for ratio, inches in _ARCHITECTS.items()]
    large = [Scale(ratio=_INCHES * feet, words=f"1 in = {feet} ft") for feet in _ENGINEERS]
    return (Scale(ratio=1, words="1 : 1"), *small, *large)


def scale_for(extent: tuple[float, float], room: tuple[float, float], system: System) -> Scale:
    """Return the largest standard scale at which an extent fits into a room.

    Args:
        extent: Width and height in the world [m].
        room: Width and height on paper [mm].
        system: Of units.

    Raises:
        OutOfRange: It fits at none of them.
    """
    needed = max(1000.0 * side / space for side, space in zip(extent, room, strict=True))
    for scale in scales_of(system):
        if scale.ratio * _SLACK >= needed:
            return scale
    raise OutOfRange(f"{max(extent):g} m do not fit on a sheet at any standard scale; draw shorter lines.")


def next_scale(scale: Scale, system: System) -> Scale:
    """Return the next smaller drawing's scale; the last one stays."""
    every = scales_of(system)
    return every[min(every.index(scale) + 1, len(every) - 1)]


def steps_between(larger: Scale, smaller: Scale, system: System) -> int:
    """Return how many scales of the row lie from one to another."""
    every = scales_of(system)
    return every.index(smaller) - every.index(larger)
