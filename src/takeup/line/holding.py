"""What holds a line: its ends, its holds, the equipment at a nozzle.     (line/holding.py)

Stiffness, settlement and growth are given in global axes (east, north, up) [N/m], [N m/rad], [m].
Forces and moments in newtons and newton metres.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.library import Friction
from takeup.line.parts import Position, Vector

EndKind = Literal["main anchor", "free", "blind", "equipment", "closed valve", "continues", "branch"]
HoldKind = Literal[
    "main anchor",
    "intermediate anchor",
    "directional anchor",
    "stop",
    "spider guide",
    "slide guide",
    "planar guide",
    "rest",
    "hanger",
    "spring hanger",
]
RuleKind = Literal["spacing rule", "support spans"]
NozzleRule = Literal["each component", "linear sum", "root sum of squares"]
ANCHORED_ENDS: tuple[EndKind, ...] = ("main anchor", "equipment", "continues")
ANCHORS: tuple[HoldKind, ...] = ("main anchor", "intermediate anchor")


@dataclass(frozen=True, kw_only=True, slots=True)
class Stiffness:
    """How far the structure behind an anchor gives: three translations, three rotations; None is rigid."""

    force: tuple[float | None, float | None, float | None]
    moment: tuple[float | None, float | None, float | None]
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Nozzle:
    """What a piece of equipment allows at its nozzle.

    Args:
        force: limits along the nozzle's axes x, y, z; x points from the equipment into the line [N].
        moment: limits about the same axes [N m].
        up: the nozzle's z axis before it is made square to x, global; None: as the line's own.
        rule: how components are put together.
        limit: of the sum, for the two combining rules (1.0 unless the equipment's sheet says otherwise).
        source: where the limits come from.
    """

    force: Vector
    moment: Vector
    up: Vector | None
    rule: NozzleRule
    limit: float
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Growth:
    """How far equipment moves its nozzle when it is hot [m], global axes; with its source."""

    movement: Vector
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class End:
    """One end of a line. Every end is closed but a branch, which opens into its main.

    "continues" is held like an anchor, carries this side only, and never passes.
    """

    name: str
    kind: EndKind
    can_carry: float | None = None
    can_carry_moment: float | None = None
    stiffness: Stiffness | None = None
    settlement: Vector | None = None
    growth: Growth | None = None
    nozzle: Nozzle | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Spring:
    """A spring hanger or spring support: its rate, its load as set cold, and the loads it works between.

    Args:
        rate: [N/m].
        cold_load: upward force on the pipe at installation [N].
        least: least load of its working range [N].
        most: greatest load of its working range [N].
        locked_in_test: whether it is a rigid support during the pressure test.
        source: where its data come from.
        stop_up: how far the pipe may rise from where it was installed before the casing stops it [m]; None: no stop.
        stop_down: the same, downward.
    """

    rate: float
    cold_load: float
    least: float
    most: float
    locked_in_test: bool
    source: str
    stop_up: float | None = None
    stop_down: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Hold:
    """An anchor, guide, stop, rest or hanger at one place.

    Args:
        name: its name.
        kind: what it is.
        position: where.
        can_carry: force [N].
        can_carry_moment: moment, for anchors [N m].
        friction: what it slides on; None where it does not.
        placed_by: "by hand", or the rule that placed it.
        along: the axis that a directional anchor or a stop holds, or in which a planar guide leaves the line free,
            global unit vector; None: along the pipe for the first two.
        sense: of a stop: +1 holds movement along `along`, -1 against it.
        stiffness: of the structure, for anchors; None is rigid.
        settlement: how far its foot moves before the line is hot [m].
        spring: of a spring hanger.
        hot_leg: height of the steel between pipe and foot that is as hot as the pipe, and grows with it [m].
        only_in: names of the states in which a temporary hold exists; None: always there.
        clearance: of a guide, each way across the pipe [m].
        gap: of a stop, before it bears [m].
    """

    name: str
    kind: HoldKind
    position: Position
    can_carry: float | None = None
    can_carry_moment: float | None = None
    friction: Friction | None = None
    placed_by: str = "by hand"
    along: Vector | None = None
    sense: Literal[-1, 1] = 1
    stiffness: Stiffness | None = None
    settlement: Vector | None = None
    spring: Spring | None = None
    hot_leg: float = 0.0
    only_in: tuple[str, ...] | None = None
    clearance: float = 0.0
    gap: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class HoldRule:
    """Holds that a rule places: guides by the spacing rule, or rests and guides by the support spans.

    `clearance` is that of each guide [m], `can_carry` what each of them can carry [N].
    """

    kind: Literal["spider guide", "slide guide", "rest"]
    by: RuleKind
    friction: Friction | None
    clearance: float = 0.0
    can_carry: float | None = None
