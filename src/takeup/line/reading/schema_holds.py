"""What holds a line, as pydantic models.     (line/reading/schema_holds.py)"""

from __future__ import annotations

from typing import Annotated, get_args

from pydantic import Field

from takeup.line.holding import HoldKind, RuleKind
from takeup.line.parts import BendPlace, Vector
from takeup.line.reading.directions import Axis, Sense, axis, direction, sense
from takeup.line.reading.schema_ends import Moment, Movements, StiffnessItem
from takeup.line.reading.values import Force, Height, Item, LineRate, Movement, Name, Source
from takeup.reading.fields import number, one_of, texts, yes_or_no


class FrictionItem(Item):
    """A range of friction typed in with its source."""

    low: Annotated[float, number("a plain number", least=0.0, most=2.0)] = Field(description="lowest coefficient")
    high: Annotated[float, number("a plain number", least=0.0, most=2.0)] = Field(description="highest coefficient")
    source: Source = Field(description="where the range comes from")


class SpringItem(Item):
    """A spring hanger or spring support, from its maker's sheet."""

    rate: LineRate = Field(description="spring rate")
    cold_load: Force = Field(description="upward force on the pipe as it is set at installation")
    least_load: Force = Field(description="least load of its working range")
    most_load: Force = Field(description="greatest load of its working range")
    locked_in_test: Annotated[bool, yes_or_no()] = Field(
        default=True, description="whether it is a rigid support during the pressure test; yes where not said"
    )
    stop_up: Movement | None = Field(
        default=None,
        description="how far the pipe may rise from where it is installed before a stop; no stop if unsaid",
    )
    stop_down: Movement | None = Field(
        default=None,
        description="how far the pipe may sink from where it is installed before a stop; no stop if unsaid",
    )
    source: Source = Field(description="where the data come from")


class HoldItem(Item):
    """An anchor, a guide, a stop, a rest or a hanger; `at` says where, or `by` says which rule places it."""

    kind: Annotated[HoldKind, one_of(get_args(HoldKind), what="hold")] = Field(description="what holds the line")
    at: (
        Annotated[tuple[str, ...], texts("a position such as roof corner - 3 m, or a list of them", "34.5 m")] | None
    ) = Field(default=None, description="where it is (this or `by`); a list for guides, rests and hangers only")
    by: Annotated[RuleKind, one_of(get_args(RuleKind), what="rule")] | None = Field(
        default=None, description="the rule that places guides and rests (this or `at`)"
    )
    name: Name | None = Field(default=None, description="its name; where not said, its kind and its position")
    can_carry: Force | None = Field(default=None, description="force that it can carry")
    can_carry_moment: Moment | None = Field(default=None, description="of an anchor: moment that it can carry")
    on_bend: Annotated[BendPlace, one_of(get_args(BendPlace), what="place on the bend")] | None = Field(
        default=None, description="where on the bend, required at a corner that has one"
    )
    slides_on: Name | None = Field(
        default=None, description="friction pair of a guide or rest, such as PTFE on steel (this or `friction`)"
    )
    friction: FrictionItem | None = Field(
        default=None, description="friction of a guide or rest as a range with its source (this or `slides_on`)"
    )
    along: Annotated[Axis, axis()] | None = Field(
        default=None,
        description="of a directional anchor: the axis that it holds, in both senses; the pipe's if not said",
    )
    against: Annotated[Sense, sense()] | None = Field(
        default=None, description="of a stop, required: the movement that it stops"
    )
    gap: Movement | None = Field(
        default=None, description="of a stop: how far the line moves before it bears; none where not said"
    )
    clearance: Movement | None = Field(
        default=None,
        description="of a guide: how far the pipe moves across, each way, before it bears; none if not said",
    )
    free_along: Annotated[Vector, direction("the way it leaves free")] | None = Field(
        default=None, description="of a planar guide, required: the way across the pipe that it leaves free"
    )
    spring: SpringItem | None = Field(default=None, description="of a spring hanger, required: its spring")
    hot_leg: Height | None = Field(
        default=None, description="of a rest or slide guide: height of steel under the pipe that is as hot as the pipe"
    )
    stiffness: StiffnessItem | None = Field(
        default=None, description="of an anchor: how far its structure gives; rigid if not said"
    )
    settlement: Movements | None = Field(
        default=None, description="how far its foot moves before the line is hot: to the east, to the north and up"
    )
    only_in: Annotated[tuple[str, ...], texts("a state, or a list of them", "under hydrostatic test")] | None = Field(
        default=None, description="of a temporary hold: the states in which it is there"
    )
