"""The route of a line as pydantic models: its start, its legs, what stands in it.     (line/reading/schema_route.py)"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import Discriminator, Field, Tag

from takeup.basis import Tee
from takeup.line.holding import EndKind
from takeup.line.reading.going import Go, read_go
from takeup.line.reading.schema_ends import EndKeys
from takeup.line.reading.schema_pipe import BendWord, ChangedPipeItem, InsulationAnswer, ReducedPipeItem
from takeup.line.reading.values import NOT_COVERED, Coordinate, FittingLength, Item, Name, Thickness, Weight
from takeup.reading.fields import free_text, number, one_of, sentence, whole_number, yes_or_no

Eccentric = Literal["flat top", "flat bottom"]
OWN_ENDS: tuple[EndKind, ...] = tuple(kind for kind in get_args(EndKind) if kind != "branch")
OTHER_ENDS = {"intermediate anchor": NOT_COVERED}
_LATER = f"{NOT_COVERED}: a line leaves another at its start, and no line ends in another, so no lines form a ring"

StartWord: TypeAlias = Annotated[EndKind, one_of(OWN_ENDS, what="end", refused=OTHER_ENDS)]
EndWord: TypeAlias = Annotated[EndKind, one_of(OWN_ENDS, what="end", refused=OTHER_ENDS | {"branch": _LATER})]
Stiffer: TypeAlias = Annotated[float, number("a plain number, one or more", least=1.0)]
Coordinates: TypeAlias = Annotated[list[Coordinate], Field(min_length=3, max_length=3)]


class StartItem(EndKeys):
    """Where the route of a line begins that leaves no other: its first item."""

    start: Name = Field(description="name of the place where the line begins")
    at: Coordinates = Field(description="its place: lengths to the east, to the north and up")
    kind: StartWord = Field(alias="as", description="what this end is; or `branch`")


class BranchItem(Item):
    """Where a line leaves another: the first item of its route; its place follows from the other line."""

    start: Name = Field(description="name of the place where the line begins")
    kind: Annotated[Literal["branch"], one_of(("branch",), what="end")] = Field(
        alias="as", description="that it leaves another line"
    )
    of: Name = Field(description="name of the line that it leaves, which stands earlier in the file")
    at: Annotated[str, free_text("a position on that line such as yard corner + 3 m", "yard corner + 3 m")] = Field(
        description="where on that line"
    )
    tee: Annotated[Tee, one_of(get_args(Tee), what="tee")] = Field(description="how the branch is made")
    pad: Thickness | None = Field(
        default=None, description="thickness of the pad: required for a reinforced fabricated tee, and only there"
    )


class LegItem(EndKeys):
    """A straight leg, to the intersection with the next one; `go` or `by` says how far and which way."""

    go: (
        Annotated[
            Go,
            sentence(
                read_go,
                "a length and a direction such as 96 m east, 30 m bearing 45 deg or 12 m east rising 1 in 100 (the "
                "length is along the leg), or a length alone with `along`",
                "96 m east",
                "12 m east rising 1 in 100",
            ),
        ]
        | None
    ) = Field(default=None, description="how far and which way, between intersections of centre lines (this or `by`)")
    by: Coordinates | None = Field(
        default=None, description="the way to the next intersection: to the east, to the north and up (this or `go`)"
    )
    along: Annotated[list[Annotated[float, number("a plain number")]], Field(min_length=3, max_length=3)] | None = (
        Field(
            default=None, description="direction to the east, to the north and up, of any length, where `go` says none"
        )
    )
    to: Name | None = Field(default=None, description="name of the corner or end reached; required on the last leg")
    kind: EndWord | None = Field(
        default=None, alias="as", description="what the end is; required on the last leg, and only there"
    )
    bend: BendWord | None = Field(
        default=None, description="the bend at its corner, where it is not the line's usual one"
    )
    flanged_ends: Annotated[int, whole_number("0, 1 or 2", least=0, most=2)] | None = Field(
        default=None, description="how many ends of that bend are flanged; none where not said"
    )


class FittingKeys(Item):
    """What every thing in the line says; it lies in the direction of the leg before it."""

    length: FittingLength = Field(description="length, face to face")
    weight: Weight = Field(description="whole weight with its insulation, or mass (taken times standard gravity)")


class ValveItem(FittingKeys):
    """A valve in the line."""

    valve: Name = Field(description="its name, which stands for its middle in positions")
    stiffer: Stiffer | None = Field(
        default=None, description="how many times as stiff as the pipe beside it; 10 where not said"
    )
    can_close: Annotated[bool, yes_or_no()] | None = Field(
        default=None, description="whether it closes and so bounds a zone; yes where not said"
    )


class FlangeItem(FittingKeys):
    """A pair of flanges in the line."""

    flange: Name = Field(description="its name, which stands for its middle in positions")
    stiffer: Stiffer | None = Field(
        default=None, description="how many times as stiff as the pipe beside it; 1 where not said"
    )


class ThingItem(FittingKeys):
    """Anything else in the line that is straight and has a weight, such as a strainer."""

    item: Name = Field(description="its name, which stands for its middle in positions")
    stiffer: Stiffer | None = Field(
        default=None, description="how many times as stiff as the pipe beside it; 1 where not said"
    )


class ReducerItem(FittingKeys):
    """A reducer: the line goes on with another size, larger or smaller; the pipes meet at its middle."""

    reducer: Name = Field(description="its name, which stands for its middle in positions")
    to_pipe: ReducedPipeItem = Field(description="the pipe beyond it")
    eccentric: Annotated[Eccentric, one_of(get_args(Eccentric), what="side")] | None = Field(
        default=None, description="which side goes on level; concentric where not said"
    )


class ChangeItem(Item):
    """From here on another wall, another material or another insulation, of the same outside diameter."""

    change: Name = Field(description="its name, which stands for its place in positions")
    pipe: ChangedPipeItem | None = Field(default=None, description="the pipe from here on, where it changes")
    insulation: InsulationAnswer | None = Field(
        default=None, description="what is round it from here on, or `none`, where it changes"
    )


AnyFitting: TypeAlias = ValveItem | FlangeItem | ThingItem | ReducerItem
ROUTE_MODELS: dict[str, type[Item]] = {
    "start item": StartItem,
    "branch item": BranchItem,
    "leg item": LegItem,
    "valve item": ValveItem,
    "flange item": FlangeItem,
    "thing item": ThingItem,
    "reducer item": ReducerItem,
    "change item": ChangeItem,
}
ITEM_KEYS = {
    "valve": "valve item",
    "flange": "flange item",
    "item": "thing item",
    "reducer": "reducer item",
    "change": "change item",
}
"""The key by which each thing between legs is told from a leg, and its model."""


def route_item(value: object) -> str:
    """Return which model an item of the route has; whatever says nothing else is a leg."""
    if not isinstance(value, dict):
        return "leg item"
    if "start" in value:
        return "branch item" if value.get("as") == "branch" or "of" in value else "start item"
    return next((tag for key, tag in ITEM_KEYS.items() if key in value and "go" not in value), "leg item")


RouteItem: TypeAlias = Annotated[
    Annotated[StartItem, Tag("start item")]
    | Annotated[BranchItem, Tag("branch item")]
    | Annotated[LegItem, Tag("leg item")]
    | Annotated[ValveItem, Tag("valve item")]
    | Annotated[FlangeItem, Tag("flange item")]
    | Annotated[ThingItem, Tag("thing item")]
    | Annotated[ReducerItem, Tag("reducer item")]
    | Annotated[ChangeItem, Tag("change item")],
    Discriminator(route_item),
]
