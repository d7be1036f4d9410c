"""Where a line may be held and what is kept clear, as pydantic models.     (line/reading/schema_allowed.py)"""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import Field

from takeup.line.parts import Vector
from takeup.line.reading.directions import direction
from takeup.line.reading.schema_ends import Moment
from takeup.line.reading.values import Force, Item
from takeup.reading.fields import free_text, quantity, texts

Stretch: TypeAlias = Annotated[
    list[Annotated[str, free_text("a position such as roof corner - 3 m", "34.5 m")]],
    Field(min_length=2, max_length=2),
]
Step: TypeAlias = Annotated[float, quantity("length", "6 m", above=0.0, most="1000 m")]
Depth: TypeAlias = Annotated[float, quantity("length", "3 m", above=0.0, most="100 m")]


class CapacityItem(Item):
    """What the building takes at a place; what is not said is not looked at, and the papers say so."""

    force: Force | None = Field(default=None, description="force that it can carry")
    moment: Moment | None = Field(default=None, description="moment that it can carry")


class MayHoldItem(Item):
    """Places that could become anchors in a proposal; in a study they do nothing."""

    at: (
        Annotated[tuple[str, ...], texts("a position such as roof corner - 3 m, or a list of them", "34.5 m")] | None
    ) = Field(default=None, description="the places (this or `every`)")
    every: Step | None = Field(default=None, description="distance from one place to the next (this or `at`)")
    between: Stretch | None = Field(
        default=None, description="of `every`: from where to where; the whole line where not said"
    )
    can_carry: CapacityItem | None = Field(default=None, description="what the building takes there")


class LoopRoomItem(Item):
    """Room beside the line for pipe loops; without it none is proposed."""

    towards: Annotated[Vector, direction("the way a loop goes out")] = Field(description="the way a loop goes out")
    depth: Depth = Field(description="how far it may go out")
    between: Stretch | None = Field(default=None, description="from where to where; the whole line where not said")


__all__ = ["CapacityItem", "LoopRoomItem", "MayHoldItem", "Stretch"]
