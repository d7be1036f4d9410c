"""The line file as pydantic models: its keys and what each means.     (line/reading/schema.py)

One model a mapping of the file. Text goes in; quantities come out in SI (line/reading/fields.py). Only what one value
can tell is checked here; what needs two values to judge is checked by the readers (line/reading/reader.py names them).
The JSON Schema and docs/reference/line-file.md are made from these models, and tests hold them equal.
"""

from __future__ import annotations

from functools import cache
from typing import Annotated, Literal, get_args

from pydantic import BaseModel, Field
from pydantic.fields import FieldInfo

from takeup.basis import Code
from takeup.line.reading.schema_allowed import CapacityItem, LoopRoomItem, MayHoldItem
from takeup.line.reading.schema_bellows import BellowsItem, TangentItem
from takeup.line.reading.schema_choices import TAKEUP_MODELS, takeup_item
from takeup.line.reading.schema_conditions import (
    AddItem,
    CycleItem,
    DesignFactorsItem,
    DesignItem,
    DropItem,
    OperatingItem,
    OwnDesignItem,
    SiteItem,
    StatesItem,
    TestItem,
    WalkItem,
    ZoneChangeItem,
)
from takeup.line.reading.schema_ends import GrowthItem, NozzleItem, StiffnessItem
from takeup.line.reading.schema_fitting import CoverItem, LinerItem
from takeup.line.reading.schema_hardware import BalanceItem, BaseItem, PinsItem, RodsItem
from takeup.line.reading.schema_holds import FrictionItem, HoldItem, SpringItem
from takeup.line.reading.schema_line import LineItem, ZoneItem
from takeup.line.reading.schema_pipe import (
    AllowableItem,
    ChangedPipeItem,
    CladdingItem,
    DensityItem,
    InsulationItem,
    PipeItem,
    ReducedPipeItem,
    StressItem,
)
from takeup.line.reading.schema_route import ROUTE_MODELS, route_item
from takeup.line.reading.schema_takeups import JointItem, MisalignmentItem
from takeup.line.reading.schema_users import ExpansionRow, LoadItem, MaterialItem, ModulusRow
from takeup.line.reading.values import NOT_COVERED, Item, Name, Words
from takeup.line.reading.whereabouts import at
from takeup.reading.fields import count, iso_date, one_of, sentence
from takeup.reading.yaml_places import Path, Tree


class DocumentItem(Item):
    """What the papers bear at their head; no clock is ever read."""

    number: Name = Field(description="number of the calculation")
    revision: Name = Field(description="its revision")
    date: Annotated[str, sentence(iso_date, "a date, year first, such as 2026-05-12", "2026-05-12")] = Field(
        description="its date"
    )


class BasisItem(Item):
    """The code that the pipe is judged by."""

    code: Annotated[Code, one_of(get_args(Code), what="code", otherwise=NOT_COVERED)] = Field(
        description="the piping code"
    )
    edition: Annotated[int, count("a year such as 2020")] = Field(description="edition of the code")
    expansion_table: Words | None = Field(
        default=None,
        description="thermal expansion table for every material in it, where the one of code and edition is not wanted",
    )


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
    walk: WalkItem | None = Field(default=None, description="how the states are walked, where not as usual")
    design_factors: DesignFactorsItem | None = Field(
        default=None, description="what loads on holds are multiplied by in the load schedule; without it they are not"
    )
    materials: list[MaterialItem] = Field(default=[], description="materials of the user's own")
    loads: list[LoadItem] = Field(default=[], description="loads of the user's own")
    prices: Words | None = Field(
        default=None,
        description="path of a price file for takeup arrange, counted from the folder of this file; the tool's "
        "invented demonstration prices where left out",
    )
    lines: Annotated[list[LineItem], Field(min_length=1)] = Field(
        description="the lines; one that leaves another stands after it"
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
    ("states",): StatesItem,
    ("states", "drop"): DropItem,
    ("states", "add"): AddItem,
    ("states", "add", "zones"): ZoneChangeItem,
    ("walk",): WalkItem,
    ("design_factors",): DesignFactorsItem,
    ("materials",): MaterialItem,
    ("materials", "expansion"): ExpansionRow,
    ("materials", "modulus"): ModulusRow,
    ("loads",): LoadItem,
    ("lines",): LineItem,
    ("lines", "design"): OwnDesignItem,
    ("lines", "pipe"): PipeItem,
    ("lines", "insulation"): InsulationItem,
    ("lines", "insulation", "density"): DensityItem,
    ("lines", "insulation", "cladding"): CladdingItem,
    **{("lines", "route", tag): model for tag, model in ROUTE_MODELS.items()},
    ("lines", "route", "to_pipe"): ReducedPipeItem,
    ("lines", "route", "pipe"): ChangedPipeItem,
    ("lines", "route", "stiffness"): StiffnessItem,
    ("lines", "route", "growth"): GrowthItem,
    ("lines", "route", "nozzle"): NozzleItem,
    ("lines", "zones"): ZoneItem,
    ("lines", "may_hold"): MayHoldItem,
    ("lines", "may_hold", "can_carry"): CapacityItem,
    ("lines", "loop_room"): LoopRoomItem,
    ("lines", "holds"): HoldItem,
    ("lines", "holds", "friction"): FrictionItem,
    ("lines", "holds", "spring"): SpringItem,
    ("lines", "holds", "stiffness"): StiffnessItem,
    **{("lines", "takeups", tag): model for tag, model in TAKEUP_MODELS.items()},
    ("lines", "takeups", "misalignment"): MisalignmentItem,
    ("lines", "takeups", "rods"): RodsItem,
    ("lines", "takeups", "pins"): PinsItem,
    ("lines", "takeups", "pins", "friction"): FrictionItem,
    ("lines", "takeups", "balance"): BalanceItem,
    ("lines", "takeups", "base"): BaseItem,
    ("lines", "takeups", "liner"): LinerItem,
    ("lines", "takeups", "cover"): CoverItem,
    ("lines", "takeups", "bellows"): BellowsItem,
    ("lines", "takeups", "bellows", "tangent"): TangentItem,
    ("lines", "takeups", "data"): JointItem,
}
"""Which model each mapping of the file has; numbers of list items are left out of the path."""

_ELSEWHERE: dict[str, type[Item]] = {
    "design": OwnDesignItem,
    "operating": OperatingItem,
    "test": TestItem,
    "allowable": AllowableItem,
    "insulation": InsulationItem,
    "density": DensityItem,
    "medium_density": DensityItem,
    "cladding": CladdingItem,
    **dict.fromkeys(AllowableItem.model_fields, StressItem),
}
"""The same for mappings that stand in more than one place, by their last key."""


def model_at(path: Path, tree: Tree) -> type[Item]:
    """Return the model of the mapping at a path of the file."""
    names = tuple(part for part in path if isinstance(part, str))
    if names == ("lines", "route"):
        return ROUTE_MODELS[route_item(at(tree, path))]
    if names == ("lines", "takeups"):
        return TAKEUP_MODELS[takeup_item(at(tree, path))]
    return MODELS.get(names) or _ELSEWHERE[names[-1]]


def keys_of(model: type[Item]) -> tuple[str, ...]:
    """Return the keys of a mapping as they are written in the file."""
    return tuple(info.alias or name for name, info in fields_of(model))


@cache
def field_name(model: type[BaseModel], key: str) -> str:
    """Return the name in a model of a key as it is written in the file."""
    return next((name for name, info in model.model_fields.items() if info.alias == key), key)


def fields_of(model: type[Item]) -> list[tuple[str, FieldInfo]]:
    """Return the fields of a mapping: its own, then those that it shares with others."""
    shared = {name for base in model.__bases__ if issubclass(base, Item) for name in base.model_fields}
    return sorted(model.model_fields.items(), key=lambda field: field[0] in shared)
