"""What results.json is made of: plain values.     (results/plain.py)"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Json: TypeAlias = "Mapping[str, Json] | Sequence[Json] | str | float | int | bool | None"


def numbers(values: NDArray[np.float64]) -> list[float]:
    """Return a flat array as plain numbers, negative zeros made zeros."""
    return [value + 0.0 for value in values.tolist()]
