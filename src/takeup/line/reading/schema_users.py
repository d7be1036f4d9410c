"""What the user answers for: loads and materials of the user's own.     (line/reading/schema_users.py)"""

from __future__ import annotations

from typing import Annotated, TypeAlias, get_args

from pydantic import Field

from takeup.line.conditions import Duration
from takeup.line.reading.values import Density, Item, Name, Source, Stress, Temperature
from takeup.reading.fields import free_text, number, one_of, quantity

AnyForce: TypeAlias = Annotated[float, quantity("force", "-12 kN", most="100 MN")]
AnyLineForce: TypeAlias = Annotated[float, quantity("force per length", "120 N/m", most="1000 kN/m")]
AnyMoment: TypeAlias = Annotated[float, quantity("moment", "3 kN·m", most="100000 kN·m")]
Place: TypeAlias = Annotated[str, free_text("a position such as roof corner + 12 m", "34.5 m")]


class LoadItem(Item):
    """A load of the user's own, in global axes: at a place with `at`, or along a stretch with `from` and `to`."""

    name: Name = Field(description="what it is; several loads may share a name and then act together")
    on: Name = Field(description="name of the line that it acts on")
    at: Place | None = Field(default=None, description="where a point load acts")
    start: Place | None = Field(default=None, alias="from", description="where a spread load begins")
    end: Place | None = Field(default=None, alias="to", description="where a spread load ends")
    force: Annotated[list[AnyForce], Field(min_length=3, max_length=3)] | None = Field(
        default=None, description="of a point load: to the east, to the north and up"
    )
    moment: Annotated[list[AnyMoment], Field(min_length=3, max_length=3)] | None = Field(
        default=None, description="of a point load: about the axes to the east, to the north and up"
    )
    force_per_length: Annotated[list[AnyLineForce], Field(min_length=3, max_length=3)] | None = Field(
        default=None, description="of a spread load, per length of the line: to the east, to the north and up"
    )
    acts: Annotated[Duration, one_of(get_args(Duration), what="duration")] = Field(
        description="sustained loads act with the weight, in every state; occasional ones (wind, earthquake, relief) "
        "act in the added states that name them, and are judged apart"
    )
    source: Source = Field(description="where it comes from")


class ExpansionRow(Item):
    """One row of a material's expansion."""

    at: Temperature = Field(description="temperature")
    total: Annotated[float, quantity("strain", "1.1 mm/m")] = Field(
        description="total expansion from the temperature of reference; below zero where it is colder"
    )


class ModulusRow(Item):
    """One row of a material's modulus of elasticity."""

    at: Temperature = Field(description="temperature")
    value: Stress = Field(description="modulus of elasticity")


class MaterialItem(Item):
    """A material of the user's own; a pipe names it as it names one of the library's."""

    name: Name = Field(description="its name, which must not be one of the library's")
    expansion: Annotated[list[ExpansionRow], Field(min_length=1)] = Field(
        description="total expansion, row by row, each at a higher temperature than the one before"
    )
    expansion_from: Temperature | None = Field(
        default=None, description="temperature of reference, at which the total is zero; 21.1 °C where not said"
    )
    modulus: Annotated[list[ModulusRow], Field(min_length=2)] = Field(
        description="modulus of elasticity, row by row, each at a higher temperature than the one before"
    )
    density: Density = Field(description="its density")
    poisson: Annotated[float, number("a plain number", least=0.0)] = Field(description="Poisson's ratio")
    source: Source = Field(description="where the data come from")
