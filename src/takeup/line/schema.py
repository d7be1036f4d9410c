"""The line file as pydantic models: which keys there are, which must be there, what each means.     (line/schema.py)

One model a mapping of the file. Text goes in; quantities come out in SI (line/fields.py). Only what one value can
tell is checked here; what needs two values to judge is checked by the readers (line/reader.py names them).
The JSON Schema and docs/reference/line-file.md are made from these models, and tests hold them equal.
"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

from takeup.line.fields import count, free_text, iso_date, number, one_of, quantity, sentence, texts
from takeup.line.records import BendPlace, EndKind, HoldKind, Medium, RuleKind, TakeUpKind, Vacuum
from takeup.line.sentences import Bend, Go, read_bend, read_go, read_preset, read_vacuum
from takeup.line.whereabouts import at
from takeup.line.yaml_places import Path, Tree

_LATER = "not covered by this version"
_NOT_COMPUTED = "not computed by this version"
OTHER_ENDS = dict.fromkeys(("equipment", "closed valve", "continues", "intermediate anchor"), _LATER)
OTHER_HOLDS = dict.fromkeys(("directional anchor", "stop", "planar guide", "hanger", "spring hanger"), _NOT_COMPUTED)
OTHER_TAKEUPS = dict.fromkeys(
    ("universal", "swing", "hinge", "gimbal", "pressure balanced", "small-bore compensator", "braided hose loop"),
    _NOT_COMPUTED,
)
_PNEUMATIC = "not covered by this version: a pneumatic test needs an exclusion distance and its own rules"

Name: TypeAlias = Annotated[str, free_text("a name")]
Words: TypeAlias = Annotated[str, free_text("a text")]
Length: TypeAlias = Annotated[float, quantity("length", "3.5 m")]
SizeLength: TypeAlias = Annotated[float, quantity("length", "80 mm", above=0.0)]
Movement: TypeAlias = Annotated[float, quantity("length", "40 mm", least=0.0)]
Force: TypeAlias = Annotated[float, quantity("force", "120 kN", above=0.0)]
Pressure: TypeAlias = Annotated[float, quantity("pressure", "12 bar(g)")]
RatedPressure: TypeAlias = Annotated[float, quantity("pressure", "16 bar(g)", above=0.0)]
Temperature: TypeAlias = Annotated[float, quantity("temperature", "195 °C")]
Stress: TypeAlias = Annotated[float, quantity("stress", "205 MPa", above=0.0)]
Density: TypeAlias = Annotated[float, quantity("density", "120 kg/m3", above=0.0)]
LineRate: TypeAlias = Annotated[float, quantity("force per length", "150 N/mm", above=0.0)]
TurnRate: TypeAlias = Annotated[float, quantity("moment per angle", "40 N·m/deg", above=0.0)]
Source: TypeAlias = Annotated[str, free_text("a text that says where the number comes from")]
BendWord: TypeAlias = Annotated[
    Bend, sentence(read_bend, "long radius, short radius, sharp, or a radius such as 450 mm", "long radius", "450 mm")
]
CycleEnd: TypeAlias = Literal["cold", "operating", "design"]
Content: TypeAlias = Literal["medium", "water", "empty"]


class Item(BaseModel):
    """What every mapping of a line file shares: an unknown key is a fault, and nothing changes afterwards."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class DocumentItem(Item):
    """What the papers bear at their head; no clock is ever read."""

    number: Words = Field(description="number of the calculation")
    revision: Words = Field(description="its revision")
    date: Annotated[str, sentence(iso_date, "a date, year first, such as 2026-05-12", "2026-05-12")] = Field(
        description="its date"
    )


class BasisItem(Item):
    """The code that the pipe is judged by."""

    code: Annotated[Literal["ASME B31.1"], one_of(("ASME B31.1",), what="code", otherwise=_LATER)] = Field(
        description="the piping code"
    )
    edition: Annotated[int, count("a year such as 2020")] = Field(description="edition of the code")
    expansion_table: Words | None = Field(
        default=None, description="thermal expansion table, where the one that goes with the edition is not wanted"
    )


class SiteItem(Item):
    """Temperatures of the surroundings."""

    installation: Temperature = Field(description="temperature at which the line is closed, free of stress")
    coldest: Temperature = Field(description="coldest day, line shut down")
    hottest: Temperature = Field(description="hottest day, line shut down")


class DesignItem(Item):
    """Design conditions, and the answer to whether the line can be under vacuum."""

    pressure: RatedPressure = Field(description="design pressure, not below the highest relief set pressure")
    temperature: Temperature = Field(description="design temperature")
    vacuum: Annotated[
        Vacuum,
        sentence(
            read_vacuum,
            'possible, a pressure below zero, or "not possible, because <reason>"',
            "possible",
            "-0.5 bar(g)",
        ),
    ] = Field(description="can the line be under vacuum, and if not, why not; `possible` means full vacuum")
    at_elevation: Length | None = Field(default=None, description="elevation at which the pressure is stated")


class OperatingItem(Item):
    """Operating conditions: movements and cycles are counted at these."""

    pressure: Pressure = Field(description="operating pressure")
    temperature: Temperature = Field(description="operating temperature")
    at_elevation: Length | None = Field(default=None, description="elevation at which the pressure is stated")


class TestItem(Item):
    """The pressure test."""

    pressure: Pressure = Field(description="test pressure")
    medium: Annotated[
        Literal["water"], one_of(("water",), what="test medium", refused=dict.fromkeys(("air", "nitrogen"), _PNEUMATIC))
    ] = Field(alias="with", description="what the line is tested with")
    temperature: Temperature = Field(description="temperature of the line during the test")
    gauge_elevation: Length | None = Field(default=None, description="elevation of the test gauge")


class CycleItem(Item):
    """So many times from one condition to another and back."""

    start: Annotated[CycleEnd, one_of(get_args(CycleEnd), what="condition")] = Field(
        alias="from", description="one condition"
    )
    end: Annotated[CycleEnd, one_of(get_args(CycleEnd), what="condition")] = Field(
        alias="to", description="the other condition"
    )
    times: Annotated[int, count("a whole number above zero")] = Field(
        alias="count", description="how often in the life of the line"
    )


class StressItem(Item):
    """A stress typed in with its source; the papers print it as user's data."""

    value: Stress = Field(description="the stress")
    source: Source = Field(description="where it comes from")


class AllowableItem(Item):
    """Limits of the material that this version holds no table of; without them the checks that need them do not run."""

    expansion_stress_range: StressItem | None = Field(
        default=None, description="allowable expansion stress range of the code"
    )
    yield_strength: StressItem | None = Field(default=None, description="yield strength at the test temperature")


class DropItem(Item):
    """A state of the default order that this line never sees."""

    state: Name = Field(description="name of the state")
    because: Words = Field(description="why it cannot happen; printed")


class AddItem(Item):
    """A state of the user's own, after the default ones."""

    name: Name = Field(description="what is going on")
    pressure: Pressure = Field(description="pressure in this state")
    temperature: Temperature = Field(description="temperature in this state")
    content: Annotated[Content, one_of(get_args(Content), what="content")] = Field(description="what the line holds")
    at_elevation: Length | None = Field(default=None, description="elevation at which the pressure is stated")


class StatesItem(Item):
    """Changes to the default order of states."""

    drop: list[DropItem] = Field(default=[], description="states left out, each with its reason")
    add: list[AddItem] = Field(default=[], description="states added")


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


def _route_item(value: object) -> str:
    return "start item" if isinstance(value, dict) and "start" in value else "leg item"


def _insulation(value: object) -> str:
    return "no insulation" if isinstance(value, str) else "insulated"


NoInsulation: TypeAlias = Annotated[Literal["none"], one_of(("none",), what="insulation")]
RouteItem: TypeAlias = Annotated[
    Annotated[StartItem, Tag("start item")] | Annotated[LegItem, Tag("leg item")], Discriminator(_route_item)
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


class StudyItem(Item):
    """A line file."""

    takeup: Annotated[Literal["1"], one_of(("1",), what="format version", otherwise=_LATER)] = Field(
        description="version of the file format"
    )
    project: Words = Field(description="what the papers are headed with")
    document: DocumentItem = Field(description="the document that the study becomes")
    basis: BasisItem = Field(description="the code")
    site: SiteItem = Field(description="temperatures of the surroundings")
    design: DesignItem = Field(description="design conditions")
    operating: OperatingItem = Field(description="operating conditions")
    test: TestItem = Field(description="the pressure test")
    cycles: Annotated[list[CycleItem], Field(min_length=1)] = Field(
        description="how often the line is heated and cooled"
    )
    allowable: AllowableItem | None = Field(default=None, description="limits of the material, typed in")
    states: StatesItem | None = Field(default=None, description="changes to the default order of states")
    lines: Annotated[list[LineItem], Field(min_length=1, max_length=1)] = Field(
        description="the lines: exactly one in this version"
    )


MODELS: dict[tuple[str, ...], type[Item]] = {
    (): StudyItem,
    ("document",): DocumentItem,
    ("basis",): BasisItem,
    ("site",): SiteItem,
    ("design",): DesignItem,
    ("operating",): OperatingItem,
    ("test",): TestItem,
    ("cycles",): CycleItem,
    ("allowable",): AllowableItem,
    ("allowable", "expansion_stress_range"): StressItem,
    ("allowable", "yield_strength"): StressItem,
    ("states",): StatesItem,
    ("states", "drop"): DropItem,
    ("states", "add"): AddItem,
    ("lines",): LineItem,
    ("lines", "pipe"): PipeItem,
    ("lines", "insulation"): InsulationItem,
    ("lines", "insulation", "density"): DensityItem,
    ("lines", "route", "start item"): StartItem,
    ("lines", "route"): LegItem,
    ("lines", "holds"): HoldItem,
    ("lines", "holds", "friction"): FrictionItem,
    ("lines", "takeups"): TakeUpItem,
    ("lines", "takeups", "data"): JointItem,
}
"""Which model each mapping of the file has; numbers of list items are left out of the path."""


def model_at(path: Path, tree: Tree) -> type[Item]:
    """Return the model of the mapping at a path of the file."""
    names = tuple(part for part in path if isinstance(part, str))
    if names == ("lines", "route") and _route_item(at(tree, path)) == "start item":
        return StartItem
    return MODELS[names]


def keys_of(model: type[Item]) -> tuple[str, ...]:
    """Return the keys of a mapping as they are written in the file."""
    return tuple(info.alias or name for name, info in model.model_fields.items())
