"""What every hold holds, in numbers: its axes, the directions it takes, its springs.     (study/holding.py)

Every hold holds its ways (line/ways.py); in which sense, and after which gap, is the contacts' affair (contacts.py).
None but an anchor holds a rotation. Where the structure behind an anchor gives, a second run has its springs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.line import ANCHORED_ENDS, End, Hold, Line, Route, State
from takeup.line.holding import Stiffness
from takeup.line.ways import held_directions

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Holding:
    """One hold or anchored end, and what it holds.

    Args:
        name: of the hold.
        kind: of the hold.
        station: [m].
        axes: its own axes as rows, (3, 3).
        held: which translations and rotations of those axes it holds, (6,).
        rubs: along which of those axes friction may act, (6,).
        rate: spring of a spring hanger along its own axes, (6,) [N/m]; zero elsewhere.
        lift: what a spring hanger pulls up with at installation [N]; zero elsewhere.
        locked_in_test: whether that spring is locked while the line is tested.
        stiffness: of the structure behind an anchor; None is rigid.
        settlement: movement of its foot, global, (3,) [m].
        growth: movement of equipment at operating temperature, global, (3,) [m].
        hot_leg: height of hot steel under it [m].
        only_in: the states a temporary hold exists in; None: always.
    """

    name: str
    kind: str
    station: float
    axes: Floats
    held: NDArray[np.bool_]
    rubs: NDArray[np.bool_]
    rate: Floats
    lift: float
    locked_in_test: bool
    stiffness: Stiffness | None
    settlement: Floats
    growth: Floats
    hot_leg: float
    only_in: tuple[str, ...] | None

    def acts_in(self, state: State) -> bool:
        """Whether it exists in a state."""
        return self.only_in is None or state.name in self.only_in

    def is_locked_in(self, state: State) -> bool:
        """Whether its spring is locked in a state."""
        return self.lift > 0.0 and state.locked and (self.locked_in_test or state.kind == "user")

    def loads_held(self) -> NDArray[np.bool_]:
        """Return the components in which it takes load: held, sprung and rubbing ones, (6,)."""
        return np.asarray(self.held | (self.rate > 0.0) | self.rubs)


def holdings_of(line: Line, route: Route) -> tuple[Holding, ...]:
    """Return everything that holds a line, ends included, along the flow."""
    every = [*_ends(line, route), *(_hold(hold, route) for hold in line.holds)]
    return tuple(sorted(every, key=lambda item: (item.station, item.name)))


def _ends(line: Line, route: Route) -> Iterator[Holding]:
    for end, station in ((line.start, 0.0), (line.end, route.length)):
        if end.kind in ANCHORED_ENDS:
            yield _end(end, station, route.axes(station))


def _end(end: End, station: float, axes: Floats) -> Holding:
    return Holding(
        name=end.name,
        kind=end.kind,
        station=station,
        axes=axes,
        held=np.ones(6, dtype=bool),
        rubs=np.zeros(6, dtype=bool),
        rate=np.zeros(6),
        lift=0.0,
        locked_in_test=False,
        stiffness=end.stiffness,
        settlement=np.array(end.settlement or (0.0, 0.0, 0.0)),
        growth=np.array(end.growth.movement if end.growth else (0.0, 0.0, 0.0)),
        hot_leg=0.0,
        only_in=None,
    )


def _hold(hold: Hold, route: Route) -> Holding:
    axes, held = held_directions(hold, route)
    rate = np.zeros(6)
    if hold.spring is not None:
        rate[2] = hold.spring.rate
    return Holding(
        name=hold.name,
        kind=hold.kind,
        station=hold.position.station,
        axes=axes,
        held=held,
        rubs=~held & np.array([hold.friction is not None] * 3 + [False] * 3),
        rate=rate,
        lift=hold.spring.cold_load if hold.spring else 0.0,
        locked_in_test=hold.spring.locked_in_test if hold.spring else False,
        stiffness=hold.stiffness,
        settlement=np.array(hold.settlement or (0.0, 0.0, 0.0)),
        growth=np.zeros(3),
        hot_leg=hold.hot_leg,
        only_in=hold.only_in,
    )


def structure_springs(stiffness: Stiffness) -> tuple[NDArray[np.bool_], Floats]:
    """Return which of six global directions a structure holds rigidly, (6,), and the springs of the others, (6,)."""
    values = (*stiffness.force, *stiffness.moment)
    held = np.array([value is None for value in values])
    return held, np.array([0.0 if value is None else value for value in values])
