"""The pipe, what is round it, and the stresses it may have, as pydantic models.     (line/reading/schema_pipe.py)"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Discriminator, Field, Tag

from takeup.line.reading.sentences import Bend, read_bend
from takeup.line.reading.values import Density, Item, Name, Source, Thickness
from takeup.reading.fields import free_text, one_of, quantity, sentence

BendWord: TypeAlias = Annotated[
    Bend,
    sentence(
        read_bend,
        'long radius, short radius, sharp, a radius such as 450 mm, or "mitre, 3 cuts, radius 450 mm"',
        "long radius",
        "450 mm",
        "mitre, 3 cuts, radius 450 mm",
    ),
]
SizeWord: TypeAlias = Annotated[str, free_text("a nominal size such as DN 200 or NPS 8", "DN 200", "NPS 8")]
WallWord: TypeAlias = Annotated[str, free_text("a thickness such as 8.18 mm", "8.18 mm")]
ScheduleWord: TypeAlias = Annotated[str, free_text("a schedule such as 40 or STD", "40", "STD")]
MaterialWord: TypeAlias = Annotated[str, free_text("a material such as ASTM A106 B", "ASTM A106 B")]
TableWord: TypeAlias = Annotated[str, free_text("a table of sizes such as EN 10220", "EN 10220")]
Allowance: TypeAlias = Annotated[float, quantity("length", "1 mm", least=0.0)]


AllowableStress: TypeAlias = Annotated[float, quantity("stress", "118 MPa", above=0.0, most="3 GPa")]


class StressItem(Item):
    """A stress typed in with its source; the papers print it as user's data."""

    value: AllowableStress = Field(description="the stress")
    source: Source = Field(description="where it comes from")


class AllowableItem(Item):
    """Stresses that the user answers for; a check that needs one which is not there does not run."""

    expansion_stress_range: StressItem | None = Field(
        default=None, description="allowable expansion stress range of the code"
    )
    yield_strength: StressItem | None = Field(default=None, description="yield strength at the test temperature")
    cold_stress: StressItem | None = Field(
        default=None, description="basic allowable stress at the coldest temperature"
    )
    hot_stress: StressItem | None = Field(default=None, description="basic allowable stress at the design temperature")


class PipeKeys(Item):
    """What every pipe may say, whether a line begins with it or goes on with it."""

    wall: WallWord | None = Field(default=None, description="nominal wall thickness (this or `schedule`)")
    schedule: ScheduleWord | None = Field(default=None, description="pipe schedule (this or `wall`)")
    table: TableWord | None = Field(
        default=None, description="table that the size is read in; where not said, ASME B36.10M, or EN 1057 for copper"
    )
    bends: BendWord | None = Field(default=None, description="the bends from here on; long radius where not said")
    corrosion_allowance: Allowance | None = Field(
        default=None, description="thickness that may be lost; none if unsaid"
    )
    allowable: AllowableItem | None = Field(
        default=None, description="stresses of this pipe, where those of the file do not hold"
    )


class PipeItem(PipeKeys):
    """The pipe that the line begins with; exactly one of `wall` and `schedule`."""

    size: SizeWord = Field(description="nominal size")
    material: MaterialWord = Field(description="material by its specification and grade")


class ReducedPipeItem(PipeKeys):
    """The pipe beyond a reducer; exactly one of `wall` and `schedule`; what is not said is as before it."""

    size: SizeWord = Field(description="nominal size")
    material: MaterialWord | None = Field(default=None, description="material; as before where not said")


class ChangedPipeItem(PipeKeys):
    """The pipe from a change on, of the same outside diameter; what is not said is as before it."""

    size: SizeWord | None = Field(default=None, description="nominal size; as before where not said")
    material: MaterialWord | None = Field(default=None, description="material; as before where not said")


class DensityItem(Item):
    """A density typed in with its source; the papers print it as user's data."""

    value: Density = Field(description="the density")
    source: Source = Field(description="where it comes from")


class CladdingItem(Item):
    """The sheet round the insulation."""

    kind: Name = Field(description="its metal, such as aluminium")
    thickness: Thickness = Field(description="its thickness")


class InsulationItem(Item):
    """What is round the pipe."""

    thickness: Thickness = Field(description="thickness of the insulation")
    kind: Name = Field(description="what it is, such as mineral wool")
    density: DensityItem | None = Field(default=None, description="its density, where the library's is not wanted")
    cladding: CladdingItem | None = Field(default=None, description="the sheet round it; none where not said")


def _insulation(value: object) -> str:
    return "no insulation" if isinstance(value, str) else "insulated"


NoInsulation: TypeAlias = Annotated[Literal["none"], one_of(("none",), what="insulation")]
InsulationAnswer: TypeAlias = Annotated[
    Annotated[NoInsulation, Tag("no insulation")] | Annotated[InsulationItem, Tag("insulated")],
    Discriminator(_insulation),
]
