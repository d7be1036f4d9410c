"""What the user describes, checked and in SI: the records that everything downstream reads.     (line/records.py)

`Study` is the whole file; it holds `Line`s. Positions are stations [m], the sum of leg lengths between
intersections of centre lines. Pressures are gauge [Pa], temperatures degrees Celsius, lengths [m], forces [N].
Every record is frozen; resolving "by spacing rule" makes a new `Line` (choose/resolve.py).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.joints import JointData, TakeUpKind
from takeup.library import Friction, Insulation, Material, PipeSize

Vector = tuple[float, float, float]
EndKind = Literal["main anchor", "free", "blind"]
HoldKind = Literal["main anchor", "intermediate anchor", "spider guide", "slide guide", "rest"]
RuleKind = Literal["spacing rule", "support spans"]
BendPlace = Literal["tangent start", "crown", "tangent end"]
Medium = Literal["steam", "water", "air"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Position:
    """A place in the user's own words, as resolved: `words` for people, `station` for computation [m]."""

    words: str
    station: float
    on_bend: BendPlace | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class UserValue:
    """A number that the user typed in with its source, printed as "user's data"."""

    value: float
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Pipe:
    """The pipe of a line: size [m], nominal wall [m], material."""

    size: PipeSize
    wall: float
    wall_words: str
    material: Material


@dataclass(frozen=True, kw_only=True, slots=True)
class Corner:
    """The intersection where one leg ends; `bend_radius` is None at a sharp corner and where no turn is made."""

    name: str
    bend_radius: float | None
    bend_words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Leg:
    """A straight leg between intersections: unit direction, length [m], and the corner or end it runs to."""

    direction: Vector
    length: float
    to: Corner


@dataclass(frozen=True, kw_only=True, slots=True)
class End:
    """One end of the line. Every end is closed: the anchor or the cap carries the pressure on it."""

    name: str
    kind: EndKind
    can_carry: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Hold:
    """An anchor, guide or rest at one place."""

    name: str
    kind: HoldKind
    position: Position
    can_carry: float | None = None
    friction: Friction | None = None
    placed_by: str = "by hand"


@dataclass(frozen=True, kw_only=True, slots=True)
class HoldRule:
    """Holds that a rule places: guides by the spacing rule, or rests and guides by the support spans."""

    kind: Literal["spider guide", "slide guide", "rest"]
    by: RuleKind
    friction: Friction | None


@dataclass(frozen=True, kw_only=True, slots=True)
class TakeUp:
    """A joint in the line; `position` is the middle of its face-to-face length. `preset` > 0: fitted extended [m]."""

    name: str
    kind: TakeUpKind
    position: Position
    data: JointData
    preset: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Condition:
    """A pressure with the elevation at which it is stated, and a temperature."""

    pressure: float
    temperature: float
    at_elevation: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Vacuum:
    """The answer to "can the line be under vacuum?": the lowest pressure, or why there is none."""

    possible: bool
    pressure: float
    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Cycle:
    """So many times between two named conditions: cold, operating, design."""

    start: str
    end: str
    count: int


@dataclass(frozen=True, kw_only=True, slots=True)
class DroppedState:
    """A state of the default order that the user excludes, with the reason that is printed."""

    state: str
    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class AddedState:
    """A state of the user's own, for the whole line."""

    name: str
    condition: Condition
    content: Literal["medium", "water", "empty"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """One line: its route, pipe, holds and take-ups; `remarks` say what resolving its rules did."""

    name: str
    medium: Medium
    pipe: Pipe
    insulation: Insulation | None
    start: End
    start_at: Vector
    legs: tuple[Leg, ...]
    end: End
    holds: tuple[Hold, ...]
    rules: tuple[HoldRule, ...]
    takeups: tuple[TakeUp, ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Document:
    """The number, revision and date that the papers bear. No clock is ever read."""

    number: str
    revision: str
    date: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Basis:
    """The code, its edition and the expansion table chosen with it."""

    code: Literal["ASME B31.1"]
    edition: int
    expansion_table: str
    expansion_table_because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Site:
    """Installation, coldest and hottest ambient temperature [degC]."""

    installation: float
    coldest: float
    hottest: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Study:
    """A whole file: one line in this version, its conditions and its basis."""

    project: str
    document: Document
    basis: Basis
    site: Site
    design: Condition
    vacuum: Vacuum
    operating: Condition
    test: Condition
    test_medium: Literal["water"]
    cycles: tuple[Cycle, ...]
    stress_range_limit: UserValue | None
    yield_strength: UserValue | None
    line: Line
    dropped: tuple[DroppedState, ...]
    added: tuple[AddedState, ...]
    file: str
    sha256: str
