"""The line file as pydantic models: which keys there are, which must be there, what each means.     (line/schema.py)

One model a mapping of the file. Text goes in; quantities come out in SI (line/fields.py). Only what one value can
tell is checked here; what needs two values to judge is checked by the readers (line/reader.py names them).
The JSON Schema and docs/reference/line-file.md are made from these models, and tests hold them equal.
"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import Field
from pydantic.fields import FieldInfo

from takeup.line.conditions import Vacuum
from takeup.line.fields import count, iso_date, one_of, sentence
from takeup.line.schema_ends import GrowthItem, NozzleItem, StiffnessItem
from takeup.line.schema_holds import FrictionItem, HoldItem, JointItem, TakeUpItem
from takeup.line.schema_line import (
    DensityItem,
    InsulationItem,
    LegItem,
    LineItem,
    PipeItem,
    StartItem,
    route_item,
)
from takeup.line.schema_users import ExpansionRow, LoadItem, MaterialItem, ModulusRow
from takeup.line.sentences import read_vacuum
from takeup.line.values import (
    NOT_COVERED,
    Item,
    Length,
    Name,
    Pressure,
    RatedPressure,
    Source,
    Stress,
    Temperature,
    Words,
)
from takeup.line.whereabouts import at
from takeup.line.yaml_places import Path, Tree

_PNEUMATIC = "not covered by this version: a pneumatic test needs an exclusion distance and its own rules"

CycleEnd: TypeAlias = Literal["cold", "operating", "design"]
Content: TypeAlias = Literal["medium", "water", "empty"]


class DocumentItem(Item):
    """What the papers bear at their head; no clock is ever read."""

    number: Words = Field(description="number of the calculation")
    revision: Words = Field(description="its revision")
    date: Annotated[str, sentence(iso_date, "a date, year first, such as 2026-05-12", "2026-05-12")] = Field(
        description="its date"
    )


class BasisItem(Item):
    """The code that the pipe is judged by."""

    code: Annotated[Literal["ASME B31.1"], one_of(("ASME B31.1",), what="code", otherwise=NOT_COVERED)] = Field(
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


class StudyItem(Item):
    """A line file."""

    takeup: Annotated[Literal["1"], one_of(("1",), what="format version", otherwise=NOT_COVERED)] = Field(
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
    materials: list[MaterialItem] = Field(default=[], description="materials of the user's own")
    loads: list[LoadItem] = Field(default=[], description="loads of the user's own")
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
    ("materials",): MaterialItem,
    ("materials", "expansion"): ExpansionRow,
    ("materials", "modulus"): ModulusRow,
    ("loads",): LoadItem,
    ("lines",): LineItem,
    ("lines", "pipe"): PipeItem,
    ("lines", "insulation"): InsulationItem,
    ("lines", "insulation", "density"): DensityItem,
    ("lines", "route", "start item"): StartItem,
    ("lines", "route"): LegItem,
    ("lines", "route", "stiffness"): StiffnessItem,
    ("lines", "route", "growth"): GrowthItem,
    ("lines", "route", "nozzle"): NozzleItem,
    ("lines", "holds"): HoldItem,
    ("lines", "holds", "friction"): FrictionItem,
    ("lines", "takeups"): TakeUpItem,
    ("lines", "takeups", "data"): JointItem,
}
"""Which model each mapping of the file has; numbers of list items are left out of the path."""


def model_at(path: Path, tree: Tree) -> type[Item]:
    """Return the model of the mapping at a path of the file."""
    names = tuple(part for part in path if isinstance(part, str))
    if names == ("lines", "route") and route_item(at(tree, path)) == "start item":
        return StartItem
    return MODELS[names]


def keys_of(model: type[Item]) -> tuple[str, ...]:
    """Return the keys of a mapping as they are written in the file."""
    return tuple(info.alias or name for name, info in fields_of(model))


def fields_of(model: type[Item]) -> list[tuple[str, FieldInfo]]:
    """Return the fields of a mapping: its own, then those that it shares with others."""
    shared = {name for base in model.__bases__ if issubclass(base, Item) for name in base.model_fields}
    return sorted(model.model_fields.items(), key=lambda field: field[0] in shared)
