"""What a place in a line asks of a joint.     (choose/selection/place.py)"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.joints import TakeUpKind

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """What a joint will go through, in s states, and what it must fit into.

    Args:
        name: of the take-up or of the duty.
        kinds: that may stand here; all of a series where empty.
        size_dn: number of the nominal size of the pipe (library, size_number); None where any size will do.
        size_words: that size as the library names it; as a DN where not said.
        outside_diameter: of the pipe, round which rods stand [m]; None where not known.
        states: in words, in order.
        tests: which of them are pressure tests, (s,).
        pressure: gauge, in each state [Pa], (s,).
        temperature: of the metal in each state [degC], (s,).
        axial: longer than as set, above zero, in each state [m], (s,).
        lateral: of its ends, resultant [m], (s,).
        angular: between its ends, resultant [rad], (s,).
        preset: fitted longer than neutral [m].
        misalignment: what installation may use up: lateral [m], angular [rad].
        cycles: of the full movement; None where nobody says.
        room: longest face-to-face length that there is room for [m].
        medium: what flows, as the library names it; "" where not said.
    """

    name: str
    kinds: tuple[TakeUpKind, ...] = ()
    size_dn: float | None
    size_words: str = ""
    outside_diameter: float | None = None
    states: tuple[str, ...]
    tests: NDArray[np.bool_]
    pressure: Floats
    temperature: Floats
    axial: Floats
    lateral: Floats
    angular: Floats
    preset: float = 0.0
    misalignment: tuple[float, float] = (0.0, 0.0)
    cycles: float | None = None
    room: float = math.inf
    medium: str = ""

    @property
    def size(self) -> str:
        """The size of the pipe in words."""
        return self.size_words or ("any size" if self.size_dn is None else f"DN {self.size_dn:g}")

    @property
    def hottest(self) -> float:
        """Highest temperature of the metal [degC]."""
        return float(self.temperature.max())


__all__ = ["Floats", "Place"]
