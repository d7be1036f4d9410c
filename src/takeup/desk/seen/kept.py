"""A study with all that was found of it so far, and where a look is taken.     (desk/seen/kept.py)"""

from __future__ import annotations

import threading
from dataclasses import dataclass

from takeup.desk.interface import ByHand, Scenario
from takeup.desk.seen.by_hand import states_by_hand
from takeup.desk.seen.curves import Curve, curve_of
from takeup.desk.seen.marks import Marks, marks_of
from takeup.desk.seen.trips import Prepared, Trip, prepared_of, trip_through, whole_trip
from takeup.errors import TakeupError
from takeup.line import Study

SCENARIOS: tuple[Scenario, ...] = ("no friction", "high friction")


class NoAnswer(TakeupError):
    """There is nothing to look at; the message says why."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Base:
    """What stands before anything is walked: the study ready, its marks, its centre lines."""

    prepared: Prepared
    marks: Marks
    curves: tuple[Curve, ...]


def base_of(prepared: Prepared) -> Base:
    """Return what stands before a study is walked."""
    curves = tuple(curve_of(model) for model in prepared.model.lines)
    return Base(prepared=prepared, marks=marks_of(prepared), curves=curves)


class Kept:
    """A study made ready when it is first asked, and walked when a walk is first asked.

    Args:
        study: its lines resolved.
    """

    def __init__(self, study: Study) -> None:
        self.study = study
        self._lock = threading.RLock()
        self._walking = {scenario: threading.Lock() for scenario in SCENARIOS}
        self._base: Base | None = None
        self._trips: dict[Scenario, Trip | str] = {}

    @property
    def base(self) -> Base:
        """The study ready.

        Raises:
            OutOfRange: a state is outside what a table holds.
        """
        with self._lock:
            if self._base is None:
                self._base = base_of(prepared_of(self.study))
            return self._base

    def trip(self, scenario: Scenario, *, until: int | None = None) -> Trip | str:
        """Return the walk through all states, or why there is none.

        Args:
            scenario: with which friction.
            until: the last step that is wanted; None for all. Steps after it may be missing.
        """
        base = self.base
        with self._walking[scenario]:  # a long walk with friction keeps no look without it waiting
            known = self._trips.get(scenario)
            if known is None or (isinstance(known, Trip) and len(known.good) <= self._last(until)):
                known = self._trips[scenario] = whole_trip(base.prepared, scenario, until=until)
            return known

    def _last(self, until: int | None) -> int:
        count = len(self.base.prepared.ready[0].way.to)
        return count - 1 if until is None else min(until, count - 1)

    def at_step(self, scenario: Scenario, step: int, *, alone: bool = False) -> Trip:
        """Return a walk that has an answer at a step.

        Args:
            scenario: with which friction.
            step: of the walk, from nought.
            alone: whether steps after it are of no interest.

        Raises:
            NoAnswer: there is no such step, or no answer to it.
        """
        trip = self.trip(scenario, until=step if alone else None)
        if isinstance(trip, str):
            raise NoAnswer(trip)
        count = len(trip.prepared.ready[0].way.to)
        if not 0 <= step < count:
            raise NoAnswer(f"the walk has {count} steps, from 0 to {count - 1}: there is no step {step}")
        if not trip.good[step]:
            raise NoAnswer(trip.because)
        return trip

    def at_hand(self, scenario: Scenario, asked: ByHand) -> Trip:
        """Return the walk from installation to a state made by hand; its last step has an answer.

        Raises:
            NoAnswer: there is none to it.
            OutOfRange: it is outside what the tables of a material or of the medium hold.
        """
        prepared = self.base.prepared
        states = states_by_hand(self.study, prepared.states, asked)
        trip = trip_through(prepared, states, scenario)
        if isinstance(trip, str):
            raise NoAnswer(trip)
        if not trip.good[-1]:
            raise NoAnswer(trip.because)
        return trip


__all__ = ["SCENARIOS", "Base", "Kept", "NoAnswer", "base_of"]
