"""A take-up whose joint comes from a series, as a pydantic model.     (line/reading/schema_choices.py)"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import Discriminator, Field, Tag

from takeup.joints import JointEnds, TakeUpKind
from takeup.line.fitting import Surrounding
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
from takeup.line.reading.schema_hardware import PinsLieItem
from takeup.line.reading.schema_takeups import OTHER_TAKEUPS, MisalignmentItem, TakeUpItem
from takeup.line.reading.sentences import read_preset
from takeup.line.reading.values import Chlorides, Item, Name, Words
from takeup.reading.fields import free_text, one_of, sentence, yes_or_no

Ranks = Literal["price", "thrust", "length", "life"]
OTHER_CHOICES = OTHER_TAKEUPS | {
    "double": "from a series only by its halves: write two joints and an intermediate anchor between them",
    "double externally pressurised": "from a series only by its halves: write two joints and an anchor between them",
}


class ChoiceItem(Item):
    """A joint in the line that comes from a series: named there, or selected for its place."""

    name: Name = Field(description="its name")
    kind: Annotated[TakeUpKind, one_of(get_args(TakeUpKind), what="take-up", refused=OTHER_CHOICES)] = Field(
        description="kind of joint"
    )
    at: Annotated[str, free_text("a position such as boiler house header + 2.5 m", "34.5 m")] = Field(
        description="where the middle of the joint is"
    )
    series: Annotated[str, free_text("the name of a series", "demonstration series")] = Field(
        alias="from",
        description="series that the joint is taken from: `demonstration series`, or one imported by `takeup joints "
        "import`, in the folder `series` beside this file",
    )
    joint: Words | None = Field(
        default=None, description="name of the joint in its series, where it is not to be selected (this or `select`)"
    )
    select: Annotated[bool, yes_or_no(or_true=True)] | None = Field(
        default=None,
        description="yes: the first joint of the series that fits and whose own study stands (this or `joint`)",
    )
    rank: Annotated[Ranks, one_of(get_args(Ranks), what="rank")] | None = Field(
        default=None,
        description="which of those that fit is first: by least price, thrust or length, or longest life; "
        "price where not said",
    )
    preset: Annotated[float, sentence(read_preset, "12 mm extended or 12 mm compressed", "12 mm extended")] | None = (
        Field(default=None, description="how it is fitted at the installation temperature")
    )
    misalignment: MisalignmentItem | None = Field(
        default=None, description="what installation may use up of its ratings; none if not said"
    )
    pins: PinsLieItem | None = Field(
        default=None, description="how its pins lie: of hinged and gimbal, required; all else of them its series says"
    )
    ends: Annotated[JointEnds, one_of(get_args(JointEnds), what="way of joining")] | None = Field(
        default=None, description="how it is joined to its pipe, where its series does not say; not said where left out"
    )
    velocity: Velocity | None = Field(default=None, description="greatest velocity of the flow through it")
    liner: LinerItem | None = Field(default=None, description="its liner, or that it has none")
    surroundings: Annotated[tuple[Surrounding, ...], AROUND] | None = Field(
        default=None, description=SURROUNDINGS_WORDS
    )
    cover: CoverItem | None = Field(default=None, description="its cover, or that it has none")
    traces: Traces | None = Field(default=None, description=TRACES_WORDS)
    chlorides: Chlorides | None = Field(default=None, description=CHLORIDES_WORDS)
    lining: LiningWord | None = Field(default=None, description=LINING_WORDS)


TAKEUP_MODELS: dict[str, type[Item]] = {"joint item": TakeUpItem, "choice item": ChoiceItem}


def takeup_item(value: object) -> str:
    """Return which model a take-up has: one from a series says so and has no data typed in."""
    from_series = isinstance(value, dict) and ("from" in value or "select" in value) and "data" not in value
    return "choice item" if from_series else "joint item"


AnyTakeUp: TypeAlias = Annotated[
    Annotated[TakeUpItem, Tag("joint item")] | Annotated[ChoiceItem, Tag("choice item")],
    Discriminator(takeup_item),
]
