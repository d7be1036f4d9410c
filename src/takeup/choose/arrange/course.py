"""One bare line of a search: its route, running sums, places and states.     (choose/arrange/course.py)

Numbers of places here count along this line alone; `Ground` has those of all lines, one after the other.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from takeup.choose.arrange.chain import Chain, chain_of, walls_of
from takeup.choose.arrange.places import anchor_of
from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.records import Floats, HingePlaces, LoopShape, Place
from takeup.choose.laid import TEE, Laid, SupportSpan
from takeup.choose.rests import APART, CARRIERS, Stretch, blocked_stretches, level_runs
from takeup.choose.selection.screen import Screened
from takeup.library import size_number
from takeup.line import SAME_STATION, Line, Route, State, Study, TakeUp
from takeup.line.room import blocks_of

Cut = tuple[float, float, bool]
"""A stretch where no rest can stand, from and to stations [m], and whether it is cut out however short it is."""


@dataclass(frozen=True, kw_only=True)
class Course:
    """A line that is to be arranged, in its study.

    Args:
        study: as read, joints that the file leaves to series chosen.
        line: that is arranged: bare but for what the file gives.
        places: its ends, anchors and places that may hold.
        prices: of all parts.
        tees: where other lines leave it [m].
    """

    study: Study
    line: Line
    places: tuple[Place, ...]
    prices: Prices
    tees: tuple[float, ...] = ()

    @cached_property
    def laid(self) -> Laid:
        """The line in its study."""
        return Laid(study=self.study, line=self.line)

    @property
    def route(self) -> Route:
        """The centre line of the line."""
        return self.laid.route

    @property
    def states(self) -> tuple[State, ...]:
        """What the line goes through."""
        return self.laid.states

    @property
    def operating(self) -> int:
        """The number of the operating state."""
        return next(number for number, state in enumerate(self.states) if state.name == "operating")

    @cached_property
    def chain(self) -> Chain:
        """The running sums of the line, with a cut at every place."""
        kept = self.line.holds  # anchors of the file among them: they bound its zones, and so its states
        inner = [place for place in self.places if not place.fixed and 0.0 < place.station < self.route.length]
        cuts = [replace(anchor_of(place), kind="rest") for place in inner]
        whole = replace(self.line, holds=tuple(sorted((*kept, *cuts), key=lambda hold: hold.position.station)))
        return chain_of(self.study, whole)

    @cached_property
    def walls(self) -> Floats:
        """Section modulus and area of the pipe at every cut, (c, 2)."""
        return walls_of(self.chain)

    @cached_property
    def loop_shapes(self) -> dict[tuple[object, ...], LoopShape]:
        """Loops that were worked out already, by what makes them (loop.py)."""
        return {}

    @cached_property
    def hinge_sets(self) -> dict[tuple[object, ...], tuple[HingePlaces, ...]]:
        """Where hinges may stand about corners, worked out already, by what decides it (hinges.py)."""
        return {}

    @cached_property
    def hinge_screens(self) -> dict[tuple[object, ...], Screened]:
        """What series say to corners before anything moves, by series and place (hinges.py)."""
        return {}

    @cached_property
    def hinges(self) -> dict[tuple[object, ...], TakeUp]:
        """Hinges that were derated already, by series, row, hottest temperature and how their pins lie (hinges.py)."""
        return {}

    @cached_property
    def cuts(self) -> dict[int, int]:
        """The cut of the chain at each place."""
        return {number: self.chain.cut_at(place.station) for number, place in enumerate(self.places)}

    @cached_property
    def turns(self) -> Floats:
        """Stations at which the line turns [m]."""
        return np.array([turn.station for turn in self.route.turns])

    def is_joined(self, near: int, far: int) -> bool:
        """Whether another line takes part in what a span does: one that leaves it, or whose branch it begins as."""
        low, high = self.places[near].station, self.places[far].station
        inner = any(low + SAME_STATION < tee < high - SAME_STATION for tee in self.tees)
        return inner or (near == 0 and self.line.branch is not None)

    def bends_between(self, near: int, far: int) -> int:
        """Return how many times the line turns between two places."""
        low, high = self.places[near].station, self.places[far].station
        return int(((self.turns > low) & (self.turns < high)).sum())

    def rests_least(self, near: int, far: int, guides: int, taken: Sequence[Stretch] = ()) -> int:
        """Return how many rests the support spans ask for in a span at least, beside guides that carry weight.

        Of each level run, cut at joints and loops, and where a rest cannot stand for half a support span or more: of
        every piece as many places as spans fit into it, less one. None where the line has no such rule. What the file
        has carries too.

        Args:
            near: number of the place nearer to the start.
            far: of the other.
            guides: of the span.
            taken: stretches that its joints and loops stand in [m].
        """
        if not any(rule.by == "support spans" for rule in self.line.rules):
            return 0
        low, high = self.places[near].station, self.places[far].station
        stands = [(begin - APART, finish + APART, True) for begin, finish in taken]
        blocked = sorted([*((*stretch, False) for stretch in self.blocked), *stands])
        count = 0
        for begin, finish in self.level:
            first, last = max(begin, low), min(finish, high)
            longest = max((span for start, end, span in self.spans if start < last and end > first), default=math.inf)
            pieces = _free(first, last, blocked, longest / 2.0)
            count += sum(max(math.ceil(length / longest - 1e-9) - 1, 0) for length in pieces)
        given = sum(low < hold.position.station < high and hold.kind in CARRIERS for hold in self.line.holds)
        carrying = any(rule.by == "spacing rule" and rule.kind == "slide guide" for rule in self.line.rules)
        return max(count - given - (guides if carrying else 0), 0)

    def least_cost(self, near: int, far: int, guides: int, taken: Sequence[Stretch] = ()) -> float:
        """Return what guides of a span, and the rests beside them at least, cost."""
        size = self.size_dn
        rests = self.rests_least(near, far, guides, taken)
        rule = next((rule for rule in self.line.rules if rule.by == "spacing rule"), None)
        own = 0.0 if rule is None else guides * self.prices.guide(rule.kind, size)
        return own + rests * self.prices.rest(size)

    @cached_property
    def blocked(self) -> list[Stretch]:
        """Stretches of the bare line where no rest can stand [m]."""
        return blocked_stretches(self.line, self.route, [])

    @cached_property
    def size_dn(self) -> float:
        """The least nominal size of the line, for what costs least."""
        return min(size_number(section.pipe.size) for section in self.line.sections)

    @cached_property
    def level(self) -> list[tuple[float, float]]:
        """Stretches between risers [m]."""
        return level_runs(self.route)

    @property
    def spans(self) -> list[SupportSpan]:
        """Of each section its stations and the longest support span [m]."""
        return self.laid.spans

    @cached_property
    def taken(self) -> tuple[Floats, Floats]:
        """Where no joint can stand: stations from and to which something is there, or is kept clear [m]."""
        free = [(tee - TEE, tee + TEE) for tee in self.tees]
        stretches = np.array([*blocks_of(self.line, self.route), *self.line.allowed.keep_clear, *free])
        return stretches[:, 0], stretches[:, 1]

    @cached_property
    def joints(self) -> dict[tuple[str, int, float, float], TakeUp]:
        """Joints that were derated already, by series, row, hottest temperature and preset (axial.py)."""
        return {}

    def growth(self, near: int, far: int) -> Floats:
        """Return by how much the line between two places grows freely in each state, (s, 3) [m]."""
        return np.asarray(self.chain.growth[:, self.cuts[far]] - self.chain.growth[:, self.cuts[near]])

    def direction(self, near: int, far: int) -> Floats:
        """Return the unit vector along a straight span."""
        return np.asarray(self.route.direction((self.places[near].station + self.places[far].station) / 2.0))


def _free(first: float, last: float, blocked: Sequence[Cut], least: float) -> Iterator[float]:
    """Yield the lengths of a stretch that are left between what is cut out of it.

    Args:
        first: station where it begins [m].
        last: where it ends; nothing is left where that is no further on [m].
        blocked: in order; those that overlap count as one.
        least: length from which on it is cut out whatever it is [m].
    """
    here = first
    for low, high, always in _merged(blocked):
        if (always or high - low >= least) and high > first and low < last:
            yield max(low - here, 0.0)
            here = high
    yield max(last - here, 0.0)


def _merged(blocked: Sequence[Cut]) -> list[Cut]:
    merged: list[Cut] = []
    for low, high, always in blocked:
        if merged and low <= merged[-1][1]:
            begin, finish, before = merged.pop()
            merged.append((begin, max(finish, high), before or always))
        else:
            merged.append((low, high, always))
    return merged


__all__ = ["Course"]
