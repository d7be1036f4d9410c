"""Colour says one thing: how full something is.     (drawing/colour.py)

A ramp from dark blue to yellow that keeps its order for the colour-blind and in grey print; five support points in
the manner of the cividis ramp (Nuñez, Anderton, Renslow 2018, from memory), linear between them. The number stands
beside it wherever it is used; what is at or over full has one colour, and its outcome is said in words.
"""

from __future__ import annotations

from takeup.drawing.reading import FULL

_RAMP = ((0, 32, 76), (65, 77, 107), (124, 123, 120), (188, 174, 108), (255, 234, 70))


def colour_of(use: float) -> str:
    """Return the colour of a use, "#rrggbb"; at and above 1.0 it is the last of the ramp."""
    place = min(max(use / FULL, 0.0), 1.0) * (len(_RAMP) - 1)
    low = min(int(place), len(_RAMP) - 2)
    share = place - low
    mixed = (round(a + share * (b - a)) for a, b in zip(_RAMP[low], _RAMP[low + 1], strict=True))
    return "#" + "".join(f"{channel:02x}" for channel in mixed)
