"""A joint's hardware as pydantic models.     (line/reading/schema_hardware.py)"""

from __future__ import annotations

from typing import Annotated, Literal, get_args

from pydantic import Field

from takeup.line.reading.pin_ways import PinWay, pin_way
from takeup.line.reading.schema_ends import Moment
from takeup.line.reading.schema_holds import FrictionItem
from takeup.line.reading.values import Force, Item, JointLength, LineRate, Movement, Name, Source
from takeup.reading.fields import one_of, quantity, whole_number, yes_or_no

Thick = Annotated[float, quantity("length", "20 mm", above=0.0, most="500 mm")]
Modulus = Annotated[float, quantity("stress", "200 GPa", above=0.0, most="1000 GPa")]
Expansion = Annotated[float, quantity("expansion coefficient", "12e-6 1/K", above=0.0, most="1e-4 1/K")]
Wide = Annotated[float, quantity("length", "400 mm", above=0.0, most="10 m")]
Yield = Annotated[float, quantity("stress", "235 MPa", above=0.0, most="2000 MPa")]
BaseKind = Literal["intermediate anchor", "main anchor"]


class RodsItem(Item):
    """Tie rods or limit rods, from one end of a joint to the other: they pull when their nuts bear, and never push."""

    count: Annotated[int, whole_number("from 2 to 24", least=2, most=24)] = Field(
        description="how many, evenly round the pipe"
    )
    diameter: Annotated[float, quantity("length", "30 mm", above=0.0, most="300 mm")] = Field(
        description="diameter of each that carries"
    )
    circle: Annotated[float, quantity("length", "400 mm", above=0.0, most="10 m")] = Field(
        description="diameter of the circle they stand on"
    )
    gap: Movement | None = Field(
        default=None,
        description="between nut and lug as fitted; none for tie rods where not said, and required of limit rods",
    )
    length: JointLength | None = Field(default=None, description="between the nuts; the joint's length where not said")
    modulus: Annotated[float, quantity("stress", "200 GPa", above=0.0, most="1000 GPa")] = Field(
        description="modulus of elasticity of their steel"
    )
    hot: Annotated[bool, yes_or_no()] = Field(
        description="whether they become as hot as the pipe; no where they stay as cold as installed"
    )
    expansion: Expansion | None = Field(
        default=None, description="mean coefficient of expansion; of hot rods, required"
    )
    can_carry: Force | None = Field(default=None, description="tension that each can carry")
    yield_strength: Yield | None = Field(
        default=None, description="yield strength of their steel at the temperature it works at"
    )
    source: Source = Field(description="where the data come from")


class PinsItem(Item):
    """Two plates or bars, one on either side of the pipe, with pins: of a hinged, a gimbal or a swing joint."""

    along: Annotated[PinWay, pin_way()] = Field(
        description="how they lie across the pipe: level, or upright, at right angles to that; on a vertical pipe a "
        "direction; of a gimbal one pair"
    )
    spread: Wide = Field(description="between the middles of the two plates or bars")
    diameter: Thick = Field(description="diameter of a pin")
    width: Thick = Field(description="width of a plate or bar, across its pull")
    thickness: Thick = Field(description="thickness of a plate or bar")
    length: JointLength | None = Field(
        default=None, description="of a plate, or between the pins of a swing bar; the joint's length where not said"
    )
    modulus: Modulus = Field(description="modulus of elasticity of plates and bars")
    hot: Annotated[bool, yes_or_no()] = Field(
        description="whether plates and bars become as hot as the pipe; no where they stay as cold as installed"
    )
    expansion: Expansion | None = Field(
        default=None, description="mean coefficient of expansion; of hot plates and bars, required"
    )
    slides_on: Name | None = Field(
        default=None, description="friction pair of a pin in its hole, such as steel on steel (this or `friction`)"
    )
    friction: FrictionItem | None = Field(
        default=None, description="friction of a pin in its hole as a range with its source (this or `slides_on`)"
    )
    can_carry: Force | None = Field(default=None, description="pull that both plates can carry together")
    yield_strength: Yield | None = Field(
        default=None, description="yield strength of plates and pins at the temperature they work at"
    )
    source: Source = Field(description="where the data come from")


class PinsLieItem(Item):
    """How the pins of a joint of a series lie where it stands."""

    along: Annotated[PinWay, pin_way()] = Field(
        description="level, or upright, at right angles to that; on a vertical pipe a direction; of a gimbal one pair"
    )


class BalanceItem(Item):
    """A balancing bellows, tied across a joint so that its thrust is taken off the line's."""

    axial_rate: LineRate = Field(description="axial spring rate of the balancing bellows, of all where it has several")
    effective_area: Annotated[float, quantity("area", "490 cm2", above=0.0, most="20 m2")] = Field(
        description="area on which the pressure pulls the joint together"
    )
    can_carry: Force | None = Field(default=None, description="pull that its ties can carry together")
    can_be_pushed: Force | None = Field(
        default=None, description="compression that its ties can take together; where not said, they only pull"
    )
    source: Source = Field(description="where the data come from")


class BaseItem(Item):
    """The anchor base in the middle of a double joint."""

    kind: Annotated[BaseKind, one_of(get_args(BaseKind), what="kind of base")] = Field(
        default="intermediate anchor",
        description="intermediate anchor where not said: it sees no net thrust; main anchor where one half may be "
        "without pressure",
    )
    can_carry: Force = Field(description="force along the pipe that it can carry")
    can_carry_moment: Moment | None = Field(default=None, description="moment that it can carry")
    source: Source = Field(description="where the data come from")
