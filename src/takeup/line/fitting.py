"""What is said of a joint beside its data: liner, flow, cover, what is in it and round it.     (line/fitting.py)

None is "not said" and never "no": what is not said is not looked at, and the papers say so. What the flow carries, the
lining and the materials are for the advice on materials (results/advice.py), and no check reads them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.joints.advice import Lining

Surrounding = Literal[
    "insulated",
    "walked by",
    "welded near",
    "in weather",
    "in ground",
    "chlorides",
    "sea air",
    "outdoors",
    "wet insulation",
    "swimming pool air",
    "zinc",
    "ammonia",
    "nothing harmful",
]
"""What may lie round a joint: the first five ask for a cover, all but the first three are for the advice on materials.

`in weather`: rain and ice fall on the joint itself; `outdoors`: rain reaches the line, the joint is sheltered.
"""


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
        traces: what the medium holds, of `joints.advice.TRACES`.
        chlorides_ppm: in the medium [mg/kg].
        lining: of its bellows.
        bellows_material: where neither a geometry nor a series says it; any words.
        ends_material: of its ends; any words.
    """

    velocity: float | None = None
    liner: Liner | None = None
    surroundings: tuple[Surrounding, ...] | None = None
    cover: bool | None = None
    traces: tuple[str, ...] | None = None
    chlorides_ppm: float | None = None
    lining: Lining | None = None
    bellows_material: str | None = None
    ends_material: str | None = None


NOTHING_SAID = Fitting()

__all__ = ["NOTHING_SAID", "Fitting", "Liner", "Surrounding"]
