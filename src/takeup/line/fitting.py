"""What is said of a joint beside its data: liner, flow, what lies round it, cover.     (line/fitting.py)

None is "not said" and never "no": what is not said is not looked at, and the papers say so.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Surrounding = Literal["insulated", "walked by", "welded near", "in weather", "in ground", "chlorides", "sea air"]
"""What may lie round a joint: the first five ask for a cover, all for thought about the material."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Liner:
    """The sleeve inside a joint, fixed at its end upstream and open downstream.

    Args:
        fitted: whether there is one.
        clearance: between it and the bellows' inside, of the radius [m]; None: not said.
        length: beyond its fixed end [m]; None: not said.
        drained: whether it has holes by its fixed end; None: not said.
        source: where the data come from; "" where none is typed in.
    """

    fitted: bool
    clearance: float | None = None
    length: float | None = None
    drained: bool | None = None
    source: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Fitting:
    """How a joint is fitted out, as far as the file says.

    Args:
        velocity: the greatest with which the medium flows through it [m/s].
        liner: its liner, or that there is none.
        surroundings: what lies round it; an empty one cannot be written.
        cover: whether a cover is fitted over its bellows.
    """

    velocity: float | None = None
    liner: Liner | None = None
    surroundings: tuple[Surrounding, ...] | None = None
    cover: bool | None = None


NOTHING_SAID = Fitting()

__all__ = ["NOTHING_SAID", "Fitting", "Liner", "Surrounding"]
