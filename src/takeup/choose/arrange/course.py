"""One bare line of a search: its route, running sums, places and states.     (choose/arrange/course.py)

Numbers of places here count along this line alone; `Ground` has those of all lines, one after the other.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from takeup.choose.arrange.chain import Chain, chain_of, walls_of
from takeup.choose.arrange.places import anchor_of
from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.records import Floats, HingePlaces, LoopShape, Place, Stress
from takeup.choose.laid import TEE, Laid, SupportSpan
from takeup.choose.rests import APART, CARRIERS, Stretch, blocked_stretches, level_runs
from takeup.choose.selection.screen import Screened
from takeup.library import size_number
from takeup.line import (
    SAME_STATION,
    Hold,
    Line,
    Route,
    Section,
    State,
    Study,
    TakeUp,
    bore_area,
    content_weight,
    insulation_weight,
    pipe_weight,
)
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
    def linkages(self) -> dict[tuple[object, ...], tuple[HingePlaces, ...]]:
        """What hinges turn by, worked out already, by their plane and stations (hinge_shapes.py)."""
        return {}

    @cached_property
    def hinge_screens(self) -> dict[tuple[object, ...], Screened]:
        """What series say to corners before anything moves, by series and place (hinges.py)."""
        return {}

    @cached_property
    def hose_screens(self) -> dict[tuple[str, float], tuple[Screened, NDArray[np.intp], Floats, str]]:
        """What series say to places beside anchors before anything moves, by series and station (hose_stands.py)."""
        return {}

    @cached_property
    def anchors_moved(self) -> dict[int, Floats]:
        """How far anchors of the file move, by their places (hose_stands.py)."""
        return {}

    @cached_property
    def hinges(self) -> dict[tuple[object, ...], TakeUp]:
        """Hinges that were derated already, by series, row, hottest temperature and how their pins lie (hinges.py)."""
        return {}

    @cached_property
    def hinges_standing(self) -> dict[tuple[object, ...], tuple[TakeUp, ...]]:
        """Sets of hinges in their places, none where no word says how they lie, by all that decides it (hinges.py)."""
        return {}

    @cached_property
    def own_guides(self) -> dict[tuple[object, ...], tuple[Hold, ...]]:
        """Guides that joints bring along, worked out already, by the stretches that want them (own_guides.py)."""
        return {}

    @cached_property
    def bending(self) -> dict[tuple[float, float], float]:
        """How far from its corners a middle leg bends the outer ones, by its stations [m] (hinges.py)."""
        return {}

    @cached_property
    def joint_prices(self) -> dict[tuple[str, int], float]:
        """What joints cost, by series and row (axial.py)."""
        return {}

    @cached_property
    def _hottest(self) -> dict[float, float]:
        return {}

    def hottest_at(self, station: float) -> float:
        """Return the highest temperature of any state at a place [degC]."""
        if station not in self._hottest:
            self._hottest[station] = self.laid.hottest_at(station)
        return self._hottest[station]

    @cached_property
    def cuts(self) -> dict[int, int]:
        """The cut of the chain at each place."""
        return {number: self.chain.cut_at(place.station) for number, place in enumerate(self.places)}

    @cached_property
    def turns(self) -> Floats:
        """Stations at which the line turns [m]."""
        return np.array([turn.station for turn in self.route.turns])

    @cached_property
    def _turning(self) -> list[float]:
        return sorted(turn.station for turn in self.route.turns)

    def ends_from(self, near: int) -> range:
        """Return the places that spans from one may end at: none passes over an anchor that the file has."""
        places = range(near + 1, len(self.places))
        last = next((number for number in places if self.places[number].fixed), len(self.places) - 1)
        return range(near + 1, last + 1)

    @cached_property
    def bare_spans(self) -> dict[tuple[int, int], tuple[Floats, Stress]]:
        """What the bare chain does in spans from one place, by their ends: wrench in each state, stress (bare.py)."""
        return {}

    def is_joined(self, near: int, far: int) -> bool:
        """Whether another line takes part in what a span does: one that leaves it, or whose branch it begins as."""
        if not self.tees and self.line.branch is None:
            return False
        low, high = self.places[near].station, self.places[far].station
        inner = any(low + SAME_STATION < tee < high - SAME_STATION for tee in self.tees)
        return inner or (near == 0 and self.line.branch is not None)

    def bends_between(self, near: int, far: int) -> int:
        """Return how many times the line turns between two places."""
        low, high = self.places[near].station, self.places[far].station
        return max(bisect_left(self._turning, high) - bisect_right(self._turning, low), 0)

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
        if not self._has_rests:
            return 0
        low, high = self.places[near].station, self.places[far].station
        stands = [(begin - APART, finish + APART, True) for begin, finish in taken]
        begins, ends = min([low, *(one[0] for one in stands)]), max([high, *(one[1] for one in stands)])
        near_by = _beside(self._cut_out, begins, ends)
        blocked = _merged(sorted([*near_by, *stands])) if stands else near_by
        count = 0
        for begin, finish in self.level:
            first, last = max(begin, low), min(finish, high)
            if last <= first:
                continue
            longest = max((span for start, end, span in self.spans if start < last and end > first), default=math.inf)
            pieces = _free(first, last, blocked, longest / 2.0)
            count += sum(max(math.ceil(length / longest - 1e-9) - 1, 0) for length in pieces)
        given = sum(low < station < high for station in self._carried)
        return max(count - given - (guides if self._guides_carry else 0), 0)

    def least_cost(self, near: int, far: int, guides: int, taken: Sequence[Stretch] = ()) -> float:
        """Return what guides of a span, and the rests beside them at least, cost."""
        return guides * self._guide_price + self.rests_least(near, far, guides, taken) * self._rest_price

    @cached_property
    def _guide_price(self) -> float:
        rule = next((rule for rule in self.line.rules if rule.by == "spacing rule"), None)
        return 0.0 if rule is None else self.prices.guide(rule.kind, self.size_dn)

    @cached_property
    def _rest_price(self) -> float:
        return self.prices.rest(self.size_dn)

    @cached_property
    def blocked(self) -> list[Stretch]:
        """Stretches of the bare line where no rest can stand [m]."""
        return blocked_stretches(self.line, self.route, [])

    @cached_property
    def _has_rests(self) -> bool:
        return any(rule.by == "support spans" for rule in self.line.rules)

    @cached_property
    def _guides_carry(self) -> bool:
        return any(rule.by == "spacing rule" and rule.kind == "slide guide" for rule in self.line.rules)

    @cached_property
    def _carried(self) -> list[float]:
        return [hold.position.station for hold in self.line.holds if hold.kind in CARRIERS]

    @cached_property
    def _cut_out(self) -> list[Cut]:
        """Where no rest of the bare line can stand, in order; those that overlap are one."""
        return _merged(sorted((*stretch, False) for stretch in self.blocked))

    @cached_property
    def lightest_metres(self) -> tuple[Floats, ...]:
        """What a metre of each section weighs at least in each state, (s,) [N/m]."""
        thin = np.array([min(zone.density for zone in state.zones) for state in self.states])
        return tuple(_metre(section, thin) for section in self.line.sections)

    @cached_property
    def heaviest_metre(self) -> Floats:
        """What a metre of the line weighs at most in each state, (s,) [N/m]."""
        thick = np.array([max(zone.density for zone in state.zones) for state in self.states])
        return np.asarray(np.max([_metre(section, thick) for section in self.line.sections], axis=0))

    @cached_property
    def _shortcuts(self) -> tuple[list[float], list[float], list[float]]:
        """Of bends, their stations from and to, and by how much each arc is shorter than its corner [m]."""
        turns = self.route.turns
        saved = [2.0 * turn.tangent_length - turn.arc_length for turn in turns]
        return [turn.begin for turn in turns], [turn.finish for turn in turns], saved

    def saved_between(self, first: float, last: float) -> float:
        """Return by how much the arcs of all bends that reach into a stretch are shorter than their corners [m]."""
        begins, ends, saved = self._shortcuts
        return sum(saved[bisect_right(ends, first) : bisect_left(begins, last)])

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
        middle = (self.places[near].station + self.places[far].station) / 2.0
        if middle not in self._directions:
            self._directions[middle] = np.asarray(self.route.direction(middle))
        return self._directions[middle]

    @cached_property
    def _directions(self) -> dict[float, Floats]:
        return {}

    @cached_property
    def uncertain(self) -> dict[tuple[int, int, bool], bool]:
        """Whether spans are felt otherwise than the quick model knows, by their ends and straightness (least.py)."""
        return {}

    @cached_property
    def rubbing(self) -> dict[tuple[int, int], float | None]:
        """Of spans the support span that friction is certain with [m], None where it is not (drag.py)."""
        return {}


def _metre(section: Section, density: Floats) -> Floats:
    pipe = section.pipe
    return (
        pipe_weight(pipe) + insulation_weight(pipe, section.insulation) + content_weight(bore_area(pipe), 1.0) * density
    )


def _free(first: float, last: float, blocked: Sequence[Cut], least: float) -> Iterator[float]:
    """Yield the lengths of a stretch that are left between what is cut out of it.

    Args:
        first: station where it begins [m].
        last: where it ends; nothing is left where that is no further on [m].
        blocked: in order, none overlaps another.
        least: length from which on it is cut out whatever it is [m].
    """
    here = first
    for low, high, always in blocked:
        if (always or high - low >= least) and high > first and low < last:
            yield max(low - here, 0.0)
            here = high
    yield max(last - here, 0.0)


def _beside(blocked: Sequence[Cut], begins: float, ends: float) -> Sequence[Cut]:
    """Return those of stretches in order, none of which overlaps another, that touch a piece of the line."""
    first = bisect_left(blocked, begins, key=lambda one: one[1])
    return blocked[first : bisect_right(blocked, ends, key=lambda one: one[0])]


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
