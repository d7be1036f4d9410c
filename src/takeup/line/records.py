"""What the user describes, checked and in SI: the records that everything downstream reads.     (line/records.py)

`Study` is the whole file; it holds `Line`s, which meet at branches. The smaller records live in parts.py (what a line
is made of), holding.py (what holds it) and conditions.py (what it goes through). Positions are stations [m], the sum
of leg lengths between intersections of centre lines. Pressures are gauge [Pa], temperatures degrees Celsius, lengths
[m], forces [N]. Every record is frozen; resolving "by spacing rule" makes a new `Line` (choose/rules.py).
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.joints import Balance, ComputedBellows, DoubleKind, Hardware, JointData, JointEnds, Pins, Rods, TakeUpKind
from takeup.line.allowed import NOTHING_ALLOWED, Allowed
from takeup.line.choices import Choice, Chosen
from takeup.line.conditions import (
    COLD_WALK,
    AddedState,
    Basis,
    Conditions,
    Cycle,
    DesignFactors,
    Document,
    DroppedState,
    Load,
    Medium,
    Site,
    Vacuum,
    WalkOptions,
    Warming,
    ZoneRule,
)
from takeup.line.fitting import NOTHING_SAID, Fitting
from takeup.line.holding import End, Hold, HoldRule
from takeup.line.parts import Allowables, Branch, Item, Leg, Pipe, Position, Section, UserValue, Vector


@dataclass(frozen=True, kw_only=True, slots=True)
class TakeUp:
    """A joint in the line; `position` is the middle of its face-to-face length. `preset` > 0: fitted extended [m].

    `misalignment` is what installation may use up of its ratings: lateral [m] and angular [rad]. `rods`, `pins` and
    `balance` are its hardware, as far as its kind has it. Where `bellows` is given, the rates, effective area and live
    length of `data` are computed from it, cold. `ends` says how it is joined to its pipe, `fitting` how it is fitted
    out; both as far as the file says. `written_as` is the kind in the file: of the half of a double, the double.
    `chosen` says from which series it is; None where its data are typed in.
    """

    name: str
    kind: TakeUpKind
    position: Position
    data: JointData
    bellows: ComputedBellows | None = None
    preset: float = 0.0
    misalignment: tuple[float, float] = (0.0, 0.0)
    rods: Rods | None = None
    pins: Pins | None = None
    balance: Balance | None = None
    ends: JointEnds | None = None
    fitting: Fitting = NOTHING_SAID
    written_as: TakeUpKind | DoubleKind
    chosen: Chosen | None = None

    @property
    def hardware(self) -> Hardware:
        """What it has beside its bellows."""
        return Hardware(rods=self.rods, pins=self.pins, balance=self.balance)


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """One line: its route, sections, holds and take-ups; `remarks` say what resolving its rules did.

    Args:
        name: of the line.
        medium: what flows in it.
        medium_density: typed in, where the medium has none of its own (thermal oil) [kg/m3].
        sections: contiguous, from the start to the far end.
        items: valves, flanges, reducers and others, along the flow.
        start: its first end.
        branch: where it leaves another line; None for a line that begins by itself.
        start_at: its first point [m].
        legs: along the flow, items among them.
        end: its far end.
        holds: between its ends.
        rules: that place more.
        takeups: joints.
        choices: places whose joint is still to be taken from a series; none once resolved.
        conditions: its own, where the study's do not hold.
        zones: boundaries of the user's own.
        remarks: what resolving did.
        allowed: what proposals may do to it; nothing of it acts in a study.
    """

    name: str
    medium: Medium
    medium_density: UserValue | None = None
    sections: tuple[Section, ...]
    items: tuple[Item, ...] = ()
    start: End
    branch: Branch | None = None
    start_at: Vector
    legs: tuple[Leg, ...]
    end: End
    holds: tuple[Hold, ...]
    rules: tuple[HoldRule, ...]
    takeups: tuple[TakeUp, ...]
    choices: tuple[Choice, ...] = ()
    conditions: Conditions | None = None
    zones: tuple[ZoneRule, ...] = ()
    remarks: tuple[str, ...] = ()
    allowed: Allowed = NOTHING_ALLOWED

    @property
    def pipe(self) -> Pipe:
        """The pipe that the line begins with."""
        return self.sections[0].pipe

    def section_at(self, station: float) -> Section:
        """Return the section at a station; at a bound, the one before it."""
        return next((section for section in self.sections if station <= section.end), self.sections[-1])

    def item_at(self, station: float) -> Item | None:
        """Return the item that fills a station, its faces excluded."""
        return next((item for item in self.items if item.start < station < item.end), None)


@dataclass(frozen=True, kw_only=True, slots=True)
class Study:
    """A whole file: its lines, their conditions and the basis."""

    project: str
    document: Document
    basis: Basis
    site: Site
    conditions: Conditions
    vacuum: Vacuum
    test_medium: str
    cycles: tuple[Cycle, ...]
    allowables: Allowables
    lines: tuple[Line, ...]
    loads: tuple[Load, ...] = ()
    dropped: tuple[DroppedState, ...]
    added: tuple[AddedState, ...]
    order: tuple[str, ...] = ()
    warming: Warming = "zone by zone"
    walk: WalkOptions = COLD_WALK
    design_factors: DesignFactors | None = None
    prices: str | None = None  # path of a price file, as typed: counted from the folder of the line file
    file: str
    sha256: str

    def line(self, name: str) -> Line:
        """Return the line of a name; the readers have proved that it is there."""
        return next(line for line in self.lines if line.name == name)

    def conditions_of(self, line: Line) -> Conditions:
        """Return the design, operating and test conditions of a line."""
        return line.conditions or self.conditions
