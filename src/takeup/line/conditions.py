"""What a line goes through: pressures, temperatures, cycles, states and loads of the user's.     (line/conditions.py)

Pressures are gauge [Pa], temperatures degrees Celsius, forces [N].
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.basis import Code
from takeup.line.parts import Position, Vector

Medium = Literal["steam", "water", "condensate", "air", "nitrogen", "thermal oil"]
Warming = Literal["zone by zone", "leg by leg"]
Duration = Literal["sustained", "occasional"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Condition:
    """A pressure with the elevation at which it is stated, and a temperature; of a test its water's chlorides [mg/kg].

    `chlorides_ppm` is None where nobody says it.
    """

    pressure: float
    temperature: float
    at_elevation: float | None = None
    chlorides_ppm: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Conditions:
    """Design, operating and test conditions of a line or of a zone."""

    design: Condition
    operating: Condition
    test: Condition


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
class WalkOptions:
    """How the states are walked: at whose modulus, and whether friction may be locked in at installation."""

    modulus: Literal["installation", "operating"] = "installation"
    locked_in: bool = False


COLD_WALK = WalkOptions()


@dataclass(frozen=True, kw_only=True, slots=True)
class DesignFactors:
    """What loads on anchors and on guides are multiplied by for those who design the structure, and whose they are."""

    anchors: float
    guides: float
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class DroppedState:
    """A state of the default order that the user excludes, with the reason that is printed."""

    state: str
    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class ZoneChange:
    """What one zone is at in a state of the user's own; None leaves what the state has elsewhere."""

    zone: str
    condition: Condition | None
    content: Literal["medium", "water", "empty"] | None


@dataclass(frozen=True, kw_only=True, slots=True)
class AddedState:
    """A state of the user's own: a condition everywhere, or like another state, with changes zone by zone.

    Args:
        name: what is going on.
        condition: of every zone; None where `like` gives it.
        content: of every zone; None where `like` gives it.
        like: name of the state it starts from.
        zones: what some zones are at instead.
        closed: valves that are closed in it.
        loads: names of the user's loads that act in it.
        locked: whether spring hangers are locked in it.
    """

    name: str
    condition: Condition | None
    content: Literal["medium", "water", "empty"] | None
    like: str | None = None
    zones: tuple[ZoneChange, ...] = ()
    closed: tuple[str, ...] = ()
    loads: tuple[str, ...] = ()
    locked: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class ZoneRule:
    """A zone of the user's own: from a place on a line on to the next bound, with conditions of its own."""

    name: str
    position: Position
    conditions: Conditions | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Load:
    """A load of the user's own, at a place or along a stretch, in global axes.

    Args:
        name: what it is; several loads may share a name and then act together.
        line: on which.
        start: where it begins, or the place of a point load.
        end: where a spread load ends; None for a point load.
        force: [N], or [N/m] of a spread load.
        moment: [N m]; zero for a spread load.
        duration: sustained loads act with the weight, occasional ones (wind, earthquake, relief) are judged apart.
        source: where it comes from.
    """

    name: str
    line: str
    start: Position
    end: Position | None
    force: Vector
    moment: Vector
    duration: Duration
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Document:
    """The number, revision and date that the papers bear. No clock is ever read."""

    number: str
    revision: str
    date: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Basis:
    """The code and its edition."""

    code: Code
    edition: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Site:
    """Installation, coldest and hottest ambient temperature [degC]."""

    installation: float
    coldest: float
    hottest: float
