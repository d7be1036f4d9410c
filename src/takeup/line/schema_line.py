"""One line in the file: pipe, insulation, route, holds and take-ups as pydantic models.     (line/schema_line.py)"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import Discriminator, Field, Tag

from takeup.line.conditions import Medium
from takeup.line.fields import free_text, number, one_of, sentence
from takeup.line.holding import EndKind
from takeup.line.schema_ends import EndKeys
from takeup.line.schema_holds import HoldItem, TakeUpItem
from takeup.line.sentences import Bend, Go, read_bend, read_go
from takeup.line.values import (
    NOT_COVERED,
    Density,
    Item,
    Length,
    Name,
    SizeLength,
    Source,
)

OTHER_ENDS = {"intermediate anchor": NOT_COVERED}

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


class StartItem(EndKeys):
    """Where the route begins: always its first item."""

    start: Name = Field(description="name of the place where the line begins")
    at: Annotated[list[Length], Field(min_length=3, max_length=3)] = Field(
        description="its place: lengths to the east, to the north and up"
    )
    kind: Annotated[EndKind, one_of(get_args(EndKind), what="end", refused=OTHER_ENDS)] = Field(
        alias="as", description="what this end is"
    )


class LegItem(EndKeys):
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
    bend: BendWord | None = Field(
        default=None, description="the bend at its corner, where it is not the line's usual one"
    )


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
