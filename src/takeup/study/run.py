"""One run of the model: the answers to all states and causes, before they are told apart by line.     (study/run.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """Answers of all states and causes: displacements, end forces and reactions, and how well each state verified.

    Args:
        displacements: (states, causes, n, 6).
        starts: on each member's start, (states, causes, m, 6).
        ends: on each member's end, (states, causes, m, 6).
        reactions: of each support on the frame, (states, causes, h, 6).
        residual: (states,).
        verified: (states,).
        condition: the greatest of all factorisations.
        because: why a state is refused.
    """

    displacements: Floats
    starts: Floats
    ends: Floats
    reactions: Floats
    residual: Floats
    verified: NDArray[np.bool_]
    condition: float
    because: str
