"""What would change the load of a hold or the movement of a joint, and by how much.     (desk/seen/sensitivity.py)

One thing is changed at a time, by a step that an engineer would try, and the line is walked again without friction; the
last row has friction at its highest instead. Each is a whole walk, so nothing is taken as linear. What governs is told
anew in each: the state may be another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from takeup.desk.interface import Cell, Table
from takeup.desk.seen.figures import plain, signed
from takeup.desk.seen.kept import Kept, NoAnswer
from takeup.desk.seen.marks import HoldMark, JointMark
from takeup.desk.seen.trips import Prepared, Trip, trip_through, whole_trip, words_of
from takeup.errors import TakeupError
from takeup.line import State, Study, ZoneState, content_density
from takeup.mechanics.frame import Floats
from takeup.study.model import with_rates
from takeup.study.sides import bellows_moved
from takeup.study.solve import ready_runs
from takeup.units import bar, to_deg, to_kn, to_mm

Walked = Callable[[], tuple[Trip | str, HoldMark | JointMark]]
WARMER, MORE_PRESSURE, STIFFER, FURTHER = 10.0, bar(1.0), 1.1, 1.0
"""The steps: kelvin, pascal, factor on all rates of all joints, metres."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Greatest:
    """The greatest of what governs at a place: its size, its unit, the state it is in, and how full it is then."""

    size: float
    unit: str
    state: str
    use: float | None

    @property
    def words(self) -> str:
        """Size and unit."""
        return f"{self.size:.{_DECIMALS[self.unit]}f} {self.unit}"


_DECIMALS = {"kN": 1, "mm": 1, "°": 3}


def greatest_of_hold(trip: Trip, mark: HoldMark) -> Greatest:
    """Return the greatest force on a hold over a walk."""
    forces = np.linalg.norm(trip.loads[:, mark.support, :3], axis=1)
    step = _first_greatest(trip, forces)
    size = float(forces[step])
    return Greatest(
        size=to_kn(size),
        unit="kN",
        state=words_of(trip.way, step),
        use=size / mark.capacity if mark.capacity else None,
    )


def greatest_of_joint(trip: Trip, mark: JointMark) -> Greatest:
    """Return the greatest of that movement of a joint, from its neutral length, which uses up most of its rating."""
    moved, data = bellows_moved(mark.model, mark.places, trip.moved[:, mark.model.nodes]), mark.takeup.data
    axial = moved.axial + mark.takeup.preset
    room = np.where(axial > 0.0, data.axial_extension or 0.0, data.axial_compression or 0.0)
    found = []
    for sizes, limits, unit, shown in (
        (np.abs(axial), room, "mm", to_mm),
        (np.linalg.norm(moved.lateral, axis=1), np.full(len(axial), data.lateral or 0.0), "mm", to_mm),
        (np.linalg.norm(moved.angular, axis=1), np.full(len(axial), data.angular or 0.0), "°", to_deg),
    ):
        uses = np.divide(sizes, limits, out=np.zeros(len(sizes)), where=limits > 0.0)
        step = _first_greatest(trip, uses if uses[list(trip.good)].any() else sizes)
        use = float(uses[step]) if limits[step] > 0.0 else None
        state = words_of(trip.way, step)
        found.append(Greatest(size=shown(float(sizes[step])), unit=unit, state=state, use=use))
    return max(found, key=lambda one: -1.0 if one.use is None else one.use)


def _first_greatest(trip: Trip, values: Floats) -> int:
    known = np.where(trip.good, values, -np.inf)
    return int(np.argmax(known >= known.max() * (1.0 - 1e-9)))  # the first, so that a tie never turns on a bit


def table_of(kept: Kept, mark: HoldMark | JointMark, elsewhere: Callable[[float], Kept] | None) -> Table:
    """Return what would change what governs at a place.

    Args:
        kept: the study.
        mark: of the hold or joint.
        elsewhere: makes the study with it moved so far; None where it cannot be moved.

    Raises:
        NoAnswer: the line has no answer as it is.
    """
    now = _greatest(kept.trip("no friction"), mark)
    rows = [_row(words, now, walked) for words, walked in _changes(kept, mark, elsewhere)]
    what = "force" if isinstance(mark, HoldMark) else "movement"
    about = (
        f"The greatest {what} without friction is {now.words} ({now.state}). Each row is a whole walk with one thing "
        "changed."
    )
    return Table(title="What would change it", about=about, head=["change", "becomes", "by", "state"], rows=rows)


def _greatest(trip: Trip | str, mark: HoldMark | JointMark) -> Greatest:
    if isinstance(trip, str):
        raise NoAnswer(trip)
    if not any(trip.good):
        raise NoAnswer(trip.because)
    return greatest_of_hold(trip, mark) if isinstance(mark, HoldMark) else greatest_of_joint(trip, mark)


def _row(words: str, now: Greatest, walked: Walked) -> list[Cell]:
    try:
        then = _greatest(*walked())
    except TakeupError as error:
        return [plain(words), plain("no answer"), plain(""), plain(str(error))]
    change = f"{signed(then.size - now.size, _DECIMALS[now.unit])} {now.unit}" if then.unit == now.unit else ""
    return [plain(words), Cell(text=then.words, use=then.use), plain(change), plain(then.state)]


def _changes(
    kept: Kept, mark: HoldMark | JointMark, elsewhere: Callable[[float], Kept] | None
) -> Iterator[tuple[str, Walked]]:
    """Yield each change, and the walk with it."""
    prepared = kept.base.prepared
    yield (
        f"{WARMER:.0f} K warmer, where it is warmer than at installation",
        lambda: (_other_states(prepared, _warmer), mark),
    )
    yield "1 bar more, where there is pressure", lambda: (_other_states(prepared, _more_pressure), mark)
    if any(line.takeups for line in kept.study.lines):
        yield "every joint 10 % stiffer", lambda: (whole_trip(_stiffer(prepared), "no friction"), mark)
    if elsewhere is not None:
        for away in (-FURTHER, FURTHER):
            way = "against" if away < 0.0 else "along"
            yield f"{abs(away):.0f} m {way} the flow", partial(_moved, elsewhere, away, mark.id)
    if prepared.ready and prepared.ready[0].ground.contacts.rubs:
        yield "friction at its highest", lambda: (kept.trip("high friction"), mark)


def _moved(elsewhere: Callable[[float], Kept], away: float, place: str) -> tuple[Trip | str, HoldMark | JointMark]:
    """Return the walk with a place moved, and its mark there: nodes and holds are numbered anew."""
    kept = elsewhere(away)
    trip, marks = kept.trip("no friction"), kept.base.marks
    if isinstance(trip, str):
        raise NoAnswer(trip)
    every: tuple[HoldMark | JointMark, ...] = (*marks.holds, *marks.joints)
    return trip, next(mark for mark in every if mark.id == place)


def _other_states(prepared: Prepared, change: Callable[[Study, ZoneState], ZoneState]) -> Trip | str:
    states = [_changed(prepared.study, state, change) for state in prepared.states]
    return trip_through(prepared, states, "no friction")


def _changed(study: Study, state: State, change: Callable[[Study, ZoneState], ZoneState]) -> State:
    """Return a state with its zones changed, what fills them as dense as it is then."""
    zones = []
    for zone, here in zip(state.layout.every, state.zones, strict=True):
        line, other = study.line(zone.parts[0].line), change(study, here)
        typed = None if line.medium_density is None else line.medium_density.value
        dense = content_density(other.content, other.pressure, other.temperature, typed=typed)
        zones.append(here if other is here else replace(other, density=dense))
    return replace(state, zones=tuple(zones))


def _warmer(study: Study, zone: ZoneState) -> ZoneState:
    warm = zone.temperature > study.site.installation
    return replace(zone, temperature=zone.temperature + WARMER) if warm else zone


def _more_pressure(_study: Study, zone: ZoneState) -> ZoneState:
    return replace(zone, pressure=zone.pressure + MORE_PRESSURE) if zone.pressure > 0.0 else zone


def _stiffer(prepared: Prepared) -> Prepared:
    names = [takeup.name for line in prepared.study.lines for takeup in line.takeups]
    model = with_rates(prepared.model, dict.fromkeys(names, STIFFER))
    ready = ready_runs(prepared.study, model, prepared.states)
    if not isinstance(ready, list):
        return replace(prepared, model=model, ready=(), because=ready.because)
    return replace(prepared, model=model, ready=tuple(ready))


__all__ = ["Greatest", "greatest_of_hold", "greatest_of_joint", "table_of"]
