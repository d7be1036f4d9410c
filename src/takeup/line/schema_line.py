"""One line in the file: pipe, insulation, route, holds and take-ups as pydantic models.     (line/schema_line.py)"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import Discriminator, Field, Tag

from takeup.joints import TakeUpKind
from takeup.line.conditions import Medium
from takeup.line.fields import count, free_text, number, one_of, quantity, sentence, texts
from takeup.line.holding import EndKind, HoldKind, RuleKind
from takeup.line.parts import BendPlace
from takeup.line.sentences import Bend, Go, read_bend, read_go, read_preset
from takeup.line.values import (
    NOT_COMPUTED,
    NOT_COVERED,
    Density,
    Force,
    Item,
    Length,
    LineRate,
    Movement,
    Name,
    Pressure,
    RatedPressure,
    SizeLength,
    Source,
    Temperature,
    TurnRate,
)

OTHER_ENDS = dict.fromkeys(("equipment", "closed valve", "continues", "intermediate anchor"), NOT_COVERED)
OTHER_HOLDS = dict.fromkeys(("directional anchor", "stop", "planar guide", "hanger", "spring hanger"), NOT_COMPUTED)
OTHER_TAKEUPS = dict.fromkeys(
    ("universal", "swing", "hinge", "gimbal", "pressure balanced", "small-bore compensator", "braided hose loop"),
    NOT_COMPUTED,
)

BendWord: TypeAlias = Annotated[
    Bend, sentence(read_bend, "long radius, short radius, sharp, or a radius such as 450 mm", "long radius", "450 mm")
]


class PipeItem(Item):
    """The pipe of the line; exactly one of `wall` and `schedule`."""

    size: Annotated[str, free_text("a nominal size such as DN 200 or NPS 8", "DN 200", "NPS 8")] = Field(
        description="nominal size"
    )
    wall: Annotated[str, free_text("a thickness such as 8.18 mm", "8.18 mm")] | None = Field(
        default=None, description="nominal wall thickness (this or `schedule`)"
    )
    schedule: Annotated[str, free_text("a schedule such as 40 or STD", "40", "STD")] | None = Field(
        default=None, description="pipe schedule (this or `wall`)"
    )
    material: Annotated[str, free_text("a material such as ASTM A106 B", "ASTM A106 B")] = Field(
        description="material by its specification and grade"
    )
    bends: BendWord | None = Field(default=None, description="the bends of the line; long radius where not said")


class DensityItem(Item):
    """A density typed in with its source; the papers print it as user's data."""

    value: Density = Field(description="the density")
    source: Source = Field(description="where it comes from")


class InsulationItem(Item):
    """What is round the pipe."""

    thickness: SizeLength = Field(description="thickness of the insulation")
    kind: Name = Field(description="what it is, such as mineral wool")
    density: DensityItem | None = Field(default=None, description="its density, where the library's is not wanted")


class StartItem(Item):
    """Where the route begins: always its first item."""

    start: Name = Field(description="name of the place where the line begins")
    at: Annotated[list[Length], Field(min_length=3, max_length=3)] = Field(
        description="its place: lengths to the east, to the north and up"
    )
    kind: Annotated[EndKind, one_of(get_args(EndKind), what="end", refused=OTHER_ENDS)] = Field(
        alias="as", description="what this end is"
    )
    can_carry: Force | None = Field(default=None, description="force that the anchor can carry")


class LegItem(Item):
    """A straight leg, to the intersection with the next one."""

    go: Annotated[
        Go, sentence(read_go, "a length and a direction such as 96 m east, or a length alone with `along`", "96 m east")
    ] = Field(description="how far and which way, between intersections of centre lines")
    along: Annotated[list[Annotated[float, number("a plain number")]], Field(min_length=3, max_length=3)] | None = (
        Field(
            default=None, description="direction to the east, to the north and up, of any length, where `go` says none"
        )
    )
    to: Name | None = Field(default=None, description="name of the corner or end reached; required on the last leg")
    kind: Annotated[EndKind, one_of(get_args(EndKind), what="end", refused=OTHER_ENDS)] | None = Field(
        default=None, alias="as", description="what the end is; required on the last leg, and only there"
    )
    can_carry: Force | None = Field(default=None, description="force that the anchor at the end can carry")
    bend: BendWord | None = Field(
        default=None, description="the bend at its corner, where it is not the line's usual one"
    )


class FrictionItem(Item):
    """A range of friction typed in with its source."""

    low: Annotated[float, number("a plain number", least=0.0)] = Field(description="lowest coefficient")
    high: Annotated[float, number("a plain number", least=0.0)] = Field(description="highest coefficient")
    source: Source = Field(description="where the range comes from")


class HoldItem(Item):
    """An anchor, a guide or a rest; `at` says where, or `by` says which rule places it."""

    kind: Annotated[HoldKind, one_of(get_args(HoldKind), what="hold", refused=OTHER_HOLDS)] = Field(
        description="what holds the line"
    )
    at: (
        Annotated[tuple[str, ...], texts("a position such as roof corner - 3 m, or a list of them", "34.5 m")] | None
    ) = Field(default=None, description="where it is (this or `by`); a list for guides and rests only")
    by: Annotated[RuleKind, one_of(get_args(RuleKind), what="rule")] | None = Field(
        default=None, description="the rule that places guides and rests (this or `at`)"
    )
    name: Name | None = Field(default=None, description="its name; where not said, its kind and its position")
    can_carry: Force | None = Field(default=None, description="force that it can carry")
    on_bend: Annotated[BendPlace, one_of(get_args(BendPlace), what="place on the bend")] | None = Field(
        default=None, description="where on the bend, required at a corner that has one"
    )
    slides_on: Name | None = Field(
        default=None, description="friction pair of a guide or rest, such as PTFE on steel (this or `friction`)"
    )
    friction: FrictionItem | None = Field(
        default=None, description="friction of a guide or rest as a range with its source (this or `slides_on`)"
    )


class JointItem(Item):
    """The data of a joint, from its maker's certified sheet or typed in."""

    axial_rate: LineRate = Field(description="axial spring rate")
    lateral_rate: LineRate | None = Field(default=None, description="lateral spring rate")
    angular_rate: TurnRate | None = Field(default=None, description="angular spring rate")
    torsion_rate: TurnRate | None = Field(default=None, description="torsional spring rate")
    effective_area: Annotated[float, quantity("area", "490 cm2", above=0.0)] = Field(
        description="area on which the pressure pushes the line apart"
    )
    length: SizeLength = Field(description="length, face to face")
    live_length: SizeLength = Field(description="length of the bellows that moves")
    weight: Annotated[float, quantity("weight", "65 kg", above=0.0)] = Field(
        description="weight, or mass (taken times standard gravity)"
    )
    axial_compression: Movement = Field(description="rated axial movement, shorter")
    axial_extension: Movement = Field(description="rated axial movement, longer")
    lateral: Movement | None = Field(default=None, description="rated lateral movement")
    angular: Annotated[float, quantity("angle", "3 deg", least=0.0)] | None = Field(
        default=None, description="rated angular movement"
    )
    pressure: RatedPressure = Field(description="rated pressure")
    test_pressure: RatedPressure | None = Field(default=None, description="highest test pressure")
    minimum_pressure: Pressure | None = Field(default=None, description="lowest pressure, below zero under vacuum")
    temperature: Temperature = Field(description="rated temperature")
    rated_cycles: Annotated[int, count("a whole number above zero")] | None = Field(
        default=None, description="cycles of the full rated movement"
    )
    source: Source = Field(description="where the data come from")


class TakeUpItem(Item):
    """A joint in the line."""

    name: Name = Field(description="its name")
    kind: Annotated[TakeUpKind, one_of(get_args(TakeUpKind), what="take-up", refused=OTHER_TAKEUPS)] = Field(
        description="kind of joint"
    )
    at: Annotated[str, free_text("a position such as boiler house header + 2.5 m", "34.5 m")] = Field(
        description="where the middle of the joint is"
    )
    preset: Annotated[float, sentence(read_preset, "12 mm extended or 12 mm compressed", "12 mm extended")] | None = (
        Field(default=None, description="how it is fitted at the installation temperature")
    )
    data: JointItem = Field(description="the joint's data")


def route_item(value: object) -> str:
    """Return which model an item of the route has."""
    return "start item" if isinstance(value, dict) and "start" in value else "leg item"


def _insulation(value: object) -> str:
    return "no insulation" if isinstance(value, str) else "insulated"


NoInsulation: TypeAlias = Annotated[Literal["none"], one_of(("none",), what="insulation")]
RouteItem: TypeAlias = Annotated[
    Annotated[StartItem, Tag("start item")] | Annotated[LegItem, Tag("leg item")], Discriminator(route_item)
]
InsulationAnswer: TypeAlias = Annotated[
    Annotated[NoInsulation, Tag("no insulation")] | Annotated[InsulationItem, Tag("insulated")],
    Discriminator(_insulation),
]


class LineItem(Item):
    """One line: what it is made of, where it goes, what holds it and what takes up its growth."""

    name: Name = Field(description="name of the line")
    medium: Annotated[Medium, one_of(get_args(Medium), what="medium")] = Field(description="what flows in it")
    pipe: PipeItem = Field(description="the pipe")
    insulation: InsulationAnswer = Field(description="what is round the pipe, or `none`")
    route: Annotated[list[RouteItem], Field(min_length=2)] = Field(description="the start, then the legs in order")
    holds: list[HoldItem] = Field(default=[], description="anchors, guides and rests between the ends")
    takeups: list[TakeUpItem] = Field(default=[], description="joints")
