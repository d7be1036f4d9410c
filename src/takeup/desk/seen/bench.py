"""A study kept ready, so that every question of the page is answered at once.     (desk/seen/bench.py)

Nothing is computed before it is asked; what was computed is kept, under a lock, so that any thread may ask.
"""

from __future__ import annotations

import threading
import time

import numpy as np

from takeup.desk.interface import (
    LineMovement,
    LineOutline,
    Look,
    LookAsked,
    Scenario,
    Solids,
    StateRow,
    Table,
    Views,
    Walk,
    Why,
)
from takeup.desk.seen.curves import moved_at
from takeup.desk.seen.kept import Base, Kept, NoAnswer, base_of
from takeup.desk.seen.layouts import Laid, laid_lines, results_before
from takeup.desk.seen.looks import holds_at, joints_at
from takeup.desk.seen.moving import moved_study
from takeup.desk.seen.outline import outlines_of, states_named
from takeup.desk.seen.overlay import Scene, overlays_of, times_for
from takeup.desk.seen.solids import parts_of_lines, thickness_of
from takeup.desk.seen.trips import Trip, hottest, one_step, words_of
from takeup.desk.seen.uses import news_of_study
from takeup.desk.seen.views import views_of
from takeup.desk.seen.walks import walk_shown
from takeup.desk.seen.why import Asked, why_of
from takeup.drawing.reading import Results
from takeup.errors import TakeupError
from takeup.line import Study
from takeup.units import to_bar

_MICROMETRES = 6  # decimals of a movement in metres: finer than any picture


class Bench:
    """A study of one revision, kept ready.

    Args:
        read: as read from the file.
        resolved: the same with every joint chosen and every rule turned into holds.
        revision: of the document.
    """

    def __init__(self, read: Study, resolved: Study, revision: int) -> None:
        self.revision = revision
        self.study = resolved
        self._read = read
        self._kept = Kept(resolved)
        self._lock = threading.RLock()
        self._in_hand: tuple[str, float, Kept] | None = None
        self._results: Results | None = None
        self._laid: tuple[Laid, ...] | None = None
        self._times: float | None = None
        self._views: Views | None = None
        self._solids: Solids | None = None
        self._known: dict[str, tuple[list[str], list[Table]]] = {}

    def outline(self) -> list[LineOutline]:
        """Return the lines as the page moves things along them."""
        return outlines_of(self.study)

    def states(self) -> list[StateRow]:
        """Return the states of the walk."""
        return states_named(self.study)

    def walk(self, scenario: Scenario) -> Walk:
        """Return the track of states."""
        try:
            return walk_shown(self._kept.trip(scenario), scenario, self.revision)
        except TakeupError as error:
            return walk_shown(str(error), scenario, self.revision)

    def views(self) -> Views:
        """Return the drawings of every line.

        Raises:
            OutOfRange: a state is outside what a table holds.
        """
        with self._lock:
            if self._views is None:
                ids = frozenset(place["id"] for line in self.outline() for place in line["places"])
                self._views = Views(revision=self.revision, views=views_of(self.laid, ids))
            return self._views

    def solids(self) -> Solids:
        """Return the lines in space.

        Raises:
            OutOfRange: a state is outside what a table holds.
        """
        with self._lock:
            if self._solids is None:
                thick = thickness_of(self._before)
                low, high, parts = parts_of_lines(self._before, thick)
                self._solids = Solids(revision=self.revision, thick=thick, low_m=low, high_m=high, parts=parts)
            return self._solids

    def why(self, place: str, results: Results | None) -> Why:
        """Return everything about one place.

        Args:
            place: its id.
            results: the results document of this revision; None until it is there.

        Raises:
            NoAnswer: there is no such place.
        """
        asked = Asked(kept=self._kept, elsewhere=self._elsewhere, revision=self.revision, known=self._known)
        return why_of(asked, place, results)

    @property
    def laid(self) -> tuple[Laid, ...]:
        """Every line on its sheets."""
        with self._lock:
            if self._laid is None:
                self._laid = laid_lines(self._kept.base.prepared, self._before)
            return self._laid

    @property
    def _before(self) -> Results:
        with self._lock:
            if self._results is None:
                self._results = results_before(self._kept.base.prepared)
            return self._results

    def moved(self, place: str, station: float) -> Kept:
        """Return the study with something at another station; the last one asked for is kept.

        Args:
            place: id of what is moved.
            station: where it goes [m].

        Raises:
            TakeupError: it cannot stand there; the message says why.
        """
        with self._lock:
            if self._in_hand is not None and self._in_hand[:2] == (place, station):
                return self._in_hand[2]
        kept = self._elsewhere(place, station)
        with self._lock:
            self._in_hand = (place, station, kept)
        return kept

    def _elsewhere(self, place: str, station: float) -> Kept:
        return Kept(moved_study(self._read, self.study, place, station))

    # ------------------------------------------------------------------ looks

    def look(self, asked: LookAsked) -> Look:
        """Return the line as asked for; where there is no answer, why."""
        began = time.perf_counter()
        try:
            base, trip, step = self._asked(asked)
            return self._seen(asked, base, (trip, step), began)
        except TakeupError as error:
            return self._unseen(asked, str(error), began)

    def _asked(self, asked: LookAsked) -> tuple[Base, Trip, int]:
        """Return what is looked at, its walk, and the step of it."""
        moved, hand, step, scenario = asked["moved"], asked["by_hand"], asked["step"], asked["scenario"]
        if hand is None and step is None:
            raise NoAnswer("a step of the walk, or a state by hand, is to be asked for")
        kept = self._kept if moved is None else self.moved(moved["id"], moved["station_m"])
        if hand is not None:
            trip = kept.at_hand(scenario, hand)
            return kept.base, trip, len(trip.good) - 1
        assert step is not None, "asked for"
        if moved is not None and scenario == "no friction":
            alone = self._alone(kept.study, step)
            if alone is not None:
                return base_of(alone.prepared), alone, 0
        return kept.base, kept.at_step(scenario, step, alone=moved is not None), step

    def _alone(self, study: Study, step: int) -> Trip | None:
        """Return the walk of what is in the hand to one step by itself; None where that needs the whole walk."""
        ready = self._kept.base.prepared.ready
        if not ready or not 0 <= step < len(ready[0].way.to):
            return None
        way = ready[0].way
        trip = one_step(study, way.states[way.to[step]].name, float(way.fraction[step]))
        if isinstance(trip, str):
            raise NoAnswer(trip)
        if trip is not None and not trip.good[0]:
            raise NoAnswer(trip.because)
        return trip

    def _seen(self, asked: LookAsked, base: Base, at: tuple[Trip, int], began: float) -> Look:
        (trip, step), marks = at, base.marks
        holds, joints = holds_at(trip, marks.holds, step), joints_at(trip, marks.joints, step)
        times = asked["exaggeration"] or self._chosen_times(trip)
        scene = Scene(
            trip=trip,
            step=step,
            times=times,
            curves=base.curves,
            holds=tuple(zip(marks.holds, holds, strict=True)),
            joints=tuple(zip(marks.joints, joints, strict=True)),
            picked="" if asked["moved"] is None else asked["moved"]["id"],
        )
        pressure, temperature = hottest(trip.way.here[step])
        by_hand = f"by hand: {to_bar(pressure):.4g} bar(g) and {temperature:.4g} °C"
        return Look(
            number=asked["number"],
            revision=self.revision,
            words=by_hand if asked["by_hand"] is not None else words_of(trip.way, step),
            pressure_bar=to_bar(pressure),
            temperature_c=temperature,
            exaggeration=times,
            trouble="",
            holds=holds,
            takeups=joints,
            overlays=overlays_of(scene, self.laid),
            movements=self._movements(base, trip, step),
            server_ms=1e3 * (time.perf_counter() - began),
        )

    def _chosen_times(self, trip: Trip) -> float:
        """Return how many times movements are drawn: by the whole walk, so that they can be told apart by size."""
        with self._lock:
            if self._times is None:
                whole = self._kept.trip("no friction")
                self._times = times_for(whole if isinstance(whole, Trip) and any(whole.good) else trip, self.laid)
            return self._times

    def _movements(self, base: Base, trip: Trip, step: int) -> list[LineMovement]:
        """Return the movements of the nodes of the lines as they lie, whatever is in the hand."""
        moved = trip.moved[step]
        found = []
        for one, own in zip(self.laid, base.prepared.model.lines, strict=True):
            at = moved[own.nodes, :3] if own is one.model else moved_at(own, moved, one.model.stations)
            found.append(LineMovement(line=one.model.line.name, movement_m=np.round(at, _MICROMETRES).ravel().tolist()))
        return found

    def _unseen(self, asked: LookAsked, why: str, began: float) -> Look:
        return Look(
            number=asked["number"],
            revision=self.revision,
            words="",
            pressure_bar=0.0,
            temperature_c=0.0,
            exaggeration=asked["exaggeration"] or 1.0,
            trouble=why,
            holds=[],
            takeups=[],
            overlays=[],
            movements=[],
            server_ms=1e3 * (time.perf_counter() - began),
        )


def bench_of(read: Study, resolved: Study, revision: int) -> Bench:
    """Return a study kept ready; nothing is computed yet.

    Args:
        read: as read from the file.
        resolved: the same with every joint chosen and every rule turned into holds.
        revision: of the document.
    """
    return Bench(read, resolved, revision)


__all__ = ["Bench", "bench_of", "news_of_study"]
