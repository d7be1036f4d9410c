"""The colour of a movement: from pale at rest to dark where the most moves.     (drawing/mesh/tones.py)

One hue that only darkens, so that the order is seen by the colour-blind and in grey print, and another than that of a
use (drawing/colour.py), which is the one thing that colour says elsewhere. Five support points of our own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.drawing.mesh.solid import Floats, Solid

_RAMP = np.array([[222, 227, 232], [158, 198, 222], [84, 152, 202], [28, 98, 168], [8, 44, 104]]) / 255.0
HOLD = np.array([108, 104, 98]) / 255.0
"""What holds the line, which does not move."""


def tone_of(shares: Floats) -> Floats:
    """Return the colours of movements as shares of the greatest, (n,) to (n, 3), from 0 to 1."""
    places = np.clip(shares, 0.0, 1.0) * (len(_RAMP) - 1)
    low = np.minimum(places.astype(int), len(_RAMP) - 2)
    part = (places - low)[:, None]
    return np.asarray(_RAMP[low] * (1.0 - part) + _RAMP[low + 1] * part)


def colours_of(solid: Solid, moved: Floats, greatest: float) -> Floats:
    """Return the colours of parts of a solid by how far they are moved [m]."""
    if solid.sort == "hold":
        return np.tile(HOLD, (len(moved), 1))
    return tone_of(moved / greatest if greatest > 0.0 else np.zeros(len(moved)))


@dataclass(frozen=True, slots=True)
class Toned:
    """Gives the faces of solids their colours by how far they are moved; `greatest` has the darkest [m]."""

    greatest: float

    def __call__(self, solid: Solid, moved: Floats) -> Floats:
        """Return the colour of some faces of a solid."""
        return colours_of(solid, moved, self.greatest)


__all__ = ["HOLD", "Toned", "colours_of", "tone_of"]
