"""The sheet: what a drawing is before it is written as SVG or anything else.     (drawing/sheet.py)

All in millimetres on paper, origin at the top left, x to the right, y down; angles in radians, turning from x
towards y. A `View` is a group with a title and a scale. Every writer draws these few things and adds none.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Ink = Literal["black", "grey", "pale"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Stroke:
    """A pen: width [mm], ink, and lengths of dash and gap [mm]; an empty `dash` is a full line."""

    width: float
    ink: Ink = "black"
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Polyline:
    """Straight strokes through points; `closed` makes a polygon; `fill` is a colour, "#rrggbb"."""

    points: tuple[Point, ...]
    stroke: Stroke | None
    closed: bool = False
    fill: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Arc:
    """A true arc of a circle: from the angle `start` through `sweep` [rad]."""

    centre: Point
    radius: float
    start: float
    sweep: float
    stroke: Stroke


@dataclass(frozen=True, kw_only=True, slots=True)
class Circle:
    """A full circle."""

    centre: Point
    radius: float
    stroke: Stroke | None
    fill: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Text:
    """Words on the sheet: `at` is on the base line, `size` the height of the type [mm], `rotation` in degrees."""

    at: Point
    words: str
    size: float
    anchor: Anchor = "start"
    rotation: float = 0.0
    bold: bool = False
    ink: Ink = "black"


@dataclass(frozen=True, kw_only=True, slots=True)
class Dimension:
    """A dimension between two points, its line moved by `offset` to the right of the way from `start` to `end`.

    `words` is the true length in the world; `shift` moves them along from the middle, and the line is drawn on under
    them where they stand outside it. It is one record so that a writer can make a real dimension of it.
    """

    start: Point
    end: Point
    offset: float
    words: str
    size: float
    shift: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Ordinate:
    """How far a place is along an axis that runs to the right: the way from it to the words, which are read upwards.

    `points` begin at the place and end over the words, which hang from there; `words` is the true length in the world.
    """

    points: tuple[Point, ...]
    words: str
    size: float
    bold: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Sign:
    """A sign of one thing: what sort and kind of thing, its name, and what the sign is drawn of."""

    sort: str
    kind: str
    name: str
    items: tuple[Polyline | Arc | Circle, ...]


Item = Polyline | Arc | Circle | Text | Dimension | Ordinate | Sign


@dataclass(frozen=True, kw_only=True, slots=True)
class View:
    """A part of the sheet: its title, the denominator of its scale (None when it has none) and what it shows.

    `zero` is where the origin of what is shown falls on the sheet, or would fall beyond its edge [mm]: that of the
    plan's coordinates, or station nought at elevation nought. `layer` is what a view without a scale is part of.
    """

    title: str
    scale: int | None
    items: tuple[Item, ...]
    zero: Point | None = None
    layer: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """A whole drawing, width and height in millimetres; `title` and `description` are for those who cannot see it."""

    width: float
    height: float
    title: str
    description: str
    views: tuple[View, ...]
