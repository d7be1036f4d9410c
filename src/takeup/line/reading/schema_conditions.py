"""What the lines go through, as pydantic models: conditions, cycles, states.     (line/reading/schema_conditions.py)"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import Field

from takeup.line.conditions import Vacuum, Warming
from takeup.line.reading.sentences import read_vacuum
from takeup.line.reading.values import Chlorides, Elevation, Item, Name, Pressure, RatedPressure, Source, Temperature
from takeup.reading.fields import count, number, one_of, reason, sentence, texts

_PNEUMATIC = "not covered by this version: a pneumatic test needs an exclusion distance and its own rules"

CycleEnd: TypeAlias = Literal["cold", "operating", "design"]
WalkModulus: TypeAlias = Literal["at installation", "at operating temperature"]
WalkStart: TypeAlias = Literal["none", "locked in"]
Content: TypeAlias = Literal["medium", "water", "empty"]
ContentWord: TypeAlias = Annotated[Content, one_of(get_args(Content), what="content")]


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
    at_elevation: Elevation | None = Field(default=None, description="elevation at which the pressure is stated")


class OperatingItem(Item):
    """Operating conditions: movements and cycles are counted at these."""

    pressure: Pressure = Field(description="operating pressure")
    temperature: Temperature = Field(description="operating temperature")
    at_elevation: Elevation | None = Field(default=None, description="elevation at which the pressure is stated")


class OwnDesignItem(Item):
    """Design conditions of one line or one zone; the answer on vacuum stands once, at the top."""

    pressure: RatedPressure = Field(description="design pressure, not below the highest relief set pressure")
    temperature: Temperature = Field(description="design temperature")
    at_elevation: Elevation | None = Field(default=None, description="elevation at which the pressure is stated")


class TestItem(Item):
    """The pressure test."""

    pressure: Pressure = Field(description="test pressure")
    medium: Annotated[
        Literal["water"], one_of(("water",), what="test medium", refused=dict.fromkeys(("air", "nitrogen"), _PNEUMATIC))
    ] = Field(alias="with", description="what the line is tested with")
    temperature: Temperature = Field(description="temperature of the line during the test")
    gauge_elevation: Elevation | None = Field(default=None, description="elevation of the test gauge")
    chlorides: Chlorides | None = Field(
        default=None, description="chlorides in the test water, for the advice on materials; not said where left out"
    )


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


class DropItem(Item):
    """A state of the default order that this line never sees."""

    state: Name = Field(description="name of the state")
    because: Annotated[str, reason("a text", "say why it cannot happen")] = Field(
        description="why it cannot happen; printed"
    )


class StateKeys(Item):
    """What a state, or one zone in it, is at; each left out where the state that it is like says it."""

    pressure: Pressure | None = Field(default=None, description="pressure, beside its temperature")
    temperature: Temperature | None = Field(default=None, description="temperature, beside its pressure")
    content: ContentWord | None = Field(default=None, description="what the line holds")
    at_elevation: Elevation | None = Field(default=None, description="elevation at which the pressure is stated")


class ZoneChangeItem(StateKeys):
    """What one zone is at in a state of the user's own."""

    zone: Name = Field(description="name of the zone, as `takeup study` prints it")


class AddItem(StateKeys):
    """A state of the user's own, after the default ones: the same everywhere, or like another state with changes."""

    name: Name = Field(description="what is going on")
    like: Name | None = Field(default=None, description="state of the default order that it starts from")
    zones: list[ZoneChangeItem] = Field(default=[], description="zones that are at something else")
    closed: Annotated[tuple[str, ...], texts("the name of a valve, or a list of them")] | None = Field(
        default=None, description="valves that are closed in it"
    )
    loads: Annotated[tuple[str, ...], texts("the name of a load, or a list of them")] | None = Field(
        default=None, description="occasional loads that act in it; sustained ones act in every state, named or not"
    )
    hangers: Annotated[Literal["locked"], one_of(("locked",), what="answer")] | None = Field(
        default=None, description="that spring hangers are locked in it"
    )


class WalkItem(Item):
    """How the states are walked, one after the other."""

    modulus: Annotated[WalkModulus, one_of(get_args(WalkModulus), what="modulus")] | None = Field(
        default=None,
        description="modulus of the pipe at which the states are walked: at installation where not said, when forces "
        "are greatest",
    )
    friction_at_installation: Annotated[WalkStart, one_of(get_args(WalkStart), what="friction")] | None = Field(
        default=None,
        description="whether friction may stay locked in when the line is installed: none where not said",
    )


class DesignFactorsItem(Item):
    """What loads on holds are multiplied by for those who design the structure; without it they stay as computed."""

    anchors: Annotated[float, number("a plain number, one or more", least=1.0)] = Field(
        description="on forces and moments of anchors, stops, nozzles and ends that continue"
    )
    guides: Annotated[float, number("a plain number, one or more", least=1.0)] = Field(
        description="on those of guides, rests and hangers"
    )
    source: Source = Field(description="whose factors these are: code, clause, or who asked for them")


class StatesItem(Item):
    """Changes to the default order of states."""

    warming: Annotated[Warming, one_of(get_args(Warming), what="way of warming")] | None = Field(
        default=None, description="how the lines warm: zone by zone where not said"
    )
    drop: list[DropItem] = Field(default=[], description="states left out, each with its reason")
    add: list[AddItem] = Field(default=[], description="states added")
    order: Annotated[tuple[str, ...], texts("a state, or a list of them", "operating")] | None = Field(
        default=None,
        description="states in the order in which they are walked, after the first, installed; others follow as usual",
    )
