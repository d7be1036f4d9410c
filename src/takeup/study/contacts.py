"""Which holds and rods are contacts: their rows, what rubs, when they are there.     (study/contacts.py)

    rest, hanger          one row: it holds the pipe up and never draws it down
    stop                  one row: one sense of its axis, after its gap
    guide                 a row each way across the pipe, its clearance on either side
    planar guide          the row across the way that it leaves free
    directional anchor    its axis, both ways; a contact only where it rubs
    spring hanger         its spring is in the frame; a row where its casing has stops, a row while it is locked
    hardware of joints    rows between two places of a joint: rods, pins, bars, balances (joint_rows.py)
    temporary holds       all that they hold, in the states that name them, where the line then stands

Friction works in the plane of the support: along and across the pipe under a rest, the free way and along it in a
planar guide. A guide without clearance rubs along the pipe, pressed from both its directions. One with clearance rubs
under the weight along and across, and at its sides along and up and down. Clearance is square: so much up and down, so
much sideways; a slide guide carries weight at once, and its clearance is above. Theory: docs/theory/contact.md.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.line import Hold, State, Study
from takeup.line.holding import Spring
from takeup.mechanics import Gaps, Rubs, Supports
from takeup.study.contact_rows import NEVER, Row, Rub
from takeup.study.course import Course, growth_strain
from takeup.study.holding import Holding, structure_springs
from takeup.study.joint_rows import rows_of_joint, rubs_of_joint
from takeup.study.model import LineModel, SystemModel

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
_TURNS = 3  # first component that is a rotation
_ALONG = 1e-6  # sine of the angle between pipe and axis: none
ROUND_GUIDES = ("slide guide", "spider guide")


@dataclass(frozen=True, kw_only=True, slots=True)
class Contacts:
    """All contacts of a study.

    Args:
        rows: g of them.
        rubs: t of them.
        supports: what of each hold the frame itself holds, and with which springs.
    """

    rows: tuple[Row, ...]
    rubs: tuple[Rub, ...]
    supports: Supports

    def present(self, model: SystemModel, states: Sequence[State]) -> Flags:
        """Return which rows are there in some states, (states, g)."""
        there = np.ones((len(states), len(self.rows)), dtype=bool)
        for column, row in enumerate(self.rows):
            if row.hold is not None:
                there[:, column] = [_is_there(row, model.holds[row.hold], state) for state in states]
        return there

    def feet(self, study: Study, model: SystemModel, course: Course) -> Floats:
        """Return how far the foot of each row has moved along it at every moment of a course, (k, g) [m].

        Feet settle, steel under a hold grows like the pipe on it, and rods, plates and bars as hot as the pipe grow.
        """
        moved = np.zeros((len(course.settled), len(self.rows)))
        for column, row in enumerate(self.rows):
            if not (row.turns or row.lock):
                moved[:, column] = _foot(study, model, row, course)
        return moved


def contacts_of(model: SystemModel, states: Sequence[State], *, giving: bool) -> Contacts:
    """Return the contacts of a study; rows that are there in none of the states are left out.

    Args:
        model: of all lines.
        states: that will be walked.
        giving: whether anchors give with the structures behind them.
    """
    rows: list[Row] = []
    rubs: list[Rub] = []
    supports = _all_that_holds_both_ways(model, giving=giving)
    for line in model.lines:
        holds = {hold.name: hold for hold in line.line.holds}
        for number, holding in zip(line.supports, line.holds, strict=True):
            hold = holds.get(holding.name)
            if hold is None:
                continue
            place = _Place(line=line, number=int(number), holding=holding, hold=hold, giving=giving)
            own = [row for row in place.rows() if any(_is_there(row, holding, state) for state in states)]
            if hold.only_in is not None or (own and holding.held.any()):
                supports.held[number], supports.spring[number] = False, 0.0
            rubs += place.rubs(len(rows)) if own else []
            rows += own
        for takeup in line.line.takeups:
            hardware = rows_of_joint(line, takeup)
            rubs += rubs_of_joint(line, takeup, hardware, len(rows))
            rows += hardware
    return Contacts(rows=tuple(rows), rubs=tuple(rubs), supports=supports)


def _all_that_holds_both_ways(model: SystemModel, *, giving: bool) -> Supports:
    supports = model.frame.supports
    held, spring, axes = supports.held.copy(), supports.spring.copy(), supports.axes.copy()
    for row, hold in enumerate(model.holds):
        if giving and hold.stiffness is not None:
            axes[row] = np.eye(3)
            held[row], spring[row] = structure_springs(hold.stiffness)
    return replace(supports, held=held, spring=spring, axes=axes)


def _is_there(row: Row, hold: Holding, state: State) -> bool:
    return hold.acts_in(state) and (not row.lock or hold.is_locked_in(state))


def _foot(study: Study, model: SystemModel, row: Row, course: Course) -> Floats:
    """Return how far the foot of a row has moved along it, (k,) [m]."""
    line = next(item for item in model.lines if item.line.name == row.line)
    if row.hold is None:
        return _hardware_growth(study, model, row, course)
    hold = model.holds[row.hold]
    shift = course.settled * float(row.direction @ hold.settlement)
    if hold.hot_leg:
        expansion = line.line.section_at(hold.station).pipe.material.expansion
        here = course.temperature[:, model.zones.number(row.line, hold.station)]
        grown = hold.hot_leg * growth_strain(expansion, study.site.installation, here)
        shift = shift + float(row.direction @ hold.axes[2]) * grown
    return shift


def _hardware_growth(study: Study, model: SystemModel, row: Row, course: Course) -> Floats:
    takeup = next(item for item in study.line(row.line).takeups if item.name == row.owner)
    bars = takeup.rods if row.role == "rod" else takeup.pins if row.role in ("pin", "bar") and row.length else None
    if bars is None or bars.expansion is None:
        return np.zeros(len(course.settled))
    zone = model.zones.number(row.line, takeup.position.station)
    warmer = course.temperature[:, zone] - study.site.installation
    return np.asarray(bars.expansion * bars.length * warmer)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Place:
    """One hold of a line, of which rows and rubs are made."""

    line: LineModel
    number: int
    holding: Holding
    hold: Hold
    giving: bool

    @property
    def node(self) -> int:
        return self.line.node_at(self.holding.station)

    def row(self, axis: Floats, gap: tuple[float, float], plus: str, minus: str = "") -> Row:
        """Return a row of this hold along an axis."""
        return Row(
            line=self.line.line.name,
            owner=self.hold.name,
            hold=self.number,
            plus=plus,
            minus=minus,
            node=self.node,
            direction=axis,
            gap=gap,
            only_in=self.hold.only_in,
        )

    def rows(self) -> Iterator[Row]:
        """Yield its rows."""
        hold, (along, across, up) = self.hold, self.holding.axes
        if hold.kind in ("rest", "hanger"):
            yield self.row(-up, (0.0, NEVER), "down")
        elif hold.kind == "stop":
            yield self.row(hold.sense * along, (hold.gap, NEVER), "ahead")
        elif hold.kind == "planar guide":
            yield self.row(across, (hold.clearance, hold.clearance), "one side", "other side")
        elif hold.kind in ROUND_GUIDES:
            yield self.row(across, (hold.clearance, hold.clearance), "left", "right")
            below = 0.0 if hold.kind == "slide guide" else hold.clearance
            yield self.row(-up, (below, hold.clearance), "down", "up")
        elif hold.spring is not None:
            yield from self._of_spring(hold.spring)
        elif hold.only_in is not None:
            yield from self._of_temporary()
        elif hold.friction is not None:
            yield self.row(along, (0.0, 0.0), "ahead", "back")

    def _of_spring(self, spring: Spring) -> Iterator[Row]:
        up = self.holding.axes[2]
        if spring.stop_up is not None or spring.stop_down is not None:
            above, below = (NEVER if stop is None else stop for stop in (spring.stop_up, spring.stop_down))
            yield self.row(up, (above, below), "stop above", "stop below")
        if self.hold.only_in is not None:
            yield replace(self.row(up, (0.0, 0.0), "up", "down"), compliance=1.0 / spring.rate)
        yield replace(self.row(up, (0.0, 0.0), "locked", "locked"), lock=True)

    def _of_temporary(self) -> Iterator[Row]:
        """Yield a row for each direction that a temporary anchor holds; with the structure's give along global axes."""
        held, axes, spring = self.holding.held, self.holding.axes, np.zeros(6)
        if self.giving and self.hold.stiffness is not None:
            axes = np.eye(3)
            rigid, spring = structure_springs(self.hold.stiffness)
            held = rigid | (spring > 0.0)
        for way in np.flatnonzero(held):
            give = 1.0 / spring[way] if spring[way] > 0.0 else 0.0
            row = self.row(axes[way % _TURNS], (0.0, 0.0), "ahead", "back")
            yield replace(row, compliance=float(give), turns=bool(way >= _TURNS))

    def rubs(self, first: int) -> list[Rub]:
        """Return what rubs, its rows being numbered from `first` on."""
        if self.hold.friction is None:
            return []
        along, across, up = self.holding.axes
        if self.hold.kind == "rest":
            return [self._rub((along, across), (first,))]
        if self.hold.kind == "planar guide":
            return [self._rub((along, up), (first,))]
        if self.hold.kind == "directional anchor":
            return [self._rub((self._free_way(),), (first,))]
        if self.hold.clearance == 0.0:
            return [replace(self._rub((along, across), (first, first + 1)), slides_across=False)]
        return [self._rub((along, across), (first + 1,)), self._rub((along, up), (first,))]

    def _free_way(self) -> Floats:
        """Return the way in which a directional anchor slides: along the pipe, or across it if it holds along it."""
        pipe = self.line.route.direction(self.holding.station)
        axis = self.holding.axes[0]
        way = pipe - (pipe @ axis) * axis
        size = float(np.linalg.norm(way))
        return way / size if size > _ALONG else np.asarray(self.holding.axes[1])

    def _rub(self, tangents: tuple[Floats, ...], pressed_by: tuple[int, ...]) -> Rub:
        assert self.hold.friction is not None, "only what rubs is asked"
        return Rub(
            line=self.line.line.name,
            owner=self.hold.name,
            hold=self.number,
            station=self.holding.station,
            node=self.node,
            tangents=np.array(tangents),
            pressed_by=pressed_by,
            low=self.hold.friction.low,
            high=self.hold.friction.high,
        )


def gaps_of(contacts: Contacts) -> Gaps:
    """Return the rows as mechanics wants them."""
    rows = contacts.rows
    return Gaps(
        node=np.array([row.node for row in rows], dtype=np.int64),
        direction=np.array([row.direction for row in rows]).reshape(-1, 3),
        gap_plus=np.array([row.gap[0] for row in rows]),
        gap_minus=np.array([row.gap[1] for row in rows]),
        compliance=np.array([row.compliance for row in rows]),
        arm=np.array([row.arm for row in rows]).reshape(-1, 3),
        other=np.array([row.other for row in rows], dtype=np.int64),
        other_arm=np.array([row.other_arm for row in rows]).reshape(-1, 3),
        turns=np.array([row.turns for row in rows], dtype=bool),
    )


def rubs_of(contacts: Contacts, *, where_it_can: bool = False) -> Rubs:
    """Return the rubs as mechanics wants them, at their high coefficients; a walk may be told others.

    Args:
        contacts: of a study.
        where_it_can: whether only tangents along which something can slide are among them: fewer, and of two kinds;
            walks go faster where every rub has two.
    """
    rubs = contacts.rubs
    if where_it_can:
        rubs = tuple(rub if rub.slides_across else replace(rub, tangents=rub.tangents[:1]) for rub in rubs)
    directions = np.zeros((len(rubs), 2, 3))
    pressed = np.full((len(rubs), max((len(rub.pressed_by) for rub in rubs), default=0)), -1, dtype=np.int64)
    for number, rub in enumerate(rubs):
        directions[number, : len(rub.tangents)] = rub.tangents
        pressed[number, : len(rub.pressed_by)] = rub.pressed_by
    return Rubs(
        node=np.array([rub.node for rub in rubs], dtype=np.int64),
        directions=directions,
        mu=np.array([rub.high for rub in rubs]),
        pressed_by=pressed,
        lever=np.array([rub.lever for rub in rubs]),
        arm=np.array([rub.arm for rub in rubs]).reshape(-1, 3),
        other=np.array([rub.other for rub in rubs], dtype=np.int64),
        other_arm=np.array([rub.other_arm for rub in rubs]).reshape(-1, 3),
        turns=np.array([rub.turns for rub in rubs], dtype=bool),
    )
