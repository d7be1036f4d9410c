"""What holds an end of a line, as pydantic models: its structure, its equipment.     (line/reading/schema_ends.py)"""

from __future__ import annotations

from typing import Annotated, TypeAlias, get_args

from pydantic import Field

from takeup.line.holding import NozzleRule
from takeup.line.parts import Vector
from takeup.line.reading.directions import direction
from takeup.line.reading.values import Force, Item, Source
from takeup.reading.fields import Reads, nearest, number, one_of, quantity, sentence
from takeup.units import Kind, parse

RIGID = "rigid"

Moment: TypeAlias = Annotated[float, quantity("moment", "12 kN·m", above=0.0, most="100000 kN·m")]
Shift: TypeAlias = Annotated[float, quantity("length", "3 mm", most="1 m")]
Movements: TypeAlias = Annotated[list[Shift], Field(min_length=3, max_length=3)]
ForceLimits: TypeAlias = Annotated[list[Force], Field(min_length=3, max_length=3)]
MomentLimits: TypeAlias = Annotated[list[Moment], Field(min_length=3, max_length=3)]


def _rate(kind: Kind, example: str) -> Reads:
    """Make the marker of how a structure gives: a rate above zero, or None where it is rigid."""

    def read(text: str) -> float | None:
        if text == RIGID:
            return None
        if not any(letter.isdigit() for letter in text):
            raise ValueError(f"'{text}' is neither a rate nor 'rigid'{nearest(text, (RIGID,))}")
        value = parse(text, kind)
        if value <= 0.0:
            raise ValueError(f"'{text}' must be above 0")
        return value

    return sentence(read, f"a rate such as {example}, or rigid", RIGID, example)


ForceRate: TypeAlias = Annotated[float | None, _rate("force per length", "80 kN/mm")]
MomentRate: TypeAlias = Annotated[float | None, _rate("moment per angle", "5 kN·m/deg")]


class StiffnessItem(Item):
    """How far the structure behind an anchor gives, in global axes."""

    force: Annotated[list[ForceRate], Field(min_length=3, max_length=3)] = Field(
        description="against movement to the east, to the north and up"
    )
    moment: Annotated[list[MomentRate], Field(min_length=3, max_length=3)] = Field(
        description="against turning about the axes to the east, to the north and up"
    )
    source: Source = Field(description="where the rates come from")


class GrowthItem(Item):
    """How far equipment moves its nozzle when the line operates."""

    movement: Movements = Field(description="to the east, to the north and up")
    source: Source = Field(description="where it comes from")


class NozzleItem(Item):
    """What a piece of equipment allows at its nozzle; x points from the equipment into the line."""

    force: ForceLimits = Field(description="limits of the force along the nozzle's axes x, y and z")
    moment: MomentLimits = Field(description="limits of the moment about the nozzle's axes x, y and z")
    up: Annotated[Vector, direction("where z points before it is made square to x")] | None = Field(
        default=None, description="direction of z before it is made square to x; where not said, as the line's own"
    )
    rule: Annotated[NozzleRule, one_of(get_args(NozzleRule), what="rule")] = Field(
        description="how the components are put together"
    )
    limit: Annotated[float, number("a plain number", least=0.0)] | None = Field(
        default=None, description="limit of the sum, for the two combining rules; 1.0 where not said"
    )
    source: Source = Field(description="where the limits come from")


class EndKeys(Item):
    """What an end of a line may say of what holds it: the start and the last leg share these keys."""

    can_carry: Force | None = Field(default=None, description="force that the anchor can carry")
    can_carry_moment: Moment | None = Field(default=None, description="moment that the anchor can carry")
    stiffness: StiffnessItem | None = Field(default=None, description="how far its structure gives; rigid if not said")
    settlement: Movements | None = Field(
        default=None, description="how far its foot moves before the line is hot: to the east, to the north and up"
    )
    growth: GrowthItem | None = Field(default=None, description="of equipment: how far it moves its nozzle, hot")
    nozzle: NozzleItem | None = Field(default=None, description="of equipment: what it allows at its nozzle")
