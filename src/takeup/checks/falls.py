"""How a line rises and falls: its runs of legs with one slope.     (checks/falls.py)

A run is a leg with the valves, flanges and reducers in it; an eccentric reducer's own lean is no slope of the line.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.study import LineAnswer

LEAST = 1e-3  # a slope below it is meant to be level (common practice, no source)


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """A stretch of one slope.

    Args:
        start: station [m].
        end: station [m].
        first: name of the place where it begins.
        last: name of the place that it runs to.
        slope: rise over level length along the flow, above zero where it rises; infinite on a vertical run.
    """

    start: float
    end: float
    first: str
    last: str
    slope: float

    @property
    def rises(self) -> bool:
        """Whether it goes up along the flow."""
        return self.slope >= LEAST


def slope_of(direction: NDArray[np.float64]) -> float:
    """Return the rise over the level length of a direction; infinite on a vertical one.

    Args:
        direction: (3,).
    """
    level, rise = float(np.hypot(direction[0], direction[1])), float(direction[2])
    return rise / level if level > 0.0 else float(np.copysign(np.inf, rise))


def runs_of(answer: LineAnswer) -> list[Run]:
    """Return the runs of a line, along the flow."""
    route, line = answer.model.route, answer.line
    runs: list[Run] = []
    joined = False
    for number, leg in enumerate(line.legs):
        end = float(route.corners[number + 1])
        slope = slope_of(route.directions[number])
        if runs and (joined or leg.item is not None):
            runs[-1] = replace(runs[-1], end=end, last=leg.to.name)
        else:
            first = runs[-1].last if runs else line.start.name
            start = float(route.corners[number])
            runs.append(Run(start=start, end=end, first=first, last=leg.to.name, slope=slope))
        joined = leg.item is not None
    return runs
