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


def force_and_moment(load: Sequence[float]) -> dict[str, Json]:
    """Return six components as a force [N] and a moment [N m], negative zeros made zeros."""
    plain = [value + 0.0 for value in load]
    return {"force_n": plain[:3], "moment_nm": plain[3:]}
