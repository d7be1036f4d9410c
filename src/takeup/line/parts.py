"""What a line is made of: pipe, sections, legs, corners, items, the place where it branches off.     (line/parts.py)

Positions are stations [m], the sum of leg lengths between intersections of centre lines. Lengths in metres.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.basis import Tee
from takeup.library import Insulation, Material, PipeSize

Vector = tuple[float, float, float]
BendPlace = Literal["tangent start", "crown", "tangent end"]
ItemKind = Literal["valve", "flange", "reducer", "item"]


def station_words(station: float) -> str:
    """Return a station [m] as a person would type it, to the micrometre, so that the file gives the same answer."""
    return f"{station:.6f}".rstrip("0").rstrip(".") + " m"


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
class Allowables:
    """Stresses that the user answers for [Pa]; a check whose stress is None does not run.

    Args:
        expansion_stress_range: the code's allowable range S_A; where it is None, S_A comes from `cold` and `hot`.
        yield_strength: at the design temperature.
        cold: basic allowable stress at the coldest temperature, S_c.
        hot: basic allowable stress at the design temperature, S_h.
    """

    expansion_stress_range: UserValue | None = None
    yield_strength: UserValue | None = None
    cold: UserValue | None = None
    hot: UserValue | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Bends:
    """The bends that a pipe turns with where nothing else is said: radius [m], None where sharp; mitre cuts, if any."""

    radius: float | None
    words: str
    cuts: int = 0


@dataclass(frozen=True, kw_only=True, slots=True)
class Pipe:
    """A pipe: size [m], nominal wall [m], material and the expansion table it is read from, with the reason.

    `allowables` are its own where the study's do not hold; `bends` are those it turns with unless a corner says other.
    """

    size: PipeSize
    wall: float
    wall_words: str
    material: Material
    expansion_table: str
    expansion_because: str
    bends: Bends
    corrosion_allowance: float = 0.0
    allowables: Allowables | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Section:
    """A stretch of a line with one pipe and one insulation, from one station to another [m]."""

    start: float
    end: float
    pipe: Pipe
    insulation: Insulation | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Mitre:
    """A bend made of straight pieces: how many cuts, and how far apart they are along the centre line [m]."""

    cuts: int
    spacing: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Corner:
    """The intersection where one leg ends; `bend_radius` is None at a sharp corner and where no turn is made.

    Args:
        name: of the corner.
        bend_radius: of the centre line; for a mitre bend its effective radius [m].
        bend_words: as the user said it.
        flanges: how many ends of the bend are flanged: 0, 1 or 2.
        mitre: how a mitre bend is cut; None for a smooth bend.
    """

    name: str
    bend_radius: float | None
    bend_words: str
    flanges: int = 0
    mitre: Mitre | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Leg:
    """A straight leg between intersections: unit direction, length [m], the corner or end it runs to.

    `item` names the valve, flange, reducer or other thing that fills the leg; None for pipe.
    """

    direction: Vector
    length: float
    to: Corner
    item: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Item:
    """A thing with length and weight in the line: a valve, a flange, a reducer, a strainer.

    Args:
        name: its name.
        kind: what it is.
        start: station of its first face [m].
        end: station of its last face [m].
        weight: whole [N], its own insulation included.
        stiffer: how many times as stiff as the pipe beside it; a reducer has the stiffness of its own cone.
        can_close: whether it bounds a zone: a valve does unless the user says otherwise.
    """

    name: str
    kind: ItemKind
    start: float
    end: float
    weight: float
    stiffer: float
    can_close: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Branch:
    """Where a line leaves another, and how the opening is reinforced.

    Args:
        of: name of the line it leaves.
        position: on that line.
        tee: how it is made.
        pad: thickness of the reinforcing pad [m]; zero where there is none.
    """

    of: str
    position: Position
    tee: Tee
    pad: float = 0.0
