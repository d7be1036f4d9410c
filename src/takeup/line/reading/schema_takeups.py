"""What takes up a line's growth, as pydantic models.     (line/reading/schema_takeups.py)"""

from __future__ import annotations

from typing import Annotated, get_args

from pydantic import Field

from takeup.joints import DoubleKind, JointEnds, TakeUpKind
from takeup.line.fitting import Surrounding
from takeup.line.reading.schema_bellows import BellowsItem
from takeup.line.reading.schema_ends import Moment
from takeup.line.reading.schema_fitting import (
    AROUND,
    CHLORIDES_WORDS,
    LINING_WORDS,
    SURROUNDINGS_WORDS,
    TRACES_WORDS,
    CoverItem,
    LinerItem,
    LiningWord,
    Traces,
    Velocity,
)
from takeup.line.reading.schema_hardware import BalanceItem, BaseItem, PinsItem, RodsItem
from takeup.line.reading.sentences import read_preset
from takeup.line.reading.values import (
    Chlorides,
    Item,
    JointLength,
    LineRate,
    Movement,
    Name,
    Pressure,
    RatedPressure,
    Source,
    Temperature,
    TurnRate,
    Words,
)
from takeup.reading.fields import count, free_text, number, one_of, quantity, sentence

_BY_ROUTE = "pipe that takes growth by its route: draw its legs, no take-up is needed"
WRITTEN = (*get_args(TakeUpKind), *get_args(DoubleKind))
OTHER_TAKEUPS = {
    "hinge": "spelt 'hinged'",
    "pressure balanced": "either 'in-line pressure balanced' or 'elbow pressure balanced'",
    "Z": _BY_ROUTE,
    "L": _BY_ROUTE,
    "pipe loop": _BY_ROUTE,
}


class JointItem(Item):
    """The data of a joint, from its maker's certified sheet or typed in; of a universal, rates are of each bellows."""

    axial_rate: LineRate | None = Field(
        default=None,
        description="axial spring rate; of a universal, of each of its bellows, like all rates; required where no "
        "`bellows` is given",
    )
    lateral_rate: LineRate | None = Field(default=None, description="lateral spring rate")
    angular_rate: TurnRate | None = Field(default=None, description="angular spring rate")
    torsion_rate: TurnRate | None = Field(default=None, description="torsional spring rate")
    rate_scatter: Annotated[float, number("a plain number", least=0.0, below=1.0)] | None = Field(
        default=None,
        description="how far the true rates may lie from these, as a share of them; 0.1, the trade's, where not said",
    )
    effective_area: Annotated[float, quantity("area", "490 cm2", above=0.0, most="20 m2")] | None = Field(
        default=None,
        description="area on which the pressure pushes the line apart; required where no `bellows` is given; a "
        "braided hose loop has none",
    )
    length: JointLength = Field(description="length, face to face")
    live_length: JointLength | None = Field(
        default=None,
        description="length of the bellows that moves; of a universal, of each; required where no `bellows` is given",
    )
    centres: JointLength | None = Field(
        default=None, description="of a universal, required: distance between the middles of its two bellows"
    )
    weight: Annotated[float, quantity("weight", "65 kg", above=0.0, most="1 MN")] = Field(
        description="weight, or mass (taken times standard gravity)"
    )
    axial_compression: Movement | None = Field(
        default=None,
        description="rated axial movement, shorter; required where no `bellows` is given, of kinds that move axially",
    )
    axial_extension: Movement | None = Field(
        default=None,
        description="rated axial movement, longer; required where no `bellows` is given, of kinds that move axially",
    )
    lateral: Movement | None = Field(default=None, description="rated lateral movement")
    angular: Annotated[float, quantity("angle", "3 deg", least=0.0)] | None = Field(
        default=None, description="rated angular movement"
    )
    torque: Moment | None = Field(default=None, description="greatest torque that the bellows may carry")
    pressure: RatedPressure = Field(description="rated pressure")
    test_pressure: RatedPressure | None = Field(default=None, description="highest test pressure")
    minimum_pressure: Pressure | None = Field(default=None, description="lowest pressure, below zero under vacuum")
    temperature: Temperature = Field(description="rated temperature")
    rated_cycles: Annotated[int, count("a whole number above zero")] | None = Field(
        default=None, description="cycles of the full rated movement"
    )
    bellows_material: Words | None = Field(
        default=None,
        description="metal of its bellows, for the advice on materials, where no `bellows` says it; one that the "
        "advice does not know is noted there",
    )
    ends_material: Words | None = Field(
        default=None, description="metal of its ends, for the advice on materials; not judged where not said"
    )
    source: Source = Field(description="where the data come from")


class MisalignmentItem(Item):
    """What installation may use up of a joint's ratings."""

    lateral: Movement | None = Field(default=None, description="how far its ends may be out of line")
    angular: Annotated[float, quantity("angle", "0.5 deg", least=0.0)] | None = Field(
        default=None, description="how far its ends may be out of parallel"
    )


class TakeUpItem(Item):
    """A joint in the line."""

    name: Name = Field(description="its name")
    kind: Annotated[TakeUpKind | DoubleKind, one_of(WRITTEN, what="take-up", refused=OTHER_TAKEUPS)] = Field(
        description="kind of joint"
    )
    at: Annotated[str, free_text("a position such as boiler house header + 2.5 m", "34.5 m")] = Field(
        description="where the middle of the joint is"
    )
    preset: Annotated[float, sentence(read_preset, "12 mm extended or 12 mm compressed", "12 mm extended")] | None = (
        Field(default=None, description="how it is fitted at the installation temperature")
    )
    misalignment: MisalignmentItem | None = Field(
        default=None, description="what installation may use up of its ratings; none if not said"
    )
    rods: RodsItem | None = Field(
        default=None,
        description="its rods: of a tied kind, required; of single axial and universal, limit rods where it has any",
    )
    bellows: BellowsItem | None = Field(
        default=None,
        description="its bellows by geometry: rates, effective area and live length are then computed, not typed in",
    )
    pins: PinsItem | None = Field(
        default=None, description="its plates, or bars, and their pins: of hinged, gimbal and swing, required"
    )
    balance: BalanceItem | None = Field(
        default=None, description="its balancing bellows: of pressure balanced kinds, required"
    )
    base: BaseItem | None = Field(
        default=None, description="of a double, required: the anchor base in its middle, called `<name> base`"
    )
    ends: Annotated[JointEnds, one_of(get_args(JointEnds), what="way of joining")] | None = Field(
        default=None,
        description="how it is joined to its pipe; of a small-bore compensator, required; threaded and sweat up to DN "
        "80, sweat to copper; not said where left out",
    )
    velocity: Velocity | None = Field(
        default=None,
        description="greatest velocity of the flow through it, which runs from the start of the route to its end; "
        "whether it needs a liner is not looked at where not said",
    )
    liner: LinerItem | None = Field(default=None, description="its liner, or that it has none")
    surroundings: Annotated[tuple[Surrounding, ...], AROUND] | None = Field(
        default=None,
        description=SURROUNDINGS_WORDS,
    )
    cover: CoverItem | None = Field(default=None, description="its cover, or that it has none")
    traces: Traces | None = Field(default=None, description=TRACES_WORDS)
    chlorides: Chlorides | None = Field(default=None, description=CHLORIDES_WORDS)
    lining: LiningWord | None = Field(default=None, description=LINING_WORDS)
    data: JointItem = Field(
        description="the joint's data; of a double, length and weight are the whole joint's, all else is of each half"
    )
