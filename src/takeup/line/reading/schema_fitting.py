"""How a joint is fitted out, as pydantic models: liner, cover, what lies round it. (line/reading/schema_fitting.py)"""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, get_args

from pydantic import Field

from takeup.joints.advice import TRACES, Lining
from takeup.line.fitting import Surrounding
from takeup.line.reading.values import Item, JointLength, Source
from takeup.reading.fields import one_of, quantity, yes_or_no

SURROUNDINGS: tuple[Surrounding, ...] = get_args(Surrounding)
AROUND = replace(
    one_of(SURROUNDINGS, what="word for what lies round a joint"),
    about=f"one or several of: {', '.join(SURROUNDINGS)}",
    lists=True,
)
Traces = Annotated[
    tuple[str, ...],
    replace(
        one_of(tuple(TRACES), what="word for what the medium holds"),
        about=f"one or several of: {', '.join(TRACES)}",
        lists=True,
    ),
]
LiningWord = Annotated[Lining, one_of(get_args(Lining), what="lining")]
TRACES_WORDS = (
    "what the medium holds beside itself, for the advice on materials; nothing is judged by what is not said, and "
    "`nothing harmful` says that there is none of it"
)
CHLORIDES_WORDS = "chlorides in the medium, by weight, for the advice on materials"
LINING_WORDS = (
    "lining of its bellows, for the advice on materials; where not said its metal is taken as wetted by the medium"
)
SURROUNDINGS_WORDS = (
    "what lies round it, for its cover and for the advice on materials: `in weather` where rain and ice fall on the "
    "joint itself, `outdoors` where rain reaches the line alone, `nothing harmful` where none of the words after `in "
    "ground` holds; neither is looked at where not said"
)
Velocity = Annotated[float, quantity("velocity", "35 m/s", above=0.0, most="500 m/s")]


class LinerItem(Item):
    """The liner inside a joint's bellows: fixed at the end where the flow comes in, open at the other."""

    fitted: Annotated[bool, yes_or_no()] = Field(description="whether there is one")
    clearance: Annotated[float, quantity("length", "8 mm", above=0.0, most="500 mm")] | None = Field(
        default=None, description="between it and the bellows' inside, of the radius; not looked at where not said"
    )
    length: JointLength | None = Field(
        default=None, description="beyond its fixed end; the clearance is not looked at where not said"
    )
    drained: Annotated[bool, yes_or_no()] | None = Field(
        default=None, description="whether it has holes by its fixed end; asked for where gas or steam flows upward"
    )
    source: Source | None = Field(
        default=None, description="where clearance and length come from; required where one of them is said"
    )


class CoverItem(Item):
    """The cover over a joint's bellows."""

    fitted: Annotated[bool, yes_or_no()] = Field(description="whether there is one")


__all__ = [
    "AROUND",
    "CHLORIDES_WORDS",
    "LINING_WORDS",
    "SURROUNDINGS",
    "SURROUNDINGS_WORDS",
    "TRACES_WORDS",
    "CoverItem",
    "LinerItem",
    "LiningWord",
    "Traces",
    "Velocity",
]
