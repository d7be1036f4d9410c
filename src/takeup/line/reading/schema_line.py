"""One line in the file: what it is made of and where it goes.     (line/reading/schema_line.py)"""

from __future__ import annotations

from typing import Annotated, TypeAlias, get_args

from pydantic import Field

from takeup.line.conditions import Medium
from takeup.line.reading.schema_allowed import LoopRoomItem, MayHoldItem, Stretch
from takeup.line.reading.schema_choices import AnyTakeUp
from takeup.line.reading.schema_conditions import OperatingItem, OwnDesignItem, TestItem
from takeup.line.reading.schema_holds import HoldItem
from takeup.line.reading.schema_pipe import DensityItem, InsulationAnswer, PipeItem
from takeup.line.reading.schema_route import RouteItem
from takeup.line.reading.values import Item, Name
from takeup.reading.fields import free_text, one_of

Place: TypeAlias = Annotated[str, free_text("a position such as reducing valve or 34.5 m", "34.5 m")]


class ConditionKeys(Item):
    """Conditions of its own that a line or a zone may have; each part that is not said is as in the whole."""

    design: OwnDesignItem | None = Field(default=None, description="its own design conditions")
    operating: OperatingItem | None = Field(default=None, description="its own operating conditions")
    test: TestItem | None = Field(default=None, description="its own pressure test")


class ZoneItem(ConditionKeys):
    """A zone of the user's own: from a place on the line on to whatever bounds it next."""

    name: Name = Field(description="its name")
    place: Place = Field(alias="from", description="where it begins: a closed valve, a reducing valve, any position")


class LineItem(ConditionKeys):
    """One line: what it is made of, where it goes, what holds it and what takes up its growth."""

    name: Name = Field(description="name of the line")
    medium: Annotated[Medium, one_of(get_args(Medium), what="medium")] = Field(description="what flows in it")
    medium_density: DensityItem | None = Field(
        default=None, description="density of thermal oil: required there, and only there"
    )
    pipe: PipeItem = Field(description="the pipe")
    insulation: InsulationAnswer = Field(description="what is round the pipe, or `none`")
    route: Annotated[list[RouteItem], Field(min_length=2)] = Field(
        description="the start, then legs and what stands between them, in order"
    )
    zones: list[ZoneItem] = Field(default=[], description="zones with conditions of their own")
    holds: list[HoldItem] = Field(default=[], description="anchors, guides and rests between the ends")
    takeups: list[AnyTakeUp] = Field(default=[], description="joints")
    may_hold: list[MayHoldItem] = Field(
        default=[], description="places that could become anchors, for `takeup arrange`; in a study they do nothing"
    )
    keep_clear: list[Stretch] = Field(
        default=[], description="stretches, each from a position to another, where nothing that is proposed may stand"
    )
    loop_room: list[LoopRoomItem] = Field(default=[], description="room beside the line for pipe loops")
    takeups_from: list[Annotated[str, free_text("the name of a series", "demonstration series")]] = Field(
        default=[], description="series that joints may be proposed from"
    )
